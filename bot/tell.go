package bot

import (
	"context"
	"errors"
	"fmt"
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
	undo := fmt.Sprintf("Undo: /tell away from:%s to:%s kind:none", from, to)
	return told(e, from, fmt.Sprintf("Noted: %s, %s.", awayWord(away.Travel), span(from, to)), undo), nil
}

func awayWord(travel bool) string {
	if travel {
		return "travelling (an easy ride of 45 minutes at most)"
	}
	return "away, no training"
}

// span is a stretch of days: Thu 4 Jun to Sat 6 Jun.
func span(from, to planner.Date) string {
	if from == to {
		return from.Short()
	}
	return from.Short() + " to " + to.Short()
}

// notAway takes back the absence of exactly that stretch.
func (b *Bot) notAway(ctx context.Context, req Request, from, to planner.Date) (Reply, error) {
	id := req.rider.athlete.ID
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
			return told(e, from, "Not away after all: "+span(from, to)+".", ""), nil
		}
		if a.From <= to && from <= a.To {
			touching = append(touching, fmt.Sprintf("/tell away from:%s to:%s kind:none", a.From, a.To))
		}
	}
	if len(touching) > 0 {
		return Reply{}, refuse("from", "you told of no days away %s exactly; take back a whole stretch: %s", span(from, to), strings.Join(touching, " or "))
	}
	return Reply{}, refuse("from", "you told of no days away %s; /me show lists them", span(from, to))
}

// told is the reply to a fact: what was understood, what it changes, how to undo it.
func told(e *effect, date planner.Date, understood, undo string) Reply {
	var p page
	p.add(understood)
	if planned(e.facts) {
		p.add(e.news()...)
	}
	if undo != "" {
		p.add(undo)
	}
	return Reply{Text: p.String(), Date: date}
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
	undo := none
	for _, l := range e.old.Limits {
		if l.Date == day {
			undo = fmt.Sprint(l.Minutes)
		}
	}
	return told(e, day, understood, fmt.Sprintf("Undo: /tell limit day:%s minutes:%s", day, undo)), nil
}

func (b *Bot) noLimit(ctx context.Context, req Request, day planner.Date) (Reply, error) {
	e, err := b.change(ctx, req, func() error {
		err := b.db.RemoveLimit(ctx, req.rider.athlete.ID, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refuse("day", "%s has no limit; /me show lists them", day.Long())
		}
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	return told(e, day, fmt.Sprintf("No limit any more on %s.", day.Long()), ""), nil
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
	for _, k := range blocks {
		if k.From <= to && from <= k.To && (k.From != from || k.To != to) {
			return Reply{}, refuse("from", "there is a block %s already; take it back first: /tell block from:%s to:%s percent:none", span(k.From, k.To), k.From, k.To)
		}
	}
	e, err := b.change(ctx, req, func() error {
		_, err := b.db.AddBlock(ctx, id, planner.Block{From: from, To: to, Percent: percent})
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	return told(e, from, fmt.Sprintf("Noted: a block %s with %d %% more than usual.", span(from, to), percent),
		fmt.Sprintf("Undo: /tell block from:%s to:%s percent:none", from, to)), nil
}

func (b *Bot) noBlock(ctx context.Context, req Request, blocks []storage.Block, from, to planner.Date) (Reply, error) {
	for _, k := range blocks {
		if k.From != from || k.To != to {
			continue
		}
		e, err := b.change(ctx, req, func() error { return b.db.RemoveBlock(ctx, req.rider.athlete.ID, k.ID) })
		if err != nil {
			return Reply{}, err
		}
		return told(e, k.From, fmt.Sprintf("The block %s is taken back.", span(k.From, k.To)), ""), nil
	}
	for _, k := range blocks {
		if k.From <= to && from <= k.To {
			return Reply{}, refuse("from", "you told of no block %s exactly; take back the whole one: /tell block from:%s to:%s percent:none", span(from, to), k.From, k.To)
		}
	}
	return Reply{}, refuse("from", "you told of no block %s; /me show lists them", span(from, to))
}
