package plannertest

import "strings"

// Symptoms as the generator writes them. redFlags stop every plan, stopping
// symptoms stop training while they last; the rest allow easy riding.
var stopping = map[string]bool{
	"fever": true, "chills": true, "vomiting": true, "diarrhoea": true, "body aches": true,
	"chest tightness": true, "dizziness": true, "concussion": true, "head knock": true,
}

func (s span) stops() bool {
	for _, x := range s.Symptoms {
		if stopping[x] || redFlags[x] {
			return true
		}
	}
	return false
}

// checkOff: nothing is ridden on a day off; a race on a weekday off is.
func checkOff(p *plan) {
	for d := p.first; d <= p.last; d++ {
		o := p.days[d]
		if o == nil || !p.isOff(d) {
			continue
		}
		for _, s := range o.Sessions {
			if s.Kind == "rest" || s.Kind == "race" && len(p.raceOn(d)) > 0 || s.Kind == "strength" && !p.off[d.weekday()] {
				continue
			}
			p.fail(d, "%s on a day off", s.key())
		}
	}
}

func checkLimits(p *plan) {
	for d := p.first; d <= p.last; d++ {
		limit, ok := p.limit(d)
		if !ok || p.loggedOn(d) {
			continue
		}
		total := 0
		for _, s := range p.days[d].Sessions {
			if s.isRide() && s.Kind != "race" {
				total += s.Minutes
			}
		}
		if total > limit {
			p.fail(d, "%d min, limited to %d", total, limit)
		}
	}
}

func checkTravel(p *plan) {
	for d := p.first; d <= p.last; d++ {
		if !p.away(d, "travel") || len(p.raceOn(d)) > 0 || p.loggedOn(d) {
			continue
		}
		o := p.days[d]
		if o.minutes() > 45 || !o.easyOnly() {
			p.fail(d, "%v on a travel day", sessionKeys(o.Sessions))
		}
	}
}

// checkRedFlag: from its date on nothing but rest, no taper, and a warning.
func checkRedFlag(p *plan) {
	for _, s := range p.in.Sick {
		red := false
		for _, x := range s.Symptoms {
			red = red || redFlags[x]
		}
		if !red {
			continue
		}
		if !p.hasCode("health.stop") {
			p.failPlan("no warning health.stop")
		}
		if len(p.out.Tapers) > 0 {
			p.failPlan("tapers in a stopped plan")
		}
		for d := max(p.first, s.from); d <= p.last; d++ {
			if o := p.days[d]; o != nil && (o.Phase != "health" || !o.restOnly()) {
				p.fail(d, "phase %q with %v", o.Phase, sessionKeys(o.Sessions))
			}
		}
	}
}

func (d *outDay) restOnly() bool {
	for _, s := range d.Sessions {
		if s.Kind != "rest" {
			return false
		}
	}
	return true
}

func (p *plan) hasCode(code string) bool {
	for _, w := range p.out.Warnings {
		if w.Code == code {
			return true
		}
	}
	return false
}

// checkFever: no training and no race while symptoms last; where the end is
// not told, today counts.
func checkFever(p *plan) {
	for _, s := range p.in.Sick {
		if !s.stops() {
			continue
		}
		end := s.to
		if end == openEnd {
			end = max(p.today, s.from)
		}
		for d := max(p.first, s.from); d <= min(end, p.last); d++ {
			if o := p.days[d]; o != nil && !o.restOnly() && !p.loggedOn(d) {
				p.fail(d, "%v with %s", sessionKeys(o.Sessions), strings.Join(s.Symptoms, ", "))
			}
		}
		if s.from <= p.last && end >= p.first && !p.warnedHealth() {
			p.failPlan("no health warning while ill")
		}
	}
}

func (p *plan) warnedHealth() bool {
	for _, w := range p.out.Warnings {
		if strings.HasPrefix(w.Code, "health.") {
			return true
		}
	}
	return false
}

// checkCold: with anything lighter at most easy, half the time.
func checkCold(p *plan) {
	for _, s := range p.in.Sick {
		if s.stops() {
			continue
		}
		end := s.to
		if end == openEnd {
			end = max(p.today, s.from)
		}
		for d := max(p.first, s.from); d <= min(end, p.last); d++ {
			if len(p.raceOn(d)) > 0 || p.loggedOn(d) {
				continue
			}
			o := p.days[d]
			if !o.easyOnly() || 2*o.minutes() > p.usualMinutes(d)+5 && p.block(d) == nil && !p.claimedEve(d) {
				p.fail(d, "%v with a cold, usually %d min", sessionKeys(o.Sessions), p.usualMinutes(d))
			}
		}
	}
}

// claimedEve: the days before races can be ridden where rest is usual.
func (p *plan) claimedEve(d day) bool {
	for _, r := range p.races {
		if d < r.date && d >= r.date-4 {
			return true
		}
	}
	return false
}

// checkIllRace: an A race within three days of such an illness is advised
// against by name.
func checkIllRace(p *plan) {
	for _, s := range p.in.Sick {
		end := s.to
		if end == openEnd {
			end = max(p.today, s.from)
		}
		for _, r := range p.races {
			if s.stops() && r.Priority == "A" && r.date >= max(p.today, s.from) && r.date <= end+3 &&
				p.raceOn(r.date)[0] == r && !p.warned(r.Name, "health.") {
				p.fail(r.date, "%s within three days of illness without a warning", r.Name)
			}
		}
	}
}

// checkReturn: the day after symptoms that stop training is not hard.
func checkReturn(p *plan) {
	for _, s := range p.in.Sick {
		if !s.stops() {
			continue
		}
		d := s.to + 1
		if s.to == openEnd {
			d = max(p.today, s.from) + 1
		}
		if o := p.days[d]; o != nil && o.hard() && !o.has("race") {
			p.fail(d, "%v the day after illness", sessionKeys(o.Sessions))
		}
	}
}
