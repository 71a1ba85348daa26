package bottest

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/typed"
)

// anybody is some rider on some day: weeks, races and what happens, each told on
// a day of its own and now and then taken back.
type anybody struct {
	*rand.Rand
	today planner.Date
}

// AnyFacts are the facts of somebody and a day on which to ask.
func AnyFacts(t *testing.T, r *rand.Rand) (planner.Date, *planner.Facts) {
	t.Helper()
	a := anybody{r, planner.NewDate(2026, 1, 5).AddDays(r.IntN(500))}
	f := &planner.Facts{}
	for i := range 1 + r.IntN(2) {
		week, err := typed.Week(a.week())
		if err != nil {
			t.Fatal(err)
		}
		f.Weeks = append(f.Weeks, planner.DatedWeek{From: a.today.AddDays(200*i - 150), Week: week, Told: planner.Told{On: a.today.AddDays(20*i - 150)}})
	}
	f.Taper = planner.Taper{Days: pickOf(r, 0, 0, 0, 4, 10, 28), Cut: pickOf(r, 0, 0, 20, 50, 80),
		Pattern: pickOf(r, planner.UsualDays, planner.EverySecondDay, planner.EveryThirdDay), OpenersD2: r.IntN(5) == 0}
	for i := range r.IntN(7) {
		f.Races = append(f.Races, a.race(i))
	}
	slices.SortStableFunc(f.Races, func(x, y planner.Race) int { return int(x.Date - y.Date) })
	for range r.IntN(5) {
		a.happens(f)
	}
	return a.today, f
}

// pickOf is one of several values.
func pickOf[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

func (a *anybody) week() string {
	text := ""
	for d := range 7 {
		kind := pickOf(a.Rand, "rest", "busy", "recovery 40min", "endurance", "endurance", "long", "intervals", "group", "commute 25min", "strength 30min", "indoor 1h 2x15min")
		switch kind {
		case "endurance", "long", "group":
			kind = fmt.Sprintf("%s %dmin", kind, 40+a.IntN(160))
		case "intervals":
			kind += pickOf(a.Rand, " 1h30 5x3min", " 2h 4x8min", " 1h", " 1h15 10x1min")
		}
		text += planner.Weekday(d).Short() + " " + kind + "; "
	}
	return text
}

func (a *anybody) race(i int) planner.Race {
	date := a.today.AddDays(a.IntN(200) - 60)
	r := planner.Race{ID: int64(i + 1), Name: fmt.Sprintf("Race %d", i+1), Date: date, Priority: planner.Priority(a.IntN(3)), Days: pickOf(a.Rand, 1, 1, 1, 1, 5),
		Hours: pickOf(a.Rand, 0, 0.75, 2, 3.5, 6, 12), Kind: pickOf(a.Rand, "", "time trial", "criterium"), Start: pickOf(a.Rand, "", "10:30"),
		Emphasis: planner.Emphasis(a.IntN(3)), TaperDays: pickOf(a.Rand, 0, 0, 0, 12)}
	r.Told = a.told(date)
	r.Registered = r.On
	return r
}

// told is a day before a date on which something was entered, and perhaps one on
// which it was taken back.
func (a *anybody) told(date planner.Date) planner.Told {
	t := planner.Told{On: min(a.today, date).AddDays(-a.IntN(60))}
	if back := t.On.AddDays(a.IntN(40)); a.IntN(5) == 0 && back <= a.today {
		t.Withdrawn = back
	}
	return t
}

func (a *anybody) happens(f *planner.Facts) {
	d := a.today.AddDays(a.IntN(60) - 20)
	if len(f.Races) > 0 && a.IntN(2) == 0 {
		d = f.Races[a.IntN(len(f.Races))].Date.AddDays(-1 - a.IntN(14))
	}
	told := a.told(d)
	switch a.IntN(6) {
	case 0:
		f.Limits = append(f.Limits, planner.Limit{Date: d, Minutes: a.IntN(90), Told: told})
	case 1:
		f.Absences = append(f.Absences, planner.Absence{From: d, To: d.AddDays(a.IntN(6)), Travel: a.IntN(2) == 0, Told: told})
	case 2:
		f.Blocks = append(f.Blocks, planner.Block{From: d.AddDays(-14), To: d, Percent: 20, Told: a.told(d.AddDays(-14))})
	case 3:
		f.Ill = append(f.Ill, planner.Illness{From: min(d, a.today), To: min(d, a.today).AddDays(a.IntN(4)), Symptoms: []string{pickOf(a.Rand, "fever", "runny nose", "concussion")},
			Told: planner.Told{On: min(d, a.today)}})
	case 4:
		f.Moves = append(f.Moves, planner.Move{From: d, To: d.AddDays(1 + a.IntN(3)), Told: told})
	case 5:
		for i := range 10 {
			day := a.today.AddDays(-i)
			f.Done = append(f.Done, planner.Ride{Date: day, Minutes: a.IntN(150), RPE: float64(a.IntN(11)), Told: planner.Told{On: day}})
		}
	}
}
