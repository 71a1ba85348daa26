package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"strings"

	"musette/bot/terminal"
	"musette/planner"
	"musette/storage"
)

// platformDiscord begins the keys of people on Discord.
const platformDiscord = "discord"

// personFlags name one person to the operator's commands.
type personFlags struct {
	DB      *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	Club    *string `placeholder:"NAME" help:"Club of the rider (home)."`
	Rider   *string `placeholder:"NAME" help:"The rider, by name."`
	Discord *string `placeholder:"ID" help:"The rider, by the number of their Discord account, in all clubs."`
}

// found is a person and where they ride.
type found struct {
	db    *storage.DB
	path  string
	whose storage.Whose
	name  string
	clubs []string
}

// find opens the database, to be read only, and looks the person up. The caller closes it.
func (p *personFlags) find(w *world) (*found, error) {
	flags := dbFlag(p.DB)
	if p.Club != nil {
		if flags == nil {
			flags = map[string]string{}
		}
		flags["club"] = *p.Club
	}
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, flags)
	if err := errors.Join(err, p.check()); err != nil {
		return nil, err
	}
	if _, err := os.Stat(conf.DB); errors.Is(err, fs.ErrNotExist) {
		return nil, &planner.InputError{Field: "--db", Msg: conf.DB + " is not there. For example --db /var/lib/musette/musette.db"}
	}
	if _, err := lookThrough(w.ctx, conf.DB); err != nil {
		return nil, err
	}
	db, err := storage.OpenAsIs(w.ctx, conf.DB)
	if err != nil {
		return nil, mended(err, conf.DB)
	}
	f := &found{db: db, path: conf.DB}
	if err := p.lookUp(w.ctx, f, conf.Club); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return f, nil
}

// check wants exactly one of the two ways to name a person.
func (p *personFlags) check() error {
	switch {
	case (p.Rider == nil) == (p.Discord == nil):
		return &planner.InputError{Field: "--rider", Msg: "name one person, by --rider or by --discord. For example --club home --rider Ines"}
	case p.Discord != nil && (*p.Discord == "" || strings.Trim(*p.Discord, "0123456789") != ""):
		return &planner.InputError{Field: "--discord", Msg: "is no number of an account. For example --discord 81384788765712384"}
	case p.Discord != nil && p.Club != nil:
		return &planner.InputError{Field: "--club", Msg: "goes with --rider alone, an account is one person in all clubs. For example --discord 81384788765712384"}
	}
	return usable("--rider", p.Rider, "Ines")
}

func (p *personFlags) lookUp(ctx context.Context, f *found, club string) error {
	if p.Discord != nil {
		f.whose, f.name = storage.Whose{Key: storage.PlatformKey(platformDiscord, *p.Discord)}, *p.Discord
	} else {
		riders, err := f.db.RidersNamed(ctx, club, *p.Rider)
		if err != nil {
			return err
		}
		if f.whose, err = one(riders, club, *p.Rider); err != nil {
			return err
		}
	}
	riders, err := f.db.Riders(ctx, f.whose)
	if err != nil {
		return err
	}
	for _, r := range riders {
		of, err := f.db.Club(ctx, r.Club)
		if err != nil {
			return err
		}
		f.name, f.clubs = r.Name, append(f.clubs, of.Name)
	}
	return nil
}

// one is the person whom all of the riders are.
func one(riders []storage.Athlete, club, name string) (storage.Whose, error) {
	var whose storage.Whose
	var accounts []string
	for i, r := range riders {
		id, ok := r.Key.ID(platformDiscord)
		if !ok {
			id = "no account"
		}
		if i > 0 && r.Whose() == whose {
			continue
		}
		whose, accounts = r.Whose(), append(accounts, id)
	}
	switch len(accounts) {
	case 0:
		return whose, &planner.InputError{Field: "--rider", Msg: fmt.Sprintf("no rider %s is stored in the club %s. For example --club home --rider Ines", name, club)}
	case 1:
		return whose, nil
	}
	return whose, &planner.InputError{Field: "--rider", Msg: fmt.Sprintf("several riders have the name %s in the club %s: %s. Name one of them, for example --discord %s",
		name, club, strings.Join(accounts, ", "), accounts[0])}
}

// where names the clubs.
func (f *found) where() string {
	if len(f.clubs) == 0 {
		return "no club"
	}
	return strings.Join(f.clubs, ", ")
}

// nothing says that nothing is stored, as a fault of the input.
func (f *found) nothing(err error) error {
	if errors.Is(err, storage.ErrNotFound) {
		return &planner.InputError{Field: "--discord", Msg: "nothing is stored of " + f.name + ". For example --discord 81384788765712384"}
	}
	return err
}

// exportCommand writes all that is stored of a person.
type exportCommand struct {
	personFlags `embed:""`
	Out         *string `placeholder:"FILE" help:"New file for the export. Else standard output."`
}

// Run implements the subcommand.
func (c *exportCommand) Run(w *world) (err error) {
	if err := usable("--out", c.Out, "ines.json"); err != nil {
		return err
	}
	f, err := c.find(w)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.db.Close()) }()
	data, err := f.db.Export(w.ctx, f.whose)
	if err != nil {
		return f.nothing(err)
	}
	if c.Out == nil {
		_, err = w.stdout.Write(data)
		return err
	}
	if err := writeNew(*c.Out, data); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w.stdout, "All that is stored of %s (%s) is in %s.\n", f.name, f.where(), *c.Out)
	return err
}

// writeNew writes a file that only its owner can read, and never over another one.
func writeNew(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return &planner.InputError{Field: "--out", Msg: fmt.Sprintf("cannot be made (%v). Name a new file, for example ines.json", err)}
	}
	_, err = file.Write(data)
	return errors.Join(err, file.Close())
}

// eraseCommand erases all that is stored of a person.
type eraseCommand struct {
	personFlags `embed:""`
	Yes         bool `help:"Do not ask for the name first."`
}

// Run implements the subcommand. It works beside musette serve.
func (c *eraseCommand) Run(w *world) error {
	f, err := c.find(w)
	if err != nil {
		return err
	}
	_, err = f.db.Export(w.ctx, f.whose) // is there anything?
	if err := errors.Join(f.nothing(err), f.db.Close()); err != nil {
		return err
	}
	if !c.Yes {
		if err := confirm(w, f); err != nil {
			return err
		}
	}
	db, err := openDatabase(w.ctx, f.path, slog.New(slog.NewTextHandler(w.stderr, nil)))
	if err != nil {
		return err
	}
	done, err := db.Erase(w.ctx, f.whose)
	if err := errors.Join(f.nothing(err), db.Close()); err != nil {
		return err
	}
	until := done.At.AddDate(0, 0, storage.KeepBackupDays).Format("2 January 2006")
	fmt.Fprintf(w.stdout, "%s is erased: %s.\nCopies of %s that you made before still hold them. Delete those by %s. Putting one back erases them again as long as %s.forgotten lies beside the database or the copy.\n",
		f.name, f.where(), f.path, until, filepath.Base(f.path))
	for _, folder := range done.Missed {
		fmt.Fprintf(w.stdout, "I could not write that list into %s. Make a backup now, which takes it there: musette backup --db %s --to %s\n", folder, storage.ShellWord(f.path), storage.ShellWord(folder))
	}
	if _, ok := f.whose.Key.ID(platformDiscord); ok {
		_, err = fmt.Fprintln(w.stdout, "Messages that musette sent stay in Discord.")
		return err
	}
	return forgetHistory(w)
}

// confirm asks for the name, so that nobody is erased by a slip.
func confirm(w *world, f *found) error {
	fmt.Fprintf(w.stdout, "This erases all that is stored of %s (%s). It cannot be undone.\nType the name %s to go on: ", f.name, f.where(), f.name)
	answer, err := unlessInterrupted(w.ctx, func() ([]byte, error) {
		return bufio.NewReader(io.LimitReader(w.stdin, 4096)).ReadBytes('\n')
	})
	fmt.Fprintln(w.stdout)
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	line := string(answer)
	if storage.Fold(line) != storage.Fold(f.name) {
		return &planner.InputError{Field: "name", Msg: "is another one, so nothing was erased. For example " + f.name}
	}
	return nil
}

// forgetHistory deletes the lines typed in musette chat. They do not say who typed
// them, so all go.
func forgetHistory(w *world) error {
	path := terminal.HistoryFile(w.getenv)
	if path == "" {
		return nil
	}
	switch err := os.Remove(path); {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("delete the lines typed in musette chat: %w", err)
	}
	_, err := fmt.Fprintln(w.stdout, "The lines typed in musette chat are deleted, too: "+path)
	return err
}
