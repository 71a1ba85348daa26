package show

import (
	"fmt"
	"slices"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
)

// fewLost is how many lost days are named one by one.
const fewLost = 4

// LostDays names the days that fall out of a taper and the hard rides that stay, "" up to
// the first such day: its own reason says all of it.
func LostDays(plan *engine.Plan, t *engine.Taper) string {
	if t == nil || len(t.Lost) < 2 || t.Race.Date <= plan.Today {
		return ""
	}
	n := len(t.Lost)
	which := fmt.Sprintf(", from %s to %s", t.Lost[0].Short(), t.Lost[n-1].Short())
	if n <= fewLost {
		names := make([]string, n)
		for i, day := range t.Lost {
			names[i] = day.Short()
		}
		which = ": " + say.AndList(names)
	}
	return fmt.Sprintf("%s of the taper for %s are lost%s. %s", Count(n, "day"), t.Race.Name, which, staysHard(plan, t))
}

// LostAmong is LostDays where the day is one of them.
func LostAmong(plan *engine.Plan, day planner.Date) string {
	for i := range plan.Tapers {
		for _, lost := range plan.Tapers[i].Lost {
			if lost == day {
				return LostDays(plan, &plan.Tapers[i])
			}
		}
	}
	return ""
}

// staysHard names the days of hard rides and openers that are still to come in a taper.
func staysHard(plan *engine.Plan, t *engine.Taper) string {
	var hard, openers []string
	for date := max(t.From, plan.Today); date < t.Race.Date; date++ {
		d, ok := plan.Day(date)
		switch {
		case !ok || d.Phase == planner.RaceDay || len(d.Causes) > 0 && d.Causes[0].Code == engine.WhyLogged:
		case d.IsHard():
			hard = append(hard, date.Short())
		case slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return s.Kind == planner.Openers }):
			openers = append(openers, date.Short())
		}
	}
	rides := "Your hard ride on %s stays"
	if len(hard) > 1 {
		rides = "Your hard rides on %s stay"
	}
	switch {
	case len(hard) > 0 && len(openers) > 0:
		return fmt.Sprintf(rides+", and so do your openers on %s.", say.AndList(hard), say.AndList(openers))
	case len(hard) > 0:
		return fmt.Sprintf(rides+".", say.AndList(hard))
	case len(openers) > 0:
		return fmt.Sprintf("Of the hard work only your openers on %s stay.", say.AndList(openers))
	}
	return "No hard ride and no openers are left in it."
}

// ReasonsGiven are the reasons that a list of days has given, each with its last day.
type ReasonsGiven map[reasonGiven]planner.Date

// reasonGiven is a reason apart from the race that it names. Day is another day of which it speaks.
type reasonGiven struct {
	code engine.Code
	day  planner.Date
}

// New reports a changed day whose reason is to be given: each once, and anew where a day is
// lost for it after days that were not.
func (g ReasonsGiven) New(d *engine.Day) bool {
	why := reasonGiven{d.Causes[0].Code, d.Causes[0].Day}
	last, given := g[why]
	g[why] = d.Date
	return !given || last < d.Date-1 && isLost(d)
}

// isLost reports a day without its ride by what the rider told, but for health.
func isLost(d *engine.Day) bool {
	if len(d.Causes) == 0 || d.Minutes() > 0 {
		return false
	}
	switch d.Causes[0].Code {
	case engine.WhyAway, engine.WhyTravel, engine.WhyLimit, engine.WhyMissed:
		return true
	}
	return false
}
