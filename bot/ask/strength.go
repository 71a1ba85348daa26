package ask

import (
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
)

// strength says what happens to strength work.
func (t *talk) strength(p *asked.Part) (say.Reply, error) {
	day, dated := t.day(p)
	race := t.aim(p)
	if !dated {
		day = t.today
		if race != nil && holds(p, "race week,week of the race,last week,final week,week before") {
			day = max(t.today, race.Date.AddDays(1-engine.StrengthUntil))
		}
	}
	reply := say.Reply{Date: day}
	if d, ok := t.planUntil(day).Day(day); ok && d.Phase == planner.Health {
		reply.Addf("No: your plan has no training on %s, because of your health. That means no strength work either.", day.Short())
		return reply, nil
	}
	switch {
	case race == nil || race.Date < day:
		reply.Addf("Yes: no race is near, so keep your strength work as usual, on easy days or after hard rides.")
	case !dated && holds(p, "when,last,until,stop"):
		t.strengthUntil(&reply, race)
	default:
		t.strengthOn(&reply, race, day)
	}
	reply.Addf("In a taper do half as much and keep it light, until %d days before the race. After that do none. Source: common practice, rule taper.strength.", engine.StrengthUntil)
	reply.Buttons = []say.Button{{Label: "Plan of " + reply.Date.Short(), Command: "ride", Options: map[string]string{"day": reply.Date.String()}}}
	return reply, nil
}

// strengthUntil says when strength work ends before a race.
func (t *talk) strengthUntil(reply *say.Reply, race *planner.Race) {
	plan, role := t.planOf(race)
	last := race.Date.AddDays(-engine.StrengthUntil)
	reply.Race = race.Name
	switch taper := show.TaperOf(plan, role); {
	case taper == nil:
		reply.Addf("%s has no taper, so keep your strength work. Leave it out in the last 3 days before the race.", race.Name)
	case last < t.today:
		reply.Addf("Now: it is less than %d days to %s, so leave strength work out until the race is over.", engine.StrengthUntil, race.Name)
	default:
		reply.Date = last
		reply.Addf("The last strength work before %s is on %s, %d days before it.", race.Name, last.Long(), engine.StrengthUntil)
	}
}

// strengthOn says whether strength work fits on a day before a race.
func (t *talk) strengthOn(reply *say.Reply, race *planner.Race, day planner.Date) {
	reply.Race = race.Name
	plan, role := t.planOf(race)
	taper := show.TaperOf(plan, role)
	switch left := day.DaysUntil(race.Date); {
	case taper == nil && left > 3, taper != nil && day < taper.From:
		reply.Addf("Yes: on %s you are not in a taper, so keep your strength work as usual.", day.Short())
	case left >= engine.StrengthUntil:
		reply.Addf("Yes, if it is light: on %s half as long and half as heavy, %s before %s.", day.Short(), show.Count(left, "day"), race.Name)
	default:
		reply.Addf("No: in the last %d days before %s leave strength work out. It makes your legs heavy and no longer helps.", engine.StrengthUntil-1, race.Name)
	}
}
