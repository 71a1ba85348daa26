package show

import (
	"musette/bot/say"
	"musette/planner"
	"musette/planner/words"
)

// Values of the option cleared of /tell well.
const (
	ClearedYes    = "yes"
	ClearedNot    = "not-yet"
	ClearedWasNot = "not-that"
)

// OfferEnds offers the three answers to a hold.
func OfferEnds(p *say.Page, reply *say.Reply, level planner.Level) {
	reply.Offer(p, "You misread me", "tell well", map[string]string{"cleared": ClearedWasNot, "of": level.String()})
	reply.Offer(p, "A doctor has cleared me", "tell well", map[string]string{"cleared": ClearedYes})
	reply.Offer(p, "Not cleared yet", "tell well", map[string]string{"cleared": ClearedNot})
}

// Stopped is the answer to whoever asks for training while a hold is in force:
// what was asked for, then the stop and the answers to it.
func Stopped(head say.Line, level planner.Level) say.Reply {
	var p say.Page
	var reply say.Reply
	p.Add(head)
	p.Addf("! %s", words.StopAnswer(level))
	OfferEnds(&p, &reply, level)
	reply.Lines = p.Done()
	return reply
}
