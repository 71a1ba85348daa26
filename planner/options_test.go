package planner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/planfile"
	"musette/planner/plannertest"
	"musette/planner/response"
)

// compared is what Options says of a race so many days after the first day.
func compared(t *testing.T, f *planner.Facts, today planner.Date, day int) *planner.Options {
	t.Helper()
	o, ok := f.Options(today, fmt.Sprintf("Race %d", day), firstDay.AddDays(day))
	if !ok {
		t.Fatalf("no options on %s", today)
	}
	return o
}

// eventful are riders with one goal on day 200 and what may happen besides.
func eventful(t *testing.T) map[string]*planner.Facts {
	t.Helper()
	c := raceOn(194, planner.PriorityC)
	c.Hours = 1
	stages := raceOn(165, planner.PriorityB)
	stages.Days = 3
	day := func(n int) planner.Date { return firstDay.AddDays(n) }
	out := map[string]*planner.Facts{}
	add := func(name, week string, change func(f *planner.Facts)) {
		f := rider(t, week, raceOn(200, planner.PriorityA))
		change(f)
		out[name] = f
	}
	add("plain", mixedWeek, func(*planner.Facts) {})
	add("even days", evenWeek, func(*planner.Facts) {})
	add("told 5 days", mixedWeek, func(f *planner.Facts) { f.Taper.Days = 5 })
	add("told 21 days", evenWeek, func(f *planner.Facts) { f.Taper.Days = 21 })
	add("step of 65 %", mixedWeek, func(f *planner.Facts) { f.Taper = planner.Taper{Cut: 65, Shape: planner.Step} })
	add("cut of 45 %", mixedWeek, func(f *planner.Facts) { f.Taper.Cut = 45 })
	add("cut of 20 %", evenWeek, func(f *planner.Facts) { f.Taper = planner.Taper{Cut: 20, Days: 10} })
	add("races inside", mixedWeek, func(f *planner.Facts) { f.Races = append(f.Races, c, stages) })
	add("stage race", mixedWeek, func(f *planner.Facts) { f.Races[0].Days = 4 })
	add("away and limited", evenWeek, func(f *planner.Facts) {
		f.Absences = []planner.Absence{{From: day(189), To: day(190)}, {From: day(196), To: day(196), Travel: true}}
		f.Limits = []planner.Limit{{Date: day(193), Minutes: 40}}
	})
	add("ridden", mixedWeek, func(f *planner.Facts) {
		f.Done = []planner.Ride{{Date: day(150), Minutes: 240, RPE: 7}, {Date: day(157), Minutes: 30}}
	})
	return out
}

// The planned row is the plan's own expectation, and every other row that of a
// plan made with its days and its cut.
func TestOptionsAreThoseOfPlans(t *testing.T) {
	for name, f := range eventful(t) {
		t.Run(name, func(t *testing.T) {
			today := firstDay.AddDays(160)
			o := compared(t, f, today, 200)
			planned := planner.Derive(today, f).Tapers[0]
			if o.Days != planned.Days || len(o.AfterBlock) > 0 {
				t.Errorf("options of %d days, plan of %d", o.Days, planned.Days)
			}
			for _, rows := range [][]planner.Option{o.Lengths, o.Cuts} {
				marked := 0
				for _, row := range rows {
					if row.Planned {
						marked++
						agrees(t, row, planned)
					}
					told := *f
					told.Taper.Days, told.Taper.Cut = row.Days, row.Cut
					if row.Days > 0 {
						agrees(t, row, planner.Derive(today, &told).Tapers[0])
					}
				}
				if marked != 1 {
					t.Errorf("%d rows are the planned one: %+v", marked, rows)
				}
			}
			if cuts := cutsOf(o); len(o.Lengths) != 19 || !slices.Equal(cuts, withCut(o.Cut)) {
				t.Errorf("%d lengths, cuts %v", len(o.Lengths), cuts)
			}
			for i := range o.Lengths {
				if gain := planner.Derive(today, f).Tapers[0].Expected.Gain; o.Lengths[i].Planned && o.Lengths[i].Gain != gain {
					nearRange(t, "planned gain", o.Lengths[i].Gain, gain, 1e-9)
				}
			}
		})
	}
}

func cutsOf(o *planner.Options) []int {
	var out []int
	for _, row := range o.Cuts {
		out = append(out, row.Cut)
	}
	return out
}

// withCut are the compared cuts, the planned one among them.
func withCut(planned int) []int {
	out := append([]int{30, 40, 50, 60, 70, 80}, planned)
	slices.Sort(out)
	return slices.Compact(out)
}

// agrees compares a row with a plan's summary.
func agrees(t *testing.T, row planner.Option, sum planner.TaperSummary) {
	t.Helper()
	what := fmt.Sprintf("%d days, %d %%: ", row.Days, row.Cut)
	if sum.Days != row.Days {
		t.Errorf("%splan of %d days", what, sum.Days)
		return
	}
	near(t, what+"kept", row.Kept, sum.Expected.Kept, 1e-9)
	near(t, what+"shed", row.Shed, sum.Expected.Shed, 1e-9)
	near(t, what+"removed", row.Removed, sum.CutPercent, 1e-9)
}

// The longest told taper leaves no trace in shorter options, and where a block leaves 11 days every cut opens easy.
func TestOptionsOfLongAndOverloadedTapers(t *testing.T) {
	f := rider(t, evenWeek, raceOn(200, planner.PriorityA))
	f.Taper.Days = planner.MaxTaperDays
	for _, row := range compared(t, f, firstDay.AddDays(150), 200).Lengths {
		told := *f
		if told.Taper.Days = row.Days; row.Days > 0 {
			agrees(t, row, planner.Derive(firstDay, &told).Tapers[0])
		}
	}
	f = rider(t, mixedWeek, raceOn(200, planner.PriorityA))
	f.Blocks = []planner.Block{{From: firstDay.AddDays(158), To: firstDay.AddDays(188), Percent: 20}}
	o := compared(t, f, firstDay.AddDays(170), 200)
	if o.Days != 11 || !slices.Equal(cutsOf(o), withCut(50)) {
		t.Errorf("a block until D-12 leaves %d days", o.Days)
	}
	for _, row := range o.Cuts {
		told := *f
		told.Taper.Cut = row.Cut
		agrees(t, row, planner.Derive(firstDay, &told).Tapers[0])
	}
}

// No taper keeps all and brings nothing; with even days each day more keeps less
// and sheds more (Morton et al. 1990: both decay from a steady state).
func TestLengthsAreOrdered(t *testing.T) {
	f := rider(t, evenWeek, raceOn(200, planner.PriorityA), raceOn(300, planner.PriorityB))
	o := compared(t, f, firstDay.AddDays(150), 200)
	if none := o.Lengths[0]; none.Days != 0 || none.Kept != 1 || none.Shed != 0 || none.Removed != 0 ||
		none.Gain != (response.Range{}) || none.Next != (response.Range{}) || none.Later != (response.Range{}) {
		t.Errorf("no taper: %+v", none)
	}
	for i := 1; i < len(o.Lengths); i++ {
		a, b := o.Lengths[i-1], o.Lengths[i]
		if b.Days <= a.Days || b.Kept >= a.Kept || b.Shed <= a.Shed {
			t.Errorf("%+v, then %+v", a, b)
		}
		if b.Later.Mid >= 0 || b.Later != b.Next && math.Abs(b.Later.Mid-0.4*b.Next.Mid) > 1e-12 {
			t.Errorf("%d days cost the only later race %+v, all %+v", b.Days, b.Next, b.Later)
		}
	}
}

// mixed are the days of one plan before today and those of another from today on.
func mixed(t *testing.T, base, other *planner.Plan, today, d planner.Date) *planner.Day {
	t.Helper()
	if d < today {
		other = base
	}
	day, ok := other.Day(d)
	if !ok {
		t.Fatalf("%s is not in the plan", d)
	}
	return day
}

// Inside a taper what is past stays: a shorter one ends the taper, a longer one cannot begin any more. What
// the taper then brings is worked out day by day (Fitz-Clarke et al. 1991).
func TestOptionsInsideTaper(t *testing.T) {
	f := rider(t, evenWeek, raceOn(200, planner.PriorityA), raceOn(230, planner.PriorityC), raceOn(290, planner.PriorityA))
	goal, unit := f.Races[0].Date, weekLoad(&f.Weeks[0].Week)
	f.Races[2].Registered = f.Races[2].Date - 14
	f.Taper.Days = 14
	base := planner.Derive(firstDay, f)
	for into := 1; into <= 14; into++ {
		today := goal.AddDays(into - 15)
		o := compared(t, f, today, 200)
		if o.Next == nil || o.Next.Date != f.Races[2].Date {
			t.Fatalf("next: %+v", o.Next)
		}
		want := map[int]bool{0: true}
		for n := planner.MinTaperDays; n <= 21; n++ {
			want[n] = n <= 14 || into == 1 && goal.AddDays(-n) >= today
		}
		for _, row := range o.Lengths {
			if !want[row.Days] || row.Planned != (row.Days == 14) {
				t.Errorf("day %d of the taper: row %+v", into, row)
			}
			delete(want, row.Days)
			told := *f
			if told.Taper.Days = row.Days; row.Days == 0 {
				told.Races = f.Races[1:]
			}
			other := planner.Derive(firstDay, &told)
			over := row.Days // once the planned taper has begun it is the least that shares are taken over
			if into > 1 {
				over = max(over, 14)
			}
			kept, shed := shares(f, goal, over, func(d planner.Date) float64 { return ridden(mixed(t, base, other, today, d), f) })
			near(t, fmt.Sprintf("day %d, %d days: kept", into, row.Days), row.Kept, kept, 1e-9)
			near(t, fmt.Sprintf("day %d, %d days: shed", into, row.Days), row.Shed, shed, 1e-9)
			gain, next := make([]float64, 0, 128), make([]float64, 0, 128)
			for _, draw := range response.Prior() {
				own, later := 0.0, 0.0
				for u := 1; u <= 14; u++ {
					if d := goal.AddDays(-u); d < today || u <= row.Days {
						removed := ridden(mixed(t, base, other, today, d), f)/unit - 1
						own += removed * influence(draw, u)
						later += removed * influence(draw, u+90)
					}
				}
				gain, next = append(gain, own), append(next, later)
			}
			nearRange(t, fmt.Sprintf("day %d, %d days: gain", into, row.Days), row.Gain, quantiles(gain), 1e-9)
			nearRange(t, fmt.Sprintf("day %d, %d days: next", into, row.Days), row.Next, quantiles(next), 1e-9)
		}
		for n, missing := range want {
			if missing {
				t.Errorf("day %d of the taper: no row of %d days", into, n)
			}
		}
	}
	if _, ok := f.Options(goal, "Race 200", goal); ok {
		t.Error("options on race day")
	}
}

// The gain of a cut is how it differs from the planned taper by the variable-dose model followed day by day
// (Busso 2003): nothing for the planned one.
func TestCutsFollowVariableDose(t *testing.T) {
	for name, f := range eventful(t) {
		if name == "races inside" {
			continue // what counts without the taper is then not in any plan
		}
		t.Run(name, func(t *testing.T) {
			o, goal := compared(t, f, firstDay.AddDays(150), 200), firstDay.AddDays(200)
			base := doseGains(planner.Derive(firstDay, f), f, goal, o.Days)
			for _, row := range o.Cuts {
				told := *f
				told.Taper.Days, told.Taper.Cut = row.Days, row.Cut
				gains := doseGains(planner.Derive(firstDay, &told), f, goal, row.Days)
				for i := range gains {
					gains[i] -= base[i]
				}
				nearRange(t, fmt.Sprintf("cut of %d %%", row.Cut), row.Gain, quantiles(gains), 1e-9)
				if row.Planned != (row.Cut == o.Cut) || row.Planned && row.Gain != (response.Range{}) {
					t.Errorf("cut of %d %%, %d %% is planned: %+v", row.Cut, o.Cut, row)
				}
			}
		})
	}
}

// doseGains follow the days before a race as planned and without the taper, from 60
// days before the taper on: k2 grows with what was ridden of late (Busso 2003). One value a draw.
func doseGains(p *planner.Plan, f *planner.Facts, race planner.Date, n int) []float64 {
	unit := unitOf(f, race)
	values := make([]float64, 0, 64)
	for _, draw := range response.DosePrior() {
		decay := [3]float64{math.Exp(-1 / draw.Tau1), math.Exp(-1 / draw.Tau2), math.Exp(-1 / draw.Tau3)}
		morning := func(load func(d *planner.Day, u int) float64) (g, h float64) {
			recent := 1 / (1 - decay[2])
			g, h = 1/(1-decay[0]), recent/(1-decay[1])
			for u := n + 60; u >= 1; u-- {
				day, _ := p.Day(race.AddDays(-u))
				w := load(day, u)
				recent = recent*decay[2] + w
				g, h = g*decay[0]+w, h*decay[1]+recent*w
			}
			return g * decay[0], h * decay[1]
		}
		g, h := morning(func(d *planner.Day, _ int) float64 { return ridden(d, f) / unit })
		g0, h0 := morning(func(d *planner.Day, u int) float64 {
			if u > n {
				return ridden(d, f) / unit
			}
			return usually(d, f) / unit
		})
		values = append(values, draw.Percent*(g-g0-draw.Share*g0/(2*h0)*(h-h0)))
	}
	return values
}

// After an overload block two weeks beat short tapers, at a cut near the best one after overload
// (Thomas and Busso 2005: 39 % of the load before the taper, here 42 %, for four weeks; under a week loses).
func TestShortTapersLoseAfterOverload(t *testing.T) {
	for _, week := range []string{mixedWeek, evenWeek} {
		f := rider(t, week, raceOn(200, planner.PriorityA))
		f.Taper.Cut = 30
		f.Blocks = []planner.Block{{From: firstDay.AddDays(158), To: firstDay.AddDays(185), Percent: 20}}
		o := compared(t, f, firstDay.AddDays(170), 200)
		if o.Days != 14 || len(o.AfterBlock) != 2 || o.Lengths[len(o.Lengths)-1].Days != 14 {
			t.Fatalf("options: %+v", o)
		}
		short, long := o.AfterBlock[0], o.AfterBlock[1]
		if short.Days != 7 || long.Days != 14 || !long.Planned || long.Gain != (response.Range{}) || short.Gain.Mid >= 0 || short.Gain.Low >= short.Gain.High {
			t.Errorf("after overload, against 14 days: %+v", o.AfterBlock)
		}
		agrees(t, long, planner.Derive(firstDay, f).Tapers[0])
	}
}

// Comparing tapers for a race leaves those of the others as they are: the second of two near
// goals, its first one held to its length by a late registration in the plan compared with.
func TestOtherTapersStayInTrials(t *testing.T) {
	for _, gap := range []int{16, 18, 25} {
		f := rider(t, mixedWeek, raceOn(200-gap, planner.PriorityA), raceOn(200, planner.PriorityA))
		today := firstDay.AddDays(140)
		first := tapersOf(planner.Derive(today, f))[f.Races[0].Date]
		o := compared(t, f, today, 200)
		if o.Days != 7 || first != 7 || o.Lengths[len(o.Lengths)-1].Days != min(gap-4, 21) {
			t.Fatalf("first %d days, options %+v", first, o)
		}
		told := *f
		told.Races = slices.Clone(f.Races)
		told.Races[0].Registered = told.Races[0].Date.AddDays(-first)
		for _, row := range o.Lengths {
			if told.Taper.Days = row.Days; row.Days >= first {
				agrees(t, row, planner.Derive(told.Races[0].Registered, &told).Tapers[1])
			}
		}
	}
}

// The eve of a race and the longest told taper have options too, a race without a taper has none.
func TestOptionsAtTheEdges(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(200, planner.PriorityA))
	goal := f.Races[0].Date
	f.Races[0].Registered = goal - 1
	o := compared(t, f, goal-1, 200)
	if len(o.Lengths) != 2 || o.Lengths[0].Days != 0 || !o.Lengths[1].Planned || o.Lengths[1].Days != 1 || o.Next != nil {
		t.Errorf("registered on the eve: %+v", o)
	}
	f.Races[0].Registered = 0
	f.Taper.Days = planner.MaxTaperDays
	o = compared(t, f, goal-100, 200)
	if last := o.Lengths[len(o.Lengths)-1]; last.Days != 28 || !last.Planned || len(o.Lengths) != 20 {
		t.Errorf("told 28 days: %+v", o.Lengths)
	}
	f.Races[0].Priority = planner.PriorityB
	if _, ok := f.Options(goal-50, "Race 200", goal); ok {
		t.Error("options of a B race")
	}
	f.Races[0].Priority = planner.PriorityA
	if _, ok := f.Options(goal-50, "Race 201", goal); ok {
		t.Error("options of an unknown race")
	}
	f.Ill = []planner.Illness{{From: goal - 52, Symptoms: []string{"chest pain"}}}
	if _, ok := f.Options(goal-50, "Race 200", goal); ok {
		t.Error("options with a red flag")
	}
	if f.CheckSeason(goal-50) != nil {
		t.Error("season check with a red flag")
	}
}

// Neither comparing nor checking changes facts, and both say the same twice.
func TestFactsStayAsTheyAre(t *testing.T) {
	again := eventful(t)
	for name, f := range eventful(t) {
		f.Races, again[name].Races = append(f.Races, raceOn(215, planner.PriorityA)), append(again[name].Races, raceOn(215, planner.PriorityA))
		for _, back := range []planner.Date{150, 195} {
			o, _ := f.Options(firstDay+back, "Race 200", f.Races[0].Date)
			check := f.CheckSeason(firstDay + back)
			if !reflect.DeepEqual(f, again[name]) {
				t.Fatalf("%s: facts were changed: %+v", name, f)
			}
			o2, _ := f.Options(firstDay+back, "Race 200", f.Races[0].Date)
			if !reflect.DeepEqual(o, o2) || !reflect.DeepEqual(check, f.CheckSeason(firstDay+back)) {
				t.Errorf("%s: another answer the second time", name)
			}
		}
	}
}

// Whatever happens to riders, options keep their bounds: the planned row is there, as the plan has it, and
// lengths ascend.
func TestOptionsOnRandomPlans(t *testing.T) {
	forEach(t, *planCount/100, func(t *testing.T, i int) {
		input := plannertest.Generate(rand.New(rand.NewPCG(uint64(i), 73)))
		today, f, faults := planfile.Read(input)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		p := planner.Derive(today, f)
		for k, role := range p.Races {
			o, ok := f.Options(today, f.Races[k].Name, f.Races[k].Date)
			at := slices.IndexFunc(p.Tapers, func(sum planner.TaperSummary) bool { return sum.Race == role.Race })
			if may := at >= 0 && role.Race.Date > today && p.Tapers[at].Expected != nil; ok != may {
				t.Fatalf("seed %d: options of %s: %v, want %v\n%s", i, role.Race.Name, ok, may, input)
			}
			if ok {
				checkOptions(t, o, p.Tapers[at], p.Tapers[at].From < today)
			}
			if t.Failed() {
				t.Fatalf("seed %d: %s\n%s", i, role.Race.Name, input)
			}
		}
	})
}

func checkOptions(t *testing.T, o *planner.Options, sum planner.TaperSummary, open bool) {
	t.Helper()
	for _, rows := range [][]planner.Option{o.Lengths, o.Cuts} {
		planned := 0
		for i, row := range rows {
			for _, gain := range []response.Range{row.Gain, row.Next, row.Later} {
				if err := inBounds(&planner.Expected{Kept: row.Kept, Shed: row.Shed, Gain: gain}); err != nil {
					t.Errorf("%+v: %v", row, err)
				}
			}
			if i > 0 && row.Days <= rows[i-1].Days && row.Cut <= rows[i-1].Cut {
				t.Errorf("%+v, then %+v", rows[i-1], row)
			}
			if row.Planned {
				planned++
				agrees(t, row, sum)
			}
		}
		if planned != 1 {
			t.Errorf("%d planned rows: %+v", planned, rows)
		}
	}
	if none := o.Lengths[0]; o.Days != sum.Days || none.Days != 0 || !open && (none.Kept != 1 || none.Shed != 0) || !slices.Equal(cutsOf(o), withCut(o.Cut)) {
		t.Errorf("plan of %d days: %+v", sum.Days, o)
	}
	k := slices.IndexFunc(o.Lengths, func(row planner.Option) bool { return row.Planned })
	nearRange(t, "planned gain", o.Lengths[max(k, 0)].Gain, sum.Expected.Gain, 1e-9)
}
