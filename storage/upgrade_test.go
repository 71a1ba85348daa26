package storage

import (
	"context"
	"database/sql"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"musette/planner"
)

// upTo is our migrations up to a number.
func upTo(t *testing.T, last int) fs.FS {
	t.Helper()
	names, err := fs.Glob(embedded(), "*.sql")
	if err != nil || len(names) < last {
		t.Fatalf("got %v, %v", names, err)
	}
	some := fstest.MapFS{}
	for _, name := range names {
		if name > fmt.Sprintf("%05d~", last) {
			break
		}
		data, err := fs.ReadFile(embedded(), name)
		if err != nil {
			t.Fatal(err)
		}
		some[name] = &fstest.MapFile{Data: data}
	}
	return some
}

// schemaOne fills a database of schema 1 with two clubs, three riders and a row
// of each fact, as that schema had them.
const schemaOne = `
INSERT INTO club (id, name, folded, zone, channel, added_ms) VALUES
	(1, 'Marrow Vale Wheelers', 'MARROW VALE WHEELERS', 'Europe/Lisbon', '#races', 1780000000123), (4, 'Žofia''s', 'ŽOFIA''S', 'UTC', NULL, 1780000000456);
INSERT INTO athlete (id, club_id, name, folded, zone, is_coach, announce, taper_days, cut, pattern, shape, openers, added_ms) VALUES
	(2, 1, 'Ines', 'INES', 'Asia/Tokyo', 1, 0, 10, 60, 'third', 'linear', 'D-2', 1780000001000),
	(3, 1, 'Ann  Smith', 'ANN SMITH', NULL, 0, 1, 0, 0, 'second', 'exponential', 'D-1', 1780000002000),
	(7, 4, 'Ines', 'INES', NULL, 0, 1, 0, 0, 'second', 'exponential', 'D-1', 1780000003000);
INSERT INTO race (id, athlete_id, name, folded, date, priority, hours, kind, days, start, emphasis, place, registered, removed_ms) VALUES
	(5, 2, 'Hill Loop', 'HILL LOOP', '2026-06-14', 'A', 3.5, 'road race', 1, '10:30', 'train-through', 'Market Square', '2026-05-01', NULL),
	(6, 2, 'Old Loop', 'OLD LOOP', '2026-06-21', 'B', NULL, '', 2, '', 'important', '', '2026-05-02', 1780000004000),
	(9, 7, 'Far Tour', 'FAR TOUR', '2026-07-01', 'C', NULL, '', 1, '', 'train-through', '', '2026-05-03', NULL);
INSERT INTO week (athlete_id, from_date, text) VALUES (2, '2026-05-04', 'mon recovery 40min; tue rest; wed rest; thu off; fri rest; sat long 3h; sun rest');
INSERT INTO absence (id, athlete_id, from_date, to_date, kind) VALUES (1, 2, '2026-06-02', '2026-06-03', 'travel');
INSERT INTO day_limit (athlete_id, date, minutes) VALUES (2, '2026-06-05', 45);
INSERT INTO block (id, athlete_id, from_date, to_date, percent) VALUES (1, 2, '2026-05-11', '2026-05-17', 20);
INSERT INTO move (id, athlete_id, from_date, to_date) VALUES (1, 2, '2026-06-09', '2026-06-10');
`

// databaseOfSchemaOne is a closed database as the first musette left it.
func databaseOfSchemaOne(t *testing.T) string { return databaseOfSchema(t, 1, schemaOne) }

// databaseOfSchema is a closed database of a schema with rows.
func databaseOfSchema(t *testing.T, schema int, rows string) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "musette.db")
	if err := makePrivate(path); err != nil {
		t.Fatal(err)
	}
	if err := migrate(context.Background(), path, unsynced, upTo(t, schema)); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite3", writerDSN(path, unsynced))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(rows); err != nil {
		t.Fatal(err)
	}
	return path
}

// All that schema 1 held is found again by the names by which it was found.
func TestUpgradeFromSchemaOne(t *testing.T) {
	ctx, path := context.Background(), databaseOfSchemaOne(t)
	db := mustOpen(t, path)
	if got := must(schemaVersion(ctx, db.reader)); got != newestSchema {
		t.Errorf("schema %d, want %d", got, newestSchema)
	}
	wheelers := must(db.FindClub(ctx, NameKey("marrow  vale WHEELERS")))
	want := Club{ID: 1, Key: NameKey("Marrow Vale Wheelers"), Name: "Marrow Vale Wheelers", Zone: "Europe/Lisbon", Setup: DefaultSetup(), Added: wheelers.Added}
	want.Setup.Channel = "#races"
	if diff := diff(want, wheelers); diff != "" || wheelers.Added.UnixMilli() != 1780000000123 {
		t.Errorf("club added %s (-want +got):\n%s", wheelers.Added, diff)
	}
	other := must(db.FindClub(ctx, NameKey("žofia's")))
	ines := must(db.FindAthlete(ctx, wheelers.ID, NameKey("ines")))
	if diff := diff(Athlete{ID: 2, Club: 1, Key: NameKey("Ines"), Name: "Ines", Zone: "Asia/Tokyo", Added: ines.Added, OffUntold: true,
		Settings: Settings{Zone: "Asia/Tokyo", Coach: true, Remind: DefaultReminders(), Taper: planner.Taper{Days: 10, Cut: 60, Pattern: planner.EveryThirdDay, OpenersD2: true}}}, ines); diff != "" {
		t.Errorf("rider (-want +got):\n%s", diff)
	}
	if ann := must(db.FindAthlete(ctx, wheelers.ID, NameKey("Ann Smith"))); ann.ID != 3 || ann.Zone != "Europe/Lisbon" || ann.OffUntold || ann.Settings.Taper != (planner.Taper{}) {
		t.Errorf("got %+v, want rider 3 with the default taper", ann)
	}
	if namesake := must(db.EnsureAthlete(ctx, other.ID, NameKey("INES"), "INES")); namesake.ID != 7 || namesake.Name != "Ines" {
		t.Errorf("got %+v, want rider 7", namesake)
	}
	wantFacts := &planner.Facts{Taper: ines.Settings.Taper,
		Weeks: []planner.DatedWeek{{From: day(t, "2026-05-04"), Week: mustWeek(t, "mon recovery 40min; thu off; sat long 3h")}},
		Races: []planner.Race{{ID: 5, Name: "Hill Loop", Date: day(t, "2026-06-14"), Priority: planner.PriorityA, Hours: 3.5, Kind: "road race",
			Days: 1, Start: "10:30", Place: "Market Square", Registered: day(t, "2026-05-01")},
			{ID: 6, Name: "Old Loop", Date: day(t, "2026-06-21"), Priority: planner.PriorityB, Days: 2, Emphasis: planner.Important, Registered: day(t, "2026-05-02"),
				Told: planner.Told{Withdrawn: day(t, "2026-05-28")}}},
		Absences: []planner.Absence{{From: day(t, "2026-06-02"), To: day(t, "2026-06-03"), Travel: true}},
		Limits:   []planner.Limit{{Date: day(t, "2026-06-05"), Minutes: 45}},
		Blocks:   []planner.Block{{From: day(t, "2026-05-11"), To: day(t, "2026-05-17"), Percent: 20}},
		Moves:    []planner.Move{{From: day(t, "2026-06-09"), To: day(t, "2026-06-10")}}}
	if diff := cmp.Diff(wantFacts, must(db.Facts(ctx, ines.ID))); diff != "" {
		t.Errorf("facts (-want +got):\n%s", diff)
	}
	back := raceOn(t, "old loop", "2026-06-21")
	back.Priority, back.Registered = planner.PriorityB, day(t, "2026-06-30") // the day on which it is told
	if got := mustAddRace(t, db, ines.ID, back); got.ID != 6 || got.Registered != day(t, "2026-05-02") {
		t.Errorf("the removed race comes back as %+v", got)
	}
	if got := must(db.Clubs(ctx, "discord")); len(got) != 0 {
		t.Errorf("clubs of a platform: %v", got)
	}
	if err := checkForeignKeys(ctx, db.reader); err != nil {
		t.Error(err)
	}
	if again := must(db.EnsureClub(ctx, NameKey("third"), "third", "UTC")); again.ID <= other.ID {
		t.Errorf("a club number is used twice: %d", again.ID)
	}
}

// schemaTwo fills a database of schema 2 with a club of a platform, two of its
// riders, one of a terminal, and what that schema added.
const schemaTwo = `
INSERT INTO club (id, name, key, zone, channel, coach_role, digest_day, digest_time, fault, gone_ms, added_ms) VALUES
	(2, 'Marrow Vale Wheelers', 'discord:900', 'Asia/Kathmandu', '77', '88', 'friday', '18:30', 'may not write', 1780000009000, 1780000000123);
INSERT INTO athlete (id, club_id, name, key, zone, is_coach, announce, taper_days, cut, pattern, shape, openers, added_ms) VALUES
	(3, 2, 'Ines', 'discord:5', NULL, 0, 1, 12, 0, 'second', 'step', 'D-1', 1780000001000),
	(4, 2, 'Ines', 'INES', 'UTC', 0, 0, 0, 0, 'second', 'exponential', 'D-1', 1780000002000);
INSERT INTO race (id, athlete_id, name, folded, date, priority, hours, kind, days, start, emphasis, place, registered, removed_ms) VALUES
	(8, 3, 'Hill Loop', 'HILL LOOP', '2026-06-14', 'A', 3.5, '', 1, '', 'train-through', '', '2026-05-01', NULL);
INSERT INTO person (key, club_id, channel, refused_ms) VALUES ('discord:5', 2, '99', NULL);
INSERT INTO button (id, command, options, made_ms) VALUES ('abc', 'ride', '{}', 1780000003000);
`

// Riders of schema 2 are as they were, without reminders, and can be told of all
// that is new.
func TestUpgradeFromSchemaTwo(t *testing.T) {
	ctx, path := context.Background(), databaseOfSchema(t, 2, schemaTwo)
	db := mustOpen(t, path)
	if got := backups(t, path); len(got) != 1 || got[0] != backupName(path, 2) {
		t.Errorf("got backups %v, want %s", got, backupName(path, 2))
	}
	club := must(db.Club(ctx, 2))
	want := Club{ID: 2, Key: PlatformKey("discord", "900"), Name: "Marrow Vale Wheelers", Zone: "Asia/Kathmandu", Fault: "may not write", Added: club.Added,
		Setup: ClubSetup{Channel: "77", CoachRole: "88", DigestDay: "friday", DigestTime: "18:30"}}
	if diff := diff(want, club); diff != "" || club.Added.UnixMilli() != 1780000000123 {
		t.Errorf("club added %s (-want +got):\n%s", club.Added, diff)
	}
	riders := must(db.Athletes(ctx, 2))
	if len(riders) != 2 || riders[0].ID != 3 || riders[1].ID != 4 {
		t.Fatalf("riders %+v, want 3 and 4", riders)
	}
	for i, zone := range []string{"", "UTC"} {
		taper := planner.Taper{}
		if i == 0 {
			taper = planner.Taper{Days: 12}
		}
		if diff := diff(Settings{Zone: zone, Announce: i == 0, Taper: taper, Remind: DefaultReminders()}, riders[i].Settings); diff != "" || riders[i].Thread != "" {
			t.Errorf("settings of rider %d, thread %q (-want +got):\n%s", riders[i].ID, riders[i].Thread, diff)
		}
	}
	if got := must(db.OpenPosts(ctx)); len(got) != 0 || !must(db.LastTick(ctx)).IsZero() {
		t.Errorf("posts %v of a schema that had none", got)
	}
	for _, err := range []error{db.SetRide(ctx, 3, today, Ride{Ride: planner.Ride{Date: day(t, "2026-06-02"), Minutes: 55, RPE: 8}}), db.SetResult(ctx, 3, Result{Race: 8, Feeling: 9}),
		second(db.Claim(ctx, []Post{{Kind: PostReminder, Key: riders[0].PostKey(), Day: 20000, Athlete: 3, Club: 2}})), checkForeignKeys(ctx, db.reader)} {
		if err != nil {
			t.Error(err)
		}
	}
	if got := must(db.Facts(ctx, 3)); len(got.Done) != 1 || len(got.Results) != 1 || len(got.Races) != 1 {
		t.Errorf("facts %+v, want a race, a ride and a result", got)
	}
}

// schemaThree fills a database of schema 3 with riders whose weeks have a day off
// now, had one, will have one, and never had, and with all that a later schema keeps differently.
const schemaThree = `
INSERT INTO club (id, name, key, zone, added_ms) VALUES (2, 'home', 'HOME', 'UTC', 1780000000123);
INSERT INTO athlete (id, club_id, name, key, taper_days, cut, pattern, shape, openers, added_ms) VALUES
	(3, 2, 'Ines', 'INES', 12, 0, 'second', 'step', 'D-2', 1), (4, 2, 'Ann', 'ANN', 0, 0, 'third', 'linear', 'D-1', 1), (5, 2, 'Rui', 'RUI', 0, 0, 'second', 'step', 'D-1', 1),
	(6, 2, 'Tom', 'TOM', 0, 0, 'second', 'step', 'D-1', 1), (17, 2, 'Gone', 'GONE', 0, 0, 'second', 'step', 'D-1', 1);
DELETE FROM athlete WHERE id = 17;
INSERT INTO week (athlete_id, from_date, text) VALUES
	(3, '2020-01-06', 'mon off; tue rest; wed rest; thu off; fri rest; sat long 3h; sun off'),
	(4, '2020-01-06', 'mon off; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest'),
	(4, '2020-02-03', 'mon rest; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest'),
	(5, '2020-01-06', 'mon rest; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest'),
	(5, '2190-01-06', 'mon rest; tue rest; wed rest; thu off; fri rest; sat long 3h; sun rest'),
	(6, '2020-01-06', 'mon rest; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest');
INSERT INTO absence (id, athlete_id, from_date, to_date, kind) VALUES (4, 3, '2026-06-02', '2026-06-03', 'travel'), (9, 3, '2026-06-12', '2026-06-13', 'off');
DELETE FROM absence WHERE id = 9;
INSERT INTO block (id, athlete_id, from_date, to_date, percent) VALUES (6, 3, '2026-05-11', '2026-05-17', 20);
INSERT INTO day_limit (athlete_id, date, minutes) VALUES (3, '2026-06-05', 45);
INSERT INTO move (id, athlete_id, from_date, to_date) VALUES (8, 3, '2026-06-09', '2026-06-10');
INSERT INTO race (id, athlete_id, name, folded, date, priority, place, registered, removed_ms) VALUES
	(8, 3, 'Hill Loop', 'HILL LOOP', '2026-06-14', 'A', 'Market Square', '2026-05-01', NULL), (9, 3, 'Mill', 'MILL', '2026-06-21', 'B', 'Bridge', '2026-05-01', 1780000004000);
INSERT INTO ride (athlete_id, date, minutes, rpe, note) VALUES (3, '2026-05-20', 60, 7.5, 'windy'), (3, '2026-05-21', 0, NULL, '');
INSERT INTO result (race_id, feeling, added_ms) VALUES (8, 7, 1);
`

// Facts of schema 3 were told before everything, rides on their day, and who had
// days off that count is to be told what they are now.
func TestUpgradeFromSchemaThree(t *testing.T) {
	ctx := context.Background()
	db := mustOpen(t, databaseOfSchema(t, 3, schemaThree))
	off := map[AthleteID]bool{3: true, 4: false, 5: true, 6: false}
	for id, want := range off {
		if got := must(db.Athlete(ctx, id)).OffUntold; got != want {
			t.Errorf("rider %d is to be told of days off: %v, want %v", id, got, want)
		}
	}
	for id, want := range map[AthleteID]planner.Taper{3: {Days: 12, OpenersD2: true}, 4: {Pattern: planner.EveryThirdDay}, 5: {}} {
		if got := must(db.Facts(ctx, id)); got.Taper != want || got.OldTaper != nil {
			t.Errorf("rider %d has the taper %+v after %v, want %+v", id, got.Taper, got.OldTaper, want)
		}
	}
	want := &planner.Facts{
		Weeks: []planner.DatedWeek{{From: day(t, "2020-01-06"), Week: mustWeek(t, "sat long 3h")}},
		Races: []planner.Race{{ID: 8, Name: "Hill Loop", Date: day(t, "2026-06-14"), Days: 1, Place: "Market Square", Registered: today},
			{ID: 9, Name: "Mill", Date: day(t, "2026-06-21"), Priority: planner.PriorityB, Days: 1, Registered: today, Told: planner.Told{Withdrawn: day(t, "2026-05-28")}}},
		Taper:    planner.Taper{Days: 12, OpenersD2: true},
		Absences: []planner.Absence{{From: day(t, "2026-06-02"), To: day(t, "2026-06-03"), Travel: true}},
		Limits:   []planner.Limit{{Date: day(t, "2026-06-05"), Minutes: 45}},
		Blocks:   []planner.Block{{From: day(t, "2026-05-11"), To: day(t, "2026-05-17"), Percent: 20}},
		Moves:    []planner.Move{{From: day(t, "2026-06-09"), To: day(t, "2026-06-10")}},
		Done:     []planner.Ride{{Date: day(t, "2026-05-20"), Minutes: 60, RPE: 7.5, Told: on(t, "2026-05-20")}, {Date: day(t, "2026-05-21"), Told: on(t, "2026-05-21")}},
		Results:  []planner.Result{{RaceID: 8, Race: "Hill Loop", Feeling: 7}},
	}
	wantFacts(t, db, 3, want)
	if rides := must(db.Rides(ctx, 3, 0)); len(rides) != 2 || rides[0].Note != "windy" {
		t.Errorf("rides %+v", rides)
	}
	// Ids go on where they were, also where a table was made again.
	if got := must(db.AddAbsence(ctx, 3, today, planner.Absence{From: 20000, To: 20000})); got != 10 {
		t.Errorf("the next absence is %d, want 10", got)
	}
	if got := must(db.EnsureAthlete(ctx, 2, NameKey("new"), "new")); got.ID != 18 || got.OffUntold {
		t.Errorf("the next rider is %+v, want 18", got)
	}
	if err := db.OffTold(ctx, 3); err != nil || must(db.Athlete(ctx, 3)).OffUntold || !must(db.Athlete(ctx, 5)).OffUntold {
		t.Errorf("told of days off: %v", err)
	}
	wantError(t, db.OffTold(ctx, 99), ErrNotFound)
	if err := checkForeignKeys(ctx, db.reader); err != nil {
		t.Error(err)
	}
}

// schemaFour fills a database of schema 4 with a row of each fact that is kept differently now.
const schemaFour = `
INSERT INTO club (id, name, key, zone, added_ms) VALUES (2, 'home', 'HOME', 'UTC', 1780000000123);
INSERT INTO athlete (id, club_id, name, key, added_ms) VALUES (3, 2, 'Ines', 'INES', 1);
INSERT INTO week (athlete_id, from_date, text, told, withdrawn) VALUES
	(3, '2026-01-05', 'mon rest; tue rest; wed rest; thu rest; fri rest; sat long 2h; sun rest', '2026-01-05', '2026-05-01'),
	(3, '2026-01-05', 'mon rest; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest', '2026-05-01', NULL);
INSERT INTO race (id, athlete_id, name, folded, date, priority, days, place, registered, told) VALUES (8, 3, 'Hill Loop', 'HILL LOOP', '2026-06-14', 'A', 3, 'Market Square', '2026-05-01', '2026-05-02');
INSERT INTO past_race (race_id, name, date, priority, kind, days, start, emphasis, taper_days, told, withdrawn) VALUES (8, 'Hill Loop', '2026-06-13', 'A', '', 3, '', '', 0, '2026-05-01', '2026-05-02');
INSERT INTO ride (athlete_id, date, minutes, rpe, note, told, withdrawn) VALUES (3, '2026-05-20', 50, NULL, '', '2026-05-20', '2026-05-21'), (3, '2026-05-20', 60, 7.5, 'windy', '2026-05-21', NULL), (3, '2026-05-21', 0, NULL, '', '2026-05-21', NULL);
INSERT INTO result (race_id, feeling, result, note, added_ms) VALUES (8, 7, '4th', 'wet', 1780000004000);
`

// Facts of schema 4 are as they were: rides are the first of their days, races are
// planned, results keep their parts, weeks are the same every week.
func TestUpgradeFromSchemaFour(t *testing.T) {
	ctx := context.Background()
	db := mustOpen(t, databaseOfSchema(t, 4, schemaFour))
	race := planner.Race{ID: 8, Name: "Hill Loop", Date: day(t, "2026-06-14"), Days: 3, Place: "Market Square", Registered: today, Told: on(t, "2026-05-02")}
	was := race
	was.Date, was.Place, was.Told = race.Date-1, "", planner.Told{On: today, Withdrawn: today + 1}
	ridden := planner.Ride{Date: day(t, "2026-05-20"), Minutes: 50, Told: planner.Told{On: day(t, "2026-05-20"), Withdrawn: day(t, "2026-05-21")}}
	wantFacts(t, db, 3, &planner.Facts{
		Weeks: []planner.DatedWeek{{From: day(t, "2026-01-05"), Week: mustWeek(t, "sat long 2h"), Told: planner.Told{On: day(t, "2026-01-05"), Withdrawn: today}},
			{From: day(t, "2026-01-05"), Week: mustWeek(t, "sat long 3h"), Told: planner.Told{On: today}}},
		Races:   []planner.Race{was, race},
		Done:    []planner.Ride{ridden, {Date: ridden.Date, Minutes: 60, RPE: 7.5, Told: on(t, "2026-05-21")}, {Date: ridden.Date + 1, Told: on(t, "2026-05-21")}},
		Results: []planner.Result{{RaceID: 8, Race: "Hill Loop", Feeling: 7}},
	})
	want := Result{Race: 8, Feeling: 7, Place: "4th", Note: "wet"}
	got := must(db.Results(ctx, 3))[8]
	if want.Added = got.Added; got != want || got.Added.UnixMilli() != 1780000004000 {
		t.Errorf("the result is %+v, want %+v", got, want)
	}
	if err := db.AddRide(ctx, 3, today+30, Ride{Ride: planner.Ride{Date: ridden.Date, Minutes: 30}}); err != nil {
		t.Fatal(err)
	}
	if got := must(db.Rides(ctx, 3, 0)); len(got) != 2 || got[0].Minutes != 90 || got[0].RPE != 7.5 || got[0].Note != "windy" {
		t.Errorf("rides %+v", got)
	}
	for _, err := range []error{db.AddHold(ctx, 3, noon(t, "2026-05-22"), planner.LevelHead), db.AddCoachNote(ctx, 3, today, "Drink", 3), checkForeignKeys(ctx, db.reader)} {
		if err != nil {
			t.Error(err)
		}
	}
}

// The copy from before is of schema 1 and whole; opened, it is upgraded likewise.
func TestUpgradeLeavesACopyOfSchemaOne(t *testing.T) {
	ctx, path := context.Background(), databaseOfSchemaOne(t)
	mustOpen(t, path)
	if got := backups(t, path); len(got) != 1 || got[0] != backupName(path, 1) {
		t.Fatalf("got backups %v, want %s", got, backupName(path, 1))
	}
	if got := must(copiedVersion(ctx, backupName(path, 1))); got != 1 {
		t.Errorf("the copy has schema %d, want 1", got)
	}
	if info, err := os.Stat(backupName(path, 1)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the copy has mode %v, %v; want 0600", info.Mode(), err)
	}
	copied := mustOpen(t, backupName(path, 1))
	if races := must(copied.ClubRaces(ctx, 1)); len(races) != 1 || races[0].Athlete != "Ines" {
		t.Errorf("races of the copy: %v", races)
	}
}

// An upgraded database has the schema of a new one.
func TestUpgradeMakesTheSameSchema(t *testing.T) {
	if diff := cmp.Diff(schemaOf(t, newTestDB(t)), schemaOf(t, mustOpen(t, databaseOfSchemaOne(t)))); diff != "" {
		t.Errorf("schema (-new +upgraded):\n%s", diff)
	}
	if diff := cmp.Diff(schemaOf(t, newTestDB(t)), schemaOf(t, mustOpen(t, databaseOfSchema(t, 2, schemaTwo)))); diff != "" {
		t.Errorf("schema (-new +upgraded from 2):\n%s", diff)
	}
	if diff := cmp.Diff(schemaOf(t, newTestDB(t)), schemaOf(t, mustOpen(t, databaseOfSchema(t, 3, schemaThree)))); diff != "" {
		t.Errorf("schema (-new +upgraded from 3):\n%s", diff)
	}
}
