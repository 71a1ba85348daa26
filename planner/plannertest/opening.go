package plannertest

// checkOneWeek: up to 8 days the rest day stays, recovery follows it, and
// only D-8 or D-7 is hard before the last hard day.
func checkOneWeek(p *plan) {
	for _, w := range p.windows {
		if w.n > 8 || w.n < 4 || p.hardDaysAWeek() == 0 || !p.calm(w) || p.excused(w, "taper.one-week", "taper.pattern") {
			continue
		}
		hards := p.hardDays(w)
		p.checkRestStays(w)
		early, late := 0, 0
		for _, k := range hards {
			switch {
			case k >= 7:
				early++
				if !p.usualHard(w.at(k)) {
					p.fail(w.at(k), "D-%d is hard, usually not", k)
				}
			case k <= 5:
				late++
			default:
				p.fail(w.at(k), "D-%d is hard", k)
			}
		}
		if early > 1 || late > 1 {
			p.failPlan("%s: hard days D-%v, want one mid-week and one on D-8 or D-7", w.Name, hards)
		}
		for k := 7; k <= w.n; k++ {
			d := w.at(k)
			touching := p.usualHard(d-1) || p.usualHard(d+1) || p.hardEve(w, k)
			o := p.days[d]
			if o != nil && p.usualHard(d) && !touching && !o.hard() && p.roomy(w) && p.state(w, k) == fine {
				p.fail(d, "the usual hard day on D-%d is gone", k)
			}
		}
	}
}

func (p *plan) checkRestStays(w *window) {
	lastHardBarred := p.state(w, 3) == barred && p.state(w, 4) == barred && p.state(w, 5) == barred
	for k := 2; k <= w.n; k++ {
		d := w.at(k)
		o, next := p.days[d], p.days[d+1]
		if o == nil || !p.usualRest(d) || o.has("openers") || lastHardBarred && k >= 3 && k <= 5 {
			continue
		}
		if o.minutes() > 0 && !p.ridesNeeded(w) {
			p.fail(d, "%v on the usual rest day", sessionKeys(o.Sessions))
		}
		if k == 2 || k-1 == 3 || next.has("openers") || next.hard() {
			continue
		}
		if !next.recoveryOnly() {
			p.fail(d+1, "%v after the rest day, want recovery", sessionKeys(next.Sessions))
		}
	}
}

// ridesNeeded: one riding day fewer would be under 80 % of usual, which
// outranks the rest day.
func (p *plan) ridesNeeded(w *window) bool {
	if !p.whole(w) {
		return true
	}
	s := p.sum(w.from, w.date-1)
	return 10*(s.days-1) < 8*s.usualDays
}

// checkTwoWeek: the day after a full hard ride is recovery.
func checkTwoWeek(p *plan) {
	for _, w := range p.windows {
		if w.n < 12 || !p.calm(w) || p.excused(w, "taper.two-week") {
			continue
		}
		for k := 11; k <= min(w.n, 14); k++ {
			o, next := p.days[w.at(k)], p.days[w.at(k-1)]
			if o == nil || !p.fullRide(w.at(k)) {
				continue
			}
			if !next.recoveryOnly() {
				p.fail(w.at(k-1), "%v after a full hard ride, want recovery", sessionKeys(next.Sessions))
			}
		}
	}
}

// fullRide: the day holds the whole set of its hard source, more than one.
func (p *plan) fullRide(d day) bool {
	u := p.hardSource(d)
	if u == nil || u.set == nil || u.set.reps < 2 {
		return false
	}
	for _, s := range p.days[d].Sessions {
		if s.Effort == "hard" && s.Sets != nil && *s.Sets == u.set.String() {
			return true
		}
	}
	return false
}

// checkOverload: a window after a block opens with recovery; under 12 days
// two recovery days and no full set.
func checkOverload(p *plan) {
	for _, w := range p.windows {
		if !p.mustOpenEasy(w) || w.from < p.first || w.n < 7 || p.otherRaceIn(w.race, w.from-8, w.date-1) ||
			p.eventIn(w.from, w.date-1) || p.excused(w, "taper.overload", "taper.pattern") && p.block(w.from) != nil {
			continue
		}
		open := 1
		if w.n < 12 {
			open = 2
		}
		for d := w.from; d < w.from+day(open); d++ {
			if o := p.days[d]; !o.recoveryOnly() && !(o.easyOnly() && p.hardDaysAWeek() == 0) {
				p.fail(d, "%v, want recovery after the block", sessionKeys(o.Sessions))
			}
		}
		hards := p.hardDays(w)
		if len(hards) == 0 {
			continue
		}
		d := w.at(hards[len(hards)-1])
		switch u := p.hardSource(d); {
		case w.n < 12 && p.fullRide(d):
			p.fail(d, "a full set in a short window after a block")
		case w.n >= 12 && u != nil && u.set != nil && u.set.reps > 1 && !p.fullRide(d) && p.roomy(w):
			p.fail(d, "the first hard ride is not full")
		case w.n >= 12 && !(p.days[d+1].recoveryOnly() && p.days[d+2].recoveryOnly()):
			p.fail(d, "want two recovery days after the full ride")
		}
	}
}
