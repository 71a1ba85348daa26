// Package remind is what riders are told of a day without asking, and when.
package remind

import (
	"cmp"
	"context"
	"fmt"
	"strings"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

// Reminder is what a rider is told on a day of theirs; due is false where there
// is nothing to say: reminders are off or left to /ride, no race is near, or the
// day is as any other. It stores nothing. now decides which instants are past.
func Reminder(ctx context.Context, b *desk.Base, who *storage.Known, day planner.Date, now time.Time) (reply say.Reply, due bool, err error) {
	a, club, all := &who.Athlete, &who.Club, who.Facts
	mode := a.Settings.Remind.Mode
	if mode == storage.RemindOff || a.Settings.Remind.By == storage.RemindRide {
		return say.Reply{}, false, nil
	}
	facts := all.KnownOn(day)
	if reply, due, instead := howAreYou(all, facts, day, a.Settings.Remind.Pause, club.Name); instead {
		return reply, due, nil
	}
	if !desk.Planned(facts) {
		return say.Reply{}, false, nil
	}
	coach, err := byCoachOn(ctx, b, who, facts, day)
	if err != nil {
		return say.Reply{}, false, err
	}
	hand := len(coach.notes) > 0 || show.PinOn(facts, day) != nil
	if !hand && !raceNear(facts, day) {
		return say.Reply{}, false, nil
	}
	plan := engine.Derive(day, all)
	o := OccasionOf(plan, facts, day)
	hand = hand && o.Day.Phase != planner.Health && (len(coach.notes) > 0 || Pinned(o.Day))
	if !o.Due(mode) && !hand {
		return say.Reply{}, false, nil
	}
	if o.Day.Phase != planner.Health {
		o.coach = coach.lines(day)
	}
	zone, err := desk.LoadZone(a.Zone)
	if err != nil {
		return say.Reply{}, false, fmt.Errorf("zone of rider %d: %w", a.ID, err)
	}
	o.At(now, zone)
	if err := AskAfter(ctx, b, a.ID, &o); err != nil {
		return say.Reply{}, false, err
	}
	if err := CountBack(ctx, b, a.ID, &o, zone); err != nil {
		return say.Reply{}, false, err
	}
	var moments []say.Moment
	if race := o.Start(); race != nil {
		moments = show.StartOf(race, zone, now)
	}
	reply = o.Remind(plan, club.Name)
	if Pinned(o.Day) {
		reply.Buttons = append(reply.Buttons, LetGo(a.Name, day))
	}
	reply.Moments = moments
	return reply, true, nil
}

// AskAfter finds the race that is to be asked about: that of the day before, or
// of the day itself once it is over, where the rider has not told yet how it went.
func AskAfter(ctx context.Context, b *desk.Base, athlete storage.AthleteID, o *Occasion) error {
	over := o.After
	if o.Race != nil && o.done && o.last() {
		over = o.Race
	}
	if over == nil || o.Day.Phase == planner.Health {
		return nil
	}
	results, err := b.DB.Results(ctx, athlete)
	if err != nil {
		return err
	}
	races, err := b.DB.Races(ctx, athlete)
	if err != nil {
		return err
	}
	o.Ask = over
	for _, r := range races {
		if _, told := results[r.ID]; told && r.Race.Is(over) {
			o.Ask = nil
		}
	}
	return nil
}

// Remind words the day: what to ride and how, where in the build-up it is and why, what to mind.
func (o *Occasion) Remind(plan *engine.Plan, club string) say.Reply {
	d := o.Day
	var p say.Page
	switch {
	case o.Race != nil:
		p.Addf("%s", o.raceDay())
	case o.logged && d.Minutes() == 0:
		p.Addf("Today, %s: you said that you do not ride.", d.Date.Short())
	case o.logged:
		p.Addf("Today, %s: you rode %s already.", d.Date.Short(), planner.Duration(d.Minutes()))
	default:
		p.Addf("Today, %s: %s%s.", d.Date.Short(), show.Headline(d), o.ifNot())
		p.Add(Recipe(d)...)
		p.Addf("%s", o.because(plan))
	}
	p.Add(o.Lines(d.Date)...)
	p.Add(o.InRecovery()...)
	p.Add(o.coach...)
	if !o.logged && !o.begun { // else it would ask for a second ride
		if o.Race != nil {
			p.Add(Recipe(d)...)
		}
		p.Add(ToMind(d)...)
	}
	if d.Phase == planner.Health {
		p.Add(healthWarnings(plan)...)
	}
	p.Add(signed(club)...)
	reply := show.AboutDay(&p, d)
	if race := o.About(); race != nil {
		reply.Race = race.Name
	}
	reply.Topic, reply.Topics, reply.Private = say.TopicCommand, []string{say.TopicCommand}, true
	reply.Buttons = append(append(o.buttons(), o.MorningButton()...), fewerButtons()...)
	return reply
}

// InRecovery warns of a race on the day or the next one that is too soon after another.
func (o *Occasion) InRecovery() []say.Line {
	var lines []say.Line
	if o.Race != nil && o.raceHost != nil && !o.done {
		lines = append(lines, say.Linef("! You still recover from %s. Ride %s easily or leave it out.", o.raceHost.Name, o.Race.Name))
	}
	if o.Eve != nil && o.eveHost != nil {
		lines = append(lines, say.Linef("You still recover from %s then. Ride %s easily or leave it out.", o.eveHost.Name, o.Eve.Name))
	}
	return lines
}

// signed says whose reminder it is, and how to have fewer.
func signed(club string) []say.Line {
	return []say.Line{say.Linef("This reminder comes from %s.", club), say.Offeredf("Pause reminders: /me set pause:3. Stop them: /me set remind:off")}
}

// fewerButtons pause and end reminders.
func fewerButtons() []say.Button {
	return []say.Button{{Label: "Pause reminders for 3 days", Command: "me set", Options: map[string]string{"pause": "3"}}, stopButton()}
}

// stopButton ends reminders.
func stopButton() say.Button {
	return say.Button{Label: "Stop reminders", Command: "me set", Options: map[string]string{"remind": storage.RemindOff.String()}}
}

// ifNot is added in the evening to what may be ridden already.
func (o *Occasion) ifNot() string {
	if o.evening && o.Day.Minutes() > 0 {
		return ", if you have not ridden yet. If it is too late for that, rest"
	}
	return ""
}

// MorningButton leads to the countdown of the race of the next day, else of one that has not begun.
func (o *Occasion) MorningButton() []say.Button {
	race := cmp.Or(o.Eve, o.Race)
	if race == nil || o.Day.Phase == planner.Health || o.Eve == nil && o.begun {
		return nil
	}
	return []say.Button{{Label: "Race morning", Command: "race morning", Options: show.ByRace(race)}}
}

// because says how far the race is from the day, and the day's first reason.
func (o *Occasion) because(plan *engine.Plan) string {
	why := "This day is the same as in your usual week."
	if reasons := words.Why(o.Day); len(reasons) > 0 {
		why = reasons[0].Text
	}
	if where := o.where(plan); where != "" {
		return where + " " + why
	}
	return why
}

// where places the day in the build-up.
func (o *Occasion) where(plan *engine.Plan) string {
	d, r := o.Day, o.Lead.Race
	if r == nil || d.Phase == planner.Health {
		return ""
	}
	toGo := d.Date.DaysUntil(r.Date)
	switch t := show.TaperOf(plan, o.Lead); {
	case d.Date > r.Last() && d.Phase == planner.Recovering:
		return show.RecoveryLeft(plan, r)
	case d.Date > r.Last():
		return fmt.Sprintf("%s was yesterday.", r.Name)
	case toGo <= 0:
		return fmt.Sprintf("This is day %d of %d of %s.", 1-toGo, r.Days, r.Name)
	case t != nil && d.Date >= t.From:
		return fmt.Sprintf("This is day %d of %d of the taper for %s, which is %s.", t.From.DaysUntil(d.Date)+1, t.Days, r.Name, ahead(toGo))
	case t != nil:
		return fmt.Sprintf("The taper for %s begins in %s, on %s.", r.Name, show.Count(d.Date.DaysUntil(t.From), "day"), t.From.Short())
	}
	return fmt.Sprintf("%s (%s race) is in %s.", r.Name, r.Priority, show.Count(toGo, "day"))
}

// ahead is how far a race lies ahead.
func ahead(days int) string {
	if days == 1 {
		return "tomorrow"
	}
	return fmt.Sprintf("in %d days", days)
}

// raceDay is the answer of a race day, before the start, during the race and after it.
func (o *Occasion) raceDay() string {
	r := o.Race
	name := r.Name
	if r.Days > 1 {
		name += fmt.Sprintf(", day %d of %d", r.Date.DaysUntil(o.Day.Date)+1, r.Days)
	}
	switch {
	case o.done && r.Status == planner.GaveUp:
		return fmt.Sprintf("You gave up %s today. Your days after it begin tomorrow.", r.Name)
	case o.done && o.last():
		return r.Name + " is over."
	case o.done:
		return name + ": done for today."
	case o.begun:
		return fmt.Sprintf("%s has been under way since %s.", name, r.Start)
	}
	text := "Race day: " + name
	if r.Date == o.Day.Date && r.Start != "" {
		text += ", start " + r.Start
	}
	if r.Place != "" {
		text += ", " + r.Place
	}
	return text + "."
}

// RaceDay is the answer about a day whose race has begun.
func (o *Occasion) RaceDay() string { return o.raceDay() }

// racing is what a race day adds: a wish before the start, after the race the
// question how it went. Nobody is asked during a race.
func (o *Occasion) racing() []say.Line {
	next := o.Day.Date.AddDays(1)
	switch {
	case o.Race == nil:
		return nil
	case !o.begun && !o.logged:
		return say.PlainLines("Good luck, and enjoy it!")
	case !o.last():
		return []say.Line{say.Linef("Tomorrow is day %d of %d. If you stop here, say so: /race result race:%s outcome:gave-up",
			o.Race.Date.DaysUntil(next)+1, o.Race.Days, say.Quote(show.RaceKey(o.Race)))}
	case o.Ask == o.Race, o.logged:
		return append([]say.Line{say.Linef("How were your legs?")}, o.legs(o.Race)...)
	case !o.done:
		return []say.Line{say.Linef("When it is over, tell me how your legs were, from 1 to 10: /race result race:%s feeling:7", say.Quote(show.RaceKey(o.Race)))}
	}
	return nil
}

// Lines are what a race that is near adds to a day: a wish on its own, the race of
// the next day, and the question about that of the day before.
func (o *Occasion) Lines(today planner.Date) []say.Line {
	lines := o.racing()
	if r, day := o.Eve, o.Day.Date+1; r != nil {
		lines = append(lines, say.Linef("%s: %s", show.DayName(day, today), describeStart(r, day)))
		if r.Start == "" {
			lines = append(lines, say.Linef("When does it start? Tell me, for example: /race change race:%s start:10:30", say.Quote(show.RaceKey(r))))
		}
		more := "When to get up, eat and leave, and what to pack"
		if o.clock != "" {
			lines, more = append(lines, say.Linef("%s", o.clock)), "What to eat and to pack"
		}
		lines = append(lines, say.Offeredf("%s: /race morning race:%s", more, say.Quote(show.RaceKey(r))))
	}
	if o.Ask != nil && o.Ask != o.Race {
		lines = append(append(lines, say.Linef("How were your legs in %s?", o.Ask.Name)), o.legs(o.Ask)...)
	}
	return lines
}

// legs is how to answer the question about the legs in a race, where no buttons ask it.
func (o *Occasion) legs(r *planner.Race) []say.Line {
	line := say.Linef("Tell me from 1 to 10: /race result race:%s feeling:7", say.Quote(show.RaceKey(r)))
	if o.Asks() {
		line.Kind = say.Offered
	}
	return []say.Line{line}
}

// Asks reports that buttons ask how the legs were.
func (o *Occasion) Asks() bool { return o.Ask != nil && (o.Race == nil || o.Ask == o.Race) }

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

// Recipe tells how a day's sessions are ridden.
func Recipe(d *engine.Day) []say.Line {
	var lines []say.Line
	for i, s := range d.Sessions {
		if s.Kind == planner.Rest {
			continue // the first line has said it
		}
		lines = append(lines, say.Linef("%s", words.Session(d, i)))
		if s.Kind != planner.RaceRide {
			lines = append(lines, say.Linef("How hard: %s", words.HowHard(s)))
		}
	}
	return lines
}

// ToMind is what to be careful with on a day.
func ToMind(d *engine.Day) []say.Line {
	var lines []say.Line
	for _, c := range words.Cautions(*d) {
		lines = append(lines, say.Linef("! %s", c))
	}
	return lines
}

// healthWarnings are those that an illness brings.
func healthWarnings(plan *engine.Plan) []say.Line {
	var lines []say.Line
	for _, w := range words.Warnings(plan) {
		if strings.HasPrefix(w.Code, "health.") {
			lines = append(lines, show.WarningLine(&w))
		}
	}
	return lines
}

// feelings are the answers offered to the question how the legs were, of 10.
var feelings = [...]struct{ label, of10 string }{{"Heavy", "3"}, {"Fair", "5"}, {"Good", "7"}, {"Flying", "9"}}

// AskButtons answer how the legs were in a race.
func AskButtons(r *planner.Race) []say.Button {
	var out []say.Button
	for _, f := range feelings {
		out = append(out, say.Button{Label: f.label, Command: "race result", Options: show.ByRace(r, "feeling", f.of10)})
	}
	return out
}

// buttons log the day, or answer the question about the day before.
func (o *Occasion) buttons() []say.Button {
	if o.Asks() {
		return AskButtons(o.Ask)
	}
	day := o.Day.Date.String()
	var out []say.Button
	if o.Day.Minutes() > 0 && !o.logged {
		out = []say.Button{
			{Label: "Rode it", Command: "done", Options: map[string]string{"day": day}},
			{Label: "Heavy legs", Command: "tell tired", Options: map[string]string{"day": day}},
			{Label: "Did not ride", Command: "tell missed", Options: map[string]string{"day": day}},
		}
	}
	why := show.WhyButton(o.Day.Date)
	if why.Label = "Why this ride?"; o.Day.Minutes() == 0 {
		why.Label = "Why rest?"
	}
	return append(append(out, why), o.WellButton()...)
}
