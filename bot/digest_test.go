package bot

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/planner"
	"musette/storage"
)

// wheelers is a club of made-up riders on Monday 1 June 2026: the first ones
// have stories, the others race now and then.
func wheelers(t testing.TB, riders int) *talk {
	t.Helper()
	k := newTalk(t)
	stories := []struct {
		name  string
		lines []string
	}{
		{"Ines", []string{"/week share", `/race add name:"Hill Loop" date:2026-06-13 priority:A hours:3h30`, `/race add name:"Quarry Crit" date:2026-06-25 priority:A hours:1h`}},
		{"Bruno", []string{"/week share", `/race add name:"Hill Loop" date:2026-06-06 priority:A hours:3h30 start:10:30`, "/me set remind:always"}},
		{"Cleo", []string{`/race add name:"Mill Race" date:2026-06-07 priority:B hours:2`}},
		{"Dario", []string{"/week share", `/race add name:"Mill Race" date:2026-06-07 priority:C hours:2`}},
		{"Édith", []string{"/week share", `/race add name:"Pellow Tour" date:2026-07-10 priority:A hours:4 days:3`, `/race add name:"Pellow Prologue" date:2026-07-10 priority:B hours:0h30`}},
		{"Farid", []string{"/week share"}},
		{"Greta", []string{"/week share", "/tell away from:2026-08-20 to:2026-08-25", `/race add name:"Lake Day" date:2026-08-22 priority:A hours:5`}},
		{"Hugo", []string{"/week share", `/race add name:"Spring Cup" date:2026-05-31 priority:B hours:2`, `/race add name:"Harbour Ride" date:2026-05-30 priority:C hours:1`}},
	}
	k.who.Now = at("2026-05-20T08:00:00Z")
	k.db.Now = func() time.Time { return at("2026-05-31T20:00:00Z") }
	for i := range riders {
		story := stories[i%len(stories)]
		name := story.name
		if i >= len(stories) {
			name = fmt.Sprintf("%s %c.", story.name, 'A'+rune(i/len(stories)))
		}
		k.as(name)
		k.ok("/me set taper:14")
		for _, line := range story.lines {
			if line == "/week share" {
				line = "/week share week:" + Quote(inesWeek)
			}
			k.ok(line)
		}
		k.lived(story.name)
	}
	k.who.Now = at("2026-06-01T06:00:00Z")
	k.as("Coach")
	k.who.Coach = true
	return k
}

// lived stores what the days before 1 June brought to the rider who speaks.
func (k *talk) lived(story string) {
	k.t.Helper()
	who, err := k.base.rider(k.t.Context(), k.who)
	if err != nil {
		k.t.Fatal(err)
	}
	id, may := who.athlete.ID, func(day int) planner.Date { return planner.NewDate(2026, 5, day) }
	check := func(err error) {
		k.t.Helper()
		if err != nil {
			k.t.Fatal(err)
		}
	}
	ride := func(day, minutes int, rpe float64, note string) {
		check(k.db.SetRide(k.t.Context(), id, may(day), storage.Ride{Ride: planner.Ride{Date: may(day), Minutes: minutes, RPE: rpe}, Note: note}))
	}
	switch story {
	case "Bruno":
		ride(26, 60, 8, "")
		ride(30, 60, 3, "")
		claimed, err := k.db.Claim(k.t.Context(), []storage.Post{{Kind: storage.PostReminder, Key: who.athlete.PostKey(), Day: may(31), Athlete: id, Club: who.club.ID, Due: k.who.Now}})
		check(err)
		check(k.db.SettlePosts(k.t.Context(), []storage.Post{{ID: claimed[0].ID, State: storage.PostFailed, Reason: "direct messages are closed"}}))
	case "Farid":
		ride(26, 0, 0, "fever and a cough")
		ride(27, 0, 0, "")
		ride(31, 0, 0, "")
	case "Hugo":
		races, err := k.db.Races(k.t.Context(), id)
		check(err)
		check(k.db.SetResult(k.t.Context(), id, storage.Result{Race: races[1].ID, Feeling: 8, Place: "4th", Note: "sore throat before the start"}))
	}
}

const coachGolden = "testdata/coach"

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join(coachGolden, name)
	if *update {
		if err := os.MkdirAll(coachGolden, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is not as stored. See go test ./bot -run CoachGolden -update\n%s", file, got)
	}
}

// whole is a reply with its buttons and files, to be read.
func whole(r Reply) string {
	lines := []string{r.Text(), ""}
	for _, b := range r.Buttons {
		lines = append(lines, fmt.Sprintf("[%s] /%s %v", b.Label, b.Command, b.Options))
	}
	for _, f := range r.Files {
		lines = append(lines, fmt.Sprintf("--- %s (%s)\n%s", f.Name, f.Type, f.Data))
	}
	return strings.TrimRight(strings.Join(lines, "\n"), "\n") + "\n"
}

func TestCoachGolden(t *testing.T) {
	for _, riders := range []int{8, 40} {
		k := wheelers(t, riders)
		golden(t, fmt.Sprintf("digest%d.txt", riders), whole(k.ok("/coach digest")))
		golden(t, fmt.Sprintf("roster%d.txt", riders), whole(k.ok("/coach roster")))
		if riders == 8 {
			for _, name := range []string{"Ines", "Bruno", "Cleo", "Farid", "Hugo"} {
				golden(t, strings.ToLower(name)+".txt", whole(k.ok("/coach athlete "+name)))
			}
		}
	}
}

// BenchmarkDigest is the digest of a club of 40.
func BenchmarkDigest(b *testing.B) {
	k := wheelers(b, 40)
	club := k.club()
	for b.Loop() {
		if _, err := k.bot.Digest(b.Context(), club, k.who.Now); err != nil {
			b.Fatal(err)
		}
	}
}
