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

// Erasing takes the clubs that left before an instant with all that is theirs.
func TestEraseClubs(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	left := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	gone, late, back, there := mustClub(t, db, "1"), mustClub(t, db, "2"), mustClub(t, db, "3"), mustClub(t, db, "4")
	only, both := PlatformKey("discord", "10"), PlatformKey("discord", "11")
	facts := map[ClubID]*planner.Facts{}
	for _, club := range []Club{gone, late, back, there} {
		facts[club.ID] = fillFacts(t, db, must(db.EnsureAthlete(ctx, club.ID, both, "Both")).ID)
	}
	must(db.EnsureAthlete(ctx, gone.ID, only, "Only"))
	for _, key := range []Key{only, both} {
		if err := errors.Join(db.ChooseClub(ctx, key, gone.ID), db.KeepChannel(ctx, key, "dm")); err != nil {
			t.Fatal(err)
		}
	}
	leave := func(at time.Time, key Key) {
		db.Now = func() time.Time { return at }
		if err := db.LeaveClub(ctx, key); err != nil {
			t.Fatal(err)
		}
	}
	leave(left, gone.Key)
	leave(left.Add(time.Hour), gone.Key) // told twice: the first time counts
	leave(left.Add(time.Hour), late.Key)
	leave(left, back.Key)
	if err := db.RejoinClub(ctx, back.Key); err != nil {
		t.Fatal(err)
	}
	if n := must(db.EraseClubs(ctx, left)); n != 0 {
		t.Errorf("%d clubs erased that left at the instant, not before", n)
	}
	if n := must(db.EraseClubs(ctx, left.Add(time.Minute))); n != 1 {
		t.Errorf("%d clubs erased, want 1", n)
	}
	_, err := db.FindClub(ctx, gone.Key)
	wantError(t, err, ErrNotFound)
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
	for _, club := range []Club{late, back, there} {
		rider := must(db.FindAthlete(ctx, club.ID, both))
		if diff := diff(facts[club.ID], must(db.Facts(ctx, rider.ID))); diff != "" {
			t.Errorf("%s, which stays (-want +got):\n%s", club.Name, diff)
		}
	}
	if got := must(db.FindPerson(ctx, only)); got != (Person{}) {
		t.Errorf("of who rides for no club is left %+v", got)
	}
	if got, want := must(db.FindPerson(ctx, both)), (Person{Channel: "dm"}); got != want {
		t.Errorf("of who rides for others is left %+v, want %+v", got, want)
	}
	if n := must(db.EraseClubs(ctx, left.Add(2*time.Hour))); n != 1 {
		t.Errorf("%d clubs erased later, want the second alone", n)
	}
	if diff := diff([]Club{back, there}, must(db.ClubsOf(ctx, both))); diff != "" {
		t.Errorf("clubs left (-want +got):\n%s", diff)
	}
}
