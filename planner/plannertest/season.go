package plannertest

import (
	"math"
	"strings"
)

// givesWay is the day that gives its hard session to a C race: race day, or
// the nearest within two days, the one after on a tie; ok is false for none.
func (p *plan) givesWay(r *race) (d day, ok bool) {
	for _, off := range []day{0, 1, -1, 2, -2} {
		if p.usualHard(r.date + off) {
			return r.date + off, true
		}
	}
	return 0, false
}

// checkC: nothing changes around a C race but the day that gives way.
func checkC(p *plan) {
	for _, r := range p.races {
		if r.Priority != "C" || r.last < p.today || !p.alone(r, 7, 7) {
			continue
		}
		giving, ok := p.givesWay(r)
		if ok && giving < r.registered {
			continue
		}
		for d := r.date - 2; d <= r.date+2; d++ {
			o := p.days[d]
			if o == nil || d == r.date || d == r.date+1 && r.long() {
				continue
			}
			if !ok || d != giving {
				if o.changed() {
					p.fail(d, "%v beside %s, want as usual", sessionKeys(o.Sessions), r.Name)
				}
				continue
			}
			p.judgeGiving(r, d, o)
		}
	}
}

// judgeGiving: the day takes race day's usual ride or rest; a recovery ride
// where race day is off.
func (p *plan) judgeGiving(r *race, d day, o *outDay) {
	if o.hard() {
		p.fail(d, "%v stays hard, %s takes its place", sessionKeys(o.Sessions), r.Name)
		return
	}
	if p.off[r.date.weekday()] {
		if o.minutes() == 0 || !o.recoveryOnly() {
			p.fail(d, "%v, want a recovery ride for %s on an off day", sessionKeys(o.Sessions), r.Name)
		}
		return
	}
	want, n := p.usualMinutes(r.date), p.usualRides(r.date)
	if math.Abs(float64(o.minutes()-want)) > 2.5*float64(n) || rideCount(o.Sessions) != n {
		p.fail(d, "%v, want race day's usual %d min (%s)", sessionKeys(o.Sessions), want, r.Name)
	}
}

// long marks a C race whose day after changes.
func (r *race) long() bool {
	return r.Hours >= 3 || strings.Contains(r.Kind, "endurance") || r.last > r.date
}

// checkCAfter: after a long C race half of usual, easy, or recovery.
func checkCAfter(p *plan) {
	for _, r := range p.races {
		d := r.last + 1
		o := p.days[d]
		if r.Priority != "C" || o == nil || !r.long() || !p.alone(r, 5, 5) {
			continue
		}
		usual := p.usualMinutes(d)
		if g, ok := p.givesWay(r); ok && g == d {
			usual = max(usual, p.usualMinutes(r.date))
		}
		half := int(math.Ceil(float64(usual)/2/5) * 5)
		if !o.easyOnly() || o.minutes() > half && !o.recoveryOnly() || o.minutes() > usual {
			p.fail(d, "%v after %s, want at most %d easy min or recovery", sessionKeys(o.Sessions), r.Name, half)
		}
	}
}

// checkUnchanged: a day that no race and no event claims is as usual.
func checkUnchanged(p *plan) {
	for d := p.first; d <= p.last; d++ {
		if !p.claimed(d) && p.days[d].changed() {
			p.fail(d, "%v, nothing claims the day", sessionKeys(p.days[d].Sessions))
		}
	}
}

func (p *plan) claimed(d day) bool {
	if p.event(d) || p.inWindow(d) != nil || p.inRecovery(d) != nil {
		return true
	}
	for _, r := range p.races {
		through := false // a B race beside another one is trained through like a C race
		for _, o := range p.races {
			through = through || o != r && o.Priority == "B" && o.date <= r.last+4 && o.last >= r.date-4
		}
		if r.on(d) || through && d >= r.date-4 && d <= r.last+2 || r.Priority == "B" && d >= r.date-4 && d <= r.last+1 ||
			r.Priority == "C" && d >= r.date-2 && d <= r.last+2 {
			return true
		}
	}
	return false
}

// checkBlockDays: a told block carries usual minutes times its factor, with
// the same sets.
func checkBlockDays(p *plan) {
	for d := p.first; d <= p.last; d++ {
		b := p.block(d)
		_, limited := p.limit(d)
		if b == nil || limited || p.isOff(d) || p.away(d, "travel") || p.sick(d, returnDays) || p.loggedOn(d) {
			continue
		}
		busy := p.inWindow(d) != nil || p.inRecovery(d) != nil
		for _, r := range p.races {
			busy = busy || d >= r.date-4 && d <= r.last+2
		}
		o := p.days[d]
		if busy {
			continue
		}
		want := float64(p.usualMinutes(d)) * (1 + float64(b.Percent)/100)
		if n := p.usualRides(d); rideCount(o.Sessions) != n || math.Abs(float64(o.minutes())-want) > 2.6*float64(n) {
			p.fail(d, "%v in a block of %d %%, want %.0f min", sessionKeys(o.Sessions), b.Percent, want)
		}
		for _, u := range p.usual(d) {
			if u.set != nil && hardSets(o) != u.set.String() {
				p.fail(d, "%v in a block, want %s", sessionKeys(o.Sessions), u.set)
			}
		}
	}
}

func checkHoursTold(p *plan) {
	for _, r := range p.races {
		if r.Priority == "A" && r.Hours == 0 && r.last == r.date && r.date >= p.today && p.raceOn(r.date)[0] == r &&
			!p.warned(r.Name, "race.hours") {
			p.fail(r.date, "%s: length not told and no warning race.hours", r.Name)
		}
	}
}

// checkSameDay: the race that gives way on a shared day is named.
func checkSameDay(p *plan) {
	for _, r := range p.races {
		if races := p.raceOn(r.date); r.date < p.today || len(races) < 2 || races[len(races)-1] != r {
			continue
		}
		if !p.warned(r.Name, "race.same-day") {
			p.fail(r.date, "%s shares its day and no warning race.same-day names it", r.Name)
		}
	}
}

func checkSeasonClose(p *plan) {
	for i, a := range p.races {
		for _, b := range p.races[i+1:] {
			gap := max(a.date-b.date, b.date-a.date)
			if a.Priority != "A" || b.Priority != "A" || gap == 0 || gap >= 28 || min(a.date, b.date) < p.today ||
				p.raceOn(a.date)[0] != a || p.raceOn(b.date)[0] != b {
				continue
			}
			if !p.warned(a.Name, "season.close") && !p.warned(b.Name, "season.close") {
				p.failPlan("%s and %s are %d days apart and no warning season.close", a.Name, b.Name, gap)
			}
		}
	}
}

// checkSeasonInside: a race inside an A window or an A race's recovery days
// is named by a warning: in a window when it lasts 2 h or stands within 3
// days of the A race.
func checkSeasonInside(p *plan) {
	for _, r := range p.races {
		if r.Priority == "A" || r.date < p.today || p.raceOn(r.date)[0] != r {
			continue
		}
		if a := p.inRecovery(r.date); a != nil && p.raceOn(a.date)[0] == a && !p.warned(r.Name, "") {
			p.fail(r.date, "%s stands in the recovery days of %s without a warning", r.Name, a.Name)
		}
		w := p.inWindow(r.date)
		if w == nil || r.Hours < 2 && w.date-r.last > 3 {
			continue
		}
		if !p.warned(r.Name, "") && !p.warned(w.Name, "season.inside") {
			p.fail(r.date, "%s stands in the window of %s without a warning", r.Name, w.Name)
		}
	}
}

// checkTwoB: of two B races within four days one is trained through, and a
// warning says so.
func checkTwoB(p *plan) {
	for i, a := range p.races {
		for _, b := range p.races[i+1:] {
			gap := max(a.date-b.last, b.date-a.last)
			if a.Priority != "B" || b.Priority != "B" || gap < 1 || gap > 3 || min(a.date, b.date) < p.today {
				continue
			}
			free := func(r *race) bool {
				return p.inWindow(r.date) == nil && p.inRecovery(r.date) == nil && p.raceOn(r.date)[0] == r
			}
			if free(a) && free(b) && !p.warned(a.Name, "") && !p.warned(b.Name, "") {
				p.failPlan("%s and %s are %d days apart without a warning", a.Name, b.Name, gap)
			}
		}
	}
}
