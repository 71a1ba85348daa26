package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/storage"
)

// quietDays is how many days a plan without a race shows.
const quietDays = 7

func (b *Bot) planShow(ctx context.Context, req Request) (Reply, error) {
	facts, err := b.db.Facts(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	race := nextRace(facts, req.rider.today)
	if req.has("race") {
		found, err := b.raceOf(ctx, req)
		if err != nil {
			return Reply{}, err
		}
		race = &found.Race.Race
	}
	switch {
	case !planned(facts):
		return needWeek(), nil
	case race == nil:
		plan := planner.Derive(req.rider.today, facts)
		head := "No race to come: your usual week."
		if d := &plan.Days[0]; d.Phase == planner.Recovering && d.Race != nil {
			head = fmt.Sprintf("Recovery after %s first, then your usual week: no race to come.", d.Race.Name)
		}
		return comingDays(plan, head), nil
	}
	plan := planner.DeriveUntil(req.rider.today, race.Last()+1, facts)
	days := raceDays(plan, race)
	if len(days) == 0 {
		return Reply{Text: fmt.Sprintf("%s on %s is over and so are the days after it.\nWhat comes next: /plan show", race.Name, race.Date.Long()),
			Date: race.Date, Race: race.Name}, nil
	}
	var p page
	p.add(planHead(plan, race)...)
	p.add(warningsOf(plan, race)...)
	p.gap()
	p.add(Schedule(days)...)
	p.gap()
	p.addf("Why a day: /plan why %s", days[0].Date)
	return Reply{Text: p.String(), Date: race.Date, Race: race.Name, Buttons: []Button{rideButton(req.rider.today, days[0].Date)}}, nil
}

// comingDays is the plan of the next days where no race is meant.
func comingDays(plan *planner.Plan, head string) Reply {
	days := plan.Days[:min(quietDays, len(plan.Days))]
	var p page
	p.add(head)
	p.addf("Register one for a taper: /race add name:\"Hill Loop\" date:%s priority:A hours:3", raceDayAhead(plan.Today))
	for _, w := range plan.Warnings {
		p.add("! " + w.Text)
	}
	p.gap()
	p.add(Schedule(days)...)
	return Reply{Text: p.String(), Date: plan.Today}
}

// raceDays are the days of the plan that a race shapes: its window, itself and
// the days after it, from today on.
func raceDays(plan *planner.Plan, race *planner.Race) []planner.Day {
	lead := map[planner.Priority]int{planner.PriorityA: 7, planner.PriorityB: 4, planner.PriorityC: 2}[race.Priority]
	from := race.Date.AddDays(-lead)
	if t, ok := taperOf(plan, race); ok {
		from = t.From
	}
	from = max(from, plan.Today)
	to := race.Last().AddDays(1)
	for d, ok := plan.Day(to.AddDays(1)); ok && d.Phase == planner.Recovering && d.Race != nil && sameRace(d.Race, race); d, ok = plan.Day(to.AddDays(1)) {
		to = d.Date
	}
	if to < from {
		return nil
	}
	first := plan.Today.DaysUntil(from)
	return plan.Days[first:min(len(plan.Days), plan.Today.DaysUntil(to)+1)]
}

func sameRace(a, b *planner.Race) bool { return a.Date == b.Date && a.Name == b.Name }

// planHead is the answer of a race's plan and its reason.
func planHead(plan *planner.Plan, race *planner.Race) []string {
	who := fmt.Sprintf("%s (%s, %s)", race.Name, race.Priority, race.Date.Short())
	t, ok := taperOf(plan, race)
	if !ok {
		return []string{who + ". " + window(plan, race), changedBy(plan, race)}
	}
	head := fmt.Sprintf("Taper for %s: %s from %s", who, count(t.Days, "day"), t.From.Short())
	if t.CutPercent > 0 {
		head += fmt.Sprintf(", %.0f %% less than usual", t.CutPercent)
	}
	head += "."
	why := fmt.Sprintf("%d of %d usual minutes, %d of %d rides", t.PlanMinutes, t.UsualMinutes, t.PlanRides, t.UsualRides)
	if hardInside(plan, &t) {
		why += "; what is hard stays hard"
	}
	why += "."
	lines := []string{head, why}
	if t.LengthRule != "" {
		lines = append(lines, t.LengthRule)
	}
	if n := t.From.DaysUntil(plan.Today) + 1; n > 1 && plan.Today < race.Date {
		lines = append(lines, fmt.Sprintf("Today is day %d of %d.", n, t.Days))
	}
	return lines
}

// hardInside reports a hard session in the days of the taper that are shown.
func hardInside(plan *planner.Plan, t *planner.TaperSummary) bool {
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Date >= t.From && d.Date < t.Race.Date && d.IsHard() {
			return true
		}
	}
	return false
}

// changedBy names the days that a B or C race changes.
func changedBy(plan *planner.Plan, race *planner.Race) string {
	var days []string
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Race != nil && sameRace(d.Race, race) && d.Phase != planner.RaceDay && d.Changed() {
			days = append(days, d.Date.Short())
		}
	}
	if len(days) == 0 {
		return "No other day changes."
	}
	return "Besides the race it changes " + strings.Join(days, ", ") + "."
}

// warningsOf are the warnings that a race's plan needs: its own and those of the whole plan.
func warningsOf(plan *planner.Plan, race *planner.Race) []string {
	var lines []string
	for _, w := range plan.Warnings {
		if w.Race == nil || sameRace(w.Race, race) {
			lines = append(lines, "! "+w.Text)
		}
	}
	return lines
}

func (b *Bot) planWhy(ctx context.Context, req Request) (Reply, error) {
	day, d, err := b.plannedDay(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if d == nil {
		return needWeek(), nil
	}
	var p page
	p.addf("%s: %s.", dayName(day, req.rider.today), headline(d))
	why := d.Why()
	if len(why) == 0 {
		p.add("As in your usual week: nothing changes this day.")
	}
	for _, r := range why {
		p.add("- "+r.Text, "  Rule "+r.Rule+". Source: "+r.Source+".")
	}
	if len(why) > 0 && d.Phase != planner.RaceDay {
		p.addf("Usually: %s.", sessionsLabel(d.Usual, nil))
	}
	return aboutDay(&p, d), nil
}

// plannedDay reads the option day and plans it; the day is nil where there is
// no typical week.
func (b *Bot) plannedDay(ctx context.Context, req Request) (planner.Date, *planner.Day, error) {
	date, err := req.day("day")
	if err != nil {
		return 0, nil, err
	}
	facts, err := b.db.Facts(ctx, req.rider.athlete.ID)
	if err != nil || !planned(facts) {
		return date, nil, err
	}
	d, _ := planner.DeriveUntil(req.rider.today, date, facts).Day(date)
	return date, d, nil
}

// aboutDay is a reply that has understood a day.
func aboutDay(p *page, d *planner.Day) Reply {
	reply := Reply{Text: p.String(), Date: d.Date}
	if d.Race != nil {
		reply.Race = d.Race.Name
	}
	return reply
}

func (b *Bot) planMove(ctx context.Context, req Request) (Reply, error) {
	from, err := req.day("from")
	if err != nil {
		return Reply{}, err
	}
	to, err := req.day("to")
	if err != nil {
		return Reply{}, err
	}
	id := req.rider.athlete.ID
	facts, err := b.db.Facts(ctx, id)
	if err != nil {
		return Reply{}, err
	}
	if !planned(facts) {
		return needWeek(), nil
	}
	moves, err := b.db.Moves(ctx, id)
	if err != nil {
		return Reply{}, err
	}
	for _, m := range moves {
		if samePair(m.Move, planner.Move{From: from, To: to}) {
			return b.moveBack(ctx, req, m)
		}
	}
	warnings, err := facts.CheckMove(req.rider.today, from, to)
	if err != nil {
		return Reply{}, err
	}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddMove(ctx, id, planner.Move{From: from, To: to})
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Swapped: %s and %s.", from.Short(), to.Short())
	for _, w := range warnings {
		p.add("! " + w)
	}
	p.add(e.changedDays()...)
	p.addf("Undo: /plan move from:%s to:%s", from, to)
	return Reply{Text: p.String(), Date: from, Buttons: []Button{
		{Label: "Undo", Command: "plan move", Options: map[string]string{"from": from.String(), "to": to.String()}}}}, nil
}

func samePair(a, b planner.Move) bool {
	return a == b || a.From == b.To && a.To == b.From
}

// moveBack takes the last swap back when the same two days are named again.
func (b *Bot) moveBack(ctx context.Context, req Request, last storage.Move) (Reply, error) {
	e, err := b.change(ctx, req, func() error { return b.db.RemoveMove(ctx, req.rider.athlete.ID, last.ID) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Swapped back: %s and %s are as they were.", last.From.Short(), last.To.Short())
	p.add(e.changedDays()...)
	return Reply{Text: p.String(), Date: last.From}, nil
}
