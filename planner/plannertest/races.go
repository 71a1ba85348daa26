package plannertest

import (
	"math"
	"strings"
)

// checkRaceDay: one race session of the race's own length, no other ride.
func checkRaceDay(p *plan) {
	for d := p.first; d <= p.last; d++ {
		races, o := p.raceOn(d), p.days[d]
		if len(races) == 0 {
			if o.has("race") && !p.usualKind(d, "race") {
				p.fail(d, "a race session without a race")
			}
			continue
		}
		if p.sick(d, returnDays) || p.away(d, "off") || p.away(d, "travel") || p.loggedOn(d) {
			continue
		}
		if limit, ok := p.limit(d); ok && float64(limit) < 60*races[0].length() {
			continue
		}
		p.judgeRaceDay(d, o, races)
	}
}

func (p *plan) judgeRaceDay(d day, o *outDay, races []*race) {
	var found *race
	for _, r := range races {
		if o.Race != nil && *o.Race == r.Name {
			found = r
		}
	}
	if found == nil || found.rank() < races[0].rank() {
		p.fail(d, "race is %v, want %s", o.Race, races[0].Name)
		return
	}
	n := 0
	for _, s := range o.Sessions {
		if !s.isRide() {
			continue
		}
		n++
		if s.Kind != "race" || s.Effort != "race" {
			p.fail(d, "%s on the day of %s", s.key(), found.Name)
		}
		if found.Hours > 0 && math.Abs(float64(s.Minutes)-60*found.Hours) > 1 {
			p.fail(d, "%s, told %v h", s.key(), found.Hours)
		}
		if found.Start != "" && d == found.date && !strings.Contains(s.Text, found.Start) {
			p.fail(d, "start %s is not in %q", found.Start, s.Text)
		}
	}
	if n != 1 {
		p.fail(d, "%d rides on the day of %s", n, found.Name)
	}
}

// checkAfter: the day after an A or B race by the race's length.
func checkAfter(p *plan) {
	for _, r := range p.races {
		d := r.last + 1
		o := p.days[d]
		if r.Priority == "C" || o == nil || len(p.raceOn(d)) > 0 || p.raceOn(r.last)[0] != r || p.loggedOn(d) {
			continue
		}
		if r.Priority == "B" && p.inWindow(d) == nil && p.inRecovery(d) != nil {
			continue // checkRecovery judges it
		}
		if o.hard() {
			p.fail(d, "%v the day after %s", sessionKeys(o.Sessions), r.Name)
		}
		if p.event(d) {
			continue
		}
		p.judgeAfter(r, d, o)
	}
}

// judgeAfter lets a window or another race's eve decide the kind, the length
// of the race past the minutes.
func (p *plan) judgeAfter(r *race, d day, o *outDay) {
	claimed := p.inWindow(d) != nil || p.claimedEve(d)
	usual := p.usualMinutes(d)
	most := usual
	recovery := false
	switch h := r.length(); {
	case r.last > r.date || h > 3:
		most, recovery = 45, true
	case h >= 1.5:
		most, recovery = 60, true
	default:
		most = int(math.Ceil(float64(usual)/2/5) * 5)
	}
	if o.has("openers") {
		most = max(most, 60)
	}
	if o.minutes() > most {
		p.fail(d, "%d min the day after %s, at most %d", o.minutes(), r.Name, most)
	}
	if !claimed && o.minutes() > usual {
		p.fail(d, "%d min the day after %s, usually %d", o.minutes(), r.Name, usual)
	}
	if recovery && !claimed && !o.recoveryOnly() {
		p.fail(d, "%v the day after %s, want recovery", sessionKeys(o.Sessions), r.Name)
	}
}

// checkRecovery: after an A race no hard or steady ride, long rides halved.
func checkRecovery(p *plan) {
	for d := p.first; d <= p.last; d++ {
		r, o := p.inRecovery(d), p.days[d]
		if r == nil || len(p.raceOn(d)) > 0 || p.loggedOn(d) || p.raceOn(r.date)[0] != r {
			continue
		}
		if p.inWindow(d) != nil {
			p.fail(d, "in a window and in the recovery days of %s", r.Name)
			continue
		}
		if !o.easyOnly() {
			p.fail(d, "%v in the recovery days of %s", sessionKeys(o.Sessions), r.Name)
		}
		most := 0
		for _, u := range p.usual(d) {
			if u.kind == "long" {
				most += int(math.Ceil(float64(u.minutes)/2/5) * 5)
			} else if u.isRide() {
				most += u.minutes
			}
		}
		if o.minutes() > most && !p.event(d) && !p.claimedEve(d) && !p.dayAfter(d) {
			p.fail(d, "%d min in the recovery days of %s, at most %d", o.minutes(), r.Name, most)
		}
	}
}

// alone is a one-day race that no other race, window or event touches from
// day -before to day +after.
func (p *plan) alone(r *race, before, after day) bool {
	if r.last > r.date || p.eventIn(r.date-before, r.last+after) || p.otherRaceIn(r, r.date-before, r.last+after) {
		return false
	}
	for d := r.date - before; d <= r.last+after; d++ {
		if p.inWindow(d) != nil || p.inRecovery(d) != nil {
			return false
		}
	}
	return true
}

func checkB(p *plan) {
	for _, r := range p.races {
		if r.Priority != "B" || r.last < p.today || !p.alone(r, 6, 2) || p.otherRaceIn(r, r.date-9, r.date+9) {
			continue
		}
		p.judgeOpeners(r, 4)
		p.judgeBEve(r)
		if r.registered <= r.date-4 && p.first <= r.date-4 {
			p.judgeBMove(r)
		}
	}
}

// judgeBEve: D-2 becomes a recovery ride; a rest or off day stays.
func (p *plan) judgeBEve(r *race) {
	d := r.date - 2
	o := p.days[d]
	if o == nil || r.registered > d || p.openersDay(r, 4) == 2 {
		return
	}
	if p.usualRides(d) == 0 {
		if o.minutes() > 0 {
			p.fail(d, "%v on D-2 of %s, usually no ride", sessionKeys(o.Sessions), r.Name)
		}
		return
	}
	lengths := map[int]bool{}
	for _, sessions := range p.week {
		for _, u := range sessions {
			if u.kind == "recovery" {
				lengths[u.minutes], lengths[(u.minutes+2)/5*5] = true, true
			}
		}
	}
	if len(lengths) == 0 {
		lengths[40] = true
	}
	for m := range lengths {
		if usual := p.usualMinutes(d); usual < m {
			lengths[usual], lengths[usual/5*5] = true, true
		}
	}
	if !lengths[o.minutes()] && o.changed() || !o.recoveryOnly() || o.minutes() == 0 {
		p.fail(d, "%v on D-2 of %s, want recovery of %v min", sessionKeys(o.Sessions), r.Name, keys(lengths))
	}
}

// judgeBMove: a hard session of D-2 or D-1 moves to D-4 or D-3 where that day
// is ridden, not hard, and next to no hard day; else these stay.
func (p *plan) judgeBMove(r *race) {
	var lost []string
	for k := day(1); k <= 2; k++ {
		for _, u := range p.usual(r.date - k) {
			if u.kind == "intervals" {
				lost = append(lost, setText(u.set))
			}
		}
	}
	free, moved := 0, 0
	for k := day(3); k <= 4; k++ {
		d := r.date - k
		o := p.days[d]
		can := p.usualRides(d) > 0 && !p.usualHard(d) && !p.usualHard(d-1) && !(k == 4 && p.usualHard(d+1))
		if can && len(lost) > 0 {
			free++
		}
		if o.hard() && !p.usualHard(d) {
			moved++
			if !can || !containsText(lost, hardSets(o)) && !(k == 3 && r.Emphasis == "important") {
				p.fail(d, "%v on D-%d of %s, no hard session may move here", sessionKeys(o.Sessions), k, r.Name)
			}
		} else if o.changed() && !(k == 3 && r.Emphasis == "important") {
			p.fail(d, "%v on D-%d of %s, want as usual", sessionKeys(o.Sessions), k, r.Name)
		}
	}
	if free > 0 && moved == 0 {
		p.failPlan("%s: the hard session of the last two days could move and did not", r.Name)
	}
	if moved == 2 {
		p.failPlan("%s: hard sessions moved to D-4 and D-3", r.Name)
	}
}

func setText(s *interval) string {
	if s == nil {
		return ""
	}
	return s.String()
}

func hardSets(o *outDay) string {
	for _, s := range o.Sessions {
		if s.Effort == "hard" && s.Sets != nil {
			return *s.Sets
		}
	}
	return ""
}

func containsText(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
