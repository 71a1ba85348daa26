package season

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// worth is what a race counts in a sum, by priority (our choice).
var worth = map[planner.Priority]float64{planner.PriorityA: 1, planner.PriorityB: 0.4, planner.PriorityC: 0.1}

// sumOver is by how many per cent the sum over all races from a date on differs between two plans, each race by its
// weight: all days act on it by their age. One value a draw.
func sumOver(f *planner.Facts, p, than *engine.Plan, first planner.Date, unit float64) []float64 {
	out := make([]float64, len(response.Prior()))
	for _, r := range f.Races {
		for j, v := range onRace(f, p, than, first, unit, r.Date) {
			out[j] += worth[r.Priority] * v
		}
	}
	return out
}

// onRace is the same for one race.
func onRace(f *planner.Facts, p, than *engine.Plan, first planner.Date, unit float64, race planner.Date) []float64 {
	out := make([]float64, len(response.Prior()))
	for d := first; d < race; d++ {
		load := (lived(f, p.Known(d)) - lived(f, than.Known(d))) / unit
		if load == 0 {
			continue
		}
		for j, draw := range response.Prior() {
			out[j] += load * influence(draw, d.DaysUntil(race))
		}
	}
	return out
}

// scattered are up to so many races on different days of a rider.
func scattered(t *testing.T, r *rand.Rand, most int) *planner.Facts {
	t.Helper()
	f := facts(t, oneOf(r, mixedWeek, evenWeek))
	day := 60
	for range 1 + r.IntN(most) {
		race := raceOn(day, oneOf(r, planner.PriorityA, planner.PriorityA, planner.PriorityB, planner.PriorityC))
		race.Hours = oneOf(r, 1, 1.5, 3, 3.5, 6, 9)
		if r.IntN(6) == 0 {
			race.Days = 2 + r.IntN(4)
		}
		if r.IntN(6) == 0 {
			race.Registered = race.Date.AddDays(-r.IntN(20))
		}
		f.Races = append(f.Races, race)
		day += race.Days + 1 + oneOf(r, r.IntN(5), r.IntN(30), 10+r.IntN(30), 30+r.IntN(60))
	}
	r.Shuffle(len(f.Races), func(i, j int) { f.Races[i], f.Races[j] = f.Races[j], f.Races[i] })
	return f
}

// roomBefore is how many days a taper may have: none before the race was entered, none on a day of an earlier A race.
func roomBefore(f *planner.Facts, race *planner.Race) int {
	room := race.Registered.DaysUntil(race.Date)
	for _, other := range f.Races {
		if other.Priority == planner.PriorityA && other.Date < race.Date {
			room = min(room, other.Last().DaysUntil(race.Date)-1)
		}
	}
	return room
}

// Runners-up are the other lengths among the table's, 7, 10, 14 and 21 days that fit, the nearest first; each is behind by
// what the days bring that a rider would have who told that length, over this race and all later ones.
func TestRunnersUpAreWeighed(t *testing.T) {
	weighed := 0
	for i := range rounds.Of(60) {
		f := scattered(t, rand.New(rand.NewPCG(uint64(i), 43)), 5)
		p := engine.Derive(firstDay, f)
		for k := range p.Tapers {
			taper := &p.Tapers[k]
			got := RunnersUp(p, f, taper)
			var want []int
			for _, n := range []int{7, 10, 14, 21} {
				if n != taper.Days && n <= roomBefore(f, taper.Race) {
					want = append(want, n)
				}
			}
			if taper.Length != planner.LengthTable && taper.Length != planner.LengthClose {
				want = nil
			}
			var lengths []int
			for _, up := range got {
				lengths = append(lengths, up.Days)
				told := *f
				told.Races = slices.Clone(f.Races)
				for j := range told.Races {
					if told.Races[j].Name == taper.Race.Name {
						told.Races[j].TaperDays = up.Days
					}
				}
				weighed++
				more := sumOver(f, p, engine.Derive(firstDay, &told), taper.Race.Date-29, unitOf(f, taper.Race.Date))
				nearRange(t, fmt.Sprintf("seed %d: %d days behind %d", i, up.Days, taper.Days), up.Behind, quantiles(more), 1e-9)
			}
			if !slices.IsSortedFunc(got, func(a, b RunnerUp) int {
				if a.Behind.Mid < b.Behind.Mid {
					return -1
				}
				return 1
			}) {
				t.Errorf("seed %d: %+v", i, got)
			}
			if slices.Sort(lengths); !slices.Equal(lengths, want) {
				t.Errorf("seed %d: %s of %d days has the runners-up %v, want %v", i, taper.Race.Name, taper.Days, lengths, want)
			}
		}
	}
	if weighed < rounds.Of(100) {
		t.Errorf("only %d lengths were weighed", weighed)
	}
}

// Where the rider, a late registration or a block decided there are none.
func TestNoRunnersUpWithoutAChoice(t *testing.T) {
	for name, change := range map[string]func(f *planner.Facts){
		"told":       func(f *planner.Facts) { f.Taper.Days = 10 },
		"told of it": func(f *planner.Facts) { f.Races[0].TaperDays = 10 },
		"late":       func(f *planner.Facts) { f.Races[0].Registered = f.Races[0].Date - 5 },
		"block": func(f *planner.Facts) {
			f.Blocks = []planner.Block{{From: f.Races[0].Date - 35, To: f.Races[0].Date - 16, Percent: 20}}
		},
	} {
		f := facts(t, mixedWeek, raceOn(100, planner.PriorityA))
		change(f)
		p := engine.Derive(firstDay, f)
		if got := RunnersUp(p, f, &p.Tapers[0]); got != nil {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Runners-up are the same on every day until the race.
func TestRunnersUpStayAsTodayMoves(t *testing.T) {
	f := facts(t, mixedWeek, raceOn(80, planner.PriorityA), raceOn(94, planner.PriorityB), raceOn(140, planner.PriorityA), raceOn(148, planner.PriorityC), raceOn(210, planner.PriorityA))
	for _, race := range f.Races {
		first := engine.Derive(firstDay, f)
		taper := taperOf(first, race.Name)
		if taper == nil {
			continue
		}
		want := RunnersUp(first, f, taper)
		if len(want) == 0 {
			t.Fatalf("%s has no runners-up", race.Name)
		}
		for _, left := range []int{50, 28, 20, 14, 8, 1, 0} {
			p := engine.Derive(race.Date.AddDays(-left), f)
			got := RunnersUp(p, f, taperOf(p, race.Name))
			for k := range got {
				nearRange(t, fmt.Sprintf("%s on D-%d", race.Name, left), got[k].Behind, want[k].Behind, 1e-9)
			}
			if len(got) != len(want) {
				t.Errorf("%s on D-%d: %+v, before %+v", race.Name, left, got, want)
			}
		}
	}
}

// Comparing changes no facts.
func TestFactsStayAsTheyAre(t *testing.T) {
	for name, change := range happenings(t) {
		var both [2]*planner.Facts
		for k := range both {
			both[k] = facts(t, mixedWeek, raceOn(200, planner.PriorityA), raceOn(215, planner.PriorityA))
			change(both[k])
		}
		f := both[0]
		for _, back := range []int{150, 195} {
			today := firstDay.AddDays(back)
			if back == 195 && f.Taper.Days > 14 {
				continue // see TestEngineShortensAnOpenTaper
			}
			p := engine.Derive(today, f)
			o, _ := NewOptions(today, f, &f.Races[0])
			check := NewCheck(today, f)
			ups := RunnersUp(p, f, taperOf(p, "Race 200"))
			if !reflect.DeepEqual(f, both[1]) {
				t.Fatalf("%s: facts were changed", name)
			}
			o2, _ := NewOptions(today, f, &f.Races[0])
			if !reflect.DeepEqual(o, o2) || !reflect.DeepEqual(check, NewCheck(today, f)) || !reflect.DeepEqual(ups, RunnersUp(p, f, taperOf(p, "Race 200"))) {
				t.Errorf("%s: another answer the second time", name)
			}
		}
	}
}
