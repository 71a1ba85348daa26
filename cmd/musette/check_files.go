package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"musette/bot/discord"
	"musette/storage"
)

// leastSpace is what must be free at least, in bytes.
const leastSpace = 64 << 20

// checkModes tells which files others on this machine can use, and with --fix
// leaves them to their owner alone. A database of another program is left as it is.
func (c *checkCommand) checkModes(conf Config, foreign bool) (found []discord.Finding) {
	for _, file := range privateFiles(conf) {
		warning := file.warning()
		if warning == "" || foreign && file.name == "database" {
			continue
		}
		finding := discord.Finding{State: discord.StateNote, What: file.name, Text: warning + ", or musette check --fix"}
		if c.Fix {
			finding = discord.Finding{State: discord.StateOK, What: file.name, Text: file.path + " can be used by its owner alone now"}
			if err := file.takeBack(); err != nil {
				finding.State, finding.Text = discord.StateFix, fmt.Sprintf("%s, which failed here (%v)", warning, err)
			}
		}
		found = append(found, finding)
	}
	return found
}

// checkSpace tells whether the disk has room for the copy that an update or an
// erasure makes of the database.
func checkSpace(db string) []discord.Finding {
	folder := filepath.Dir(db)
	var disk syscall.Statfs_t
	if err := syscall.Statfs(folder, &disk); err != nil {
		return nil // that the folder is missing is told of the database
	}
	need := int64(leastSpace)
	for _, name := range []string{db, db + "-wal"} {
		if info, err := os.Stat(name); err == nil {
			need += info.Size()
		}
	}
	free := int64(disk.Bavail) * int64(disk.Bsize)
	state, rest := discord.StateOK, ""
	if free < need {
		state, rest = discord.StateFix, fmt.Sprintf(", and %s are needed for the copy that an update makes. Free some space, or move the database", megabytes(need))
	}
	return []discord.Finding{{State: state, What: "space", Text: fmt.Sprintf("%s are free for the database%s", megabytes(free), rest)}}
}

// checkLists names the folders of backups that do not know of each erasure.
func checkLists(db string) (found []discord.Finding) {
	for _, folder := range storage.StaleLists(db) {
		found = append(found, discord.Finding{State: discord.StateNote, What: "backups",
			Text: fmt.Sprintf("%s does not know yet of everybody who was erased. A backup takes the list there: musette backup --db %s --to %s", folder, storage.ShellWord(db), storage.ShellWord(folder))})
	}
	return found
}

func megabytes(n int64) string { return fmt.Sprintf("%d MB", n>>20) }

// checkDamage reads the whole database and tells what is wrong with it, or nothing.
func checkDamage(ctx context.Context, db *storage.DB, path string) (state, text string) {
	ctx, cancel := context.WithTimeout(ctx, readTime)
	defer cancel()
	faults, err := db.Examine(ctx)
	switch {
	case ctx.Err() != nil:
		return discord.StateNote, "can be written, its schema is up to date. It is too large to be read through here"
	case err != nil:
		return discord.StateFix, mended(err, path).Error()
	case len(faults) > 0:
		return discord.StateFix, "it is damaged (" + strings.Join(faults, "; ") + "). Stop the bot and put back a backup, see musette restore --help. " + restoreWith(path)
	}
	return "", ""
}
