package show

import (
	"fmt"
	"strings"

	"musette/planner"
)

// WeekSum is hours, rides and hard days of a week.
func WeekSum(w *planner.Week) string {
	rides := 0
	var hard []string
	for i, p := range w {
		if p.RideMinutes() > 0 {
			rides++
		}
		if p.IsHard() {
			hard = append(hard, planner.Weekday(i).Short())
		}
	}
	sum := fmt.Sprintf("%s on %s", planner.Duration(w.RideMinutes()), Count(rides, "day"))
	if len(hard) == 0 {
		return sum + ", no hard day"
	}
	return fmt.Sprintf("%s, %s (%s)", sum, Count(len(hard), "hard day"), strings.Join(hard, ", "))
}

// NextRace is the first race that is not over, nil when there is none.
func NextRace(f *planner.Facts, today planner.Date) *planner.Race {
	var next *planner.Race
	for i := range f.Races {
		r := &f.Races[i]
		if r.Last() >= today && (next == nil || r.Date < next.Date) {
			next = r
		}
	}
	return next
}
