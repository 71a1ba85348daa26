package plannertest

import "math"

// hardSource is the usual hard session that a hard day rides: its weekday's
// own, else that of the nearest weekday, the one before on a tie.
func (p *plan) hardSource(d day) *usualSession {
	for _, off := range []day{0, -1, 1, -2, 2, -3, 3} {
		sessions := p.usual(d + off)
		for i := range sessions {
			if sessions[i].isHard() {
				return &sessions[i]
			}
		}
	}
	return nil
}

// hardRange is the shortest and the longest that a hard ride of reps of the
// source's set may be, minutes; both ways of counting pauses are allowed.
func hardRange(u *usualSession, reps int) (low, high float64) {
	usual := float64(u.minutes)
	if u.set == nil {
		if reps > 0 {
			return usual / 2, usual
		}
		low, high = warmUp+coolDown+usual/4, usual*0.75
	} else {
		low, _ = interval{reps, u.set.mins}.least()
		high = usual - float64((u.set.reps-reps)*u.set.mins)
	}
	if low > high {
		low, high = high, low
	}
	return math.Floor(low/5) * 5, math.Ceil(high/5) * 5
}

// halfLeast is the least length of the halved hard ride of a day, minutes.
func (p *plan) halfLeast(d day) int {
	u := p.hardSource(d)
	if u == nil {
		return 0
	}
	if u.set == nil {
		low, _ := hardRange(u, 0)
		return int(low)
	}
	low, _ := hardRange(u, u.set.half().reps)
	return int(low)
}

// setsAllowed tells which repetitions a hard day D-k may have.
func (p *plan) setsAllowed(w *window, k int, hards []int) (half, full bool) {
	first := len(hards) > 0 && hards[len(hards)-1] == k && p.whole(w)
	switch {
	case k > 14:
		return !p.calm(w) || !p.roomy(w), true
	case p.overloaded(w):
		return true, true
	case w.n >= 12 && k > 10:
		return p.raceBefore(w, k) || !first && !p.roomy(w), true
	case w.n >= 12 && (first || !p.whole(w)):
		return true, true
	}
	return true, false
}

// raceBefore: a race comes before D-k in the window.
func (p *plan) raceBefore(w *window, k int) bool {
	return p.otherRaceIn(w.race, w.from, w.at(k)-1)
}

func checkIntensity(p *plan) {
	for _, w := range p.windows {
		hards := p.hardDays(w)
		for _, k := range hards {
			d := w.at(k)
			for _, s := range p.days[d].Sessions {
				if s.Effort == "hard" && !p.loggedOn(d) {
					p.checkHardRide(w, k, s, hards)
				}
			}
		}
	}
}

func (p *plan) checkHardRide(w *window, k int, s outSession, hards []int) {
	d := w.at(k)
	u := p.hardSource(d)
	if u == nil {
		p.fail(d, "D-%d %s: no hard session in the week", k, s.key())
		return
	}
	half, full := p.setsAllowed(w, k, hards)
	if u.set == nil {
		low, high := hardRange(u, 0)
		if full {
			high = float64(u.minutes)
		}
		if s.Sets != nil || float64(s.Minutes) < low || float64(s.Minutes) > high {
			p.fail(d, "D-%d %s: want %v to %v min without sets", k, s.key(), low, high)
		}
		return
	}
	if s.Sets == nil {
		p.fail(d, "D-%d %s: no sets, usually %s", k, s.key(), u.set)
		return
	}
	got, _ := parseSet(*s.Sets)
	if got.mins != u.set.mins || !(half && got.reps == u.set.half().reps || full && got.reps == u.set.reps) {
		p.fail(d, "D-%d %s: usually %s (half allowed %v, full allowed %v)", k, s.key(), u.set, half, full)
		return
	}
	low, high := hardRange(u, got.reps)
	if m := float64(s.Minutes); (m < low || m > high) && s.Minutes != u.minutes {
		p.fail(d, "D-%d %s: want %v to %v min", k, s.key(), low, high)
	}
}

// hardDays gives the window's days k that are hard, races too, nearest first.
func (p *plan) hardDays(w *window) []int {
	var list []int
	for k := 1; k <= w.n; k++ {
		if o := p.days[w.at(k)]; o != nil && o.hard() {
			list = append(list, k)
		}
	}
	return list
}

// checkHardBlocks: a hard day in every full block, none for a week without.
func checkHardBlocks(p *plan) {
	for _, w := range p.windows {
		if p.hardDaysAWeek() == 0 {
			p.checkNoHard(w)
			continue
		}
		for near := 1; near+6 <= w.n; near += 7 {
			if w.at(near+6) < p.first || p.sickIn(w) {
				break
			}
			hard := false
			for k := near; k <= near+6; k++ {
				hard = hard || p.days[w.at(k)].hard()
			}
			if !hard && !p.excused(w, "taper.intensity", "taper.pattern") {
				p.failPlan("%s: no hard day from D-%d to D-%d", w.Name, near+6, near)
			}
		}
	}
}

func (p *plan) checkNoHard(w *window) {
	for _, k := range p.hardDays(w) {
		if d := w.at(k); !p.days[d].has("race") {
			p.fail(d, "hard day in a week without")
		}
	}
	if w.n >= 7 && !p.warned(w.Name, "taper.") {
		p.failPlan("%s: no warning for a week without hard days", w.Name)
	}
}

// checkPolar: nothing in between, and no ride stretched past its usual.
func checkPolar(p *plan) {
	for _, w := range p.windows {
		for d := max(w.from, p.first); d < w.date; d++ {
			o := p.days[d]
			for _, s := range o.Sessions {
				if s.isRide() && s.Effort == "steady" {
					p.fail(d, "%s in the window", s.key())
				}
			}
			stretch := p.usualKind(d, "endurance") || p.usualKind(d, "long")
			if stretch && !p.usualHard(d) && o.easyOnly() && p.block(d) == nil &&
				o.minutes() > p.usualMinutes(d) && !p.loggedOn(d) {
				p.fail(d, "%d min, usually %d", o.minutes(), p.usualMinutes(d))
			}
		}
	}
}

// checkStrength: the last heavy session is on D-4.
func checkStrength(p *plan) {
	for _, w := range p.windows {
		for k := 1; k <= min(3, w.n); k++ {
			if o := p.days[w.at(k)]; o != nil && o.has("strength") {
				p.fail(w.at(k), "strength on D-%d", k)
			}
		}
	}
}
