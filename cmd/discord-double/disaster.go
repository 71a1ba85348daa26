package main

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// fullCommand lets the disk fill up in the middle of a batch of reminders.
type fullCommand struct {
	Riders  int    `default:"1500" help:"Riders with a reminder that is due."`
	Musette string `placeholder:"FILE" help:"The program; built where left out."`
}

const (
	smallDisk = 48 << 20         // of the file system that fills up, in bytes
	fullFor   = 20 * time.Second // then there is room again
)

// Run implements the subcommand.
func (c *fullCommand) Run(w *world) (err error) {
	k, err := newKillDrill(w, c.Musette, discordtest.Options{})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, k.end()) }()
	own := k.folder
	k.folder = filepath.Join(own, "small")
	defer func() { k.folder = own }()
	if err := os.Mkdir(k.folder, 0o700); err != nil {
		return err
	}
	if err := syscall.Mount("tmpfs", k.folder, "tmpfs", 0, fmt.Sprintf("size=%d", smallDisk)); err != nil {
		return fmt.Errorf("mount a small file system, which root may do: %w", err)
	}
	defer func() { err = errors.Join(err, syscall.Unmount(k.folder, 0)) }()
	if err := k.fill(w.ctx, c.Riders); err != nil {
		return err
	}
	began := time.Now()
	bot, err := k.start()
	if err != nil {
		return err
	}
	defer bot.Process.Kill() //nolint:errcheck // it ended before where all went well
	if err := k.waitPosts(w.ctx, 0, killPatience); err != nil {
		return err
	}
	filler := filepath.Join(k.folder, "filler")
	if err := fillUp(filler); err != nil {
		return err
	}
	answer, err := k.refused(w.ctx)
	if err != nil {
		return err
	}
	if err := sleep(w.ctx, fullFor); err != nil {
		return err
	}
	during := k.arrived()
	if err := os.Remove(filler); err != nil {
		return err
	}
	fmt.Fprintf(w.stdout, "full      for %s; a rider who stored something read: %s\n", fullFor, answer)
	if err := errors.Join(k.settle(w.ctx), bot.Process.Signal(syscall.SIGTERM), bot.Wait()); err != nil {
		return err
	}
	return k.report(w.stdout, during, time.Since(began))
}

// fillUp writes a file until nothing more fits.
func fillUp(name string) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	defer file.Close()
	for size := 1 << 20; size > 0; size /= 2 {
		for piece := make([]byte, size); err == nil; {
			_, err = file.Write(piece)
		}
		if !errors.Is(err, syscall.ENOSPC) {
			return err
		}
		err = nil
	}
	return nil
}

// refused lets riders store something until the disk has no room for it, and
// returns what the last one read, which must say so.
func (k *killDrill) refused(ctx context.Context) (answer string, err error) {
	for i := range 400 {
		at := discordtest.At{User: k.riders[i%len(k.riders)].UserID}
		give, err := k.double.Command(at, "week share", map[string]any{"week": fmt.Sprintf("mon recovery %dmin; tue intervals 1h30 5x3min; sat long 3h", 30+i)})
		if err != nil {
			return "", err
		}
		got, err := give.Answer(ctx)
		if err != nil {
			return "", err
		}
		answer, _, _ = strings.Cut(got.Text(), "\n")
		if strings.Contains(answer, "I cannot store anything now") {
			return answer, nil
		}
	}
	return "", fmt.Errorf("the disk is full, but the answer is: %s", answer)
}

// settle waits until all have their message, or nothing more comes.
func (k *killDrill) settle(ctx context.Context) error {
	for last, since := k.posts.Load(), time.Now(); time.Since(since) < killStill; {
		open, err := k.open(ctx)
		if _, migrating := errors.AsType[*storage.SchemaError](err); err != nil && !migrating || err == nil && open == 0 && k.arrived() == len(k.riders) {
			return err
		}
		if n := k.posts.Load(); n != last {
			last, since = n, time.Now()
		}
		if err := sleep(ctx, 200*time.Millisecond); err != nil {
			return err
		}
	}
	return nil
}

// damageCommand overwrites pages of a database and puts its backup back.
type damageCommand struct {
	Riders  int    `default:"500" help:"Riders with a reminder that is due."`
	Musette string `placeholder:"FILE" help:"The program; built where left out."`
}

// Run implements the subcommand.
func (c *damageCommand) Run(w *world) (err error) {
	k, err := newKillDrill(w, c.Musette, discordtest.Options{})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, k.end()) }()
	if err := k.fill(w.ctx, c.Riders); err != nil {
		return err
	}
	began := time.Now()
	bot, err := k.start()
	if err != nil {
		return err
	}
	if err := k.waitPosts(w.ctx, 0, killPatience); err != nil {
		return err
	}
	said, err := k.musette(w.ctx, "backup", "--to", k.folder)
	if err != nil {
		return err
	}
	backup, _, _ := strings.Cut(said, " is a whole copy")
	if err := sleep(w.ctx, killInBatch); err != nil {
		return err
	}
	if err := errors.Join(bot.Process.Kill(), ignoreExit(bot.Wait())); err != nil {
		return err
	}
	before := k.arrived()
	if err := errors.Join(spoilIndex(w.ctx, k.database(), "week_by_athlete"), k.seen(w.ctx, "one index")); err != nil {
		return err
	}
	if err := errors.Join(overwrite(k.database()), k.seen(w.ctx, "each fourth page")); err != nil {
		return err
	}
	if said, err := k.musette(w.ctx, "restore", "--yes", backup); err != nil {
		return fmt.Errorf("%w\n%s", err, said)
	}
	if err := k.finish(w.ctx); err != nil {
		return err
	}
	return k.report(w.stdout, before, time.Since(began))
}

// seen fails unless musette check names the damage.
func (k *killDrill) seen(ctx context.Context, what string) error {
	said, err := k.musette(ctx, "check")
	if err == nil || !strings.Contains(said, "put back a backup") {
		return fmt.Errorf("musette check does not see that %s is damaged, but says\n%s", what, said)
	}
	return nil
}

// ignoreExit passes over the word that a process was killed.
func ignoreExit(err error) error {
	if _, killed := errors.AsType[*exec.ExitError](err); killed {
		return nil
	}
	return err
}

// spoilIndex overwrites the first page of an index, which nothing reads but the plans of
// riders: only a look through the whole file meets it.
func spoilIndex(ctx context.Context, path, index string) (err error) {
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`)
	page := int64(0)
	if err == nil {
		err = db.QueryRowContext(ctx, `SELECT rootpage FROM sqlite_schema WHERE name = ?`, index).Scan(&page)
	}
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	_, err = file.WriteAt(spoiled, (page-1)*pageSize)
	return errors.Join(err, file.Close())
}

const pageSize = 4096

// spoiled is what stands in place of a page.
var spoiled = []byte(strings.Repeat("musette!", pageSize/8))

// overwrite spoils each fourth page of a file from the second on, and drops its log.
func overwrite(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	info, err := file.Stat()
	if err != nil {
		return errors.Join(err, file.Close())
	}
	for at := int64(pageSize); err == nil && at+pageSize <= info.Size(); at += 4 * pageSize {
		_, err = file.WriteAt(spoiled, at)
	}
	return errors.Join(err, file.Close(), removeIfThere(path+"-wal"), removeIfThere(path+"-shm"))
}

func removeIfThere(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// musette runs a command of the program on the drill's database; what it says on both streams.
func (k *killDrill) musette(ctx context.Context, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, k.program, append(args, "--db", k.database())...)
	cmd.Dir, cmd.Env = k.folder, k.environment()
	out, err := cmd.CombinedOutput()
	return string(out), err
}
