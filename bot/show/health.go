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

// BothStops are an emergency and a knock to the head that one line told of.
const BothStops = "both"

// StopsOf is the word for stops of these levels: of one, or of both that one line can tell of.
func StopsOf(levels ...planner.Level) string {
	if len(levels) > 1 {
		return BothStops
	}
	return levels[0].String()
}

// OfferEnds offers the three answers to a hold, or to the two that one line told of.
func OfferEnds(p *say.Page, reply *say.Reply, levels ...planner.Level) {
	reply.Offer(p, "You misread me", "tell well", map[string]string{"cleared": ClearedWasNot, "of": StopsOf(levels...)})
	reply.Offer(p, "A doctor has cleared me", "tell well", map[string]string{"cleared": ClearedYes})
	reply.Offer(p, "Not cleared yet", "tell well", map[string]string{"cleared": ClearedNot})
}

// Stopped is the answer to whoever asks for training while a hold is in force:
// what was asked for, then the stop and the answers to it.
func Stopped(head say.Line, level planner.Level) say.Reply {
	return stopped(level, head, say.Linef("! %s", words.StopAnswer(level)))
}

// NoPlan is the answer to whoever asks for a plan or a season then: the stop comes first,
// or it is not read.
func NoPlan(why say.Line, level planner.Level) say.Reply {
	return stopped(level, say.Linef("! %s", words.StopAnswer(level)), why)
}

func stopped(level planner.Level, lines ...say.Line) say.Reply {
	var p say.Page
	var reply say.Reply
	p.Add(lines...)
	OfferEnds(&p, &reply, level)
	reply.Lines = p.Done()
	return reply
}
