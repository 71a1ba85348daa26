package planner

import (
	"fmt"
	"strings"
)

// openerEfforts are the short hard efforts of an openers ride (common practice).
const openerEfforts = "3 x 1 min and 3 x 10 s"

// Text is the planned session i in words that a rider can follow.
func (d *Day) Text(i int) string {
	s := d.Sessions[i]
	switch s.Kind {
	case Rest:
		if d.Phase == Health {
			return "Rest and recover."
		}
		return "Rest day."
	case Strength:
		return fmt.Sprintf("Strength, %s.", Duration(int(s.Minutes)))
	case RaceRide:
		if d.Phase == RaceDay {
			return d.raceText(s)
		}
	case Openers:
		return fmt.Sprintf("Openers: %s easy with %s short and hard, fully recovered between; finish fresh.", Duration(int(s.Minutes)), openerEfforts)
	}
	switch s.Effort {
	case Hard, RaceEffort:
		return d.hardText(s)
	case Easy:
		return fmt.Sprintf("%s easy: you can talk in full sentences.", Duration(int(s.Minutes)))
	case OpenersEffort:
		return fmt.Sprintf("%s easy with a few short hard efforts.", Duration(int(s.Minutes)))
	}
	return fmt.Sprintf("%s steady, as usual: below threshold.", Duration(int(s.Minutes)))
}

func (d *Day) hardText(s Session) string {
	if s.Sets.IsZero() {
		return fmt.Sprintf("%s: %d min warm-up, the hard part as hard as usual, %d min cool-down.", Duration(int(s.Minutes)), warmUp, coolDown)
	}
	return fmt.Sprintf("%s: %d min warm-up, %s hard, as hard as usual, %d min cool-down, the rest easy.", Duration(int(s.Minutes)), warmUp, spacedSets(s.Sets), coolDown)
}

// raceText names the race, its start and the warm-up.
func (d *Day) raceText(s Session) string {
	text := fmt.Sprintf("%s, %s", d.raceName(), Duration(int(s.Minutes)))
	kind := ""
	if d.Race != nil {
		kind = strings.ToLower(d.Race.Kind)
		if d.Race.Start != "" {
			text += ", start " + d.Race.Start
		}
	}
	return fmt.Sprintf("%s. Warm up %d min easy with a few short efforts.", text, warmUpMinutes(int(s.Minutes), kind))
}

// warmUpMinutes is longer for shorter events and for those that start flat out,
// short and easy for long ones (Bishop 2003, from memory; common practice).
func warmUpMinutes(race int, kind string) int {
	switch {
	case strings.Contains(kind, "time trial"), strings.Contains(kind, "criterium"), race < 90:
		return 25
	case strings.Contains(kind, "endurance"), race >= 180:
		return 10
	}
	return 15
}

// spacedSets writes sets the way people read them: 3 x 1 min and 3 x 10 s.
func spacedSets(sets Sets) string {
	out := ""
	for _, g := range sets {
		if g.Reps == 0 {
			continue
		}
		if out != "" {
			out += " and "
		}
		out += fmt.Sprintf("%d x %s", g.Reps, spacedSeconds(int(g.Work)))
		if g.Rest > 0 {
			out += fmt.Sprintf(" (%s between)", spacedSeconds(int(g.Rest)))
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
