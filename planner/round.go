package planner

import "math"

// nearest5 is the part's minutes nearest to target, in steps of 5 above its least.
func nearest5(b part, target float64) int {
	steps := math.Round((target - float64(b.lo)) / 5)
	return b.lo + 5*int(math.Max(0, math.Min(steps, float64((b.hi-b.lo)/5))))
}

// roundParts turns the parts' targets into minutes in steps of 5, holding the
// volume and, where asked, the chain. Where that cannot be each part simply
// takes its nearest step.
func roundParts(parts []part, target, slack float64, chained bool) {
	const reach = 2
	var at, best [4]int
	bestCost := math.Inf(1)
	for i := range parts {
		parts[i].minutes = nearest5(parts[i], parts[i].target)
		at[i] = parts[i].minutes
	}
	var try func(i, total int, cost float64)
	try = func(i, total int, cost float64) {
		if i == len(parts) {
			off := math.Abs(float64(total) - target)
			if off > slack || chained && chainBrokenAt(parts, &at) {
				return
			}
			if cost += off; cost < bestCost {
				bestCost, best = cost, at
			}
			return
		}
		for step := -reach; step <= reach; step++ {
			at[i] = parts[i].minutes + 5*step
			if at[i] < parts[i].lo || at[i] > parts[i].hi {
				continue
			}
			try(i+1, total+at[i], cost+math.Abs(float64(at[i])-parts[i].target)/2)
		}
	}
	try(0, 0, 0)
	if math.IsInf(bestCost, 1) {
		return
	}
	for i := range parts {
		parts[i].minutes = best[i]
	}
}

// chainBroken reports whether a later block has no smaller share than the one before it.
func chainBroken(parts []part) bool {
	var at [4]int
	for i := range parts {
		at[i] = parts[i].minutes
	}
	return chainBrokenAt(parts, &at)
}

func chainBrokenAt(parts []part, at *[4]int) bool {
	later := -1.0
	for i := range parts {
		if !parts[i].chained {
			continue
		}
		if s := share(at[i], parts[i].usual); s <= later {
			return true
		} else {
			later = s
		}
	}
	return false
}

// distribute shares a part's minutes out over its days: each day its usual
// minutes times one common factor, within the day's bounds.
func (w *window) distribute(b *part) {
	factor := w.commonFactor(b)
	left := b.minutes
	for p := b.first; p <= b.last; p++ {
		s := &w.spots[p]
		s.minutes = s.lo + floor5(int(clamp(factor*s.weight, s.lo, s.hi))-s.lo)
		left -= s.minutes
	}
	for ; left >= 5; left -= 5 {
		best, bestGap := 0, math.Inf(-1)
		for p := b.first; p <= b.last; p++ {
			s := &w.spots[p]
			if s.minutes+5 > s.hi {
				continue
			}
			if gap := factor*s.weight - float64(s.minutes); gap > bestGap {
				best, bestGap = p, gap
			}
		}
		if best == 0 {
			return
		}
		w.spots[best].minutes += 5
	}
}

// commonFactor is the factor at which the clamped wishes add up to the part's minutes.
func (w *window) commonFactor(b *part) float64 {
	lo, hi := 0.0, 400.0
	for i := 0; i < 40; i++ {
		mid := (lo + hi) / 2
		total := 0.0
		for p := b.first; p <= b.last; p++ {
			total += clamp(mid*w.spots[p].weight, w.spots[p].lo, w.spots[p].hi)
		}
		if total > float64(b.minutes) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

func clamp(x float64, lo, hi int) float64 {
	return math.Max(float64(lo), math.Min(float64(hi), x))
}
