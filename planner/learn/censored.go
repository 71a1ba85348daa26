package learn

import (
	"math"
	"slices"
)

// Legs of 1 and 10 are the ends of the scale: they say no more than at most 1.5, or at
// least 9.5. What such an answer makes likely is taken for a normal distribution of its
// own place and width, by expectation propagation over the races of a rider.

const (
	lowestLegs, highestLegs = 1, 10
	halfPoint               = 0.5
	sweeps                  = 6
	leastPrecision          = 1e-4
)

// censored reports an answer at an end of the scale: below or above which it may lie.
func censored(legs int) bool { return legs == lowestLegs || legs == highestLegs }

// site is what takes the place of an answer: a normal distribution of its value and
// variance, times a factor, whose logarithm is log.
type site struct{ value, variance, log float64 }

// legs are the races with legs, by their place among all, and what the prior expects of
// them: mean and covariance over riders.
type legs struct {
	told []int
	mean []float64
	cov  [][]float64
}

// ends are the legs of races of which some are at an end of the scale, nil without such.
func (g *grid) ends(races []Race, form [][]float64) *legs {
	var told []int
	any := false
	for k, r := range races {
		if r.Legs > 0 {
			told, any = append(told, k), any || censored(r.Legs)
		}
	}
	if !any {
		return nil
	}
	mean, cov := g.expected(told, form)
	return &legs{told, mean, cov}
}

// sites are those of the races with legs, by race, for riders of such a noise.
func (l *legs) sites(races []Race, noise float64) map[int]site {
	if l == nil {
		return nil
	}
	told, mean, cov := l.told, slices.Clone(l.mean), make([][]float64, len(l.cov))
	for i, row := range l.cov {
		cov[i] = slices.Clone(row)
	}
	own := noise * noise * legsSlope * legsSlope * (dayLuck*dayLuck + legsNoise*legsNoise)
	precision, shift := make([]float64, len(told)), make([]float64, len(told))
	column := make([]float64, len(told))
	set := func(i int, p, s float64) {
		dp, ds := p-precision[i], s-shift[i]
		precision[i], shift[i] = p, s
		with, at := 1+dp*cov[i][i], mean[i]
		for a := range told {
			column[a] = cov[a][i]
		}
		for a, c := range column {
			mean[a] += c * (ds - dp*at) / with
			for b, d := range column {
				cov[a][b] -= c * d * dp / with
			}
		}
	}
	for i, k := range told {
		if !censored(races[k].Legs) {
			set(i, 1/own, float64(races[k].Legs)/own)
		}
	}
	out := map[int]site{}
	for range sweeps {
		for i, k := range told {
			if !censored(races[k].Legs) {
				continue
			}
			before := 1 / (1/cov[i][i] - precision[i]) // variance without this answer
			middle := (mean[i]/cov[i][i] - shift[i]) * before
			p, s, log := edge(races[k].Legs, middle, before, own)
			set(i, p, s)
			value, variance := s/p, 1/p
			off := value - middle
			out[k] = site{value, variance, log + (math.Log(2*math.Pi*(before+variance))+off*off/(before+variance))/2}
		}
	}
	return out
}

// edge is the precision of an answer at an end of the scale, its place times that, and
// the logarithm of its likelihood, where legs before it were believed to be at middle.
func edge(legs int, middle, before, own float64) (precision, shift, log float64) {
	sign, border := 1.0, highestLegs-halfPoint
	if legs == lowestLegs {
		sign, border = -1, lowestLegs+halfPoint
	}
	wide := math.Sqrt(before + own)
	z := sign * (middle - border) / wide
	likely := math.Max(1e-300, math.Erfc(-z/math.Sqrt2)/2)
	ratio := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / likely
	mean := middle + sign*before*ratio/wide
	variance := before - before*before*ratio*(z+ratio)/(wide*wide)
	precision = math.Min(1/own, math.Max(leastPrecision, 1/variance-1/before))
	return precision, mean/variance - middle/before + mean*(precision-(1/variance-1/before)), math.Log(likely)
}

// expected are legs as the prior has them, mean and covariance over riders.
func (g *grid) expected(told []int, form [][]float64) (mean []float64, cov [][]float64) {
	b := &g.none.belief
	mean, cov = make([]float64, len(told)), make([][]float64, len(told))
	for i, k := range told {
		cov[i] = make([]float64, len(told))
		for j, v := range form[k] {
			mean[i] += b.weights[j] * b.size[j] * v
		}
	}
	for i, k := range told {
		for m := range i + 1 {
			sum, other := 0.0, form[told[m]]
			for j, v := range form[k] {
				sum += b.weights[j] * b.square[j] * v * other[j]
			}
			cov[i][m] = legsHabit2*legsHabit2 + legsSlope*legsSlope*(sum-mean[i]*mean[m])
			cov[m][i] = cov[i][m]
		}
	}
	for i := range mean {
		mean[i] = legsHabit + legsSlope*mean[i]
	}
	return mean, cov
}
