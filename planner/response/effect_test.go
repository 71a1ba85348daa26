package response

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// ridden is a draw's performance on the morning of each day asked for, from a
// steady load of 1 through the loads of days from 0 on.
func ridden(m Linear, w []float64, days []int) []float64 {
	out := make([]float64, len(days))
	s := m.Steady(1)
	for n := 0; n <= len(w); n++ {
		for k, day := range days {
			if day == n {
				out[k] = m.Performance(m.Morning(s))
			}
		}
		if n < len(w) {
			s = m.Evening(s, w[n])
		}
	}
	return out
}

// Effect is the weighted difference of performance between two seasons ridden day
// by day, for races before, inside and after the days that change after the race.
func TestEffectIsDifferenceOfTwoSeasons(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1))
	b := Prior()
	const race, season = 40, 200
	for round := range 10 {
		own := rng.Float64()
		c := Change{Before: make([]float64, rng.IntN(29)), After: make([]float64, rng.IntN(15))}
		var later []Later
		for range round {
			later = append(later, Later{Days: 1 + rng.IntN(season-race), Weight: rng.Float64()})
		}
		if round == 1 || round > 3 {
			later[0].Days, c.After = 3, make([]float64, 8)
		}
		usual := loads(rng, season)
		changed := append([]float64(nil), usual...)
		for k := range c.Before {
			changed[race-1-k] = 3 * rng.Float64()
			c.Before[k] = changed[race-1-k] - usual[race-1-k]
		}
		for k := range c.After {
			changed[race+1+k] = 3 * rng.Float64()
			c.After[k] = changed[race+1+k] - usual[race+1+k]
		}
		days, weights := []int{race}, []float64{own}
		for _, l := range later {
			days, weights = append(days, race+l.Days), append(weights, l.Weight)
		}
		got := make([]float64, len(b))
		b.Effect(got, own, b.Reach(later), c)
		for i := range b {
			want := 0.0
			with, without := ridden(b[i].Linear, changed, days), ridden(b[i].Linear, usual, days)
			for k := range days {
				want += weights[k] * (with[k] - without[k])
			}
			near(t, fmt.Sprintf("round %d, draw %d", round, i), got[i], b[i].Percent*want, 1e-8)
		}
	}
}

// The order in which races to come are told changes nothing, and is left alone.
func TestReachTakesRacesInAnyOrder(t *testing.T) {
	b := Prior()
	later := []Later{{Days: 60, Weight: 1}, {Days: 5, Weight: 0.4}, {Days: 21, Weight: 0.1}}
	c := Change{Before: []float64{-0.5, -0.5, -0.2}, After: []float64{-1, -1, 0, 0, 0.5, 0.5, 0.5}}
	first, second := make([]float64, len(b)), make([]float64, len(b))
	b.Effect(first, 1, b.Reach(later), c)
	if later[0].Days != 60 || later[1].Days != 5 {
		t.Fatalf("races were put in order: %v", later)
	}
	later[0], later[2] = later[2], later[0]
	b.Effect(second, 1, b.Reach(later), c)
	for i := range first {
		near(t, fmt.Sprintf("draw %d", i), second[i], first[i], 1e-12)
	}
}

func TestEffectOfNoRaceToCome(t *testing.T) {
	b := Prior()
	c := Change{Before: []float64{-1, -1}, After: []float64{5, 5, 5}}
	got, own := make([]float64, len(b)), make([]float64, len(b))
	b.Effect(got, 2, Reach{}, c)
	b.Effect(own, 2, b.Reach(nil), Change{Before: c.Before})
	for i := range b {
		want := -2 * b[i].Percent * (b[i].Influence(1) + b[i].Influence(2))
		near(t, "zero Reach", got[i], want, 1e-12)
		near(t, "no races", own[i], want, 1e-12)
	}
}

// A curve is the mean over the draws of what one unit of load does, and nothing outside it.
func TestCurveIsMeanInfluence(t *testing.T) {
	b := Prior()
	curve := PriorCurve()
	for u := range curve {
		want := 0.0
		for i := range b {
			want += b[i].Percent * b[i].Influence(float64(u)) / float64(len(b))
		}
		near(t, fmt.Sprintf("%d days before", u), curve.At(u), want, 1e-12)
	}
	if len(curve) < 365 || curve.At(-1) != 0 || curve.At(len(curve)) != 0 {
		t.Errorf("a curve of %d days, %v a day after the race, %v past its end", len(curve), curve.At(-1), curve.At(len(curve)))
	}
}

// Mornings are the differences of performance between two seasons ridden day by day, on any mornings from the
// first on, two races on one day and the last morning after all changes among them.
func TestMorningsAreDifferencesOfTwoSeasons(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	b := Prior()
	for round, at := range [][]int{{0}, {1}, {60}, {0, 7, 7, 30, 60}, {59, 60}, {}, {3, 21, 40, 58}} {
		usual, changed := loads(rng, 60), loads(rng, 60)
		change, out := make([]float64, len(usual)), make([][]float64, len(at))
		for d := range change {
			if round == 3 && d%5 > 0 || round == 6 && d%25 > 1 {
				changed[d] = usual[d]
			}
			change[d] = changed[d] - usual[d]
		}
		for k := range out {
			out[k] = make([]float64, len(b))
			for j := range out[k] {
				out[k][j] = 1000 // to be written over
			}
		}
		b.Mornings(out, change, at)
		for j := range b {
			with, without := ridden(b[j].Linear, changed, at), ridden(b[j].Linear, usual, at)
			for k := range at {
				near(t, fmt.Sprintf("round %d, draw %d, day %d", round, j, at[k]), out[k][j], b[j].Percent*(with[k]-without[k]), 1e-8)
			}
		}
	}
}

func TestEffectAndGainsDoNotAllocate(t *testing.T) {
	b, d := Prior(), DosePrior()
	out, gains := make([]float64, len(b)), make([]float64, len(d))
	r := b.Reach([]Later{{Days: 28, Weight: 1}})
	c := Change{Before: make([]float64, 14), After: make([]float64, 3)}
	planned, usual := loads(rand.New(rand.NewPCG(7, 1)), 150), make([]float64, 150)
	if n := testing.AllocsPerRun(10, func() { b.Effect(out, 1, r, c); d.Gains(gains, planned, usual) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
