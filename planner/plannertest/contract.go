package plannertest

import (
	"math"
	"strings"
)

func checkDays(p *plan) {
	if len(p.out.Days) == 0 {
		p.failPlan("no days")
		return
	}
	if p.first != p.today {
		p.failPlan("starts on %s, today is %s", p.first, p.today)
	}
	for i, d := range p.out.Days {
		want := p.first + day(i)
		if d.Date != want.String() {
			p.fail(want, "day %d is %s", i, d.Date)
			return
		}
		if !strings.HasPrefix(strings.ToLower(d.Weekday), weekdays[want.weekday()]) {
			p.fail(want, "weekday is %q", d.Weekday)
		}
	}
}

// checkEnd accepts the last day with and without the races that get no days
// of their own.
func checkEnd(p *plan) {
	ends, past := map[day]bool{}, day(0)
	var longest [4]day // with and without losers of a day, with and without races in recovery days
	toCome := false
	for _, r := range p.races {
		end := r.last + 2
		if r.Priority == "A" {
			end = r.last + day(r.recovery()) + 1
		}
		if r.last >= p.today {
			toCome = true
			loses, inside := p.raceOn(r.date)[0] != r, r.Priority != "A" && p.inRecovery(r.date) != nil
			for i := range longest {
				if !(loses && i&1 > 0 || inside && i&2 > 0) {
					longest[i] = max(longest[i], end)
				}
			}
		} else {
			past = max(past, end)
		}
	}
	for _, end := range longest {
		ends[end], ends[max(end, past)] = true, true
	}
	if !toCome {
		ends = map[day]bool{p.today + 13: true, p.today + 14: true}
	}
	if !ends[p.last] {
		p.fail(p.last, "is the last day, want %s", max(longest[0], p.today+13))
	}
}

var kinds = "rest recovery endurance long intervals openers race strength other"

var effortsOf = map[string]string{
	"rest": "rest", "recovery": "easy", "endurance": "steady easy", "long": "steady easy",
	"intervals": "hard", "openers": "openers", "race": "race hard", "strength": "steady", "other": "easy",
}

func contains(list, word string) bool {
	for _, w := range strings.Fields(list) {
		if w == word {
			return true
		}
	}
	return false
}

func checkSessions(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil {
			continue
		}
		total := 0
		for _, s := range o.Sessions {
			total += s.Minutes
			if !contains(kinds, s.Kind) || !contains(effortsOf[s.Kind], s.Effort) {
				p.fail(d, "%q with effort %q", s.Kind, s.Effort)
			}
			if s.Kind != "rest" && (s.Minutes <= 0 || s.Text == "" || s.RPE == "") {
				p.fail(d, "%s: minutes, text or rpe missing", s.key())
			}
			if s.Sets != nil {
				if set, ok := parseSet(*s.Sets); !ok || set.reps < 1 || s.Kind != "intervals" {
					p.fail(d, "%s: sets not possible here", s.key())
				}
			}
		}
		if total > 24*60 {
			p.fail(d, "%d minutes in a day", total)
		}
	}
}

func checkRest(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil {
			continue
		}
		for _, list := range [][]outSession{o.Sessions, o.Usual} {
			if len(list) == 0 {
				p.fail(d, "no session, not even rest")
			}
			for _, s := range list {
				if s.Kind == "rest" && (len(list) > 1 || s.Minutes != 0 || s.Effort != "rest") {
					p.fail(d, "rest is not alone or not 0 minutes: %v", sessionKeys(list))
				}
			}
		}
	}
}

func checkUsual(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil {
			continue
		}
		want := p.usual(d)
		if len(want) == 0 {
			want = []usualSession{{kind: "rest", told: true}}
		}
		if len(o.Usual) != len(want) {
			p.fail(d, "usual is %v, want %d sessions", sessionKeys(o.Usual), len(want))
			continue
		}
		for i, s := range o.Usual {
			u := want[i]
			sets := ""
			if u.set != nil {
				sets = u.set.String()
			}
			got := ""
			if s.Sets != nil {
				got = *s.Sets
			}
			if s.Kind != u.kind || s.Minutes != u.minutes || got != sets || !usualEffortIs(s) {
				p.fail(d, "usual %s, want %s %d %s", s.key(), u.kind, u.minutes, sets)
			}
		}
	}
}

func usualEffortIs(s outSession) bool {
	return s.Effort == usualEffort[s.Kind] || s.Kind == "race" && s.Effort == "hard"
}

func checkChanged(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil {
			continue
		}
		if changed := o.changed(); changed != (len(o.Why) > 0) {
			p.fail(d, "changed is %v with %d reasons: usual %v, planned %v", changed, len(o.Why),
				sessionKeys(o.Usual), sessionKeys(o.Sessions))
		}
	}
}

func checkWhy(p *plan) {
	for d := p.first; d <= p.last; d++ {
		if p.days[d] == nil {
			continue
		}
		for _, w := range p.days[d].Why {
			if blank(w.Rule) || blank(w.Text) || blank(w.Source) {
				p.fail(d, "reason with an empty part: %+v", w)
			}
		}
	}
}

func blank(s string) bool { return strings.TrimSpace(s) == "" }

// checkFives leaves out what the planner did not choose: races, logged rides,
// short limits, and lengths taken over from the week.
func checkFives(p *plan) {
	taken := map[int]bool{}
	for _, day := range p.week {
		for _, s := range day {
			taken[s.minutes] = true
		}
	}
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil || p.loggedOn(d) {
			continue
		}
		limit, limited := p.limit(d)
		for _, s := range o.Sessions {
			if s.Minutes%5 == 0 || s.Kind == "race" || taken[s.Minutes] || limited && limit < 5 {
				continue
			}
			p.fail(d, "%s is no multiple of 5", s.key())
		}
	}
}

func checkCautions(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil {
			continue
		}
		need := false
		for _, s := range o.Sessions {
			need = need || s.isHard() || s.Effort == "openers"
		}
		if need && len(o.Cautions) == 0 {
			p.fail(d, "no caution beside %v", sessionKeys(o.Sessions))
		}
		for _, c := range o.Cautions {
			if blank(c) {
				p.fail(d, "empty caution")
			}
		}
	}
}

func checkWarnings(p *plan) {
	toCome := false
	for _, r := range p.races {
		toCome = toCome || r.last >= p.today
	}
	for _, w := range p.out.Warnings {
		if blank(w.Code) || blank(w.Text) {
			p.failPlan("warning %q with text %q", w.Code, w.Text)
			continue
		}
		named := false
		for _, r := range p.races {
			named = named || strings.Contains(w.Text, r.Name)
		}
		theme, _, _ := strings.Cut(w.Code, ".")
		if contains("taper race b c season", theme) && !named && toCome {
			p.failPlan("warning %s names no race: %s", w.Code, w.Text)
		}
	}
}

// checkPhase wants one of the phases that the facts allow, in their order.
func checkPhase(p *plan) {
	for d := p.first; d <= p.last; d++ {
		allowed := p.phases(d)
		if !contains(allowed, p.days[d].Phase) {
			p.fail(d, "phase %q, want one of: %s", p.days[d].Phase, allowed)
		}
	}
}

func (p *plan) phases(d day) string {
	allowed := ""
	if p.sick(d, 0) {
		if !p.openSick(d) {
			return "health"
		}
		allowed = "health "
	} else if p.sick(d, returnDays) {
		allowed = "health "
	}
	if len(p.raceOn(d)) > 0 {
		if p.days[d].has("race") {
			return allowed + "race"
		}
		return "health race taper recovery overload normal"
	}
	if p.inWindow(d) != nil {
		return allowed + "taper"
	}
	if p.inRecovery(d) != nil {
		return allowed + "recovery"
	}
	for _, r := range p.races {
		if r.Priority == "B" && d < r.date && d >= r.date-4 {
			allowed += "taper "
		}
		if r.Priority != "A" && d == r.last+1 {
			allowed += "recovery "
		}
	}
	if p.block(d) != nil {
		return allowed + "overload"
	}
	return allowed + "normal"
}

// openSick is a day to come of an illness whose end is not told.
func (p *plan) openSick(d day) bool {
	for _, s := range p.in.Sick {
		if s.to != openEnd && s.has(d) {
			return false
		}
	}
	return d > p.today
}

func checkRaceField(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o, races := p.days[d], p.raceOn(d)
		known := o.Race == nil
		for _, r := range p.races {
			known = known || *o.Race == r.Name
		}
		if !known {
			p.fail(d, "unknown race %q", *o.Race)
		}
		if o.has("race") && len(races) > 0 && o.Race == nil {
			p.fail(d, "race day without its race")
		}
	}
}

// checkTaperSums recomputes the tapers' figures from the days.
func checkTaperSums(p *plan) {
	for _, w := range p.windows {
		if !p.whole(w) || p.sickIn(w) {
			continue
		}
		s := p.sum(w.from, w.date-1)
		e := w.entry
		if e.PlannedMinutes != s.planned {
			p.failPlan("%s: planned_minutes %d, days give %d", w.Name, e.PlannedMinutes, s.planned)
		}
		if e.UsualMinutes != s.usual && e.UsualMinutes != s.usualTravel {
			p.failPlan("%s: usual_minutes %d, days give %d", w.Name, e.UsualMinutes, s.usual)
		}
		byDay := e.PlannedRides == s.days && (e.UsualRides == s.usualDays || e.UsualRides == s.usualDaysTravel)
		byRide := e.PlannedRides == s.rides && (e.UsualRides == s.usualRides || e.UsualRides == s.usualRidesTravel)
		if !byDay && !byRide {
			p.failPlan("%s: rides %d of %d, days give %d of %d", w.Name, e.PlannedRides, e.UsualRides, s.days, s.usualDays)
		}
		if e.UsualMinutes > 0 {
			cut := 100 * (1 - float64(e.PlannedMinutes)/float64(e.UsualMinutes))
			if math.Abs(cut-e.CutPercent) > 0.0501 {
				p.failPlan("%s: cut_percent %v, want %.1f", w.Name, e.CutPercent, cut)
			}
		}
	}
}

func (p *plan) sickIn(w *window) bool {
	for d := w.from; d < w.date; d++ {
		if p.sick(d, 0) {
			return true
		}
	}
	return false
}

// sums are totals over days; the usual ones twice, with and without the days
// of travel.
type sums struct {
	planned, days, rides                           int
	usual, usualDays, usualRides                   int
	usualTravel, usualDaysTravel, usualRidesTravel int
}

func (p *plan) sum(from, to day) sums {
	var s sums
	for d := from; d <= to; d++ {
		o := p.days[d]
		s.planned += o.minutes()
		if n := rideCount(o.Sessions); n > 0 {
			s.days, s.rides = s.days+1, s.rides+n
		}
		n := p.usualRides(d)
		if p.isOff(d) || n == 0 {
			continue
		}
		s.usualTravel, s.usualDaysTravel, s.usualRidesTravel = s.usualTravel+p.usualMinutes(d), s.usualDaysTravel+1, s.usualRidesTravel+n
		if !p.away(d, "travel") {
			s.usual, s.usualDays, s.usualRides = s.usual+p.usualMinutes(d), s.usualDays+1, s.usualRides+n
		}
	}
	return s
}
