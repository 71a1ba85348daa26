package planner

// Costs of the search for the pattern; a broken gap outweighs all preferences.
const (
	costUnusual = 1
	costBroken  = 100
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
// block than usual. Races in the window are links that must be visited.
type chainSearch struct {
	w     *window
	gap   int
	limit int // earliest spot of the pattern
	memo  [patternDays + 2][blockDays + 1]chainState
	room  [patternDays/blockDays + 2]int // hard days each block may still take
}

// chain places the pattern from the last hard day back to limit and reports a broken gap.
func (w *window) chain(gap, last, limit int) bool {
	s := chainSearch{w: w, gap: gap, limit: limit}
	for b := range s.room {
		s.room[b] = w.hardDays + 1
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
			if !raced && !s.w.spots[q].slot.usuallyHard() {
				cost += costUnusual
			}
			if !found || cost < m.cost {
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
	raced := s.w.spots[q].raced()
	if !raced && (q-p < s.gap || !s.usable(p, n, q)) {
		return false, false
	}
	passed := 0 // days that could have been hard between the gap and q
	for k := p + s.gap; k < q; k++ {
		if s.usable(p, n, k) {
			passed++
		}
	}
	wanted := raced || s.w.spots[q].slot.usuallyHard()
	switch extra := q - p - s.gap; {
	case extra <= 0:
		return true, false
	case passed == 0:
		return true, extra > 2
	case passed == 1 && extra == 1 && wanted:
		return true, false
	default:
		return raced, true
	}
}
