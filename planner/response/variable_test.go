package response

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// directVariable is the gain over P0 as published, sums over earlier days
// only, on the morning of day n; written apart from the recursions.
func directVariable(m Variable, w []float64, n int) float64 {
	total := 0.0
	for i := 0; i < n; i++ {
		k2 := 0.0
		for j := 0; j <= i; j++ {
			k2 += m.K3 * w[j] * math.Exp(-float64(i-j)/m.Tau3)
		}
		total += m.K1*w[i]*math.Exp(-float64(n-i)/m.Tau1) - k2*w[i]*math.Exp(-float64(n-i)/m.Tau2)
	}
	return total
}

func TestVariableRecursionsAreSums(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	for range 10 {
		m := Variable{Tau1: 20 + 30*rng.Float64(), Tau2: 5 + 20*rng.Float64(), Tau3: 0.5 + 5*rng.Float64(), K1: rng.Float64(), K3: 0.1 * rng.Float64(), P0: 100 * rng.Float64()}
		w := loads(rng, 80)
		var s VariableState
		for n, load := range w {
			near(t, fmt.Sprintf("%+v, morning of day %d", m, n), m.Performance(m.Morning(s)), m.P0+directVariable(m, w, n), 1e-8)
			s = m.Evening(s, load)
		}
	}
}

// Busso 2003: the mean parameters, and what the published equations give for
// seven days of loads. Day 1 of the table is day 0 here.
func TestBussoVector(t *testing.T) {
	var p struct{ Tau1, Tau2, Tau3, K1, K3 float64 }
	published(t, "busso03.params", &p)
	if got := (Variable{Tau1: p.Tau1, Tau2: p.Tau2, Tau3: p.Tau3, K1: p.K1, K3: p.K3}); got != Busso2003 {
		t.Fatalf("Busso2003 is %+v, published %+v", Busso2003, got)
	}
	table := byDay[float64](t, "busso03.vector")
	w := []float64{100, 0, 200, 0, 0, 150, 0, 0, 0}
	var s VariableState
	for i, load := range w {
		want, ok := table[i+1]
		if !ok {
			t.Fatalf("no day %d", i+1)
		}
		near(t, fmt.Sprintf("day %d", i+1), Busso2003.Performance(Busso2003.Morning(s)), want, 1e-8)
		s = Busso2003.Evening(s, load)
	}
	if len(table) != len(w) {
		t.Errorf("%d of %d days checked", len(w), len(table))
	}
}

// Busso 2003: the best steady load of the mean parameters and its gain, by
// formula, and by riding loads for years.
func TestBussoOptimalLoad(t *testing.T) {
	var load, gain float64
	published(t, "busso03.optimal_daily_load", &load)
	published(t, "busso03.steady_gain_at_optimum", &gain)
	near(t, "optimal load", Busso2003.OptimalLoad(), load, 1e-6)
	near(t, "gain", Busso2003.SteadyGain(load), gain, 1e-6)
	for _, share := range []float64{0.5, 0.95, 1, 1.05, 2} {
		var s VariableState
		for range 1000 {
			s = Busso2003.Evening(s, share*load)
		}
		got := Busso2003.Performance(Busso2003.Morning(s))
		near(t, fmt.Sprintf("gain of %v of the load", share), got, gain*share*(2-share), 1e-6)
		near(t, "closed form", Busso2003.SteadyGain(share*load), got, 1e-6)
		steady := Busso2003.Steady(share * load)
		near(t, "steady fitness", steady.Fitness, s.Fitness, 1e-6)
		near(t, "steady recent load", steady.Recent, s.Recent, 1e-6)
		near(t, "steady fatigue", steady.Fatigue/s.Fatigue, 1, 1e-9)
	}
}

const longestTaper = 60 // days that the searches try

// tapered is the best taper that a search found: its cut, as a share of the load before.
type tapered struct {
	cut  float64
	days int
	gain float64
}

// bestStep tries every even cut in steps of `step` for every number of days; a
// cut for n days is the start of one for n+1.
func bestStep(m Variable, from VariableState, base, step float64) tapered {
	best := tapered{gain: math.Inf(-1)}
	for k := 0; float64(k)*step <= 1; k++ {
		cut := float64(k) * step
		s := from
		for day := 1; day <= longestTaper; day++ {
			s = m.Evening(s, base*(1-cut))
			if gain := m.Performance(m.Morning(s)); gain > best.gain {
				best = tapered{cut, day, gain}
			}
		}
	}
	return best
}

// bestLinear tries loads that fall evenly, to 1-cut of the base on the last day.
func bestLinear(m Variable, from VariableState, base, step float64) tapered {
	best := tapered{gain: math.Inf(-1)}
	for k := 0; float64(k)*step <= 1; k++ {
		cut := float64(k) * step
		for days := 1; days <= longestTaper; days++ {
			s := from
			for day := 1; day <= days; day++ {
				s = m.Evening(s, base*(1-cut*float64(day)/float64(days)))
			}
			if gain := m.Performance(m.Morning(s)); gain > best.gain {
				best = tapered{cut, days, gain}
			}
		}
	}
	return best
}

// overload is the state after 28 days at 1.2 times a load that was ridden for
// ever before, and that load: the block of Thomas and Busso 2005.
func overload(m Variable, load float64) (VariableState, float64) {
	s := m.Steady(load)
	for range 28 {
		s = m.Evening(s, 1.2*load)
	}
	return s, 1.2 * load
}

// Thomas and Busso 2005: the best step taper of the mean parameters without
// overload and after it, to the digits of our replica of their search, and within their mean +- SD
// over riders. Their cuts are of the load just before the taper.
func TestBestStepTapers(t *testing.T) {
	normal := Busso2003.OptimalLoad()
	block, high := overload(Busso2003, normal)
	for id, from := range map[string]struct {
		state VariableState
		load  float64
	}{"no_overload": {Busso2003.Steady(normal), normal}, "overload": {block, high}} {
		var want struct {
			Cut  float64 `json:"reduction_percent"`
			Days int     `json:"duration_days"`
			Gain float64
		}
		var over struct {
			Cut  [2]float64 `json:"reduction_percent"`
			Days [2]float64 `json:"duration_days"`
		}
		published(t, "tb05.replica."+id, &want)
		published(t, "tb05."+id, &over)
		got := bestStep(Busso2003, from.state, from.load, 0.001)
		near(t, id+": cut", 100*got.cut, want.Cut, 1e-9)
		near(t, id+": gain", got.gain, want.Gain, 1e-4)
		if got.days != want.Days {
			t.Errorf("%s: %d days, want %d", id, got.days, want.Days)
		}
		near(t, id+": cut, over riders", 100*got.cut, over.Cut[0], over.Cut[1])
		near(t, id+": days, over riders", float64(got.days), over.Days[0], over.Days[1])
	}
}

// Thomas and Busso 2005: a progressive taper beats a step only after overload.
func TestProgressiveTaperHelpsAfterOverloadOnly(t *testing.T) {
	var over struct{ Progressive, Step [2]float64 }
	published(t, "tb05.progressive", &over)
	type pair struct{ Linear, Step float64 }
	var want struct {
		Without pair `json:"no_overload"`
		After   pair `json:"overload"`
	}
	published(t, "tb05.replica.progressive", &want)
	normal := Busso2003.OptimalLoad()
	block, high := overload(Busso2003, normal)
	without := pair{bestLinear(Busso2003, Busso2003.Steady(normal), normal, 0.01).gain, bestStep(Busso2003, Busso2003.Steady(normal), normal, 0.01).gain}
	after := pair{bestLinear(Busso2003, block, high, 0.01).gain, bestStep(Busso2003, block, high, 0.01).gain}
	near(t, "without overload, linear", without.Linear, want.Without.Linear, 0.02)
	near(t, "without overload, step", without.Step, want.Without.Step, 0.02)
	near(t, "after overload, linear", after.Linear, want.After.Linear, 0.02)
	near(t, "after overload, step", after.Step, want.After.Step, 0.02)
	if without.Linear >= without.Step {
		t.Errorf("without overload a linear taper brings %v, a step %v", without.Linear, without.Step)
	}
	if over.Progressive[0] <= over.Step[0] || after.Linear <= after.Step {
		t.Errorf("after overload a linear taper brings %v, a step %v; published %v, %v", after.Linear, after.Step, over.Progressive[0], over.Step[0])
	}
}

// Thomas, Mujika and Busso 2009 (from memory): riding 10 % more in the last three days of
// the best taper is worth next to nothing. How their cut was rounded, and so the second
// digit of the change, is not known.
func TestMoreInTheLastDaysIsWorthNothing(t *testing.T) {
	var want struct {
		Without float64 `json:"no_overload"`
		After   float64 `json:"overload"`
	}
	published(t, "thomas09.final_days.replica", &want)
	normal := Busso2003.OptimalLoad()
	block, high := overload(Busso2003, normal)
	more := func(s VariableState, load float64) float64 {
		best := bestStep(Busso2003, s, load, 0.001)
		for day := 1; day <= best.days; day++ {
			w := load * (1 - best.cut)
			if day > best.days-3 {
				w *= 1.1
			}
			s = Busso2003.Evening(s, w)
		}
		change := Busso2003.Performance(Busso2003.Morning(s)) - best.gain
		near(t, "share of the gain", change/best.gain, 0, 0.001)
		return change
	}
	near(t, "without overload", more(Busso2003.Steady(normal), normal), want.Without, 0.015)
	near(t, "after overload", more(block, high), want.After, 0.015)
}

// By the model of Busso 2003: half the normal load for a week after
// overload is too short; steady training would have served better.
func TestShortTaperAfterOverloadLoses(t *testing.T) {
	normal := Busso2003.OptimalLoad()
	s, _ := overload(Busso2003, normal)
	for range 7 {
		s = Busso2003.Evening(s, normal/2)
	}
	got := Busso2003.Performance(Busso2003.Morning(s))
	near(t, "half for a week", got, 134.11, 0.005)
	if steady := Busso2003.SteadyGain(normal); got >= steady {
		t.Errorf("half for a week after overload brings %v, steady training %v", got, steady)
	}
}
