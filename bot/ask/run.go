package ask

import (
	"cmp"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
)

// run gives a command of the table, as the person would.
func (t *talk) run(name string, options map[string]string) (say.Reply, error) {
	for i := range t.rows {
		row := &t.rows[i]
		if row.Name != name {
			continue
		}
		req := t.req
		req.Command = name
		if err := row.Allow(&req); err != nil {
			return say.Reply{}, err
		}
		checked, err := row.Check(options)
		if err != nil {
			return say.Reply{}, err
		}
		req.Options = checked
		return row.Run(t.ctx, t.base, req)
	}
	return say.Reply{}, say.Refuse("command", "there is no command /%s", name)
}

// has reports whether the table has a command with these options.
func (t *talk) has(name string, options ...string) bool {
	for i := range t.rows {
		if t.rows[i].Name != name {
			continue
		}
		for _, o := range options {
			if _, ok := t.rows[i].Option(o); !ok {
				return false
			}
		}
		return true
	}
	return false
}

// race is the race that a part names, nil where it names none.
func (t *talk) race(p *asked.Part) *planner.Race {
	if p.OtherRace() && t.last != nil {
		for _, r := range t.ahead() {
			if t.last.Race == nil && r != t.goal() || t.last.Race != nil && !r.Is(t.last.Race) {
				p.Race = r
				return r
			}
		}
	}
	return p.Race
}

// ahead are the races to come that stand, by date.
func (t *talk) ahead() []*planner.Race { return t.facts.Now.Ahead(t.today) }

// goal is the race that questions about a taper are about: the next A race, else
// the next race.
func (t *talk) goal() *planner.Race {
	f := t.facts.Now
	goal := planner.FirstAhead(f.Races, t.today, func(r *planner.Race) bool { return r.Priority == planner.PriorityA })
	return cmp.Or(goal, f.NextRace(t.today))
}

// aim is the race that a part is about.
func (t *talk) aim(p *asked.Part) *planner.Race {
	if r := t.race(p); r != nil {
		return r
	}
	return t.goal()
}

// day is the day that a part is about.
func (t *talk) day(p *asked.Part) (planner.Date, bool) {
	from, _, ok := p.Stretch()
	return from, ok
}

// dayOption is an option of a day, none where the part names no day.
func (t *talk) dayOption(p *asked.Part) map[string]string {
	if day, ok := t.day(p); ok {
		return map[string]string{"day": day.String()}
	}
	return map[string]string{}
}

// raceOption means a race and no other.
func raceOption(r *planner.Race) map[string]string {
	if r == nil {
		return map[string]string{}
	}
	return show.ByRace(r)
}

// planUntil is the plan up to a day.
func (t *talk) planUntil(day planner.Date) *engine.Plan {
	return engine.DeriveUntil(t.today, day, t.facts.All)
}

// planOf is the plan of a race with its role.
func (t *talk) planOf(r *planner.Race) (*engine.Plan, planner.RaceRole) {
	plan := t.planUntil(r.Last().AddDays(show.AfterDays))
	return plan, show.RoleOf(plan, t.facts.Now, r)
}

// noRace asks for a race.
func (t *talk) noRace() say.Reply {
	reply := say.Reply{}
	reply.Addf("You have no race to come.")
	reply.Addf("Tell me one, for example: I race Hill Loop on 28 June, it is an A race.")
	return reply
}

// inDays is how far away a day is.
func inDays(today, day planner.Date) string {
	switch n := today.DaysUntil(day); {
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	case n == -1:
		return "yesterday"
	case n < 0:
		return show.Count(-n, "day") + " ago"
	default:
		return "in " + show.Count(n, "day")
	}
}

// holds reports whether a part's text holds one of some words.
func holds(p *asked.Part, list string) bool {
	text := " " + strings.Join(strings.FieldsFunc(strings.ToLower(p.Text), func(r rune) bool { return !('a' <= r && r <= 'z') && r != '\'' }), " ") + " "
	for _, w := range strings.Split(list, ",") {
		if strings.Contains(text, " "+w+" ") {
			return true
		}
	}
	return false
}
