// Package plannertest judges plans from the outside. It reads the plan file
// and the JSON that comes back, and knows the rules from docs/rules.md alone:
// with the planner it shares the reading of facts but no rule of planning.
package plannertest

import (
	"fmt"
	"slices"
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

// A check looks at the plan, at each of its days, or at each taper, whose days before
// today are not in the plan. Its faults show
// that it can fail; a check of the same rule may have them.
type check struct {
	rule   string
	plan   func(*view)
	day    func(*view, planner.Date, *outDay)
	taper  func(*view, taper)
	held   bool // judges plans too that a stop holds back
	faults []fault
}

// checks are all of them; the first one asks for whole days.
var checks = slices.Concat(contractChecks, healthChecks, hardChecks, minuteChecks)

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
	stopped := !v.stopped().IsZero()
	for _, c := range checks[1:] {
		if c.held || !stopped {
			v.run(c)
		}
	}
	return v.found
}

func (v *view) run(c check) {
	v.rule = c.rule
	if c.plan != nil {
		c.plan(v)
	}
	for d := v.today; d <= v.last && c.day != nil; d++ {
		c.day(v, d, v.days[d])
	}
	for _, t := range v.tapers() {
		if c.taper != nil {
			c.taper(v, t)
		}
	}
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
