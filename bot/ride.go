package bot

import (
	"context"

	"musette/planner"
)

// ride answers with a day's session: what, why, how, what to mind.
func (b *Bot) ride(ctx context.Context, req Request) (Reply, error) {
	day, d, err := b.plannedDay(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if d == nil {
		reply := req.needWeek()
		reply.Date = day
		return reply, nil
	}
	var p page
	p.addf("%s: %s.", dayName(day, req.rider.today), headline(d))
	if why := d.Why(); len(why) > 0 {
		p.add("Why: " + why[0].Text)
	} else {
		p.add("As in your usual week.")
	}
	for i, s := range d.Sessions {
		if s.Kind == planner.Rest {
			continue // the first line has said it
		}
		p.add(d.Text(i))
		if s.Kind != planner.RaceRide {
			p.addf("Effort %s; RPE of 10: %s.", s.Effort, s.RPE())
		}
	}
	for _, c := range d.Cautions() {
		p.add("! " + c)
	}
	next := day.AddDays(1)
	if d.Changed() {
		p.addf("Sources: /plan why %s", day)
	}
	if next <= req.rider.today.AddDays(planner.MaxAhead) {
		p.addf("Next day: /ride %s", next)
	}
	reply := aboutDay(&p, d)
	if d.Race != nil && d.Race.Date == day {
		reply.Moments = req.startOf(d.Race)
	}
	reply.Buttons = []Button{
		{Label: "Why", Command: "plan why", Options: map[string]string{"day": day.String()}},
		{Label: "Next day", Command: "ride", Options: map[string]string{"day": next.String()}},
	}
	return reply, nil
}

// rideButton offers the session of the first shown day.
func rideButton(today, day planner.Date) Button {
	label := day.Short()
	if day == today {
		label = "Today"
	}
	return Button{Label: label, Command: "ride", Options: map[string]string{"day": day.String()}}
}
