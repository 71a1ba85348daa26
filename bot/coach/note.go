package coach

import (
	"context"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// everybody is the rider of a note for all riders of the club.
const everybody = "all"

// coachNote keeps a note for a rider, or all of them, on a day; none deletes those of the day.
func coachNote(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	day, err := req.Day("day")
	if err != nil {
		return say.Reply{}, err
	}
	who, name, err := noted(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	text := req.Get("text")
	if strings.EqualFold(text, say.None) {
		return dropNotes(ctx, b, req, day, who, name)
	}
	if reply, heard, err := heardOf(ctx, b, req, who, name); heard || err != nil {
		return reply, err
	}
	if err := b.Join(ctx, req.Rider); err != nil {
		return say.Reply{}, err
	}
	ids := make([]storage.AthleteID, len(who))
	before := 0
	for i, a := range who {
		ids[i] = a.ID
		notes, err := b.DB.CoachNotes(ctx, a.ID, day, day)
		if err != nil {
			return say.Reply{}, err
		}
		before += len(notes)
	}
	if err := b.DB.AddCoachNote(ctx, req.Rider.Athlete.ID, day, text, ids...); err != nil {
		return say.Reply{}, err
	}
	req.Rider.Saved = true
	var p say.Page
	p.Addf("Noted for %s on %s: %s", name, show.Dated(day, req.Rider.Today), text)
	reply := say.Reply{Date: day}
	sent, later, err := noteSent(b, req, who, day, text)
	if err != nil {
		return say.Reply{}, err
	}
	reply.Sent = sent
	switch {
	case later == 0:
		p.Addf("It is sent now, in private, and shows with the day.")
	case later == len(who):
		p.Addf("It comes with the next reminder and shows with the day.")
	default:
		p.Addf("It is sent now to %d, to the others with the next reminder.", len(who)-later)
	}
	p.Addf("Riders can read and export what you write of them.")
	if before == 0 {
		reply.Offer(&p, "Undo", "coach note", map[string]string{"athlete": req.Get("athlete"), "day": day.String(), "text": say.None})
	}
	reply.Lines = p.Done()
	return reply, nil
}

// noteSent are the messages to riders who get a note at once, and how many get it later.
func noteSent(b *desk.Base, req desk.Request, who []storage.Athlete, day planner.Date, text string) (sent []say.Message, later int, err error) {
	for i := range who {
		a := &who[i]
		rq, err := b.For(req, *a)
		if err != nil {
			return nil, 0, err
		}
		if !atOnce(a, rq.Rider.Today, day) {
			later++
			continue
		}
		sent = append(sent, toRider(a, []say.Line{say.Linef("A note of your coach for %s: %s", noteDay(day, rq.Rider.Today), text)}, rideOn(day))...)
	}
	return sent, later, nil
}

// noteDay is a day as a sentence goes on with it.
func noteDay(day, today planner.Date) string {
	name := show.DayName(day, today)
	for _, word := range []string{"Today", "Tomorrow"} {
		if rest, ok := strings.CutPrefix(name, word); ok {
			return strings.ToLower(word) + rest
		}
	}
	return name
}

// noted are the riders whom a note is for, and how they are called together.
func noted(ctx context.Context, b *desk.Base, req desk.Request) ([]storage.Athlete, string, error) {
	athletes, err := b.DB.Athletes(ctx, req.Rider.Club.ID)
	if err != nil {
		return nil, "", err
	}
	if !strings.EqualFold(req.Get("athlete"), everybody) {
		found, err := athleteOf(ctx, b, req)
		return []storage.Athlete{found}, tellApart(athletes)[found.ID], err
	}
	var out []storage.Athlete
	for _, a := range athletes {
		facts, err := b.DB.Facts(ctx, a.ID)
		if err != nil {
			return nil, "", err
		}
		if len(facts.Weeks)+len(facts.Races) > 0 {
			out = append(out, a)
		}
	}
	if len(out) == 0 {
		return nil, "", say.Refuse("athlete", "the club has no rider yet. They are here once they share a week: /week share")
	}
	return out, "all " + show.Count(len(out), "rider"), nil
}

// dropNotes deletes the notes of a day.
func dropNotes(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date, who []storage.Athlete, name string) (say.Reply, error) {
	var gone []storage.CoachNote
	for _, a := range who {
		notes, err := b.DB.CoachNotes(ctx, a.ID, day, day)
		if err != nil {
			return say.Reply{}, err
		}
		for _, n := range notes {
			if err := b.DB.RemoveCoachNote(ctx, a.ID, n.ID); err != nil {
				return say.Reply{}, err
			}
			gone = append(gone, n)
		}
	}
	if len(gone) == 0 {
		return say.Reply{}, say.Refuse("text", "there is no note for %s on %s. Write one, for example text:%s", name, day.Long(), say.Quote("Stay in the group today"))
	}
	req.Rider.Saved = true
	var p say.Page
	p.Addf("The notes for %s on %s are deleted.", name, show.Dated(day, req.Rider.Today))
	reply := say.Reply{Date: day}
	if len(gone) == len(who) {
		same := true
		for _, n := range gone {
			same = same && n.Text == gone[0].Text
		}
		if same {
			reply.Offer(&p, "Undo", "coach note", map[string]string{"athlete": req.Get("athlete"), "day": day.String(), "text": gone[0].Text})
		}
	}
	reply.Lines = p.Done()
	return reply, nil
}
