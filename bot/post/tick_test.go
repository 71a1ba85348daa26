package post

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/planner"
	"musette/storage"
)

// pass lets minutes go by, with a tick at each.
func (h *house) minutes(t *testing.T, p *Poster, n int) {
	t.Helper()
	for range n {
		h.pass(time.Minute)
		h.tick(t, p)
	}
}

func newScene(t *testing.T, at string) (*house, *room) {
	t.Helper()
	h := newHouse(t, clockAt(at))
	return h, newRoom(h.clock)
}

func states(posts []storage.Post) []string {
	var out []string
	for _, p := range posts {
		id, _ := p.Key.ID("discord")
		out = append(out, fmt.Sprintf("%s %s %s %s: %s", p.Kind, id, p.Day, p.State, p.Reason))
	}
	slices.Sort(out)
	return out
}

func wantStates(t *testing.T, h *house, club storage.ClubID, want ...string) {
	t.Helper()
	slices.Sort(want)
	if got := states(h.posts(t, club)); !slices.Equal(got, want) {
		t.Errorf("posts\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func noDigest(t testing.TB, h *house, club storage.Club) {
	t.Helper()
	must(h.db.UpdateClub(t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error { s.DigestDay = "off"; return nil }))
}

// The first tick ever sends what is due today; nobody hears of days before.
func TestFirstTick(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	h.rider(t, club, "11", "", "06:30")
	h.rider(t, club, "12", "", "20:00")
	h.rider(t, club, "13", "Asia/Tokyo", "07:00") // there it is past, but settings are newer
	h.set(instant("2026-06-10T06:00Z"))
	p := h.poster(r, words{})
	h.tick(t, p)
	wantSeen(t, "first tick", r.take(), "reminder 11 2026-06-10")
	h.tick(t, p)
	wantSeen(t, "the same minute again", r.take())
	if got := must(h.db.LastTick(t.Context())); !got.Equal(h.now()) {
		t.Errorf("last tick %v, want %v", got, h.now())
	}
	h.set(instant("2026-06-10T19:00Z"))
	h.tick(t, h.poster(r, words{}))
	wantSeen(t, "in the evening", r.take(), "reminder 12 2026-06-10")
}

// After a stop, today's reminders and digests of two days go out; what is older
// is recorded, but of the last week only.
func TestCatchUp(t *testing.T) {
	h, r := newScene(t, "2026-06-01T03:00Z") // a Monday
	club := h.club(t, "1", "Europe/Lisbon")
	h.rider(t, club, "11", "", "06:30")
	h.tick(t, h.poster(r, words{}))
	h.set(instant("2026-06-16T09:00Z")) // a Tuesday
	h.tick(t, h.poster(r, words{}))
	wantSeen(t, "after two weeks", r.take(), "reminder 11 2026-06-16", "digest 1 2026-06-15")
	var want []string
	for d := 9; d <= 15; d++ {
		if d > 9 { // more than seven days ago at 09:00
			want = append(want, fmt.Sprintf("reminder 11 2026-06-%02d skipped: %s", d, reasonMissed))
		}
	}
	want = append(want, "digest 1 2026-06-15 sent: ", "reminder 11 2026-06-16 sent: ")
	wantStates(t, h, club.ID, want...)
	h.set(instant("2026-06-24T07:30Z")) // two days and an hour and a half after the next digest
	h.tick(t, h.poster(r, words{}))
	wantSeen(t, "another eight days", r.take(), "reminder 11 2026-06-24")
	if got := states(h.posts(t, club.ID)); !slices.Contains(got, "digest 1 2026-06-22 skipped: "+reasonMissed) {
		t.Errorf("the digest of 22 June: %s", strings.Join(got, "\n"))
	}
}

// Riders who pause, are off, read /ride only, whose club left or who have
// nothing to be told are left alone.
func TestWhoIsLeftAlone(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club, gone := h.club(t, "1", "Europe/Lisbon"), h.club(t, "2", "Europe/Lisbon")
	h.rider(t, gone, "21", "", "06:30")
	h.rider(t, gone, "22", "Europe/Lisbon", "06:30")
	if err := h.db.LeaveClub(t.Context(), gone.Key); err != nil {
		t.Fatal(err)
	}
	quiet := h.rider(t, club, "11", "", "06:30")
	for id, change := range map[string]func(*storage.Reminders){
		"12": func(s *storage.Reminders) { s.Mode = storage.RemindOff },
		"13": func(s *storage.Reminders) { s.Pause = day(t, "2026-06-10") },
		"14": func(s *storage.Reminders) { s.Pause = day(t, "2026-06-09") },
		"15": func(s *storage.Reminders) { s.By = storage.RemindRide },
	} {
		h.change(t, h.rider(t, club, id, "", "06:30").ID, func(s *storage.Settings) { change(&s.Remind) })
	}
	p := h.poster(r, words{quiet: func(a storage.Athlete, _ planner.Date) bool { return a.ID == quiet.ID }})
	h.tick(t, p)
	h.minutes(t, p, 120)
	wantSeen(t, "that morning", r.take(), "reminder 14 2026-06-10")
	h.set(instant("2026-06-11T08:00Z"))
	h.tick(t, p)
	wantSeen(t, "the day after", r.take(), "reminder 13 2026-06-11", "reminder 14 2026-06-11")
}

// Who rides for several clubs gets one reminder a day: of the club that they
// chose, else of the first with something to say.
func TestOneReminderAPerson(t *testing.T) {
	for name, tc := range map[string]struct {
		times  [2]string // of clubs 1 and 2
		chosen int
		quiet  int // this club has nothing to say
		off    int // the rider is not reminded of this one
		want   string
		at     string
	}{
		"none chosen":                  {[2]string{"06:30", "06:30"}, 0, 0, 0, "Club 1", "05:30"},
		"none chosen, the earlier":     {[2]string{"07:00", "06:30"}, 0, 0, 0, "Club 2", "05:30"},
		"first is quiet":               {[2]string{"06:30", "06:30"}, 0, 1, 0, "Club 2", "05:30"},
		"chosen":                       {[2]string{"06:30", "06:30"}, 2, 0, 0, "Club 2", "05:30"},
		"chosen comes later":           {[2]string{"06:30", "07:00"}, 2, 0, 0, "Club 2", "06:00"},
		"chosen came before":           {[2]string{"07:00", "06:30"}, 2, 0, 0, "Club 2", "05:30"},
		"chosen is quiet":              {[2]string{"06:30", "06:30"}, 2, 2, 0, "Club 1", "05:30"},
		"chosen comes later, quiet":    {[2]string{"06:30", "07:00"}, 2, 2, 0, "Club 1", "05:30"},
		"chosen came before, quiet":    {[2]string{"07:00", "06:30"}, 2, 2, 0, "Club 1", "06:00"},
		"chosen is off":                {[2]string{"06:30", "07:00"}, 2, 0, 2, "Club 1", "05:30"},
		"other is off":                 {[2]string{"06:30", "07:00"}, 2, 0, 1, "Club 2", "06:00"},
		"chosen has been set too late": {[2]string{"06:30", "00:30"}, 2, 0, 0, "Club 1", "05:30"},
	} {
		h, r := newScene(t, "2026-06-10T03:00Z")
		clubs := []storage.Club{h.club(t, "1", "Europe/Lisbon"), h.club(t, "2", "Europe/Lisbon")}
		for i, club := range clubs {
			noDigest(t, h, club)
			a := h.rider(t, club, "11", "", tc.times[i])
			if tc.off == i+1 {
				h.change(t, a.ID, func(s *storage.Settings) { s.Remind.Mode = storage.RemindOff })
			}
			if tc.chosen == i+1 {
				if err := h.db.ChooseClub(t.Context(), a.Key, club.ID); err != nil {
					t.Fatal(err)
				}
			}
		}
		p := h.poster(r, words{quiet: func(a storage.Athlete, _ planner.Date) bool { return int(a.Club) == tc.quiet }})
		h.tick(t, p)
		for range 4 * 4 {
			h.pass(15 * time.Minute)
			h.tick(t, p)
		}
		seen := r.take()
		if len(seen) != 1 || !strings.HasSuffix(seen[0].text, tc.want) || seen[0].at.Format("15:04") != tc.at {
			t.Errorf("%s: seen %+v, want one from %s at %s", name, seen, tc.want, tc.at)
		}
		h.set(instant("2026-06-10T20:00Z"))
		if h.tick(t, h.poster(r, words{})); len(r.take()) > 0 {
			t.Errorf("%s: another one in the evening", name)
		}
	}
}

// The chosen club is not waited for where it will not speak any more today.
func TestChosenClubStaysSilent(t *testing.T) {
	for name, tc := range map[string]struct {
		change func(*storage.Settings)
		quiet  string // until then
	}{
		"paused":                     {func(s *storage.Settings) { s.Remind.Pause = 20614 }, ""}, // 10 June
		"newer than its time":        {func(s *storage.Settings) { s.Remind.Since = instant("2026-06-10T12:00Z") }, ""},
		"had nothing to say by then": {func(s *storage.Settings) { s.Remind.At = "06:00" }, "2026-06-10T05:15Z"},
	} {
		h, r := newScene(t, "2026-06-10T03:00Z")
		speaks, silent := h.club(t, "1", "Europe/Lisbon"), h.club(t, "2", "Europe/Lisbon")
		noDigest(t, h, speaks)
		noDigest(t, h, silent)
		h.rider(t, speaks, "11", "", "06:30")
		chosen := h.rider(t, silent, "11", "", "07:00")
		must(h.db.UpdateSettings(t.Context(), chosen.ID, planner.DateOf(h.now()), func(s *storage.Settings) error { tc.change(s); return nil }))
		if err := h.db.ChooseClub(t.Context(), chosen.Key, silent.ID); err != nil {
			t.Fatal(err)
		}
		p := h.poster(r, words{quiet: func(a storage.Athlete, _ planner.Date) bool {
			return a.ID == chosen.ID && tc.quiet != "" && h.now().Before(instant(tc.quiet))
		}})
		h.tick(t, p)
		h.minutes(t, p, 5*60)
		if seen := r.take(); len(seen) != 1 || !strings.HasSuffix(seen[0].text, "Club 1") {
			t.Errorf("%s: seen %+v, want one of club 1", name, seen)
		}
	}
}

// Moving to another zone or time neither repeats a day nor sends at once what is past.
func TestMoves(t *testing.T) {
	h, r := newScene(t, "2026-06-10T02:00Z")
	club := h.club(t, "1", "Asia/Tokyo")
	noDigest(t, h, club)
	rider := h.rider(t, club, "11", "", "12:00") // 03:00 UTC
	p := h.poster(r, words{})
	until := func(at string) {
		for h.now().Before(instant(at)) {
			h.pass(15 * time.Minute)
			h.tick(t, p)
		}
	}
	move := func(zone string, at string) {
		h.change(t, rider.ID, func(s *storage.Settings) { s.Zone, s.Remind.At = zone, at })
	}
	h.tick(t, p)
	until("2026-06-10T05:00Z")
	wantSeen(t, "in Tokyo", r.take(), "reminder 11 2026-06-10")
	move("America/Los_Angeles", "06:30") // where it is 22:00 on the 9th
	until("2026-06-10T16:00Z")           // and 06:30 of the 10th comes
	wantSeen(t, "west, the same day again", r.take())
	until("2026-06-11T14:00Z")
	wantSeen(t, "the next day there", r.take(), "reminder 11 2026-06-11")
	move("Pacific/Kiritimati", "06:30") // where it is 04:00 on the 12th
	until("2026-06-11T18:00Z")
	wantSeen(t, "over the date line", r.take(), "reminder 11 2026-06-12")
	move("Pacific/Pago_Pago", "06:30") // 07:00 on the 11th
	until("2026-06-12T17:00Z")         // 06:00 on the 12th
	wantSeen(t, "back over the date line", r.take())
	until("2026-06-12T18:00Z") // 07:00 on the 12th, which it was before
	wantSeen(t, "a day that came twice", r.take())
	move("", "03:20") // 18:20 UTC on the 13th in Tokyo
	until("2026-06-12T19:00Z")
	wantSeen(t, "home", r.take(), "reminder 11 2026-06-13")
	move("", "03:10")
	until("2026-06-12T20:00Z")
	wantSeen(t, "a time that is past", r.take())
}

// A club's new zone carries its riders along, without haste.
func TestClubMoves(t *testing.T) {
	h, r := newScene(t, "2026-06-10T02:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	noDigest(t, h, club)
	h.rider(t, club, "11", "", "06:30")
	p := h.poster(r, words{})
	h.tick(t, p)
	must(h.db.UpdateClub(t.Context(), club.ID, func(zone *string, _ *storage.ClubSetup) error { *zone = "Asia/Tokyo"; return nil }))
	h.minutes(t, p, 300)
	wantSeen(t, "where the morning is over", r.take())
	h.set(instant("2026-06-10T21:31Z"))
	h.tick(t, p)
	wantSeen(t, "the next morning there", r.take(), "reminder 11 2026-06-11")
}

func TestClockSteps(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	h.rider(t, club, "11", "", "06:30")
	p := h.poster(r, words{})
	h.tick(t, p)
	for _, step := range []struct{ at, want string }{
		{"2026-06-10T06:00Z", "reminder 11 2026-06-10"},
		{"2026-06-10T05:00Z", ""},
		{"2026-06-10T06:00Z", ""},
		{"2026-06-11T05:45Z", "reminder 11 2026-06-11"}, // an hour fast for a while
		{"2026-06-11T04:46Z", ""},
		{"2026-06-11T05:46Z", ""},
		{"2026-08-01T06:00Z", "reminder 11 2026-08-01"}, // a wrong date
		{"2026-06-12T05:00Z", ""},
		{"2026-06-12T05:31Z", "reminder 11 2026-06-12"},
		{"2026-08-01T06:00Z", ""},
		{"2026-06-13T07:00Z", "reminder 11 2026-06-13"}, // found out only after the time of day
		{"2026-06-14T07:00Z", "reminder 11 2026-06-14"},
	} {
		h.set(instant(step.at))
		h.tick(t, p)
		var want []string
		if step.want != "" {
			want = append(want, step.want)
		}
		seen := slices.DeleteFunc(r.take(), func(s sight) bool { return s.kind == storage.PostDigest })
		wantSeen(t, step.at, seen, want...)
	}
}

// Spread over the time before, everybody has theirs by its minute.
func TestAhead(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	noDigest(t, h, club)
	for i := range 110 {
		h.rider(t, club, fmt.Sprint(100+i), "", "06:30")
	}
	h.rider(t, club, "51", "", "00:02")
	var late storage.Athlete
	for late.ID%11 != 8 { // whose minute is eight before
		late = h.rider(t, club, fmt.Sprint(60+late.ID%11), "", "23:00")
	}
	p := New(Config{DB: h.db, Bot: words{}, Sender: r, Now: h.now, Ahead: 10*time.Minute + 30*time.Second})
	h.tick(t, p)
	h.set(instant("2026-06-10T05:19Z"))
	h.tick(t, p)
	wantSeen(t, "eleven minutes before", r.take())
	for m := 20; m <= 30; m++ {
		switch m {
		case 25: // a restart in between
			p = New(p.Config)
		case 27: // too late for the rider's own minute, not for the time
			h.change(t, late.ID, func(s *storage.Settings) { s.Remind.At = "06:30" })
		}
		h.minutes(t, p, 1)
		want := 10
		if m == 30 {
			want = 11
		}
		if seen := r.take(); len(seen) != want {
			t.Errorf("%d sent at minute %d, want %d", len(seen), m, want)
		}
	}
	h.set(instant("2026-06-10T22:55Z"))
	h.tick(t, p)
	if seen := counts(r.take()); seen["reminder 51 2026-06-11"] > 0 {
		t.Error("the reminder of a day came on the day before")
	}
	h.minutes(t, p, 7)
	wantSeen(t, "at two past", r.take(), "reminder 51 2026-06-11")
}

func TestDigestComesWeekly(t *testing.T) {
	h, r := newScene(t, "2026-06-07T00:00Z") // a Sunday
	h.club(t, "1", "Europe/Lisbon")          // Monday 07:00
	second := h.club(t, "2", "Pacific/Kiritimati")
	must(h.db.UpdateClub(t.Context(), second.ID, func(_ *string, s *storage.ClubSetup) error { s.DigestDay, s.DigestTime = "sunday", "18:30"; return nil }))
	third := h.club(t, "3", "Europe/Lisbon")
	noDigest(t, h, third)
	p := h.poster(r, words{})
	var seen []sight
	for range 15 * 24 * 4 {
		h.tick(t, p)
		seen = append(seen, r.take()...)
		h.pass(15 * time.Minute)
	}
	wantSeen(t, "two weeks", seen, "digest 2 2026-06-07", "digest 1 2026-06-08", "digest 2 2026-06-14", "digest 1 2026-06-15", "digest 2 2026-06-21")
	for _, s := range seen {
		if want := map[string]string{"the week of Club 1": "06:00", "the week of Club 2": "04:30"}[s.text]; s.at.Format("15:04") != want || s.again {
			t.Errorf("%+v, want it at %s", s, want)
		}
	}
	h.club(t, "4", "Europe/Lisbon") // comes after its time
	h.set(instant("2026-06-22T09:00Z"))
	fifth := h.club(t, "5", "Europe/Lisbon")
	h.tick(t, p)
	wantSeen(t, "a new club", r.take(), "digest 1 2026-06-22", "digest 4 2026-06-22")
	must(h.db.UpdateClub(t.Context(), fifth.ID, func(_ *string, s *storage.ClubSetup) error { s.DigestTime = "10:30"; return nil }))
	h.minutes(t, p, 60)
	wantSeen(t, "at its time", r.take(), "digest 5 2026-06-22")
	must(h.db.UpdateClub(t.Context(), fifth.ID, func(_ *string, s *storage.ClubSetup) error { s.DigestTime = "12:00"; return nil }))
	h.minutes(t, p, 120)
	wantSeen(t, "another time on the same day", r.take())
}

// What cannot be made harms nobody else, and is recorded: after a panic at once,
// after other faults when its day is over.
func TestWhatCannotBeMade(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	panics, fails := h.rider(t, club, "11", "", "06:30"), h.rider(t, club, "12", "", "06:30")
	h.rider(t, club, "13", "", "06:30")
	p := h.poster(r, words{fault: func(a storage.Athlete) error {
		switch a.ID {
		case panics.ID:
			panic("a secret")
		case fails.ID:
			return errWeather
		}
		return nil
	}})
	h.tick(t, p)
	h.set(instant("2026-06-10T05:30Z"))
	for range 3 {
		if err := p.Tick(t.Context(), h.now()); !errors.Is(err, errWeather) {
			t.Errorf("got %v", err)
		}
		h.pass(time.Minute)
	}
	wantSeen(t, "the others", r.take(), "reminder 13 2026-06-10")
	wantStates(t, h, club.ID, "reminder 11 2026-06-10 failed: "+reasonBroken, "reminder 13 2026-06-10 sent: ")
	h.set(instant("2026-06-10T23:00Z"))
	h.tick(t, p)
	wantStates(t, h, club.ID, "reminder 11 2026-06-10 failed: "+reasonBroken, "reminder 13 2026-06-10 sent: ", "reminder 12 2026-06-10 failed: "+reasonBroken)
}

// A tick that could not do its work is not noted, so that the next one does it.
func TestTickThatFailsIsRepeated(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	h.rider(t, h.club(t, "1", "Europe/Lisbon"), "11", "", "06:30")
	p := h.poster(r, words{})
	h.tick(t, p)
	before := h.now()
	h.set(instant("2026-06-10T05:30Z"))
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	if err := p.Tick(ended, h.now()); err == nil {
		t.Error("a tick without time reports that it is done")
	}
	if got := must(h.db.LastTick(t.Context())); !got.Equal(before) {
		t.Errorf("noted a tick at %v", got)
	}
	h.pass(time.Minute)
	h.tick(t, p)
	wantSeen(t, "the next tick", r.take(), "reminder 11 2026-06-10")
}

// Old posts go once a day, unless the clock has jumped in the last hours.
func TestOldPostsGo(t *testing.T) {
	h, r := newScene(t, "2026-06-10T04:00Z")
	club := h.club(t, "1", "Europe/Lisbon")
	noDigest(t, h, club)
	h.rider(t, club, "11", "", "06:30")
	p := h.poster(r, words{})
	h.tick(t, p)
	h.set(instant("2026-06-10T06:00Z"))
	h.tick(t, p)
	h.set(instant("2026-08-10T03:00Z"))
	h.tick(t, p)
	if first := h.posts(t, club.ID)[0]; first.Day != day(t, "2026-06-10") {
		t.Errorf("gone after a jump; the oldest is %+v", first)
	}
	h.minutes(t, p, 6*60)
	for _, post := range h.posts(t, club.ID) {
		if post.Day == day(t, "2026-06-10") {
			t.Errorf("still there after 60 days: %+v", post)
		}
	}
	r.take()
}
