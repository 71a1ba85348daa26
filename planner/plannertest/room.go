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
