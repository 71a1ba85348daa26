package response

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// loads are random ones in usual days, some of them rest.
func loads(rng *rand.Rand, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		if rng.IntN(4) > 0 {
			out[i] = 3 * rng.Float64()
		}
	}
	return out
}

// randomLinear is a model with all its constants drawn, Tau1 > Tau2 and K2 > K1.
func randomLinear(rng *rand.Rand) Linear {
	tau2, k1 := 3+30*rng.Float64(), 0.1+rng.Float64()
	return Linear{Tau1: tau2 * (1.2 + 3*rng.Float64()), Tau2: tau2, K1: k1, K2: k1 * (1.1 + 3*rng.Float64()), P0: 500 * rng.Float64()}
}

// directLinear is the model as published, a sum over the days before race day n; written apart from the recursions.
func directLinear(m Linear, w []float64, n int) float64 {
	p := m.P0
	for i := 0; i < n; i++ {
		age := float64(n - i)
		p += w[i] * (m.K1*math.Exp(-age/m.Tau1) - m.K2*math.Exp(-age/m.Tau2))
	}
	return p
}

func TestLinearRecursionsAreSums(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		m, w := randomLinear(rng), loads(rng, 200)
		var s State
		for n, load := range w {
			near(t, fmt.Sprintf("%+v, morning of day %d", m, n), m.Performance(m.Morning(s)), directLinear(m, w, n), 1e-8)
			s = m.Evening(s, load)
		}
	}
}

// Loads add up: what two series bring together is what each brings, and a day
// brings its influence.
func TestLinearIsLinear(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	for range 20 {
		m := randomLinear(rng)
		m.P0 = 0
		a, b := loads(rng, 120), loads(rng, 120)
		x, y := rng.Float64(), rng.Float64()
		var sa, sb, both State
		influence := 0.0
		for i := range a {
			sa, sb, both = m.Evening(sa, a[i]), m.Evening(sb, b[i]), m.Evening(both, x*a[i]+y*b[i])
			influence += a[i] * m.Influence(float64(len(a)-i))
		}
		near(t, "sum of two series", m.Performance(both), x*m.Performance(sa)+y*m.Performance(sb), 1e-9)
		near(t, "sum of influences", m.Performance(m.Morning(sa)), influence, 1e-9)
	}
}

func TestLinearSteadyStateStays(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 20 {
		m := randomLinear(rng)
		before := m.Steady(1.3)
		after := m.Evening(before, 1.3)
		near(t, "steady fitness", after.Fitness, before.Fitness, 1e-9)
		near(t, "steady fatigue", after.Fatigue, before.Fatigue, 1e-9)
		s := State{}
		for range 3000 {
			s = m.Evening(s, 1.3)
		}
		near(t, "fitness after 3000 days", s.Fitness, before.Fitness, 1e-6)
	}
}

// The closed forms are where a fine search finds the sign change and the tops.
func TestLinearClosedForms(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	for range 20 {
		m := randomLinear(rng)
		s := State{Fitness: 20 + 20*rng.Float64(), Fatigue: 20 * rng.Float64()}
		const step = 0.01
		turns, most, rest := 0.0, 0.0, 0.0
		top, high := math.Inf(-1), math.Inf(-1)
		for u := 0.0; u < 400; u += step {
			if m.Influence(u) < 0 {
				turns = u
			}
			if v := m.Influence(u); v > top {
				top, most = v, u
			}
			left := State{Fitness: s.Fitness * math.Exp(-u/m.Tau1), Fatigue: s.Fatigue * math.Exp(-u/m.Tau2)}
			if v := m.Performance(left); v > high {
				high, rest = v, u
			}
		}
		near(t, fmt.Sprintf("%+v: turns harmful", m), m.TurnsHarmful(), turns, 2*step)
		near(t, fmt.Sprintf("%+v: helps most", m), m.HelpsMost(), most, 2*step)
		near(t, fmt.Sprintf("%+v, %+v: best rest", m, s), m.BestRest(s), rest, 2*step)
	}
}

// FuzzRecursions: no loads of 0 to 50 usual days make a state or a gain that is
// negative, infinite or no number.
func FuzzRecursions(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{0, 0, 0, 255, 255, 0})
	f.Add([]byte{5, 5, 5, 5, 5, 7, 0, 9, 1})
	f.Fuzz(func(t *testing.T, data []byte) {
		w := make([]float64, min(len(data), 500))
		var s State
		var v VariableState
		usual := make([]float64, len(w))
		for i := range w {
			w[i], usual[i] = float64(data[i])*50/255, 1
			s, v = Classic.Evening(s, w[i]), Busso2003.Evening(v, w[i])
		}
		for what, x := range map[string]float64{"fitness": s.Fitness, "fatigue": s.Fatigue, "dose fitness": v.Fitness, "dose fatigue": v.Fatigue, "recent": v.Recent} {
			if !(x >= 0) || x > 1e9 {
				t.Errorf("%v: %s is %v", w, what, x)
			}
		}
		gains := make([]float64, doseDraws)
		DosePrior().Gains(gains, w, usual)
		effect := make([]float64, draws)
		b := Prior()
		b.Effect(effect, 1, b.Reach([]Later{{Days: 9, Weight: 1}}), Change{Before: w, After: w})
		for _, x := range append(gains, effect...) {
			if math.IsNaN(x) || math.Abs(x) > 1e12 {
				t.Errorf("%v: a gain of %v", w, x)
			}
		}
	})
}
