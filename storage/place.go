package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// mostLinks is how many links in a row are followed, as by Linux.
const mostLinks = 40

// Real is the file that symbolic links lead to, whether it is there yet or not.
// What lies beside a database, such as the list of erased people, lies beside the file.
func Real(path string) string {
	for real, links := path, 0; links < mostLinks; links++ {
		target, err := os.Readlink(real)
		if err != nil {
			return real
		}
		if !filepath.IsAbs(target) {
			target = filepath.Join(filepath.Dir(real), target)
		}
		real = target
	}
	return path // a circle, which opening will report
}

// checkPlace refuses what can hold no database: a folder, a device, and a file with
// several names. SQLite keeps the newest changes in a file beside the database, which
// it finds by the name: who opens another name does not see them, and destroys them.
func checkPlace(path string) error {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return noAccess(path, err)
	case info.IsDir():
		return errors.New("it is a folder. Name a file in it, for example musette.db")
	case !info.Mode().IsRegular():
		return errors.New("it is no file but a device or a pipe. Name a file, for example musette.db")
	case info.Size() == 1: // which SQLite takes for an empty file
		return errNoDatabase
	}
	if mounted(path) {
		return errors.New("it is mounted by itself, and what belongs beside it is not: the newest changes would be lost. Mount the folder that holds the database")
	}
	if inode, ok := info.Sys().(*syscall.Stat_t); ok && inode.Nlink > 1 {
		return fmt.Errorf("the file has %d names (hard links), and programs that use different ones lose each other's changes. Keep one and delete the others, which leaves the data: find / -xdev -samefile %s", inode.Nlink, ShellWord(path))
	}
	return nil
}

// ShellWord writes a path as a word of a command that people copy into their shell.
func ShellWord(path string) string {
	if strings.HasPrefix(path, "-") {
		path = "./" + path
	}
	if path != "" && strings.Trim(path, plainInShell) == "" {
		return path
	}
	return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
}

// plainInShell are the signs that mean themselves in each shell.
const plainInShell = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./:+,@%="

// mounted reports a file that is a mount of its own, as containers can have it.
func mounted(path string) bool {
	path, err := filepath.Abs(path)
	if err == nil {
		path, err = filepath.EvalSymlinks(path)
	}
	if err != nil {
		return false
	}
	mounts, err := os.ReadFile("/proc/self/mountinfo")
	return err == nil && mountedIn(string(mounts), path)
}

// mountedIn looks for a path among mounts, which have it in their fifth field with blanks
// as octal numbers. Source: proc_pid_mountinfo(5).
func mountedIn(mounts, path string) bool {
	path = strings.NewReplacer(" ", `\040`, "\t", `\011`, "\n", `\012`, `\`, `\134`).Replace(path)
	for line := range strings.Lines(mounts) {
		if fields := strings.Fields(line); len(fields) > 4 && fields[4] == path {
			return true
		}
	}
	return false
}

// noAccess words why a database cannot be read and written, with what mends it.
func noAccess(path string, err error) error {
	const another = "name another file, for example musette.db"
	if fault := fileFaultOf(err); fault != err {
		return fault
	}
	var of *fs.PathError
	if !errors.As(err, &of) {
		of = &fs.PathError{Op: "open", Path: path, Err: err}
	}
	switch folder := filepath.Dir(Real(path)); {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return &fileFault{ErrReadOnly, of.Err}
	case errors.Is(err, syscall.ELOOP):
		return fmt.Errorf("its symbolic links lead in a circle. Mend them, or %s", another)
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Errorf("%s is no folder. Make a folder, or %s", folder, another)
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("its folder %s is not there. Make it, or %s (%w)", folder, another, of.Err)
		}
	}
	return of
}

// makePrivate makes a missing file readable by its owner only: it holds health data.
func makePrivate(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return checkPlace(path)
	}
	if err != nil {
		return noAccess(path, err)
	}
	return f.Close()
}
