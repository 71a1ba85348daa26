package engine_test

import (
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
)

const ownWeek = `"week":{"mon":"recovery 40min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45","thu":"off","fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"}`

func planOf(t *testing.T, facts string) *engine.Plan {
	t.Helper()
	today, f, faults := planfile.Read([]byte(`{"today":"2027-06-07",` + facts + `}`))
	if len(faults) > 0 {
		t.Fatalf("%s: %v", facts, faults)
	}
	return engine.Derive(today, f)
}

// Days that were planned wrongly once: the day and what it holds, in the words of
// the plan (facts of the trade; the length of warm-ups is common practice).
func TestRows(t *testing.T) {
	for name, row := range map[string]struct{ facts, day, want string }{
		"a race of 16 h from 20:00 goes on after midnight": {
			ownWeek + `,"races":[{"name":"Night Ride","date":"2027-06-19","priority":"A","hours":16,"start":"20:00"}]`, "2027-06-20", "race"},
		"D+1 of a B race of two days counts from the second": {
			ownWeek + `,"races":[{"name":"Night Ride","date":"2027-06-12","priority":"B","hours":16,"days":2,"start":"08:00"}]`, "2027-06-14", "rest"},
		"one repetition of 15 min fits into 45 min": {
			`"week":{"thu":"intervals 1h 1x15min","sun":"long 2h"},"races":[],"limits":[{"date":"2027-06-10","minutes":45}]`, "2027-06-10", "intervals 45min 1x15min"},
		"two rides of a day become one, no longer than a recovery ride": {
			`"week":{"tue":"endurance 2h; endurance 1h50","thu":"intervals 1h30 5x3min","sun":"long 4h"},"races":[{"name":"Far Ride","date":"2027-06-19","priority":"A","hours":6}]`, "2027-06-22", "recovery 45min"},
		"a week after a fever no ride is long before nine hours": {
			`"week":{"tue":"intervals 1h45 4x8min","wed":"endurance 2h30","thu":"intervals 2h 3x15min","fri":"recovery 1h","sat":"long 5h30","sun":"endurance 3h30"},"races":[{"name":"Far Ride","date":"2027-06-26","priority":"A","hours":9}],"sick":[{"from":"2027-06-09","to":"2027-06-12","symptoms":["fever"]}]`, "2027-06-19", "endurance 2h30"},
		"nor the day after it": {
			`"week":{"tue":"intervals 1h45 4x8min","wed":"endurance 2h30","thu":"intervals 2h 3x15min","fri":"recovery 1h","sat":"long 5h30","sun":"endurance 3h30"},"races":[{"name":"Far Ride","date":"2027-06-26","priority":"A","hours":9}],"sick":[{"from":"2027-06-09","to":"2027-06-12","symptoms":["fever"]}]`, "2027-06-20", "endurance 1h50"},
		"a hard day two days before a C race of two hours and a half stays": {
			ownWeek + `,"races":[{"name":"Mill Ride","date":"2027-06-17","priority":"C","hours":2.5}]`, "2027-06-15", "intervals 1h30 5x3min"},
		"no strength work two days before a B race": {
			`"week":{"tue":"intervals 1h30 5x3min","thu":"recovery 40min; strength 40min","sun":"long 3h"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":2}]`, "2027-06-10", "recovery 40min"},
		"a hard day without a set says how much of it is hard": {
			`"week":{"tue":"group 1h30","thu":"endurance 1h30","sun":"long 3h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":2}]`, "2027-06-15", "intervals"},
		"the day after a B race of three hours lasts 45 min at most": {
			`"week":{"tue":"intervals 1h30 5x3min","thu":"endurance 1h30","sat":"long 3h","sun":"recovery 1h30"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":3}]`, "2027-06-13", "recovery 45min"},
		"after one that is shorter an hour": {
			`"week":{"tue":"intervals 1h30 5x3min","thu":"endurance 1h30","sat":"long 3h","sun":"recovery 1h30"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":2.9}]`, "2027-06-13", "recovery 1h"},
		"two rides a week leave room for openers": {
			`"week":{"sat":"long 4h","sun":"endurance 3h"},"races":[{"name":"Far Ride","date":"2027-06-19","priority":"A","hours":5}]`, "2027-06-18", "openers"},
		"one hard ride a week stays the one": {
			`"week":{"tue":"endurance 45min","thu":"intervals 45min 4x2min","sun":"endurance 1h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":1}]`, "2027-06-15", "endurance"},
		"on the last ill day the rider is ill": {
			ownWeek + `,"races":[],"sick":[{"from":"2027-06-05","to":"2027-06-08","symptoms":["fever"]}]`, "2027-06-08", "rest"},
		"after three hours of racing the day after is free": {
			`"week":{"mon":"endurance 1h","wed":"intervals 1h 4x4min","sat":"endurance 1h","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":3}]`, "2027-06-21", "rest"},
		"the usual hard day before lost days rides its whole set": {
			`"week":{"tue":"intervals 1h30 5x4min","wed":"endurance 1h30","thu":"intervals 1h15 4x6min","sat":"long 3h","sun":"endurance 1h45"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":2.75}],"away":[{"from":"2027-06-11","to":"2027-06-13","kind":"off"}]`,
			"2027-06-10", "intervals 1h15 4x6min"},
		"three rides a week and a free eve: openers two days before a short B race": {
			`"week":{"tue":"intervals 1h 5x3min","thu":"endurance 1h","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-19","priority":"B","hours":0.4}]`, "2027-06-17", "openers 45min"},
		"and the eve stays free": {
			`"week":{"tue":"intervals 1h 5x3min","thu":"endurance 1h","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-19","priority":"B","hours":0.4}]`, "2027-06-18", "rest"},
		"a long ride the day after a race of 12 min is shorter": {
			`"week":{"tue":"intervals 1h30 6x4min","wed":"endurance 2h","thu":"intervals 1h30 3x12min","sat":"intervals 2h 8x1min","sun":"long 4h"},"races":[{"name":"Mill Climb","date":"2027-06-19","priority":"A","hours":0.2}]`, "2027-06-20", "endurance 2h20"},
		"the third day after a B race, two days before another, is easy": {
			`"week":{"thu":"intervals 45min 1x20min"},"races":[{"name":"Mill Ride","date":"2027-06-14","priority":"B","emphasis":"important"},{"name":"Far Ride","date":"2027-06-19","priority":"B"}]`, "2027-06-17", "endurance 40min"},
		"the third day after a B race, two days after another, is easy": {
			`"week":{"wed":"intervals 4x4min"},"races":[{"name":"Mill Ride","date":"2027-06-13","priority":"B","emphasis":"important"},{"name":"Far Ride","date":"2027-06-14","priority":"B"}]`, "2027-06-16", "endurance 45min"},
		"a commute five days before an important race stays one": {
			`"week":{"wed":"commute 90min"},"races":[{"name":"Mill Ride","date":"2027-06-21","priority":"B","emphasis":"important"}]`, "2027-06-16", "commute 1h30"},
		"a session lost twelve days before an A race comes to the day before the days away": {
			`"week":{"tue":"intervals 1h15 5x4min","wed":"endurance 1h30","thu":"endurance 1h30","sat":"long 3h","sun":"endurance 1h45"},"races":[{"name":"Mill Ride","date":"2027-06-27","priority":"A","hours":3}],"away":[{"from":"2027-06-15","to":"2027-06-17","kind":"off"}]`, "2027-06-13", "intervals 1h45 5x4min"},
		"a long ride before three lost days stays whole before a long race": {
			`"week":{"tue":"intervals 1h15 5x4min","wed":"endurance 1h30","thu":"endurance 1h30","sat":"long 3h","sun":"endurance 1h45"},"races":[{"name":"Mill Ride","date":"2027-06-19","priority":"A","hours":4}],"away":[{"from":"2027-06-14","to":"2027-06-16","kind":"off"}]`, "2027-06-12", "long 3h"},
		"the session of the race's weekday comes before a B race": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h 4x5min","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-17","priority":"B","hours":2}]`, "2027-06-13", "intervals 1h20 3x5min"},
		"a short set comes before two lost days and a B race": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h 4x5min","sun":"long 4h"},"races":[{"name":"Mill Ride","date":"2027-06-17","priority":"B","hours":2}],"away":[{"from":"2027-06-15","to":"2027-06-16","kind":"travel"}]`, "2027-06-14", "intervals 1h 2x5min"},
		"openers come before two lost days and a B race": {
			`"week":{"tue":"endurance 1h","thu":"endurance 1h","sat":"intervals 1h 4x5min","sun":"endurance 1h"},"races":[{"name":"Mill Ride","date":"2027-06-16","priority":"B","hours":2}],"away":[{"from":"2027-06-14","to":"2027-06-15","kind":"off"}]`, "2027-06-13", "openers"},
		"half of a displaced session stays three days before a B race": {
			`"week":{"mon":"intervals 1h15 5x3min","tue":"endurance 1h","wed":"endurance 1h","thu":"intervals 1h15 4x5min","sat":"long 3h"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":2}]`, "2027-06-09", "intervals 1h 2x5min"},
		"a hard sixth day before important stages is smaller": {
			`"week":{"mon":"recovery 1h","tue":"intervals 1h30 6x3min","thu":"endurance 2h","sat":"intervals 2h 4x8min","sun":"long 4h"},"races":[{"name":"Three Days","date":"2027-06-18","priority":"B","hours":2.5,"days":3,"emphasis":"important"}]`, "2027-06-12", "intervals 1h30 3x8min"},
		"nothing is hard six days after a B race of a week's hours": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h 4x5min","sun":"long 4h"},"races":[{"name":"Far Ride","date":"2027-06-11","priority":"B","hours":6}]`, "2027-06-17", "endurance"},
		"a very long ride three days after four hours of racing is cut by a third": {
			`"week":{"tue":"intervals 2h 5x4min","wed":"endurance 3h","thu":"intervals 2h 4x8min","sat":"endurance 3h","sun":"long 5h"},"races":[{"name":"Far Ride","date":"2027-06-10","priority":"B","hours":4}]`, "2027-06-13", "long 3h15"},
		"the long ride of few hours stays whole a week before a long race": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h 4x5min","sun":"long 2h"},"races":[{"name":"Far Ride","date":"2027-06-20","priority":"A","hours":4}]`, "2027-06-13", "long 2h"},
		"openers wake legs after two free days before a short race that is trained through": {
			`"week":{"tue":"intervals 1h 4x5min","thu":"endurance 1h","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"B","hours":0.75,"emphasis":"train-through"}]`, "2027-06-19", "openers"},
		"the day after a B race that follows an illness is half": {
			`"week":{"tue":"intervals 1h 4x5min","thu":"endurance 2h","sat":"endurance 2h","sun":"endurance 2h"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":0.5}],"sick":[{"from":"2027-06-01","to":"2027-06-02","symptoms":["fever"]}]`, "2027-06-13", "recovery 1h"},
		"the second hard day after stages is smaller too": {
			`"week":{"mon":"recovery 1h","tue":"intervals 1h30 6x3min","wed":"endurance 2h","thu":"intervals 1h30 4x8min","sat":"endurance 3h","sun":"long 4h"},"races":[{"name":"Three Days","date":"2027-06-18","priority":"A","hours":2.5,"days":3}]`, "2027-07-01", "intervals 1h15 3x8min"},
		"a long ride two days before a short race stays a longer one before a very long one": {
			`"week":{"tue":"intervals 1h15 5x4min","thu":"endurance 1h30","sat":"endurance 1h30","sun":"long 4h"},"races":[{"name":"Mill Ride","date":"2027-06-15","priority":"B","hours":1},{"name":"Far Ride","date":"2027-06-22","priority":"A","hours":7}]`, "2027-06-13", "endurance 2h45"},
		"a hard second day before a short C race is smaller": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h15 6x4min","sun":"long 2h"},"races":[{"name":"Mill Climb","date":"2027-06-12","priority":"C","hours":0.5}]`, "2027-06-10", "intervals 55min 4x4min"},
		"a hard part on a short day keeps its warm-up and cool-down under an asked cut": {
			`"week":{"sun":"endurance 1h05","tue":"long 1h45","wed":"group 1h15"},"races":[{"name":"Mill Ride","date":"2027-06-16","priority":"A"}],"taper":{"cut":22}`, "2027-06-13", "intervals 40min"},
		"a commute two days before a B race stays one": {
			`"week":{"wed":"commute 90min","thu":"intervals 1h 4x4min","sun":"long 2h"},"races":[{"name":"Mill Ride","date":"2027-06-18","priority":"B"}]`, "2027-06-16", "commute 1h30"},
		"three days before a race the rider rides a few short repetitions, not in a group": {
			`"week":{"tue":"intervals 1h30 5x3min","wed":"endurance 1h30","thu":"group 2h","sat":"long 3h","sun":"endurance 2h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":3}]`, "2027-06-17", "intervals 55min 3x3min"},
		"a long ride takes the only session of a week that a B race displaces": {
			`"week":{"tue":"intervals 1h 6x2min","thu":"endurance 1h","sun":"long 2h30"},"races":[{"name":"Mill Ride","date":"2027-06-16","priority":"B","hours":0.75}]`, "2027-06-13", "intervals 1h45 4x2min"},
		"after three days away a free day wakes the legs for hard work before a B race": {
			`"week":{"tue":"intervals 1h15 5x3min","wed":"endurance 1h45","thu":"intervals 1h15 3x12min","fri":"recovery 1h","sat":"long 3h","sun":"endurance 2h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"B","hours":3}],"away":[{"from":"2027-06-11","to":"2027-06-13","kind":"off"}]`, "2027-06-14", "endurance 1h"},
		"three days before a race a short set comes where the last one is two days older": {
			`"week":{"tue":"intervals 1h15 6x2min","wed":"endurance 1h15","thu":"endurance 1h30","sat":"intervals 1h30 4x8min","sun":"long 3h30"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":4}]`, "2027-06-17", "intervals"},
		"the third day after a block is short": {
			`"week":{"mon":"recovery 1h","tue":"intervals 1h30 5x4min","wed":"endurance 4h","thu":"intervals 2h 3x15min","sat":"long 5h","sun":"endurance 3h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":4}],"blocks":[{"from":"2027-05-24","to":"2027-06-06","percent":20}]`, "2027-06-09", "endurance 1h30"},
		"openers before a race that is trained through are half of the usual ride": {
			`"week":{"tue":"intervals 1h30 5x4min","thu":"intervals 1h30 3x12min","sat":"endurance 2h20","sun":"long 4h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"B","hours":1,"emphasis":"train-through"},{"name":"Far Ride","date":"2027-06-27","priority":"A","hours":4}]`, "2027-06-19", "openers 1h10"},
		"four days after a race of an hour the usual set is ridden": {
			`"week":{"tue":"intervals 1h30 5x4min","thu":"intervals 1h30 6x3min","sat":"endurance 2h","sun":"long 3h"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":1}]`, "2027-06-24", ""},
		"the next hard day after an illness is smaller than usual": {
			`"week":{"tue":"intervals 1h 5x4min","thu":"intervals 1h 8x1min","sat":"endurance 1h","sun":"long 2h15"},"races":[{"name":"Mill Ride","date":"2027-06-19","priority":"B","hours":0.4,"emphasis":"important"},{"name":"Far Ride","date":"2027-06-27","priority":"C","hours":1}],"sick":[{"from":"2027-06-03","to":"2027-06-06","symptoms":["fever"]}]`, "2027-06-22", "intervals 50min 4x4min"},
		"before stages a short hard day leaves room to warm up": {
			`"week":{"mon":"recovery 1h","tue":"intervals 2h30 5x5min","wed":"endurance 3h","thu":"intervals 2h30 3x15min","sat":"group 4h 4x10min","sun":"long 5h"},"races":[{"name":"Mill Stages","date":"2027-06-24","priority":"A","hours":3,"days":4}]`, "2027-06-21", "intervals 1h 2x5min"},
		"the long ride of a rider of three rides gives way to a C race as long": {
			`"week":{"tue":"endurance 1h","thu":"intervals 1h 5x4min","sun":"long 2h30"},"races":[{"name":"Beech Gravel","date":"2027-06-19","priority":"C","hours":2.5}]`, "2027-06-20", "rest"},
		"a race longer than any usual ride makes the next weekend smaller": {
			`"week":{"tue":"intervals 1h15 4x6min","thu":"intervals 1h15 5x3min","sat":"endurance 2h","sun":"long 3h"},"races":[{"name":"Dust Gravel","date":"2027-06-13","priority":"B","hours":4.5}]`, "2027-06-20", "long 2h15"},
		"a week after a fever no long ride goes before a short race": {
			`"week":{"tue":"intervals 1h15 4x6min","wed":"recovery 45min","thu":"intervals 1h15 2x20min","sat":"endurance 1h30","sun":"long 2h30"},"races":[{"name":"Mill Trial","date":"2027-06-19","priority":"A","hours":1}],"sick":[{"from":"2027-06-03","to":"2027-06-06","symptoms":["fever"]}]`, "2027-06-13", "endurance 1h30"},
		"two days before a race that is trained through nothing changes": {
			`"week":{"mon":"endurance 1h","tue":"intervals 1h15 5x4min","wed":"commute 40min","thu":"intervals 1h15 8x1min","sat":"long 3h","sun":"endurance 1h10"},"races":[{"name":"Mill Ride","date":"2027-06-16","priority":"B","hours":1.25,"emphasis":"train-through"}]`, "2027-06-14", "endurance 1h"},
		"the last hard day before a criterium rides the short set": {
			`"week":{"tue":"intervals 1h15 6x2min","thu":"intervals 1h15 4x5min","sat":"endurance 1h","sun":"long 2h"},"races":[{"name":"Mill Circuit","date":"2027-06-20","priority":"A","hours":1,"kind":"criterium"}]`, "2027-06-17", "intervals 45min 3x2min"},
		"a week before the race a long ride shows the cut that was asked for": {
			`"week":{"tue":"intervals 1h30 5x5min","thu":"intervals 1h30 3x12min","sat":"endurance 2h","sun":"long 4h30"},"races":[{"name":"Mill Ride","date":"2027-06-20","priority":"A","hours":3}],"taper":{"days":10,"cut":40}`, "2027-06-13", "long 2h50"},
		"the day after a race of 2 h that is trained through keeps most of its long ride": {
			`"week":{"tue":"intervals 1h30 5x5min","thu":"intervals 1h30 3x12min","sat":"group 2h30","sun":"long 3h30"},"races":[{"name":"Mill Ride","date":"2027-06-12","priority":"B","hours":2.5,"emphasis":"train-through"}]`, "2027-06-13", "endurance 2h20"},
		"before an hour against the clock the last hard day rides the long set": {
			`"week":{"tue":"intervals 1h15 5x3min","thu":"recovery 45min","sat":"intervals 1h30 3x12min","sun":"long 3h"},"races":[{"name":"Mill Trial","date":"2027-06-19","priority":"A","hours":0.9,"kind":"time trial"}],"taper":{"days":6}`, "2027-06-15", "intervals 1h 2x12min"},
		"twelve days before a race a long ride is still long": {
			`"week":{"mon":"recovery 1h","tue":"intervals 2h 5x5min","wed":"endurance 3h","thu":"intervals 2h 3x12min","fri":"endurance 2h","sat":"endurance 2h","sun":"long 5h"},"races":[{"name":"Mill Stages","date":"2027-06-24","priority":"A","hours":3.5,"days":4}]`, "2027-06-13", "long 4h15"},
		"three short repetitions are the least": {
			`"week":{"mon":"recovery 1h","tue":"intervals 2h30 5x3min","wed":"endurance 3h","thu":"intervals 2h 3x12min","sat":"intervals 2h 4x8min","sun":"long 4h"},"races":[{"name":"Mill Circuit","date":"2027-06-18","priority":"A","hours":1,"kind":"criterium"}]`, "2027-06-15", "intervals 1h15 3x3min"},
		"the third day after a long C race is not yet whole": {
			`"week":{"tue":"intervals 2h30 6x5min","wed":"endurance 2h","thu":"intervals 1h30 4x8min","sat":"endurance 3h","sun":"long 5h30"},"races":[{"name":"Dust Gravel","date":"2027-06-12","priority":"C","hours":5}]`, "2027-06-15", "intervals 1h50 4x5min"},
		"the long ride before lost days stays whole": {
			`"week":{"mon":"recovery 45min","tue":"endurance 1h30","wed":"intervals 1h30 5x4min","fri":"endurance 1h","sat":"long 3h","sun":"intervals 1h45 3x12min"},"races":[{"name":"Mill Ride","date":"2027-06-19","priority":"A","hours":3.5}],"away":[{"from":"2027-06-13","to":"2027-06-15","kind":"off"}]`, "2027-06-12", "long 3h"},
	} {
		p := planOf(t, row.facts)
		date, err := planner.ParseISODate(row.day)
		if err != nil {
			t.Fatal(err)
		}
		day, ok := p.Day(date)
		if row.want == "" { // as usual, and so is all that follows
			if ok {
				t.Errorf("%s: %s is still planned", name, row.day)
			}
			continue
		}
		if !ok {
			t.Fatalf("%s: the plan ends before %s", name, row.day)
		}
		var got []string
		for _, s := range day.Sessions {
			got = append(got, s.Label())
		}
		if text := strings.Join(got, "; "); !strings.HasPrefix(text, row.want) {
			t.Errorf("%s: %s has %q, want %q", name, row.day, text, row.want)
		}
		if s := day.Sessions[0]; s.Kind == planner.Commute && s.Effort != planner.Easy {
			t.Errorf("%s: a commute is ridden %s", name, s.Effort)
		}
		if row.want == "intervals" && day.Sessions[0].HardMinutes() == 0 {
			t.Errorf("%s: no hard minutes", name)
		}
	}
}

// On the last ill day the reason is the illness, on the next ones the rest after it.
func TestIllDaysSaySo(t *testing.T) {
	p := planOf(t, ownWeek+`,"races":[],"sick":[{"from":"2027-06-05","to":"2027-06-08","symptoms":["fever"]}]`)
	for i, want := range []engine.Code{engine.WhyIll, engine.WhyIll, engine.WhyIllFree} {
		if causes := p.Days[i].Causes; len(causes) == 0 || causes[0].Code != want {
			t.Errorf("%s: causes %v, want %s first", p.Days[i].Date, causes, want)
		}
	}
}

// A B race of several days whose last day is near an A race is named, though it begins long before.
func TestLongBRaceInsideATaperIsNamed(t *testing.T) {
	p := planOf(t, ownWeek+`,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5},{"name":"Three Days","date":"2027-06-23","priority":"B","hours":2,"days":3}]`)
	for _, w := range p.Warnings {
		if w.Code == engine.WarnInside && w.Race.Name == "Three Days" && w.Other.Name == "Hill Loop" {
			return
		}
	}
	t.Errorf("warnings %+v", p.Warnings)
}

// A limited day that is usually hard says once how much time it has.
func TestLimitIsSaidOnce(t *testing.T) {
	p := planOf(t, `"week":{"wed":"intervals 50min 5x2min","sat":"endurance 1h","sun":"long 2h10"},"races":[{"name":"Brook Hill","date":"2027-06-24","priority":"A","hours":0.5}],"limits":[{"date":"2027-06-23","minutes":20}]`)
	day, ok := p.Day(planner.NewDate(2027, 6, 23))
	if !ok {
		t.Fatal("the plan ends before the eve")
	}
	said := 0
	for _, c := range day.Causes {
		if c.Code == engine.WhyLimit {
			said++
			if c.N != 20 {
				t.Errorf("the limit is 20 min, the cause says %d", c.N)
			}
		}
	}
	if said != 1 {
		t.Errorf("causes %+v name the limit %d times", day.Causes, said)
	}
}
