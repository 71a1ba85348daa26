package life

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/planner/words"
	"musette/storage"
)

// Longest stretches that can be told, in days, and what a block adds when
// nothing was entered, in per cent.
const (
	maxAwayDays    = 366
	maxBlockDays   = 92
	defaultPercent = 20
	muchMore       = 50 // per cent from which a block is warned of (our choice)
)

// news is what was entered and understood, and the options that undo it.
type news struct {
	from   planner.Date
	text   string
	day    *engine.Day // of what was ridden, as it was planned; nil: no plan
	more   []say.Line  // what to know before its effect
	comes  []say.Line  // what comes next
	offers []offer
	label  string // of the way back, Undo where empty
	undo   string // command; empty where there is no way back
	values map[string]string
}

// offer is a next step that a button takes.
type offer struct {
	label, command string
	values         map[string]string
}

// told is the reply to a fact: what was understood, what it changes, how to undo it.
func told(e *desk.Effect, n news) say.Reply {
	var p say.Page
	p.Addf("%s", n.text)
	p.Add(n.more...)
	if desk.Planned(e.Facts) {
		lines := e.News()
		if end := desk.LastDay(e.After); n.from > end && len(lines) == 1 {
			lines = []say.Line{say.Linef("Your plan ends on %s for now. I will count this when it gets that far.", end.Short())}
		}
		p.Add(lines...)
		p.Add(e.LostDays()...)
	}
	p.Add(n.comes...)
	if n.label == "" {
		n.label = "Undo"
	}
	reply := say.Reply{Date: n.from}
	for _, o := range n.offers {
		reply.Offer(&p, o.label, o.command, o.values)
	}
	if n.undo == "" {
		p.Addf("All your entries: /me show")
	} else {
		reply.Offer(&p, n.label, n.undo, n.values)
	}
	reply.Lines = p.Done()
	return reply
}

func tellAway(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	from, to, err := req.Stretch(maxAwayDays, false)
	if err != nil {
		return say.Reply{}, err
	}
	if req.Get("kind") == say.None {
		return notAway(ctx, b, req, from, to)
	}
	if to < req.Rider.Today {
		field := "from"
		if req.Has("to") {
			field = "to"
		}
		return say.Reply{}, desk.AheadOnly(field, to, req.Rider.Today)
	}
	ridden, err := riddenToday(ctx, b, req, max(from, req.Rider.Today))
	if err != nil {
		return say.Reply{}, err
	}
	if ridden { // today and the days before it stay, so that undoing this leaves nothing of it
		if from = req.Rider.Today + 1; from > to {
			return say.Reply{}, say.Refuse("from", "you have logged today's ride, so today stays as it is. Name a day that lies ahead, for example from:tomorrow")
		}
	}
	away := planner.Absence{From: from, To: to, Travel: req.Get("kind") == "travel"}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		_, err := tx.AddAbsence(ctx, req.Rider.Athlete.ID, req.Rider.Today, away)
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: from, text: fmt.Sprintf("Noted for %s: %s.", show.Span(from, to, req.Rider.Today), show.AwayWord(away.Travel)), undo: "tell away", values: awayOptions(from, to, say.None)}
	if ridden {
		n.more = []say.Line{say.Linef("You have logged today's ride, so it counts from tomorrow.")}
	}
	if away.Travel {
		n.more = append(n.more, say.Linef("If you have time for a ride on one of these days, tell me how long: /tell limit day:%s minutes:45", max(from, req.Rider.Today)))
	}
	for _, old := range e.Old.Absences {
		switch {
		case old.From != from || old.To != to:
		case old.Travel == away.Travel:
			n.label = say.TakeBack
		default:
			n.values = awayOptions(from, to, kindWord(old.Travel))
		}
	}
	return told(e, n), nil
}

// riddenToday reports whether a day is today and its ride is logged: the day is settled then, as it was entered.
func riddenToday(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date) (bool, error) {
	if !req.Rider.Known() || day != req.Rider.Today {
		return false, nil
	}
	f, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return false, err
	}
	return slices.ContainsFunc(f.Now.Done, func(r planner.Ride) bool { return r.Date == day && r.Minutes > 0 }), nil
}

func awayOptions(from, to planner.Date, kind string) map[string]string {
	return map[string]string{"from": from.String(), "to": to.String(), "kind": kind}
}

func kindWord(travel bool) string {
	if travel {
		return "travel"
	}
	return "off"
}

// notAway takes back the absence of exactly that stretch.
func notAway(ctx context.Context, b *desk.Base, req desk.Request, from, to planner.Date) (say.Reply, error) {
	all, err := b.DB.Absences(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	today := req.Rider.Today
	ridden := false
	if from <= today && today <= to {
		if ridden, err = riddenToday(ctx, b, req, today); err != nil {
			return say.Reply{}, err
		}
	}
	var touching []say.Line
	for _, a := range all {
		if a.From == from && a.To == to {
			if ridden && to == today {
				return say.Reply{}, say.Refuse("from", "you have logged today's ride, so today stays as it was planned. Name a day that lies ahead, for example from:tomorrow")
			}
			e, err := b.Change(ctx, req, func(tx *storage.DB) error {
				if err := tx.RemoveAbsence(ctx, req.Rider.Athlete.ID, today, a.ID); err != nil || !ridden {
					return err
				}
				_, err := tx.AddAbsence(ctx, req.Rider.Athlete.ID, today, planner.Absence{From: from, To: today, Travel: a.Travel}) // as it was planned
				return err
			})
			if err != nil {
				return say.Reply{}, err
			}
			if ridden {
				from = today.AddDays(1)
			}
			n := news{from: from, text: "Not away after all: " + show.Span(from, to, req.Rider.Today) + ".", undo: "tell away", values: awayOptions(from, to, kindWord(a.Travel))}
			if to < req.Rider.Today {
				n.undo = "" // what is past cannot be told any more
			}
			return told(e, n), nil
		}
		if a.From <= to && from <= a.To {
			touching = append(touching, say.Linef("%s: /tell away from:%s to:%s kind:none", show.Span(a.From, a.To, req.Rider.Today), a.From, a.To))
		}
	}
	return say.Reply{}, noSuchStretch("days away", show.Span(from, to, req.Rider.Today), touching)
}

// noSuchStretch refuses to take back what was not told so, and lists the
// stretches that touch it with the command that takes each back.
func noSuchStretch(what, stretch string, touching []say.Line) error {
	if len(touching) == 0 {
		return say.Refuse("from", "you entered no %s on %s. See your entries: /me show", what, stretch)
	}
	return say.Refuse("from", "you entered no %s on exactly %s. Take back a whole stretch. %s", what, stretch, say.Joined(touching, ". "))
}

func tellLimit(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	day, err := req.ComingDay("day")
	minutes, none := 0, strings.EqualFold(req.Get("minutes"), say.None)
	if !none {
		var fault error
		minutes, fault = typed.Minutes(req.Get("minutes"))
		err = say.Together(err, say.InField("minutes", fault))
	}
	switch {
	case err != nil:
		return say.Reply{}, err
	case none:
		return noLimit(ctx, b, req, day)
	}
	if ridden, err := riddenToday(ctx, b, req, day); err != nil {
		return say.Reply{}, err
	} else if ridden {
		return say.Reply{}, say.Refuse("day", "you have logged today's ride, so a limit changes nothing today. Name a day that lies ahead, for example day:tomorrow")
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.SetLimit(ctx, req.Rider.Athlete.ID, req.Rider.Today, planner.Limit{Date: day, Minutes: minutes})
	})
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: day, text: fmt.Sprintf("Noted: at most %s on %s.", planner.Duration(minutes), day.Long())}
	if minutes == 0 {
		n.text = fmt.Sprintf("Noted: no training on %s.", day.Long())
	}
	n.takesLimitBack(e, planner.Limit{Date: day, Minutes: minutes})
	for _, a := range e.Facts.Absences {
		if minutes > 0 && !a.Travel && a.From <= day && day <= a.To {
			n.more = append(n.more, say.Linef("You said that you are away on that day, so it stays free. If you have time for a ride after all: %s", say.CommandLine("tell away", awayOptions(a.From, a.To, kindWord(true)))))
			break
		}
	}
	return told(e, n), nil
}

// takesLimitBack is the way back from a limit: to the one before it, else to none.
func (n *news) takesLimitBack(e *desk.Effect, limit planner.Limit) {
	n.undo, n.values = "tell limit", limitOptions(limit.Date, say.None)
	old, ok := desk.LimitOn(e.Old, limit.Date)
	switch {
	case ok && old.Minutes == limit.Minutes && old.Eased == limit.Eased:
		n.label = say.TakeBack
	case ok:
		n.undo, n.values = limitCommand(old)
	}
}

// limitCommand tells a limit again.
func limitCommand(l planner.Limit) (command string, values map[string]string) {
	if l.Eased {
		return "tell tired", easedOptions(l.Date, l.Minutes)
	}
	return "tell limit", limitOptions(l.Date, fmt.Sprint(l.Minutes))
}

func limitOptions(day planner.Date, minutes string) map[string]string {
	return map[string]string{"day": day.String(), "minutes": minutes}
}

func noLimit(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date) (say.Reply, error) {
	refusal := say.Refuse("day", "%s has no limit. See your entries: /me show", day.Long())
	if !req.Rider.Known() {
		return say.Reply{}, refusal
	}
	if ridden, err := riddenToday(ctx, b, req, day); err != nil {
		return say.Reply{}, err
	} else if ridden {
		return say.Reply{}, say.Refuse("day", "you have logged today's ride, so today stays as it was planned and its limit stays too. Name a day that lies ahead, for example day:tomorrow")
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		err := tx.RemoveLimit(ctx, req.Rider.Athlete.ID, req.Rider.Today, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refusal
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	old, _ := desk.LimitOn(e.Old, day)
	n := news{from: day, text: fmt.Sprintf("No limit any more on %s.", day.Long())}
	n.undo, n.values = limitCommand(old)
	return told(e, n), nil
}

func tellBlock(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	from, to, err := req.Stretch(maxBlockDays, true)
	if err != nil {
		return say.Reply{}, err
	}
	if strings.EqualFold(req.Get("percent"), say.None) {
		return noBlock(ctx, b, req, from, to)
	}
	block := planner.Block{From: from, To: to, Percent: defaultPercent}
	if req.Has("percent") {
		if block.Percent, err = desk.WholeNumber(req.Get("percent"), 1, planner.MaxBlockPercent, "20"); err != nil {
			return say.Reply{}, say.InField("percent", err)
		}
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		_, err := tx.AddBlock(ctx, req.Rider.Athlete.ID, req.Rider.Today, block)
		var overlap *storage.Overlap
		if errors.As(err, &overlap) {
			with := overlap.With
			return say.Refuse("from", "there is a block %s already. Take it back first: /tell block from:%s to:%s percent:none", show.Span(with.From, with.To, req.Rider.Today), with.From, with.To)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: from, text: fmt.Sprintf("Noted: a block %s with %d %% more than usual.", show.Span(from, to, req.Rider.Today), block.Percent),
		undo: "tell block", values: blockOptions(from, to, say.None)}
	for _, old := range e.Old.Blocks {
		switch {
		case old.From != from || old.To != to:
		case old.Percent == block.Percent:
			n.label = say.TakeBack
		default:
			n.values = blockOptions(from, to, fmt.Sprint(old.Percent))
		}
	}
	if e.After != nil && slices.ContainsFunc(e.After.Days, func(d engine.Day) bool {
		return d.Date > to && slices.ContainsFunc(d.Causes, func(c engine.Cause) bool { return c.Code == engine.WhyBlockAfter })
	}) {
		n.more = append(n.more, say.Linef("After it come easier days, so that your legs recover before you race."))
	}
	n.more = append(n.more, say.Linef("! %s", words.CautionBlock))
	if block.Percent > muchMore {
		n.more = append(n.more, say.Linef("! %d %% more is a great deal. Blocks usually add about 20 %%, and more of it brings illness and injury.", block.Percent))
	}
	return told(e, n), nil
}

func blockOptions(from, to planner.Date, percent string) map[string]string {
	return map[string]string{"from": from.String(), "to": to.String(), "percent": percent}
}

// noBlock takes back the block of exactly that stretch.
func noBlock(ctx context.Context, b *desk.Base, req desk.Request, from, to planner.Date) (say.Reply, error) {
	blocks, err := b.DB.Blocks(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	var touching []say.Line
	for _, k := range blocks {
		if k.From == from && k.To == to {
			e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.RemoveBlock(ctx, req.Rider.Athlete.ID, req.Rider.Today, k.ID) })
			if err != nil {
				return say.Reply{}, err
			}
			return told(e, news{from: from, text: fmt.Sprintf("The block %s is taken back.", show.Span(from, to, req.Rider.Today)), undo: "tell block", values: blockOptions(from, to, fmt.Sprint(k.Percent))}), nil
		}
		if k.From <= to && from <= k.To {
			touching = append(touching, say.Linef("%s: /tell block from:%s to:%s percent:none", show.Span(k.From, k.To, req.Rider.Today), k.From, k.To))
		}
	}
	return say.Reply{}, noSuchStretch("block", show.Span(from, to, req.Rider.Today), touching)
}
