package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"musette/storage"
)

// lookTime bounds how long the database is looked through before it is opened.
const lookTime = 5 * time.Second

// openDatabase looks the database through before anything is written to it, opens it, and
// says in the log what had to be forgotten again.
func openDatabase(ctx context.Context, path string, log *slog.Logger) (*storage.DB, error) {
	if whole, err := lookThrough(ctx, path); err != nil {
		return nil, err
	} else if !whole {
		log.Info("the database is too large to be looked through at the start. musette check reads more of it", "seconds", lookTime.Seconds())
	}
	db, err := storage.Open(ctx, path)
	if err != nil {
		return nil, mended(err, path)
	}
	if n := db.ForgottenAgain(); n > 0 {
		log.Warn("the database held riders who had been erased, as an older copy does; they are erased again", "riders", n)
	}
	return db, nil
}

// lookThrough refuses a damaged database; whole tells whether there was time for all of it.
func lookThrough(ctx context.Context, path string) (whole bool, err error) {
	short, cancel := context.WithTimeout(ctx, lookTime)
	defer cancel()
	err = storage.LookThrough(short, path)
	if errors.Is(err, context.DeadlineExceeded) {
		return false, nil
	}
	return true, mended(err, path)
}

// mended adds to a fault of a damaged database the command that mends it.
func mended(err error, path string) error {
	if !storage.Damaged(err) {
		return err
	}
	return fmt.Errorf("%w. %s", err, restoreWith(path))
}

// restoreWith is the command that puts the newest backup back.
func restoreWith(path string) string {
	if newest := storage.NewestBackup(path); newest != "" {
		return fmt.Sprintf("The newest backup found: musette restore --db %s %s", storage.ShellWord(path), storage.ShellWord(newest))
	}
	return fmt.Sprintf("No backup is found. With one from elsewhere: musette restore --db %s /var/backups/musette/musette-2026-05-28T031500Z.db", storage.ShellWord(path))
}

// tooOpen tells who else can use a file or folder that is private, or nothing.
func tooOpen(path, what string, folder bool) string {
	info, err := os.Stat(path)
	if err != nil || info.IsDir() != folder || !folder && !info.Mode().IsRegular() { // a device is everybody's
		return ""
	}
	mode := info.Mode().Perm()
	deed := ""
	switch {
	case mode&0o044 != 0 && mode&0o022 != 0:
		deed = "read and changed"
	case mode&0o044 != 0:
		deed = "read"
	case mode&0o022 != 0:
		deed = "changed"
	default:
		return ""
	}
	return fmt.Sprintf("%s can be %s by others on this machine (mode %04o), and it holds %s: chmod %o %s", path, deed, mode, what, ownMode(info), storage.ShellWord(path))
}

// ownMode leaves a file or a folder to its owner alone.
func ownMode(info fs.FileInfo) fs.FileMode {
	if info.IsDir() {
		return 0o700
	}
	return 0o600
}

// privateFile is a file that others on the machine must not read or change.
type privateFile struct {
	name, path, holds string
	folder            bool
}

// privateFiles are those of the configuration that are there.
func privateFiles(conf Config) []privateFile {
	const health = "health data"
	var files []privateFile
	add := func(name, path, holds string) {
		files = append(files, privateFile{name: name, path: path, holds: holds})
	}
	add("database", conf.DB, health)
	add("database", conf.DB+"-wal", health)
	add("database", conf.DB+".forgotten", "who was erased, as hashes")
	for _, end := range []string{".schema-*.backup", ".damaged-*"} {
		copies, _ := filepath.Glob(globbed(conf.DB) + end) // the pattern is a right one
		for _, path := range copies {
			add("database", path, health)
		}
	}
	files = append(files, backupFiles(conf.DB)...)
	const token = "the bot's token"
	add("token", conf.Discord.TokenFile, token)
	add("configuration", conf.secretFile, token)
	return files
}

// backupFiles are the backups of a database, and their folder where it has nothing else: one
// that others use too is not taken from them.
func backupFiles(db string) (files []privateFile) {
	for _, folder := range storage.BackupFolders(db) {
		if folder.Own {
			files = append(files, privateFile{"backups", folder.Path, "backups", true})
		}
		for _, path := range folder.Files {
			files = append(files, privateFile{name: "backups", path: path, holds: "health data, or who was erased"})
		}
	}
	return files
}

// globbed is a path as part of a pattern that matches it alone.
func globbed(path string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(path)
}

// warning tells who else can use the file, or nothing.
func (f privateFile) warning() string { return tooOpen(f.path, f.holds, f.folder) }

// takeBack leaves the file to its owner alone.
func (f privateFile) takeBack() error {
	info, err := os.Stat(f.path)
	if err != nil {
		return err
	}
	return os.Chmod(f.path, ownMode(info))
}

// openFiles warns of each file of the configuration that others can use: its
// name for people, and the warning.
func openFiles(conf Config) (warnings [][2]string) {
	for _, file := range privateFiles(conf) {
		if text := file.warning(); text != "" {
			warnings = append(warnings, [2]string{file.name, text})
		}
	}
	return warnings
}

// release is the version of a package, which .ci/package sets.
var release string

// version is that of the program: of its package, else as the Go toolchain stamped it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "musette (unknown version)"
	}
	text := "musette " + cmp.Or(release, info.Main.Version)
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			text += " " + s.Value
		}
	}
	return text + " " + info.GoVersion
}
