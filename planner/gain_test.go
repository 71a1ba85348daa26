package planner_test

import (
	"encoding/json"
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

// The demo rider's week, and one whose days are all alike.
const (
	mixedWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
		"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"
	evenWeek = "mon endurance 1h30; tue endurance 1h30; wed endurance 1h30; thu endurance 1h30; " +
		"fri endurance 1h30; sat endurance 1h30; sun endurance 1h30"
)

// A week as riders share it for the days before a race, and one of 20 minutes in all.
const (
	lightWeek  = "mon rest; tue recovery 30min; wed rest; thu recovery 30min; fri rest; sat recovery 30min; sun rest"
	hardlyWeek = "mon rest; tue rest; wed rest; thu rest; fri rest; sat recovery 20min; sun rest"
)

var firstDay = planner.NewDate(2026, 3, 2) // a Monday

// rider is one with a typical week and races.
func rider(tb testing.TB, week string, races ...planner.Race) *planner.Facts {
	tb.Helper()
	w, err := planner.ParseWeek(week)
	if err != nil {
		tb.Fatal(err)
	}
	return &planner.Facts{Weeks: []planner.DatedWeek{{Week: w}}, Races: races}
}

// dated is a week in force from a date on.
func dated(tb testing.TB, from planner.Date, week string) planner.DatedWeek {
	tb.Helper()
	return planner.DatedWeek{From: from, Week: rider(tb, week).Weeks[0].Week}
}

// raceOn is a race of 3.5 h so many days after the first day, told long before.
func raceOn(day int, p planner.Priority) planner.Race {
	return planner.Race{Name: fmt.Sprintf("Race %d", day), Date: firstDay.AddDays(day), Priority: p, Hours: 3.5, Days: 1}
}

// ratings are the usual session ratings (Foster 1998; the figures are common practice).
var ratings = map[planner.Kind]float64{
	planner.Recovery: 2, planner.Endurance: 3, planner.Long: 4, planner.Openers: 3,
	planner.Intervals: 7, planner.RaceRide: 8, planner.Strength: 5, planner.Other: 3,
}

// sessionsLoad is minutes times rating.
func sessionsLoad(sessions []planner.Session) float64 {
	total := 0.0
	for _, s := range sessions {
		if s.Kind == planner.RaceRide && s.Minutes <= 90 {
			total += float64(s.Minutes) // 9 instead of 8
		}
		total += float64(s.Minutes) * ratings[s.Kind]
	}
	return total
}

// weekLoad is the mean daily load of a week.
func weekLoad(w *planner.Week) float64 {
	total := 0.0
	for _, day := range w {
		if !day.Busy {
			total += sessionsLoad(day.Sessions)
		}
	}
	return total / 7
}

// ridden is the load of a planned day: as rated where all its rides were, else as it stands.
func ridden(d *planner.Day, f *planner.Facts) float64 {
	rated := 0.0
	for _, r := range f.Done {
		if r.Date == d.Date {
			rated += float64(r.Minutes) * r.RPE
		}
	}
	if rated > 0 {
		return rated
	}
	return sessionsLoad(d.Sessions)
}

// usually is the load that a day would have without any race.
func usually(d *planner.Day, f *planner.Facts) float64 {
	usual, minutes := sessionsLoad(d.Usual), 0
	for _, s := range d.Usual {
		minutes += int(s.Minutes)
	}
	for _, a := range f.Absences {
		switch {
		case d.Date < a.From || d.Date > a.To:
		case a.Travel:
			usual = min(usual, usual*45/float64(minutes))
		default:
			return 0
		}
	}
	for _, l := range f.Limits {
		if l.Date == d.Date {
			usual = min(usual, sessionsLoad(d.Usual)*float64(l.Minutes/5*5)/float64(minutes))
		}
	}
	return usual
}

// weekAt is the week in force on a date; the first also holds for all days before.
func weekAt(f *planner.Facts, d planner.Date) *planner.Week {
	w := &f.Weeks[0].Week
	for i := range f.Weeks {
		if f.Weeks[i].From <= d {
			w = &f.Weeks[i].Week
		}
	}
	return w
}

// asUsual is the load of a date in the usual week.
func asUsual(f *planner.Facts, d planner.Date) float64 {
	if day := weekAt(f, d)[d.Weekday()]; !day.Busy {
		return sessionsLoad(day.Sessions)
	}
	return 0
}

// unitOf is a rider's usual day before a race: of the week on its eve or before the longest taper, whichever is more.
func unitOf(f *planner.Facts, race planner.Date) float64 {
	return max(weekLoad(weekAt(f, race-1)), weekLoad(weekAt(f, race-29)))
}

// shares are how much of fitness is kept and of fatigue shed over the last n days before a race, against
// usual training (Calvert et al. 1976; Morton et al. 1990: 45 and 15 days), followed day by day from 120
// days before these, before which every day was the mean of the usual ones.
func shares(f *planner.Facts, race planner.Date, n int, load func(planner.Date) float64) (kept, shed float64) {
	first, mean := race.AddDays(-n-120), 0.0
	for d := first; d < race; d++ {
		mean += asUsual(f, d) / float64(n+120)
	}
	left := [2]float64{}
	for i, tau := range []float64{45, 15} {
		share := func(morning planner.Date) float64 {
			did, usual := 0.0, 0.0
			for d := first; d < morning; d++ {
				did += load(d) * math.Exp(-float64(d.DaysUntil(morning))/tau)
				usual += asUsual(f, d) * math.Exp(-float64(d.DaysUntil(morning))/tau)
			}
			before := mean / math.Expm1(1/tau) * math.Exp(-float64(first.DaysUntil(morning))/tau)
			return (before + did) / (before + usual)
		}
		left[i] = share(race) / share(race.AddDays(-n))
	}
	return min(1, left[0]), max(0, 1-left[1])
}

// simulated is what the linear model makes of a taper of n days, from a plan that begins long before it.
func simulated(t *testing.T, p *planner.Plan, f *planner.Facts, race planner.Date, n int) (kept, shed float64, gain response.Range) {
	t.Helper()
	on := func(d planner.Date) *planner.Day {
		day, ok := p.Day(d)
		if !ok {
			t.Fatalf("%s is not in the plan", d)
		}
		return day
	}
	kept, shed = shares(f, race, n, func(d planner.Date) float64 { return ridden(on(d), f) })
	gains := make([]float64, 0, 128)
	for _, draw := range response.Prior() {
		sum := 0.0
		for u := 1; u <= n; u++ {
			if day := on(race.AddDays(-u)); day.Phase != planner.RaceDay && day.Phase != planner.Health {
				sum += (ridden(day, f) - usually(day, f)) / unitOf(f, race) * influence(draw, u)
			}
		}
		gains = append(gains, sum)
	}
	return kept, shed, quantiles(gains)
}

// influence of a unit of load u days before a race, in per cent (Fitz-Clarke et al. 1991).
func influence(d response.Draw, u int) float64 {
	return d.Percent * (d.K1*math.Exp(-float64(u)/d.Tau1) - d.K2*math.Exp(-float64(u)/d.Tau2))
}

// quantiles at 10, 50 and 90 %, linear between values.
func quantiles(values []float64) response.Range {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	at := func(q float64) float64 {
		i, part := math.Modf(q * float64(len(sorted)-1))
		return (1-part)*sorted[int(i)] + part*sorted[min(int(i)+1, len(sorted)-1)]
	}
	return response.Range{Low: at(0.1), Mid: at(0.5), High: at(0.9)}
}

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: got %.12f, want %.12f", what, got, want)
	}
}

func nearRange(t *testing.T, what string, got, want response.Range, by float64) {
	t.Helper()
	near(t, what+" (low)", got.Low, want.Low, by)
	near(t, what+" (mid)", got.Mid, want.Mid, by)
	near(t, what+" (high)", got.High, want.High, by)
}

// Kept, shed and gain are those of a simulation day by day (Morton et al. 1990, 45 and 15
// days), with a B race inside, rated rides, absences, limits, a block, an earlier race, other weeks.
func TestExpectedIsSimulated(t *testing.T) {
	b := raceOn(190, planner.PriorityB)
	b.Hours = 1.25
	day := func(n int) planner.Date { return firstDay.AddDays(n) }
	for name, change := range map[string]func(f *planner.Facts){
		"plain":             func(*planner.Facts) {},
		"told 28 days":      func(f *planner.Facts) { f.Taper.Days = 28 },
		"told 5 days, 80 %": func(f *planner.Facts) { f.Taper = planner.Taper{Days: 5, Cut: 80} },
		"linear":            func(f *planner.Facts) { f.Taper.Shape = planner.Linear },
		"B race inside":     func(f *planner.Facts) { f.Races = append(f.Races, b) },
		"stage race before": func(f *planner.Facts) {
			r := raceOn(150, planner.PriorityA)
			r.Days = 4
			f.Races = append(f.Races, r)
		},
		"rated rides": func(f *planner.Facts) {
			f.Done = []planner.Ride{{Date: day(70), Minutes: 400, RPE: 7}, {Date: day(150), Minutes: 200, RPE: 6}, {Date: day(192), Minutes: 90, RPE: 2.5},
				{Date: day(193), Minutes: 30, RPE: 9}, {Date: day(193), Minutes: 40, RPE: 2}, {Date: day(195), Minutes: 45, RPE: 3}}
		},
		"ridden without a rating": func(f *planner.Facts) {
			f.Done = []planner.Ride{{Date: day(191), Minutes: 77}, {Date: day(194), Minutes: 0}, {Date: day(196), Minutes: 20}}
		},
		"absence": func(f *planner.Facts) {
			f.Absences = []planner.Absence{{From: day(180), To: day(192)}, {From: day(194), To: day(195), Travel: true}}
		},
		"limits": func(f *planner.Facts) {
			f.Limits = []planner.Limit{{Date: day(193), Minutes: 33}, {Date: day(170), Minutes: 20}, {Date: day(196), Minutes: 300}}
		},
		"overload block": func(f *planner.Facts) { f.Blocks = []planner.Block{{From: day(160), To: day(183), Percent: 25}} },
		"head cold": func(f *planner.Facts) {
			f.Ill = []planner.Illness{{From: day(189), To: day(190), Symptoms: []string{"runny nose"}}}
		},
		"ill for weeks": func(f *planner.Facts) {
			f.Ill = []planner.Illness{{From: day(150), To: day(190), Symptoms: []string{"fever"}}}
		},
		"long absence":               func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day(90), To: day(175)}} },
		"absence until the taper":    func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day(60), To: day(185)}} },
		"absence into the taper":     func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day(60), To: day(196)}} },
		"absence until the race":     func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day(70), To: day(199)}} },
		"lighter week from D-26 on":  func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(174), lightWeek)) },
		"lighter week from D-29 on":  func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(171), lightWeek)) },
		"another week in the taper":  func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(190), mixedWeek)) },
		"lighter week for the race":  func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(196), lightWeek)) },
		"hardly a week for the race": func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(197), hardlyWeek)) },
	} {
		for _, week := range []string{evenWeek, mixedWeek} {
			t.Run(name, func(t *testing.T) {
				f := rider(t, week, raceOn(200, planner.PriorityA))
				change(f)
				goal := f.Races[0].Date
				early := planner.Derive(firstDay, f)
				for _, today := range []planner.Date{firstDay, goal - 25, goal - 6, goal - 1} {
					p := planner.Derive(today, f)
					sum := p.Tapers[len(p.Tapers)-1]
					kept, shed, gain := simulated(t, early, f, goal, sum.Days)
					near(t, "kept", sum.Expected.Kept, kept, 1e-9)
					near(t, "shed", sum.Expected.Shed, shed, 1e-9)
					nearRange(t, "gain", sum.Expected.Gain, gain, 1e-9)
				}
			})
		}
	}
}

// Without usual training nothing is expected, and nothing fails.
func TestNothingExpectedWithoutTraining(t *testing.T) {
	f := rider(t, "mon rest; tue rest; wed off; thu rest; fri rest; sat rest; sun rest", raceOn(100, planner.PriorityA))
	p := planner.Derive(firstDay, f)
	if len(p.Tapers) != 1 || p.Tapers[0].Expected != nil {
		t.Errorf("tapers: %+v", p.Tapers)
	}
	if _, ok := f.Options(firstDay, "Race 100", f.Races[0].Date); ok {
		t.Error("options without training")
	}
	if check := f.CheckSeason(firstDay); check != nil {
		t.Errorf("season check without training: %+v", check)
	}
	f.Weeks = nil
	if p := planner.Derive(firstDay, f); p.Tapers[0].Expected != nil {
		t.Errorf("no week told: %+v", p.Tapers[0].Expected)
	}
}

// inBounds checks what is expected of any taper at all.
func inBounds(e *planner.Expected) error {
	for _, v := range []float64{e.Kept, e.Shed} {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("share %v is outside 0 to 1", v)
		}
	}
	if g := e.Gain; !(g.Low <= g.Mid && g.Mid <= g.High) || math.IsInf(g.Low, 0) || math.IsInf(g.High, 0) {
		return fmt.Errorf("gain %+v", g)
	}
	return nil
}

// On random plans with all that happens to riders, expectations keep their
// bounds, also in plan files, and stay the same until race day if nothing new is told.
func TestExpectedKeepsBoundsAndStays(t *testing.T) {
	forEach(t, *planCount/50, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 31))
		input := plannertest.Generate(r)
		today, facts, faults := planfile.Read(input)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		stays := !slices.ContainsFunc(facts.Ill, func(ill planner.Illness) bool { return ill.To.IsZero() })
		for _, sum := range planner.Derive(today, facts).Tapers {
			if sum.Expected == nil {
				continue
			}
			if err := inBounds(sum.Expected); err != nil {
				t.Errorf("seed %d: %v\n%s", i, err, input)
			}
			left := today.DaysUntil(sum.Race.Date)
			for _, later := range []int{1, left / 2, left - 1, left} {
				if !stays || later < 1 || later > left {
					continue
				}
				p := planner.Derive(today.AddDays(later), facts)
				k := slices.IndexFunc(p.Tapers, func(s planner.TaperSummary) bool { return s.Race.Name == sum.Race.Name && s.Race.Date == sum.Race.Date })
				if k < 0 || !reflect.DeepEqual(p.Tapers[k].Expected, sum.Expected) {
					t.Errorf("seed %d: %s asked on %s, then %d days later: %+v, then %+v\n%s", i, sum.Race.Name, today, later, sum.Expected, p.Tapers, input)
				}
			}
		}
		checkWritten(t, planOf(t, input))
	})
}

// checkWritten reads the shares and gains of a plan file.
func checkWritten(t *testing.T, output []byte) {
	t.Helper()
	var file struct {
		Tapers []struct {
			Kept *float64 `json:"fitness_kept"`
			Shed *float64 `json:"fatigue_shed"`
			Gain *struct{ Low, Mid, High float64 }
		}
	}
	if err := json.Unmarshal(output, &file); err != nil {
		t.Fatal(err)
	}
	for _, taper := range file.Tapers {
		if taper.Kept == nil || taper.Shed == nil || taper.Gain == nil {
			continue
		}
		if err := inBounds(&planner.Expected{Kept: *taper.Kept, Shed: *taper.Shed, Gain: response.Range(*taper.Gain)}); err != nil {
			t.Errorf("plan file: %v", err)
		}
	}
}

// What is expected of a taper as it is by default lies within the published 0.5 to 6.0 %
// (Mujika and Padilla 2003: about 3 %).
func TestDefaultTapersGainAsPublished(t *testing.T) {
	forEach(t, *planCount/30, func(t *testing.T, i int) {
		input := plannertest.GenerateOrdinary(rand.New(rand.NewPCG(uint64(i), 37)))
		today, facts, faults := planfile.Read(input)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		facts.Taper = planner.Taper{}
		p := planner.Derive(today, facts)
		if e := p.Tapers[0].Expected; e.Gain.Mid < 0.5 || e.Gain.Mid > 6 || e.Gain.High < 1 {
			t.Errorf("seed %d: %+v from %d days\n%s", i, e.Gain, p.Tapers[0].Days, input)
		}
	})
}

// The linear model always wants more rest before one race: the deeper the cut, the more it
// expects (Fitz-Clarke et al. 1991: each load nearer than t_n harms).
func TestDeeperCutsGainMore(t *testing.T) {
	for _, week := range []string{mixedWeek, evenWeek} {
		for _, n := range []int{5, 7, 10, 14} {
			var before planner.TaperSummary
			for cut := planner.MinCut; cut <= planner.MaxCut; cut += 10 {
				f := rider(t, week, raceOn(200, planner.PriorityA))
				f.Taper = planner.Taper{Days: n, Cut: cut}
				sum := planner.Derive(f.Races[0].Date-40, f).Tapers[0]
				if before.Expected != nil && sum.CutPercent > before.CutPercent &&
					(sum.Expected.Gain.Mid <= before.Expected.Gain.Mid || sum.Expected.Shed <= before.Expected.Shed || sum.Expected.Kept >= before.Expected.Kept) {
					t.Errorf("%d days: %.1f %% gives %+v, %.1f %% gives %+v", n, before.CutPercent, *before.Expected, sum.CutPercent, *sum.Expected)
				}
				before = sum
			}
		}
	}
}
