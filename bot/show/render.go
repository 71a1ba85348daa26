package show

import (
	"fmt"
	"strings"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// keyRules are the rules whose reasons a schedule shows; /plan why has the others.
var keyRules = map[string]bool{
	"taper.hard-days": true, "taper.set": true, "taper.openers": true, "taper.rest": true, "block.days": true, "block.after": true,
	"race.after": true, "race.return": true, "b.days": true, "c.days": true, "season.inside": true,
	"day.off": true, "day.limit": true, "day.travel": true, "day.pinned": true,
	"health.stop": true, "health.easy": true, "health.return": true,
}

// Schedule is a list of days for a phone: a day a line, each reason of a key rule
// under the first day that it decides, each caution under the first session that
// it belongs to and a ! on later ones.
func Schedule(days []engine.Day) []say.Line {
	var lines []say.Line
	said, explained := map[string]bool{}, map[engine.Code]bool{}
	for i := range days {
		d := &days[i]
		cautions := words.Cautions(d)
		line := DayLine(d)
		line.Flag = len(cautions) > 0
		lines = append(lines, line)
		if why := words.Why(d); len(why) > 0 && keyRules[why[0].Rule] && !explained[d.Causes[0].Code] {
			explained[d.Causes[0].Code] = true
			lines = append(lines, say.Linef("  %s", why[0].Text))
		}
		for _, c := range cautions {
			if !said[c] {
				said[c] = true
				lines = append(lines, say.Linef("  ! %s", c))
			}
		}
	}
	return lines
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
	case s.Effort == planner.Easy && s.Kind != planner.Recovery && s.Kind != planner.Other:
		return "easy " + planner.Duration(int(s.Minutes))
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

// DayName is how people call a day: today, tomorrow, else the weekday and date.
func DayName(date, today planner.Date) string {
	switch date {
	case today:
		return "Today, " + date.Short()
	case today.AddDays(1):
		return "Tomorrow, " + date.Short()
	case today.AddDays(-1):
		return "Yesterday, " + date.Short()
	}
	if n := today.DaysUntil(date); n > 300 || n < -300 {
		return date.Long()
	}
	return date.Short()
}

// DescribeRace is a race in one line as it was understood.
func DescribeRace(r *planner.Race) string {
	parts := []string{fmt.Sprintf("%s race on %s", r.Priority, r.Date.Long())}
	if r.Days > 1 {
		parts = append(parts, fmt.Sprintf("%d days to %s", r.Days, r.Last().Short()))
	}
	if r.Kind != "" {
		parts = append(parts, r.Kind)
	}
	if r.Hours > 0 {
		length := planner.Duration(int(r.Hours*60 + 0.5))
		if r.Days > 1 {
			length += " a day"
		}
		parts = append(parts, length)
	}
	if r.Start != "" {
		parts = append(parts, "start "+r.Start)
	}
	if r.Place != "" {
		parts = append(parts, r.Place)
	}
	if r.Priority == planner.PriorityB && r.Emphasis != planner.NoEmphasis {
		parts = append(parts, r.Emphasis.String())
	}
	if r.TaperDays > 0 {
		parts = append(parts, "with its own taper of "+Count(r.TaperDays, "day"))
	}
	return strings.Join(parts, ", ")
}

// Count is "1 day" or "3 days".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// Summary is what a plan holds before its days: the tapers and the warnings; f are
// the facts that it was made from.
func Summary(plan *engine.Plan, f *planner.Facts) []say.Line {
	var lines []say.Line
	for _, t := range plan.Tapers {
		lines = append(lines, say.PlainLines(PlanHead(plan, f, planner.RaceRole{Race: t.Race}, t.Race)...)...)
	}
	for _, w := range words.Warnings(plan) {
		lines = append(lines, WarningLine(&w))
	}
	return lines
}

// WarningLine is a warning of a plan, with the command that it ends with.
func WarningLine(w *words.Warning) say.Line {
	if w.Command == "" {
		return say.Linef("! %s", w.Text)
	}
	return say.Linef("! %s%s", strings.TrimSuffix(w.Text, "/"+w.Command), say.CommandLink(w.Command))
}
