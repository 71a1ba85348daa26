package terminal

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"musette/bot"
	"musette/storage/storagetest"
)

// Who left is in no list from then on, can still take out and erase everything, is
// back by speaking in the club, and is erased 30 days later.
func TestLeft(t *testing.T) {
	s, _ := newTicking(t)
	shows := func(line, want string, not ...string) {
		t.Helper()
		r := enter(t, s, line)
		if !strings.Contains(r.Text(), want) {
			t.Errorf("%s lacks %q: %s", line, want, r.Text())
		}
		for _, n := range not {
			if strings.Contains(r.Text(), n) {
				t.Errorf("%s shows %q: %s", line, n, r.Text())
			}
		}
	}
	for _, line := range []string{week, `/race add name:"Hill Loop" date:2026-07-26 priority:A hours:3`, ":as Tomas", week, `/race add name:"Hill Loop" date:2026-07-26 priority:B hours:3`, ":coach on"} {
		enter(t, s, line)
	}
	shows(":left", "needs NAME")
	shows(":left Inse", "nothing is stored of")
	shows(":left ines", "Ines has left Marrow Vale Wheelers")
	shows(":left Ines", "Wednesday 1 July 2026")
	for line, shown := range map[string]string{"/race list": "Tomas (B, you)", "/coach roster": "Tomas", "/coach digest": "1 rider"} {
		shows(line, shown, "Ines")
	}
	shows("/coach athlete Ines", "no rider of the club")
	shows(":as Ines", "Ines")
	shows("/me export", "1 usual week and 1 race")
	shows("/me erase", "Do you want to erase")
	shows(":as Tomas", "Tomas")
	shows("/race list", "Tomas (B, you)", "Ines")
	shows(":as Ines", "Ines")
	shows("/ride", "recovery 40min")
	shows("/race list", "Hill Loop: Ines (A, you), Tomas (B)")
	shows(":left Ines", "1 July 2026")
	shows(":now 2026-06-30T08:00", "30 June")
	shows(":tick", "Nothing is due.", "erased")
	shows(":now 2026-07-01T08:00", "1 July")
	shows(":tick", "1 rider who left 30 days ago is erased.")
	shows(":tick", "Nothing is due.", "erased")
	shows("/me export", "I store nothing about you.")
	shows(":as Tomas", "Tomas")
	shows("/race list", "Hill Loop: Tomas (B, you)")
}

// The lines typed before go with who is erased, and only then.
func TestErasureForgetsTypedLines(t *testing.T) {
	db := storagetest.New(t)
	history := filepath.Join(t.TempDir(), "history")
	if err := os.WriteFile(history, []byte("/done 50 note:tired\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	clock := new(Clock)
	db.Now = clock.Now
	s, err := Open(t.Context(), Config{Bot: bot.New(bot.Deps{DB: db}), DB: db, Clock: clock, Club: "home", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-06-01T08:00", History: history})
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
