package plannertest

// canOpen tells whether openers fit on D-k of r.
func (p *plan) canOpen(r *race, k int) bool {
	d := r.date - day(k)
	limit, limited := p.limit(d)
	return !p.isOff(d) && !p.away(d, "travel") && !(limited && limit < 30) && d >= r.registered
}

// openersDay is the k of D-k that must hold the openers, 0 for none.
func (p *plan) openersDay(r *race, n int) int {
	order := []int{1, 2}
	if p.setting("openers", "D-1") == "D-2" {
		order = []int{2, 1}
	}
	for _, k := range order {
		if k <= n && p.canOpen(r, k) {
			return k
		}
	}
	return 0
}

func checkOpeners(p *plan) {
	for _, w := range p.windows {
		if p.otherRaceIn(w.race, w.at(2), w.at(1)) || p.sick(w.at(1), returnDays) || p.sick(w.at(2), returnDays) {
			continue
		}
		if p.warned(w.Name, "taper.openers") {
			continue
		}
		p.judgeOpeners(w.race, w.n)
	}
}

// judgeOpeners checks day and length of the openers of an A or B race whose
// own days begin at D-n.
func (p *plan) judgeOpeners(r *race, n int) {
	want := p.openersDay(r, n)
	for k := 1; k <= 2; k++ {
		d := r.date - day(k)
		o := p.days[d]
		if o == nil || k > n || p.loggedOn(d) {
			continue
		}
		if o.has("openers") != (k == want) {
			p.fail(d, "D-%d of %s is %v, openers belong on D-%d", k, r.Name, sessionKeys(o.Sessions), want)
			continue
		}
		if k == 1 && want == 2 && p.setting("openers", "D-1") == "D-2" && o.minutes() > 0 {
			p.fail(d, "%v on D-1 of %s, want rest after openers on D-2", sessionKeys(o.Sessions), r.Name)
		}
		for _, s := range o.Sessions {
			if s.Kind == "openers" && n >= 4 {
				p.judgeOpenersLength(d, s)
			}
		}
	}
}

func (p *plan) judgeOpenersLength(d day, s outSession) {
	low, high := 40, 60
	switch {
	case p.weekly >= 720:
		low, high = 60, 120
	case p.weekly >= 480:
		low, high = 60, 75
	}
	longest := 0
	for _, sessions := range p.week {
		for _, u := range sessions {
			if u.isRide() && u.kind != "long" {
				longest = max(longest, u.minutes)
			}
		}
	}
	if longest > 0 {
		high, low = min(high, longest), min(low, longest/5*5)
	}
	if p.dayAfter(d) {
		high, low = min(high, 60), 0
	}
	if limit, ok := p.limit(d); ok {
		low = min(low, limit/5*5)
	}
	if s.Minutes < low || s.Minutes > high {
		p.fail(d, "openers of %d min, want %d to %d", s.Minutes, low, high)
	}
}

// checkMovedRest: a rest day that openers displace moves to D-2.
func checkMovedRest(p *plan) {
	for _, w := range p.windows {
		if w.n < 4 || !p.calm(w) || w.at(2) < p.first || !p.usualRest(w.at(1)) {
			continue
		}
		o := p.days[w.at(2)]
		if p.days[w.at(1)].has("openers") && o.minutes() > 0 && !p.warned(w.Name, "taper.frequency") {
			p.fail(w.at(2), "%v, the rest day of D-1 belongs here", sessionKeys(o.Sessions))
		}
	}
}
