package planfile

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"
	_ "time/tzdata"

	"musette/planner"
	"musette/planner/typed"
)

// file is a good plan file with more keys, or with races of one's own.
func file(more string) string {
	races := `"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A"}]`
	if strings.Contains(more, `"races"`) {
		races = ""
	}
	parts := []string{`"today": "2026-05-04"`, `"week": {"mon": "recovery 40min"}`}
	for _, p := range []string{races, more} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return "{" + strings.Join(parts, ",\n ") + "}"
}

// race is a file with one good race that has more keys.
func race(more string) string {
	return file(`"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A", ` + more + `}]`)
}

func mustDate(t *testing.T, s string) planner.Date {
	t.Helper()
	d, err := planner.ParseISODate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

const allKeys = `{
 "today": "2026-05-04", "zone": "Europe/Lisbon",
 "week": {"mon": "recovery 40min; strength 30min", "tuesday": "intervals 1h30 5x3min", "wed": null, "thu": "busy", "fri": "off", "sat": "long 3h", "sun": ""},
 "races": [
  {"name": "Hill Loop", "date": "2026-05-23", "priority": "a", "hours": 3.5, "kind": "road race", "days": 2, "start": "9:30", "emphasis": "important", "place": "Market Square", "taper": 12, "registered": "2026-05-01"},
  {"name": "hill loop", "date": "2026-06-23", "priority": "C", "withdrawn": "2026-05-03"}],
 "taper": {"days": 10, "cut": 45, "pattern": "third", "openers": "d-2"},
 "blocks": [{"from": "2026-04-20", "to": "2026-05-03", "percent": 35, "told": "2026-04-18", "withdrawn": "2026-05-04"}, {"from": "2026-04-01", "to": "2026-04-01"}],
 "away": [{"from": "2026-05-08", "to": "2026-05-10", "kind": "travel", "told": "2026-05-04"}, {"from": "2026-05-12", "to": "2026-05-12"}],
 "limits": [{"date": "2026-05-12", "minutes": 0, "told": "2026-05-02", "withdrawn": "2026-05-02"}],
 "sick": [{"from": "2026-05-01", "symptoms": ["fever", "cough"], "told": "2026-05-02", "cleared": "2026-05-04"}, {"from": "2026-04-01", "to": "2026-04-02", "symptoms": []}, {"from": "2026-06-01"}],
 "done": [{"date": "2026-05-04", "minutes": 90, "rpe": 6.5}, {"date": "2026-05-03", "minutes": 0, "rpe": null, "told": "2026-05-04"}],
 "pins": [{"date": "2026-05-12", "session": "intervals 1h 3x3min", "told": "2026-05-03"}, {"date": "2026-05-13", "session": "rest"}],
 "results": [{"race": "HILL  LOOP", "feeling": 7}]
}`

func TestReadAllKeys(t *testing.T) {
	date := func(s string) planner.Date { return mustDate(t, s) }
	on := func(s string) planner.Told { return planner.Told{On: date(s)} }
	var week planner.Week
	for day, text := range map[planner.Weekday]string{
		planner.Monday: "recovery 40min; strength 30min", planner.Tuesday: "intervals 1h30 5x3min", planner.Thursday: "busy", planner.Saturday: "long 3h",
	} {
		week[day] = mustDay(t, text)
	}
	pinned, err := typed.Session("intervals 1h 3x3min")
	if err != nil {
		t.Fatal(err)
	}
	want := &planner.Facts{
		Weeks: []planner.DatedWeek{{Week: week}},
		Races: []planner.Race{
			{ID: 1, Name: "Hill Loop", Date: date("2026-05-23"), Priority: planner.PriorityA, Hours: 3.5, Kind: "road race", Days: 2, Start: "09:30",
				Emphasis: planner.Important, Place: "Market Square", TaperDays: 12, Registered: date("2026-05-01"), Told: on("2026-05-01")},
			{ID: 2, Name: "hill loop", Date: date("2026-06-23"), Priority: planner.PriorityC, Days: 1, Told: planner.Told{Withdrawn: date("2026-05-03")}},
		},
		Taper: planner.Taper{Days: 10, Cut: 45, Pattern: planner.EveryThirdDay, OpenersD2: true},
		Blocks: []planner.Block{
			{From: date("2026-04-20"), To: date("2026-05-03"), Percent: 35, Told: planner.Told{On: date("2026-04-18"), Withdrawn: date("2026-05-04")}},
			{From: date("2026-04-01"), To: date("2026-04-01"), Percent: 20},
		},
		Absences: []planner.Absence{{From: date("2026-05-08"), To: date("2026-05-10"), Travel: true, Told: on("2026-05-04")}, {From: date("2026-05-12"), To: date("2026-05-12")}},
		Limits:   []planner.Limit{{Date: date("2026-05-12"), Told: planner.Told{On: date("2026-05-02"), Withdrawn: date("2026-05-02")}}},
		Ill: []planner.Illness{
			{From: date("2026-05-01"), Symptoms: []string{"fever", "cough"}, Cleared: date("2026-05-04"), Told: on("2026-05-02")},
			{From: date("2026-04-01"), To: date("2026-04-02"), Told: on("2026-04-01")},
			{From: date("2026-06-01"), Told: on("2026-05-04")},
		},
		Done:    []planner.Ride{{Date: date("2026-05-04"), Minutes: 90, RPE: 6.5, Told: on("2026-05-04")}, {Date: date("2026-05-03"), Told: on("2026-05-04")}},
		Pins:    []planner.Pin{{Date: date("2026-05-12"), Session: pinned, Told: on("2026-05-03")}, {Date: date("2026-05-13"), Session: planner.RestSession}},
		Results: []planner.Result{{Race: "hill loop", Feeling: 7}},
	}
	today, got, faults := Read([]byte(allKeys))
	if len(faults) > 0 {
		t.Fatalf("got faults %v, want none", faults)
	}
	if today != date("2026-05-04") {
		t.Errorf("got today %v, want 2026-05-04", today)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func mustDay(t *testing.T, text string) planner.WeekdayPlan {
	t.Helper()
	p, err := typed.Weekday(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestReadAcceptsLittle(t *testing.T) {
	for name, in := range map[string]string{
		"no races":            `{"today": "2026-05-04", "week": {}, "races": []}`,
		"a byte order mark":   "\ufeff" + file(""),
		"white space after":   file("") + "\r\n \t",
		"nulls":               file(`"zone": null, "taper": null, "blocks": null, "results": null`),
		"nulls in a race":     race(`"hours": null, "start": null, "registered": null`),
		"automatic days":      file(`"taper": {"days": "auto"}`),
		"whole number as 1e1": file(`"taper": {"days": 1e1}`),
		"same name, two days": file(`"races": [{"name": "X", "date": "2026-05-23", "priority": "A"}, {"name": "X", "date": "2026-05-24", "priority": "B"}]`),
		"past race":           file(`"races": [{"name": "X", "date": "2024-05-23", "priority": "A"}]`),
		"48 hours a day":      race(`"hours": 48, "days": 2`),
		"24 hours":            race(`"hours": 24`),
		"usual pattern":       file(`"taper": {"pattern": "usual", "cut": "auto"}`),
		"UTC":                 file(`"zone": "UTC"`),
	} {
		_, f, faults := Read([]byte(in))
		if len(faults) > 0 || f == nil {
			t.Errorf("%s: got faults %v, want none", name, faults)
		}
	}
}

// badFiles has one fault each: its path and part of its message.
var badFiles = []struct{ name, in, field, msg string }{
	{"empty", "", "plan file", "is empty"},
	{"blank", " \n", "plan file", "is empty"},
	{"a list", "[]", "plan file", "must be an object, not a list"},
	{"null", "null", "plan file", "must be an object, not null"},
	{"cut short", `{"today": "2026-05-04"`, "plan file", "ends too early"},
	{"no JSON", "{\n \"today\": oops}", "plan file", "line 2, column 11"},
	{"trailing comma", `{"today": "2026-05-04",}`, "plan file", "is not JSON"},
	{"trailing data", file("") + "\n{}", "plan file", "goes on after its end at line 4, column 1"},
	{"trailing brace", file("") + "}", "plan file", "goes on after its end"},
	{"invalid UTF-8", "{\"today\": \"\xff\"}", "plan file", "line 1, column 12 is not UTF-8"},
	{"unknown key", file(`"wek": {}`), "wek", `did you mean week?`},
	{"unknown key far from all", file(`"bicycle": 1`), "bicycle", "today, zone, week, races"},
	{"unknown key in capitals", file(`"Zone": "UTC"`), "Zone", "did you mean zone?"},
	{"odd unknown key", file(`"a\nb": 1`), `"a\nb"`, "is not a known key"},
	{"empty key", file(`"": 1`), `""`, "is not a known key"},
	{"duplicate key", file(`"today": "2026-05-05"`), "today", `stands twice. Keep one, for example "today"`},
	{"duplicate null", file(`"zone": null, "zone": null`), "zone", "stands twice"},
	{"no today", `{"week": {}, "races": []}`, "today", `is missing. For example "today": "2026-05-04"`},
	{"no week", `{"today": "2026-05-04", "races": []}`, "week", `is missing. For example "week"`},
	{"no races", `{"today": "2026-05-04", "week": {}}`, "races", `is missing. For example "races"`},
	{"null today", `{"today": null, "week": {}, "races": []}`, "today", "is missing"},
	{"number as today", `{"today": 20260504, "week": {}, "races": []}`, "today", "must be text, not a number"},
	{"today as people write", `{"today": "4 May", "week": {}, "races": []}`, "today", `"4 May" is not a date`},
	{"no such today", `{"today": "2026-02-30", "week": {}, "races": []}`, "today", `"2026-02-30" is not a date`},
	{"today too early", `{"today": "1970-01-01", "week": {}, "races": []}`, "today", "1971 to 2199"},
	{"today too late", `{"today": "2200-01-01", "week": {}, "races": []}`, "today", "1971 to 2199"},
	{"bad zone", file(`"zone": "Mars/Base"`), "zone", "Europe/Lisbon"},
	{"empty zone", file(`"zone": ""`), "zone", "Europe/Lisbon"},
	{"local zone", file(`"zone": "Local"`), "zone", "Europe/Lisbon"},
	{"zone outside the list", file(`"zone": "../../etc/passwd"`), "zone", "Europe/Lisbon"},
	{"week as text", `{"today": "2026-05-04", "week": "mon off", "races": []}`, "week", "must be an object, not text"},
	{"no week in the list", `{"today": "2026-05-04", "week": [], "races": []}`, "week", "empty list"},
	{"text in the list of weeks", `{"today": "2026-05-04", "week": [{}, "mon off"], "races": []}`, "week[1]", "must be an object, not text"},
	{"week told later", `{"today": "2026-05-04", "week": [{}, {"told": "2026-05-05"}], "races": []}`, "week[1].told", "2026-05-05 is later than today, 2026-05-04"},
	{"bad start of a week", `{"today": "2026-05-04", "week": [{}, {"from": "june"}], "races": []}`, "week[1].from", "not a date"},
	{"a week is not withdrawn", `{"today": "2026-05-04", "week": [{"withdrawn": "2026-05-03"}], "races": []}`, "week[0].withdrawn", "not a known key"},
	{"unknown weekday", `{"today": "2026-05-04", "week": {"tues": "off"}, "races": []}`, "week.tues", "did you mean tuesday?"},
	{"weekday as number", `{"today": "2026-05-04", "week": {"tue": 90}, "races": []}`, "week.tue", `"tue": "intervals 1h30 5x3min"`},
	{"weekday twice", `{"today": "2026-05-04", "week": {"tue": "off", "tuesday": "off"}, "races": []}`, "week.tuesday", "already"},
	{"weekday twice, long first", `{"today": "2026-05-04", "week": {"tuesday": "off", "tue": "off"}, "races": []}`, "week.tue", "already"},
	{"unknown session kind", `{"today": "2026-05-04", "week": {"tue": "intervls 1h30"}, "races": []}`, "week.tue", "did you mean intervals?"},
	{"no session length", `{"today": "2026-05-04", "week": {"sunday": "long"}, "races": []}`, "week.sunday", "long 1h30"},
	{"over 24 hours", `{"today": "2026-05-04", "week": {"sat": "long 20h; easy 5h"}, "races": []}`, "week.sat", "24 hours"},
	{"busy with a session", `{"today": "2026-05-04", "week": {"sat": "busy; easy 5h"}, "races": []}`, "week.sat", "busy alone"},
	{"long week text", `{"today": "2026-05-04", "week": {"sat": "` + strings.Repeat("x", 201) + `"}, "races": []}`, "week.sat", "201 characters"},
	{"races as object", file(`"races": {}`), "races", "must be a list, not an object"},
	{"race as text", file(`"races": ["Hill Loop"]`), "races[0]", "must be an object, not text"},
	{"race null", file(`"races": [null]`), "races[0]", "must be an object, not null"},
	{"race without name", file(`"races": [{"date": "2026-05-23", "priority": "A"}]`), "races[0].name", `is missing. For example "name": "Hill Loop"`},
	{"race without date", file(`"races": [{"name": "X", "priority": "A"}]`), "races[0].date", "is missing"},
	{"race without priority", file(`"races": [{"name": "X", "date": "2026-05-23"}]`), "races[0].priority", `"priority": "A"`},
	{"blank name", file(`"races": [{"name": " ", "date": "2026-05-23", "priority": "A"}]`), "races[0].name", "is empty"},
	{"long name", file(`"races": [{"name": "` + strings.Repeat("ö", 201) + `", "date": "2026-05-23", "priority": "A"}]`), "races[0].name", "201 characters"},
	{"name that turns its direction", file(`"races": [{"name": "A\u202eB", "date": "2026-05-23", "priority": "A"}]`), "races[0].name", `"A\u202eB" holds characters that cannot be seen`},
	{"name with a blank of no width", file(`"races": [{"name": "A\u200bB", "date": "2026-05-23", "priority": "A"}]`), "races[0].name", "cannot be seen"},
	{"UTF-16", "\xff\xfe{\x00}\x00", "plan file", "is UTF-16 text. Save it as UTF-8"},
	{"UTF-16 without a mark", "{\x00}\x00", "plan file", "is UTF-16 text. Save it as UTF-8"},
	{"UTF-16 the other way", "\x00{\x00}", "plan file", "is UTF-16 text. Save it as UTF-8"},
	{"name of two lines", file(`"races": [{"name": "A\nB", "date": "2026-05-23", "priority": "A"}]`), "races[0].name", "control character"},
	{"unknown race key", race(`"hour": 3`), "races[0].hour", "did you mean hours?"},
	{"duplicate race key", race(`"hours": 3, "hours": 3`), "races[0].hours", "stands twice"},
	{"bad race date", file(`"races": [{"name": "X", "date": "23/5/2026", "priority": "A"}]`), "races[0].date", `"date": "2026-05-23"`},
	{"race far ahead", file(`"races": [{"name": "X", "date": "2029-05-23", "priority": "A"}]`), "races[0].date", "1100 days"},
	{"race long ago", file(`"races": [{"name": "X", "date": "2023-04-23", "priority": "A"}]`), "races[0].date", "1100 days"},
	{"bad priority", file(`"races": [{"name": "X", "date": "2026-05-23", "priority": "D"}]`), "races[0].priority", `"D" is not A, B or C`},
	{"zero hours", race(`"hours": 0`), "races[0].hours", "outside above 0 to 48"},
	{"many hours", race(`"hours": 48.5`), "races[0].hours", `"hours": 3.5`},
	{"negative hours", race(`"hours": -1`), "races[0].hours", "outside"},
	{"huge hours", race(`"hours": 1e999`), "races[0].hours", "outside"},
	{"hours as text", race(`"hours": "3h30"`), "races[0].hours", "must be a number, not text"},
	{"no race days", race(`"days": 0`), "races[0].days", "outside 1 to 28"},
	{"many race days", race(`"days": 29`), "races[0].days", `"days": 1`},
	{"half a race day", race(`"days": 1.5`), "races[0].days", "whole number"},
	{"bad start", race(`"start": "25:00"`), "races[0].start", `"start": "10:30"`},
	{"bad emphasis", race(`"emphasis": "vital"`), "races[0].emphasis", "train-through or important"},
	{"kind as list", race(`"kind": []`), "races[0].kind", "must be text, not a list"},
	{"long kind", race(`"kind": "` + strings.Repeat("k", 201) + `"`), "races[0].kind", "201 characters"},
	{"long place", race(`"place": "` + strings.Repeat("k", 201) + `"`), "races[0].place", "201 characters"},
	{"bad registered", race(`"registered": "yesterday"`), "races[0].registered", `"registered": "2026-05-01"`},
	{"many hours a day", race(`"hours": 45`), "races[0].hours", "45 minutes are 0.75 hours"},
	{"many hours on the one day", race(`"hours": 45, "days": 1`), "races[0].hours", "45 hours are more than a day"},
	{"registered later", race(`"registered": "2026-05-05"`), "races[0].registered", "2026-05-05 is later than today, 2026-05-04"},
	{"withdrawn later", race(`"withdrawn": "2026-05-05"`), "races[0].withdrawn", "later than today"},
	{"withdrawn before registered", race(`"registered": "2026-05-03", "withdrawn": "2026-05-02"`), "races[0].withdrawn", "2026-05-02 is before it was told, 2026-05-03"},
	{"short taper", race(`"taper": 3`), "races[0].taper", "outside 4 to 28"},
	{"taper as text", race(`"taper": "auto"`), "races[0].taper", "must be a number, not text"},
	{"id as list", race(`"id": []`), "races[0].id", "must be text or a number, not a list"},
	{"blank id", race(`"id": " "`), "races[0].id", "is empty"},
	{"half an id", race(`"id": 1.5`), "races[0].id", "whole number"},
	{"same race twice", file(`"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A"}, {"name": "hill loop", "date": "2026-05-23", "priority": "B"}]`), "races[1].name", "races[0] already"},
	{"taper as list", file(`"taper": []`), "taper", "empty list"},
	{"taper as text", file(`"taper": "auto"`), "taper", "must be an object, not text"},
	{"taper told later", file(`"taper": {"told": "2026-05-05"}`), "taper.told", "later than today"},
	{"cut in quotes", file(`"taper": {"cut": "50"}`), "taper.cut", "neither auto nor a number"},
	{"few taper days", file(`"taper": {"days": 3}`), "taper.days", "outside 4 to 28"},
	{"many taper days", file(`"taper": {"days": 29}`), "taper.days", `"days": "auto"`},
	{"taper days in quotes", file(`"taper": {"days": "7"}`), "taper.days", "without quotes"},
	{"taper days true", file(`"taper": {"days": true}`), "taper.days", "must be a number, not true or false"},
	{"small cut", file(`"taper": {"cut": 19}`), "taper.cut", "outside 20 to 80"},
	{"large cut", file(`"taper": {"cut": 81}`), "taper.cut", `"cut": 50`},
	{"bad pattern", file(`"taper": {"pattern": "fourth"}`), "taper.pattern", "usual, second or third"},
	{"shape", file(`"taper": {"shape": "linear"}`), "taper.shape", "no setting any more"},
	{"shape of a later state", file(`"taper": [{}, {"shape": null}]`), "taper[1].shape", "Leave it out"},
	{"bad openers", file(`"taper": {"openers": "D-3"}`), "taper.openers", "D-1 or D-2"},
	{"unknown taper key", file(`"taper": {"cuts": 50}`), "taper.cuts", "did you mean cut?"},
	{"block turned round", file(`"blocks": [{"from": "2026-05-03", "to": "2026-05-01"}]`), "blocks[0].from", "2026-05-03 is after to, 2026-05-01"},
	{"block without to", file(`"blocks": [{"from": "2026-05-03"}]`), "blocks[0].to", "is missing"},
	{"small percent", file(`"blocks": [{"from": "2026-05-03", "to": "2026-05-04", "percent": 0}]`), "blocks[0].percent", "outside 1 to 100"},
	{"large percent", file(`"blocks": [{"from": "2026-05-03", "to": "2026-05-04", "percent": 101}]`), "blocks[0].percent", `"percent": 20`},
	{"away turned round", file(`"away": [{"from": "2026-05-03", "to": "2026-05-01"}]`), "away[0].from", "is after to"},
	{"away kind", file(`"away": [{"from": "2026-05-03", "to": "2026-05-04", "kind": "holiday"}]`), "away[0].kind", "off or travel"},
	{"away without from", file(`"away": [{"to": "2026-05-03"}]`), "away[0].from", "is missing"},
	{"limit without minutes", file(`"limits": [{"date": "2026-05-12"}]`), "limits[0].minutes", `"minutes": 45`},
	{"large limit", file(`"limits": [{"date": "2026-05-12", "minutes": 1441}]`), "limits[0].minutes", "outside 0 to 1440"},
	{"negative limit", file(`"limits": [{"date": "2026-05-12", "minutes": -1}]`), "limits[0].minutes", "outside 0 to 1440"},
	{"sick turned round", file(`"sick": [{"from": "2026-05-03", "to": "2026-05-01"}]`), "sick[0].from", "is after to"},
	{"symptoms as text", file(`"sick": [{"from": "2026-05-03", "symptoms": "fever"}]`), "sick[0].symptoms", `"symptoms": ["fever"]`},
	{"symptom as number", file(`"sick": [{"from": "2026-05-03", "symptoms": ["fever", 39]}]`), "sick[0].symptoms[1]", "must be text, not a number"},
	{"long symptom", file(`"sick": [{"from": "2026-05-03", "symptoms": ["` + strings.Repeat("s", 201) + `"]}]`), "sick[0].symptoms[0]", "201 characters"},
	{"done in the future", file(`"done": [{"date": "2026-05-05", "minutes": 60}]`), "done[0].date", "in the future, today is 2026-05-04"},
	{"done told later", file(`"done": [{"date": "2026-05-03", "minutes": 60, "told": "2026-05-05"}]`), "done[0].told", "later than today"},
	{"done withdrawn before its day", file(`"done": [{"date": "2026-05-03", "minutes": 60, "withdrawn": "2026-05-02"}]`), "done[0].withdrawn", "before it was told, 2026-05-03"},
	{"block told later", file(`"blocks": [{"from": "2026-05-03", "to": "2026-05-04", "told": "2026-05-05"}]`), "blocks[0].told", "later than today"},
	{"away withdrawn first", file(`"away": [{"from": "2026-05-03", "to": "2026-05-04", "told": "2026-05-02", "withdrawn": "2026-05-01"}]`), "away[0].withdrawn", "before it was told"},
	{"limit withdrawn later", file(`"limits": [{"date": "2026-05-12", "minutes": 1, "withdrawn": "2026-05-05"}]`), "limits[0].withdrawn", "later than today"},
	{"sick told by name", file(`"sick": [{"from": "2026-05-03", "told": "yesterday"}]`), "sick[0].told", "not a date"},
	{"cleared later", file(`"sick": [{"from": "2026-05-03", "cleared": "2026-05-05"}]`), "sick[0].cleared", "later than today"},
	{"cleared before ill", file(`"sick": [{"from": "2026-05-03", "cleared": "2026-05-02"}]`), "sick[0].cleared", "before from, 2026-05-03"},
	{"sick withdrawn before told", file(`"sick": [{"from": "2026-05-03", "withdrawn": "2026-05-02"}]`), "sick[0].withdrawn", "before it was told, 2026-05-03"},
	{"pin without session", file(`"pins": [{"date": "2026-05-12"}]`), "pins[0].session", "is missing"},
	{"pin without date", file(`"pins": [{"session": "rest"}]`), "pins[0].date", "is missing"},
	{"pin of a busy day", file(`"pins": [{"date": "2026-05-12", "session": "busy"}]`), "pins[0].session", "no session"},
	{"pin of two sessions", file(`"pins": [{"date": "2026-05-12", "session": "easy 30; gym 30"}]`), "pins[0].session", "cannot read"},
	{"day pinned twice", file(`"pins": [{"date": "2026-05-12", "session": "rest"}, {"date": "2026-05-12", "session": "easy 30"}]`), "pins[1].date", "pins[0] already"},
	{"pin told later", file(`"pins": [{"date": "2026-05-12", "session": "rest", "told": "2026-05-05"}]`), "pins[0].told", "later than today"},
	{"many minutes done", file(`"done": [{"date": "2026-05-03", "minutes": 1441}]`), "done[0].minutes", "outside 0 to 1440"},
	{"two rides over a day", file(`"done": [{"date": "2026-05-03", "minutes": 1000}, {"date": "2026-05-03", "minutes": 1000}]`), "done[1].minutes", "more than 24 h"},
	{"rpe of 11", file(`"done": [{"date": "2026-05-03", "minutes": 60, "rpe": 11}]`), "done[0].rpe", "outside 1 to 10"},
	{"rpe of 0", file(`"done": [{"date": "2026-05-03", "minutes": 60, "rpe": 0}]`), "done[0].rpe", `"rpe": 6`},
	{"feeling of 0", file(`"results": [{"race": "Hill Loop", "feeling": 0}]`), "results[0].feeling", "outside 1 to 10"},
	{"feeling of 11", file(`"results": [{"race": "Hill Loop", "feeling": 11}]`), "results[0].feeling", `"feeling": 7`},
	{"unknown race", file(`"results": [{"race": "Hil Loop", "feeling": 5}]`), "results[0].race", `"race": "Hill Loop"`},
	{"result without races", file(`"races": [], "results": [{"race": "Hill Loop", "feeling": 5}]`), "results[0].race", "lists none"},
	{"result without race", file(`"results": [{"feeling": 5}]`), "results[0].race", "is missing"},
}

func TestReadNamesEachFault(t *testing.T) {
	for _, tc := range badFiles {
		today, f, faults := Read([]byte(tc.in))
		if len(faults) != 1 {
			t.Errorf("%s: got faults %v, want one for %s", tc.name, faults, tc.field)
			continue
		}
		got := faults[0]
		if got.Field != tc.field || !strings.Contains(got.Msg, tc.msg) {
			t.Errorf("%s: got %s: %s, want %s with %s", tc.name, got.Field, got.Msg, tc.field, tc.msg)
		}
		if f != nil || today != 0 {
			t.Errorf("%s: got facts beside a fault", tc.name)
		}
		checkMessage(t, got)
	}
}

var showsExample = regexp.MustCompile(`(?i)(for example|write [^;]*like) \S`)

// checkMessage wants one line with a right example.
func checkMessage(t *testing.T, fault planner.InputError) {
	t.Helper()
	if strings.ContainsAny(fault.Error(), "\n\r") {
		t.Errorf("%q has more than one line", fault.Error())
	}
	if !showsExample.MatchString(fault.Msg) {
		t.Errorf("%q shows no example", fault.Error())
	}
}

func TestReadFindsAllFaultsInTheirOrder(t *testing.T) {
	in := `{
	 "done": [{"date": "2026-05-05", "minutes": 60, "rpe": 11}],
	 "races": [{"hours": 0, "name": "X", "date": "soon", "colour": "red"}, {"name": 5, "date": "2026-05-23", "priority": "A"}],
	 "results": [{"race": "Y", "feeling": 12}],
	 "week": {"tue": "juggle 1h", "monday": 4, "mon": "long"},
	 "today": "2026-05-04",
	 "today": "2026-05-04", "today": "2026-05-04",
	 "taper": {"cut": 10, "days": 2}
	}`
	want := []string{
		"done[0].date", "done[0].rpe",
		"races[0].hours", "races[0].date", "races[0].colour", "races[0].priority", "races[1].name",
		"results[0].feeling",
		"week.tue", "week.monday", "week.mon",
		"today", "taper.cut", "taper.days",
	}
	_, _, faults := Read([]byte(in))
	got := make([]string, len(faults))
	for i, f := range faults {
		got[i] = f.Field
		checkMessage(t, f)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}

// Every example that a message can show must be right itself.
func TestExamplesAreRight(t *testing.T) {
	results := `"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A"}], `
	for _, f := range fileFields {
		in := fmt.Sprintf(`{"today": "2026-05-04", "week": {}, "races": [], %s}`, f.example)
		switch f.key {
		case "today":
			in = `{"week": {}, "races": [], ` + f.example + `}`
		case "week":
			in = `{"today": "2026-05-04", "races": [], ` + f.example + `}`
		case "races":
			in = `{"today": "2026-05-04", "week": {}, ` + f.example + `}`
		case "results":
			in = `{"today": "2026-05-04", "week": {}, ` + results + f.example + `}`
		}
		if _, _, faults := Read([]byte(in)); len(faults) > 0 {
			t.Errorf("%s: got %v, want no fault", in, faults)
		}
	}
	lists := map[string][]field{
		"blocks": blockFields, "away": awayFields, "limits": limitFields, "sick": sickFields, "done": doneFields, "pins": pinFields, "results": resultFields, "races": raceFields,
	}
	for key, fields := range lists {
		var parts []string
		for _, f := range fields {
			parts = append(parts, f.example)
		}
		if _, _, faults := Read([]byte(file(fmt.Sprintf(`%q: [{%s}]`, key, strings.Join(parts, ", "))))); len(faults) > 0 {
			t.Errorf("%s: got %v, want no fault", key, faults)
		}
	}
	for _, f := range weekFields {
		if _, _, faults := Read([]byte(`{"today": "2026-05-04", "races": [], "week": {` + f.example + `}}`)); len(faults) > 0 {
			t.Errorf("%s: got %v, want no fault", f.key, faults)
		}
	}
	for _, f := range taperFields {
		for _, example := range strings.Split(f.example, " or ") {
			if _, _, faults := Read([]byte(file(`"taper": {` + example + `}`))); len(faults) > 0 {
				t.Errorf("%s: got %v, want no fault", example, faults)
			}
		}
	}
	if _, _, faults := Read([]byte(fileExample)); len(faults) > 0 {
		t.Errorf("%s: got %v, want no fault", fileExample, faults)
	}
}
