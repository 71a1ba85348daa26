package response

import (
	"cmp"
	"math"
	"slices"
)

// Change is by how much loads around a race differ from usual, in usual days:
// Before[0] is the day before the race, Before[1] the day before that; After[0]
// is the first day after its first day.
type Change struct {
	Before, After []float64
}

// Later is a race to come: its weight and how many days after the first day of
// the race in question its own first day is, at least 1.
type Later struct {
	Days   int
	Weight float64
}

// Reach is how much of a race's fitness and fatigue the later races see, for
// each draw of a belief.
type Reach struct {
	days             []int     // of the later races, ascending
	fitness, fatigue []float64 // a row a draw: by each race and those after it
}

// Reach adds up the later races.
func (b Belief) Reach(later []Later) Reach {
	later = slices.SortedFunc(slices.Values(later), func(x, y Later) int { return cmp.Compare(x.Days, y.Days) })
	n := len(later)
	r := Reach{days: make([]int, n), fitness: make([]float64, n*len(b)), fatigue: make([]float64, n*len(b))}
	for i := range b {
		fitness, fatigue := 0.0, 0.0
		for k := n - 1; k >= 0; k-- {
			fitness += later[k].Weight * math.Exp(-float64(later[k].Days)/b[i].Tau1)
			fatigue += later[k].Weight * math.Exp(-float64(later[k].Days)/b[i].Tau2)
			r.days[k], r.fitness[i*n+k], r.fatigue[i*n+k] = later[k].Days, fitness, fatigue
		}
	}
	return r
}

// Effect is what a change does to the performance on the race's morning, times
// its own weight, and to that of the later races, times theirs: per cent, one
// value a draw, written over out, which is as long as the belief. A load after
// the race counts for the races after it only; r is of the same belief.
func (b Belief) Effect(out []float64, own float64, r Reach, c Change) {
	n := len(r.days)
	for i := range b {
		d := &b[i]
		g, h := 0.0, 0.0
		for k := len(c.Before) - 1; k >= 0; k-- {
			g, h = (g+c.Before[k])*d.decay1, (h+c.Before[k])*d.decay2
		}
		total := own * (d.K1*g - d.K2*h)
		if n > 0 {
			fitness, fatigue := r.fitness[i*n:(i+1)*n], r.fatigue[i*n:(i+1)*n]
			total += d.K1*g*fitness[0] - d.K2*h*fatigue[0]
			next, up1, up2 := 0, 1.0, 1.0
			for k, load := range c.After {
				for next < n && r.days[next] <= k+1 {
					next++
				}
				if next == n {
					break
				}
				up1, up2 = up1/d.decay1, up2/d.decay2
				total += load * (d.K1*up1*fitness[next] - d.K2*up2*fatigue[next])
			}
		}
		out[i] = d.Percent * total
	}
}

// Mornings writes over out[k], one value a draw, by how many per cent performance
// on the morning of day at[k] differs where the load of day i differs by change[i]
// usual days. Days count from 0; at ascends and ends by the last day of change at most.
func (b Belief) Mornings(out [][]float64, change []float64, at []int) {
	if len(at) == 0 {
		return
	}
	rest := restsOf(change, at[len(at)-1])
	same := 0 // days before anything differs
	for same < len(change) && change[same] == 0 {
		same++
	}
	for j := range b {
		d := &b[j]
		leap1, leap2 := eighth(d.decay1), eighth(d.decay2)
		g, h, day := 0.0, 0.0, same
		for k, morning := range at {
			for day < morning {
				switch {
				case rest[day] >= leap && day+leap <= morning:
					g, h, day = g*leap1, h*leap2, day+leap
				case rest[day] > 0:
					g, h, day = g*d.decay1, h*d.decay2, day+1
				default:
					g, h, day = (g+change[day])*d.decay1, (h+change[day])*d.decay2, day+1
				}
			}
			out[k][j] = d.Percent * (d.K1*g - d.K2*h)
		}
	}
}

const leap = 8 // days without a change that are taken at once

// eighth is the power of that.
func eighth(v float64) float64 {
	v *= v
	v *= v
	return v * v
}

// restsOf is on how many days from each on, up to a last one, nothing differs.
func restsOf(change []float64, last int) []int {
	rest := make([]int, last+1)
	for day := last - 1; day >= 0; day-- {
		if day >= len(change) || change[day] == 0 {
			rest[day] = rest[day+1] + 1
		}
	}
	return rest
}

// Mean is the average of values, 0 of none.
func Mean(values []float64) float64 {
	total := 0.0
	for _, v := range values {
		total += v
	}
	return total / math.Max(1, float64(len(values)))
}
