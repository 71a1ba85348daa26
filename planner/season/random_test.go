package season

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"musette/planner"
)

var weekdays = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// sets of hard days and the minutes that they need at least.
var sets = []struct {
	text  string
	least int
}{{"5x3min", 65}, {"4x8min", 85}, {"3x10min", 80}, {"6x3min", 70}, {"4x4min", 65}, {"2x20min", 90}, {"10x1min", 55}, {"8x2min", 65}, {"3x12min", 85}, {"6x5min", 85}}

func oneOf[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// ordinaryWeek is a week of about 8 to 15 h on five days or more, with one to
// three hard days apart and a long ride.
func ordinaryWeek(r *rand.Rand) string {
	for {
		kinds := [7]string{}
		order := r.Perm(7)
		free, hard := r.IntN(3), 1+r.IntN(3)
		for i, d := range order {
			switch {
			case i < free:
				kinds[d] = oneOf(r, "off", "rest")
			case i < free+hard:
				kinds[d] = "intervals"
			case i == free+hard:
				kinds[d] = "long"
			default:
				kinds[d] = oneOf(r, "endurance", "endurance", "endurance", "recovery")
			}
		}
		apart := true
		for i := range kinds {
			apart = apart && !(kinds[i] == "intervals" && kinds[(i+1)%7] == "intervals")
		}
		if week, minutes := writeWeek(r, kinds, 480+r.IntN(421)); apart && minutes >= 480 && minutes <= 900 {
			return week
		}
	}
}

// writeWeek gives the days their lengths.
func writeWeek(r *rand.Rand, kinds [7]string, total int) (week string, minutes int) {
	share := map[string]float64{"long": 2.3, "endurance": 1.25, "recovery": 0.5, "intervals": 1.2}
	sum := 0.0
	for _, kind := range kinds {
		sum += share[kind]
	}
	var parts []string
	for d, kind := range kinds {
		m := int(float64(total) * share[kind] / sum * (0.8 + 0.4*r.Float64()))
		switch kind {
		case "off", "rest":
			parts = append(parts, weekdays[d]+" "+kind)
			continue
		case "intervals":
			set := oneOf(r, sets...)
			m = max(m, set.least)
			kind = fmt.Sprintf("%s %dmin %s", kind, m, set.text)
		default:
			m = max(m, 25)
			kind = fmt.Sprintf("%s %dmin", kind, m)
		}
		minutes += m
		parts = append(parts, weekdays[d]+" "+kind)
	}
	return strings.Join(parts, "; "), minutes
}

// oddWeek is any week at all.
func oddWeek(r *rand.Rand) string {
	var parts []string
	size := 0.3 + 2*r.Float64()*r.Float64()
	for d := range weekdays {
		n := oneOf(r, 0, 0, 1, 1, 1, 1, 1, 2)
		text := oneOf(r, "rest", "off", "busy")
		for k := range n {
			m := max(20, int(size*float64(30+r.IntN(150))))
			kind := oneOf(r, "recovery", "endurance", "endurance", "long", "intervals", "intervals", "group", "commute", "indoor", "other", "strength")
			set := oneOf(r, sets...)
			switch kind {
			case "intervals", "indoor":
				if r.IntN(3) > 0 {
					m = max(m, set.least)
					kind = fmt.Sprintf("%s %dmin %s", kind, m, set.text)
					break
				}
				fallthrough
			default:
				kind = fmt.Sprintf("%s %dmin", kind, m)
			}
			if k == 0 {
				text = kind
			} else {
				text += " + " + kind
			}
		}
		parts = append(parts, weekdays[d]+" "+text)
	}
	return strings.Join(parts, "; ")
}

// minuteMore is the facts with one minute more on one weekday, false on one that
// is not ridden.
func minuteMore(f *planner.Facts, weekday int) (*planner.Facts, bool) {
	out := *f
	week := f.Weeks[0].Week
	sessions := append([]planner.Session(nil), week[weekday].Sessions...)
	for i := range sessions {
		if sessions[i].Kind.IsRide() {
			sessions[i].Minutes++
			week[weekday].Sessions = sessions
			out.Weeks = []planner.DatedWeek{{Week: week}}
			return &out, true
		}
	}
	return nil, false
}

// oneRace is a rider with one A race with room.
func oneRace(tb testing.TB, r *rand.Rand, week string) *planner.Facts {
	tb.Helper()
	race := raceOn(60+r.IntN(7), planner.PriorityA)
	race.Hours = oneOf(r, 0.75, 1, 1.5, 2, 3, 3.5, 4.5, 6)
	return facts(tb, week, race)
}

// eventful is a rider with one A race and what may happen around it.
func eventful(tb testing.TB, r *rand.Rand, week string) *planner.Facts {
	tb.Helper()
	f := oneRace(tb, r, week)
	race := &f.Races[0]
	race.Hours = oneOf(r, 0.3, 1, 2, 5, 7, 10, 30)
	race.Kind = oneOf(r, "", "", "time trial", "climb")
	if r.IntN(4) == 0 {
		race.Days, race.Hours = 2+r.IntN(5), 4
	}
	f.Taper.Cut = oneOf(r, 0, 0, 0, 20, 50, 80)
	f.Taper.Pattern = oneOf(r, planner.UsualDays, planner.UsualDays, planner.EverySecondDay, planner.EveryThirdDay)
	f.Taper.OpenersD2 = r.IntN(4) == 0
	goal := firstDay.DaysUntil(race.Date)
	for range r.IntN(4) {
		before := 1 + r.IntN(16)
		d := race.Date.AddDays(-before)
		switch r.IntN(6) {
		case 0:
			f.Limits = append(f.Limits, planner.Limit{Date: d, Minutes: r.IntN(80)})
		case 1:
			f.Absences = append(f.Absences, planner.Absence{From: d, To: min(race.Date-1, d.AddDays(r.IntN(6))), Travel: r.IntN(2) == 0})
		case 2:
			other := raceOn(goal-before, oneOf(r, planner.PriorityB, planner.PriorityC))
			other.Hours = oneOf(r, 1.0, 2, 4)
			f.Races = append(f.Races, other)
		case 3:
			f.Races = append(f.Races, raceOn(goal+5+r.IntN(40), planner.PriorityA))
		case 4:
			f.Blocks = append(f.Blocks, planner.Block{From: d - 20, To: d, Percent: 20})
		case 5:
			f.Ill = append(f.Ill, planner.Illness{From: d, To: d.AddDays(r.IntN(4)), Symptoms: []string{oneOf(r, "fever", "runny nose")}})
		}
		race = &f.Races[0]
	}
	return f
}
