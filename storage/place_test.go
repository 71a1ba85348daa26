package storage

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Each name of a file would have a write-ahead log of its own: a file with two names is
// used by neither, also while somebody works with it, and nothing is lost by the refusal.
func TestFileWithTwoNamesIsRefused(t *testing.T) {
	ctx := context.Background()
	path, rider := olderDatabase(t)
	serving := mustOpen(t, path)
	hard := filepath.Join(filepath.Dir(path), "hard.db")
	if err := os.Link(path, hard); err != nil {
		t.Fatal(err)
	}
	mustAddRace(t, serving, rider, raceOn(t, "Town Sprint", "2026-07-11")) // is in the log beside path
	backups := t.TempDir()
	for deed, do := range map[string]func() error{
		"open":                   func() error { _, err := Open(ctx, hard); return err },
		"look":                   func() error { _, err := OpenAsIs(ctx, hard); return err },
		"lock":                   func() error { _, err := LockServing(ctx, hard); return err },
		"back up":                func() error { _, err := Backup(ctx, hard, backups, time.Now()); return err },
		"restore":                func() error { _, err := Restore(ctx, path, hard, time.Now()); return err },
		"open by the first name": func() error { _, err := Open(ctx, path); return err },
	} {
		if err := do(); err == nil || !strings.Contains(err.Error(), "the file has 2 names (hard links)") || !strings.Contains(err.Error(), "-samefile") {
			t.Errorf("%s: got %v", deed, err)
		}
	}
	if names, _ := filepath.Glob(hard + "-*"); len(names) > 0 {
		t.Errorf("%v was made", names)
	}
	if err := os.Remove(hard); err != nil {
		t.Fatal(err)
	}
	if got := must(serving.Races(ctx, rider)); len(got) != 2 {
		t.Errorf("races %v", got)
	}
	if err := serving.Close(); err != nil {
		t.Fatal(err)
	}
	if got := must(mustOpen(t, path).Races(ctx, rider)); len(got) != 2 {
		t.Errorf("after the other name is gone: races %v", got)
	}
}

// What is no file is called so, and opening waits for nobody.
func TestNoFileIsRefused(t *testing.T) {
	ctx := context.Background()
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{"/dev/null": "is no file but a device or a pipe", pipe: "is no file but a device or a pipe", t.TempDir(): "is a folder"} {
		_, open := Open(ctx, path)
		_, look := OpenAsIs(ctx, path)
		_, lock := LockServing(ctx, path)
		for deed, err := range map[string]error{"open": open, "look": look, "lock": lock} {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s %s: got %v", deed, path, err)
			}
		}
	}
}

// What lies beside a database lies beside the file, whatever link leads to it: else
// there would be two lists of erased people. A file that a link makes is private.
func TestLinksLeadToTheFile(t *testing.T) {
	ctx := context.Background()
	folder, elsewhere := t.TempDir(), t.TempDir()
	path, link := filepath.Join(folder, "a.db"), filepath.Join(elsewhere, "b.db")
	toFolder := filepath.Join(elsewhere, "folder")
	if err := errors.Join(os.Symlink(folder, toFolder), os.Symlink("folder/a.db", link)); err != nil {
		t.Fatal(err)
	}
	if got := Real(link); got != filepath.Join(toFolder, "a.db") {
		t.Fatalf("got %s", got)
	}
	if got := Real("none.db"); got != "none.db" {
		t.Fatalf("got %s", got)
	}
	db := mustOpen(t, link)
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("%v, %v", info, err)
	}
	rider := mustAthlete(t, db, "home", "me")
	if _, err := db.Erase(ctx, rider.Whose()); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(forgottenName(path)); err != nil {
		t.Error(err)
	}
	if names, _ := filepath.Glob(link + "*"); len(names) != 1 {
		t.Errorf("beside the link are %v", names)
	}
	if err := errors.Join(os.Symlink("x", filepath.Join(elsewhere, "y")), os.Symlink("y", filepath.Join(elsewhere, "x"))); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(ctx, filepath.Join(elsewhere, "x")); err == nil {
		t.Error("a circle of links was opened")
	}
}

// A file that is mounted by itself has its log elsewhere.
func TestMountedFileIsRefused(t *testing.T) {
	const mounts = `22 1 254:0 / / rw,relatime shared:1 - ext4 /dev/vda rw
731 703 254:0 /home/club/musette.db /data/musette.db rw,relatime - ext4 /dev/vda rw
732 703 254:0 /home/club/b /data/b\040c rw,relatime - ext4 /dev/vda rw
`
	for path, want := range map[string]bool{"/data/musette.db": true, "/data/b c": true, "/data/other.db": false, "/home/club/musette.db": false, "/data": false} {
		if got := mountedIn(mounts, path); got != want {
			t.Errorf("%s: %t, want %t", path, got, want)
		}
	}
	if !mounted("/proc") || mounted(t.TempDir()) {
		t.Errorf("/proc %t, a new folder %t", mounted("/proc"), mounted(t.TempDir()))
	}
}

// Who may not read and write a database reads what to do about it. Root may, so the
// system's words are given here.
func TestNoAccess(t *testing.T) {
	for cause, want := range map[error]string{
		syscall.EACCES: "Give the file and its folder to the user that runs musette, and mount the disk writable (permission denied)",
		syscall.EROFS:  "mount the disk writable (read-only file system)",
		syscall.ENOENT: "open a.db: no such file or directory",
		syscall.ENOSPC: "no space is left on the disk",
	} {
		if got := noAccess("a.db", cause); !strings.Contains(got.Error(), want) || errors.Is(got, ErrReadOnly) != (cause == syscall.EACCES || cause == syscall.EROFS) {
			t.Errorf("%v: got %v", cause, got)
		}
	}
}

// Whoever names a place where no file can be reads why, and what mends it.
func TestNoPlaceForAFile(t *testing.T) {
	ctx, folder := context.Background(), t.TempDir()
	t.Chdir(folder)
	if err := errors.Join(os.Symlink("loop.db", "loop.db"), os.Symlink("/gone/x.db", "lost.db"), os.WriteFile("note", nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	backup, _ := olderDatabase(t)
	for path, want := range map[string]string{
		"loop.db":   "its symbolic links lead in a circle. Mend them, or name another file, for example musette.db",
		"lost.db":   "its folder /gone is not there. Make it, or name another file, for example musette.db",
		"none/a.db": "none is not there. Make it, or name another file, for example musette.db",
		"note/a.db": "note is no folder. Make a folder, or name another file, for example musette.db",
	} {
		for deed, do := range map[string]func() error{
			"open":    func() error { _, err := Open(ctx, path); return err },
			"look":    func() error { _, err := OpenAsIs(ctx, path); return err },
			"lock":    func() error { _, err := LockServing(ctx, path); return err },
			"restore": func() error { _, err := Restore(ctx, backup, Real(path), time.Now()); return err },
		} {
			if err := do(); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s %s: got %v, want %q", deed, path, err, want)
			}
		}
	}
}

// A path in a command that people copy is one word of their shell, the path itself.
func TestShellWord(t *testing.T) {
	for _, path := range []string{"/var/lib/musette/musette.db", "my club.db", "it's.db", "a$HOME`id`\"\\.db", "é;rm x", "[x]?*.db", "a\nb", "-rf", "--", "", "~/x", "#x"} {
		out, err := exec.Command("sh", "-c", "set -- "+ShellWord(path)+"; printf '%s' $#/$1").Output()
		want := path
		if strings.HasPrefix(path, "-") {
			want = "./" + path
		}
		if err != nil || !strings.HasPrefix(string(out), "1/") {
			t.Errorf("%q: %q is not one word: %q, %v", path, ShellWord(path), out, err)
		}
		out, err = exec.Command("sh", "-c", "printf '%s' "+ShellWord(path)).Output()
		if err != nil || string(out) != want {
			t.Errorf("%q is %q for a shell, %v", path, out, err)
		}
	}
	if got := ShellWord("/var/lib/musette/musette.db"); got != "/var/lib/musette/musette.db" {
		t.Errorf("a usual path is quoted: %s", got)
	}
}
