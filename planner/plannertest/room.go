package plannertest

// hasRoom tells that the least and the greatest lengths of the rules leave
// room for the cut in every length that the file's one race may get, with
// some to spare, so that no warning is due.
func hasRoom(input []byte) bool {
	p, err := inputPlan(input)
	if err != nil {
		return false
	}
	r := p.races[0]
	for n := range p.lengths(r) {
		w := &window{race: r, n: n, from: r.date - day(n)}
		low, high, usual := 0, 0, 0
		lastLow, lastUsual := 0, 0
		for k := n; k >= 1; k-- {
			l, h := p.bounds(w, k)
			low, high, usual = low+l, high+h, usual+p.usualMinutes(w.at(k))
			if k <= 7 {
				lastLow, lastUsual = lastLow+l, lastUsual+p.usualMinutes(w.at(k))
			}
		}
		left := 1 - p.cut()/100
		if float64(low) > left*float64(usual) || float64(high) < (left+0.03)*float64(usual) {
			return false
		}
		if n > 8 && float64(lastLow) > 0.85*left*float64(lastUsual) {
			return false
		}
	}
	return p.weekly >= 480 && p.weekly <= 900
}

func inputPlan(input []byte) (*plan, error) {
	return newPlan(input, []byte(`{"days":[],"tapers":[],"warnings":[]}`))
}

// bounds guesses how short and how long D-k can be; a hard day is taken for
// one where it is usual, as its halved set.
func (p *plan) bounds(w *window, k int) (low, high int) {
	d := w.at(k)
	usual := p.usualMinutes(d)
	most := max(60, p.weekly/10)
	switch {
	case k == 1 && p.openersDay(w.race, w.n) == 1, k == 2 && p.openersDay(w.race, w.n) == 2:
		return 60, 60
	case usual == 0:
		return 0, 0
	case k == 2:
		return 30, min(usual, most)
	case k <= 4:
		hard := p.halfLeast(d)
		if k == 3 && !p.usualHard(d) {
			return max(30, hard), max(hard, 30)
		}
		return 30, min(usual, most)
	case p.usualHard(d):
		u := p.hardSource(d)
		half, full := u.set.half(), *u.set
		reps := half.reps
		if w.n >= 12 && k > 10 {
			reps = full.reps
		}
		l, _ := hardRange(u, reps)
		return int(l), int(l) + 10
	case p.usualRest(d-1) || p.off[(d-1).weekday()] || p.usualHard(d-1):
		return 30, min(usual, most)
	}
	return 30, usual
}

// roomy tells that the least lengths of a full pattern fit every block with
// much to spare, and that its greatest lengths reach the volume, so that no
// rule has to give way.
func (p *plan) roomy(w *window) bool {
	return p.fits(w) && p.fills(w)
}

// fills guesses the most that a full pattern can hold: each hard day takes
// the place of an average ride.
func (p *plan) fills(w *window) bool {
	most, usual, rides, hards := 0, 0, 0, 0
	for k := 1; k <= w.n; k++ {
		d := w.at(k)
		m := p.usualMinutes(d)
		usual += m
		if m > 0 {
			rides++
		}
		if k == 1 {
			m = 60
		} else if k <= 4 {
			m = min(m, max(60, p.weekly/10))
		}
		most += m
	}
	for near := 1; near <= w.n; near += 7 {
		hards += min(p.hardDaysAWeek()+1, 3)
	}
	if w.n <= 8 {
		hards = 2
	}
	hard, n := 0, 0
	for _, sessions := range p.week {
		for _, u := range sessions {
			if u.isHard() {
				hard, n = hard+u.minutes, n+1
			}
		}
	}
	loss := float64(hards) * (float64(usual)/float64(max(rides, 1)) - 0.7*float64(hard)/float64(max(n, 1)))
	return float64(most)-max(loss, 0) >= 1.1*(1-p.cut()/100)*float64(usual)
}

func (p *plan) fits(w *window) bool {
	floor, openers := 20, 40
	if p.weekly >= 480 {
		floor, openers = 30, 60
	}
	for near := 1; near <= w.n; near += 7 {
		need, usual := 0, 0
		hards := min(p.hardDaysAWeek()+1, 3)
		if w.n <= 8 {
			hards = 2
		}
		for k := near; k <= min(near+6, w.n); k++ {
			d := w.at(k)
			usual += p.usualMinutes(d)
			if p.usualRides(d) > 0 {
				need += floor
			}
		}
		need += hards * (p.longestLeast(w.n >= 12 && near > 7) - floor)
		if near == 1 {
			need += openers - floor
		}
		if float64(need) > 0.75*(1-p.cut()/100)*float64(usual) {
			return false
		}
	}
	return true
}

// longestLeast is the greatest least length of the week's hard rides.
func (p *plan) longestLeast(full bool) int {
	longest := 0
	for d := day(0); d < 7; d++ {
		if u := p.hardSource(d); full && u != nil {
			if u.set == nil {
				longest = max(longest, u.minutes)
			} else {
				_, high := u.set.least()
				longest = max(longest, int(high))
			}
		}
		longest = max(longest, p.halfLeast(d))
	}
	return longest
}
