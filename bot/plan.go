package bot

import (
	"context"
	"fmt"
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

func (b *Base) planWhy(ctx context.Context, req Request) (Reply, error) {
	day, err := req.anyDay()
	if err != nil {
		return Reply{}, err
	}
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	if !planned(facts.now) {
		return req.needWeek(), nil
	}
	d := lived(facts, day)
	if day >= req.rider.today {
		d, _ = engine.DeriveUntil(req.rider.today, day, facts.all).Day(day)
	}
	var p page
	p.addf("%s: %s.", dayName(day, req.rider.today), headline(d))
	why := words.Why(d)
	if len(why) == 0 {
		p.addf("As in your usual week: nothing changes this day.")
	}
	for _, r := range why {
		p.addf("- %s", r.Text)
		p.addf("  Rule %s. Source: %s.", r.Rule, r.Source)
	}
	if len(why) > 0 && d.Phase != planner.RaceDay {
		p.addf("%s", without(req.rider.today, facts.all, d))
	}
	reply := aboutDay(&p, d)
	if day >= req.rider.today {
		reply.Buttons = []Button{rideButton(req.rider.today, day)}
	}
	return reply, nil
}

// without is what a changed day would be without the fact that decided it.
func without(today planner.Date, f *planner.Facts, d *engine.Day) string {
	other := engine.Without(today, f, d)
	label := sessionsLabel(other, nil)
	usual := sessionsLabel(d.Usual, nil)
	switch {
	case other == nil, label == sessionsLabel(d.Sessions, nil):
		return fmt.Sprintf("Usually: %s.", usual)
	case label != usual:
		return fmt.Sprintf("Without it: %s.", label)
	case label == restLabel:
		return "Without it you would rest, as usual."
	}
	return fmt.Sprintf("Without it you would ride %s, as usual.", label)
}

// aboutDay is a reply that has understood a day.
func aboutDay(p *page, d *engine.Day) Reply {
	reply := Reply{Lines: p.done(), Date: d.Date}
	if d.Race != nil {
		reply.Race = d.Race.Name
	}
	return reply
}

// comingDays is the plan of the next days where no race is to come.
func comingDays(plan *engine.Plan, f ledger) Reply {
	days := plan.Days[:min(quietDays, len(plan.Days))]
	var p page
	reply := Reply{Date: plan.Today}
	if d := &days[0]; d.Phase == planner.Recovering && d.Race != nil {
		p.addf("Recovery after %s: %s Then your usual week, no race is to come.", d.Race.Name, recoveryLeft(plan, d.Race))
		reply.Race = d.Race.Name
	} else {
		p.addf("No race to come: your usual week.")
	}
	p.addf("Register one for a taper: %s", raceExample(plan.Today))
	for _, w := range words.Warnings(plan) {
		p.add(warningLine(&w))
	}
	p.gap()
	p.add(briefDays(days)...)
	p.add(longCautions(days)...)
	reply.Lines, reply.Buttons = p.done(), dayButtons(plan.Today, days)
	return reply
}

// recoveryLeft counts the recovery days from today on.
func recoveryLeft(plan *engine.Plan, race *planner.Race) string {
	n := 0
	var last planner.Date
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase == planner.Recovering && d.Race == race {
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

// afterRace is the plan of a race that is over: what it leaves of the days to come.
func afterRace(plan *engine.Plan, ledger ledger, race *planner.Race, all bool) Reply {
	f := ledger.now
	role := roleOf(plan, f, race)
	days := raceDays(plan, role, race)
	reply := Reply{Date: race.Date, Race: race.Name}
	if len(days) == 0 {
		reply.Addf("%s on %s is over and so are the days after it.", race.Name, race.Date.Long())
		reply.Addf("What comes next: /plan show")
		return reply
	}
	var p page
	if race.Last() == plan.Today-1 {
		p.addf("%s (%s) was yesterday, %s.", race.Name, race.Priority, race.Last().Short())
	} else {
		p.addf("%s (%s) was on %s.", race.Name, race.Priority, race.Last().Long())
	}
	if days[0].Phase == planner.Recovering {
		p.addf("Recovery days: %s", recoveryLeft(plan, role.Race))
	} else {
		p.addf("It still changes your week up to %s.", days[len(days)-1].Date.Short())
	}
	shown := scheduled{plan: plan, facts: ledger, role: role, race: race, days: days}
	reply.Buttons = dayButtons(plan.Today, days)
	if all {
		p.add(warningsOf(plan, role)...)
		p.gap()
		p.add(Schedule(days)...)
	} else {
		p.add(shown.fewWarnings()...)
		p.gap()
		p.add(shown.firstDays(screenDays)...)
		reply.Buttons = append(shown.wholeButton(), reply.Buttons...)
	}
	p.gap()
	if next := nextRace(f, plan.Today); next != nil {
		p.addf("Next, %s on %s: %s", next.Name, next.Date.Short(), showRace(f, next))
	} else {
		p.addf("Register the next one: %s", raceExample(plan.Today))
	}
	reply.Lines = p.done()
	return reply
}

// swappable finds two days near each other that differ in length and may be
// swapped without a warning, easy ones if there are. It gives up after a few
// tries, each of which plans anew.
func swappable(f ledger, today planner.Date, days []engine.Day) (from, to planner.Date, ok bool) {
	const most = 12
	tries := 0
	for _, fits := range [2]func(*engine.Day) bool{onlyEasy, quiet} {
		for gap := 1; gap <= 3; gap++ {
			for i := 0; i+gap < len(days) && tries < most; i++ {
				a, b := &days[i], &days[i+gap]
				if !fits(a) || !fits(b) || a.Minutes() == b.Minutes() || moved(f.now, a.Date, b.Date) || slices.ContainsFunc(days[i:i+gap], hasRace) {
					continue
				}
				tries++
				if engine.CheckMove(today, a.Date, b.Date, f.all) == nil {
					return a.Date, b.Date, true
				}
			}
		}
	}
	return 0, 0, false
}

func hasRace(d engine.Day) bool { return d.Phase == planner.RaceDay }

// onlyEasy is a day with one easy ride.
func onlyEasy(d *engine.Day) bool {
	return len(d.Sessions) == 1 && d.Sessions[0].Effort == planner.Easy
}

// quiet is a day with nothing hard and no openers.
func quiet(d *engine.Day) bool {
	for _, s := range d.Sessions {
		if s.IsHard() || s.Kind == planner.Openers {
			return false
		}
	}
	return true
}

func moved(f *planner.Facts, a, b planner.Date) bool {
	for _, m := range f.Moves {
		if samePair(m, planner.Move{From: a, To: b}) {
			return true
		}
	}
	return false
}
