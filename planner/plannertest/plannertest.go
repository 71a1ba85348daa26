// Package plannertest judges plans from the outside. It reads the plan file
// and the JSON that comes back, and knows the rules from docs/rules.md alone:
// with the planner it shares the reading of facts but no rule of planning.
package plannertest

import (
	"fmt"
	"strings"

	"musette/planner"
)

// Violation is one breach of one rule. Date is YYYY-MM-DD, or empty where the
// breach belongs to no single day.
type Violation struct {
	Rule, Date, Text string
}

// String gives "rule date: text".
func (v Violation) String() string {
	return strings.TrimSpace(v.Rule+" "+v.Date) + ": " + v.Text
}

type check struct {
	rule string
	run  func(*view)
}

// A plan that a stop holds back is judged by contract and health alone.
var (
	contractChecks = []check{
		{"contract.days", checkDays}, {"contract.session", checkSessions}, {"contract.usual", checkUsual},
		{"contract.why", checkWhy}, {"contract.five", checkFives}, {"contract.cautions", checkCautions},
		{"contract.warnings", checkWarnings}, {"contract.phase", checkPhases}, {"contract.end", checkEnd},
		{"day.off", checkOff}, {"health.stop", checkStop}, {"health.easy", checkIll},
	}
	ruleChecks = []check{
		{"race.day", checkRaceDays}, {"contract.tapers", checkTapers}, {"taper.length", checkLength},
		{"hard.eve", checkEves}, {"hard.row", checkRows}, {"hard.after", checkAfter},
		{"hard.work", checkWork}, {"hard.count", checkCount}, {"hard.week", checkWeekWithout}, {"taper.openers", checkOpeners},
		{"minutes.usual", checkLonger}, {"day.limit", checkLimits}, {"day.travel", checkTravel},
		{"taper.cut", checkCut}, {"taper.strength", checkStrength}, {"block.after", checkAfterBlock},
	}
)

// Check judges the output of `musette plan --json` for input, a valid plan
// file. It returns every breach of a rule, none for a good plan.
func Check(input, output []byte) []Violation {
	v, err := newView(input, output)
	if err != nil {
		return []Violation{{Rule: "contract.json", Text: err.Error()}}
	}
	checkDays(v)
	if len(v.found) > 0 {
		return v.found // all other checks need whole days
	}
	list := contractChecks[1:]
	if v.stopped().IsZero() {
		list = append(list[:len(list):len(list)], ruleChecks...)
	}
	for _, c := range list {
		v.rule = c.rule
		c.run(v)
	}
	return v.found
}

// CheckStable compares the plans of two todays with the same facts: a day in
// both must be the same day.
func CheckStable(before, after []byte) []Violation {
	a, err := parseOutput(before)
	if err != nil {
		return []Violation{{Rule: "contract.json", Text: err.Error()}}
	}
	b, err := parseOutput(after)
	if err != nil {
		return []Violation{{Rule: "contract.json", Text: err.Error()}}
	}
	old := map[string]*outDay{}
	for i := range a.Days {
		old[a.Days[i].Date] = &a.Days[i]
	}
	var found []Violation
	for i := range b.Days {
		d := &b.Days[i]
		was, ok := old[d.Date]
		if ok && (keys(d.Sessions) != keys(was.Sessions) || d.Phase != was.Phase) {
			found = append(found, Violation{"plan.stable", d.Date,
				fmt.Sprintf("was %s %s, is %s %s", was.Phase, keys(was.Sessions), d.Phase, keys(d.Sessions))})
		}
	}
	return found
}

func (v *view) fail(d planner.Date, format string, args ...any) {
	v.found = append(v.found, Violation{v.rule, d.String(), fmt.Sprintf(format, args...)})
}

func (v *view) failPlan(format string, args ...any) {
	v.found = append(v.found, Violation{v.rule, "", fmt.Sprintf(format, args...)})
}
