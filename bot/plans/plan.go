package plans

import (
	"context"
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

func planWhy(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	day, err := req.AnyDay()
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	switch {
	case day < req.Rider.Today && !desk.PlannedThen(facts, day):
		return beforePlans(facts.Now, day, req.Rider.Today), nil
	case !desk.Planned(facts.Now):
		return req.NeedWeek(), nil
	}
	d, plan := desk.Lived(facts, day), engine.DeriveUntil(req.Rider.Today, day, facts.All)
	if day >= req.Rider.Today {
		d, _ = plan.Day(day)
	}
	var p say.Page
	p.Addf("%s: %s.", show.DayName(day, req.Rider.Today), show.Headline(d))
	why := words.Why(d)
	h, held := desk.Held(facts.Now)
	switch {
	case len(why) > 0:
	case held && day >= h.Since:
		p.Addf("Your usual week has rest on this day too. You do not train until a doctor clears you.")
	default:
		p.Addf("This day is as in your usual week. Nothing changes it.")
	}
	for i, r := range why {
		p.Addf("- %s", r.Text)
		if i == len(why)-1 || why[i+1].Rule != r.Rule {
			p.Addf("  Rule %s. Source: %s.", r.Rule, r.Source)
		}
	}
	restsIll := d.Phase == planner.Health && d.Minutes() == 0 && day >= req.Rider.Today // then no ride is named
	if len(why) > 0 && d.Phase != planner.RaceDay && !restsIll {
		p.Addf("%s", without(req.Rider.Today, facts.All, d))
	}
	p.Add(lostDays(show.LostAmong(plan, day))...)
	reply := show.AboutDay(&p, d)
	if day >= req.Rider.Today {
		reply.Buttons = []say.Button{rideButton(req.Rider.Today, day)}
	}
	return reply, nil
}

// without is what a changed day would be without the fact that decided it.
func without(today planner.Date, f *planner.Facts, d *engine.Day) string {
	other := engine.Without(today, f, d)
	label := show.SessionsLabel(other, nil)
	usual := show.SessionsLabel(d.Usual, nil)
	switch {
	case other == nil, label == show.SessionsLabel(d.Sessions, nil):
		return fmt.Sprintf("Usually it is %s.", usual)
	case label != usual:
		return fmt.Sprintf("Otherwise it would be %s.", label)
	case label == show.RestLabel:
		return "Otherwise you would rest, as usual."
	}
	return fmt.Sprintf("Otherwise you would ride %s, as usual.", label)
}

// comingDays is the plan of the next days where no race is to come.
func comingDays(plan *engine.Plan, f desk.Ledger) say.Reply {
	days := plan.Days[:min(quietDays, len(plan.Days))]
	var p say.Page
	reply := say.Reply{Date: plan.Today}
	if d := &days[0]; d.Phase == planner.Recovering && d.Race != nil {
		p.Addf("%s After that you ride your usual week: no race is to come.", show.RecoveryLeft(plan, d.Race))
		reply.Race = d.Race.Name
	} else {
		p.Addf("No race is to come, so you ride your usual week.")
	}
	p.Addf("Register one for a taper: %s", desk.RaceExample(plan.Today))
	for _, w := range words.Warnings(plan) {
		p.Add(show.WarningLine(&w))
	}
	p.Gap()
	p.Add(briefDays(days)...)
	p.Add(show.LongCautions(days)...)
	reply.Lines, reply.Buttons = p.Done(), dayButtons(plan.Today, days)
	return reply
}

// afterRace is the plan of a race that is over: what it leaves of the days to come.
func afterRace(plan *engine.Plan, ledger desk.Ledger, race *planner.Race, all bool) say.Reply {
	f := ledger.Now
	role := show.RoleOf(plan, f, race)
	days := show.RaceDays(plan, role, race)
	reply := say.Reply{Date: race.Date, Race: race.Name}
	if len(days) == 0 {
		reply.Addf("%s on %s is over and so are the days after it.", race.Name, race.Date.Long())
		reply.Addf("What comes next: /plan show")
		return reply
	}
	var p say.Page
	if race.Last() == plan.Today-1 {
		p.Addf("%s (%s) was yesterday, %s.", race.Name, race.Priority, race.Last().Short())
	} else {
		p.Addf("%s (%s) was on %s.", race.Name, race.Priority, race.Last().Long())
	}
	if days[0].Phase == planner.Recovering {
		p.Addf("%s", show.RecoveryLeft(plan, role.Race))
	} else {
		p.Addf("It still changes your week up to %s.", days[len(days)-1].Date.Short())
	}
	shown := scheduled{Plan: plan, Facts: ledger, Role: role, Race: race, Days: days}
	reply.Buttons = dayButtons(plan.Today, days)
	if all {
		p.Add(warningsOf(plan, role)...)
		p.Gap()
		p.Add(show.Schedule(days)...)
	} else {
		p.Add(shown.fewWarnings()...)
		p.Gap()
		p.Add(shown.firstDays(screenDays)...)
		reply.Buttons = append(shown.wholeButton(), reply.Buttons...)
	}
	p.Gap()
	if next := f.NextRace(plan.Today); next != nil {
		p.Addf("Next, %s on %s: %s", next.Name, next.Date.Short(), show.RaceLink(f, next))
	} else {
		p.Addf("Register the next one: %s", desk.RaceExample(plan.Today))
	}
	reply.Lines = p.Done()
	return reply
}

// swappable finds two days near each other that differ in length and may be
// swapped without a warning, easy ones if there are. It gives up after a few
// tries, each of which plans anew.
func swappable(f desk.Ledger, today planner.Date, days []engine.Day) (from, to planner.Date, ok bool) {
	const most = 12
	tries := 0
	for _, fits := range [2]func(*engine.Day) bool{onlyEasy, quiet} {
		for gap := 1; gap <= 3; gap++ {
			for i := 0; i+gap < len(days) && tries < most; i++ {
				a, b := &days[i], &days[i+gap]
				if !fits(a) || !fits(b) || a.Minutes() == b.Minutes() || desk.Moved(f.Now, a.Date, b.Date) || slices.ContainsFunc(days[i:i+gap], hasRace) {
					continue
				}
				tries++
				if engine.CheckMove(today, a.Date, b.Date, f.All) == nil {
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
