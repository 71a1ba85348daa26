package plannertest

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
)

// tally counts how often something holds of how many.
type tally map[string]*[2]int

func (t tally) note(what string, holds bool) {
	if t[what] == nil {
		t[what] = &[2]int{}
	}
	t[what][1]++
	if holds {
		t[what][0]++
	}
}

// What tapers should mostly be, as least shares of ordinary riders' plans.
var wished = map[string]float64{
	"a hard day on D-6 to D-3":                 0.97,
	"openers on D-2 or D-1":                    0.97,
	"the last four days are cut more":          0.88,
	"shorter than usual":                       0.99,
	"the cut is near the rule's":               0.80,
	"the told cut is met":                      0.90,
	"four in five rides stay":                  0.90,
	"D-3 is no longer than D-4":                0.95,
	"D-2 is no longer than D-3":                0.95,
	"half of the hard work stays":              0.60,
	"no ride under 20 min":                     0.99,
	"hard days are usual ones":                 0.50,
	"6 to 10 days":                             0.70,
	"no warning":                               0.90,
	"longer with more hours":                   0.90,
	"no more than two hard days on D-6 to D-3": 1,
	"repetitions are never longer than usual":  1,
}

func TestTapersAreAsWished(t *testing.T) {
	t.Parallel()
	rounds.Skip(t, "the shares of wishes that 200 weeks keep")
	got := tally{}
	for seed := range 200 {
		r := rand.New(rand.NewPCG(uint64(seed), 11))
		input := GenerateOrdinary(r)
		output, err := planOf(input)
		if err != nil {
			t.Fatal(err)
		}
		v, err := newView(input, output)
		if err != nil {
			t.Fatal(err)
		}
		got.note("no warning", len(v.out.Warnings) == 0)
		for _, tp := range v.tapers() {
			v.wishes(tp, got)
		}
	}
	for what, least := range wished {
		n := got[what]
		if n == nil || n[1] < 40 {
			t.Errorf("%s: too few cases: %v", what, n)
		} else if share := float64(n[0]) / float64(n[1]); share < least {
			t.Errorf("%s: in %.3f of %d, at least %v", what, share, n[1], least)
		} else {
			t.Logf("%s: %.3f", what, share)
		}
	}
}

// wishes notes what holds of one taper.
func (v *view) wishes(t taper, got tally) {
	at := func(k int) *outDay { return v.days[t.race.Date.AddDays(-k)] }
	late, usualDays, hardDays, work, usualWork, short := 0, 0, 0, 0, 0, true
	var kept [2][2]int // minutes and usual ones of D-n to D-5, and of D-4 to D-1
	for k := 1; k <= t.Days; k++ {
		d, date := at(k), t.race.Date.AddDays(-k)
		m, part := minutes(d.Sessions), 0
		if k <= 4 {
			part = 1
		}
		kept[part][0] += m
		kept[part][1] += minutes(d.Usual)
		short = short && (m == 0 || m >= 20)
		work, usualWork = work+hardWork(d.Sessions), usualWork+v.usualWork(date)
		if !hard(d.Sessions) {
			continue
		}
		hardDays++
		if k >= 3 && k <= 6 {
			late++
		}
		if v.usual(date).IsHard() {
			usualDays++
		}
	}
	got.note("a hard day on D-6 to D-3", late > 0)
	got.note("no more than two hard days on D-6 to D-3", late <= 2)
	if hardDays > 0 {
		got.note("hard days are usual ones", 2*usualDays >= hardDays)
	}
	got.note("half of the hard work stays", 2*work >= usualWork)
	got.note("openers on D-2 or D-1", has(at(1).Sessions, "openers") || has(at(2).Sessions, "openers"))
	got.note("the last four days are cut more", kept[1][0]*kept[0][1] <= kept[0][0]*kept[1][1])
	got.note("no ride under 20 min", short)
	got.note("shorter than usual", t.PlannedMinutes < t.UsualMinutes)
	got.note("four in five rides stay", 5*(t.PlannedRides+1) >= 4*t.UsualRides)
	v.wishesOfMinutes(t, at, got)
}

func (v *view) wishesOfMinutes(t taper, at func(int) *outDay, got tally) {
	for far := 4; far >= 3; far-- {
		a, b := minutes(at(far).Sessions), minutes(at(far-1).Sessions)
		what := map[int]string{4: "D-3 is no longer than D-4", 3: "D-2 is no longer than D-3"}[far]
		if a > 0 && b > 0 && !has(at(far-1).Usual, "long") { // half a long ride may be longer than the day before
			got.note(what, b <= a || hard(at(far-1).Sessions))
		}
	}
	week := v.f.WeekOn(t.race.Date - 1)
	hours := float64(week.RideMinutes()) / 60
	if v.f.Taper.Cut > 0 {
		got.note("the told cut is met", math.Abs(t.CutPercent-float64(v.f.Taper.Cut)) <= 5)
	} else {
		want := min(41, 18+1.9*hours)
		if t.race.Minutes() >= 300 {
			want -= 3
		}
		got.note("the cut is near the rule's", math.Abs(t.CutPercent-want) <= 8)
	}
	if v.f.Taper.Days == 0 {
		got.note("6 to 10 days", t.Days >= 6 && t.Days <= 10)
		got.note("longer with more hours", math.Abs(float64(t.Days)-(4.4+5*hours/12)) <= 3.5)
	}
	longest := int16(0)
	for _, d := range week {
		for _, s := range d.Sessions {
			longest = max(longest, s.Sets[0].Work)
		}
	}
	for k := 3; k <= t.Days; k++ {
		if sets, ok := setsOf(at(k).Sessions[0]); ok {
			got.note("repetitions are never longer than usual", sets[0].Work <= longest)
		}
	}
}

// The generator reaches every corner that the rules have.
func TestGeneratorReaches(t *testing.T) {
	t.Parallel()
	seen := map[string]int{}
	for seed := range 800 {
		input := Generate(rand.New(rand.NewPCG(uint64(seed), 3)))
		v, err := newView(input, []byte(`{"days":[],"tapers":[],"warnings":[]}`))
		if err != nil {
			t.Fatal(err)
		}
		for what, is := range v.corners() {
			if is {
				seen[what]++
			}
		}
	}
	v := &view{f: &planner.Facts{Weeks: make([]planner.DatedWeek, 1)}}
	for what := range v.corners() {
		if seen[what] < 4 {
			t.Errorf("%s: %d of 800", what, seen[what])
		}
	}
}

func (v *view) corners() map[string]bool {
	f, week := v.f, v.f.WeekOn(v.today)
	late := slices.DeleteFunc(f.ToldDates(v.today), func(d planner.Date) bool {
		return slices.ContainsFunc(f.Races, func(r planner.Race) bool { return r.On == d })
	})
	var first planner.Race
	if len(f.Races) > 0 {
		first = f.Races[0]
	}
	return map[string]bool{
		"away": len(f.Absences) > 0, "limits": len(f.Limits) > 0, "blocks": len(f.Blocks) > 0, "pins": len(f.Pins) > 0,
		"done": len(f.Done) > 0, "sick": len(f.Ill) > 0, "stopped": !v.stopped().IsZero(), "told late": len(late) > 0,
		"season": len(f.Races) > 5, "one A race": len(f.Races) == 1 && first.Priority == planner.PriorityA,
		"past race": len(f.Races) > 0 && first.Last() < v.today, "stage race": first.Days > 1, "overnight": len(f.Races) > 0 && first.Days == 1 && first.Last() > first.Date,
		"no hard day": week.HardDays() == 0, "three hard days": week.HardDays() == 3, "short week": week.RideMinutes() < 300, "long week": week.RideMinutes() > 1000,
		"every second day": f.Taper.Pattern == planner.EverySecondDay, "every third day": f.Taper.Pattern == planner.EveryThirdDay,
		"openers on D-2": f.Taper.OpenersD2, "told cut": f.Taper.Cut > 0, "two weeks": len(f.Weeks) > 1,
	}
}
