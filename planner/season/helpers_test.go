package season

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
	"musette/planner/typed"
)

// The demo rider's week, and one whose days are all alike.
const (
	mixedWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
		"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"
	evenWeek = "mon endurance 1h30; tue endurance 1h30; wed endurance 1h30; thu endurance 1h30; " +
		"fri endurance 1h30; sat endurance 1h30; sun endurance 1h30"
)

// A week as riders share it for the days before a race, one of 20 minutes in all, and none.
const (
	lightWeek  = "mon rest; tue recovery 30min; wed rest; thu recovery 30min; fri rest; sat recovery 30min; sun rest"
	hardlyWeek = "mon rest; tue rest; wed rest; thu rest; fri rest; sat recovery 20min; sun rest"
	emptyWeek  = "mon rest; tue rest; wed off; thu rest; fri rest; sat rest; sun rest"
)

var firstDay = planner.NewDate(2026, 3, 2) // a Monday

// facts are those of a rider with a typical week and races.
func facts(tb testing.TB, week string, races ...planner.Race) *planner.Facts {
	tb.Helper()
	w, err := typed.Week(week)
	if err != nil {
		tb.Fatalf("%s: %v", week, err)
	}
	return &planner.Facts{Weeks: []planner.DatedWeek{{Week: w}}, Races: races}
}

// dated is a week in force from a date on.
func dated(tb testing.TB, from planner.Date, week string) planner.DatedWeek {
	tb.Helper()
	return planner.DatedWeek{From: from, Week: facts(tb, week).Weeks[0].Week}
}

// raceOn is a race of 3.5 h so many days after the first day, told long before.
func raceOn(day int, p planner.Priority) planner.Race {
	return planner.Race{Name: fmt.Sprintf("Race %d", day), Date: firstDay.AddDays(day), Priority: p, Hours: 3.5, Days: 1}
}

// rode is a ride that was entered on its own day.
func rode(d planner.Date, minutes int, rpe float64) planner.Ride {
	return planner.Ride{Date: d, Minutes: minutes, RPE: rpe, Told: planner.Told{On: d}}
}

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
	k := slices.IndexFunc(all, func(e struct {
		ID    string
		Value json.RawMessage
	}) bool {
		return e.ID == id
	})
	if k < 0 {
		t.Fatalf("no figure %s", id)
	}
	if err := json.Unmarshal(all[k].Value, into); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
}

// ratings are the usual session ratings (Foster 1998; the figures are common practice).
var ratings = map[planner.Kind]float64{
	planner.Recovery: 2, planner.Commute: 2, planner.Endurance: 3, planner.Indoor: 3, planner.Long: 4, planner.Openers: 3,
	planner.Intervals: 7, planner.Group: 7, planner.RaceRide: 8, planner.Strength: 5, planner.Other: 3,
}

// loadOf is minutes times rating.
func loadOf(sessions []planner.Session) float64 {
	total := 0.0
	for _, s := range sessions {
		rating := ratings[s.Kind]
		switch {
		case s.Kind == planner.RaceRide && s.Minutes <= 90:
			rating = 9
		case s.Effort == planner.Hard:
			rating = 7
		}
		total += float64(s.Minutes) * rating
	}
	return total
}

// meanLoad is the mean daily load of a week.
func meanLoad(w *planner.Week) float64 {
	total := 0.0
	for _, day := range w {
		if !day.Busy {
			total += loadOf(day.Sessions)
		}
	}
	return total / 7
}

// lived is the load of a planned day: as rated where its rides were, else as it stands.
func lived(f *planner.Facts, d *engine.Day) float64 {
	rated := 0.0
	for _, r := range f.Done {
		if r.Date == d.Date {
			rated += float64(r.Minutes) * r.RPE
		}
	}
	if rated > 0 {
		return rated
	}
	return loadOf(d.Sessions)
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
		return loadOf(day.Sessions)
	}
	return 0
}

// untapered is the load that a day would have without any race: nothing away or on
// a journey, within a limit as many of its minutes.
func untapered(f *planner.Facts, d planner.Date) float64 {
	usual, minutes := asUsual(f, d), weekAt(f, d)[d.Weekday()].RideMinutes()
	most := minutes
	for _, l := range f.Limits {
		if l.Date == d {
			most = min(most, l.Minutes)
		}
	}
	for _, a := range f.Absences {
		if a.From <= d && d <= a.To {
			most = 0
		}
	}
	if minutes == 0 {
		return usual
	}
	return usual * float64(most) / float64(minutes)
}

// unitOf is a rider's usual day before a race: of the week on its eve or before the longest taper, whichever is more.
func unitOf(f *planner.Facts, race planner.Date) float64 {
	return max(meanLoad(weekAt(f, race-1)), meanLoad(weekAt(f, race-29)))
}

// leftOut is by how much the load of D-u differs from what it would be without a taper, in usual days; a day that
// health forbids or on which another race is ridden does not.
func leftOut(f *planner.Facts, p *engine.Plan, race planner.Date, u int) float64 {
	day := p.Known(race.AddDays(-u))
	if day.Phase == planner.RaceDay || day.Phase == planner.Health {
		return 0
	}
	return (lived(f, day) - untapered(f, day.Date)) / unitOf(f, race)
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

// surely reports whether more than three of four values are above zero.
func surely(values []float64) bool {
	n := 0
	for _, v := range values {
		if v > 0 {
			n++
		}
	}
	return 4*n > 3*len(values)
}

func closeTo(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: got %.12f, want %.12f", what, got, want)
	}
}

func nearRange(t *testing.T, what string, got, want response.Range, by float64) {
	t.Helper()
	closeTo(t, what+" (low)", got.Low, want.Low, by)
	closeTo(t, what+" (mid)", got.Mid, want.Mid, by)
	closeTo(t, what+" (high)", got.High, want.High, by)
}

// taperOf is the taper that a plan has for the race of a name, nil for none.
func taperOf(p *engine.Plan, name string) *engine.Taper {
	for i := range p.Tapers {
		if p.Tapers[i].Race.Name == name {
			return &p.Tapers[i]
		}
	}
	return nil
}

// inBounds checks what is expected of any taper at all.
func inBounds(e Expected) error {
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

// forEach checks seeds, and goes on after one that panics.
func forEach(t *testing.T, n int, check func(i int)) {
	t.Helper()
	for i := range n {
		func() {
			defer func() {
				if fault := recover(); fault != nil {
					t.Errorf("seed %d: %v", i, fault)
				}
			}()
			check(i)
		}()
	}
}
