package bot

import (
	"fmt"
	"slices"
	"strings"

	"musette/planner"
)

// keyRules are the rules whose reasons stand in a schedule, each once; /plan why
// has the others.
var keyRules = map[string]bool{
	"taper.pattern": true, "taper.openers": true, "taper.overload": true, "b.window": true, "c.train-through": true,
	"day.off": true, "day.limit": true, "day.travel": true, "health.easy": true, "health.stop": true,
}

// Schedule is a list of days for a phone: a day a line, the reason under the
// first day that a key rule decides, each caution under the first session that
// it belongs to and a ! on later ones.
func Schedule(days []planner.Day) []string {
	var lines []string
	said := map[string]bool{}
	for i := range days {
		d := &days[i]
		cautions := d.Cautions()
		line := dayLine(d)
		if len(cautions) > 0 {
			line += " !"
		}
		lines = append(lines, line)
		if why := d.Why(); len(why) > 0 && keyRules[why[0].Rule] && !said[why[0].Rule] {
			said[why[0].Rule] = true
			lines = append(lines, "  "+why[0].Text)
		}
		for _, c := range cautions {
			if !said[c] {
				said[c] = true
				lines = append(lines, "  ! "+c)
			}
		}
	}
	return lines
}

// dayLine is one day: Tue 2 Jun  intervals 55min 3x3min (usually 1h30).
func dayLine(d *planner.Day) string {
	line := fmt.Sprintf("%-10s %s", d.Date.Short(), sessionsLabel(d.Sessions, d.Race))
	if usual := usually(d); usual != "" {
		line += " (usually " + usual + ")"
	}
	return line
}

// usually is the usual day in short, where the planned one differs in kind or minutes.
func usually(d *planner.Day) string {
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
	return sessionsLabel(d.Usual, nil)
}

// sessionsLabel is a day's sessions in a few words.
func sessionsLabel(sessions []planner.Session, race *planner.Race) string {
	if len(sessions) == 0 {
		return "rest"
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

// headline is a day's sessions for the first line of an answer.
func headline(d *planner.Day) string {
	var parts []string
	for _, s := range d.Sessions {
		label := sessionLabel(planner.Session{Kind: s.Kind, Effort: s.Effort, Minutes: s.Minutes}, d.Race)
		if sets := s.Sets.String(); sets != "" {
			label += ", " + sets + " hard"
		}
		parts = append(parts, label)
	}
	if len(parts) == 0 {
		return "rest"
	}
	return strings.Join(parts, " + ")
}

// dayName is how people call a day: today, tomorrow, else the weekday and date.
func dayName(date, today planner.Date) string {
	switch date {
	case today:
		return "Today, " + date.Short()
	case today.AddDays(1):
		return "Tomorrow, " + date.Short()
	}
	if today.DaysUntil(date) > 300 {
		return date.Long()
	}
	return date.Short()
}

// describeRace is a race in one line as it was understood.
func describeRace(r *planner.Race) string {
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
	if r.Priority == planner.PriorityB {
		parts = append(parts, r.Emphasis.String())
	}
	return strings.Join(parts, ", ")
}

// taperOf is the summary of an A race's window.
func taperOf(p *planner.Plan, r *planner.Race) (planner.TaperSummary, bool) {
	planned := roleOf(p, r).Race
	for _, t := range p.Tapers {
		if t.Race == planned {
			return t, true
		}
	}
	return planner.TaperSummary{}, false
}

// window says what a race does to the days before it, in one line.
func window(p *planner.Plan, r *planner.Race) string {
	if t, ok := taperOf(p, r); ok {
		return fmt.Sprintf("Taper: %s, %s; %s.", count(t.Days, "day"), span(t.From, t.Race.Date.AddDays(-1), p.Today), share(&t))
	}
	known := roleOf(p, r)
	host := ""
	if known.Host != nil {
		host = known.Host.Name
	}
	switch known.Role {
	case planner.Outranked:
		return host + " has this day: only that race is planned."
	case planner.InsideTaper:
		return fmt.Sprintf("Inside the taper for %s: ridden as one of its hard days.", host)
	case planner.InRecovery:
		return fmt.Sprintf("In the recovery days after %s: ridden, with no days of its own.", host)
	case planner.NoDaysLeft:
		return "No days are left for a taper of its own."
	case planner.HalfTapered:
		return fmt.Sprintf("Half a week of freshness: nothing changes before %s.", r.Date.AddDays(-4).Short())
	case planner.TrainedThrough:
		return "Ridden as training: it is that week's hard session, no taper."
	}
	return "It is over."
}

// share is a taper's minutes against the usual ones, in words.
func share(t *planner.TaperSummary) string {
	text := fmt.Sprintf("%d of %d usual minutes", t.PlanMinutes, t.UsualMinutes)
	if t.CutPercent > 0 {
		text += fmt.Sprintf(" (%.0f %% less)", t.CutPercent)
	}
	return text
}

// roleOf is how a race is planned. Its Race is the planned one, to which days,
// tapers and warnings point; one that lost its first days begins later.
func roleOf(p *planner.Plan, r *planner.Race) planner.RaceRole {
	found := planner.RaceRole{Race: r}
	for _, known := range p.Races {
		switch {
		case known.Race.Name != r.Name || known.Race.Date < r.Date || known.Race.Date > r.Last():
		case known.Race.Date == r.Date:
			return known
		case found.Race == r:
			found = known
		}
	}
	return found
}

// raceRef is a race as an option names it, with its date where the name alone
// can mean another.
func raceRef(p *planner.Plan, r *planner.Race) string {
	for _, other := range p.Races {
		if other.Race.Date != r.Date && strings.EqualFold(other.Race.Name, r.Name) {
			return Quote(r.Name + " " + r.Date.String())
		}
	}
	return Quote(r.Name)
}

// count is "1 day" or "3 days".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// news is what a change did: new warnings, then up to eight changed days.
func (e *effect) news() []string {
	lines := e.newWarnings()
	if planned(e.facts) {
		lines = append(lines, e.changedDays()...)
	}
	return lines
}

func (e *effect) newWarnings() []string {
	known := map[string]bool{}
	for _, w := range e.before.Warnings {
		known[w.Text] = true
	}
	var lines []string
	for _, w := range e.after.Warnings {
		if !known[w.Text] {
			lines = append(lines, "! "+w.Text)
		}
	}
	return lines
}

func (e *effect) changedDays() []string {
	const most = 8
	var lines []string
	var race *planner.Race // of the first day that is not told, else of any
	for i := range e.after.Days {
		was, is := &e.before.Days[i], &e.after.Days[i]
		before, after := sessionsLabel(was.Sessions, was.Race), sessionsLabel(is.Sessions, is.Race)
		if before != after {
			for _, r := range [2]*planner.Race{was.Race, is.Race} {
				if e.toCome(r) && (race == nil || len(lines) == most) {
					race = r
				}
			}
			lines = append(lines, fmt.Sprintf("%-10s %s (was %s)", is.Date.Short(), after, before))
		}
	}
	switch n := len(lines); {
	case n == 0:
		return []string{"No planned day changes."}
	case n > most:
		rest := fmt.Sprintf("and %d more: /plan show", n-most)
		if race != nil {
			rest += " race:" + raceRef(e.after, race)
		}
		return append(append([]string{"What changes:"}, lines[:most]...), rest)
	}
	return append([]string{"What changes:"}, lines...)
}

// toCome reports whether a race is in the calendar after the change and not over.
func (e *effect) toCome(r *planner.Race) bool {
	return r != nil && r.Last() >= e.after.Today && slices.ContainsFunc(e.after.Races, func(known planner.RaceRole) bool {
		return known.Race.Name == r.Name && known.Race.Date == r.Date
	})
}

// Summary is what a plan holds before its days: the tapers and the warnings.
func Summary(plan *planner.Plan) []string {
	var lines []string
	for _, t := range plan.Tapers {
		lines = append(lines, planHead(plan, t.Race)...)
	}
	for _, w := range plan.Warnings {
		lines = append(lines, "! "+w.Text)
	}
	return lines
}
