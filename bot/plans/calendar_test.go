package plans_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/notice"
	"musette/bot/say"
	"musette/planner"
)

// calendarEvent is an event as an independent parser reads it. Instants are in UTC.
type calendarEvent struct {
	UID         string `json:"uid"`
	Sequence    int    `json:"sequence"`
	Start       string `json:"start"`
	End         string `json:"end"`
	Summary     string `json:"summary"`
	Description string `json:"description"`
	Location    string `json:"location"`
	Status      string `json:"status"`
}

// calendarReaders are independent parsers: their command, and what tells that it is there.
var calendarReaders = map[string][2][]string{
	"ical.js": {{"node", "testdata/icaljs/read.mjs"}, {"node", "-e", "process.exit(require('fs').existsSync('testdata/icaljs/node_modules/ical.js') ? 0 : 1)"}},
	"vobject": {{"/usr/bin/python3", "testdata/read_vobject.py"}, {"/usr/bin/python3", "-c", "import vobject"}},
}

// readCalendar reads a file with every parser that is there; all must agree.
func readCalendar(t *testing.T, file []byte) []calendarEvent {
	t.Helper()
	checkLines(t, file)
	var events []calendarEvent
	from := ""
	for name, r := range calendarReaders {
		if exec.Command(r[1][0], r[1][1:]...).Run() != nil {
			notice.Unchecked("calendar files with %s, which is not installed (.ci/run installs it)", name)
			continue
		}
		read := exec.Command(r[0][0], r[0][1:]...)
		var faults bytes.Buffer
		read.Stdin, read.Stderr = bytes.NewReader(file), &faults
		out, err := read.Output()
		if err != nil {
			t.Fatalf("%s: %v\n%s\n%s", name, err, faults.Bytes(), file)
		}
		var found []calendarEvent
		if err := json.Unmarshal(out, &found); err != nil {
			t.Fatalf("%s: %v in %s", name, err, out)
		}
		if from != "" && !slices.Equal(events, found) {
			t.Fatalf("%s and %s disagree:\n%+v\n%+v", from, name, events, found)
		}
		events, from = found, name
	}
	if from == "" {
		notice.Skip(t, "calendar files, since no independent parser is installed")
	}
	return events
}

// checkLines holds a file to the rules for its lines.
func checkLines(t *testing.T, file []byte) {
	t.Helper()
	if !bytes.HasSuffix(file, []byte("END:VCALENDAR\r\n")) {
		t.Errorf("ends with %q", file[max(0, len(file)-20):])
	}
	for line := range strings.SplitSeq(strings.TrimSuffix(string(file), "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n\x00") || !strings.HasPrefix(line, " ") && !regexp.MustCompile(`^[A-Z-]+[;:]`).MatchString(line) {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
}

// calendarOf is the file of a reply.
func calendarOf(t *testing.T, r say.Reply) []byte {
	t.Helper()
	if len(r.Files) != 1 || r.Files[0].Type != "text/calendar" || !strings.HasSuffix(r.Files[0].Name, ".ics") {
		t.Fatalf("files %+v of:\n%s", r.Files, r.Text())
	}
	return r.Files[0].Data
}

func byUID(events []calendarEvent) map[string]calendarEvent {
	out := map[string]calendarEvent{}
	for _, e := range events {
		out[e.UID] = e
	}
	return out
}

// unfolded is a file as readers see it.
func unfolded(file []byte) string { return strings.ReplaceAll(string(file), "\r\n ", "") }

func TestCalendarGolden(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"",
		`/race add name:"Côte; \"Long, Hill\" \\ Loop" date:2026-06-28 priority:A hours:3.5 start:10:30 place:"Rua da Estação 5, upper gate; behind the old mill where the long wall ends"`,
		`/race add name:"Night Ride" date:2026-10-24 priority:C hours:6 start:23:30`, `/race add name:"Three Days" date:2026-08-21 priority:B days:3 hours:2`)
	k.Who.Now = bottest.At("2026-06-10T08:00:00Z")
	k.OK("/tell limit day:2026-06-24 minutes:30", `/race morning night zone:Europe/Madrid`)
	file := calendarOf(t, k.OK("/plan calendar"))
	golden := filepath.Join("testdata", "season.ics")
	if *bottest.Update {
		if err := os.WriteFile(golden, file, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil || !bytes.Equal(want, file) {
		t.Fatalf("%s is not what is written (%v). Run go test ./bot/plans -run Golden -update and look at the change:\n%s", golden, err, file)
	}
	events := byUID(readCalendar(t, file))
	if e := events["1-20260601-race-1@musette"]; e.Start != "2026-06-28T09:30:00Z" || e.End != "2026-06-28T13:00:00Z" || e.Summary != `Côte; "Long, Hill" \ Loop (A race)` ||
		e.Location != "Rua da Estação 5, upper gate; behind the old mill where the long wall ends" {
		t.Errorf("race: %+v", e)
	}
	// The clocks go back while it is ridden: 23:30 in Madrid is 21:30 UTC, and six hours are six hours.
	if e := events["2-20260601-race-1@musette"]; e.Start != "2026-10-24T21:30:00Z" || e.End != "2026-10-25T03:30:00Z" {
		t.Errorf("race at night: %+v", e)
	}
	if e := events["3-20260601-race-3@musette"]; e.Start != "2026-08-23" || e.End != "2026-08-24" || e.Summary != "Three Days, day 3 of 3 (B race)" {
		t.Errorf("third day: %+v", e)
	}
	if e := events["1-20260601-day-4@musette"]; e.Start != "2026-06-24" || e.Summary != "Recovery 30min" || e.Sequence != 2 {
		t.Errorf("limited day: %+v", e)
	}
}

// A race that has lost its days to another one says so in the calendar.
func TestCalendarOfARaceThatIsNotRidden(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Tour date:2026-06-26 priority:A days:3 hours:4", "/race add name:Crit date:2026-06-27 priority:B hours:1")
	crit := readCalendar(t, calendarOf(t, k.OK("/plan calendar race:crit")))
	if len(crit) == 0 || crit[0].Summary != "Crit (B race)" || crit[0].Description != "Your plan is for Tour on that day." {
		t.Errorf("got %+v", crit)
	}
}

func TestCalendarFollowsThePlan(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30`)
	read := func(line string) (map[string]calendarEvent, say.Reply) {
		r := k.OK(line)
		return byUID(readCalendar(t, calendarOf(t, r))), r
	}
	first, _ := read("/plan calendar")
	k.OK("/tell limit day:2026-06-30 minutes:20") // on the same day
	second, _ := read("/plan calendar race:hill")
	if len(first) != len(second) {
		t.Errorf("%d entries of the season, %d of its only race", len(first), len(second))
	}
	for uid, was := range first {
		is := second[uid]
		if limited := was.Start == "2026-06-30"; limited != (is.Sequence > was.Sequence) || !limited && is != was {
			t.Errorf("%+v became %+v", was, is)
		}
	}
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	if again, _ := read("/plan calendar"); !same(again, second) {
		t.Errorf("two days later, with nothing new: %+v\n%+v", again, second)
	}
	k.OK(`/race change race:"Hill Loop" date:2026-07-05 taper:5`)
	moved, _ := read("/plan calendar")
	if is, was := moved["1-20260601-race-1@musette"], second["1-20260601-race-1@musette"]; is.Start != "2026-07-05T09:30:00Z" || is.Sequence <= was.Sequence {
		t.Errorf("moved race: %+v, was %+v", is, was)
	}
	for uid, was := range second {
		switch is, ok := moved[uid]; {
		case !ok:
			t.Errorf("%+v is forgotten", was)
		case is.Sequence < was.Sequence || is.Sequence == was.Sequence && is != was:
			t.Errorf("%+v became %+v", was, is)
		}
	}
	if is := moved["1-20260601-day-8@musette"]; is.Status != "CANCELLED" || moved["1-20260601-day-2@musette"].Status != "CONFIRMED" {
		t.Errorf("a day that fell away: %+v", is)
	}
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	k.OK(`/race remove race:"Hill Loop"`)
	gone, r := read("/plan calendar")
	for _, e := range gone {
		if was := moved[e.UID]; e.Status != "CANCELLED" || e.Sequence <= was.Sequence && was.Status != "CANCELLED" {
			t.Errorf("of a race that was removed: %+v, was %+v", e, moved[e.UID])
		}
	}
	bottest.Wants(t, r, "no day is left")
	if len(gone) < 10 {
		t.Errorf("only %d entries are cancelled", len(gone))
	}
	k.Who.Now = bottest.At("2026-09-03T08:00:00Z")
	if r := k.OK("/plan calendar"); len(r.Files) != 0 || !strings.Contains(r.Text(), "you have no race to come") {
		t.Errorf("long after: %s", r.Text())
	}
}

func same(a, b map[string]calendarEvent) bool {
	for uid, e := range a {
		if b[uid] != e {
			return false
		}
	}
	return len(a) == len(b)
}

// Calendars are read over shoulders.
func TestCalendarHasNoHealthWords(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3.5 start:10:30`)
	who, err := k.Base.Rider(t.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []string{"ill", "held"} {
		if from == "ill" {
			_, err = k.DB.AddIllness(t.Context(), who.Athlete.ID, k.Who.Now, planner.Illness{From: who.Today, Level: planner.LevelRest})
		} else {
			err = k.DB.AddHold(t.Context(), who.Athlete.ID, k.Who.Now, planner.LevelEmergency)
		}
		if err != nil {
			t.Fatal(err)
		}
		k.Who.Now = k.Who.Now.AddDate(0, 0, 1)
		file := unfolded(calendarOf(t, k.OK("/plan calendar")))
		if !strings.Contains(file, "SUMMARY:No training\r\n") {
			t.Errorf("%s: no day without training:\n%s", from, file)
		}
		if found := regexp.MustCompile(`(?i)\b(ill|illness|sick|fever|health|symptoms?|doctor|unwell|injur\w+|pain|emergency|hold|held|recover)\b`).FindString(file); found != "" {
			t.Errorf("%s: %q in\n%s", from, found, file)
		}
	}
}

func TestCalendarWithoutWeek(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/plan calendar"), "you have no race to come", "/race add")
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A days:2`)
	r := k.OK("/plan calendar race:hill")
	bottest.Wants(t, r, "Calendar of Hill Loop: 2 entries", "/week share")
	if events := readCalendar(t, calendarOf(t, r)); len(events) != 2 || events[0].Start != "2026-06-14" || events[1].End != "2026-06-16" {
		t.Errorf("%+v", events)
	}
	if r.Files[0].Name != "hill-loop.ics" || r.Race != "Hill Loop" {
		t.Errorf("file %s, race %q", r.Files[0].Name, r.Race)
	}
	k.Refused("/plan calendar race:zzyzx", "race")
}

// A change that is undone on the same day leaves no trace in the facts, yet its entries are newer than those of the
// file given in between; asked again without a change, they are the same.
func TestSequencesRiseOnAnUndoneChange(t *testing.T) {
	k := withGoals(t, "Hill Loop")
	sequences := func() map[string]string {
		t.Helper()
		out, uid := map[string]string{}, ""
		for line := range strings.Lines(string(k.OK("/plan calendar").Files[0].Data)) {
			line = strings.TrimSpace(line)
			if rest, ok := strings.CutPrefix(line, "UID:"); ok {
				uid = rest
			}
			if rest, ok := strings.CutPrefix(line, "SEQUENCE:"); ok {
				out[uid] = rest
			}
		}
		return out
	}
	first := sequences()
	k.OK("/race change hill start:10:30")
	changed := sequences()
	k.OK("/race change hill start:none")
	undone, again := sequences(), sequences()
	race := ""
	for uid := range first {
		if strings.Contains(uid, "race-1") {
			race = uid
		}
	}
	if race == "" || !(first[race] < changed[race] && changed[race] < undone[race]) {
		t.Errorf("sequences of %q: %q, %q, %q", race, first[race], changed[race], undone[race])
	}
	for uid, n := range undone {
		if again[uid] != n || uid != race && n != first[uid] {
			t.Errorf("%s: %s first, %s undone, %s again", uid, first[uid], n, again[uid])
		}
	}
}
