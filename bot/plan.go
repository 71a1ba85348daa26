package bot

import (
	"context"
	"fmt"
	"slices"
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
			head = fmt.Sprintf("Recovery after %s: %s Then your usual week, no race is to come.", d.Race.Name, recoveryLeft(plan, d.Race))
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
	if m, ok := easySwap(facts, plan, days); ok {
		p.addf("Swap two days: /plan move from:%s to:%s", m.From, m.To)
	}
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
	to := race.Last().AddDays(1)
	for i := range plan.Days {
		if d := &plan.Days[i]; belongs(plan, d, race) && (d.Changed() || d.Phase == planner.Recovering) {
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

// belongs reports whether a race decides a day.
func belongs(plan *planner.Plan, d *planner.Day, race *planner.Race) bool {
	return d.Race != nil && d.Race == roleOf(plan, race).Race
}

// easySwap finds two easy days near each other that may be swapped without harm.
func easySwap(facts *planner.Facts, plan *planner.Plan, days []planner.Day) (planner.Move, bool) {
	easy := func(d *planner.Day) bool {
		return d.Minutes() > 0 && !d.IsHard() && d.Phase != planner.RaceDay && len(d.Sessions) == 1 && d.Sessions[0].Effort == planner.Easy
	}
	for i := range days {
		for j := i + 1; j < min(i+4, len(days)); j++ {
			a, b := &days[i], &days[j]
			m := planner.Move{From: a.Date, To: b.Date}
			if !easy(a) || !easy(b) || sessionsLabel(a.Sessions, nil) == sessionsLabel(b.Sessions, nil) || moved(facts, m) {
				continue
			}
			if warnings, err := facts.CheckMove(plan.Today, m.From, m.To); err == nil && len(warnings) == 0 {
				return m, true
			}
		}
	}
	return planner.Move{}, false
}

// moved reports whether the two days are swapped already: naming them again takes that back.
func moved(facts *planner.Facts, m planner.Move) bool {
	return slices.ContainsFunc(facts.Moves, func(k planner.Move) bool { return samePair(k, m) })
}

// overHead says when a race was and what is left of its recovery days.
func overHead(plan *planner.Plan, race *planner.Race) []string {
	when := "on " + race.Last().Long()
	if race.Last() == plan.Today-1 {
		when = "yesterday, " + race.Last().Short()
	}
	return []string{fmt.Sprintf("%s (%s) was %s.", race.Name, race.Priority, when), "Recovery days: " + recoveryLeft(plan, race)}
}

// recoveryLeft counts the recovery days from today on.
func recoveryLeft(plan *planner.Plan, race *planner.Race) string {
	n := 0
	var last planner.Date
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase == planner.Recovering && belongs(plan, d, race) {
			n, last = n+1, d.Date
		}
	}
	switch {
	case n == 0:
		return "none is left."
	case last == plan.Today:
		return "today is the last one."
	}
	return fmt.Sprintf("%d left, to %s.", n, last.Short())
}

// planHead is the answer of a race's plan and its reason.
func planHead(plan *planner.Plan, race *planner.Race) []string {
	if race.Last() < plan.Today {
		return overHead(plan, race)
	}
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
	why := fmt.Sprintf("%d of %d usual minutes, %d of %s", t.PlanMinutes, t.UsualMinutes, t.PlanRides, count(t.UsualRides, "ride"))
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
		if d := &plan.Days[i]; belongs(plan, d, race) && d.Phase != planner.RaceDay && d.Changed() {
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
		if w.Race == nil || w.Race == roleOf(plan, race).Race {
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
		p.add("As in your usual week: nothing changes this day.", fmt.Sprintf("What to ride: /ride %s", day))
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

// moveBack takes a swap back when the same two days are named again.
func (b *Bot) moveBack(ctx context.Context, req Request, last storage.Move) (Reply, error) {
	e, err := b.change(ctx, req, func() error { return b.db.RemoveMove(ctx, req.rider.athlete.ID, last.ID) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Swapped back: %s and %s are as they were.", last.From.Short(), last.To.Short())
	p.add(e.news()...)
	p.add("Your days: /plan show")
	return Reply{Text: p.String(), Date: last.From}, nil
}
