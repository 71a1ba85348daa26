// Package show puts days, races and plans in the words that several rooms share.
package show

import (
	"fmt"
	"slices"
	"strings"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// WhyButton says why a day is planned as it is.
func WhyButton(day planner.Date) say.Button {
	return say.Button{Label: "Why " + day.Short() + "?", Command: "plan why", Options: map[string]string{"day": day.String()}}
}

// keyRules are the rules whose reasons a schedule shows; /plan why has the others.
var keyRules = map[string]bool{
	"taper.hard-days": true, "taper.set": true, "taper.openers": true, "taper.rest": true, "block.days": true, "block.after": true,
	"race.after": true, "race.return": true, "b.days": true, "c.days": true, "season.inside": true,
	"day.off": true, "day.limit": true, "day.travel": true, "day.pinned": true,
	"health.stop": true, "health.easy": true, "health.return": true,
}

// Schedule is a list of days for a phone: a day a line with its short caution, each
// reason of a key rule under the first day that it decides, the cautions in full at the end.
func Schedule(days []engine.Day) []say.Line {
	var lines []say.Line
	given := ReasonsGiven{}
	for i := range days {
		d := &days[i]
		lines = append(lines, MindedDay(d))
		if why := words.Why(d); len(why) > 0 && keyRules[why[0].Rule] && given.New(d) {
			lines = append(lines, say.Linef("  %s", why[0].Text))
		}
	}
	return append(lines, LongCautions(days)...)
}

// LongCautions are the cautions of days in full, behind an empty line.
func LongCautions(days []engine.Day) []say.Line {
	lines := []say.Line{{Kind: say.Gap}}
	for _, c := range words.Cautions(days...) {
		lines = append(lines, say.Linef("! %s", c))
	}
	if len(lines) == 1 {
		return nil
	}
	return lines
}

// MindedDay is a day's line with its short caution.
func MindedDay(d *engine.Day) say.Line {
	line := DayLine(d)
	line.Mind = words.ShortCaution(d)
	line.Flag = line.Mind != ""
	return line
}

// DayLine is one day: Tue 2 Jun  intervals 55min 3x3min (usually 1h30).
func DayLine(d *engine.Day) say.Line {
	usual := usually(d)
	if usual != "" {
		usual = " (usually " + usual + ")"
	}
	return say.Dayf(DayLead(d.Date), "%s%s", SessionsLabel(d.Sessions, d.Race), usual)
}

// DayLead is the date of a day's line.
func DayLead(date planner.Date) string { return fmt.Sprintf("%-10s", date.Short()) }

// usually is the usual day in short, where the planned one differs in kind or minutes.
func usually(d *engine.Day) string {
	if !d.Changed() || d.Phase == planner.RaceDay {
		return ""
	}
	usual, minutes := 0, 0
	for _, s := range d.Usual {
		usual += int(s.Minutes)
	}
	for _, s := range d.Sessions {
		minutes += int(s.Minutes)
	}
	if len(d.Usual) == 1 && len(d.Sessions) == 1 && d.Usual[0].Kind == d.Sessions[0].Kind && d.Usual[0].Effort == d.Sessions[0].Effort {
		if usual == minutes {
			return d.Usual[0].Sets.String()
		}
		return planner.Duration(usual)
	}
	return SessionsLabel(d.Usual, nil)
}

// RestLabel is a day without training in a word.
const RestLabel = "rest"

// SessionsLabel is a day's sessions in a few words.
func SessionsLabel(sessions []planner.Session, race *planner.Race) string {
	if len(sessions) == 0 {
		return RestLabel
	}
	parts := make([]string, len(sessions))
	for i, s := range sessions {
		parts[i] = sessionLabel(s, race)
	}
	return strings.Join(parts, " + ")
}

func sessionLabel(s planner.Session, race *planner.Race) string {
	switch {
	case s.Kind == planner.RaceRide && race != nil:
		return "RACE " + race.Name + " " + planner.Duration(int(s.Minutes))
	case s.Effort == planner.Easy && s.Kind != planner.Recovery && s.Kind != planner.Commute && s.Kind != planner.Other:
		return "easy " + planner.Duration(int(s.Minutes))
	}
	return s.Label()
}

// Careful is the headline of a day to come with what is to be minded on it, for a line
// that has no full caution beside it.
func Careful(d *engine.Day) string {
	if mind := words.ShortCaution(d); mind != "" {
		return Headline(d) + " (" + mind + ")"
	}
	return Headline(d)
}

// CarefulSession is a session's label with what is to be minded in it.
func CarefulSession(s planner.Session) string {
	if mind := words.ShortCaution(&engine.Day{Sessions: []planner.Session{s}}); mind != "" {
		return s.Label() + " (" + mind + ")"
	}
	return s.Label()
}

// Headline is a day's sessions for the first line of an answer.
func Headline(d *engine.Day) string {
	var parts []string
	for _, s := range d.Sessions {
		label := sessionLabel(planner.Session{Kind: s.Kind, Effort: s.Effort, Minutes: s.Minutes}, d.Race)
		if sets := s.Sets.String(); sets != "" {
			label += ", " + sets + " hard"
		}
		parts = append(parts, label)
	}
	if len(parts) == 0 {
		return RestLabel
	}
	return strings.Join(parts, " + ")
}

// HasOpeners reports whether a day has openers.
func HasOpeners(d *engine.Day) bool {
	return slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return s.Kind == planner.Openers })
}

// AboutDay is a reply that has understood a day.
func AboutDay(p *say.Page, d *engine.Day) say.Reply {
	reply := say.Reply{Lines: p.Done(), Date: d.Date}
	if d.Race != nil {
		reply.Race = d.Race.Name
	}
	return reply
}
