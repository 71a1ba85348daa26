package response

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"
)

// published reads one figure of testdata/published.json, which names its paper.
func published(t *testing.T, id string, into any) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/published.json")
	if err != nil {
		t.Fatal(err)
	}
	var all []struct {
		ID    string
		Value json.RawMessage
	}
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		if e.ID == id {
			if err := json.Unmarshal(e.Value, into); err != nil {
				t.Fatalf("%s: %v", id, err)
			}
			return
		}
	}
	t.Fatalf("no figure %s", id)
}

// near fails unless got is want to the tolerance; a NaN never is.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9f, want %.9f to %g", what, got, want, tolerance)
	}
}

// byDay turns the keys of a table of days into numbers, and refuses an empty one.
func byDay[T any](t *testing.T, id string) map[int]T {
	t.Helper()
	var table map[string]T
	published(t, id, &table)
	out := map[int]T{}
	for key, v := range table {
		day, err := strconv.Atoi(key)
		if err != nil {
			t.Fatal(err)
		}
		out[day] = v
	}
	if len(out) == 0 {
		t.Fatalf("%s: empty", id)
	}
	return out
}

// linearOf reads a parameter set of the linear model.
func linearOf(t *testing.T, id string) Linear {
	t.Helper()
	var p struct{ Tau1, Tau2, K1, K2, P0 float64 }
	published(t, id, &p)
	return Linear{Tau1: p.Tau1, Tau2: p.Tau2, K1: p.K1, K2: p.K2, P0: p.P0}
}

// Morton, Fitz-Clarke and Banister 1990 (parameters, from memory); Fitz-Clarke,
// Morton and Banister 1991: t_n about 16 days, t_g about 40; more digits follow from their formulas.
func TestClassicInfluence(t *testing.T) {
	if got := linearOf(t, "banister.params.morton"); got != Classic {
		t.Fatalf("Classic is %+v, published %+v", Classic, got)
	}
	var harmful, most float64
	published(t, "banister.tn", &harmful)
	published(t, "banister.tg", &most)
	near(t, "t_n", Classic.TurnsHarmful(), harmful, 1e-6)
	near(t, "t_g", Classic.HelpsMost(), most, 1e-6)
	for u, want := range byDay[float64](t, "banister.influence_table") {
		near(t, fmt.Sprintf("influence %d days before", u), Classic.Influence(float64(u)), want, 1e-9)
	}
	var day struct {
		Negative int `json:"negative_until"`
		Positive int `json:"positive_from"`
	}
	published(t, "banister.first_useful_day", &day)
	for u := range 365 {
		got := Classic.Influence(float64(u))
		if u <= day.Negative && got >= 0 || u >= day.Positive && got <= 0 {
			t.Errorf("influence %d days before is %v; published: harmful until %d, helpful from %d", u, got, day.Negative, day.Positive)
		}
	}
}

// Fitz-Clarke, Morton and Banister 1991: with two races to come the critical time
// before the first is shorter. Roots by formula, whole days by trying each.
func TestTwoRaces(t *testing.T) {
	for _, gap := range []float64{7, 14, 21, 28, 42} {
		var want struct {
			Root  float64
			First float64 `json:"first_positive_whole_day"`
		}
		published(t, fmt.Sprintf("influence.two_races.gap%.0f", gap), &want)
		got := Classic.TurnsHarmfulBeforeTwo(gap)
		near(t, fmt.Sprintf("root, gap %.0f", gap), got, want.Root, 1e-6)
		both := func(u float64) float64 { return Classic.Influence(u) + Classic.Influence(u+gap) }
		near(t, fmt.Sprintf("sum of influences at the root, gap %.0f", gap), both(got), 0, 1e-12)
		first := 1.0
		for both(first) <= 0 {
			first++
		}
		if first != want.First {
			t.Errorf("gap %.0f: helps from day %.0f on, want %.0f", gap, first, want.First)
		}
	}
}

// Morton et al. 1990, their recursions with today's load counted: 28 days of
// load 100, then rest; the steady state of load 1.
func TestClassicBuildUp(t *testing.T) {
	check := func(what string, s State, want [3]float64) {
		t.Helper()
		near(t, what+": fitness", s.Fitness, want[0], 1e-6)
		near(t, what+": fatigue", s.Fatigue, want[1], 1e-6)
		near(t, what+": performance", Classic.Performance(s), want[2], 1e-6)
	}
	up, rest := byDay[[3]float64](t, "banister.buildup"), byDay[[3]float64](t, "banister.rest_after_buildup")
	checked := 0
	var s State
	for day := 1; day <= 56; day++ {
		load, table, at := 100.0, up, day
		if day > 28 {
			load, table, at = 0, rest, day-28
		}
		s = Classic.Evening(s, load)
		if want, ok := table[at]; ok {
			check(fmt.Sprintf("day %d", day), s, want)
			checked++
		}
	}
	if checked != len(up)+len(rest) {
		t.Errorf("%d of %d rows checked", checked, len(up)+len(rest))
	}
	var steady struct{ Fitness, Fatigue, Performance float64 }
	published(t, "banister.steady_unit", &steady)
	s = Classic.Steady(1)
	near(t, "steady fitness", s.Fitness, steady.Fitness, 1e-8)
	near(t, "steady fatigue", s.Fatigue, steady.Fatigue, 1e-8)
	near(t, "steady performance", Classic.Performance(s), steady.Performance, 1e-8)
}

// Follows from Fitz-Clarke et al. 1991: the best rest from a steady state, by
// formula and by trying each day; and every size of cut is best for as long.
func TestBestRestFromSteadyState(t *testing.T) {
	var want struct {
		Days        int     `json:"whole_days"`
		Continuous  float64 `json:"continuous"`
		Performance float64 `json:"performance_per_unit"`
	}
	published(t, "banister.best_rest_from_steady", &want)
	near(t, "best rest", Classic.BestRest(Classic.Steady(1)), want.Continuous, 1e-6)
	for _, load := range []float64{0, 0.2, 0.5, 0.8, 0.99} {
		s := Classic.Steady(1)
		best, days := math.Inf(-1), 0
		for day := 1; day <= 60; day++ {
			s = Classic.Evening(s, load)
			if p := Classic.Performance(s); p > best {
				best, days = p, day
			}
		}
		if days != want.Days {
			t.Errorf("load %v: best after %d days, want %d", load, days, want.Days)
		}
		if load == 0 {
			near(t, "performance after rest", best, want.Performance, 1e-6)
		}
	}
	if got := Classic.BestRest(State{Fitness: 1, Fatigue: 0.1}); got != 0 {
		t.Errorf("rest of the fresh: got %v days, want 0", got)
	}
}

// Busso, Candau and Lacour 1994, a hammer thrower, only earlier days counted; Clarke
// and Skiba 2013, a cyclist. t_n and t_g follow from their parameters.
func TestOtherFits(t *testing.T) {
	thrower := linearOf(t, "busso94.params")
	for id, m := range map[string]Linear{"busso94": thrower, "clarke13": linearOf(t, "clarke13.params")} {
		var want struct{ Tn, Tg float64 }
		published(t, id+".tn_tg", &want)
		near(t, id+": t_n", m.TurnsHarmful(), want.Tn, 1e-6)
		near(t, id+": t_g", m.HelpsMost(), want.Tg, 1e-6)
	}
	var steady float64
	published(t, "busso94.steady_w30", &steady)
	near(t, "steady load 30", thrower.Performance(thrower.Morning(thrower.Steady(30))), steady, 1e-6)

	table := byDay[float64](t, "busso94.burst")
	checked, peak, peakDay := 0, math.Inf(-1), 0
	var s State
	for day := 1; day <= 120; day++ {
		p := thrower.Performance(thrower.Morning(s))
		if want, ok := table[day]; ok {
			near(t, fmt.Sprintf("burst, day %d", day), p, want, 1e-6)
			checked++
		}
		if p > peak {
			peak, peakDay = p, day
		}
		load := 30.0
		if day > 28 {
			load = 0
		}
		s = thrower.Evening(s, load)
	}
	if checked != len(table) || peakDay != 65 {
		t.Errorf("%d of %d rows checked; peak on day %d, want 65", checked, len(table), peakDay)
	}
}
