package ask

import (
	"errors"
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// mayI judges a wish against the plan: yes, no, or yes if.
func (t *talk) mayI(p *asked.Part) (say.Reply, error) {
	if !desk.Planned(t.facts.Now) {
		return t.req.NeedWeek(), nil
	}
	day, ok := t.day(p)
	if r := t.race(p); r != nil && (!ok || day == r.Date) && desk.OpenIllness(t.facts.Now) != nil {
		return t.mayStart(r), nil
	} else if r != nil && !ok && p.AsksStart() && r.Last() >= t.today {
		return t.mayStartWell(r), nil
	}
	if !ok {
		day = t.today
	}
	if day < t.today {
		reply := say.Reply{Date: day}
		reply.Addf("%s is over. Ask me about a day to come.", day.Long())
		return reply, nil
	}
	d, ok := t.planUntil(day).Day(day)
	if !ok {
		reply := say.Reply{Date: day}
		reply.Addf("%s is too far away for a plan.", day.Long())
		return reply, nil
	}
	switch {
	case holds(p, "swap,move,switch,shift,instead") && len(p.Dates) > 1:
		return t.maySwap(day, p.Dates[1].From)
	case holds(p, "swap,move,switch,shift") && ok:
		if from, found := t.dayOfKind(p, day); found {
			return t.maySwap(from, day)
		}
	case p.AsksToSkip(), holds(p, "skip,off,rest,not ride,leave out,leave it,miss"):
		return t.maySkip(d), nil
	}
	if slices.Contains(p.Kinds, planner.Strength) {
		return t.strength(p)
	}
	return t.mayRide(p, d), nil
}

// mayStart answers an ill rider who asks whether to start in a race.
func (t *talk) mayStart(race *planner.Race) say.Reply {
	var p say.Page
	for _, w := range words.Warnings(t.planUntil(race.Date)) {
		if w.Race != nil && w.Race.Is(race) && show.OfHealth(w.Code) {
			p.Add(show.WarningLine(&w))
		}
	}
	if len(p.Lines) == 0 {
		p.Addf("%s on %s is too far away to say. Tell me when you are well: /tell well", race.Name, show.Dated(race.Date, t.today))
	}
	rest, _ := desk.NotTraining(t.facts.Now, t.today)
	p.Add(rest.Lines...)
	return say.Reply{Date: race.Date, Race: race.Name, Lines: p.Done(), Buttons: rest.Buttons}
}

// mayStartWell answers a rider who is well and asks whether to start in a race.
func (t *talk) mayStartWell(race *planner.Race) say.Reply {
	var p say.Page
	plan, role := t.planOf(race)
	p.Addf("Yes: %s is in your plan: %s.", race.Name, show.DescribeRace(race))
	p.Addf("%s", show.Window(plan, role, race))
	p.Addf("Do not start when you are ill, hurt or dizzy.")
	return say.Reply{Date: race.Date, Race: race.Name, Lines: p.Done(), Buttons: []say.Button{show.PlanButton(race), show.WhyButton(race.Date)}}
}

// dayOfKind is the next day with a session that the part names, but not that day.
func (t *talk) dayOfKind(p *asked.Part, but planner.Date) (planner.Date, bool) {
	plan := t.planUntil(t.today.AddDays(mostDays))
	for i := range plan.Days[:min(mostDays, len(plan.Days))] {
		d := &plan.Days[i]
		if d.Date != but && slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return slices.Contains(p.Kinds, s.Kind) || p.Hard && s.IsHard() }) {
			return d.Date, true
		}
	}
	return 0, false
}

// maySwap says whether two days may be swapped.
func (t *talk) maySwap(from, to planner.Date) (say.Reply, error) {
	reply := say.Reply{Date: from}
	err := engine.CheckMove(t.today, from, to, t.facts.All)
	if fault := (*planner.InputError)(nil); errors.As(err, &fault) {
		reply.Addf("No, leave %s and %s as they are.", from.Short(), to.Short())
		reply.Addf("%s.", fault.Msg)
		reply.Buttons = []say.Button{show.WhyButton(from), show.WhyButton(to)}
		return reply, nil
	}
	if err != nil {
		return reply, err
	}
	days := t.days(min(from, to), max(from, to))
	a, b := &days[0], &days[len(days)-1]
	reply.Addf("Yes, you can swap %s and %s: no rule is broken.", a.Date.Short(), b.Date.Short())
	reply.Addf("Then %s has %s, and %s has %s. Not saved yet.", a.Date.Short(), show.SessionsLabel(b.Sessions, nil), b.Date.Short(), show.SessionsLabel(a.Sessions, nil))
	reply.Buttons = []say.Button{{Label: "Swap them", Command: "plan move", Options: map[string]string{"from": from.String(), "to": to.String()}}, show.WhyButton(a.Date)}
	return reply, nil
}

// maySkip says what it means to leave a day out.
func (t *talk) maySkip(d *engine.Day) say.Reply {
	var p say.Page
	planned := show.Careful(d)
	switch {
	case d.Phase == planner.RaceDay && d.Race != nil:
		p.Addf("%s is the day of %s. You decide whether you start.", d.Date.Short(), d.Race.Name)
	case d.Minutes() == 0:
		p.Addf("Yes: %s is a rest day in any case.", d.Date.Short())
	case d.IsHard():
		p.Addf("Yes, but it is the day to keep: %s has %s.", d.Date.Short(), planned)
		p.Addf("Hard sessions keep you sharp. If a day must go, leave out an easy one. You do not make up what you leave out.")
	default:
		p.Addf("Yes: %s has only %s, and one easy ride less does little harm.", d.Date.Short(), planned)
		p.Addf("You do not make it up later. If you only lack time, half of it is better than nothing.")
	}
	reply := show.AboutDay(&p, d)
	if d.Minutes() > 0 && d.Phase != planner.RaceDay {
		reply.Buttons = []say.Button{{Label: "Take " + d.Date.Short() + " off", Command: "tell away", Options: map[string]string{"from": d.Date.String()}}}
	}
	reply.Buttons = append(reply.Buttons, show.WhyButton(d.Date))
	return reply
}

// wish is the session that somebody would like to ride, and its name.
func (t *talk) wish(p *asked.Part, d *engine.Day) (planner.Session, string) {
	s := planner.Session{Kind: planner.Endurance, Effort: planner.Steady, Minutes: int16(p.Minutes)}
	name := "that ride"
	for _, kind := range p.Kinds {
		switch kind {
		case planner.Group:
			s.Kind, s.Effort, name = planner.Group, planner.Hard, "the group ride"
		case planner.Intervals:
			s.Kind, s.Effort, name = planner.Intervals, planner.Hard, "a hard session"
		case planner.Long:
			s.Kind, name = planner.Long, "a long ride"
		case planner.Other:
			s.Kind, s.Effort, name = planner.Other, planner.Easy, "that"
		default:
			continue
		}
		break
	}
	if p.Hard && s.Effort != planner.Hard {
		s.Kind, s.Effort, name = planner.Intervals, planner.Hard, "a hard ride"
	}
	if s.Minutes == 0 {
		s.Minutes = int16(max(60, d.Minutes()))
		if s.Kind == planner.Long {
			s.Minutes = int16(max(180, d.Minutes()))
		}
	}
	return s, name
}

// mayRide judges a ride on a day.
func (t *talk) mayRide(p *asked.Part, d *engine.Day) say.Reply {
	s, name := t.wish(p, d)
	var page say.Page
	err := engine.CheckPin(t.today, planner.Pin{Date: d.Date, Session: s}, t.facts.All)
	fault := (*planner.InputError)(nil)
	refused := errors.As(err, &fault)
	hard := s.Effort == planner.Hard
	free := d.Race == nil && (d.Phase == planner.Normal || d.Phase == planner.Overload)
	switch {
	case d.Phase == planner.RaceDay && d.Race != nil && !hard && p.Minutes <= warmUp:
		page.Addf("Only as a warm-up: %s is the day of %s. Ride easily, with a few short efforts near the start.", d.Date.Short(), d.Race.Name)
	case d.Phase == planner.RaceDay && d.Race != nil:
		page.Addf("No: %s is the day of %s.", d.Date.Short(), d.Race.Name)
	case d.Phase == planner.Health:
		page.Addf("No: %s is kept for your health.", d.Date.Short())
	case d.Phase != planner.RaceDay && d.IsHard() && hard:
		page.Addf("Yes, but instead of what is planned on %s (%s), not as well.", d.Date.Short(), show.Careful(d))
		page.Addf("Ride %s at most, keep the hard part near what is planned, and turn for home when it is done.", planner.Duration(d.Minutes()))
	case refused:
		page.Addf("No: %s does not fit on %s.", name, d.Date.Short())
		page.Addf("%s.", fault.Msg)
		page.Addf("Your plan has %s instead.", show.Careful(d))
	case hard:
		t.yesIf(&page, d, s, name, free)
	case d.IsHard():
		page.Addf("Yes, but then the hard session of %s goes: %s.", d.Date.Short(), show.Careful(d))
		page.Addf("It is the day that keeps you sharp. Keep it if you can.")
	case int(s.Minutes) <= d.Minutes():
		page.Addf("Yes: %s has %s in any case. Keep it easy enough to talk.", d.Date.Short(), show.Careful(d))
	default:
		t.yesIf(&page, d, s, name, free)
	}
	reply := show.AboutDay(&page, d)
	reply.Buttons = []say.Button{{Label: "Plan of " + d.Date.Short(), Command: "ride", Options: map[string]string{"day": d.Date.String()}}, show.WhyButton(d.Date)}
	return reply
}

// yesIf says on which condition a ride fits, and what it costs on race morning.
func (t *talk) yesIf(page *say.Page, d *engine.Day, s planner.Session, name string, free bool) {
	planned := show.Careful(d)
	over := int(s.Minutes) - d.Minutes()
	if s.Effort == planner.Hard {
		if other := t.hardBeside(d.Date); other != nil {
			page.Addf("Yes, if %s takes the place of the hard session on %s: %s.", name, other.Date.Short(), show.Careful(other))
			page.Addf("Your plan for %s: %s.", d.Date.Short(), planned)
		} else if free {
			page.Addf("Yes, if it is your only hard day that week. Your plan for %s: %s.", d.Date.Short(), planned)
		} else {
			page.Addf("Better not: your plan for %s is %s, so that you get fresh.", d.Date.Short(), planned)
		}
	} else if free && over >= muchOver {
		page.Addf("Yes, if you keep it easy: %s is %s more than planned on %s (%s).", planner.Duration(int(s.Minutes)), planner.Duration(over), d.Date.Short(), planned)
		if next := t.dayAfter(d.Date); next != nil && next.Minutes() > 0 {
			page.Addf("Then %s gives way: %s is planned, ride half of it or rest.", next.Date.Short(), show.Headline(next))
		}
	} else if d.Minutes() == 0 && !free {
		page.Addf("Better not: %s has %s, so that you get fresh.", d.Date.Short(), planned)
	} else if free {
		page.Addf("Yes, if you keep it easy. Your plan for %s: %s.", d.Date.Short(), planned)
	} else {
		page.Addf("Better not all of it: your plan for %s is %s. Stop near that.", d.Date.Short(), planned)
	}
	if cost := t.cost(d.Date, s); cost != "" {
		page.Addf("%s", cost)
	} else {
		page.Addf("No taper is near, so it costs you no race. Sleep on it, and take the day after easily.")
	}
}

// warmUp is how many minutes may be ridden before a race.
const warmUp = 30

// muchOver is by how many minutes a ride is so much longer that another day gives way.
const muchOver = 60

// dayAfter is the day after another, nil where nothing is planned.
func (t *talk) dayAfter(day planner.Date) *engine.Day {
	next := day.AddDays(1)
	d, ok := t.planUntil(next).Day(next)
	if !ok || d.Phase == planner.RaceDay {
		return nil
	}
	return d
}

// hardBeside is the hard day of the same week that is nearest to another day, nil where none is.
func (t *talk) hardBeside(day planner.Date) *engine.Day {
	monday := day.AddDays(-int(day.Weekday()))
	plan := t.planUntil(monday.AddDays(6))
	var best *engine.Day
	apart := func(d planner.Date) int { return max(day.DaysUntil(d), d.DaysUntil(day)) }
	for date := max(monday, t.today); date <= monday.AddDays(6); date++ {
		d, ok := plan.Day(date)
		if ok && date != day && d.IsHard() && d.Phase != planner.RaceDay && (best == nil || apart(date) < apart(best.Date)) {
			best = d
		}
	}
	return best
}

// cost is what a session on a day does to the race that is tapered for.
func (t *talk) cost(day planner.Date, s planner.Session) string {
	race := t.goal()
	if race == nil || day >= race.Date || day.DaysUntil(race.Date) > planner.MaxTaperDays {
		return ""
	}
	plan, role := t.planOf(race)
	taper := show.TaperOf(plan, role)
	if taper == nil {
		return ""
	}
	with := *t.facts.All
	with.Pins = append(slices.Clone(with.Pins), planner.Pin{Date: day, Session: s, Told: planner.Told{On: t.today}})
	other := engine.DeriveUntil(t.today, race.Last().AddDays(show.AfterDays), &with)
	changed := show.TaperOf(other, show.RoleOf(other, t.facts.Now, race))
	before := season.Expect(plan, t.facts.All, taper)
	if changed == nil || before == nil {
		return ""
	}
	after := season.Expect(other, &with, changed)
	if after == nil {
		return ""
	}
	was, is := int(100*before.Shed+0.5), int(100*after.Shed+0.5)
	if was == is || day < taper.From {
		return fmt.Sprintf("On the morning of %s you would feel no difference.", race.Name)
	}
	more := "more"
	if is > was {
		more = "less"
	}
	return fmt.Sprintf("You would start %s %s tired: by then you would lose %d %% of your fatigue, and with your plan %d %%.", race.Name, more, is, was)
}
