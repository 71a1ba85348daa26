package planner

// Costs of the search for the pattern; a broken gap outweighs all preferences.
const (
	costUnusual = 10
	costBroken  = 5000
	gainHard    = 100 // where the number of hard days is free to vary
)

// chainState memoises the best continuation from a hard day at p with n placed
// hard days in its block.
type chainState struct {
	known bool
	cost  int16
	next  int8 // 0 ends the chain
}

// chainSearch finds the hard days before the last one, counting back: each a
// gap from the one before, one day more to land on a usual hard day, one or
// two more across days that cannot be hard; at most one hard day more in a
// block than usual. With one usual hard day a week that cap rules out every
// second day throughout: there the gap may be two or three days, as many hard
// days as the cap allows, evenly. Races in the window are links that must be visited.
type chainSearch struct {
	w     *window
	gap   int
	free  bool // the gap may be two or three days
	limit int  // earliest spot of the pattern
	memo  [patternDays + 2][blockDays + 1]chainState
	room  [patternDays/blockDays + 2]int // hard days each block may still take
}

// chain places the pattern from the last hard day back to limit and reports a broken gap.
func (w *window) chain(gap, last, limit int) bool {
	s := chainSearch{w: w, gap: gap, limit: limit, free: gap == 2 && w.hardDays == 1}
	for b := range s.room {
		s.room[b] = w.usuallyIn(b) + 1
	}
	for p := 1; p <= w.n; p++ {
		if b := (p - 1) / blockDays; b < len(s.room) && w.isHard(p) && p != last {
			s.room[b]--
		}
	}
	placed := 0
	if w.spots[last].hard {
		placed = 1
	} else if w.spots[last].raced() {
		s.room[0]--
	}
	broken := false
	for p, n := last, placed; ; {
		state := s.best(p, n)
		if state.next == 0 {
			return broken
		}
		next := int(state.next)
		if _, breaks := s.reach(p, next, n); breaks {
			broken = true
		}
		p, n = next, s.count(p, n, next)
		if !w.spots[p].raced() {
			w.spots[p].hard = true
		}
	}
}

// usuallyIn is the number of usual hard days of a week like block b's.
func (w *window) usuallyIn(b int) int {
	most := 0
	for p := b*blockDays + 1; p <= min((b+1)*blockDays, w.n); p++ {
		most = max(most, w.spots[p].usually)
	}
	return most
}

// best is the cheapest way on from a hard day at p.
func (s *chainSearch) best(p, n int) chainState {
	if m := s.memo[p][n]; m.known {
		return m
	}
	m := chainState{known: true}
	found := false
	for q := p + 2; q <= s.limit; q++ {
		raced := s.w.spots[q].raced()
		if ok, breaks := s.reach(p, q, n); ok {
			cost := s.best(q, s.count(p, n, q)).cost
			if breaks {
				cost += costBroken
			}
			cost += s.price(p, q)
			if !found || cost < m.cost || cost == m.cost && s.habit(q) && !s.habit(int(m.next)) {
				found, m.cost, m.next = true, cost, int8(q)
			}
		}
		if raced {
			break // a race cannot be passed over
		}
	}
	s.memo[p][n] = m
	return m
}

// habit reports a usual hard day or a race at q.
func (s *chainSearch) habit(q int) bool {
	return s.w.spots[q].raced() || s.w.spots[q].slot.usuallyHard()
}

// price is what speaks against a hard day at q after one at p where the number
// of hard days may vary.
func (s *chainSearch) price(p, q int) int16 {
	if !s.free {
		return 0
	}
	price := int16(-gainHard)
	if !s.habit(q) {
		price += costUnusual
	}
	if q-p != 3 {
		price++
	}
	return price
}

// count is the number of placed hard days in q's block after stepping from p to q.
func (s *chainSearch) count(p, n, q int) int {
	if (p-1)/blockDays != (q-1)/blockDays {
		n = 0
	}
	if s.w.spots[q].raced() {
		return n
	}
	return n + 1
}

// usable reports whether q can be hard, coming from p with n placed in p's block.
func (s *chainSearch) usable(p, n, q int) bool {
	placed := 0
	if (p-1)/blockDays == (q-1)/blockDays {
		placed = n
	}
	return placed < s.room[(q-1)/blockDays] && !s.w.spots[q].resting() && s.w.canBeHard(q, false)
}

// reach tells whether q may follow p, and whether the step breaks the pattern.
func (s *chainSearch) reach(p, q, n int) (ok, breaks bool) {
	ok, breaks = s.reachBy(s.gap, p, q, n)
	if s.free && (!ok || breaks) && q-p <= 4 {
		return s.reachBy(3, p, q, n)
	}
	return ok, breaks
}

func (s *chainSearch) reachBy(gap, p, q, n int) (ok, breaks bool) {
	raced := s.w.spots[q].raced()
	if !raced && (q-p < gap || !s.usable(p, n, q)) {
		return false, false
	}
	passed := 0 // days that could have been hard between the gap and q
	for k := p + gap; k < q; k++ {
		if s.usable(p, n, k) {
			passed++
		}
	}
	switch extra := q - p - gap; {
	case extra <= 0:
		return true, false
	case passed == 0:
		return true, extra > 2
	case passed == 1 && extra == 1 && s.habit(q):
		return true, false
	default:
		return raced, true
	}
}
