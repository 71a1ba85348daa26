package show

import (
	"musette/planner"
)

// Span is a stretch of days: Thu 4 Jun to Sat 6 Jun, with years where one is not today's.
func Span(from, to, today planner.Date) string {
	if from == to {
		return Dated(from, today)
	}
	return Dated(from, today) + " to " + Dated(to, today)
}

// Dated is a day in short, with its year where that is not today's.
func Dated(d, today planner.Date) string {
	if year := d.String()[:4]; year != today.String()[:4] {
		return d.Short() + " " + year
	}
	return d.Short()
}

func AwayWord(travel bool) string {
	if travel {
		return "travelling, no rides"
	}
	return "away, no training"
}
