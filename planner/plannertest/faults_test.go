package plannertest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// base is a rider with an A race on 13 June and a B race on 4 July; extra facts
// are added to it.
func base(extra string) []byte {
	return []byte(`{"today":"2026-05-25","week":{"mon":"busy","tue":"intervals 1h30 5x3min","wed":"endurance 1h30","thu":"recovery 45min; strength 30min",
		"fri":"intervals 1h20 4x8min","sat":"long 3h","sun":"rest"},
		"races":[{"name":"Elm Circuit","date":"2026-06-13","priority":"A","hours":2},{"name":"Ivy Sprint","date":"2026-07-04","priority":"B","hours":1}]` + extra + `}`)
}

// set gives a day one session such as "intervals 60 hard 3x3min", a reason and a caution.
func set(out *outFile, date, session string) {
	d := dayOf(out, date)
	words := strings.Fields(session)
	s := outSession{Kind: words[0], Effort: words[2], RPE: "3", Text: "As it says."}
	if _, err := fmt.Sscan(words[1], &s.Minutes); err != nil {
		panic(err)
	}
	if len(words) > 3 {
		s.Sets = &words[3]
	}
	d.Sessions, d.Cautions = []outSession{s}, []string{"Not when ill."}
	d.Why = []outWhy{{"taper.minutes", "It is so.", "our choice"}}
}

func dayOf(out *outFile, date string) *outDay {
	for i := range out.Days {
		if out.Days[i].Date == date {
			return &out.Days[i]
		}
	}
	panic("no day " + date)
}

type fault struct {
	rule, extra string
	change      func(*outFile)
}

func sets(date, session string) func(*outFile) {
	return func(out *outFile) { set(out, date, session) }
}

var faults = []fault{
	{"hard.eve", "", sets("2026-06-12", "intervals 60 hard 3x3min")},
	{"hard.eve", "", sets("2026-07-02", "intervals 60 hard 3x3min")},
	{"hard.row", "", func(out *outFile) {
		set(out, "2026-06-09", "intervals 60 hard 2x3min")
		set(out, "2026-06-10", "intervals 60 hard 2x3min")
	}},
	{"hard.after", "", sets("2026-06-15", "intervals 60 hard 3x3min")},
	{"hard.after", "", sets("2026-07-05", "intervals 60 hard 3x3min")},
	{"hard.work", "", sets("2026-06-09", "intervals 90 hard 40x3min")},
	{"hard.count", "", func(out *outFile) {
		for _, d := range []string{"04", "06", "08", "10"} {
			set(out, "2026-06-"+d, "intervals 45 hard 2x1min")
		}
	}},
	{"hard.count", `,"taper":{"days":14,"pattern":"second"}`, func(out *outFile) {
		for _, d := range []string{"02", "04", "06", "08"} {
			set(out, "2026-06-"+d, "intervals 45 hard 2x1min")
		}
	}},
	{"taper.openers", "", sets("2026-06-10", "openers 30 openers")},
	{"minutes.usual", "", sets("2026-06-10", "endurance 95 easy")},
	{"minutes.usual", "", sets("2026-06-07", "recovery 30 easy")},
	{"day.off", "", sets("2026-06-08", "recovery 30 easy")},
	{"day.off", `,"away":[{"from":"2026-06-09","to":"2026-06-10"}]`, sets("2026-06-09", "recovery 30 easy")},
	{"day.limit", `,"limits":[{"date":"2026-06-10","minutes":40}]`, sets("2026-06-10", "endurance 45 easy")},
	{"day.travel", `,"away":[{"from":"2026-05-27","to":"2026-05-28","kind":"travel"}]`, sets("2026-05-27", "recovery 30 easy")},
	{"day.travel", `,"limits":[{"date":"2026-05-27","minutes":90}],"away":[{"from":"2026-05-27","to":"2026-05-28","kind":"travel"}]`, sets("2026-05-27", "recovery 50 easy")},
	{"health.easy", `,"sick":[{"from":"2026-05-24","to":"2026-05-26","symptoms":["fever"]}]`, sets("2026-05-28", "recovery 30 easy")},
	{"health.easy", `,"sick":[{"from":"2026-05-24","to":"2026-05-26","symptoms":["fever"]}]`, sets("2026-05-29", "intervals 60 hard 3x3min")},
	{"health.stop", `,"sick":[{"from":"2026-05-24","symptoms":["chest pain"]}]`, sets("2026-05-29", "recovery 30 easy")},
	{"health.stop", `,"holds":[{"date":"2026-05-24","level":"doctor"}]`, sets("2026-05-29", "recovery 30 easy")},
	{"health.easy", `,"holds":[{"date":"2026-05-20","level":"head","cleared":"2026-05-24"}]`, sets("2026-05-29", "intervals 60 hard 3x3min")},
	{"taper.cut", `,"taper":{"cut":50}`, func(out *outFile) {
		out.Warnings = nil
		out.Tapers[0].CutPercent = 30
	}},
	{"taper.length", "", func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 15, "2026-05-29" }},
	{"taper.length", "", func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 5, "2026-06-08" }},
	{"taper.length", `,"taper":{"days":10}`, func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 9, "2026-06-04" }},
	{"taper.strength", "", sets("2026-06-11", "strength 30 steady")},
	{"block.after", `,"blocks":[{"from":"2026-05-25","to":"2026-05-31","percent":20}]`, sets("2026-06-03", "intervals 60 hard 3x3min")},
	{"race.day", "", sets("2026-06-13", "race 90 race")},
	{"race.day", "", sets("2026-06-13", "endurance 90 easy")},
	{"contract.tapers", "", func(out *outFile) { out.Tapers[0].PlannedMinutes += 5 }},
	{"contract.tapers", "", func(out *outFile) { out.Tapers[0].Days++ }},
	{"contract.days", "", func(out *outFile) { out.Days = slices.Delete(out.Days, 3, 4) }},
	{"contract.days", "", func(out *outFile) { out.Days[2].Weekday = "sun" }},
	{"contract.end", "", func(out *outFile) { out.Days = out.Days[:len(out.Days)-1] }},
	{"contract.session", "", func(out *outFile) { out.Days[1].Sessions[0].Kind = "sprint" }},
	{"contract.usual", "", func(out *outFile) { out.Days[2].Usual[0].Minutes++ }},
	{"contract.why", "", func(out *outFile) { dayOf(out, "2026-06-12").Why = []outWhy{} }},
	{"contract.why", "", func(out *outFile) { dayOf(out, "2026-06-12").Why[0].Rule = "magic.trick" }},
	{"contract.why", "", func(out *outFile) { out.Days[1].Why = []outWhy{{"day.off", "It is so.", "our choice"}} }},
	{"contract.five", "", sets("2026-06-10", "endurance 62 easy")},
	{"contract.cautions", "", func(out *outFile) { dayOf(out, "2026-06-12").Cautions = []string{} }},
	{"contract.warnings", "", func(out *outFile) { out.Warnings = append(out.Warnings, outWarning{"taper.cut", "It is less."}) }},
	{"contract.phase", "", func(out *outFile) { out.Days[0].Phase = "peak" }},
}

func TestFaultsAreFound(t *testing.T) {
	t.Parallel()
	hit := map[string]bool{"hard.week": true} // has its own test
	for i, f := range faults {
		input := base(f.extra)
		output, err := planOf(input)
		if err != nil {
			t.Fatalf("fault %d: %v", i, err)
		}
		if good := Check(input, output); len(good) > 0 {
			t.Errorf("fault %d: the plan breaks rules as it is: %v", i, good)
		}
		if found := Check(input, changed(t, output, f.change)); !broken(found, f.rule) {
			t.Errorf("fault %d against %s is not found, only %v", i, f.rule, found)
		}
		hit[f.rule] = true
	}
	for _, c := range append(slices.Clone(contractChecks), ruleChecks...) {
		if !hit[c.rule] {
			t.Errorf("no fault shows that %s can fail", c.rule)
		}
	}
}

// changed is the output with one change.
func changed(t *testing.T, output []byte, change func(*outFile)) []byte {
	out, err := parseOutput(output)
	if err != nil {
		t.Fatal(err)
	}
	change(out)
	if out.Warnings == nil {
		out.Warnings = []outWarning{}
	}
	data, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func broken(found []Violation, rule string) bool {
	return slices.ContainsFunc(found, func(v Violation) bool { return v.Rule == rule })
}

// A week without hard days has none in its plan.
func TestHardInAWeekWithout(t *testing.T) {
	input := []byte(`{"today":"2026-05-25","week":{"tue":"endurance 1h","sat":"long 2h"},"races":[{"name":"Elm Circuit","date":"2026-06-13","priority":"A"}]}`)
	output, err := planOf(input)
	if err != nil {
		t.Fatal(err)
	}
	if found := Check(input, changed(t, output, sets("2026-06-06", "intervals 60 hard 3x3min"))); !broken(found, "hard.week") {
		t.Errorf("not found, only %v", found)
	}
}

// Missing keys, other keys and null lists are no plan.
func TestBrokenOutput(t *testing.T) {
	input := base("")
	output, _ := planOf(input)
	for _, bad := range []string{"", "{}", `{"days":[],"tapers":null,"warnings":[]}`, `{"days":[],"tapers":[],"warnings":[]}`,
		strings.Replace(string(output), `"phase"`, `"phases"`, 1), strings.Replace(string(output), `"cautions": []`, `"cautions": null`, 1)} {
		if len(Check(input, []byte(bad))) == 0 {
			t.Errorf("passes: %.80s", bad)
		}
	}
}

func TestStable(t *testing.T) {
	output, err := planOf(base(""))
	if err != nil {
		t.Fatal(err)
	}
	if found := CheckStable(output, output); len(found) > 0 {
		t.Errorf("same plan: %v", found)
	}
	if found := CheckStable(output, changed(t, output, sets("2026-06-10", "endurance 35 easy"))); len(found) != 1 || found[0].Date != "2026-06-10" {
		t.Errorf("changed day: %v", found)
	}
}
