package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/bot/picture"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// quietDays is how many days a plan without a race shows.
const quietDays = 7

// afterDays is how far behind a race its days can reach.
const afterDays = 12

func (b *Base) planShow(ctx context.Context, req Request) (Reply, error) {
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	today := req.rider.today
	var race *planner.Race
	until := today
	if req.has("race") {
		found, err := b.raceOf(ctx, req)
		if err != nil {
			return Reply{}, err
		}
		race, until = &found.Race, found.Last().AddDays(afterDays)
	}
	if !planned(facts.now) {
		return req.needWeek(), nil
	}
	plan := engine.DeriveUntil(today, until, facts.all)
	if race == nil {
		race = firstRace(plan, facts.now)
	}
	switch {
	case race == nil:
		return comingDays(plan, facts), nil
	case race.Last() < today:
		return afterRace(plan, facts, race, req.get("days") == daysAll), nil
	}
	role := roleOf(plan, facts.now, race)
	shown := scheduled{plan: plan, facts: facts, role: role, race: race, days: raceDays(plan, role, race)}
	reply := shown.brief()
	if req.get("days") == daysAll {
		reply = shown.whole()
	}
	reply.Moments = req.startOf(race)
	if t := taperOf(plan, role); t != nil && today < t.Race.Date && season.Expect(plan, facts.all, t) != nil {
		reply.Buttons = append(reply.Buttons, Button{Label: "Other lengths", Command: "plan options", Options: raceNamed(race)})
	}
	b.attach(ctx, &reply, "plan.png", func() (picture.Picture, error) {
		return picture.Strip(fmt.Sprintf("%s, %s", race.Name, race.Date.Short()), today, shown.days)
	})
	return reply, nil
}

// raceNamed is the option race that means this race and no other.
func raceNamed(race *planner.Race) map[string]string {
	return map[string]string{"race": race.Name + " " + race.Date.String()}
}

// firstRace is the race that the days from today on belong to: the next one, but
// the A or B race that already shapes today before a C race that comes earlier,
// and an A race that is over until its recovery days end or the next one's begin.
func firstRace(plan *engine.Plan, f *planner.Facts) *planner.Race {
	next := nextRace(f, plan.Today)
	if next != nil && next.Priority == planner.PriorityC {
		if around := raceAround(plan, f, next); around != nil {
			return around
		}
	}
	d := &plan.Days[0]
	if next == nil || d.Phase != planner.Recovering || d.Race == nil || d.Race.Priority != planner.PriorityA {
		return next
	}
	over := toldRace(plan, f, d.Race)
	if over == nil || over.Last() >= plan.Today || raceDays(plan, roleOf(plan, f, next), next)[0].Date == plan.Today {
		return next
	}
	return over
}

// raceAround is the A or B race whose days hold both today and a C race.
func raceAround(plan *engine.Plan, f *planner.Facts, inside *planner.Race) *planner.Race {
	var around *planner.Race
	for i := range plan.Races {
		role, told := plan.Races[i], &f.Races[i]
		if told.Priority == planner.PriorityC || told.Last() < inside.Date || around != nil && around.Date <= told.Date {
			continue
		}
		from := told.Date.AddDays(-leadDays[told.Priority])
		if t := taperOf(plan, role); t != nil {
			from = t.From
		}
		if from <= plan.Today {
			around = told
		}
	}
	return around
}

// leadDays are how many days before a race its plan shows where it has no taper.
var leadDays = map[planner.Priority]int{planner.PriorityA: 7, planner.PriorityB: 4, planner.PriorityC: 2}

// toldRace is a planned race as it was told, nil where there is none.
func toldRace(plan *engine.Plan, f *planner.Facts, race *planner.Race) *planner.Race {
	for i := range plan.Races {
		if plan.Races[i].Race == race {
			return &f.Races[i]
		}
	}
	return nil
}

// roleOf is how a race that was told is planned.
func roleOf(plan *engine.Plan, f *planner.Facts, race *planner.Race) planner.RaceRole {
	for i := range plan.Races {
		if told := &f.Races[i]; told.Date == race.Date && told.Name == race.Name {
			return plan.Races[i]
		}
	}
	return planner.RaceRole{Race: race}
}

// raceDays are the days of the plan that a race shapes, from today on: its
// window, itself, and every day that it changes before or after. A race that is
// over has those alone that it still shapes.
func raceDays(plan *engine.Plan, role planner.RaceRole, race *planner.Race) []engine.Day {
	from, to := race.Date, race.Last()
	if race.Last() >= plan.Today {
		from, to = race.Date.AddDays(-leadDays[race.Priority]), race.Last().AddDays(1)
		if t := taperOf(plan, role); t != nil {
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

// planHead is the answer of a race's plan and its reason; f holds all versions of facts.
func planHead(plan *engine.Plan, f *planner.Facts, role planner.RaceRole, race *planner.Race) []string {
	who := fmt.Sprintf("%s (%s, %s)", race.Name, race.Priority, race.Date.Short())
	t := taperOf(plan, role)
	if t == nil {
		return []string{who + ". " + window(plan, role, race), changedBy(plan, role)}
	}
	head := fmt.Sprintf("Taper for %s: %s from %s", who, count(t.Days, "day"), t.From.Short())
	if t.CutPercent > 0 {
		head += fmt.Sprintf(", %.0f %% less than usual", t.CutPercent)
	}
	ridden := fmt.Sprintf("%s, on %s.", share(t), rideDays(t))
	if hardInside(plan, t) {
		ridden += " Hard sessions stay as hard."
	}
	lines := []string{head + ".", upperFirst(ridden), words.WhyLength(t).Text}
	lines = append(lines, expectedLines(plan, f, t)...)
	if t.From < plan.Today && plan.Today < race.Date {
		lines = append(lines, dayOfTaper(plan, t))
	}
	return lines
}

func dayOfTaper(plan *engine.Plan, t *engine.Taper) string {
	return fmt.Sprintf("Today is day %d of %d.", t.From.DaysUntil(plan.Today)+1, t.Days)
}

// rideDays is on how many days of a taper there is a ride, beside the usual number.
func rideDays(t *engine.Taper) string {
	switch {
	case t.PlanRides == t.UsualRides && t.PlanRides == 1:
		return "your usual ride day"
	case t.PlanRides == t.UsualRides:
		return fmt.Sprintf("all your %d ride days", t.PlanRides)
	case t.PlanRides < t.UsualRides:
		return fmt.Sprintf("%d of your %s", t.PlanRides, count(t.UsualRides, "ride day"))
	}
	return fmt.Sprintf("%s, usually %d", count(t.PlanRides, "day"), t.UsualRides)
}

// hardInside reports a hard session in the days of the taper that are shown.
func hardInside(plan *engine.Plan, t *engine.Taper) bool {
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Date >= t.From && d.Date < t.Race.Date && d.IsHard() {
			return true
		}
	}
	return false
}

// changedBy names the days that a B or C race changes.
func changedBy(plan *engine.Plan, role planner.RaceRole) string {
	var days []string
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase != planner.RaceDay && d.Changed() && shapedBy(d, role.Race) {
			days = append(days, d.Date.Short())
		}
	}
	if len(days) == 0 {
		return "No other day changes."
	}
	return "Days that change for it: " + strings.Join(days, ", ") + "."
}

// shapedBy reports a day that belongs to a race, or that is as it is because of it.
func shapedBy(d *engine.Day, race *planner.Race) bool {
	return d.Race == race || len(d.Causes) > 0 && d.Causes[0].Race == race
}

// warningsOf are the warnings that a race's plan needs: its own and those of the whole plan.
func warningsOf(plan *engine.Plan, role planner.RaceRole) []Line {
	var lines []Line
	for _, w := range words.Warnings(plan) {
		if w.Race == nil || w.Race == role.Race {
			lines = append(lines, warningLine(&w))
		}
	}
	return lines
}

// taperOf is the summary of an A race's window, nil where it has none.
func taperOf(p *engine.Plan, role planner.RaceRole) *engine.Taper {
	for i := range p.Tapers {
		if p.Tapers[i].Race == role.Race {
			return &p.Tapers[i]
		}
	}
	return nil
}

// window says what a race does to the days before it, in one line.
func window(p *engine.Plan, role planner.RaceRole, race *planner.Race) string {
	if race.Last() < p.Today {
		return "It is over."
	}
	if t := taperOf(p, role); t != nil {
		return fmt.Sprintf("Taper: %s, %s, with %s.", count(t.Days, "day"), span(t.From, t.Race.Date.AddDays(-1), p.Today), share(t))
	}
	host := "another race"
	if role.Host != nil {
		host = role.Host.Name
	}
	switch role.Role {
	case planner.Outranked:
		return host + " has this day: only that race is planned."
	case planner.InsideTaper:
		return fmt.Sprintf("Inside the taper for %s: it is one of its hard days.", host)
	case planner.InRecovery:
		return fmt.Sprintf("In the recovery days after %s: race it if you like, no other day changes for it.", host)
	case planner.NoDaysLeft:
		return "No days are left for a taper of its own."
	case planner.HalfTapered:
		return halfWeek(p, role)
	}
	return "Ridden as training: it is that week's hard session, no taper."
}

// halfWeek says from which day on a B race makes days easier.
func halfWeek(p *engine.Plan, role planner.RaceRole) string {
	for i := range p.Days {
		if d := &p.Days[i]; d.Race == role.Race && d.Date < role.Race.Date && d.Changed() {
			return fmt.Sprintf("Half a week of easier days: nothing changes before %s.", d.Date.Short())
		}
	}
	return "No day before it changes."
}

// share is a taper's time against the usual one, in words.
func share(t *engine.Taper) string {
	return fmt.Sprintf("%s instead of %s", planner.Duration(t.PlanMinutes), planner.Duration(t.UsualMinutes))
}
