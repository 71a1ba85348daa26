package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

func (b *Base) weekShare(ctx context.Context, req Request) (Reply, error) {
	week, err := typed.Week(req.get("week"))
	if err != nil {
		return req.formAgain(), inField("week", err)
	}
	from := req.rider.today
	if req.has("from") {
		if from, err = typed.Date(req.get("from"), req.rider.today); err != nil {
			return Reply{}, inField("from", err)
		}
		if from < req.rider.today.AddDays(-366) || from > req.rider.today.AddDays(planner.MaxAhead) {
			return Reply{}, refuse("from", "%s is too far from today. For example %s", from.Long(), req.rider.today)
		}
	}
	e, err := b.change(ctx, req, func() error {
		return b.db.SetWeek(ctx, req.rider.athlete.ID, req.rider.today, planner.DatedWeek{From: from, Week: week})
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Your week from %s: %s.", from.Long(), weekSum(&week))
	p.add(weekLines(&week)...)
	p.add(assumedHard(&week)...)
	for _, w := range e.facts.Weeks {
		if w.From > from {
			p.addf("From %s on the week that you shared for then holds: /week show", w.From.Short())
			break
		}
	}
	reply := Reply{Date: from}
	if race := nextRace(e.facts, req.rider.today); race != nil {
		p.heading("%s, %s race on %s:", race.Name, race.Priority, race.Date.Short())
		p.add(raceNews(e, race)...)
		reply.Race, reply.Buttons = race.Name, []Button{planButton(race)}
	} else {
		p.addf("Next, register a race: %s", raceExample(req.rider.today))
	}
	reply.Lines = p.done()
	return reply, nil
}

// formAgain offers the form with what was typed, so that nothing is typed twice.
func (r *Request) formAgain() Reply {
	if !r.Forms {
		return Reply{}
	}
	return Reply{Buttons: []Button{{Label: "Open the form again", Command: r.Command, Options: r.Options, Form: true}}}
}

// weekSum is hours, rides and hard days of a week.
func weekSum(w *planner.Week) string {
	rides := 0
	var hard []string
	for i, p := range w {
		if p.RideMinutes() > 0 {
			rides++
		}
		if p.IsHard() {
			hard = append(hard, planner.Weekday(i).Short())
		}
	}
	sum := fmt.Sprintf("%s on %s", planner.Duration(w.RideMinutes()), count(rides, "day"))
	if len(hard) == 0 {
		return sum + ", no hard day"
	}
	return fmt.Sprintf("%s, %s (%s)", sum, count(len(hard), "hard day"), strings.Join(hard, ", "))
}

func weekLines(w *planner.Week) []Line {
	lines := make([]Line, 7)
	for i, p := range w {
		lines[i] = dayOf(planner.Weekday(i).Short()+" ", "%s", p.String())
	}
	return lines
}

// assumedHard tells of hard days without sets how much of them counts as hard,
// and how to say otherwise.
func assumedHard(w *planner.Week) []Line {
	var lines []Line
	example := ""
	for i, p := range w {
		for _, s := range p.Sessions {
			if hard := s.AssumedHard(); hard > 0 {
				lines = append(lines, Say("%s %s: I count %s of it as hard.", planner.Weekday(i).Short(), s.Label(), planner.Duration(hard)))
				example = s.Label() + " " + otherSet(s)
			}
		}
	}
	if len(lines) > 0 {
		last := &lines[len(lines)-1]
		*last = Say("%s If it is more or less, write for example %s.", *last, example)
	}
	return lines
}

// otherSet is one repetition that is longer than what counts as hard.
func otherSet(s planner.Session) string {
	const most = 180 // minutes that one can take
	longer := (s.AssumedHard()+4)/5*5 + 10
	return fmt.Sprintf("1x%dmin", min(longer, int(s.Minutes), most))
}

// nextRace is the first race that is not over, nil when there is none.
func nextRace(f *planner.Facts, today planner.Date) *planner.Race {
	var next *planner.Race
	for i := range f.Races {
		r := &f.Races[i]
		if r.Last() >= today && (next == nil || r.Date < next.Date) {
			next = r
		}
	}
	return next
}

func (b *Base) weekShow(ctx context.Context, req Request) (Reply, error) {
	weeks, err := b.db.Weeks(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	if len(weeks) == 0 {
		return req.needWeek(), nil
	}
	now := 0
	for i, w := range weeks {
		if w.From <= req.rider.today {
			now = i
		}
	}
	var p page
	for i, w := range weeks[now:] {
		if i > 0 {
			p.gap()
		}
		p.addf("Your week from %s: %s.", w.From.Long(), weekSum(&w.Week))
		p.add(weekLines(&w.Week)...)
	}
	p.gap()
	p.addf("Change it, for example: /week share week:%s from:%s", Quote(weeks[now].Week.String()), req.rider.today)
	return Reply{Lines: p.done(), Date: weeks[now].From}, nil
}

// needWeek asks for the typical week without which nothing can be planned.
func (r *Request) needWeek() Reply {
	return Reply{Buttons: r.weekForm(), Lines: []Line{Say("No plan yet: I do not know your typical week."),
		Say("Share it, for example"), Say(`/week share week:"` + exampleWeek + `"`)}}
}

// weekForm is the button that opens the form of the typical week, where there are forms.
func (r *Request) weekForm() []Button {
	if !r.Forms {
		return nil
	}
	return []Button{{Label: "Share my week", Command: "week share", Form: true}}
}
