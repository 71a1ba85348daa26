package bot

import (
	"context"

	"musette/planner"
)

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
	p.addf("How to ride it: /ride %s", day)
	return aboutDay(&p, d), nil
}

// plannedDay reads the option day and plans it; the day is nil where there is
// no typical week.
func (b *Bot) plannedDay(ctx context.Context, req Request) (planner.Date, *planner.Day, error) {
	date, err := req.day("day")
	if err != nil {
		return 0, nil, err
	}
	facts, err := b.facts(ctx, req.rider)
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
