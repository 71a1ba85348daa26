package storage

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"musette/planner"
)

// mustClub is a club of a platform with that number.
func mustClub(t testing.TB, db *DB, id string) Club {
	t.Helper()
	club, err := db.EnsureClub(context.Background(), PlatformKey("discord", id), "Club "+id, "Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	return club
}

func setUp(t testing.TB, db *DB, id ClubID, change func(*ClubSetup)) Club {
	t.Helper()
	club, err := db.UpdateClub(context.Background(), id, func(_ *string, s *ClubSetup) error { change(s); return nil })
	if err != nil {
		t.Fatal(err)
	}
	return club
}

func TestUpdateClub(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	was, bystander := mustClub(t, db, "1"), mustClub(t, db, "2")
	if was.Setup != DefaultSetup() {
		t.Errorf("a new club is set up as %+v", was.Setup)
	}
	rider := must(db.EnsureAthlete(ctx, was.ID, PlatformKey("discord", "5"), "Ana"))
	want := was
	want.Zone = "America/New_York"
	for _, setup := range []ClubSetup{
		{Channel: "<#12>", CoachRole: "<@&13>", DigestDay: "off", DigestTime: "00:00"},
		{Channel: "<#14>", DigestDay: "sunday", DigestTime: "23:59"}, {CoachRole: "Coach", DigestDay: "wednesday", DigestTime: "06:30"}, DefaultSetup(),
	} {
		want.Setup = setup
		got := must(db.UpdateClub(ctx, was.ID, func(zone *string, s *ClubSetup) error { *zone, *s = want.Zone, setup; return nil }))
		for from, club := range map[string]Club{"the change": got, "the next reading": must(db.FindClub(ctx, was.Key))} {
			if diff := diff(want, club); diff != "" {
				t.Errorf("%s (-want +got):\n%s", from, diff)
			}
		}
	}
	if got := must(db.FindAthlete(ctx, was.ID, rider.Key)).Zone; got != want.Zone {
		t.Errorf("a rider without a zone has %s, want the club's %s", got, want.Zone)
	}

	refusal := errors.New("no")
	for name, change := range map[string]func(*string, *ClubSetup) error{
		"own error":  func(_ *string, s *ClubSetup) error { s.Channel = "lost"; return refusal },
		"zone":       func(z *string, s *ClubSetup) error { *z, s.Channel = "Local", "lost"; return nil },
		"day":        func(_ *string, s *ClubSetup) error { s.DigestDay, s.Channel = "someday", "lost"; return nil },
		"no day":     func(_ *string, s *ClubSetup) error { s.DigestDay, s.Channel = "", "lost"; return nil },
		"time":       func(_ *string, s *ClubSetup) error { s.DigestTime, s.Channel = "24:00", "lost"; return nil },
		"loose time": func(_ *string, s *ClubSetup) error { s.DigestTime, s.Channel = "7:00", "lost"; return nil },
	} {
		switch _, err := db.UpdateClub(ctx, was.ID, change); name {
		case "own error":
			wantError(t, err, refusal)
		case "zone":
			wantInputError(t, err, "zone")
		default:
			if err == nil {
				t.Errorf("%s: taken", name)
			}
		}
	}
	if diff := diff(want, must(db.FindClub(ctx, was.Key))); diff != "" {
		t.Errorf("a refused change left a trace (-want +got):\n%s", diff)
	}
	if diff := diff(bystander, must(db.FindClub(ctx, bystander.Key))); diff != "" {
		t.Errorf("another club changed (-want +got):\n%s", diff)
	}
}

// A fault belongs to a channel: it goes with it and stays through other changes.
func TestFaultOfAChannel(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	club := mustClub(t, db, "1")
	fault := func() string { return must(db.FindClub(ctx, club.Key)).Fault }
	for _, tc := range []struct {
		what   string
		change func(*ClubSetup)
		want   string
	}{
		{"another day", func(s *ClubSetup) { s.DigestDay = "off" }, "no permission"},
		{"the same channel", func(s *ClubSetup) { s.Channel = "<#1>" }, "no permission"},
		{"another channel", func(s *ClubSetup) { s.Channel = "<#2>" }, ""},
		{"no channel", func(s *ClubSetup) { s.Channel = "" }, ""},
	} {
		setUp(t, db, club.ID, func(s *ClubSetup) { s.Channel = "<#1>" })
		if err := db.SetFault(ctx, club.ID, "no permission"); err != nil {
			t.Fatal(err)
		}
		if got := setUp(t, db, club.ID, tc.change).Fault; got != tc.want || fault() != tc.want {
			t.Errorf("%s: fault %q, stored %q, want %q", tc.what, got, fault(), tc.want)
		}
	}
	if err := errors.Join(db.SetFault(ctx, club.ID, "gone"), db.SetFault(ctx, club.ID, "")); err != nil || fault() != "" {
		t.Errorf("fault %q, %v after it was taken back", fault(), err)
	}
}

func TestClubsOfAPlatform(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	one, two, three := mustClub(t, db, "1"), mustClub(t, db, "2"), mustClub(t, db, "3")
	must(db.EnsureClub(ctx, PlatformKey("discordant", "4"), "other", "UTC"))
	must(db.EnsureClub(ctx, NameKey("discord:5"), "discord:5", "UTC"))
	must(db.EnsureClub(ctx, NameKey("home"), "home", "UTC"))
	list := func() []ClubID {
		var ids []ClubID
		for _, c := range must(db.Clubs(ctx, "discord")) {
			ids = append(ids, c.ID)
		}
		return ids
	}
	if got, want := list(), []ClubID{one.ID, two.ID, three.ID}; !slices.Equal(got, want) {
		t.Errorf("got clubs %v, want %v", got, want)
	}
	if err := errors.Join(db.LeaveClub(ctx, two.Key), db.LeaveClub(ctx, PlatformKey("discord", "99")), db.LeaveClub(ctx, Key{})); err != nil {
		t.Fatal(err)
	}
	if got, want := list(), []ClubID{one.ID, three.ID}; !slices.Equal(got, want) {
		t.Errorf("one left: got clubs %v, want %v", got, want)
	}
	if diff := diff(two, must(db.FindClub(ctx, two.Key))); diff != "" {
		t.Errorf("the club that left (-want +got):\n%s", diff)
	}
	if err := errors.Join(db.RejoinClub(ctx, two.Key), db.RejoinClub(ctx, one.Key), db.RejoinClub(ctx, PlatformKey("discord", "99"))); err != nil {
		t.Fatal(err)
	}
	if got, want := list(), []ClubID{one.ID, two.ID, three.ID}; !slices.Equal(got, want) {
		t.Errorf("it came back: got clubs %v, want %v", got, want)
	}
}

// leaveAt lets clubs remove the bot at an instant.
func leaveAt(t *testing.T, db *DB, at time.Time, keys ...Key) {
	t.Helper()
	db.Now = func() time.Time { return at }
	for _, key := range keys {
		if err := db.LeaveClub(context.Background(), key); err != nil {
			t.Fatal(err)
		}
	}
}

// wantNoOrphans looks for rows whose club or rider is gone.
func wantNoOrphans(t *testing.T, db *DB) {
	t.Helper()
	for _, table := range []string{"athlete", "race", "week", "absence", "day_limit", "block", "move"} {
		var orphans int
		condition := `athlete_id NOT IN (SELECT id FROM athlete)`
		if table == "athlete" {
			condition = `club_id NOT IN (SELECT id FROM club)`
		}
		if err := db.reader.QueryRow(`SELECT count(*) FROM ` + table + ` WHERE ` + condition).Scan(&orphans); err != nil || orphans != 0 {
			t.Errorf("%s: %d rows left of a club that was erased, %v", table, orphans, err)
		}
	}
}

// Erasing takes the clubs that left before an instant with all that is theirs.
func TestEraseClubs(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	left := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	gone, late, back, there := mustClub(t, db, "1"), mustClub(t, db, "2"), mustClub(t, db, "3"), mustClub(t, db, "4")
	clubs, rider := []Club{gone, late, back, there}, PlatformKey("discord", "11")
	facts := map[ClubID]*planner.Facts{}
	for _, club := range clubs {
		facts[club.ID] = fillFacts(t, db, must(db.EnsureAthlete(ctx, club.ID, rider, "Ana")).ID)
	}
	leaveAt(t, db, left, gone.Key, back.Key)
	leaveAt(t, db, left.Add(time.Hour), gone.Key, late.Key) // one told twice: the first time counts
	if err := db.RejoinClub(ctx, back.Key); err != nil {
		t.Fatal(err)
	}
	for _, step := range []struct {
		before time.Time
		erased int
		first  int // of the clubs that stay
	}{
		{left, 0, 0}, // at the instant is not before it
		{left.Add(time.Minute), 1, 1},
		{left.Add(2 * time.Hour), 1, 2},
		{left.Add(2 * time.Hour), 0, 2},
	} {
		if n := must(db.EraseClubs(ctx, step.before)); n != step.erased {
			t.Errorf("before %s: %d clubs erased, want %d", step.before, n, step.erased)
		}
		wantNoOrphans(t, db)
		for i, club := range clubs {
			_, err := db.FindClub(ctx, club.Key)
			if i < step.first {
				wantError(t, err, ErrNotFound)
				continue
			}
			athlete := must(db.FindAthlete(ctx, club.ID, rider))
			if diff := diff(facts[club.ID], must(db.Facts(ctx, athlete.ID))); err != nil || diff != "" {
				t.Errorf("before %s: %s, which stays, %v (-want +got):\n%s", step.before, club.Name, err, diff)
			}
		}
	}
	if diff := diff([]Club{back, there}, must(db.ClubsOf(ctx, rider))); diff != "" {
		t.Errorf("clubs left (-want +got):\n%s", diff)
	}
}

// Who rides for no club is forgotten, whether or not a club went at that time.
func TestEraseClubsForgetsPeople(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	left := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	gone, there := mustClub(t, db, "1"), mustClub(t, db, "2")
	only, both, never := PlatformKey("discord", "10"), PlatformKey("discord", "11"), PlatformKey("discord", "12")
	must(db.EnsureAthlete(ctx, gone.ID, only, "Only"))
	must(db.EnsureAthlete(ctx, gone.ID, both, "Both"))
	must(db.EnsureAthlete(ctx, there.ID, both, "Both"))
	for _, key := range []Key{only, both, never} {
		if err := errors.Join(db.ChooseClub(ctx, key, gone.ID), db.KeepChannel(ctx, key, "dm")); err != nil {
			t.Fatal(err)
		}
	}
	leaveAt(t, db, left, gone.Key)
	known := Person{Club: gone.ID, Channel: "dm"}
	for _, step := range []struct {
		before            time.Time
		only, both, never Person
	}{
		{left, known, known, Person{}}, // no club goes
		{left.Add(time.Minute), Person{}, Person{Channel: "dm"}, Person{}},
	} {
		must(db.EraseClubs(ctx, step.before))
		for key, want := range map[Key]Person{only: step.only, both: step.both, never: step.never} {
			if got := must(db.FindPerson(ctx, key)); got != want {
				t.Errorf("before %s: of %v is left %+v, want %+v", step.before, key, got, want)
			}
		}
	}
}

func TestGoneClubs(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	left := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	one, two, back := mustClub(t, db, "1"), mustClub(t, db, "2"), mustClub(t, db, "3")
	other := must(db.EnsureClub(ctx, PlatformKey("discordant", "4"), "Other", "UTC"))
	mustClub(t, db, "5")
	if got := must(db.GoneClubs(ctx, "discord")); len(got) != 0 {
		t.Errorf("before any left: %v", got)
	}
	leaveAt(t, db, left, two.Key, back.Key, other.Key)
	leaveAt(t, db, left.Add(time.Hour), one.Key, two.Key)
	if err := db.RejoinClub(ctx, back.Key); err != nil {
		t.Fatal(err)
	}
	if diff := diff([]GoneClub{{two.Key, two.Name, left}, {one.Key, one.Name, left.Add(time.Hour)}}, must(db.GoneClubs(ctx, "discord"))); diff != "" {
		t.Errorf("clubs that left (-want +got):\n%s", diff)
	}
}
