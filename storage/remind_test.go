package storage

import (
	"context"
	"slices"
	"testing"
	"time"

	"musette/planner"
)

// keyed are riders with keys of all kinds, names that look like a platform's among them.
func keyed(t *testing.T, db *DB) (riders []Athlete) {
	t.Helper()
	ctx := context.Background()
	for _, club := range []Key{NameKey("home"), NameKey("away"), PlatformKey("discord", "900")} {
		c := must(db.EnsureClub(ctx, club, "a club", "Europe/Lisbon"))
		for _, key := range []Key{PlatformKey("discord", "1"), PlatformKey("discord", ""), PlatformKey("other", "1"), NameKey("Ines"), NameKey("a:b"), NameKey("discord:1"),
			NameKey("1"), NameKey("1 Ines"), NameKey(":"), NameKey("ß:x"), NameKey("žofia: ü"), NameKey("İ:1"), NameKey("ı:1"), NameKey("李:1"), NameKey("🚲")} {
			riders = append(riders, must(db.EnsureAthlete(ctx, c.ID, key, "a rider")))
		}
	}
	return riders
}

// The key of a person's posts is the same in Go and in SQL: one of everybody on
// a platform whatever the club, another for each name of each club.
func TestPostKeyIsThatOfSQL(t *testing.T) {
	db := newTestDB(t)
	owner := map[Key]Athlete{}
	for _, a := range keyed(t, db) {
		var sql string
		if err := db.reader.QueryRow(`SELECT `+postKey+` FROM athlete a WHERE a.id = ?`, a.ID).Scan(&sql); err != nil {
			t.Fatal(err)
		}
		if got := a.PostKey(); got.text != sql || got.IsZero() {
			t.Errorf("%q of club %d: %q, in SQL %q", a.Key.text, a.Club, got.text, sql)
		}
		_, here := a.Key.ID("discord")
		_, there := a.Key.ID("other")
		if platform := here || there; platform != (a.PostKey() == a.Key) {
			t.Errorf("%q is posted to as %q", a.Key.text, a.PostKey().text)
		}
		if other, taken := owner[a.PostKey()]; taken && (other.Key != a.Key || other.PostKey() != other.Key) {
			t.Errorf("%q of club %d and %q of club %d are one person", a.Key.text, a.Club, other.Key.text, other.Club)
		}
		owner[a.PostKey()] = a
	}
	if want := 3 + 3*12; len(owner) != want {
		t.Errorf("%d people, want %d", len(owner), want)
	}
}

// reminded is a rider of a club with these reminders.
func reminded(t *testing.T, db *DB, club, name, zone string, r Reminders) Athlete {
	t.Helper()
	a := mustAthlete(t, db, club, name)
	return must(db.UpdateSettings(context.Background(), a.ID, today, func(s *Settings) error { s.Zone, s.Remind = zone, r; return nil }))
}

func TestToRemind(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	due, today := fixedNow("2026-06-02T05:30:00Z")(), day(t, "2026-06-02")
	on := Reminders{Mode: RemindChanged, At: "06:30", Since: due}
	with := func(change func(*Reminders)) Reminders {
		r := on
		change(&r)
		return r
	}
	changed := reminded(t, db, "home", "changed", "", on)
	always := reminded(t, db, "home", "always", "Europe/Lisbon", with(func(r *Reminders) { r.Mode, r.By = RemindAlways, RemindThread }))
	reminded(t, db, "home", "off", "", with(func(r *Reminders) { r.Mode = RemindOff }))
	reminded(t, db, "home", "later", "", with(func(r *Reminders) { r.At = "06:31" }))
	tokyo := reminded(t, db, "home", "elsewhere", "Asia/Tokyo", on)
	reminded(t, db, "home", "in a pause", "", with(func(r *Reminders) { r.Pause = today }))
	rested := reminded(t, db, "home", "after a pause", "", with(func(r *Reminders) { r.Pause = today - 1 }))
	reminded(t, db, "home", "just set", "", with(func(r *Reminders) { r.Since = due.Add(time.Millisecond) }))
	reminded(t, db, "gone", "left", "", on)
	if err := db.LeaveClub(ctx, NameKey("gone")); err != nil {
		t.Fatal(err)
	}
	posted := reminded(t, db, "home", "posted", "", on)
	for _, p := range []Post{{Kind: PostReminder, Day: today}, {Kind: PostReminder, Day: today - 1}} {
		p.Key, p.Athlete, p.Club, p.State = posted.PostKey(), posted.ID, posted.Club, PostFailed
		must(db.Claim(ctx, []Post{p}))
	}
	digest := Post{Kind: PostDigest, Key: changed.PostKey(), Day: today, Club: changed.Club} // another kind
	eve := Post{Kind: PostReminder, Key: always.PostKey(), Day: today - 1, Athlete: always.ID, Club: always.Club}
	must(db.Claim(ctx, []Post{digest, eve}))

	lisbon := RemindTime{"Europe/Lisbon", "06:30"}
	if diff := diff([]Athlete{changed, always, rested}, must(db.ToRemind(ctx, lisbon, today, due))); diff != "" {
		t.Errorf("to remind (-want +got):\n%s", diff)
	}
	if diff := diff([]Athlete{tokyo}, must(db.ToRemind(ctx, RemindTime{"Asia/Tokyo", "06:30"}, today, due))); diff != "" {
		t.Errorf("in their own zone (-want +got):\n%s", diff)
	}
	want := []RemindTime{{"Asia/Tokyo", "06:30"}, {"Europe/Lisbon", "06:30"}, {"Europe/Lisbon", "06:31"}}
	if got := must(db.RemindTimes(ctx)); !slices.Equal(got, want) {
		t.Errorf("times %v, want %v", got, want)
	}

	// A new zone of the club is that of its riders who have none of their own.
	must(db.UpdateClub(ctx, changed.Club, func(zone *string, _ *ClubSetup) error { *zone = "Asia/Kathmandu"; return nil }))
	for zone, want := range map[string][]AthleteID{"Asia/Kathmandu": {changed.ID, rested.ID}, "Europe/Lisbon": {always.ID}} {
		var got []AthleteID
		for _, a := range must(db.ToRemind(ctx, RemindTime{zone, "06:30"}, today, due)) {
			got = append(got, a.ID)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: riders %v, want %v", zone, got, want)
		}
	}
}

// Somebody who rides for two clubs is reminded once a day, somebody of the same
// name is another.
func TestOnePersonInTwoClubs(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	on := func(s *Settings) error {
		s.Remind = Reminders{Mode: RemindAlways, At: "06:30", Since: time.UnixMilli(0)}
		return nil
	}
	for _, id := range []string{"1", "2"} {
		for _, key := range []Key{PlatformKey("discord", "5"), NameKey("Ines")} {
			a := must(db.EnsureAthlete(ctx, mustClub(t, db, id).ID, key, "Ines"))
			must(db.UpdateSettings(ctx, a.ID, today, on))
		}
	}
	today, due, lisbon := planner.Date(20000), time.UnixMilli(1), RemindTime{"Europe/Lisbon", "06:30"}
	var posts []Post
	for _, a := range must(db.ToRemind(ctx, lisbon, today, due)) {
		posts = append(posts, Post{Kind: PostReminder, Key: a.PostKey(), Day: today, Athlete: a.ID, Club: a.Club, Due: due})
	}
	if claimed := must(db.Claim(ctx, posts)); len(posts) != 4 || len(claimed) != 3 {
		t.Errorf("%d riders and %d posts, want 4 and 3", len(posts), len(claimed))
	}
	if left := must(db.ToRemind(ctx, lisbon, today, due)); len(left) != 0 {
		t.Errorf("still to remind: %+v", left)
	}
	if next := must(db.ToRemind(ctx, lisbon, today+1, due)); len(next) != 4 {
		t.Errorf("%d to remind on the next day, want 4", len(next))
	}
}
