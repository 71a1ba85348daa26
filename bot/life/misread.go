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
	"musette/planner/words"
	"musette/storage"
)

// stopsIn are the levels of stops that a word of the option of means, the gravest first.
func stopsIn(of string) []planner.Level {
	if of == show.BothStops {
		return []planner.Level{planner.LevelEmergency, planner.LevelHead}
	}
	for _, level := range stopLevels {
		if level.String() == of {
			return []planner.Level{level}
		}
	}
	return nil
}

var stopLevels = []planner.Level{planner.LevelEmergency, planner.LevelHead, planner.LevelDoctor}

// heldAgain takes back that stops have ended today: those of the levels that were
// misread, else all that a doctor has cleared. ok is false where none has ended so.
func heldAgain(ctx context.Context, b *desk.Base, req desk.Request, levels []planner.Level) (reply say.Reply, ok bool, err error) {
	if !req.Rider.Known() {
		return reply, false, nil
	}
	ways := []storage.HoldEnd{storage.HoldNotThat, storage.HoldCleared}
	if levels == nil {
		levels, ways = stopLevels, []storage.HoldEnd{storage.HoldCleared, storage.HoldNotThat}
	}
	for _, how := range ways {
		e, err := b.Change(ctx, req, func(tx *storage.DB) error {
			return tx.ReopenHolds(ctx, req.Rider.Athlete.ID, req.Now, how, levels...)
		})
		if errors.Is(err, storage.ErrNotFound) {
			continue
		}
		if err != nil {
			return reply, false, err
		}
		h, _ := desk.Held(e.Facts)
		again := slices.DeleteFunc(slices.Clone(levels), func(l planner.Level) bool { return !stands(e.Facts, l) || stands(e.Told.Now, l) })
		var p say.Page
		p.Addf("Taken back: your training is held back again, since %s.", show.Dated(h.Since, req.Rider.Today))
		p.Addf("! %s", words.StopAnswer(h.Level))
		show.OfferEnds(&p, &reply, again[:min(2, len(again))]...)
		return alarmed(&p, reply), true, nil
	}
	return reply, false, nil
}

// notThat ends stops that were none: the one that is named, both of a line that told of
// two, or the only one that stands.
func notThat(ctx context.Context, b *desk.Base, req desk.Request, f *planner.Facts) (say.Reply, error) {
	open := slices.DeleteFunc(slices.Clone(stopLevels), func(l planner.Level) bool { return !stands(f, l) })
	denied := open
	if req.Has("of") {
		named := stopsIn(req.Get("of"))
		denied = slices.DeleteFunc(slices.Clone(open), func(l planner.Level) bool { return !slices.Contains(named, l) })
	} else if len(open) > 1 {
		return whichMisread(f, open, req.Rider.Today), nil
	}
	if len(denied) == 0 {
		if h, held := desk.Held(f); held {
			return show.Stopped(say.Linef("Training stays held back for %s.", heldWords(f, req.Rider.Today)), h.Level), nil
		}
		return say.Reply{Lines: []say.Line{say.Linef("Good. Nothing is held back, and nothing is stored."),
			say.Linef("If you are ill all the same: /tell sick symptoms:fever")}}, nil
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.DenyHold(ctx, req.Rider.Athlete.ID, req.Now, denied...)
	})
	if errors.Is(err, storage.ErrNotFound) {
		return say.Reply{}, say.Refuse("of", "nothing of that kind is held back any more. See /ride")
	}
	if err != nil {
		return say.Reply{}, err
	}
	undo := map[string]string{"cleared": show.ClearedNot, "of": show.StopsOf(denied...)}
	if h, held := desk.Held(e.Facts); held {
		reply := show.Stopped(say.Linef("Noted: it is not that. Training stays held back for %s.", heldWords(e.Facts, req.Rider.Today)), h.Level)
		p := say.Page{Lines: reply.Lines}
		reply.Offer(&p, "Undo", "tell well", undo)
		reply.Lines = p.Done()
		return reply, nil
	}
	n := news{from: req.Rider.Today, text: "Noted: it is not that. Your plan is back.", undo: "tell well", values: undo}
	n.more = []say.Line{say.Linef("If you are ill all the same: /tell sick symptoms:fever")}
	return told(e, n), nil
}

// heldWords name what training is held back for: a knock to the head, which you told me of on Mon 1 Jun.
func heldWords(f *planner.Facts, today planner.Date) string {
	var list []string
	for _, level := range stopLevels {
		for _, h := range f.Holds {
			if h.Level == level && h.Cleared.IsZero() {
				list = append(list, fmt.Sprintf("%s, entered on %s", heldAs[level], show.Dated(h.Date, today)))
			}
		}
	}
	return strings.Join(list, ", and for ")
}

// heldAs is what a stop of a level is about.
var heldAs = map[planner.Level]string{
	planner.LevelEmergency: "a sign of an emergency", planner.LevelHead: "a knock to the head", planner.LevelDoctor: "something that a doctor must see",
}

// whichMisread asks which of several stops was none.
func whichMisread(f *planner.Facts, open []planner.Level, today planner.Date) say.Reply {
	var p say.Page
	var reply say.Reply
	p.Addf("Training is held back for %s. Which did I misread?", heldWords(f, today))
	for _, level := range open {
		reply.Offer(&p, say.UpperFirst(heldAs[level]), "tell well", map[string]string{"cleared": show.ClearedWasNot, "of": level.String()})
	}
	if len(open) == 2 && open[1] == planner.LevelHead {
		reply.Offer(&p, "Both", "tell well", map[string]string{"cleared": show.ClearedWasNot, "of": show.BothStops})
	}
	reply.Lines = p.Done()
	return reply
}
