package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
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
		return err
	case info.IsDir():
		return errors.New("is a folder. Name a file in it, for example musette.db")
	case !info.Mode().IsRegular():
		return errors.New("is no file but a device or a pipe. Name a file, for example musette.db")
	}
	if inode, ok := info.Sys().(*syscall.Stat_t); ok && inode.Nlink > 1 {
		return fmt.Errorf("the file has %d names (hard links), and programs that use different ones lose each other's changes. Keep one and delete the others, which leaves the data: find / -xdev -samefile %s", inode.Nlink, path)
	}
	return nil
}

// makePrivate makes a missing file readable by its owner only: it holds health data.
func makePrivate(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return checkPlace(path)
	}
	if err != nil {
		return err
	}
	return f.Close()
}
