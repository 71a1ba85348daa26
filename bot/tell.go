package bot

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"musette/planner"
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

func (b *Bot) tellAway(ctx context.Context, req Request) (Reply, error) {
	from, to, err := req.stretch(maxAwayDays)
	if err != nil {
		return Reply{}, err
	}
	if req.get("kind") == none {
		return b.notAway(ctx, req, from, to)
	}
	if to < req.rider.today {
		return Reply{}, refuse("to", "%s is past (today is %s); for example %s", to.Long(), req.rider.today.Long(), req.rider.today.AddDays(1))
	}
	away := planner.Absence{From: from, To: to, Travel: req.get("kind") == "travel"}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddAbsence(ctx, req.rider.athlete.ID, away)
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	before := none
	for _, a := range e.old.Absences {
		if a.From == from && a.To == to {
			before = awayKind(a.Travel)
		}
	}
	return b.told(e, from, fmt.Sprintf("Noted: %s, %s.", awayWord(away.Travel), span(from, to, req.rider.today)), undoAway(from, to, before)), nil
}

func awayKind(travel bool) string {
	if travel {
		return "travel"
	}
	return "off"
}

func undoAway(from, to planner.Date, kind string) Button {
	return Button{Label: "Undo", Command: "tell away", Options: map[string]string{"from": from.String(), "to": to.String(), "kind": kind}}
}

func undoLimit(day planner.Date, minutes string) Button {
	return Button{Label: "Undo", Command: "tell limit", Options: map[string]string{"day": day.String(), "minutes": minutes}}
}

func undoBlock(from, to planner.Date, percent string) Button {
	return Button{Label: "Undo", Command: "tell block", Options: map[string]string{"from": from.String(), "to": to.String(), "percent": percent}}
}

func awayWord(travel bool) string {
	if travel {
		return "travelling (an easy ride of 45 minutes at most)"
	}
	return "away, no training"
}

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

// notAway takes back the absence of exactly that stretch.
func (b *Bot) notAway(ctx context.Context, req Request, from, to planner.Date) (Reply, error) {
	id, today := req.rider.athlete.ID, req.rider.today
	all, err := b.db.Absences(ctx, id)
	if err != nil {
		return Reply{}, err
	}
	var touching []string
	for _, a := range all {
		if a.From == from && a.To == to {
			e, err := b.change(ctx, req, func() error { return b.db.RemoveAbsence(ctx, id, a.ID) })
			if err != nil {
				return Reply{}, err
			}
			var undo Button // a past absence cannot be told any more
			if to >= today {
				undo = undoAway(from, to, awayKind(a.Travel))
			}
			return b.told(e, from, "Not away after all: "+span(from, to, today)+".", undo), nil
		}
		if a.From <= to && from <= a.To {
			touching = append(touching, b.backOf(span(a.From, a.To, today), undoAway(a.From, a.To, none)))
		}
	}
	return Reply{}, notTold("days away", span(from, to, today), touching)
}

// backOf is a stored stretch with the command that takes it back.
func (b *Bot) backOf(stretch string, undo Button) string {
	return stretch + ": " + b.typed(undo.Command, undo.Options)
}

// notTold refuses to take back what was never told so; it lists what touches it.
func notTold(what, stretch string, touching []string) error {
	if len(touching) == 0 {
		return refuse("from", "you told of no %s %s; what you told is in /me show", what, stretch)
	}
	return refuse("from", "you told of no %s exactly %s; take back a whole stretch. %s", what, stretch, strings.Join(touching, ". "))
}

// told is the reply to a fact: what was understood, what it changes, how to
// undo it; where nothing can be undone, where to look.
func (b *Bot) told(e *effect, date planner.Date, understood string, undo Button) Reply {
	var p page
	p.add(understood)
	switch {
	case planned(e.facts) && date > lastDay(e.after):
		p.add(e.newWarnings()...)
		p.add("Your plan does not reach that far yet; it will heed this.")
	case planned(e.facts):
		p.add(e.news()...)
	}
	reply := Reply{Date: date}
	if undo.Command != "" {
		p.add("Undo: " + b.typed(undo.Command, undo.Options))
		reply.Buttons = []Button{undo}
	} else {
		p.add("All that you told: /me show")
	}
	reply.Text = p.String()
	return reply
}

func (b *Bot) tellLimit(ctx context.Context, req Request) (Reply, error) {
	day, err := req.day("day")
	if err != nil {
		return Reply{}, err
	}
	if strings.EqualFold(req.get("minutes"), none) {
		return b.noLimit(ctx, req, day)
	}
	minutes, err := planner.ParseMinutes(req.get("minutes"))
	if err != nil {
		return Reply{}, inField("minutes", err)
	}
	e, err := b.change(ctx, req, func() error {
		return b.db.SetLimit(ctx, req.rider.athlete.ID, planner.Limit{Date: day, Minutes: minutes})
	})
	if err != nil {
		return Reply{}, err
	}
	understood := fmt.Sprintf("Noted: at most %s on %s.", planner.Duration(minutes), day.Long())
	if minutes == 0 {
		understood = fmt.Sprintf("Noted: no training on %s.", day.Long())
	}
	return b.told(e, day, understood, undoLimit(day, limitOn(e.old, day))), nil
}

func (b *Bot) noLimit(ctx context.Context, req Request, day planner.Date) (Reply, error) {
	e, err := b.change(ctx, req, func() error {
		err := b.db.RemoveLimit(ctx, req.rider.athlete.ID, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refuse("day", "%s has no limit; what you told is in /me show", day.Long())
		}
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	return b.told(e, day, fmt.Sprintf("No limit any more on %s.", day.Long()), undoLimit(day, limitOn(e.old, day))), nil
}

// limitOn is the limit of a day as it is typed, none where there is none.
func limitOn(f *planner.Facts, day planner.Date) string {
	for _, l := range f.Limits {
		if l.Date == day {
			return strconv.Itoa(l.Minutes)
		}
	}
	return none
}

func (b *Bot) tellBlock(ctx context.Context, req Request) (Reply, error) {
	from, to, err := req.stretch(maxBlockDays)
	if err != nil {
		return Reply{}, err
	}
	id := req.rider.athlete.ID
	blocks, err := b.db.Blocks(ctx, id)
	if err != nil {
		return Reply{}, err
	}
	if strings.EqualFold(req.get("percent"), none) {
		return b.noBlock(ctx, req, blocks, from, to)
	}
	percent := defaultPercent
	if req.has("percent") {
		if percent, err = wholeNumber(req.get("percent"), 1, planner.MaxBlockPercent, "20"); err != nil {
			return Reply{}, inField("percent", err)
		}
	}
	today, before := req.rider.today, none
	for _, k := range blocks {
		switch {
		case k.From == from && k.To == to:
			before = strconv.Itoa(k.Percent)
		case k.From <= to && from <= k.To:
			return Reply{}, refuse("from", "there is a block already; take it back first. %s", b.backOf(span(k.From, k.To, today), undoBlock(k.From, k.To, none)))
		}
	}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddBlock(ctx, id, planner.Block{From: from, To: to, Percent: percent})
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	return b.told(e, from, fmt.Sprintf("Noted: a block %s with %d %% more than usual.", span(from, to, today), percent), undoBlock(from, to, before)), nil
}

// noBlock takes back the block of exactly that stretch.
func (b *Bot) noBlock(ctx context.Context, req Request, blocks []storage.Block, from, to planner.Date) (Reply, error) {
	today := req.rider.today
	var touching []string
	for _, k := range blocks {
		if k.From == from && k.To == to {
			e, err := b.change(ctx, req, func() error { return b.db.RemoveBlock(ctx, req.rider.athlete.ID, k.ID) })
			if err != nil {
				return Reply{}, err
			}
			return b.told(e, from, fmt.Sprintf("The block %s is taken back.", span(from, to, today)), undoBlock(from, to, strconv.Itoa(k.Percent))), nil
		}
		if k.From <= to && from <= k.To {
			touching = append(touching, b.backOf(span(k.From, k.To, today), undoBlock(k.From, k.To, none)))
		}
	}
	return Reply{}, notTold("block", span(from, to, today), touching)
}
