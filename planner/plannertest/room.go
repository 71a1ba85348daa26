package plannertest

// hasRoom tells that the least and the greatest lengths of the rules leave
// room for the cut, give or take 4 points, in every length that the file's
// one race may get, so that no warning is due.
func hasRoom(input []byte) bool {
	p, err := inputPlan(input)
	if err != nil {
		return false
	}
	left := 1 - p.cut()/100
	for n := range p.lengths(p.races[0]) {
		w := &window{race: p.races[0], n: n, from: p.races[0].date - day(n)}
		high, usual := 0, 0
		for k := 1; k <= n; k++ {
			high, usual = high+p.greatest(w, k), usual+p.usualMinutes(w.at(k))
		}
		if float64(p.leastTotal(w, n)) > (left+0.04)*float64(usual) || float64(high) < (left-0.02)*float64(usual) {
			return false
		}
		last := 0
		for k := 1; k <= 7; k++ {
			last += p.usualMinutes(w.at(k))
		}
		if n > 8 && float64(p.leastTotal(w, 7)) > left*float64(last) {
			return false
		}
	}
	return p.weekly >= 480 && p.weekly <= 900
}

func inputPlan(input []byte) (*plan, error) {
	return newPlan(input, []byte(`{"days":[],"tapers":[],"warnings":[]}`))
}

// leastTotal is the least that the last n days of the window take: openers,
// a hard ride a block, the first one full in a long window, and 80 % of the
// usual riding days at 30 min.
func (p *plan) leastTotal(w *window, n int) int {
	rides := 0
	for k := 1; k <= n; k++ {
		if p.usualRides(w.at(k)) > 0 {
			rides++
		}
	}
	hards := max(n/7, 1)
	total := 60 + hards*p.longestLeast(false) + 30*((8*rides+9)/10-1-hards)
	if n >= 12 {
		total += p.longestLeast(true) - p.longestLeast(false)
	}
	return total
}

// greatest guesses the most that D-k can hold.
func (p *plan) greatest(w *window, k int) int {
	d := w.at(k)
	usual := p.usualMinutes(d)
	most := max(60, p.weekly/10)
	switch {
	case k == 1:
		return 60
	case usual == 0:
		return 0
	case p.usualHard(d) && k > 4:
		u := p.hardSource(d)
		_, high := hardRange(u, u.set.half().reps)
		return int(high)
	case k <= 4, p.usualRest(d - 1), p.usualHard(d - 1):
		return min(usual, most)
	}
	return usual
}

// roomy tells that the least lengths of a full pattern fit every block with
// much to spare, and that its greatest lengths reach the volume, so that no
// rule has to give way.
func (p *plan) roomy(w *window) bool {
	for _, sessions := range p.week {
		for _, u := range sessions {
			if u.isHard() && u.minutes < 60 {
				return false // short hard rides can leave an early block too little to fall from
			}
		}
	}
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
	return float64(most)-max(loss, 0) >= 1.25*(1-p.cut()/100)*float64(usual)
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
		if float64(need) > 0.6*(1-p.cut()/100)*float64(usual) {
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
