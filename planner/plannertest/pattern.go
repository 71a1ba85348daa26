package plannertest

// checkLastTwoDays: nothing hard on D-2 and D-1 of an A race; races that
// stand there are ridden.
func checkLastTwoDays(p *plan) {
	for _, r := range p.races {
		if r.Priority != "A" || p.raceOn(r.date)[0] != r {
			continue
		}
		for k := day(1); k <= 2; k++ {
			d := r.date - k
			o := p.days[d]
			if o == nil || d < r.registered || len(p.raceOn(d)) > 0 {
				continue
			}
			if o.hard() {
				p.fail(d, "%v on D-%d of %s", sessionKeys(o.Sessions), k, r.Name)
			}
			if k == 2 && p.inWindow(d) != nil && !o.easyOnly() && !o.has("openers") && !p.loggedOn(d) {
				p.fail(d, "D-2 is %v, want easy or rest", sessionKeys(o.Sessions))
			}
		}
	}
}

// checkTwoHard: never two hard days in a row inside a window or into it.
func checkTwoHard(p *plan) {
	for _, w := range p.windows {
		for d := max(w.from-1, p.first); d+1 < w.date; d++ {
			a, b := p.days[d], p.days[d+1]
			if !a.hard() || !b.hard() || p.loggedOn(d) {
				continue
			}
			if placed := d >= w.from && a.has("intervals") || b.has("intervals"); placed {
				p.fail(d+1, "D-%d and the day before are hard", w.number(d+1))
			}
		}
	}
}

// day states for the pattern: fine to ride hard, doubtful by one reading of
// "too short", or not possible.
const (
	fine = iota
	doubtful
	barred
)

func (p *plan) state(w *window, k int) int {
	d := w.at(k)
	limit, limited := p.limit(d)
	switch {
	case k > w.n, p.isOff(d), p.away(d, "travel"), p.usualRides(d) == 0, p.sick(d, 0):
		return barred
	case limited && limit < p.halfLeast(d):
		return barred
	case p.hardEve(w, k):
		return barred
	case p.usualMinutes(d) < p.halfLeast(d), limited, p.sick(d, returnDays), p.dayAfter(d):
		return doubtful
	case p.overloaded(w) && w.n < 12 && k > w.n-2:
		return doubtful // the two recovery days that such a window opens with
	case w.n <= 8 && k != 3 && (p.usualRest(d-1) || p.away(d-1, "off")):
		return doubtful // the day after the rest day asks for recovery
	}
	return fine
}

// hardEve: a neighbour that the window cannot change is hard.
func (p *plan) hardEve(w *window, k int) bool {
	d := w.at(k)
	if len(p.raceOn(d-1)) > 0 || k > 1 && len(p.raceOn(d+1)) > 0 {
		return true
	}
	eve := p.days[d-1]
	if k == w.n && eve == nil {
		return p.usualHard(d - 1)
	}
	return k == w.n && eve.hard()
}

// checkLastHard: the last hard day is D-3, else D-4, else D-5.
func checkLastHard(p *plan) {
	for _, w := range p.windows {
		if w.n < 4 || p.hardDaysAWeek() == 0 || p.otherRaceIn(w.race, w.at(6), w.at(1)) || p.sickIn(w) {
			continue
		}
		allowed := map[int]bool{}
		settled := false
		for k := 3; k <= 5 && !settled; k++ {
			if s := p.state(w, k); s != barred {
				allowed[k] = true
				settled = s == fine
			}
		}
		if !settled {
			allowed = map[int]bool{3: true, 4: true, 5: true}
		}
		last, hidden := 0, false
		for k := 5; k >= 3; k-- {
			if o := p.days[w.at(k)]; o == nil {
				hidden = hidden || allowed[k]
			} else if o.hard() {
				last = k
			}
		}
		if last == 0 && hidden || allowed[last] || p.excused(w, "taper.pattern", "taper.intensity") {
			continue
		}
		p.failPlan("%s: last hard day D-%d (0: none up to D-5), want one of %v", w.Name, last, keys(allowed))
	}
}

// checkDensity: how far hard days stand apart, and how many a block has.
func checkDensity(p *plan) {
	for _, w := range p.windows {
		if w.n < 4 || p.hardDaysAWeek() == 0 {
			continue
		}
		p.checkCrowd(w)
		if w.n > 8 {
			p.checkGaps(w)
		}
		p.checkFar(w)
	}
}

// checkCrowd: at most one hard day more in a block than usual, races counted.
func (p *plan) checkCrowd(w *window) {
	for near := 1; near <= w.n; near += 7 {
		rides, races := 0, 0
		for k := near; k <= min(near+6, w.n); k++ {
			if o := p.days[w.at(k)]; o == nil {
				continue
			} else if o.has("race") {
				races++
			} else if o.hard() {
				rides++
			}
		}
		most := max(p.hardDaysAWeek()+1-races, 0)
		if races > 1 {
			most = max(most, 1)
		}
		if rides > most && !p.excused(w, "taper.pattern") {
			p.failPlan("%s: %d hard rides and %d races in the block from D-%d, usually %d", w.Name, rides, races, near, p.hardDaysAWeek())
		}
	}
}

// onlyHard: a block needs a hard day, no other of k's block is hard and no
// usual one could be.
func (p *plan) onlyHard(w *window, k int) bool {
	first := (k-1)/7*7 + 1
	for j := first; j < first+7 && j <= w.n; j++ {
		d := w.at(j)
		before, after := p.days[d-1], p.days[d+1]
		beside := before != nil && before.hard() && j+1 != k || after != nil && after.hard() && j-1 != k
		if o := p.days[d]; j != k && (o != nil && o.hard() || p.usualHard(d) && !beside && p.state(w, j) == fine) {
			return false
		}
	}
	return true
}

// checkFar: before D-14 the usual hard days stay, and only these.
func (p *plan) checkFar(w *window) {
	for k := 15; k <= w.n; k++ {
		d := w.at(k)
		o := p.days[d]
		if o == nil || o.has("race") {
			continue
		}
		if o.hard() && !p.usualHard(d) && !p.overloaded(w) && !p.onlyHard(w, k) {
			p.fail(d, "D-%d is hard, usually not", k)
		}
		touches := p.days[d+1].hard() || p.hardEve(w, k) || k < w.n && p.days[d-1] != nil && p.days[d-1].hard()
		if p.usualHard(d) && !o.hard() && !touches && p.days[d-1] != nil && p.calm(w) && p.roomy(w) && !p.overloaded(w) {
			p.fail(d, "the usual hard day on D-%d is gone", k)
		}
	}
}

func (p *plan) step() int {
	if p.setting("pattern", "second") == "third" {
		return 3
	}
	return 2
}

// checkGaps judges the gaps between hard days of the last 14. Too wide is a
// breach only where the least lengths leave room.
func (p *plan) checkGaps(w *window) {
	hards := p.hardDays(w)
	for i := 1; i < len(hards); i++ {
		near, far := hards[i-1], hards[i]
		gap := far - near
		a, b := p.days[w.at(near)], p.days[w.at(far)]
		if gap == 1 || far > 14 || a.has("race") || b.has("race") || p.overloaded(w) || p.excused(w, "taper.pattern") {
			continue
		}
		if gap < p.step() && (gap < 2 || !p.onlyHard(w, far)) {
			p.failPlan("%s: hard on D-%d and D-%d, want %d days between", w.Name, far, near, p.step())
			continue
		}
		if p.calm(w) && p.roomy(w) {
			p.checkWideGap(w, near, far, hards)
		}
	}
}

func (p *plan) checkWideGap(w *window, near, far int, hards []int) {
	gap, step := far-near, p.step()
	longest := step
	if p.usualHard(w.at(far)) {
		longest++
	}
	for k := near + 1; k < far; k++ {
		if k-near >= step-1 && p.state(w, k) != fine {
			longest = max(longest, step+2)
			if p.usualHard(w.at(far)) {
				longest = max(longest, step+3)
			}
		}
	}
	if gap > longest && !p.crowded(hards, near, far) {
		p.failPlan("%s: hard on D-%d and D-%d, too far apart", w.Name, far, near)
	}
	next := far + 1
	if gap == step && !p.usualHard(w.at(far)) && next <= min(w.n, 14) && p.usualHard(w.at(next)) &&
		p.state(w, next) == fine && !blocksNext(hards, next, step) && !p.usualHard(w.at(next+1)) && !p.crowded(hards, next, next) {
		p.failPlan("%s: hard on D-%d, although D-%d is a usual hard day in reach", w.Name, far, next)
	}
}

// blocksNext: an earlier hard day stands too close to D-next for both.
func blocksNext(hards []int, next, step int) bool {
	for _, k := range hards {
		if k > next && k-next < step {
			return true
		}
	}
	return false
}

// crowded: one of the blocks from near to far has all the hard days it may.
func (p *plan) crowded(hards []int, near, far int) bool {
	for b := (near - 1) / 7; b <= (far-1)/7; b++ {
		n := 0
		for _, k := range hards {
			if (k-1)/7 == b {
				n++
			}
		}
		if n > p.hardDaysAWeek() {
			return true
		}
	}
	return false
}
