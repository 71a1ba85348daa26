package show

import (
	"fmt"
	"strings"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

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

// AfterDays is how far behind a race its days can reach.
const AfterDays = 12

// LeadDays are how many days before a race its plan shows where it has no taper.
var LeadDays = map[planner.Priority]int{planner.PriorityA: 7, planner.PriorityB: 4, planner.PriorityC: 2}

// ToldRace is a planned race as it was entered, nil where there is none.
func ToldRace(plan *engine.Plan, f *planner.Facts, race *planner.Race) *planner.Race {
	for i := range plan.Races {
		if plan.Races[i].Race == race {
			return &f.Races[i]
		}
	}
	return nil
}

// RoleOf is how a race that was entered is planned.
func RoleOf(plan *engine.Plan, f *planner.Facts, race *planner.Race) planner.RaceRole {
	for i := range plan.Races {
		if f.Races[i].Is(race) {
			return plan.Races[i]
		}
	}
	return planner.RaceRole{Race: race}
}

// RaceDays are the days of the plan that a race shapes, from today on: its
// window, itself, and every day that it changes before or after. A race that is
// over has those alone that it still shapes.
func RaceDays(plan *engine.Plan, role planner.RaceRole, race *planner.Race) []engine.Day {
	from, to := race.Date, race.Last()
	if race.Last() >= plan.Today {
		from, to = race.Date.AddDays(-LeadDays[race.Priority]), race.Last().AddDays(1)
		if t := TaperOf(plan, role); t != nil {
			from = t.From
		}
	}
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Race == role.Race && (d.Changed() || d.Phase == planner.Recovering) {
			from, to = min(from, d.Date), max(to, d.Date)
		}
	}
	from = max(from, plan.Today)
	if to < from {
		return nil
	}
	first := plan.Today.DaysUntil(from)
	return plan.Days[first:min(len(plan.Days), plan.Today.DaysUntil(to)+1)]
}

// PlanHead is the answer of a race's plan and its reason; f holds all versions of facts.
func PlanHead(plan *engine.Plan, f *planner.Facts, role planner.RaceRole, race *planner.Race) []string {
	who := fmt.Sprintf("%s (%s, %s)", race.Name, race.Priority, race.Date.Short())
	t := TaperOf(plan, role)
	if t == nil {
		lines := []string{who + ". " + Window(plan, role, race)}
		if days := changedBy(plan, role); !strings.HasSuffix(lines[0], unchangedBefore) || days != unchanged {
			lines = append(lines, days)
		}
		return lines
	}
	head := fmt.Sprintf("Taper for %s: %s from %s", who, Count(t.Days, "day"), t.From.Short())
	if t.CutPercent > 0 {
		usual := "on the same days of your usual week"
		if t.AwayRides > 0 {
			usual = "usual"
		}
		head += fmt.Sprintf(", with %.0f %% less riding than %s", t.CutPercent, usual)
	}
	ridden := fmt.Sprintf("%s. %s%s", share(t), rideDays(t), hardParts(plan, t))
	lines := []string{head + ".", say.UpperFirst(ridden), words.WhyLength(t).Text}
	lines = append(lines, expectedLines(plan, f, t)...)
	if t.From < plan.Today && plan.Today < race.Date {
		lines = append(lines, DayOfTaper(plan, t))
	}
	return lines
}

// DayOfTaper is which day of a taper today is.
func DayOfTaper(plan *engine.Plan, t *engine.Taper) string {
	return fmt.Sprintf("Today is day %d of %d.", t.From.DaysUntil(plan.Today)+1, t.Days)
}

// resting reports a taper of which health takes each day to come.
func resting(p *engine.Plan, t *engine.Taper) bool {
	for date := max(t.From, p.Today); date < t.Race.Date; date++ {
		if d, ok := p.Day(date); !ok || d.Phase != planner.Health {
			return false
		}
	}
	return t.PlanMinutes == 0
}

// rideDays is on how many days of a taper there is a ride, beside the usual number.
func rideDays(t *engine.Taper) string {
	on := fmt.Sprintf("%d of the %d days", t.PlanRides, t.Days)
	switch {
	case t.Days == 1 && t.PlanRides == 0:
		on = "no day"
	case t.Days == 1:
		on = "this day"
	case t.PlanRides == t.Days:
		on = fmt.Sprintf("all %d days", t.Days)
	}
	switch {
	case t.AwayRides > 0:
		return fmt.Sprintf("You ride on %s.", on)
	case t.PlanRides != t.UsualRides && t.UsualRides == 0:
		return fmt.Sprintf("You ride on %s, usually on none.", on)
	case t.PlanRides != t.UsualRides:
		return fmt.Sprintf("You ride on %s, usually on %d.", on, t.UsualRides)
	case t.Days == 1:
		return fmt.Sprintf("You ride on %s, as usual.", on)
	}
	return fmt.Sprintf("You ride on %s, as many as usual.", on)
}

// hardParts says what becomes of hard sessions in the days of the taper that are shown, ""
// where none is hard.
func hardParts(plan *engine.Plan, t *engine.Taper) string {
	planned, usually, inside := 0, 0, false
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Date >= t.From && d.Date < t.Race.Date {
			inside = inside || d.IsHard()
			planned += hardMinutes(d.Sessions)
			usually += hardMinutes(d.Usual)
		}
	}
	switch {
	case !inside:
		return ""
	case planned < usually:
		return " You ride the hard parts as hard as usual, but fewer or shorter ones."
	}
	return " You ride the hard parts as hard as usual."
}

func hardMinutes(sessions []planner.Session) int {
	sum := 0
	for _, s := range sessions {
		if s.IsHard() {
			sum += s.HardMinutes()
		}
	}
	return sum
}

const (
	unchanged       = "No other day changes for it."
	unchangedBefore = "No day before it changes."
)

// changedBy names the days that a B or C race changes.
func changedBy(plan *engine.Plan, role planner.RaceRole) string {
	var days []string
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase != planner.RaceDay && d.Changed() && shapedBy(d, role.Race) {
			days = append(days, d.Date.Short())
		}
	}
	switch {
	case len(days) == 0 && role.Role == planner.InsideTaper && role.Host != nil:
		return fmt.Sprintf("The days around it follow the taper for %s.", role.Host.Name)
	case len(days) == 0:
		return unchanged
	}
	return "Days that change for it: " + strings.Join(days, ", ") + "."
}

// shapedBy reports a day that belongs to a race, or that is as it is because of it.
func shapedBy(d *engine.Day, race *planner.Race) bool {
	return d.Race == race || len(d.Causes) > 0 && d.Causes[0].Race == race
}

// TaperOf is the summary of an A race's window, nil where it has none.
func TaperOf(p *engine.Plan, role planner.RaceRole) *engine.Taper {
	for i := range p.Tapers {
		if p.Tapers[i].Race == role.Race {
			return &p.Tapers[i]
		}
	}
	return nil
}

// Window says what a race does to the days before it, in one line.
func Window(p *engine.Plan, role planner.RaceRole, race *planner.Race) string {
	if race.Last() < p.Today {
		return "It is over."
	}
	t := TaperOf(p, role)
	switch {
	case p.Held || t != nil && resting(p, t):
		return "No days are planned for it until training goes on."
	case t != nil:
		return fmt.Sprintf("Its taper takes %s, %s, with %s.", Count(t.Days, "day"), Span(t.From, t.Race.Date.AddDays(-1), p.Today), share(t))
	}
	host := "another race"
	if role.Host != nil {
		host = role.Host.Name
	}
	switch role.Role {
	case planner.Outranked:
		return host + " has this day, so I plan that race only."
	case planner.InsideTaper:
		return fmt.Sprintf("It is inside the taper for %s and counts as one of its hard days.", host)
	case planner.InRecovery:
		return fmt.Sprintf("It is in the recovery days after %s and gets no easier days of its own.", host)
	case planner.NoDaysLeft:
		return "No days are left for a taper of its own."
	case planner.HalfTapered:
		return halfWeek(p, role)
	}
	return "You ride it as training: it is that week's hard session and gets no taper."
}

// usual is a day as it usually is.
func usual(d *engine.Day) *engine.Day { return &engine.Day{Sessions: d.Usual} }

// halfWeekDays is how many days before a race are still called half a week.
const halfWeekDays = 4

// halfWeek says from which day on a B race makes days easier.
func halfWeek(p *engine.Plan, role planner.RaceRole) string {
	for i := range p.Days {
		if d := &p.Days[i]; d.Race == role.Race && d.Date < role.Race.Date && d.Changed() && (!d.IsHard() || usual(d).IsHard()) {
			much := "half a week of easier days"
			if d.Date < role.Race.Date.AddDays(-halfWeekDays) {
				much = "easier days"
			}
			return fmt.Sprintf("It gets %s, the first of them %s.", much, d.Date.Short())
		}
	}
	return unchangedBefore
}

// share is a taper's time against the usual one, in words.
func share(t *engine.Taper) string {
	days := "this day"
	if t.Days > 1 {
		days = fmt.Sprintf("these %d days", t.Days)
	}
	text := fmt.Sprintf("%s of riding in %s instead of the usual %s", planner.Duration(t.PlanMinutes), days, planner.Duration(t.UsualMinutes))
	if t.AwayRides > 0 {
		text += " on the days that you are not away"
	}
	return text
}

// RecoveryLeft says how many recovery days are left from today on.
func RecoveryLeft(plan *engine.Plan, race *planner.Race) string {
	n := 0
	var last planner.Date
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase == planner.Recovering && d.Race == race {
			n, last = n+1, d.Date
		}
	}
	switch {
	case n == 0:
		return fmt.Sprintf("Your recovery after %s is over.", race.Name)
	case last == plan.Today:
		return fmt.Sprintf("Today is the last day of your recovery after %s.", race.Name)
	}
	return fmt.Sprintf("You recover from %s until %s.", race.Name, last.Short())
}
