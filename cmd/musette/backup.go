package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"musette/planner"
	"musette/storage"
)

// backupCommand copies the database while the bot runs.
type backupCommand struct {
	DB   *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	To   *string `placeholder:"DIR" help:"Folder for the backup (backups, beside the database). It is made when it is missing."`
	Keep int     `default:"7" placeholder:"N" help:"How many backups stay in the folder (7). Those older than 30 days go in any case."`
}

// Run implements the subcommand. A backup that is not whole is an error, and no file.
func (c *backupCommand) Run(w *world) error {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, dbFlag(c.DB))
	if c.Keep < 1 {
		err = errors.Join(err, &planner.InputError{Field: "--keep", Msg: "must be 1 or more. For example --keep 7"})
	}
	if err := errors.Join(err, usable("--to", c.To, "/var/backups/musette")); err != nil {
		return err
	}
	if _, err := os.Stat(conf.DB); errors.Is(err, fs.ErrNotExist) {
		return &planner.InputError{Field: "--db", Msg: conf.DB + " is not there. For example --db /var/lib/musette/musette.db"}
	}
	folder := filepath.Join(filepath.Dir(conf.DB), "backups")
	if c.To != nil {
		folder = *c.To
	}
	_, missing := os.Stat(folder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return &planner.InputError{Field: "--to", Msg: fmt.Sprintf("cannot be made (%v). Name a folder, for example /var/backups/musette", err)}
	}
	now := time.Now()
	name, err := storage.Backup(w.ctx, conf.DB, folder, now)
	if err != nil {
		if errors.Is(missing, fs.ErrNotExist) {
			_ = os.Remove(folder) // made for nothing
		}
		return mended(err, conf.DB)
	}
	gone, err := storage.ExpireBackups(conf.DB, folder, c.Keep, now)
	fmt.Fprintf(w.stdout, "%s is a whole copy of %s. It holds health data: keep it as safe as the database.\n", name, conf.DB)
	for _, old := range gone {
		fmt.Fprintln(w.stdout, "Deleted: "+old)
	}
	return err
}

// restoreCommand puts a backup in place of the database.
type restoreCommand struct {
	DB   *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	File string  `arg:"" help:"The backup, for example backups/musette-2026-05-28T031500Z.db."`
	Yes  bool    `help:"Do not ask first."`

	WithoutList bool `help:"Go on where no list of erased people (musette.db.forgotten) is found. Whoever was erased after the backup was made is then in the database again."`
}

// Run implements the subcommand.
func (c *restoreCommand) Run(w *world) error {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, dbFlag(c.DB))
	if err != nil {
		return err
	}
	info, err := os.Stat(c.File)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return &planner.InputError{Field: "FILE", Msg: fmt.Sprintf("cannot be read (%v). Name a backup that the user who runs this may read, for example backups/musette-2026-05-28T031500Z.db", err)}
	}
	if err != nil || !info.Mode().IsRegular() {
		return &planner.InputError{Field: "FILE", Msg: c.File + " is no file. Name a backup, for example backups/musette-2026-05-28T031500Z.db"}
	}
	if there, err := os.Stat(conf.DB); err == nil && os.SameFile(info, there) {
		return &planner.InputError{Field: "FILE", Msg: "is the database itself. Name a backup, for example backups/musette-2026-05-28T031500Z.db"}
	}
	lists := storage.FindLists(c.File, conf.DB)
	if lists == (storage.Lists{}) && !c.WithoutList {
		return &planner.InputError{Field: "FILE", Msg: c.noList(conf.DB)}
	}
	if !c.Yes {
		if err := c.confirm(w, conf.DB); err != nil {
			return err
		}
	}
	done, err := storage.Restore(w.ctx, c.File, conf.DB, time.Now())
	if err != nil {
		return err
	}
	fmt.Fprintf(w.stdout, "%s is the database %s now.\n", c.File, conf.DB)
	if !done.LastTick.IsZero() {
		fmt.Fprintf(w.stdout, "It was made at %s or later. What was entered after that is not in it. Reminders since then are read back in Discord before they are sent.\n", done.LastTick.UTC().Format("2006-01-02 15:04 MST"))
	}
	fmt.Fprintln(w.stdout, listWords(lists, conf.DB))
	if done.Riders > 0 {
		fmt.Fprintf(w.stdout, "Riders in it who had been erased since are erased again: %d.\n", done.Riders)
	}
	if done.Aside != "" {
		fmt.Fprintf(w.stdout, "The database from before is %s. Delete it when it is not needed any more, within %d days.\n", done.Aside, storage.KeepBackupDays)
	}
	return nil
}

// noList says that there is no list of erased people, and where to put one. That of a
// database with another name may lie in the folder.
func (c *restoreCommand) noList(db string) string {
	folder, list := filepath.Dir(c.File), filepath.Base(db)+".forgotten"
	from, where := "/var/backups/musette/"+list, "from the folder of the backups or from the old machine"
	if others, _ := filepath.Glob(filepath.Join(globbed(folder), "*.forgotten")); len(others) == 1 { // the pattern is a right one
		from, where = others[0], "from the folder, where it has the name of another database"
	}
	return fmt.Sprintf("has no list of erased people: %s is neither beside it nor beside the database that is gone, so riders who were erased would be back. Put the list there, %s, for example cp %s %s. Without one: %s",
		list, where, storage.ShellWord(from), storage.ShellWord(filepath.Join(folder, list)), c.again("--without-list", db))
}

// again is the same command with one flag more.
func (c *restoreCommand) again(flag, db string) string {
	return fmt.Sprintf("musette restore %s --db %s %s", flag, storage.ShellWord(db), storage.ShellWord(c.File))
}

// listWords says which list of erased people was heeded, and what to do where it may not be all.
func listWords(lists storage.Lists, db string) string {
	again := fmt.Sprintf("erase them once more, for example musette erase --db %s --discord 81384788765712384", storage.ShellWord(db))
	switch {
	case lists.Beside != "":
		return "List of erased people: " + lists.Beside + "."
	case lists.InFolder != "" && lists.Replaces:
		return "List of erased people: " + lists.InFolder + ". Beside the database there was none."
	case lists.InFolder != "":
		return fmt.Sprintf("List of erased people: %s, as it was when a backup or an erasure last wrote it. Whoever was erased after that is in the database again: %s.", lists.InFolder, again)
	case lists.Replaces:
		return "There is no list of erased people, so nobody was erased from the database that was here."
	}
	return fmt.Sprintf("There is no list of erased people. Whoever was erased after the backup was made is in the database again: %s.", again)
}

// confirm asks, since what was entered after the backup is gone from the database.
func (c *restoreCommand) confirm(w *world, db string) error {
	fmt.Fprintf(w.stdout, "This puts %s in the place of %s. What was told since is not in it. Type yes to go on: ", c.File, db)
	answer, err := unlessInterrupted(w.ctx, func() ([]byte, error) {
		return bufio.NewReader(io.LimitReader(w.stdin, maxFile)).ReadBytes('\n')
	})
	fmt.Fprintln(w.stdout)
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	if strings.TrimSpace(strings.ToLower(string(answer))) != "yes" {
		return &planner.InputError{Field: "answer", Msg: "is not yes, so nothing has changed. For example " + c.again("--yes", db)}
	}
	return nil
}
