package life

import (
	"context"
	"log/slog"
	"maps"
	"slices"
	"strings"
	"unicode"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/care"
	"musette/planner/words"
	"musette/storage"
)

// levels are the levels of care as they are stored; what is talked about is not.
var levels = map[care.Level]planner.Level{
	care.Easy: planner.LevelEasy, care.Rest: planner.LevelRest, care.Doctor: planner.LevelDoctor, care.Head: planner.LevelHead, care.Emergency: planner.LevelEmergency,
}

// Heard is what was found in the words of a request.
type Heard struct {
	care.Finding
	options []string // that hold it, in order
	again   bool     // of a knock to the head that a doctor had cleared
}

// Danger reports that something was found.
func (h *Heard) Danger() bool { return h.Verdict != care.Nothing }

// Stops reports what must not wait: more than a day off.
func (h *Heard) Stops() bool { return h.Danger() && (levels[h.Level].Holds() || h.Level == care.Talk) }

// Listen reads all free words of a request; cmd is its command, nil where it has
// none. names are the rider's own names of races and places.
func Listen(req *desk.Request, cmd *command.Command, names []string) *Heard {
	h := new(Heard)
	h.add(care.ReadIn(req.Now.Year(), req.Text, names...))
	for _, name := range slices.Sorted(maps.Keys(req.Options)) {
		if heard := hears(cmd, name, req.Options[name]); heard == command.Deaf || heard == command.OwnWords && !care.Own(req.Options[name]) {
			continue
		}
		if f := care.ReadIn(req.Now.Year(), req.Options[name], names...); f.Verdict != care.Nothing {
			h.options = append(h.options, name)
			h.add(f)
		}
	}
	return h
}

// Holds reports a request in whose words one of these names may stand: its first word
// does, or there are accents, which are not read.
func Holds(req *desk.Request, names []string) bool {
	words := []string{strings.ToLower(req.Text)}
	for _, value := range req.Options {
		words = append(words, strings.ToLower(value))
	}
	accented := func(text string) bool {
		return strings.ContainsFunc(text, func(r rune) bool { return r > unicode.MaxASCII })
	}
	return slices.ContainsFunc(words, accented) && len(names) > 0 || slices.ContainsFunc(names, func(name string) bool {
		first := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		return accented(name) || len(first) > 0 && slices.ContainsFunc(words, func(said string) bool { return strings.Contains(said, first[0]) })
	})
}

// hears is how closely an option is searched. What coaches write is about others, but
// for what they say of themselves.
func hears(cmd *command.Command, option, value string) command.Hearing {
	if cmd == nil {
		return command.AllWords
	}
	o, ok := cmd.Option(option)
	heard := command.AllWords
	if ok {
		heard = o.Hears(value)
	}
	if cmd.Coach || cmd.Admin {
		return min(heard, command.OwnWords)
	}
	return heard
}

func (h *Heard) add(f care.Finding) {
	if f.Level > h.Level {
		h.Lang = f.Lang
	}
	h.Verdict, h.Level, h.Head = max(h.Verdict, f.Verdict), max(h.Level, f.Level), h.Head || f.Head
}

// Names are the rider's own names of races and places, which never stop.
func Names(ctx context.Context, b *desk.Base, req *desk.Request) (names []string) {
	if req.Nowhere || !req.Rider.Known() {
		return nil
	}
	races, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		b.Log.ErrorContext(ctx, "names of races", slog.Any("error", err))
	}
	for _, r := range races {
		names = append(names, r.Name, r.Place)
	}
	return names
}

// Heed answers words of danger before anything else. run does the rest of the request.
func Heed(ctx context.Context, b *desk.Base, req *desk.Request, h *Heard, run func() (say.Reply, error)) (say.Reply, error) {
	req.Options = maps.Clone(req.Options)
	if what, told := h.trouble(req); h.headAgain(ctx, b, req, what, parts(told[what.option])) {
		h.Level, h.again = care.Head, true
	}
	switch {
	case h.Level == care.Talk:
		return h.talk(req, run), nil
	case !h.Stops():
		return h.mild(ctx, b, req, run)
	case h.Verdict == care.Ask && !req.Nowhere:
		return h.ask(ctx, b, req, run), nil
	}
	return h.stop(ctx, b, req, run), nil
}

// talk answers gently. The rest of the request is done without the words.
func (h *Heard) talk(req *desk.Request, run func() (say.Reply, error)) say.Reply {
	var p say.Page
	p.Addf("%s", words.CareAnswer(h.Finding))
	h.logged(&p, req, true, run)
	return alarmed(&p, say.Reply{})
}

// stop answers first, then holds training back, then keeps what was ridden.
func (h *Heard) stop(ctx context.Context, b *desk.Base, req *desk.Request, run func() (say.Reply, error)) say.Reply {
	var p say.Page
	var reply say.Reply
	p.Addf("! %s", words.CareAnswer(h.Finding))
	if h.again {
		p.Addf("This may still come from the knock to your head, so see the doctor again before you ride.")
	}
	if req.Nowhere {
		return alarmed(&p, reply)
	}
	h.logged(&p, req, false, run)
	held, err := h.hold(ctx, b, *req)
	if err != nil {
		b.Log.ErrorContext(ctx, "a hold is not stored", slog.String("ref", req.Ref), slog.Any("error", err))
		p.Addf("I could not store this. Do not train, whatever your plan shows.")
		return alarmed(&p, reply)
	}
	held.say(&p, &reply)
	return alarmed(&p, reply)
}

// say says that training is held back, and offers the answers to it.
func (held *Stopped) say(p *say.Page, reply *say.Reply) {
	p.Addf("From today I plan no training and send no sessions. That ends when a doctor has cleared you, or when you tell me that I misread you.")
	if held.First {
		p.Add(FirstHold())
	}
	show.OfferEnds(p, reply, held.Anew...)
}

func alarmed(p *say.Page, reply say.Reply) say.Reply {
	reply.Lines, reply.Private = p.Done(), true
	reply.Topic, reply.Topics = say.TopicRedFlag, []string{say.TopicRedFlag}
	return reply
}

// levels are what training is held back for: the gravest, and a knock to the head
// besides, for the steps that follow it.
func (h *Heard) levels() []planner.Level {
	if h.Head && h.Level > care.Head {
		return []planner.Level{levels[h.Level], planner.LevelHead}
	}
	return []planner.Level{levels[h.Level]}
}

// Stopped is what training is held back for.
type Stopped struct {
	Level planner.Level   // the gravest that was heard
	Anew  []planner.Level // those that did not stand before, all where each did
	First bool            // nothing of the rider's health was stored before
}

// hold stores a stop.
func (h *Heard) hold(ctx context.Context, b *desk.Base, req desk.Request) (held Stopped, err error) {
	held.Level = levels[h.Level]
	_, err = b.Decide(ctx, req, func(tx *storage.DB, known desk.Ledger) error {
		held.First = nothingTold(known.All)
		h.Head = h.Head || h.Level == care.Emergency && afterHead(known.Now, req.Rider.Today) // its steps begin anew
		held.Anew = slices.DeleteFunc(h.levels(), func(level planner.Level) bool { return stands(known.Now, level) })
		for _, level := range held.Anew {
			if err := tx.AddHold(ctx, req.Rider.Athlete.ID, req.Now, level); err != nil {
				return err
			}
		}
		return nil
	})
	if len(held.Anew) == 0 {
		held.Anew = h.levels()
	}
	return held, err
}

// HoldFor stores a stop of a rider of whom somebody else has told.
func HoldFor(ctx context.Context, b *desk.Base, req desk.Request, f care.Finding) (Stopped, error) {
	return (&Heard{Finding: f}).hold(ctx, b, req)
}

// FirstHold says once what is stored of a stop and who sees it.
func FirstHold() say.Line { return firstFact("the date and how serious it is, never your words") }

// nothingTold reports that nothing of the rider's health was ever stored.
func nothingTold(all *planner.Facts) bool { return len(all.Ill)+len(all.Holds) == 0 }

// firstFact says once what is stored of health and who sees it.
func firstFact(what string) say.Line {
	return say.Linef("Only you see what I keep: %s. Coaches see only \"not training: health\". To erase all that I store about you: /me erase", what)
}

// logged does what is left of a command without the words of danger, and says so
// in a line. "As planned" is left out where asPlanned is false.
func (h *Heard) logged(p *say.Page, req *desk.Request, asPlanned bool, run func() (say.Reply, error)) {
	if req.Command == "" {
		return
	}
	if req.Fault != nil || !keeps[req.Command] || req.Text != "" {
		p.Addf("Nothing else is stored of your line.")
		return
	}
	for _, name := range h.options {
		delete(req.Options, name)
	}
	if _, told := req.Options["minutes"]; req.Command == "done" && !told && !asPlanned {
		p.Addf("No ride is logged. If you rode, tell me how long: /done minutes:60")
		return
	}
	reply, err := run()
	switch {
	case err != nil:
		fault, _ := say.UserError(err, req.Ref, false)
		p.Addf("Nothing is logged.")
		p.Add(fault.Lines()...)
	case reply.Err == nil && len(reply.Lines) > 0:
		p.Add(say.Linef("%s Your words are not kept.", reply.Lines[0]))
	}
}

// keeps are the commands that say something of worth without their free words.
var keeps = map[string]bool{"done": true, "tell missed": true, "race result": true}
