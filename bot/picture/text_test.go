package picture

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/planner"
	"musette/planner/engine"
)

var update = flag.Bool("update", false, "rewrite testdata")

func TestDrawable(t *testing.T) {
	for _, c := range []struct{ name, in, drawn, said string }{
		{"plain", "Hill Loop", "Hill Loop", "Hill Loop"},
		{"spaces", "  Hill \t\n Loop ", "Hill Loop", "Hill Loop"},
		{"accents", "Łódź Çelik Ængø", "Łódź Çelik Ængø", "Łódź Çelik Ængø"},
		{"parted accents", "E\u0301tape", "Étape", "Étape"},
		{"Greek and Cyrillic", "Ωμέγα Дорога", "Ωμέγα Дорога", "Ωμέγα Дорога"},
		{"emoji", "🚴 Hill Loop 🏁", "Hill Loop", "🚴 Hill Loop 🏁"},
		{"Japanese", "大会 2026", "2026", "大会 2026"},
		{"Japanese alone", "大会", "the race", "大会"},
		{"emoji alone", "🏁", "the race", "the race"},
		{"before a colon", "大会: the plan", "the plan", "大会: the plan"},
		{"controls", "Hill\x00\x1b[31m Loop\u202e\u200b", "Hill[31m Loop", "Hill[31m Loop"},
		{"broken bytes", "Hill\xff\xfe Loop", "Hill Loop", "Hill Loop"},
		{"nothing", "", "the race", "the race"},
		{"punctuation alone", " - :: / ", "the race", "the race"},
		{"stray marks", "a\u0489b\ufe0f", "ab", "a\u0489b\ufe0f"},
	} {
		if got := drawable(c.in); got != c.drawn {
			t.Errorf("%s: drawn %q, want %q", c.name, got, c.drawn)
		}
		if got := sayable(c.in); got != c.said {
			t.Errorf("%s: said %q, want %q", c.name, got, c.said)
		}
	}
	long := drawable(strings.Repeat("Midsummer ", 1000))
	if n := utf8.RuneCountInString(long); n > maxName || !strings.HasSuffix(long, "…") {
		t.Errorf("a long name is drawn as %q", long)
	}
}

// Texts too wide for their room end in an ellipsis and then fit.
func TestFit(t *testing.T) {
	_, err := render(10, 10, func(c *canvas) {
		name := "The Grand Marrow Vale Wheelers Midsummer Hill Loop"
		for room := 40.0; room < 900; room += 7 {
			got := c.fit(name, titles, room)
			if c.width(got, titles) > room || got != name && !strings.HasSuffix(got, "…") {
				t.Errorf("room %g: %q takes %g", room, got, c.width(got, titles))
			}
			if got != name { // one letter more would not have fitted
				kept := []rune(strings.TrimSuffix(got, "…"))
				more := cutTo([]rune(name), len(kept)+2)
				if c.width(more, titles) <= room {
					t.Errorf("room %g: %q, though %q fits", room, got, more)
				}
			}
		}
		if got := c.fit(name, titles, 2000); got != name {
			t.Errorf("cut without need: %q", got)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Who hears a name hears it as it was typed: one emoji stays one, and letters stay apart.
func TestJoinedNamesAreSaidWhole(t *testing.T) {
	for _, name := range []string{"🚴\u200d♀️ Tour", "نیم\u200cفاصله", "🏴\U000e0067\U000e0062\U000e0073\U000e0063\U000e0074\U000e007f Highland Loop"} {
		if got := sayable(name); got != name {
			t.Errorf("got %q, want %q", got, name)
		}
	}
	if got := sayable("Hill\u202e \u200bLoop\x07"); got != "Hill Loop" {
		t.Errorf("got %q", got)
	}
	if got := sayable(strings.Repeat("a", maxName-2) + "\u200d" + strings.Repeat("b", maxName)); strings.HasSuffix(got, "\u200d…") {
		t.Errorf("a joiner joins nothing: %q", got)
	}
}

// The words of each picture, as people hear them.
func TestAlt(t *testing.T) {
	week, weekDays := planned(t, 8, 7, 3.5, 1)
	month, monthDays := planned(t, 60, 58, 8, 1)
	stage, stageDays := planned(t, 18, 12, 4, 5)
	year := handmade(make([]planner.Session, 365)...)
	for i := range year {
		year[i].Sessions = []planner.Session{ride(int16(30 + i%90))}
	}
	few := curves(7, 21)
	few.Points = []Point{few.Points[0], few.Points[4], few.Points[7], few.Points[10], few.Points[21]}
	unnamed := curves(0, 3)
	unnamed.Race = strings.Repeat("🏁", 50)
	idle := handmade(planner.RestSession)
	idle[0].Usual = nil
	strip := func(title string, today planner.Date, days []engine.Day) string {
		return newStrip(today, days).alt(sayable(title))
	}
	longest := curves(21, 21)
	fourteen := curves(14, 21)
	if p := mustTrade(t, fourteen); p.Alt != fourteen.alt() {
		t.Errorf("another text with the picture: %s", p.Alt)
	}
	if p := mustStrip(t, "Hill Loop", week, weekDays); p.Alt != strip("Hill Loop", week, weekDays) {
		t.Errorf("another text with the picture: %s", p.Alt)
	}
	for name, alt := range map[string]string{
		"strip-race-week":   strip("Hill Loop", week, weekDays),
		"strip-sixty-days":  strip("Hill Loop: the plan", month, monthDays),
		"strip-stage-race":  strip("Three Valleys 大会", stage, stageDays),
		"strip-first-of":    strip("A year", 0, year),
		"strip-nothing":     strip("", 0, idle),
		"trade-fourteen":    fourteen.alt(),
		"trade-few-lengths": few.alt(),
		"trade-no-taper":    unnamed.alt(),
		"trade-longest":     longest.alt(),
	} {
		path := filepath.Join("testdata", name+".txt")
		if *update {
			if err := os.WriteFile(path, []byte(alt+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if alt+"\n" != string(want) {
			t.Errorf("%s:\ngot  %s\nwant %s", name, alt, want)
		}
		if n := utf8.RuneCountInString(alt); n > maxAlt {
			t.Errorf("%s: %d characters", name, n)
		}
	}
}
