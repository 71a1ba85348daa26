package engine

// trainUpToLostDays brings the first hard day of a lost run to the run's eve, and
// a hard day on D-2 to D-3: lost days are rest enough.
func (w *window) trainUpToLostDays() {
	for _, run := range w.lostRuns() {
		eve := run.from + 1
		if eve > w.n {
			continue
		}
		if w.t[eve].hard {
			w.t[eve].whole = true
			continue
		}
		for t := run.from; t >= run.to; t-- {
			if w.t[t].kind == hard {
				if !w.mayBeHard(eve, true).is() && w.roomLate(eve) {
					w.mark(eve, w.own(t), note{code: WhyHardEve, day: w.t[t].date})
					w.t[eve].whole = true
				} else {
					w.afterLost(run, t)
				}
				break
			}
		}
	}
	if w.n >= 3 && w.t[2].kind == hard && w.t[2].owner != settled && !w.t[3].hard && w.t[3].kind != long &&
		!w.mayBeHard(3, false).is() && w.roomLate(3) {
		w.mark(3, w.own(2), note{code: WhyHardFromEve, day: w.t[2].date})
	}
}

// afterLost brings a lost hard session to the first day after the run that may be hard, up to D-6.
func (w *window) afterLost(run stretch, lost int) {
	for t := run.to - 1; t >= max(6, run.to-3); t-- {
		if !w.mayBeHard(t, false).is() && w.roomLate(t) && w.t[t].kind != long {
			w.mark(t, w.own(lost), note{code: WhyHardFromEve, day: w.t[lost].date})
			return
		}
	}
}

// lostRuns are stretches of two or more usually ridden days that are lost, up to
// D-3, and single hard ones.
func (w *window) lostRuns() []stretch {
	var out []stretch
	for t := w.n; t >= 3; t-- {
		if !w.t[t].lost() || w.t[t].neverRidden() {
			continue
		}
		run, ridden := stretch{from: t, to: t}, 0
		for ; t >= 3 && w.t[t].lost() && !w.t[t].neverRidden(); t-- {
			run.to = t
			if w.t[t].mins > 0 {
				ridden++
			}
		}
		if ridden >= 2 || ridden == 1 && run.from == run.to && w.t[run.to].kind == hard {
			out = append(out, run)
		}
	}
	return out
}

// neverRidden reports a weekday that is never ridden.
func (d *day) neverRidden() bool { return d.busy && !d.away && d.limit >= shortestRide }
