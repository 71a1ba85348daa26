package words_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/words"
)

const (
	mixed   = `"week":{"mon":"recovery 40min; strength 30min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45","thu":"off","fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"}`
	oneHard = `"week":{"tue":"endurance 1h","thu":"intervals 1h15 4x8min","sat":"endurance 1h30","sun":"long 2h30"}`
	goal    = `"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5}]`
	bRace   = `"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"B","hours":2}]`
	cRace   = `"races":[{"name":"Hill Loop","date":"2027-06-28","priority":"C","hours":2}]`
)

// provoked are facts that each rule answers to, known on 7 June 2027.
var provoked = map[string]string{
	"taper.length":    mixed + "," + goal,
	"taper.cut":       mixed + "," + goal + `,"taper":{"cut":30}`,
	"taper.hard-days": oneHard + `,"races":[{"name":"Hill Loop","date":"2027-06-26","priority":"A","hours":3.5}]`,
	"taper.set":       mixed + "," + goal + `,"taper":{"pattern":"second"},"limits":[{"date":"2027-06-24","minutes":40}]`,
	"taper.dose":      mixed + "," + goal,
	"taper.openers":   mixed + "," + goal,
	"taper.rest":      mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-25","priority":"A","hours":3.5}]`,
	"taper.strength":  mixed + "," + goal,
	"taper.minutes":   mixed + "," + goal,
	"taper.lighter":   `"week":{"wed":"intervals 40min 4x2min","sun":"endurance 30min"},"races":[{"name":"Hill Loop","date":"2027-06-26","priority":"A","hours":1}]`,
	"race.day":        mixed + "," + goal,
	"race.after":      mixed + "," + goal,
	"race.return":     mixed + "," + goal,
	"race.late":       mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-11","priority":"A","hours":3.5,"registered":"2027-06-07"}]`,
	"race.same-day":   mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5},{"name":"Mill Ride","date":"2027-06-27","priority":"C","hours":2}]`,
	"race.hours":      mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A"}]`,
	"b.days":          mixed + "," + bRace,
	"c.days":          mixed + "," + cRace,
	"season.close":    mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5},{"name":"Mill Ride","date":"2027-07-11","priority":"A","hours":2}]`,
	"season.inside":   mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5},{"name":"Mill Ride","date":"2027-06-22","priority":"B","hours":2}]`,
	"block.days":      mixed + "," + goal + `,"blocks":[{"from":"2027-06-07","to":"2027-06-13","percent":20}]`,
	"block.after":     mixed + "," + goal + `,"blocks":[{"from":"2027-06-03","to":"2027-06-13","percent":20}]`,
	"day.off":         mixed + "," + goal + `,"away":[{"from":"2027-06-23","to":"2027-06-23","kind":"off"}]`,
	"day.limit":       mixed + "," + goal + `,"limits":[{"date":"2027-06-12","minutes":60}]`,
	"day.travel":      mixed + "," + goal + `,"away":[{"from":"2027-06-23","to":"2027-06-23","kind":"travel"}]`,
	"day.logged":      mixed + "," + goal + `,"done":[{"date":"2027-06-07","minutes":60}]`,
	"day.pinned":      mixed + "," + goal + `,"pins":[{"date":"2027-06-09","session":"endurance 1h"}]`,
	"health.easy":     mixed + "," + goal + `,"sick":[{"from":"2027-06-06","to":"2027-06-08","symptoms":["fever"]}]`,
	"health.return":   mixed + "," + goal + `,"sick":[{"from":"2027-06-03","to":"2027-06-05","symptoms":["fever"]}]`,
	"health.stop":     mixed + "," + goal + `,"sick":[{"from":"2027-06-06","symptoms":["chest pain"]}]`,
}

// said are the rule ids that a plan names, each with a sentence.
func said(t *testing.T, facts string) []string {
	t.Helper()
	today, f, faults := planfile.Read([]byte(`{"today":"2027-06-07",` + facts + `}`))
	if len(faults) > 0 {
		t.Fatalf("%s: %v", facts, faults)
	}
	p := engine.Derive(today, f)
	var ids []string
	say := func(rule, text, source string) {
		if text == "" || source == "" || strings.Contains(text, "RACE") || strings.Contains(text, "DAY") || strings.Contains(text, "%!") {
			t.Errorf("%s: rule %s says %q, source %q", facts, rule, text, source)
		}
		ids = append(ids, rule)
	}
	for i := range p.Days {
		for _, why := range words.Why(&p.Days[i]) {
			say(why.Rule, why.Text, why.Source)
		}
	}
	for i := range p.Tapers {
		why := words.WhyLength(&p.Tapers[i])
		say(why.Rule, why.Text, why.Source)
	}
	for _, w := range words.Warnings(p) {
		say(w.Code, w.Text, "a warning")
	}
	return ids
}

// Each rule of docs/rules.md names itself where its facts are there. day.moved and
// day.past need more days than one; the tests of the engine have them.
func TestEachRuleIsNamed(t *testing.T) {
	for _, rule := range idsIn(t, "../../docs/rules.md", `(?m)^### ([a-z]+\.[a-z-]+)$`) {
		if rule == "day.moved" || rule == "day.past" {
			continue
		}
		facts, ok := provoked[rule]
		if !ok {
			t.Errorf("nothing provokes %s", rule)
		} else if ids := said(t, facts); !slices.Contains(ids, rule) {
			slices.Sort(ids)
			t.Errorf("%s is not named, but %v", rule, fmt.Sprint(slices.Compact(ids)))
		}
	}
}

// Of A races close together the second is said to lack days of its taper only where it lacks some.
func TestCloseRacesSayWhatTheyCost(t *testing.T) {
	for second, want := range map[string]string{
		"2027-07-01": "4 days apart, so the second cannot have a whole taper.", "2027-07-11": "14 days apart, so there is little time to train between them.",
	} {
		today, f, faults := planfile.Read([]byte(`{"today":"2027-06-07",` + mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"A","hours":3.5},{"name":"Mill Ride","date":"` + second + `","priority":"A","hours":2}]}`))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		p := engine.Derive(today, f)
		said := ""
		for _, w := range words.Warnings(p) {
			if w.Code == "season.close" {
				said = w.Text
			}
		}
		if !strings.Contains(said, want) {
			t.Errorf("%s: %+v says %q", second, p.Tapers, said)
		}
	}
}

// idsIn are the ids of rules in a file, in their order.
func idsIn(t *testing.T, file, where string) (ids []string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(where).FindAllStringSubmatch(string(text), -1) {
		ids = append(ids, m[1])
	}
	slices.Sort(ids)
	if len(ids) < 30 {
		t.Fatalf("%s has only %d rules", file, len(ids))
	}
	return ids
}

// The rules that reasons and warnings name are the headings of docs/rules.md.
func TestRulesAreHeadings(t *testing.T) {
	headings, named := idsIn(t, "../../docs/rules.md", `(?m)^### (\S+)$`), idsIn(t, "reason.go", `rule\{"([^"]+)"`)
	headings = slices.DeleteFunc(headings, func(h string) bool { return !strings.Contains(h, ".") })
	if !slices.Equal(headings, named) {
		t.Errorf("headings %v\nnamed %v", headings, named)
	}
}

// A reason names what is there: the days that were asked for, an evening, how long ago a race was.
func TestReasonsSayWhatIsThere(t *testing.T) {
	for name, c := range map[string]struct{ facts, day, want string }{
		"an asked taper of a B race": {mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-27","priority":"B","hours":2,"emphasis":"important"}],"taper":{"days":10}`,
			"2027-06-19", "You asked for a taper of 10 days before Hill Loop, so this ride is shorter."},
		"the day after a C race in the evening": {`"week":{"tue":"intervals 1h 6x2min","sat":"endurance 1h15","sun":"long 2h"},"races":[{"name":"Hill Loop","date":"2027-06-25","priority":"C","hours":1,"start":"19:00"}]`,
			"2027-06-26", "Hill Loop was in the evening, so you ride short and easy the day after."},
		"five days after a B race of nine hours": {mixed + `,"races":[{"name":"Hill Loop","date":"2027-06-24","priority":"B","hours":9}]`,
			"2027-06-29", "You ride nothing hard so soon after Hill Loop."},
	} {
		today, f, faults := planfile.Read([]byte(`{"today":"2027-06-07",` + c.facts + `}`))
		if len(faults) > 0 {
			t.Fatalf("%s: %v", name, faults)
		}
		p := engine.Derive(today, f)
		found := []string{}
		for i := range p.Days {
			if p.Days[i].Date.String() == c.day {
				for _, why := range words.Why(&p.Days[i]) {
					found = append(found, why.Text)
				}
			}
		}
		if !slices.Contains(found, c.want) {
			t.Errorf("%s: %s says %q, not %q", name, c.day, found, c.want)
		}
	}
}
