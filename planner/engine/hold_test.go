package engine_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

const dailyWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu endurance 1h; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// raceFacts are a rider of that week with an A race so many days after day0.
func raceFacts(t *testing.T, ahead int) *planner.Facts {
	t.Helper()
	return &planner.Facts{Weeks: []planner.DatedWeek{{Week: week(t, dailyWeek)}},
		Races: []planner.Race{{ID: 1, Name: "Hill Loop", Date: day0.AddDays(ahead), Hours: 3, Days: 1}}}
}

func isRest(d *engine.Day) bool { return d.Minutes() == 0 && d.Phase == planner.Health }

func warned(p *engine.Plan, code engine.Code) *engine.Warning {
	i := slices.IndexFunc(p.Warnings, func(w engine.Warning) bool { return w.Code == code })
	if i < 0 {
		return nil
	}
	return &p.Warnings[i]
}

func minutesOf(days []engine.Day) (out []int) {
	for i := range days {
		out = append(out, days[i].Minutes())
	}
	return out
}

// A level alone says what the symptoms would.
func TestLevelNeedsNoWords(t *testing.T) {
	for level, symptom := range map[planner.Level]string{planner.LevelEasy: "runny nose", planner.LevelRest: "fever"} {
		worded, levelled := raceFacts(t, 12), raceFacts(t, 12)
		ill := planner.Illness{From: day0, To: day0 + 1, Told: planner.Told{On: day0}}
		levelled.Ill = []planner.Illness{ill}
		levelled.Ill[0].Level = level
		ill.Symptoms = []string{symptom}
		worded.Ill = []planner.Illness{ill}
		a, b := engine.Derive(day0+1, worded), engine.Derive(day0+1, levelled)
		if !reflect.DeepEqual(a.Days, b.Days) || !reflect.DeepEqual(a.Tapers[0].PlanMinutes, b.Tapers[0].PlanMinutes) || a.Warnings[0].Code != b.Warnings[0].Code {
			t.Errorf("%s: %v, but %s: %v", symptom, minutesOf(a.Days), level, minutesOf(b.Days))
		}
	}
}

// An injury is an illness in its plan, and named as what it is.
func TestInjuryIsNamed(t *testing.T) {
	f := raceFacts(t, 20)
	f.Ill = []planner.Illness{{From: day0, Level: planner.LevelRest, Injury: true, Told: planner.Told{On: day0}}}
	if w := warned(engine.Derive(day0+1, f), engine.WarnIll); w == nil || w.N != engine.Injured {
		t.Errorf("the warning of an injury is %+v", w)
	}
}

// From a stop on all is rest, whatever its level, and nothing is planned.
func TestHoldStopsEverything(t *testing.T) {
	for _, level := range []planner.Level{planner.LevelDoctor, planner.LevelHead, planner.LevelEmergency} {
		f := raceFacts(t, 12)
		f.Holds = []planner.Hold{{Date: day0 + 3, Level: level, Told: planner.Told{On: day0 + 3}}}
		if before := engine.Derive(day0+2, f); before.Held || len(before.Tapers) != 1 {
			t.Errorf("%s: held before it was told", level)
		}
		for _, today := range []planner.Date{day0 + 3, day0 + 7, day0 + 30} {
			p := engine.Derive(today, f)
			if !p.Held || len(p.Tapers) != 0 || len(p.Warnings) != 1 || p.Warnings[0].Code != engine.WarnHold {
				t.Errorf("%s: on %s held %v with tapers %v and warnings %v", level, today, p.Held, p.Tapers, p.Warnings)
			}
			for i := range p.Days {
				if d := &p.Days[i]; !isRest(d) {
					t.Errorf("%s: %s has %v", level, d.Date, d.Sessions)
				}
			}
		}
	}
}

// A stop that was none leaves the plan from that day on as if it had never been,
// and the days that were held as they were shown.
func TestHoldThatWasNone(t *testing.T) {
	tried := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 21))
		never := randomFacts(t, r)
		from := never.Races[0].Date.AddDays(-r.IntN(20))
		end := from.AddDays(1 + r.IntN(4))
		f := *never
		f.Holds = []planner.Hold{{Date: from, Level: planner.LevelEmergency, Told: planner.Told{On: from, Withdrawn: end}}}
		a, b := engine.Derive(end, never), engine.Derive(end, &f)
		if b.Held {
			t.Fatalf("seed %d: still held", seed)
		}
		for i := range b.Days {
			if x, y := &a.Days[i], &b.Days[i]; x.Phase != y.Phase {
				t.Fatalf("seed %d: held from %s to %s, %s is %s %v, never held it is %s %v", seed, from, end, y.Date, y.Phase, y.Sessions, x.Phase, x.Sessions)
			}
		}
		for _, taper := range b.Tapers {
			for d := max(from, taper.From); d < min(end, taper.Race.Date); d++ {
				tried++
				if day := b.Known(d); !isRest(day) {
					t.Fatalf("seed %d: %s was held and is shown as %v", seed, d, day.Sessions)
				}
			}
		}
	}
	if tried < 30 {
		t.Errorf("%d held days are too few to tell", tried)
	}
	// In a plain taper nothing is different but how much it cuts: held days were not ridden.
	never, f := raceFacts(t, 12), raceFacts(t, 12)
	f.Holds = []planner.Hold{{Date: day0 + 4, Level: planner.LevelEmergency, Told: planner.Told{On: day0 + 4, Withdrawn: day0 + 6}}}
	for _, today := range []planner.Date{day0 + 6, day0 + 9} {
		if a, b := engine.Derive(today, never), engine.Derive(today, f); !reflect.DeepEqual(withoutCut(a.Days), withoutCut(b.Days)) {
			t.Errorf("on %s: %v, never held %v", today, minutesOf(b.Days), minutesOf(a.Days))
		}
	}
}

// withoutCut are days whose reasons do not say how much the taper cuts.
func withoutCut(days []engine.Day) []engine.Day {
	for i := range days {
		days[i].Causes = slices.Clone(days[i].Causes)
		for k := range days[i].Causes {
			if c := &days[i].Causes[k]; c.Code == engine.WhyShorter {
				c.N = 0
			}
		}
	}
	return days
}

// clearedFacts hold a rider from a day of day0 on until a doctor clears them.
func clearedFacts(f *planner.Facts, level planner.Level, from, cleared planner.Date) {
	f.Holds = []planner.Hold{{Date: from, Level: level, Told: planner.Told{On: from, Withdrawn: cleared}},
		{Date: from, Level: level, Cleared: cleared, Told: planner.Told{On: cleared}}}
}

// Two holds that end together are spoken of once, and of a race's start the gravest word counts.
func TestTwoHoldsAreWarnedOfOnce(t *testing.T) {
	f := raceFacts(t, 8)
	for _, level := range []planner.Level{planner.LevelHead, planner.LevelEmergency} {
		both := *f
		clearedFacts(&both, level, day0, day0+3)
		f.Holds = append(f.Holds, both.Holds...)
	}
	p, said := engine.Derive(day0+3, f), map[engine.Code]int{}
	for _, w := range p.Warnings {
		said[w.Code]++
	}
	if said[engine.WarnIll] != 1 || said[engine.WarnDoNotStart] != 1 || said[engine.WarnStartIfWell] != 0 {
		t.Errorf("warnings %+v", p.Warnings)
	}
}

// After a knock on the head rides grow in steps of a day, nothing is hard before
// the seventh, and no race is started until then.
func TestReturnFromHeadKnock(t *testing.T) {
	f := raceFacts(t, 40)
	clearedFacts(f, planner.LevelHead, day0, day0+3)
	if p := engine.Derive(day0+2, f); !p.Held {
		t.Error("not held on the day before the clearance")
	}
	p := engine.Derive(day0+3, f) // a Thursday
	if got, want := minutesOf(p.Days[:6]), []int{20, 30, 40, 45, 40, 90}; p.Held || !slices.Equal(got, want) {
		t.Errorf("held %v, the return has %v minutes, want %v", p.Held, got, want)
	}
	for i := range p.Days[:6] {
		if p.Days[i].IsHard() {
			t.Errorf("day %d of the return is hard: %v", i+1, p.Days[i].Sessions)
		}
	}
	if w := warned(p, engine.WarnIll); w == nil || w.N != engine.Cleared {
		t.Errorf("the warning of a return is %+v", w)
	}
	for ahead, start := range map[int]bool{8: false, 9: true} {
		f := raceFacts(t, ahead)
		clearedFacts(f, planner.LevelHead, day0, day0+3)
		p := engine.Derive(day0+3, f)
		if d, _ := p.Day(day0.AddDays(ahead)); d.IsHard() != start || (warned(p, engine.WarnDoNotStart) == nil) != start {
			t.Errorf("a race %d days after the clearance: %v, warnings %v", ahead-3, d.Sessions, p.Warnings)
		}
	}
}

// After other stops the return is as long as they were, three to seven days.
func TestReturnFromOtherHolds(t *testing.T) {
	for held, want := range map[int]int{1: 3, 5: 5, 20: 7} {
		f := raceFacts(t, 80)
		cleared := day0.AddDays(held)
		clearedFacts(f, planner.LevelDoctor, day0, cleared)
		p := engine.Derive(cleared, f)
		got := 0
		for i := range p.Days {
			if d := &p.Days[i]; d.Phase != planner.Health || d.IsHard() || d.Minutes() > 75 {
				break
			}
			got++
		}
		if got < want || got > want+1 { // the next usual day may be short as well
			t.Errorf("held for %d days: %d days of return, want %d: %s", held, got, want, fmt.Sprint(minutesOf(p.Days[:10])))
		}
		for d := day0; d < cleared; d++ {
			if day := p.Known(d); day != nil && !isRest(day) {
				t.Errorf("held for %d days: %s is now %v", held, d, day.Sessions)
			}
		}
	}
}

// An illness that is taken back: the days lived stay, its return is gone.
func TestIllnessTakenBack(t *testing.T) {
	never, f := raceFacts(t, 40), raceFacts(t, 40)
	f.Ill = []planner.Illness{{From: day0, Level: planner.LevelRest, Told: planner.Told{On: day0, Withdrawn: day0 + 3}}}
	if p := engine.Derive(day0+2, f); !isRest(&p.Days[0]) || !isRest(&p.Days[5]) {
		t.Errorf("ill until told otherwise: %v", minutesOf(p.Days))
	}
	a, b := engine.Derive(day0+3, never), engine.Derive(day0+3, f)
	if !reflect.DeepEqual(a.Days, b.Days) {
		t.Errorf("taken back: %v, never ill %v", minutesOf(b.Days), minutesOf(a.Days))
	}
}
