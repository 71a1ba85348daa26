package season

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
)

// Steps of the tests of order; .ci/long does more.
var steps = flag.Int("steps", rounds.Of(500), "how many random weeks the tests of order try")

const shown = 3 // failing inputs of each kind

// seen is what the tests of order compare of a taper.
type seen struct {
	days, hard  int
	load, month float64 // of the window, of D-28 to D-1
	Expected
	text string
}

func see(f *planner.Facts) seen {
	race := f.Races[0].Date
	p := engine.Derive(race-30, f)
	taper := &p.Tapers[0]
	v := seen{days: taper.Days, Expected: *Expect(p, f, taper)}
	for d := race - 28; d < race; d++ {
		day, _ := p.Day(d)
		load := loadOf(day.Sessions)
		v.month += load
		if d < taper.From {
			continue
		}
		v.load += load
		if day.IsHard() {
			v.hard++
		}
		for _, s := range day.Sessions {
			v.text += fmt.Sprintf("D-%d %s; ", d.DaysUntil(race), s.Label())
		}
	}
	return v
}

func (v seen) String() string {
	return fmt.Sprintf("%d days, %d hard, load %.0f, D-28 to D-1 %.0f, kept %.5f, gain %.3f: %s", v.days, v.hard, v.load, v.month, v.Kept, v.Gain.Mid, v.text)
}

// faults counts what fails and reports the first inputs.
type faults struct {
	t *testing.T
	n map[string]int
}

func newFaults(t *testing.T) *faults { return &faults{t: t, n: map[string]int{}} }

func (x *faults) add(what string, seed int, f *planner.Facts, a, b fmt.Stringer) {
	if x.n[what]++; x.n[what] <= shown {
		x.t.Logf("%s, seed %d: race %s, taper %+v, %s\n  %s\n  %s", what, seed, f.Races[0].Date.Short(), f.Taper, f.Weeks[0].Week.String(), a, b)
	}
}

// One minute more on one weekday changes what is expected of a taper by at most 0.3 points in 99.9 % of ordinary weeks.
func TestOrderOneMinuteMore(t *testing.T) {
	t.Parallel()
	x, n := newFaults(t), 0
	for i := range 4 * *steps {
		r := rand.New(rand.NewPCG(uint64(i), 1))
		f := oneRace(t, r, ordinaryWeek(r))
		more, ok := minuteMore(f, r.IntN(7))
		if !ok {
			continue
		}
		n++
		if a, b := see(f), see(more); math.Abs(a.Gain.Mid-b.Gain.Mid) > 0.3 {
			x.add("one minute more", i, f, a, b)
		}
	}
	if far := x.n["one minute more"]; 1000*far > n {
		t.Errorf("in %d of %d weeks one minute more changes the gain by more than 0.3 points", far, n)
	}
}

// With a told length a smaller told cut does not mean fewer hard days, less load in the window or less fitness kept.
// The exception, one in 50,000, is a taper of four days with room for a hard day only where the other rides shrink.
func TestOrderSmallerCuts(t *testing.T) {
	t.Parallel()
	x := newFaults(t)
	for i := range *steps {
		r := rand.New(rand.NewPCG(uint64(i), 2))
		f := oneRace(t, r, ordinaryWeek(r))
		f.Taper.Days = planner.MinTaperDays + r.IntN(planner.MaxTaperDays-planner.MinTaperDays+1)
		small, deep := *f, *f
		small.Taper.Cut = planner.MinCut + r.IntN(planner.MaxCut-planner.MinCut)
		deep.Taper.Cut = min(planner.MaxCut, small.Taper.Cut+1+oneOf(r, r.IntN(3), r.IntN(40)))
		a, b := see(&small), see(&deep)
		what := ""
		switch {
		case a.hard < b.hard:
			what = "fewer hard days"
		case a.load < b.load:
			what = "less load"
		case a.Kept < b.Kept-1e-9:
			what = "less fitness kept"
		default:
			continue
		}
		x.add(what, i, &small, a, b)
	}
	for what, n := range x.n {
		if 20_000*n > *steps {
			t.Errorf("%s by a smaller told cut in %d of %d weeks", what, n, *steps)
		}
	}
}

// Weeks in which a deeper cut once left more: of the rides that it left out the minutes went to others.
func TestOrderSmallerCutsOfKnownWeeks(t *testing.T) {
	t.Parallel()
	for _, known := range []struct {
		week              string
		race              int
		days, small, deep int
	}{
		{"mon long 4h07; tue rest; wed endurance 1h57; thu intervals 2h17 10x1min; fri rest; sat endurance 2h10; sun intervals 1h43 4x4min", 61, 4, 59, 62},
		{"mon endurance 1h28; tue intervals 1h25 4x8min; wed rest; thu endurance 1h44; fri endurance 1h30; sat recovery 45min; sun long 3h32", 65, 13, 72, 73},
	} {
		small := facts(t, known.week, raceOn(known.race, planner.PriorityA))
		small.Taper = planner.Taper{Days: known.days, Cut: known.small}
		deep := *small
		deep.Taper.Cut = known.deep
		if a, b := see(small), see(&deep); a.hard < b.hard || a.load < b.load || a.Kept < b.Kept-1e-9 {
			t.Errorf("%s\n  %d %%: %s\n  %d %%: %s", known.week, known.small, a, known.deep, b)
		}
	}
}

// A longer told taper of the same cut has no larger load over the four weeks before the race. The exceptions, 10 in
// 50,000, are short tapers without a hard day beside longer ones that have room for a short one.
func TestOrderLongerTapers(t *testing.T) {
	t.Parallel()
	x := newFaults(t)
	for i := range *steps {
		r := rand.New(rand.NewPCG(uint64(i), 3))
		f := oneRace(t, r, ordinaryWeek(r))
		f.Taper.Cut = oneOf(r, 0, 0, 30, 40, 50, 60, 70, planner.MinCut+r.IntN(61))
		short, long := *f, *f
		short.Taper.Days = planner.MinTaperDays + r.IntN(planner.MaxTaperDays-planner.MinTaperDays)
		long.Taper.Days = min(planner.MaxTaperDays, short.Taper.Days+1+r.IntN(4))
		if a, b := see(&short), see(&long); b.month > a.month+1e-9 {
			x.add("more load by a longer taper", i, &short, a, b)
		}
	}
	for what, n := range x.n {
		if 1000*n > *steps {
			t.Errorf("%s in %d of %d weeks", what, n, *steps)
		}
	}
}

// No taper of an automatic length is one that the model expects to be worse than none. With odd weeks, illness,
// lost days and races in between it may be one in two hundred: openers on a day that has nothing else, a session that
// comes before lost days.
func TestOrderNoTaperIsWorseThanNone(t *testing.T) {
	t.Parallel()
	rounds.Skip(t, "that the models expect no taper to be worse than none, in 1,000 weeks")
	for name, make := range map[string]func(r *rand.Rand) *planner.Facts{
		"ordinary weeks":                      func(r *rand.Rand) *planner.Facts { return oneRace(t, r, ordinaryWeek(r)) },
		"odd weeks":                           func(r *rand.Rand) *planner.Facts { return oneRace(t, r, oddWeek(r)) },
		"ordinary weeks with what may happen": func(r *rand.Rand) *planner.Facts { return eventful(t, r, ordinaryWeek(r)) },
		"odd weeks with what may happen":      func(r *rand.Rand) *planner.Facts { return eventful(t, r, oddWeek(r)) },
	} {
		t.Run(name, func(t *testing.T) {
			x, n := newFaults(t), 0
			for i := range max(*steps/2, 250) { // fewer would say nothing of one in two hundred
				f := make(rand.New(rand.NewPCG(uint64(i), 4)))
				p := engine.Derive(f.Races[0].Date-30, f)
				for k := range p.Tapers {
					taper := &p.Tapers[k]
					e := Expect(p, f, taper)
					if e == nil || taper.Length == planner.LengthTold {
						continue
					}
					if err := inBounds(*e); err != nil {
						t.Errorf("seed %d: %v", i, err)
					}
					if n++; e.Gain.Mid < -1e-9 {
						x.add("worse than none", i, f, planned{p, taper}, events{f, e})
					}
				}
			}
			if worse := x.n["worse than none"]; 200*worse > n || worse > 0 && name == "ordinary weeks" {
				t.Errorf("%d of %d tapers are worse than none", worse, n)
			}
		})
	}
}

// planned is a taper with the usual days beside it.
type planned struct {
	p     *engine.Plan
	taper *engine.Taper
}

func (v planned) String() string {
	text := fmt.Sprintf("%s, %d days: ", v.taper.Race.Name, v.taper.Days)
	for d := v.taper.From; d < v.taper.Race.Date; d++ {
		day := v.p.Known(d)
		text += fmt.Sprintf("D-%d", d.DaysUntil(v.taper.Race.Date))
		for _, s := range day.Sessions {
			text += " " + s.Label()
		}
		text += " (usually"
		for _, s := range day.Usual {
			text += " " + s.Label()
		}
		text += "); "
	}
	return text
}

// events are a rider's facts besides week and goal, and what is expected.
type events struct {
	f *planner.Facts
	e *Expected
}

func (v events) String() string {
	text := fmt.Sprintf("gain %.3f, kept %.3f; limits %v, away %v, blocks %v", v.e.Gain.Mid, v.e.Kept, v.f.Limits, v.f.Absences, v.f.Blocks)
	for _, r := range v.f.Races {
		text += fmt.Sprintf("; %s %s %gh x%d", r.Name, r.Priority, r.Hours, r.Days)
	}
	return text
}
