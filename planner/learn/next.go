package learn

import "musette/planner"

const (
	leastStep = 2   // days by which a proposal differs from the planned length at least
	mostCost  = 0.3 // per cent that it may be expected to cost at most
)

// Next is a length of a taper to come, what it is expected to teach, as a share of what
// is unknown, and to cost against the planned one, per cent.
type Next struct {
	Days           int
	Teaches, Costs float64
}

// Next is the length from which most is expected to be learned, within the range that
// the rider's races leave. It is the planned one where no other teaches more, costs
// little enough and lies away from lengths that went worse. change is by how much loads
// differ from usual with a taper of so many days, false where that does not fit.
func (l *Learned) Next(planned int, within planner.OwnLength, change func(days int) ([]float64, bool)) Next {
	return l.next(planned, within, func(days int) ([]float64, bool) {
		loads, ok := change(days)
		if !ok {
			return nil, false
		}
		return l.grid.form(loads), true
	})
}

// next is Next by the form that the loads make, by each shape.
func (l *Learned) next(planned int, within planner.OwnLength, form func(days int) ([]float64, bool)) Next {
	base, ok := form(planned)
	if !ok {
		return Next{Days: planned}
	}
	best := Next{Days: planned, Teaches: l.teaches(base)}
	for n := within.Low; n <= within.High; n++ {
		if n > planned-leastStep && n < planned+leastStep || l.wentWorse(planned, n) {
			continue
		}
		here, ok := form(n)
		if !ok {
			continue
		}
		costs, teaches := -l.expects(here, base), l.teaches(here)
		if costs <= mostCost && teaches > best.Teaches {
			best = Next{Days: n, Teaches: teaches, Costs: costs}
		}
	}
	return best
}

// wentWorse reports a length at which a race went worse, from the planned one up to
// about another one. Worse is what the rider said, else legs well below their usual.
func (l *Learned) wentWorse(planned, n int) bool {
	sum, races := 0, 0
	for _, r := range l.races {
		if r.Legs > 0 {
			sum, races = sum+r.Legs, races+1
		}
	}
	for _, r := range l.races {
		beyond := planned < r.Days && r.Days <= n+1 || n-1 <= r.Days && r.Days < planned
		low := r.Legs > 0 && !r.ComparedTold && (r.Legs+1)*races <= sum
		if beyond && r.Days > 0 && (low || r.ComparedTold && r.Compared < 0) {
			return true
		}
	}
	return false
}
