package life

import (
	"context"
	"log/slog"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner/care"
	"musette/planner/words"
)

// aboutNow is how many days ago a day may be whose note is about today's health too.
const aboutNow = 1

// mild does what was asked and enters an illness or an injury that the words tell, so
// that the plan follows at once. In doubt, and where the words are about a day that is
// long over, it offers to enter it.
func (h *Heard) mild(ctx context.Context, b *desk.Base, req *desk.Request, run func() (say.Reply, error)) (say.Reply, error) {
	what, options := h.trouble(req)
	own := req.Command == illness.command || req.Command == injury.command
	plain := req.Command == "" || req.Command == "ask"
	sure := h.Verdict == care.Stop && !req.Nowhere && !own
	var told *say.Reply
	if sure && plain { // first, so that the answer counts with it
		told = what.enter(ctx, b, *req, options)
	}
	reply, err := run()
	if err != nil {
		fault, ref := say.UserError(err, req.Ref, false)
		if ref != "" || !sure {
			return reply, err
		}
		reply = say.Reply{}
		reply.Lines = fault.Lines()
	}
	if sure && !plain && req.Rider != nil && (reply.Date.IsZero() || reply.Date >= req.Rider.Today.AddDays(-aboutNow)) {
		told = what.enter(ctx, b, *req, options)
	}
	if plain && ofHealth(&reply) { // nothing else was understood
		reply = say.Reply{Topic: what.topic, Topics: []string{what.topic}, Private: true}
	}
	answer := h.mildAnswer(what, told)
	var p say.Page
	if plain {
		p.Add(answer.Lines...)
		p.Gap()
		p.Add(reply.Lines...)
	} else {
		p.Add(reply.Lines...)
		p.Gap()
		p.Add(answer.Lines...)
	}
	reply.Buttons = append(answer.Buttons, reply.Buttons...)
	if told == nil && !own {
		reply.Offer(&p, "I am "+what.state, what.command, options)
	}
	reply.Lines = p.Done()
	return reply, nil
}

// ofHealth reports an answer that says no more than what is said of health already.
func ofHealth(reply *say.Reply) bool {
	known := []string{say.TopicUnknown, "help", illness.topic, injury.topic}
	return slices.Contains(known, reply.Topic) && !slices.ContainsFunc(reply.Topics, func(t string) bool { return !slices.Contains(known, t) })
}

// enter tells an illness or an injury as its command does. nil where that is refused.
func (t *trouble) enter(ctx context.Context, b *desk.Base, req desk.Request, options map[string]string) *say.Reply {
	own := *t
	own.undo = "I am not " + t.state
	req.Command, req.Options = t.command, options
	reply, err := own.tell(ctx, b, req)
	if err != nil {
		if _, ref := say.UserError(err, req.Ref, false); ref != "" {
			b.Log.ErrorContext(ctx, "an illness is not stored", slog.String("ref", ref), slog.Any("error", err))
		}
		return nil
	}
	return &reply
}

// mildAnswer says what it means for training, then what was entered, if anything was.
func (h *Heard) mildAnswer(what *trouble, told *say.Reply) (reply say.Reply) {
	means := words.CareAnswer(h.Finding)
	if what.injury {
		means = words.TroubleAnswer(levels[h.Level], true)
	}
	reply.Addf("! %s", means)
	if told == nil {
		return reply
	}
	first := reply.Lines[0].String()
	for _, line := range told.Lines {
		if line.String() != first {
			reply.Lines = append(reply.Lines, line)
		}
	}
	reply.Buttons = told.Buttons
	return reply
}
