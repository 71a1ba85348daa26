package plannertest

import (
	"slices"
	"testing"
)

type fault struct {
	rule   string
	base   func(*testing.T) *scene
	change func(*scene)
}

// lines makes a change of days out of their new lines.
func lines(list ...string) func(*scene) {
	return func(s *scene) { s.set(list...) }
}

func finish(f func(*outFile)) func(*scene) {
	return func(s *scene) { s.finish = f }
}

func faults() []fault {
	list := append(contractFaults(), windowFaults()...)
	return append(append(list, patternFaults()...), raceFaults()...)
}

func contractFaults() []fault {
	return []fault{
		{"contract.days", sevenDays, finish(func(o *outFile) { o.Days = slices.Delete(o.Days, 3, 4) })},
		{"contract.days", noRace, finish(func(o *outFile) { o.Days[0].Weekday = "sun" })},
		{"contract.end", sevenDays, func(s *scene) { s.last = "2026-05-29" }},
		{"contract.end", noRace, func(s *scene) { s.last = "2026-05-26" }},
		{"contract.session", noRace, finish(func(o *outFile) { o.Days[0].Sessions[0].Text = "" })},
		{"contract.session", sevenDays, lines("2026-05-18 taper: recovery 40 openers")},
		{"contract.rest", sevenDays, lines("2026-05-21 taper: rest 10 rest")},
		{"contract.usual", noRace, finish(func(o *outFile) {
			o.Days[0].Usual[0].Minutes, o.Days[0].Sessions[0].Minutes = 80, 80
		})},
		{"contract.changed", sevenDays, finish(func(o *outFile) { o.Days[2].Why = nil; o.Days[2].Why = []outWhy{} })},
		{"contract.changed", noRace, finish(func(o *outFile) { o.Days[0].Why = []outWhy{{"a", "b", "c"}} })},
		{"contract.why", sevenDays, finish(func(o *outFile) { o.Days[2].Why[0].Source = " " })},
		{"contract.five", sevenDays, lines("2026-05-19 taper: endurance 47 easy")},
		{"contract.cautions", sevenDays, finish(func(o *outFile) { o.Days[2].Cautions = []string{} })},
		{"contract.warnings", sevenDays, func(s *scene) { s.warn("taper.volume", "less than asked") }},
		{"contract.phase", sevenDays, lines("2026-05-21 normal:")},
		{"contract.race", sevenDays, finish(func(o *outFile) { x := "Nobody's Race"; o.Days[0].Race = &x })},
		{"contract.tapers", sevenDays, finish(func(o *outFile) { o.Tapers[0].PlannedRides = 5 })},
		{"contract.tapers", sevenDays, finish(func(o *outFile) { o.Tapers[0].CutPercent = 51.4 })},
		{"day.off", fourteenDays, lines("2026-05-14 taper: strength 30 steady")},
		{"day.off", noRace, func(s *scene) { s.in.Away = []span{{From: "2026-05-16", To: "2026-05-16", Kind: "off"}} }},
		{"day.limit", noRace, func(s *scene) { s.in.Limits = []limit{{"2026-05-16", 60}} }},
		{"day.travel", noRace, func(s *scene) {
			s.in.Away = []span{{From: "2026-05-18", To: "2026-05-19", Kind: "travel"}}
		}},
		{"health.fever", noRace, func(s *scene) {
			s.in.Sick = []span{{From: "2026-05-15", To: "2026-05-15", Symptoms: []string{"fever"}}}
			s.set("2026-05-15 health: recovery 30 easy")
			s.warn("health.easy", "Rest until the fever is gone.")
		}},
		{"health.return", noRace, func(s *scene) {
			s.in.Sick = []span{{From: "2026-05-15", To: "2026-05-16", Symptoms: []string{"fever"}}}
			s.set("2026-05-15 health: rest 0 rest", "2026-05-16 health: rest 0 rest")
			s.warn("health.easy", "Rest until the fever is gone.")
		}},
		{"health.race", sevenDays, func(s *scene) {
			s.in.Sick = []span{{From: "2026-05-22", To: "2026-05-22", Symptoms: []string{"fever"}}}
			s.set("2026-05-22 health: rest 0 rest")
			s.warn("health.easy", "Rest until the fever is gone.")
		}},
		{"health.easy", noRace, func(s *scene) {
			s.in.Sick = []span{{From: "2026-05-15", To: "2026-05-15", Symptoms: []string{"runny nose"}}}
			s.set("2026-05-15 health: recovery 60 easy")
		}},
		{"health.stop", noRace, func(s *scene) {
			s.in.Sick = []span{{From: "2026-05-15", Symptoms: []string{"chest pain"}}}
			for d, end := day(20588), day(20601); d <= end; d++ {
				s.set(d.String() + " health: rest 0 rest")
			}
			s.set("2026-05-20 normal: rest 0 rest")
			s.warn("health.stop", "Stop and see a doctor now.")
		}},
	}
}

func windowFaults() []fault {
	return []fault{
		{"taper.window", noRace, finish(func(o *outFile) {
			o.Tapers = []outTaper{{Race: "Nobody's Race", Priority: "A", Days: 7, From: "2026-05-20"}}
		})},
		{"taper.window", sevenDays, finish(func(o *outFile) {
			o.Tapers[0].From = "2026-05-16"
			o.Tapers[0].Days = 8
			o.Days[1].Phase = "taper"
			o.Days[1].Sessions = []outSession{{"endurance", 100, "easy", nil, "2-3", "easy"}}
			o.Days[1].Why = []outWhy{{"a", "b", "c"}}
			o.Tapers[0].UsualMinutes, o.Tapers[0].PlannedMinutes = 790, 400
			o.Tapers[0].UsualRides, o.Tapers[0].PlannedRides, o.Tapers[0].CutPercent = 7, 7, 49.4
		})},
		{"taper.cut", sevenDays, func(s *scene) {
			s.in.Taper["cut"] = 39.0
			s.warn("taper.volume", "Alder Loop: less than 60 minutes a day")
		}},
		{"taper.volume", fourteenDays, lines("2026-05-16 taper: endurance 180 easy")},
		{"taper.volume", sevenDays, lines("2026-05-17 taper: intervals 50 hard 2x8min", "2026-05-19 taper: endurance 30 easy", "2026-05-20 taper: intervals 40 hard 3x3min")},
		{"taper.frequency", long14, lines("2026-05-11 taper: rest 0 rest", "2026-05-13 taper: rest 0 rest",
			"2026-05-16 taper: rest 0 rest", "2026-05-19 taper: endurance 180 easy", "2026-05-10 taper: intervals 208 hard 4x8min",
			"2026-05-10 taper: intervals 240 hard 4x8min", "2026-05-12 taper: intervals 180 hard 5x3min",
			"2026-05-15 taper: intervals 205 hard 2x8min", "2026-05-19 taper: endurance 90 easy")},
		{"taper.shape", fourteenDays, lines("2026-05-16 taper: endurance 45 easy", "2026-05-12 taper: intervals 55 hard 5x3min",
			"2026-05-13 taper: recovery 30 easy", "2026-05-17 taper: intervals 85 hard 2x8min", "2026-05-20 taper: intervals 60 hard 3x3min")},
		{"taper.least", sevenDays, lines("2026-05-22 taper: recovery 25 easy")},
		{"taper.most", sevenDays, lines("2026-05-22 taper: recovery 65 easy", "2026-05-19 taper: endurance 35 easy")},
		{"taper.polar", sevenDays, lines("2026-05-19 taper: endurance 45 steady")},
		{"taper.strength", sevenDays, lines("2026-05-22 taper: recovery 30 easy, strength 30 steady")},
		{"taper.intensity", sevenDays, lines("2026-05-17 taper: intervals 65 hard 3x8min")},
		{"taper.intensity", sevenDays, lines("2026-05-20 taper: intervals 50 hard 2x8min")},
		{"taper.intensity", fourteenDays, lines("2026-05-10 taper: intervals 75 hard 2x8min")},
		{"taper.intensity", sevenDays, lines("2026-05-17 taper: intervals 110 hard 2x8min", "2026-05-20 taper: intervals 40 hard 3x3min", "2026-05-19 taper: endurance 35 easy", "2026-05-23 taper: openers 60 openers")},
		{"taper.hard-block", fourteenDays, lines("2026-05-10 taper: endurance 75 easy", "2026-05-12 taper: endurance 55 easy", "2026-05-15 taper: endurance 50 easy")},
	}
}

func patternFaults() []fault {
	return []fault{
		{"taper.eve", fourteenDays, lines("2026-05-22 taper: intervals 50 hard 2x8min")},
		{"taper.two-hard", fourteenDays, lines("2026-05-12 taper: recovery 55 easy", "2026-05-16 taper: intervals 50 hard 2x8min",
			"2026-05-17 taper: endurance 50 easy", "2026-05-11 taper: recovery 60 easy")},
		{"taper.pattern", fourteenDays, lines("2026-05-19 taper: intervals 40 hard 3x3min", "2026-05-20 taper: endurance 30 easy")},
		{"taper.density", long14, lines("2026-05-12 taper: recovery 110 easy", "2026-05-15 taper: endurance 100 easy")},
		{"taper.density", farWindow, lines("2026-05-05 taper: recovery 100 easy", "2026-05-09 taper: endurance 270 easy")},
		{"taper.density", farWindow, lines("2026-05-06 taper: intervals 100 hard 5x3min", "2026-05-05 taper: recovery 100 easy", "2026-05-09 taper: endurance 260 easy")},
		{"taper.density", fourteenDays, func(s *scene) { s.in.Taper["pattern"] = "third" }},
		{"taper.one-week", sevenDays, func(s *scene) { s.in.Week["thu"] = "rest"; s.set("2026-05-22 taper: endurance 30 easy") }},
		{"taper.one-week", sevenDays, lines("2026-05-18 taper: recovery 35 easy", "2026-05-19 taper: recovery 30 easy", "2026-05-17 taper: endurance 65 easy",
			"2026-05-18 taper: intervals 50 hard 2x8min")},
		{"taper.two-week", fourteenDays, lines("2026-05-13 taper: endurance 60 easy")},
		{"taper.overload", overloaded, lines("2026-05-10 taper: endurance 60 easy")},
		{"taper.overload", overloaded, lines("2026-05-13 taper: endurance 60 easy")},
		{"day.overload", overloaded, lines("2026-05-09 overload: long 180 steady")},
		{"taper.openers", sevenDays, lines("2026-05-23 taper: openers 55 openers")},
		{"taper.openers", sevenDays, lines("2026-05-23 taper: endurance 70 easy")},
		{"taper.moved-rest", sevenDays, func(s *scene) {
			s.in.Week["sat"], s.in.Week["thu"] = "rest", "long 3h"
			s.set("2026-05-16 normal:", "2026-05-21 taper: rest 0 rest", "2026-05-20 taper: intervals 50 hard 3x3min")
			s.warn("taper.pattern", "Alder Loop: the pattern gave way")
		}},
	}
}

func raceFaults() []fault {
	return []fault{
		{"race.day", sevenDays, lines("2026-05-24 race: race 180 race")},
		{"race.day", sevenDays, lines("2026-05-24 race: race 210 race, recovery 30 easy")},
		{"race.day", sevenDays, func(s *scene) { s.in.Races[0].Start = "11:00" }},
		{"race.after", bRace, lines("2026-05-25 recovery: recovery 65 easy")},
		{"race.recovery", sevenDays, lines("2026-05-26 recovery: intervals 90 hard 5x3min")},
		{"race.recovery", sevenDays, lines("2026-05-27 recovery:")},
		{"b.window", bRace, lines("2026-05-22 taper:")},
		{"b.window", bRace, lines("2026-05-23 taper:")},
		{"b.window", bRace, lines("2026-05-20 taper: endurance 60 easy")},
		{"b.window", bRace, lines("2026-05-21 taper:", "2026-05-20 taper: intervals 75 hard 4x8min")},
		{"c.train-through", cRace, lines("2026-05-21 normal:", "2026-05-22 normal: endurance 60 easy")},
		{"c.train-through", cFriday, lines("2026-05-24 normal:")},
		{"c.after", cRace, lines("2026-05-24 normal: endurance 100 easy")},
		{"plan.unchanged", noRace, lines("2026-05-20 normal: endurance 60 easy")},
		{"race.hours", sevenDays, func(s *scene) {
			s.in.Races[0].Hours = 0
			s.last = "2026-05-27"
			s.set("2026-05-24 race: race 120 race", "2026-05-27 normal:")
		}},
		{"race.same-day", sevenDays, func(s *scene) {
			s.in.Races = append(s.in.Races, inputRace{Name: "Cedar Dash", Date: "2026-05-24", Priority: "C", Hours: 1, Registered: "2026-04-01"})
		}},
		{"season.close", sevenDays, func(s *scene) {
			s.in.Races = append(s.in.Races, inputRace{Name: "Dune Round", Date: "2026-05-28", Priority: "A", Hours: 1, Registered: "2026-04-01"})
			s.last = "2026-05-30"
			s.set("2026-05-28 race: race 60 race", "2026-05-29 recovery: recovery 40 easy")
		}},
		{"season.inside", sevenDays, func(s *scene) {
			s.in.Races = append(s.in.Races, inputRace{Name: "Cedar Dash", Date: "2026-05-17", Priority: "C", Hours: 2, Registered: "2026-04-01"})
			s.set("2026-05-17 race: race 120 race", "2026-05-19 taper: endurance 30 easy", "2026-05-20 taper: intervals 40 hard 3x3min")
		}},
		{"season.two-b", bRace, func(s *scene) {
			s.in.Races = append(s.in.Races, inputRace{Name: "Elm Circuit", Date: "2026-05-26", Priority: "B", Hours: 1, Registered: "2026-04-01"})
			s.last = "2026-05-28"
			s.set("2026-05-25 taper: openers 60 openers", "2026-05-26 race: race 60 race", "2026-05-27 recovery: endurance 50 easy")
		}},
	}
}
