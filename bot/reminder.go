package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

// reminder is what a rider is told on a day of theirs; due is false where there
// is nothing to say: reminders are off or left to /ride, no race is near, or the
// day is as any other. It stores nothing. now decides which instants are past.
func (b *Base) reminder(ctx context.Context, a storage.Athlete, club storage.Club, day planner.Date, now time.Time) (reply Reply, due bool, err error) {
	mode := a.Settings.Remind.Mode
	if mode == storage.RemindOff || a.Settings.Remind.By == storage.RemindRide {
		return Reply{}, false, nil
	}
	all, err := b.db.Facts(ctx, a.ID)
	if err != nil {
		return Reply{}, false, err
	}
	facts := all.KnownOn(day)
	if !planned(facts) || !raceNear(facts, day) {
		return Reply{}, false, nil
	}
	plan := engine.Derive(day, all)
	o := occasionOf(plan, facts, day)
	if !o.due(mode) {
		return Reply{}, false, nil
	}
	if err := b.askAfter(ctx, a.ID, &o); err != nil {
		return Reply{}, false, err
	}
	var moments []Moment
	if race := o.start(); race != nil {
		zone, err := time.LoadLocation(a.Zone)
		if err != nil {
			return Reply{}, false, fmt.Errorf("zone of rider %d: %w", a.ID, err)
		}
		moments = startOf(race, zone, now)
		o.begun = race == o.race && race.Start != "" && len(moments) == 0
	}
	reply = o.remind(plan, club.Name)
	reply.Moments = moments
	return reply, true, nil
}

// askAfter keeps the race of the day before only where the rider has not told
// yet how it went.
func (b *Base) askAfter(ctx context.Context, athlete storage.AthleteID, o *occasion) error {
	if o.after == nil || o.day.Phase == planner.Health {
		return nil
	}
	results, err := b.db.Results(ctx, athlete)
	if err != nil {
		return err
	}
	races, err := b.db.Races(ctx, athlete)
	if err != nil {
		return err
	}
	o.ask = o.after
	for _, r := range races {
		if _, told := results[r.ID]; told && r.Date == o.after.Date && r.Name == o.after.Name {
			o.ask = nil
		}
	}
	return nil
}

// remind words the day: what to ride, where it stands and why, how, what to mind.
func (o *occasion) remind(plan *engine.Plan, club string) Reply {
	d := o.day
	var p page
	switch {
	case o.race != nil:
		p.addf("%s", o.raceDay())
	case o.logged && d.Minutes() == 0:
		p.addf("Today, %s: you said that you do not ride.", d.Date.Short())
	case o.logged:
		p.addf("Today, %s: %s ridden already.", d.Date.Short(), planner.Duration(d.Minutes()))
	default:
		p.addf("Today, %s: %s.", d.Date.Short(), headline(d))
		p.addf("%s", o.because(plan))
	}
	p.add(o.lines(d.Date)...)
	if !o.logged && !o.begun { // else it would ask for a second ride
		p.add(howTo(d)...)
	}
	if d.Phase == planner.Health {
		p.add(healthWarnings(plan)...)
	}
	p.addf("Reminder from %s. Pause: /me set pause:3. Stop: /me set remind:off", club)
	reply := aboutDay(&p, d)
	if race := o.about(); race != nil {
		reply.Race = race.Name
	}
	reply.Topic, reply.Topics, reply.Private = TopicCommand, []string{TopicCommand}, true
	reply.Buttons = append(o.buttons(), Button{Label: "Pause 3 days", Command: "me set", Options: map[string]string{"pause": "3"}},
		Button{Label: "Stop", Command: "me set", Options: map[string]string{"remind": storage.RemindOff.String()}})
	return reply
}

// because says where the day stands before or after its race, and its first reason.
func (o *occasion) because(plan *engine.Plan) string {
	why := "As in your usual week."
	if reasons := words.Why(o.day); len(reasons) > 0 {
		why = reasons[0].Text
	}
	if where := o.where(plan); where != "" {
		return where + " " + why
	}
	return why
}

// where places the day in the build-up.
func (o *occasion) where(plan *engine.Plan) string {
	d, r := o.day, o.lead.Race
	if r == nil || d.Phase == planner.Health {
		return ""
	}
	toGo := d.Date.DaysUntil(r.Date)
	switch t := taperOf(plan, o.lead); {
	case d.Date > r.Last() && d.Phase == planner.Recovering:
		return fmt.Sprintf("Recovery after %s: %s", r.Name, recoveryLeft(plan, r))
	case d.Date > r.Last():
		return fmt.Sprintf("The day after %s.", r.Name)
	case toGo <= 0:
		return fmt.Sprintf("Day %d of %d of %s.", 1-toGo, r.Days, r.Name)
	case t != nil && d.Date >= t.From:
		return fmt.Sprintf("Day %d of %d of the taper for %s, %s to go.", t.From.DaysUntil(d.Date)+1, t.Days, r.Name, count(toGo, "day"))
	case t != nil:
		return fmt.Sprintf("The taper for %s begins in %s, on %s.", r.Name, count(d.Date.DaysUntil(t.From), "day"), t.From.Short())
	}
	return fmt.Sprintf("%s (%s race) is in %s.", r.Name, r.Priority, count(toGo, "day"))
}

// raceDay is the answer of a race day.
func (o *occasion) raceDay() string {
	r, text := o.race, "Race day: "+o.race.Name
	if r.Days > 1 {
		text += fmt.Sprintf(", day %d of %d", r.Date.DaysUntil(o.day.Date)+1, r.Days)
	}
	if r.Date == o.day.Date && r.Start != "" {
		text += ", start " + r.Start
	}
	if r.Place != "" {
		text += ", " + r.Place
	}
	return text + "."
}

// lines are what a race that is near adds to a day: a wish on its own, the race of
// the next day, and the question about that of the day before.
func (o *occasion) lines(today planner.Date) []Line {
	var lines []Line
	switch {
	case o.race == nil:
	case o.begun || o.logged:
		lines = append(lines, Say("How did it go? /race result race:%s feeling:7", Quote(raceKey(o.race))))
	default:
		lines = append(lines, Say("Good luck, and enjoy it!"))
	}
	if r, day := o.eve, o.day.Date+1; r != nil {
		openers := ""
		if o.opens && !o.logged {
			openers = " The openers are for it."
		}
		lines = append(lines, Say("%s: %s%s", dayName(day, today), describeStart(r, day), openers))
		if r.Start == "" {
			lines = append(lines, Say("I do not know its start yet: /race change race:%s start:10:30", Quote(raceKey(r))))
		}
	}
	if o.ask != nil {
		lines = append(lines, Say("How were the legs in %s? /race result race:%s feeling:7", o.ask.Name, Quote(raceKey(o.ask))))
	}
	return lines
}

// describeStart is a race with where and when it starts, a sentence. A race that
// goes on that day, since another has its first one, has no start.
func describeStart(r *planner.Race, day planner.Date) string {
	text := fmt.Sprintf("%s (%s race)", r.Name, r.Priority)
	if r.Start != "" && r.Date == day {
		text += ", start " + r.Start
	}
	if r.Place != "" {
		text += ", " + r.Place
	}
	return text + "."
}

// raceKey names one race for sure: name and date.
func raceKey(r *planner.Race) string { return r.Name + " " + r.Date.String() }

// howTo tells how a day's sessions are ridden and what to mind.
func howTo(d *engine.Day) []Line {
	var lines []Line
	for i, s := range d.Sessions {
		if s.Kind == planner.Rest {
			continue // the first line has said it
		}
		lines = append(lines, Say("%s", words.Session(d, i)))
		if s.Kind != planner.RaceRide {
			lines = append(lines, Say("How hard: %s", words.HowHard(s)))
		}
	}
	for _, c := range words.Cautions(d) {
		lines = append(lines, Say("! %s", c))
	}
	return lines
}

// healthWarnings are those that an illness brings.
func healthWarnings(plan *engine.Plan) []Line {
	var lines []Line
	for _, w := range words.Warnings(plan) {
		if strings.HasPrefix(w.Code, "health.") {
			lines = append(lines, warningLine(&w))
		}
	}
	return lines
}

// feelings are the answers offered to the question how the legs were, of 10.
var feelings = [...]struct{ label, of10 string }{{"Heavy", "3"}, {"Fair", "5"}, {"Good", "7"}, {"Flying", "9"}}

// askButtons answer how the legs were in a race.
func askButtons(r *planner.Race) []Button {
	var out []Button
	for _, f := range feelings {
		out = append(out, Button{Label: f.label, Command: "race result", Options: map[string]string{"race": raceKey(r), "feeling": f.of10}})
	}
	return out
}

// buttons log the day, or answer the question about the day before.
func (o *occasion) buttons() []Button {
	if o.ask != nil && o.race == nil {
		return askButtons(o.ask)
	}
	day := o.day.Date.String()
	var out []Button
	if o.day.Minutes() > 0 && !o.logged {
		out = []Button{
			{Label: "Rode it", Command: "done", Options: map[string]string{"day": day}},
			{Label: "Heavy legs", Command: "done", Options: map[string]string{"day": day, "note": "heavy legs"}},
			{Label: "Stayed home", Command: "tell missed", Options: map[string]string{"day": day}},
		}
	}
	return append(out, whyButton(o.day.Date))
}
