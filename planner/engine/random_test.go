package engine_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/typed"
)

// day0 is a Monday before every race of the random facts.
var day0 = planner.NewDate(2027, 3, 1)

func week(t testing.TB, text string) planner.Week {
	t.Helper()
	w, err := typed.Week(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return w
}

func pick[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

// randomWeek is a week as riders have it, with free and busy days and one to three hard ones.
func randomWeek(t testing.TB, r *rand.Rand) planner.Week {
	t.Helper()
	scale := 0.4 + 1.6*r.Float64()
	m := func(minutes int) string { return fmt.Sprintf("%dmin", max(20, int(float64(minutes)*scale))) }
	names := []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
	days := make([]string, 7)
	for i := range days {
		days[i] = names[i] + " " + pick(r, "endurance "+m(80), "endurance "+m(110), "recovery "+m(45), "off", "busy", "commute "+m(40), "group "+m(90))
	}
	for range 1 + r.IntN(3) {
		i := r.IntN(7)
		days[i] = names[i] + " " + pick(r, "intervals "+m(80)+" 5x3min", "intervals "+m(90)+" 4x8min", "indoor "+m(70)+" 6x2min", "intervals "+m(95)+" 3x12min")
	}
	i := r.IntN(7)
	days[i] = names[i] + " long " + m(190)
	return week(t, strings.Join(days, "; "))
}

// randomFacts are a week and one to four races that are known from the start.
func randomFacts(t testing.TB, r *rand.Rand) *planner.Facts {
	t.Helper()
	f := &planner.Facts{Weeks: []planner.DatedWeek{{Week: randomWeek(t, r)}}}
	for i := range 1 + r.IntN(4) {
		race := planner.Race{
			Name: fmt.Sprintf("Race %d", i+1), ID: int64(i + 1), Date: day0.AddDays(20 + r.IntN(60)),
			Priority: pick(r, planner.PriorityA, planner.PriorityA, planner.PriorityB, planner.PriorityC),
			Hours:    pick(r, 0.5, 1, 2, 3.5, 5, 7), Days: pick(r, 1, 1, 1, 3),
		}
		if race.Priority == planner.PriorityB {
			race.Emphasis = planner.Emphasis(r.IntN(3))
		}
		f.Races = append(f.Races, race)
	}
	if r.IntN(3) == 0 {
		f.Taper.Days = 4 + r.IntN(20)
	}
	if r.IntN(3) == 0 {
		f.Taper.Cut = 30 + r.IntN(40)
	}
	return f
}

// happen tells something on a date: about that day or one soon after.
func happen(t testing.TB, r *rand.Rand, f *planner.Facts, on planner.Date) {
	t.Helper()
	told := planner.Told{On: on}
	if r.IntN(4) == 0 {
		told.Withdrawn = on.AddDays(1 + r.IntN(5))
	}
	day := on.AddDays(r.IntN(6))
	switch r.IntN(10) {
	case 0:
		f.Absences = append(f.Absences, planner.Absence{From: day, To: day.AddDays(r.IntN(4)), Travel: r.IntN(2) == 0, Told: told})
	case 1:
		f.Limits = append(f.Limits, planner.Limit{Date: day, Minutes: r.IntN(100), Told: told})
	case 2:
		f.Ill = append(f.Ill, planner.Illness{From: on, To: on.AddDays(r.IntN(3)), Symptoms: []string{pick(r, "runny nose", "fever", "sore throat")}, Told: told})
	case 3:
		for i := range f.Races {
			if race := &f.Races[i]; race.Date <= on && on <= race.Last() {
				return // of a race its result is told
			}
		}
		f.Done = append(f.Done, planner.Ride{Date: on, Minutes: r.IntN(200), RPE: float64(r.IntN(11)), Told: planner.Told{On: on}})
	case 4:
		f.Moves = append(f.Moves, planner.Move{From: day, To: day.AddDays(1 + r.IntN(3)), Told: told})
	case 5:
		if on <= f.Taper.On {
			return
		}
		f.OldTaper = append(f.OldTaper, f.Taper)
		f.OldTaper[len(f.OldTaper)-1].Withdrawn = on
		f.Taper.Cut, f.Taper.Told = 30+r.IntN(40), planner.Told{On: on}
	case 6:
		f.Weeks = append(f.Weeks, planner.DatedWeek{From: on, Week: randomWeek(t, r), Told: planner.Told{On: on}})
	case 7:
		f.Blocks = append(f.Blocks, planner.Block{From: day, To: day.AddDays(7 + r.IntN(7)), Percent: 20, Told: told})
	case 8:
		f.Races = append(f.Races, planner.Race{Name: "Late one", ID: int64(10 + len(f.Races)), Date: on.AddDays(3 + r.IntN(12)), Days: 1, Hours: 2, Priority: pick(r, planner.PriorityA, planner.PriorityB), Registered: on, Told: told})
	case 9:
		mid := 40 + r.IntN(160)
		f.Taught = append(f.Taught, planner.Taught{Races: 6, Low: mid - 15, Mid: mid, High: mid + 15, Told: told})
	}
}
