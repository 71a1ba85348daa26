package plannertest

import (
	"slices"

	"musette/planner"
)

// healthChecks are about illness and stops.
var healthChecks = []check{
	{rule: "health.stop", plan: checkStop, held: true, faults: []fault{
		{`"sick":[{"from":"2026-05-24","symptoms":["chest pain"]}]`, sets("2026-05-29", "recovery 30 easy")},
		{`"holds":[{"date":"2026-05-24","level":"doctor"}]`, sets("2026-05-29", "recovery 30 easy")},
	}},
	{rule: "health.easy", plan: checkIll, held: true, faults: []fault{
		{`"sick":[{"from":"2026-05-24","to":"2026-05-26","symptoms":["fever"]}]`, sets("2026-05-28", "recovery 30 easy")},
		{`"sick":[{"from":"2026-05-24","to":"2026-05-26","symptoms":["fever"]}]`, sets("2026-05-29", "intervals 60 hard 3x3min")},
		{`"holds":[{"date":"2026-05-20","level":"head","cleared":"2026-05-24"}]`, sets("2026-05-29", "endurance 120 steady")},
		{`"holds":[{"date":"2026-05-24","level":"head","cleared":"2026-05-24"}]`, sets("2026-05-25", "recovery 20 easy")},
		{`"holds":[{"date":"2026-05-20","level":"head","cleared":"2026-05-24"}]`, sets("2026-05-29", "intervals 60 hard 3x3min")},
	}},
}

// Symptoms as the generator writes them; all others take the rest of an illness.
var (
	stops = []string{"chest pain", "fainting", "palpitations", "knock on the head"}
	colds = []string{"runny nose", "sore throat"}
)

func anyOf(ill planner.Illness, words []string) bool {
	return slices.ContainsFunc(ill.Symptoms, func(s string) bool { return slices.Contains(words, s) })
}

func onlyColds(ill planner.Illness) bool {
	for _, s := range ill.Symptoms {
		if !slices.Contains(colds, s) {
			return false
		}
	}
	return len(ill.Symptoms) > 0
}

// stopped is the first day of a stop that no doctor has lifted, zero for none.
func (v *view) stopped() (from planner.Date) {
	for _, ill := range v.f.Ill {
		if anyOf(ill, stops) && ill.Cleared.IsZero() && (from.IsZero() || ill.From < from) {
			from = ill.From
		}
	}
	for _, h := range v.f.Holds {
		if h.Cleared.IsZero() && (from.IsZero() || h.Date < from) {
			from = h.Date
		}
	}
	return from
}

// checkStop: from a stop on nothing but rest, no taper, and a warning.
func checkStop(v *view) {
	from := v.stopped()
	if from.IsZero() {
		return
	}
	if !v.warned(nil, "health.stop") || len(v.out.Tapers) > 0 {
		v.failPlan("a stop without its warning, or with tapers")
	}
	for d := max(from, v.today); d <= v.last; d++ {
		if !has(v.days[d].Sessions, "rest") || v.days[d].Phase != "health" {
			v.fail(d, "%s after a stop", keys(v.days[d].Sessions))
		}
	}
}

// checkIll: ill days are rest, and so are two days after all but a cold, and the day
// after a knock on the head. In the return nothing is hard but a race that may be started.
func checkIll(v *view) {
	for _, ill := range v.f.Troubles() {
		last := ill.To
		head := anyOf(ill, stops) || ill.Level.Holds()
		switch {
		case head && ill.Cleared.IsZero():
			continue
		case head:
			last = ill.Cleared - 1
		case ill.To.IsZero():
			last = v.last
		}
		rest := last
		if !head && !onlyColds(ill) {
			rest += 2
		}
		if anyOf(ill, stops[len(stops)-1:]) || ill.Level == planner.LevelHead {
			rest = max(rest, ill.From+1)
		}
		back := rest.AddDays(max(3, min(7, ill.From.DaysUntil(last)+1)))
		if anyOf(ill, stops) || ill.Level == planner.LevelHead {
			back = rest.AddDays(6)
		}
		for d := max(v.today, ill.From); d <= min(back, v.last); d++ {
			day := v.days[d]
			switch {
			case v.logged(d):
			case d <= last && minutes(day.Sessions) > 0, d <= rest && minutes(day.Sessions) > 0 && v.raceOn(d) == nil:
				v.fail(d, "%s, ill until %s", keys(day.Sessions), last)
			case hard(day.Sessions) && v.raceOn(d) == nil:
				v.fail(d, "%s on the way back from an illness", keys(day.Sessions))
			case minutes(day.Sessions) > max(75, min(90, minutes(day.Usual)/2)) && v.raceOn(d) == nil && !head:
				v.fail(d, "%s, at most 75 min or half of a long ride on the way back", keys(day.Sessions))
			case minutes(day.Sessions) > 90 && v.raceOn(d) == nil:
				v.fail(d, "%s, at most 90 min on the way back", keys(day.Sessions))
			}
		}
		if back >= v.today && v.stopped().IsZero() && !v.warned(nil, "health.easy") {
			v.failPlan("no warning of an illness from %s", ill.From)
		}
	}
}
