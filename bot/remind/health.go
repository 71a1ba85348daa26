package remind

import (
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/words"
)

// silence is after how many days without a word a rider who does not train is asked.
const silence = 3

// howAreYou is what stands instead of a reminder: nothing while training is held
// back, and a question after days of silence, then and while an illness goes on. One
// that fell into a pause comes when that is over.
// Its first line, which a locked phone shows, tells nothing of health.
func howAreYou(all, f *planner.Facts, day, paused planner.Date, club string) (reply say.Reply, due, instead bool) {
	h, held := desk.Held(f)
	ill := desk.OpenIllness(f)
	if !held && ill == nil {
		return say.Reply{}, false, false
	}
	quiet := lastTold(all, day).DaysUntil(day)
	if afterPause := day == paused+1 && quiet > silence; quiet <= 0 || quiet%silence != 0 && !afterPause {
		return say.Reply{}, false, held
	}
	var p say.Page
	reply.Date = day
	p.Addf("How are you today, %s?", day.Short())
	if held {
		p.Addf("Your training has been held back since %s. Is that still right?", show.Dated(h.Since, day))
		p.Addf("! %s", words.StopAnswer(h.Level))
		show.OfferEnds(&p, &reply, h.Level)
	} else {
		still, of := "ill", ofIllness(ill)
		if ill.Injury {
			still = "injured"
		}
		p.Addf("Are you still %s, since %s? Until you are well, every day is rest.", still, show.Dated(ill.From, day))
		p.Addf("! See a doctor if it is severe, gets worse or lasts.")
		well := wellButton(ill, day)
		reply.Offer(&p, well.Label, well.Command, well.Options)
		reply.Offer(&p, "Still "+still, "tell well", map[string]string{"cleared": show.ClearedNot, "of": of})
	}
	p.Add(signed(club)...)
	reply.Lines = p.Done()
	reply.Topic, reply.Topics, reply.Private = say.TopicCommand, []string{say.TopicCommand}, true
	reply.Buttons = append(reply.Buttons, fewerButtons()...)
	return reply, true, true
}

func ofIllness(ill *planner.Illness) string {
	if ill.Injury {
		return "injury"
	}
	return "illness"
}

// wellButton ends an illness or an injury on a day.
func wellButton(ill *planner.Illness, day planner.Date) say.Button {
	return say.Button{Label: "I am well", Command: "tell well", Options: map[string]string{"day": day.String(), "of": ofIllness(ill)}}
}

// WellButton is offered while an illness or an injury goes on.
func (o *Occasion) WellButton() []say.Button {
	if o.trouble == nil {
		return nil
	}
	return []say.Button{wellButton(o.trouble, o.Day.Date)}
}

// lastTold is the last day up to one on which the rider told anything.
func lastTold(f *planner.Facts, day planner.Date) planner.Date {
	if told := f.ToldDates(day); len(told) > 0 {
		return told[len(told)-1]
	}
	return day
}
