package engine

import "musette/planner"

const patternEnds = 14 // days before the race from which on a pattern counts

// placePattern counts hard days back from D-3, every second or third day.
func (w *window) placePattern() {
	gap := 2
	if w.pattern == planner.EveryThirdDay {
		gap = 3
	}
	usual := w.c.hardDays(w.race.Date)
	k := 0
	for t := 3; t <= min(w.n, patternEnds); {
		placed := false
		for u := t; u <= t+2 && u <= min(w.n, patternEnds); u++ {
			if w.mayBeHard(u, false).is() || w.hardIn(max(1, u-6), u) >= min(usual+1, 4) {
				continue
			}
			w.mark(u, w.alternate(k), note{code: WhyHardPattern, n: gap})
			k++
			t, placed = u+gap, true
			break
		}
		if !placed {
			t += 3
		}
	}
	for t := 3; t <= min(w.n, patternEnds); t++ {
		if w.t[t].kind == hard && !w.t[t].hard {
			w.t[t].reason = note{code: WhyHardPatternOff, n: gap}
		}
	}
}

// alternate is the rider's k-th set counted from the race back: the shortest
// repetitions, the next longer, up to the longest, then again.
func (w *window) alternate(k int) source {
	kinds := w.c.setsByLength(w.race.Date)
	return kinds[k%len(kinds)]
}
