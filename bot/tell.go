package bot

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// Longest stretches that can be told, in days, and what a block adds when
// nothing was told, in per cent.
const (
	maxAwayDays    = 366
	maxBlockDays   = 92
	defaultPercent = 20
)

// none takes back what was told before.
const none = "none"

// news is what was told and understood, and the options that undo it.
type news struct {
	from   planner.Date
	text   string
	more   []Line        // what to know before its effect
	swap   *planner.Move // offered; nil: none
	label  string        // of the way back, Undo where empty
	undo   string        // command; empty where there is no way back
	values map[string]string
}

// told is the reply to a fact: what was understood, what it changes, how to undo it.
func told(e *effect, n news) Reply {
	var p page
	p.addf("%s", n.text)
	p.add(n.more...)
	if planned(e.facts) {
		lines := e.news()
		if end := lastDay(e.after); n.from > end && len(lines) == 1 {
			lines = []Line{Say("Your plan reaches to %s so far; this counts once it gets there.", end.Short())}
		}
		p.add(lines...)
	}
	if n.label == "" {
		n.label = "Undo"
	}
	reply := Reply{Date: n.from}
	if n.swap != nil {
		reply.offer(&p, "Ride it on "+n.swap.To.Short(), "plan move", map[string]string{"from": n.swap.From.String(), "to": n.swap.To.String()})
	}
	if n.undo == "" {
		p.addf("All your entries: /me show")
	} else {
		reply.offer(&p, n.label, n.undo, n.values)
	}
	reply.Lines = p.done()
	return reply
}

// takeBack is the label of the way back from what had been told before already.
const takeBack = "Take it back"

// span is a stretch of days: Thu 4 Jun to Sat 6 Jun, with years where one is not today's.
func span(from, to, today planner.Date) string {
	if from == to {
		return dated(from, today)
	}
	return dated(from, today) + " to " + dated(to, today)
}

// dated is a day in short, with its year where that is not today's.
func dated(d, today planner.Date) string {
	if year := d.String()[:4]; year != today.String()[:4] {
		return d.Short() + " " + year
	}
	return d.Short()
}

func (b *Base) tellAway(ctx context.Context, req Request) (Reply, error) {
	from, to, err := req.stretch(maxAwayDays)
	if err != nil {
		return Reply{}, err
	}
	if req.get("kind") == none {
		return b.notAway(ctx, req, from, to)
	}
	if to < req.rider.today {
		field := "from"
		if req.has("to") {
			field = "to"
		}
		return Reply{}, aheadOnly(field, to, req.rider.today)
	}
	away := planner.Absence{From: from, To: to, Travel: req.get("kind") == "travel"}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddAbsence(ctx, req.rider.athlete.ID, req.rider.today, away)
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	n := news{from: from, text: fmt.Sprintf("Noted: %s, %s.", awayWord(away.Travel), span(from, to, req.rider.today)), undo: "tell away", values: awayOptions(from, to, none)}
	if away.Travel {
		n.more = []Line{Say("A day with time for a ride: /tell limit day:%s minutes:45", max(from, req.rider.today))}
	}
	for _, old := range e.old.Absences {
		switch {
		case old.From != from || old.To != to:
		case old.Travel == away.Travel:
			n.label = takeBack
		default:
			n.values = awayOptions(from, to, kindWord(old.Travel))
		}
	}
	return told(e, n), nil
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

func awayWord(travel bool) string {
	if travel {
		return "travelling, no ride unless you give a day minutes"
	}
	return "away, no training"
}

// notAway takes back the absence of exactly that stretch.
func (b *Base) notAway(ctx context.Context, req Request, from, to planner.Date) (Reply, error) {
	all, err := b.db.Absences(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	var touching []Line
	for _, a := range all {
		if a.From == from && a.To == to {
			e, err := b.change(ctx, req, func() error { return b.db.RemoveAbsence(ctx, req.rider.athlete.ID, req.rider.today, a.ID) })
			if err != nil {
				return Reply{}, err
			}
			n := news{from: from, text: "Not away after all: " + span(from, to, req.rider.today) + ".", undo: "tell away", values: awayOptions(from, to, kindWord(a.Travel))}
			if to < req.rider.today {
				n.undo = "" // what is past cannot be told any more
			}
			return told(e, n), nil
		}
		if a.From <= to && from <= a.To {
			touching = append(touching, Say("%s: /tell away from:%s to:%s kind:none", span(a.From, a.To, req.rider.today), a.From, a.To))
		}
	}
	return Reply{}, noSuchStretch("days away", span(from, to, req.rider.today), touching)
}

// noSuchStretch refuses to take back what was not told so, and lists the
// stretches that touch it with the command that takes each back.
func noSuchStretch(what, stretch string, touching []Line) error {
	if len(touching) == 0 {
		return refuse("from", "you told of no %s on %s. See what you told with /me show", what, stretch)
	}
	return refuse("from", "you told of no %s on exactly %s. Take back a whole stretch. %s", what, stretch, joined(touching, ". "))
}

func (b *Base) tellLimit(ctx context.Context, req Request) (Reply, error) {
	day, err := req.day("day")
	if err != nil {
		return Reply{}, err
	}
	if strings.EqualFold(req.get("minutes"), none) {
		return b.noLimit(ctx, req, day)
	}
	minutes, err := typed.Minutes(req.get("minutes"))
	if err != nil {
		return Reply{}, inField("minutes", err)
	}
	e, err := b.change(ctx, req, func() error {
		return b.db.SetLimit(ctx, req.rider.athlete.ID, req.rider.today, planner.Limit{Date: day, Minutes: minutes})
	})
	if err != nil {
		return Reply{}, err
	}
	n := news{from: day, text: fmt.Sprintf("Noted: at most %s on %s.", planner.Duration(minutes), day.Long()), undo: "tell limit", values: limitOptions(day, none)}
	if minutes == 0 {
		n.text = fmt.Sprintf("Noted: no training on %s.", day.Long())
	}
	switch old, ok := limitOn(e.old, day); {
	case ok && old == minutes:
		n.label = takeBack
	case ok:
		n.values = limitOptions(day, fmt.Sprint(old))
	}
	return told(e, n), nil
}

func limitOptions(day planner.Date, minutes string) map[string]string {
	return map[string]string{"day": day.String(), "minutes": minutes}
}

// limitOn is the limit that was told for a day, in minutes.
func limitOn(f *planner.Facts, day planner.Date) (int, bool) {
	for _, l := range f.Limits {
		if l.Date == day {
			return l.Minutes, true
		}
	}
	return 0, false
}

func (b *Base) noLimit(ctx context.Context, req Request, day planner.Date) (Reply, error) {
	refusal := refuse("day", "%s has no limit. See what you told with /me show", day.Long())
	if !req.rider.known() {
		return Reply{}, refusal
	}
	e, err := b.change(ctx, req, func() error {
		err := b.db.RemoveLimit(ctx, req.rider.athlete.ID, req.rider.today, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refusal
		}
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	old, _ := limitOn(e.old, day)
	return told(e, news{from: day, text: fmt.Sprintf("No limit any more on %s.", day.Long()), undo: "tell limit", values: limitOptions(day, fmt.Sprint(old))}), nil
}

func (b *Base) tellBlock(ctx context.Context, req Request) (Reply, error) {
	from, to, err := req.stretch(maxBlockDays)
	if err != nil {
		return Reply{}, err
	}
	if strings.EqualFold(req.get("percent"), none) {
		return b.noBlock(ctx, req, from, to)
	}
	block := planner.Block{From: from, To: to, Percent: defaultPercent}
	if req.has("percent") {
		if block.Percent, err = wholeNumber(req.get("percent"), 1, planner.MaxBlockPercent, "20"); err != nil {
			return Reply{}, inField("percent", err)
		}
	}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddBlock(ctx, req.rider.athlete.ID, req.rider.today, block)
		var overlap *storage.Overlap
		if errors.As(err, &overlap) {
			with := overlap.With
			return refuse("from", "there is a block %s already. Take it back first: /tell block from:%s to:%s percent:none", span(with.From, with.To, req.rider.today), with.From, with.To)
		}
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	n := news{from: from, text: fmt.Sprintf("Noted: a block %s with %d %% more than usual.", span(from, to, req.rider.today), block.Percent),
		undo: "tell block", values: blockOptions(from, to, none)}
	for _, old := range e.old.Blocks {
		switch {
		case old.From != from || old.To != to:
		case old.Percent == block.Percent:
			n.label = takeBack
		default:
			n.values = blockOptions(from, to, fmt.Sprint(old.Percent))
		}
	}
	return told(e, n), nil
}

func blockOptions(from, to planner.Date, percent string) map[string]string {
	return map[string]string{"from": from.String(), "to": to.String(), "percent": percent}
}

// noBlock takes back the block of exactly that stretch.
func (b *Base) noBlock(ctx context.Context, req Request, from, to planner.Date) (Reply, error) {
	blocks, err := b.db.Blocks(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	var touching []Line
	for _, k := range blocks {
		if k.From == from && k.To == to {
			e, err := b.change(ctx, req, func() error { return b.db.RemoveBlock(ctx, req.rider.athlete.ID, req.rider.today, k.ID) })
			if err != nil {
				return Reply{}, err
			}
			return told(e, news{from: from, text: fmt.Sprintf("The block %s is taken back.", span(from, to, req.rider.today)), undo: "tell block", values: blockOptions(from, to, fmt.Sprint(k.Percent))}), nil
		}
		if k.From <= to && from <= k.To {
			touching = append(touching, Say("%s: /tell block from:%s to:%s percent:none", span(k.From, k.To, req.rider.today), k.From, k.To))
		}
	}
	return Reply{}, noSuchStretch("block", span(from, to, req.rider.today), touching)
}
