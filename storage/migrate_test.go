package storage

import (
	"context"
	"database/sql"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"musette/planner"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// newestSchema is the last migration's number.
const newestSchema = 23

func TestMigrationsAreNumbered(t *testing.T) {
	names, err := fs.Glob(embedded(), "*")
	if err != nil || len(names) == 0 {
		t.Fatalf("got %v, %v", names, err)
	}
	shape := regexp.MustCompile(`^(\d{5})_[a-z0-9_]+\.sql$`)
	last := ""
	for _, name := range names {
		match := shape.FindStringSubmatch(name)
		if match == nil || match[1] == last {
			t.Errorf("got migration %s after number %s, want %05d_some_words.sql", name, last, newestSchema+1)
			continue
		}
		last = match[1]
	}
	if last != fmt.Sprintf("%05d", newestSchema) {
		t.Errorf("the newest migration is %s, want %d", last, newestSchema)
	}
}

func TestSchemaIsTheGoldenOne(t *testing.T) {
	got := schemaOf(t, newTestDB(t))
	golden := filepath.Join("testdata", "schema.golden.sql")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the migrations make another schema than %s. Run go test ./storage -update and look at the change. got:\n%s", golden, got)
	}
}

func schemaOf(t *testing.T, db *DB) string {
	t.Helper()
	parts, err := list(context.Background(), db.reader, func(s *string, scan func(...any) error) error { return scan(s) },
		`SELECT sql || ';' FROM sqlite_schema WHERE sql IS NOT NULL
		AND tbl_name NOT LIKE 'sqlite_%' AND tbl_name <> 'goose_db_version' ORDER BY type DESC, name`)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(parts, "\n\n") + "\n"
}

// withStep is our migrations and one more.
func withStep(t *testing.T, statements string) fs.FS {
	t.Helper()
	all := fstest.MapFS{}
	names, err := fs.Glob(embedded(), "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(embedded(), name)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = &fstest.MapFile{Data: data}
	}
	all[fmt.Sprintf("%05d_next.sql", newestSchema+1)] = &fstest.MapFile{Data: []byte("-- +goose Up\n" + statements)}
	return all
}

const rebuildAthlete = `
CREATE TABLE rebuilt AS SELECT * FROM athlete;
DROP TABLE athlete;
CREATE TABLE athlete (id INTEGER PRIMARY KEY, club_id INTEGER, name TEXT, key TEXT, zone TEXT, is_coach INTEGER, announce INTEGER,
	taper_days INTEGER, cut INTEGER, openers TEXT, added_ms INTEGER,
	remind TEXT, remind_at TEXT, remind_by TEXT, remind_since_ms INTEGER, pause_to TEXT, thread TEXT, off_untold INTEGER, pattern TEXT, taper_told TEXT, left_date TEXT, usual_length INTEGER, entered INTEGER) STRICT;
INSERT INTO athlete SELECT * FROM rebuilt;
DROP TABLE rebuilt;
`

// olderDatabase is a closed database of our newest schema with one race.
func olderDatabase(t *testing.T) (path string, rider AthleteID) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "musette.db")
	copyBlank(t, path)
	db, err := Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	rider = mustAthlete(t, db, "home", "me").ID
	mustAddRace(t, db, rider, raceOn(t, "Hill Loop", "2026-06-13"))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return path, rider
}

func backups(t *testing.T, path string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*.schema-*.backup"))
	if err != nil {
		t.Fatal(err)
	}
	leftover, err := filepath.Glob(path + ".copy-*")
	if err != nil || len(leftover) > 0 {
		t.Errorf("left behind: %v, %v", leftover, err)
	}
	return found
}

func wantOneRace(t *testing.T, db *DB, rider AthleteID) {
	t.Helper()
	races, err := db.Races(context.Background(), rider)
	if err != nil || len(races) != 1 || races[0].Name != "Hill Loop" {
		t.Errorf("got races %v and error %v, want Hill Loop", races, err)
	}
}

func TestMigrationKeepsChildrenAndLeavesBackup(t *testing.T) {
	path, rider := olderDatabase(t)
	db, err := open(context.Background(), path, synced, withStep(t, rebuildAthlete))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	wantOneRace(t, db, rider)

	copies := backups(t, path)
	if want := backupName(path, newestSchema); len(copies) != 1 || copies[0] != want {
		t.Fatalf("got backups %v, want %s", copies, want)
	}
	info, err := os.Stat(copies[0])
	if err != nil {
		t.Fatal(err)
	}
	if got, want := info.Mode().Perm(), os.FileMode(0o600); got != want {
		t.Errorf("got mode %v of the backup, want %v", got, want)
	}
	wantOneRace(t, mustOpen(t, copies[0]), rider)
}

func TestNoBackupWithoutPendingMigration(t *testing.T) {
	path, rider := olderDatabase(t)
	wantOneRace(t, mustOpen(t, path), rider)
	if got := backups(t, path); len(got) != 0 {
		t.Errorf("got backups %v, want none", got)
	}
}

func TestBackupOfMigratedMeanwhileIsDropped(t *testing.T) {
	path, _ := olderDatabase(t)
	db, err := sql.Open("sqlite3", migrationDSN(path, synced))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := backup(context.Background(), db, path, newestSchema+1); err != nil {
		t.Error(err)
	}
	if got := backups(t, path); len(got) != 0 {
		t.Errorf("got backups %v of a schema that the file does not have", got)
	}
}

func TestNewerDatabaseIsRefused(t *testing.T) {
	path, rider := olderDatabase(t)
	newer, err := open(context.Background(), path, synced, withStep(t, "CREATE TABLE later (id INTEGER) STRICT;"))
	if err != nil {
		t.Fatal(err)
	}
	defer newer.Close()
	older, err := Open(context.Background(), path)
	if err == nil {
		older.Close()
		t.Fatal("an older program opened a newer database")
	}
	want := fmt.Sprintf("%s: a newer musette made it (schema %d, this program knows %d). Install the newer musette or name another file", path, newestSchema+1, newestSchema)
	if got := err.Error(); !strings.HasSuffix(got, want) {
		t.Errorf("got %q, want it to end in %q", got, want)
	}
	wantOneRace(t, newer, rider)
}

func TestBrokenMigrationChangesNothing(t *testing.T) {
	path, rider := olderDatabase(t)
	for name, statements := range map[string]string{
		"second statement fails": "DELETE FROM race; INSERT INTO nowhere VALUES (1);",
		"not SQL":                "DELETE FROM race; BAKE bread;",
	} {
		if db, err := open(context.Background(), path, synced, withStep(t, statements)); err == nil {
			db.Close()
			t.Errorf("%s: opened", name)
		}
		wantOneRace(t, mustOpen(t, path), rider)
		wantOneRace(t, mustOpen(t, backupName(path, newestSchema)), rider)
	}
}

func TestOrphansAreRefused(t *testing.T) {
	path, _ := olderDatabase(t)
	db, err := open(context.Background(), path, synced, withStep(t, "DELETE FROM athlete;"))
	if err == nil {
		db.Close()
		t.Fatal("opened with races of nobody")
	}
	if got, want := err.Error(), "table race points at rows of athlete that are gone"; !strings.Contains(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// foreignDatabase is an SQLite file with a table that is not ours.
func foreignDatabase(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(`CREATE TABLE recipe (name TEXT)`); err != nil {
		t.Fatal(err)
	}
	return path
}

// The schema refuses what the planner would, should a caller forget to ask.
func TestSchemaMirrorsThePlanner(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	mustAddRace(t, db, rider, raceOn(t, "Hill Loop", "2026-06-13"))
	steps := []error{
		db.SetWeek(ctx, rider, today, planner.DatedWeek{From: day(t, "2026-01-05")}),
		db.SetLimit(ctx, rider, today, planner.Limit{Date: day(t, "2026-05-05"), Minutes: 45}),
		second(db.AddAbsence(ctx, rider, today, planner.Absence{From: day(t, "2026-05-05"), To: day(t, "2026-05-06")})),
		second(db.AddBlock(ctx, rider, today, planner.Block{From: day(t, "2026-05-05"), To: day(t, "2026-05-06"), Percent: 20})),
		second(db.AddMove(ctx, rider, today, planner.Move{From: day(t, "2026-05-05"), To: day(t, "2026-05-06")})),
		db.SetRide(ctx, rider, today, Ride{Ride: planner.Ride{Date: today, Minutes: 60}, Note: "windy"}),
		third(db.ChangeRace(ctx, rider, today+1, 1, func(r *planner.Race) error { r.Days = 2; return nil })),
		second(db.UpdateSettings(ctx, rider, today+1, func(s *Settings) error { s.Taper.Days = 10; return nil })),
		second(db.AddIllness(ctx, rider, noon(t, "2026-05-01"), planner.Illness{From: day(t, "2026-05-01"), Level: planner.LevelRest, Symptoms: []string{"fever"}})),
		db.AddHold(ctx, rider, noon(t, "2026-05-01"), planner.LevelHead),
		db.SetPin(ctx, rider, rider, today, planner.Pin{Date: day(t, "2026-05-05"), Session: session(t, "rest")}),
		db.AddCoachNote(ctx, rider, today, "Drink", rider),
		second(db.AddHeavyLegs(ctx, rider, today, today)),
		db.SetTaught(ctx, rider, today, &planner.Taught{Races: 6, Low: 100, Mid: 110, High: 140}),
		db.SetResult(ctx, rider, Result{Race: 1, Feeling: 5}),
		db.NoteRefusal(ctx, PlatformKey("discord", "1")),
		db.SaveButton(ctx, "id", Button{Command: "ride"}),
	}
	for _, err := range steps {
		if err != nil {
			t.Fatal(err)
		}
	}
	long := "'" + strings.Repeat("ü", planner.MaxText+1) + "'"
	for _, test := range []struct{ column, right, wrong string }{
		{"club.name", "'Road Club'", "'  '"}, {"club.name", "'ü'", long}, {"club.zone", "'UTC'", "''"}, {"club.key", "'HOME'", "''"}, {"athlete.key", "'ME'", "''"}, {"race.folded", "'LOOP'", "''"},
		{"race.told", "NULL", "''"}, {"race.told", "'2026-05-02'", "'2 May'"}, {"race.withdrawn", "'2026-05-02'", "'2026-05-01'"}, {"race.withdrawn", "NULL", "'2026-5-3'"},
		{"race.taper_days", "28", "29"}, {"race.taper_days", "0", "3"},
		{"week.told", "'2026-05-02'", "'1970-01-01'"}, {"week.withdrawn", "'2026-05-02'", "'2026-05-01'"}, {"absence.told", "'2026-05-02'", "'2026-05-32'"}, {"absence.withdrawn", "'2026-05-02'", "'2026-05-01'"},
		{"day_limit.told", "NULL", "0"}, {"day_limit.withdrawn", "'2026-05-02'", "'1970-12-31'"}, {"block.told", "'2026-05-02'", "'may'"}, {"block.withdrawn", "'2026-05-02'", "'2026-05-01'"},
		{"move.told", "'2026-05-02'", "'2026-02-30'"}, {"move.withdrawn", "'2026-05-02'", "'2026-05-01'"},
		{"ride.told", "'2026-05-02'", "''"}, {"ride.withdrawn", "NULL", "'2026-05-03'"}, {"ride.note", "''", long}, {"ride.withdrawn", "'2026-05-02'", "'2026-05-01'"}, {"ride.note", "''", "'windy'"},
		{"past_race.withdrawn", "'2026-05-03'", "NULL"}, {"past_race.told", "'2026-05-02'", "'2026-05-04'"}, {"past_race.days", "28", "29"}, {"past_race.hours", "48", "49"},
		{"past_taper.withdrawn", "'2026-05-03'", "NULL"}, {"past_taper.told", "'2026-05-02'", "'2026-05-04'"}, {"past_taper.cut", "0", "19"}, {"past_taper.pattern", "'usual'", "'daily'"},
		{"illness.to_date", "'2026-05-02'", "'2026-04-30'"}, {"illness.kind", "'injured'", "'tired'"}, {"illness.level", "'easy'", "'head'"}, {"illness.symptoms", "'cough'", long},
		{"illness.withdrawn", "NULL", "'2026-05-03'"}, {"illness.told", "'2026-05-02'", "''"}, {"illness.from_date", "'2026-05-02'", "'may'"},
		{"hold.level", "'doctor'", "'rest'"}, {"hold.date", "'2026-05-02'", "''"}, {"hold.ended", "NULL", "'cleared'"}, {"hold.ended_on", "NULL", "'2026-05-03'"},
		{"ride.nr", "20", "21"}, {"ride.nr", "1", "0"}, {"pin.session", "'rest'", "''"}, {"pin.coach_id", "NULL", "77"}, {"pin.withdrawn", "'2026-05-02'", "'2026-04-30'"},
		{"coach_note.text", "'Drink'", "' '"}, {"coach_note.text", "'ü'", long}, {"coach_note.coach_id", "NULL", "77"}, {"coach_note.date", "'2026-05-02'", "'1970-01-01'"},
		{"heavy_legs.date", "'2026-05-02'", "'1970-01-01'"}, {"heavy_legs.date", "'2026-05-03'", "'today'"},
		{"race.status", "'finished'", "'lost'"}, {"race.status", "'cancelled'", "'gave-up'"}, {"race.ended", "NULL", "'2026-06-13'"}, {"past_race.status", "'not-started'", "'gave-up'"},
		{"result.feeling", "NULL", "0"}, {"result.feeling", "10", "11"}, {"result.compared", "'better'", "'best'"}, {"result.note", "''", long},
		{"athlete.taper_told", "NULL", "'now'"}, {"athlete.off_untold", "1", "2"},
		{"athlete.name", "'Ana'", "' '"}, {"athlete.zone", "NULL", "''"}, {"athlete.is_coach", "1", "2"}, {"athlete.announce", "0", "-1"},
		{"athlete.taper_days", "4", "3"}, {"athlete.taper_days", "28", "29"}, {"athlete.cut", "20", "19"}, {"athlete.cut", "80", "81"},
		{"athlete.pattern", "'usual'", "'fourth'"}, {"athlete.openers", "'D-2'", "'D-3'"},
		{"race.name", "'ü'", long}, {"race.date", "'2028-02-29'", "'2027-02-29'"}, {"race.date", "'2027-01-01'", "'2027-1-1'"},
		{"race.date", "'1971-01-01'", "'1970-01-01'"}, {"race.priority", "'C'", "'D'"}, {"race.hours", "48", "48.1"}, {"race.hours", "NULL", "0"},
		{"race.kind", "'gravel'", long}, {"race.days", "28", "29"}, {"race.days", "1", "0"}, {"race.start", "'23:59'", "'24:00'"},
		{"race.start", "''", "'9:05'"}, {"race.emphasis", "'important'", "'huge'"}, {"race.place", "'Market Square'", long},
		{"race.registered", "'2026-05-02'", "''"}, {"week.from_date", "'2026-01-12'", "'monday'"}, {"week.text", "'mon rest'", "''"},
		{"absence.to_date", "'2026-05-05'", "'2026-05-04'"}, {"absence.kind", "'travel'", "'holiday'"},
		{"day_limit.minutes", "0", "-1"}, {"day_limit.minutes", "1440", "1441"}, {"day_limit.date", "'2026-05-06'", "'2026-05-32'"},
		{"block.percent", "100", "101"}, {"block.percent", "1", "0"}, {"block.to_date", "'2026-05-05'", "'2026-05-04'"},
		{"move.to_date", "'2026-05-04'", "'2026-05-05'"},
		{"club.channel", "'c'", "''"}, {"club.channel", "NULL", "''"}, {"club.coach_role", "'r'", "''"}, {"club.fault", "'gone'", "''"}, {"club.gone_ms", "NULL", "'now'"},
		{"club.digest_day", "'sunday'", "'Sunday'"}, {"club.digest_day", "'off'", "'none'"}, {"club.digest_day", "'monday'", "NULL"},
		{"club.digest_time", "'00:00'", "'24:00'"}, {"club.digest_time", "'23:59'", "'7:00'"}, {"club.digest_time", "'07:30'", "'07:60'"}, {"club.digest_time", "'07:00'", "''"},
		{"person.key", "'x:1'", "''"}, {"person.club_id", "NULL", "77"}, {"person.channel", "'d'", "''"}, {"person.refused_ms", "1", "'now'"},
		{"button.id", "'b'", "''"}, {"button.options", "'{}'", "'{'"}, {"button.command", "''", "NULL"}, {"button.made_ms", "1", "NULL"},
		{"taught.low", "1", "0"}, {"taught.middle", "110", "141"}, {"taught.high", "1000", "1001"}, {"taught.races", "3", "2"}, {"taught.withdrawn", "'2026-05-02'", "'2026-04-30'"},
		{"athlete.usual_length", "1", "2"}, {"athlete.entered", "1", "2"}, {"past_taper.usual_length", "1", "-1"},
		{"athlete.left_date", "'2026-05-02'", "'today'"}, {"athlete.left_date", "NULL", "''"}, {"button.owner", "NULL", "''"},
	} {
		table, column, _ := strings.Cut(test.column, ".")
		set := "UPDATE " + table + " SET " + column + " = "
		if _, err := db.writer.Exec(set + test.right); err != nil {
			t.Errorf("%s%s: %v", set, test.right, err)
		}
		if _, err := db.writer.Exec(set + test.wrong); err == nil {
			t.Errorf("%s%s: taken", set, test.wrong)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func third[S, T any](_ S, _ T, err error) error { return err }
