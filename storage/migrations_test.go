package storage

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A migration that was given out never changes: databases that have climbed it would lack
// what it makes now. -update adds the sums of new ones and keeps those that are there.
func TestMigrationsStay(t *testing.T) {
	golden := filepath.Join("testdata", "migrations.golden")
	kept, err := os.ReadFile(golden)
	if err != nil && !*update {
		t.Fatal(err)
	}
	files, err := filepath.Glob("migrations/*.sql")
	if err != nil || len(files) < newestSchema {
		t.Fatalf("%d migrations, %v", len(files), err)
	}
	all := string(kept)
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		line := fmt.Sprintf("%x  %s\n", sha256.Sum256(text), filepath.Base(name))
		switch {
		case strings.Contains(all, line):
		case strings.Contains(all, filepath.Base(name)):
			t.Errorf("%s has changed. Leave it as it was given out, and write what is missing into a new one", name)
		case *update:
			all += line
		default:
			t.Errorf("%s is new. Run go test ./storage -run MigrationsStay -update before it is given out", name)
		}
	}
	if *update && !t.Failed() {
		if err := os.WriteFile(golden, []byte(all), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// A database made when two migrations had fewer indexes gets them, and is called whole.
func TestIndexesAgain(t *testing.T) {
	path, _ := olderDatabase(t)
	alter(t, path, `DROP INDEX club_with_digest`, `DROP INDEX post_by_athlete`, `DROP INDEX post_old`, `DROP INDEX pin_by_athlete`, `DROP TABLE fault_told`, `ALTER TABLE club ADD COLUMN told TEXT`,
		`DELETE FROM goose_db_version WHERE version_id >= 22`)
	if err := mustOpen(t, path).Close(); err != nil {
		t.Fatal(err)
	}
	if got := examined(t, path); got != "" {
		t.Errorf("got %q", got)
	}
}
