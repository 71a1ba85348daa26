package coach

import (
	"context"

	"musette/bot/desk"
	"musette/bot/life"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner/care"
	"musette/planner/words"
	"musette/storage"
)

// heardOf answers a note in whose words its rider is in danger. The note is not kept,
// for coaches' notes hold no symptoms. Of one rider training is held back, and the rider
// is told at once and answers. ok is false for any other note.
func heardOf(ctx context.Context, b *desk.Base, req desk.Request, who []storage.Athlete, name string) (reply say.Reply, ok bool, err error) {
	f := care.ReadOther(req.Now.Year(), req.Get("text"))
	if f.Verdict == care.Nothing || f.Level < care.Doctor {
		return reply, false, nil
	}
	var p say.Page
	reply.Private = true
	if f.Level == care.Talk {
		p.Addf("%s", words.CareForOther)
		p.Addf("The note is not kept.")
		reply.Lines = p.Done()
		return reply, true, nil
	}
	if f.Verdict == care.Ask || len(who) != 1 {
		p.Addf("! %s", words.Emergency)
		p.Addf("Is %s in danger now? Then call them. I keep no symptoms in a coach's note, so this one is not kept.", name)
		p.Addf("A rider who writes it to me is held back at once, for example: I have chest pain.")
		reply.Lines = p.Done()
		return reply, true, nil
	}
	rq, err := b.For(req, who[0])
	if err != nil {
		return reply, false, err
	}
	held, err := life.HoldFor(ctx, b, rq, f)
	if err != nil {
		return reply, false, err
	}
	var to say.Page
	var answers say.Reply
	to.Addf("Your coach has written to me that something may be wrong with you. I hold your training back until you answer.")
	to.Addf("! %s", words.StopAnswer(held.Level))
	if held.First {
		to.Add(life.FirstHold())
	}
	show.OfferEnds(&to, &answers, held.Anew...)
	reply.Sent = toRider(&who[0], to.Done(), answers.Buttons...)
	p.Addf("! %s", words.StopAnswerFor(held.Level, name))
	p.Addf("I hold the training of %s back and tell them now, in private. They answer when a doctor has cleared them, or if you misjudged it.", name)
	p.Addf("The note is not kept: I store no symptoms where coaches read them.")
	reply.Lines = p.Done()
	return reply, true, nil
}
