package life

import (
	"context"
	"log/slog"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/words"
)

// What is asked about, and what is chosen by a yes.
var (
	askedAbout = map[planner.Level]string{
		planner.LevelEmergency: "chest pain, fainting, trouble breathing or another sign of an emergency",
		planner.LevelHead:      "a knock to the head",
		planner.LevelDoctor:    "something that a doctor must see before you ride",
	}
	chosenFor = map[planner.Level]string{
		planner.LevelEmergency: "chest pain or fainting",
		planner.LevelHead:      "knock to the head",
		planner.LevelDoctor:    "told to rest by a doctor",
	}
)

// ask asks in one line whether danger was meant. Until it is answered training is
// held back, as if it were.
func (h *Heard) ask(ctx context.Context, b *desk.Base, req *desk.Request, run func() (say.Reply, error)) say.Reply {
	level := levels[h.Level]
	var p say.Page
	var reply say.Reply
	p.Addf("Is this about you, and about now: %s? If so, stop. %s", askedAbout[level], words.Call)
	h.logged(&p, req, false, run)
	facts, err := b.Facts(ctx, req.Rider)
	switch {
	case err != nil:
		return h.unstored(&p, b, req, err)
	case stands(facts.Now, level):
		return h.heldAlready(&p, level)
	case level == planner.LevelDoctor: // what stands is graver
		if stood, ok := desk.Held(facts.Now); ok {
			return h.heldAlready(&p, stood.Level)
		}
	}
	held, err := h.hold(ctx, b, *req)
	if err != nil {
		return h.unstored(&p, b, req, err)
	}
	p.Addf("Until you answer I plan no training and send no sessions.")
	if held.First {
		p.Add(FirstHold())
	}
	yes, no := doubtAnswers(held.Anew)
	reply.Offer(&p, "Yes, I have that", yes.Command, yes.Options)
	reply.Offer(&p, "No, I do not", no.Command, no.Options)
	b.Talks.Doubt(req.Rider, held.Anew, req.Now)
	return alarmed(&p, reply)
}

// heldAlready answers a doubt that changes nothing: training is held back in any case.
func (h *Heard) heldAlready(p *say.Page, level planner.Level) (reply say.Reply) {
	p.Addf("Your training stays held back, as it has been.")
	show.OfferEnds(p, &reply, level)
	return alarmed(p, reply)
}

// doubtAnswers are the two answers to the question whether danger was meant.
func doubtAnswers(levels []planner.Level) (yes, no say.Button) {
	return say.Button{Command: "tell sick", Options: map[string]string{"symptoms": choices(levels)}},
		say.Button{Command: "tell well", Options: map[string]string{"cleared": show.ClearedWasNot, "of": show.StopsOf(levels...)}}
}

// choices are the symptoms to choose for levels.
func choices(levels []planner.Level) string {
	var list []string
	for _, level := range levels {
		list = append(list, chosenFor[level])
	}
	return strings.Join(list, ", ")
}

// unstored answers where a hold could not be kept.
func (h *Heard) unstored(p *say.Page, b *desk.Base, req *desk.Request, err error) say.Reply {
	b.Log.Error("a hold is not stored", slog.String("ref", req.Ref), slog.Any("error", err))
	p.Addf("I could not store this. Do not train, whatever your plan shows.")
	return alarmed(p, say.Reply{})
}

// stands reports a hold of a level that nobody has ended.
func stands(f *planner.Facts, level planner.Level) bool {
	return slices.ContainsFunc(f.Holds, func(h planner.Hold) bool { return h.Level == level && h.Cleared.IsZero() })
}

// Words that answer the question by themselves, and those that a yes begins with.
var (
	saysNo  = []string{"no", "nope", "nah", "no i dont", "no i do not", "no not me", "not me", "no its not me", "no im fine", "no i am fine", "no all good", "no not now", "no it isnt", "no it is not", "false alarm", "no you misread me", "you misread me"}
	saysYes = []string{"yes", "yeah", "yep", "yup", "yes i do", "yes i have", "i do", "i have that", "it is", "correct", "right", "si", "sim", "oui", "ja"}
)

// Answered makes of a plain line that answers the question about danger the command
// that its button gives. ok is false for any other line.
func Answered(b *desk.Base, req *desk.Request) (button say.Button, ok bool) {
	levels, asked := b.Talks.TakeDoubt(req.Rider, req.Now)
	if !asked {
		return button, false
	}
	said := strings.Join(strings.FieldsFunc(strings.ToLower(strings.NewReplacer("'", "", "\u2019", "").Replace(req.Text)), func(r rune) bool { return r < 'a' || r > 'z' }), " ")
	yes, no := doubtAnswers(levels)
	switch {
	case slices.Contains(saysNo, said):
		return no, true
	case slices.ContainsFunc(saysYes, func(y string) bool {
		return said == y || strings.HasPrefix(said, y+" ") && y != "it is" && y != "right"
	}):
		return yes, true
	}
	return button, false
}
