package words

import (
	"fmt"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/raceday"
)

// openerEfforts are the short hard efforts of an openers ride (common practice).
const (
	openerEfforts      = "3 x 1 min and 2 x 10 s"
	timeTrialEfforts   = "1 x 4 min at race effort and 3 x 30 s"
	warmUp, coolDown   = 15, 10 // minutes around a hard set (common practice)
	spare              = 10     // of them that a short ride may leave out (our choice)
	commuteText        = "easy, to work and back."
	easyText           = "easy: you can talk in full sentences."
	steadyText         = "steady, as usual: below threshold."
	openersOtherEffort = "easy with a few short hard efforts."
)

// Session is the planned session i of a day in words that a rider can follow.
func Session(d *engine.Day, i int) string {
	s := d.Sessions[i]
	length := planner.Duration(int(s.Minutes))
	switch s.Kind {
	case planner.Rest:
		if d.Phase == planner.Health {
			return "Rest and recover."
		}
		return "Rest day."
	case planner.Strength:
		return fmt.Sprintf("Strength, %s.", length)
	case planner.RaceRide:
		if d.Phase == planner.RaceDay {
			return raceText(d, s)
		}
	case planner.Openers:
		return fmt.Sprintf("Openers: %s easy with %s hard but not all-out. Recover fully between them. Stop while you feel fresh.", length, efforts(d))
	case planner.Commute:
		return length + " " + commuteText
	}
	switch s.Effort {
	case planner.Hard, planner.RaceEffort:
		return hardText(s)
	case planner.Easy:
		return length + " " + easyText
	case planner.OpenersEffort:
		return length + " " + openersOtherEffort
	}
	return length + " " + steadyText
}

// efforts of the openers fit the event.
func efforts(d *engine.Day) string {
	if d.Race != nil && strings.Contains(strings.ToLower(d.Race.Kind), "time trial") {
		return timeTrialEfforts
	}
	return openerEfforts
}

// hardText is a hard session as a recipe: warm-up, the set with its pauses,
// cool-down, and how many minutes are left to ride easily.
func hardText(s planner.Session) string {
	length, hardPart := planner.Duration(int(s.Minutes)), spacedSets(s.Sets)
	left := int(s.Minutes) - s.Sets.LeastMinutes()
	if s.Sets.IsZero() {
		hardPart = fmt.Sprintf("about %d min of it as hard as usual", s.HardMinutes())
		left = int(s.Minutes) - warmUp - coolDown - s.HardMinutes()
	}
	if left < -spare {
		return fmt.Sprintf("%s is short for %s: with %d min warm-up and %d min cool-down it takes %s. Ride that long, or do less of it.",
			length, strings.Replace(hardPart, " of it", "", 1), warmUp, coolDown, planner.Duration(int(s.Minutes)-left))
	}
	short := max(0, -left) // first of the cool-down
	shorter := min(short, spare/2)
	text := fmt.Sprintf("%s: %d min warm-up, then %s, then %d min cool-down.", length, warmUp-(short-shorter), hardPart, coolDown-shorter)
	if left > 0 {
		text += fmt.Sprintf(" The other %d min are easy riding, before or after.", left)
	}
	return text
}

// raceText names the race, its start and the warm-up. A race of several days
// starts once on the first.
func raceText(d *engine.Day, s planner.Session) string {
	name, kind, start := "Race", "", ""
	if r := d.Race; r != nil {
		name, kind = r.Name, r.Kind
		if r.Start != "" && d.Date == r.Date {
			start = ", start " + r.Start
		}
	}
	return fmt.Sprintf("%s, %s%s. Warm up %d min easy with a few short efforts.", name, planner.Duration(int(s.Minutes)), start, raceday.WarmUpMinutes(int(s.Minutes), kind))
}

// spacedSets writes sets the way people read them: 3 x 1 min hard (1 min easy between).
func spacedSets(sets planner.Sets) string {
	out := ""
	for _, g := range sets {
		if g.Reps == 0 {
			continue
		}
		if out != "" {
			out += " and "
		}
		out += fmt.Sprintf("%d x %s hard", g.Reps, spacedSeconds(int(g.Work)))
		if g.Reps > 1 || g.Rest > 0 {
			out += fmt.Sprintf(" (%s easy between)", spacedSeconds(g.RestSeconds()))
		}
	}
	return out
}

func spacedSeconds(s int) string {
	switch {
	case s%60 == 0:
		return fmt.Sprintf("%d min", s/60)
	case s < 60:
		return fmt.Sprintf("%d s", s)
	default:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
}

// HowHard is a session's effort and its rating of perceived exertion, on a scale
// to 10, in words.
func HowHard(s planner.Session) string {
	switch s.Effort {
	case planner.OpenersEffort:
		return "the easy part about 3 of 10 by feel, the short efforts about 8 (RPE: 10 is all-out)."
	case planner.RaceEffort:
		return "as you race."
	}
	return fmt.Sprintf("%s of 10 by feel (RPE: 10 is all-out).", strings.ReplaceAll(s.RPE(), "-", " to "))
}
