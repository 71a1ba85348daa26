package response

import (
	"math"
	"sync"
)

// Draw is one plausible rider: a linear model for loads in usual days with K1
// of 1, and how many per cent of performance one unit of it is worth.
type Draw struct {
	Linear
	Percent float64

	decay1, decay2 float64 // per day
}

// Belief is what is known of a rider's linear model: equally likely draws.
type Belief []Draw

// The prior. Centres are those of Classic; the spread of the time constants and
// of t_n is that of Hellard et al. 2006 (95 % intervals over swimmers: 17-59,
// 6-32 and 7-35 days), taken as log-normal. Two published sizes must come out
// together: the gain of a well-chosen taper, about 3 %, usually 0.5 to 6.0 %
// (Mujika and Padilla 2003), taken as normal; and what usual training is worth
// in all, 30 % (Busso 2003: +30 +- 7 % in 15 weeks), spread wider here because riders
// have trained for longer (our choice).
const (
	draws      = 128
	fineShapes = 16384
	fineSizes  = 4   // of gains, and as many of shares of usual training
	fineFree   = 0.5 // of a shape's weight, on sizes that need not agree with what usual training is worth (our choice)
	fineWider  = 1.5 // times the spread of t_n that shapes have, so that some lie far out

	logSpreadTau1    = 0.317 // ln(59/17) / (2 x 1.96)
	logSpreadTau2    = 0.427 // ln(32/6) / (2 x 1.96)
	logSpreadHarmful = 0.411 // ln(35/7) / (2 x 1.96)

	gainMean, gainSpread = 3.0, 1.4 // per cent
	gainLeast, gainMost  = 0.5, 6.0

	trainedShare, logSpreadTrained = 0.30, 0.3
	logAgreement                   = 0.3 // how far apart the two sizes may leave a unit's worth

	leastTauRatio = 1.3 // nearer time constants cannot be told apart
	halfCut       = 0.5 // the cut that published gains belong to
)

// Prior is what is believed of a rider of whom nothing is known. It is the same
// at each call, not to be changed, and drawn without chance: points of an even sequence.
var Prior = sync.OnceValue(newPrior)

func newPrior() Belief {
	out := make(Belief, 0, draws)
	for i := 1; len(out) < draws; i++ {
		u := evenPoint(i)
		draw, ok := shape(u, normal(u[2]))
		if !ok {
			continue
		}
		if draw.Percent, ok = draw.worth(draw.bestHalf(), u[3], u[4]); ok {
			out = append(out, draw)
		}
	}
	return out
}

// Fine is the same prior laid out finely, to be weighed by what a rider's races say of it.
var Fine = sync.OnceValue(newFine)

// Grid is draws whose Percent is 1, and for each the sizes that it may have. Weights are
// 1 all together.
type Grid struct {
	Shapes Belief
	Sizes  [][]Size
}

// Size is how many per cent a unit of load may be worth, and how likely that is.
type Size struct{ Percent, Weight float64 }

func newFine() Grid {
	var g Grid
	total := 0.0
	for i := 1; len(g.Shapes) < fineShapes; i++ {
		u := evenPoint(i)
		z := fineWider * normal(u[2])
		draw, ok := shape(u, z)
		if !ok {
			continue
		}
		sizes, mass := draw.sizes(u[3], u[4], math.Exp((z*z/(fineWider*fineWider)-z*z)/2))
		if len(sizes) == 0 {
			continue
		}
		draw.Percent = 1
		g.Shapes, g.Sizes = append(g.Shapes, draw), append(g.Sizes, sizes)
		total += mass
	}
	for _, sizes := range g.Sizes {
		for k := range sizes {
			sizes[k].Weight /= total
		}
	}
	return g
}

// sizes are those that a shape may have, and their weight in all, none where the two published
// sizes never agree. That both must agree ties the size to the day t_n, by as much as usual
// training is taken to be worth. Nobody has measured this, so a share of the weight goes to sizes
// that need the gain of a taper alone.
func (d *Draw) sizes(gainAt, shareAt, weight float64) (out []Size, mass float64) {
	best := d.bestHalf()
	for j := range fineSizes * fineSizes {
		gain, share := float64(j/fineSizes)+gainAt, float64(j%fineSizes)+shareAt
		if size, ok := d.worth(best, gain/fineSizes, share/fineSizes); ok {
			out = append(out, Size{size, weight * (1 - fineFree)})
		}
	}
	if len(out) == 0 {
		return nil, 0
	}
	mass = weight * float64(len(out))
	for j := range fineSizes {
		out = append(out, Size{publishedGain((float64(j)+gainAt)/fineSizes) / best, mass * fineFree / fineSizes})
	}
	return out, mass
}

// shape is the rider of a point of the unit cube, of no size yet, whose day t_n lies z
// SDs off; false for one who does not count in.
func shape(u [5]float64, z float64) (Draw, bool) {
	m := Linear{Tau1: Classic.Tau1 * math.Exp(logSpreadTau1*normal(u[0])), Tau2: Classic.Tau2 * math.Exp(logSpreadTau2*normal(u[1])), K1: 1}
	if m.Tau1 < leastTauRatio*m.Tau2 {
		return Draw{}, false
	}
	m.K2 = math.Exp(Classic.TurnsHarmful() * math.Exp(logSpreadHarmful*z) / m.span())
	return Draw{Linear: m, decay1: math.Exp(-1 / m.Tau1), decay2: math.Exp(-1 / m.Tau2)}, true
}

// worth is how many per cent a unit is, of quantiles of the two published sizes,
// false where these do not agree. best is what the best taper brings.
func (d *Draw) worth(best, gainQuantile, shareQuantile float64) (float64, bool) {
	trained := d.Performance(d.Morning(d.Steady(1)))
	if trained <= 0 {
		return 0, false
	}
	share := trainedShare * math.Exp(logSpreadTrained*normal(shareQuantile))
	byTaper, byTraining := publishedGain(gainQuantile)/best, 100*share/(1+share)/trained
	return math.Sqrt(byTaper * byTraining), math.Abs(math.Log(byTaper/byTraining)) <= logAgreement
}

// Curve is an influence averaged over draws, in per cent of performance a unit of
// load: Curve[u] belongs to a load u whole days before the race.
type Curve []float64

// At is the influence u days before the race, 0 beyond the curve's end.
func (c Curve) At(u int) float64 {
	if u < 0 || u >= len(c) {
		return 0
	}
	return c[u]
}

// Horizon is after how many days a load is taken to have no influence any more:
// ten time constants of the fitness of Classic.
const Horizon = 10 * 45

// Curve averages the influence over the draws.
func (b Belief) Curve() Curve {
	out := make(Curve, Horizon)
	share := 1 / float64(len(b))
	for i := range b {
		d := &b[i]
		g, h := share*d.Percent*d.K1, share*d.Percent*d.K2
		for u := range out {
			out[u] += g - h
			g, h = g*d.decay1, h*d.decay2
		}
	}
	return out
}

// PriorCurve is the curve of Prior, not to be changed.
var PriorCurve = sync.OnceValue(func() Curve { return Prior().Curve() })

// bestHalf is the most that an even cut by half brings on race morning: one
// that takes in every whole day on which load harms, the last one at least.
func (m Linear) bestHalf() float64 {
	total := -m.Influence(1)
	for u := 2.0; u <= m.TurnsHarmful(); u++ {
		total -= m.Influence(u)
	}
	return halfCut * total
}

// rankedGain is the gain of a well-chosen taper, in per cent, that belongs to the
// i-th of n riders when those who gain least come first.
func rankedGain(i, n int) float64 { return publishedGain((float64(i) + 0.5) / float64(n)) }

// publishedGain is a quantile of what a well-chosen taper brings, in per cent.
func publishedGain(p float64) float64 {
	return min(gainMost, max(gainLeast, gainMean+gainSpread*normal(p)))
}

// evenPoint is the i-th point of Roberts' additive sequence in five dimensions,
// which fills the unit cube evenly; no coordinate is 0 or 1.
func evenPoint(i int) (u [5]float64) {
	const ratio = 1.1347241384015194 // the root of x^6 = x + 1
	step := 1.0
	for k := range u {
		step /= ratio
		_, u[k] = math.Modf(0.5 + float64(i)*step)
	}
	return u
}
