// Package plannertest judges plans from the outside. It reads nothing but the
// plan file and the JSON that comes back, has its own reader for both, and so
// cannot share a mistake with the planner.
package plannertest

import (
	"fmt"
	"sort"
	"strings"
)

// Violation is one breach of one rule on one date. Date is YYYY-MM-DD, or
// empty where the breach belongs to no single day.
type Violation struct {
	Rule, Date, Text string
}

// String gives "rule date: text".
func (v Violation) String() string {
	return strings.TrimSpace(v.Rule+" "+v.Date) + ": " + v.Text
}

type check struct {
	rule string
	run  func(*plan)
}

// contractChecks hold for every output; ruleChecks need a plan that trains.
var (
	contractChecks = []check{
		{"contract.days", checkDays}, {"contract.end", checkEnd},
		{"contract.session", checkSessions}, {"contract.rest", checkRest},
		{"contract.usual", checkUsual}, {"contract.changed", checkChanged},
		{"contract.why", checkWhy}, {"contract.five", checkFives},
		{"contract.cautions", checkCautions}, {"contract.warnings", checkWarnings},
		{"day.off", checkOff}, {"health.stop", checkRedFlag}, {"health.fever", checkFever},
	}
	ruleChecks = []check{
		{"contract.phase", checkPhase}, {"contract.race", checkRaceField},
		{"taper.window", checkWindows}, {"contract.tapers", checkTaperSums},
		{"day.limit", checkLimits}, {"day.travel", checkTravel},
		{"health.easy", checkCold}, {"health.return", checkReturn}, {"health.race", checkIllRace},
		{"taper.eve", checkLastTwoDays}, {"taper.two-hard", checkTwoHard},
		{"taper.cut", checkCutRange}, {"taper.volume", checkVolume}, {"taper.frequency", checkFrequency},
		{"taper.shape", checkShape}, {"taper.least", checkLeast}, {"taper.most", checkMost},
		{"taper.polar", checkPolar}, {"taper.strength", checkStrength},
		{"taper.intensity", checkIntensity}, {"taper.hard-block", checkHardBlocks},
		{"taper.pattern", checkLastHard}, {"taper.density", checkDensity},
		{"taper.one-week", checkOneWeek}, {"taper.two-week", checkTwoWeek},
		{"taper.overload", checkOverload}, {"day.overload", checkBlockDays},
		{"taper.openers", checkOpeners}, {"taper.moved-rest", checkMovedRest},
		{"race.day", checkRaceDay}, {"race.after", checkAfter},
		{"race.recovery", checkRecovery}, {"b.window", checkB},
		{"c.train-through", checkC}, {"c.after", checkCAfter},
		{"plan.unchanged", checkUnchanged},
		{"race.hours", checkHoursTold}, {"race.same-day", checkSameDay},
		{"season.close", checkSeasonClose}, {"season.inside", checkSeasonInside},
		{"season.two-b", checkTwoB},
	}
)

// Check judges the output of `musette plan --json` for input, a valid plan
// file. It returns every breach of a rule, none for a good plan.
func Check(input, output []byte) []Violation {
	p, err := newPlan(input, output)
	if err != nil {
		return []Violation{{Rule: "contract.json", Text: err.Error()}}
	}
	for _, c := range contractChecks {
		p.run(c)
	}
	if broken(p.found, "contract.days") || broken(p.found, "contract.end") || p.stopped() {
		return p.found
	}
	for _, c := range ruleChecks {
		p.run(c)
	}
	return p.found
}

// CheckOrdinary is Check for the plan of an ordinary week, which in addition
// must carry no warning.
func CheckOrdinary(input, output []byte) []Violation {
	found := Check(input, output)
	p, err := newPlan(input, output)
	if err != nil {
		return found
	}
	for _, w := range p.out.Warnings {
		found = append(found, Violation{Rule: "ordinary.warning", Text: w.Code + ": " + w.Text})
	}
	return found
}

// Warned gives the codes of the warnings that output carries, for counting;
// it is empty where output is no plan.
func Warned(output []byte) map[string]bool {
	codes := map[string]bool{}
	out, err := parseOutput(output)
	if err != nil {
		return codes
	}
	for _, w := range out.Warnings {
		codes[w.Code] = true
	}
	return codes
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
	old := map[string]outDay{}
	for _, d := range a.Days {
		old[d.Date] = d
	}
	var found []Violation
	for _, d := range b.Days {
		was, ok := old[d.Date]
		if !ok {
			continue
		}
		got, want := sessionKeys(d.Sessions), sessionKeys(was.Sessions)
		if strings.Join(got, ", ") != strings.Join(want, ", ") || d.Phase != was.Phase {
			found = append(found, Violation{"plan.stable", d.Date,
				fmt.Sprintf("was %s %v, is %s %v", was.Phase, want, d.Phase, got)})
		}
	}
	return found
}

func (p *plan) run(c check) {
	p.rule = c.rule
	c.run(p)
}

func (p *plan) fail(d day, format string, args ...any) {
	p.found = append(p.found, Violation{p.rule, d.String(), fmt.Sprintf(format, args...)})
}

func (p *plan) failPlan(format string, args ...any) {
	p.found = append(p.found, Violation{p.rule, "", fmt.Sprintf(format, args...)})
}

func broken(found []Violation, rule string) bool {
	for _, v := range found {
		if v.Rule == rule {
			return true
		}
	}
	return false
}

// Rules lists the rule ids that Check can report, sorted.
func Rules() []string {
	var ids []string
	for _, c := range append(append([]check{}, contractChecks...), ruleChecks...) {
		ids = append(ids, c.rule)
	}
	sort.Strings(ids)
	return ids
}
