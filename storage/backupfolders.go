package storage

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
)

// foldersName is the file beside a database that names the folders of its backups, a line
// each, so that an erasure takes the list of those who were erased there.
func foldersName(path string) string { return path + ".backups" }

// backupFolders are the folders that were noted and are still there.
func backupFolders(path string) (folders []string) {
	data, _ := os.ReadFile(foldersName(path)) // without it none is known
	for folder := range strings.Lines(string(data)) {
		folder = strings.TrimSuffix(folder, "\n")
		if info, err := os.Stat(folder); err == nil && info.IsDir() && filepath.IsAbs(folder) {
			folders = append(folders, folder)
		}
	}
	return folders
}

// BackupFolder is a folder of backups, with what musette put there.
type BackupFolder struct {
	Path  string
	Files []string // backups and lists of those who were erased
	Own   bool     // nothing else is there
}

// BackupFolders are the folders that hold backups of the database at path, of those in which
// musette has made some. One that cannot be looked into is left out.
func BackupFolders(path string) (found []BackupFolder) {
	folders := backupFolders(path)
	if beside, err := filepath.Abs(filepath.Join(filepath.Dir(path), "backups")); err == nil && !slices.Contains(folders, beside) {
		folders = append(folders, beside)
	}
	for _, folder := range folders {
		entries, err := os.ReadDir(folder)
		if err != nil {
			continue
		}
		one := BackupFolder{Path: folder}
		for _, e := range entries {
			_, made := backupMade(path, e)
			if made || e.Type().IsRegular() && strings.HasSuffix(e.Name(), forgottenName("")) {
				one.Files = append(one.Files, filepath.Join(folder, e.Name()))
			}
		}
		one.Own = len(one.Files) == len(entries)
		if len(one.Files) > 0 {
			found = append(found, one)
		}
	}
	return found
}

// noteFolder notes a folder of backups. Whoever runs the bot can read the note, whoever made it.
func noteFolder(path, folder string) error {
	folder, err := filepath.Abs(folder)
	if err != nil || strings.Contains(folder, "\n") || slices.Contains(backupFolders(path), folder) {
		return err
	}
	text := strings.Join(append(backupFolders(path), folder), "\n") + "\n"
	if err := putFile(foldersName(path), []byte(text), 0o644); err != nil {
		return err
	}
	return keepOwner(foldersName(path), path)
}

// listIn is the database for which the list in a folder of its backups would be.
func listIn(folder, path string) string { return filepath.Join(folder, filepath.Base(path)) }

// putList takes the list of those who were erased into a folder of backups, an empty one
// where nobody was: so a folder without a list is not taken for one in which nobody is on it.
func putList(path, folder string) error {
	there := forgottenName(listIn(folder, path))
	if _, err := os.Stat(forgottenName(path)); err == nil {
		return copyForgotten(path, listIn(folder, path))
	}
	if _, err := os.Stat(there); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := putFile(there, []byte(newList()), 0o600); err != nil {
		return err
	}
	return keepOwner(there, listIn(folder, path))
}

// newList is the head of a list on which nobody is yet.
func newList() string {
	salt := make([]byte, 32)
	rand.Read(salt) //nolint:errcheck // never fails
	return forgottenHead + hex.EncodeToString(salt) + "\n"
}

// StaleLists are the folders of backups whose list of those who were erased is not that of
// the database, as where an erasure may not write there.
func StaleLists(path string) (stale []string) {
	list, err := os.ReadFile(forgottenName(path))
	if err != nil {
		return nil
	}
	for _, folder := range backupFolders(path) {
		there, err := os.ReadFile(forgottenName(listIn(folder, path)))
		if err == nil && !bytes.Equal(list, there) || errors.Is(err, fs.ErrNotExist) {
			stale = append(stale, folder)
		}
	}
	return stale
}

// spreadList takes the list into each folder of backups. Where it may not write, the list
// there is as old as the newest backup.
func spreadList(path string) (missed []string) {
	for _, folder := range backupFolders(path) {
		if copyForgotten(path, listIn(folder, path)) != nil {
			missed = append(missed, folder)
		}
	}
	return missed
}

// Lists tells which lists of those who were erased there are for a restoration.
type Lists struct {
	Beside, InFolder string // beside the database and beside the backup; "": none
	Replaces         bool   // there is a database in the backup's place
}

// FindLists looks for the lists that Restore heeds.
func FindLists(backup, path string) (found Lists) {
	there := func(name string) string {
		if _, err := os.Stat(name); err != nil {
			return ""
		}
		return name
	}
	found.Beside = there(forgottenName(path))
	found.InFolder = there(forgottenName(listIn(filepath.Dir(backup), path)))
	found.Replaces = there(path) != ""
	return found
}

// keepOwner gives a file that root made beside a database to the owner of the database, or
// of its folder where there is none yet: the bot must be able to read it.
func keepOwner(name, path string) error {
	if os.Geteuid() != 0 {
		return nil
	}
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		info, err = os.Stat(filepath.Dir(path))
	}
	if err != nil {
		return err
	}
	owner, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return nil
	}
	return os.Chown(name, int(owner.Uid), int(owner.Gid))
}

// putFile writes a file anew, whole or not at all.
func putFile(name string, data []byte, mode fs.FileMode) error {
	temp, err := os.CreateTemp(filepath.Dir(name), ".musette-list-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name()) // gone already when all went well
	_, err = temp.Write(data)
	if err := errors.Join(err, temp.Chmod(mode), temp.Sync(), temp.Close()); err != nil {
		return err
	}
	return os.Rename(temp.Name(), name)
}
