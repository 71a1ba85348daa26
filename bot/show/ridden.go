package show

import (
	"math"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/engine"
)

// DayOrToday is a day as the start of a sentence: Today, else its date.
func DayOrToday(date, today planner.Date) string {
	switch date {
	case today:
		return "Today"
	case today.AddDays(-1):
		return "Yesterday"
	}
	return Dated(date, today)
}

// RodeOn is a ride beside what was planned: 55min on Tue 2 Jun, as planned, RPE 8.
func RodeOn(r *planner.Ride, day *engine.Day, today planner.Date) string {
	return planner.Duration(r.Minutes) + " on " + Dated(r.Date, today) + against(r.Minutes, day) + rated(r.RPE)
}

// Ridden are the rides of a day beside what was planned: 55min and 40min, 1h35
// together (planned 1h30), RPE 7. Without a day it says nothing of a plan.
func Ridden(rides []planner.Ride, day *engine.Day) string {
	parts := make([]string, len(rides))
	for i, r := range rides {
		parts[i] = planner.Duration(r.Minutes)
	}
	minutes, rpe := planner.Ridden(rides)
	text := and(parts)
	if len(rides) > 1 {
		text += ", " + planner.Duration(minutes) + " together"
	}
	return text + against(minutes, day) + rated(rpe)
}

func against(minutes int, day *engine.Day) string {
	switch {
	case day == nil:
		return ""
	case day.Minutes() == minutes:
		return ", as planned"
	case day.Minutes() == 0:
		return " (rest was planned)"
	}
	return " (planned " + planner.Duration(day.Minutes()) + ")"
}

func rated(rpe float64) string {
	if rpe == 0 {
		return ""
	}
	return ", RPE " + Rating(rpe)
}

// Rating is an RPE with a decimal where it has one.
func Rating(rpe float64) string {
	return strconv.FormatFloat(math.Round(rpe*10)/10, 'f', -1, 64)
}

// and is "a, b and c".
func and(parts []string) string {
	last := len(parts) - 1
	if last < 1 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}
