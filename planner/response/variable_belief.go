package response

import (
	"cmp"
	"math"
	"slices"
	"sync"
)

// DoseDraw is one plausible rider: a variable-dose model for loads in usual
// days with K1 of 1, P0 of 0 and a steady usual load; Share is the usual load
// against the one that suits the rider best, and Percent how many per cent of
// performance one unit of the model is worth.
type DoseDraw struct {
	Variable
	Share, Percent float64

	decay1, decay2, decay3 float64 // per day
	usual                  VariableState
}

// DoseBelief is what is known of a rider's variable-dose model: equally likely draws.
type DoseBelief []DoseDraw

// The prior. Centres are those of Busso2003, with a usual load that suits the
// rider best; spreads are log-normal, and so wide that the best step tapers of the draws
// resemble those of the six men of Thomas and Busso 2005, as near as spreads in round
// figures get: a cut of 32.9 +- 11.0 % for 18.5 +- 2.3 days (published 30.8 +- 11.8 %,
// 19.3 +- 2.3 d), and after 28 days at +20 % one of 40.6 +- 9.0 % for 27.0 +- 3.9 days
// (39.3 +- 9.9 %, 28.0 +- 5.1 d). Tau3 hardly changes that; its spread is a guess.
const (
	doseDraws = 64

	doseLogSpreadTau1  = 0.24
	doseLogSpreadTau2  = 0.12
	doseLogSpreadTau3  = 0.3
	doseLogSpreadShare = 0.03

	// The least that the best taper brings, as a share of what usual training
	// brings. A model with less to gain than that is no rider's of whom a gain is on record.
	leastDoseGain = 0.01
)

// DosePrior is what is believed of a rider of whom nothing is known. It is the
// same at each call, not to be changed, and drawn without chance like Prior.
var DosePrior = sync.OnceValue(newDosePrior)

func newDosePrior() DoseBelief {
	out := make(DoseBelief, 0, doseDraws)
	for i := 1; len(out) < doseDraws; i++ {
		u := evenPoint(i)
		d := newDoseDraw(Variable{
			Tau1: Busso2003.Tau1 * math.Exp(doseLogSpreadTau1*normal(u[0])),
			Tau2: Busso2003.Tau2 * math.Exp(doseLogSpreadTau2*normal(u[1])),
			Tau3: Busso2003.Tau3 * math.Exp(doseLogSpreadTau3*normal(u[2])),
			K1:   1,
		}, math.Exp(doseLogSpreadShare*normal(u[3])))
		if d.Percent = d.bestStep(); d.Percent >= leastDoseGain*d.SteadyGain(1) {
			out = append(out, d)
		}
	}
	// The models give the shape, the two published sizes of the linear prior the
	// size, halfway between them. Whose model has little to gain gains little: else too
	// deep a cut would cost them absurdly much.
	slices.SortStableFunc(out, func(a, b DoseDraw) int { return cmp.Compare(a.Percent, b.Percent) })
	for i := range out {
		byTaper, byTraining := rankedGain(i, doseDraws)/out[i].Percent, 100*trainedShare/(1+trainedShare)/out[i].SteadyGain(1)
		out[i].Percent = math.Sqrt(byTaper * byTraining)
	}
	return out
}

// newDoseDraw sets K3 so that a steady load of 1 is the share of the best one.
func newDoseDraw(m Variable, share float64) DoseDraw {
	m.K3 = 1
	m.K3 = m.OptimalLoad() * share
	return DoseDraw{
		Variable: m, Share: share, usual: m.Steady(1),
		decay1: math.Exp(-1 / m.Tau1), decay2: math.Exp(-1 / m.Tau2), decay3: math.Exp(-1 / m.Tau3),
	}
}

// bestStep is the most that an even cut of 20 to 80 % for one to four weeks
// brings over a steady load of 1, in units of the model.
func (d *DoseDraw) bestStep() float64 {
	best := math.Inf(-1)
	for load := 2; load <= 8; load++ {
		s := d.usual
		for day := 1; day <= 28; day++ {
			s = d.evening(s, float64(load)/10)
			if day%7 == 0 {
				best = max(best, d.Performance(d.morning(s)))
			}
		}
	}
	return best - d.SteadyGain(1)
}

// evening and morning are Evening and Morning with the decays at hand.
func (d *DoseDraw) evening(s VariableState, load float64) VariableState {
	s = d.morning(s)
	recent := s.Recent + load
	return VariableState{Fitness: s.Fitness + load, Fatigue: s.Fatigue + recent*load, Recent: recent}
}

func (d *DoseDraw) morning(s VariableState) VariableState {
	return VariableState{Fitness: s.Fitness * d.decay1, Fatigue: s.Fatigue * d.decay2, Recent: s.Recent * d.decay3}
}

// Gains writes over out, one value a draw, by how many per cent of performance
// the loads planned differ from those usual on the morning after their last day.
// Both are daily loads in usual days, 0 or more, oldest first, equally long; before them lie endless
// days of load 1. How much usual loads tire is set by Share for those given, so that
// a week of hard and easy days suits a rider as well as an even one.
func (b DoseBelief) Gains(out []float64, planned, usual []float64) {
	for i := range b {
		d := &b[i]
		u, p := d.usual, d.usual
		for k := range planned {
			u, p = d.evening(u, usual[k]), d.evening(p, planned[k])
		}
		u, p = d.morning(u), d.morning(p)
		tires := d.Share * u.Fitness / (2 * u.Fatigue)
		out[i] = d.Percent * (p.Fitness - u.Fitness - tires*(p.Fatigue-u.Fatigue))
	}
}
