package terminal

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"musette/bot"
	"musette/storage"
)

// The lines typed before go with who is erased, and only then.
func TestErasureForgetsTypedLines(t *testing.T) {
	db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "test.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	history := filepath.Join(t.TempDir(), "history")
	if err := os.WriteFile(history, []byte("/done 50 note:tired\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := Open(t.Context(), Config{Bot: bot.New(bot.Deps{DB: db}), DB: db, Club: "home", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-06-01T08:00", History: history})
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{week, "/me erase", "/me export", "/me erase", ":press Keep", "/me erase"} {
		enter(t, s, line)
	}
	if _, err := os.Stat(history); err != nil || s.wipe {
		t.Fatalf("history before the second yes: %v, wiped %t", err, s.wipe)
	}
	if r := enter(t, s, ":press Erase everything"); !strings.Contains(r.Text(), "is erased") || !s.wipe {
		t.Errorf("%s, wiped %t", r.Text(), s.wipe)
	}
	if _, err := os.Stat(history); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("history after the erasure: %v", err)
	}
}
