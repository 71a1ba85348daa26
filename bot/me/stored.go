package me

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// What /me erase wants to hear before it erases.
const (
	confirm    = "confirm"
	everything = "everything"
)

const nothingStored = "I store nothing about you."

// exportFile is the name of the file that /me export gives.
const exportFile = "musette-export.json"

// entryWords are the tables of an export: one entry of each, and several. One that
// is missing here is named as the database names it.
var entryWords = [][3]string{
	{"week", "usual week", "usual weeks"}, {"race", "race", "races"}, {"race_day", "race morning", "race mornings"}, {"past_race", "earlier form of a race", "earlier forms of races"},
	{"result", "race result", "race results"}, {"ride", "ride or missed day", "rides or missed days"}, {"illness", "illness", "illnesses"},
	{"hold", "health stop", "health stops"}, {"absence", "time away", "times away"}, {"day_limit", "limit of a day", "limits of days"},
	{"block", "training block", "training blocks"}, {"move", "swap of days", "swaps of days"}, {"pin", "day set by a coach", "days set by a coach"},
	{"heavy_legs", "day of heavy legs", "days of heavy legs"}, {"kit", "change of the kit list", "changes of the kit list"}, {"calendar_given", "calendar entry given", "calendar entries given"}, {"coach_note", "note of a coach", "notes of coaches"}, {"taught", "length that races taught", "lengths that races taught"}, {"past_taper", "earlier taper setting", "earlier taper settings"},
	{"post", "reminder on record", "reminders on record"}, {"button", "button", "buttons"}, {"person", "direct message channel", "direct message channels"},
	{"fault_told", "fault of a club that you were told", "faults of clubs that you were told"},
}

// holding is what is stored of a person, in short.
type holding struct {
	data    []byte
	clubs   []string
	since   planner.Date // since when anything is
	entries map[string]int
}

// whose is the person who asks, in all clubs where they have a number of a platform.
func whose(who *desk.Rider) storage.Whose {
	a := who.Athlete
	a.Club = who.Club.ID
	return a.Whose()
}

// holdingOf reads all that is stored of who asks; nil is nothing.
func holdingOf(ctx context.Context, b *desk.Base, who *desk.Rider) (*holding, error) {
	data, err := b.DB.Export(ctx, whose(who))
	if errors.Is(err, storage.ErrNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var all map[string]json.RawMessage
	var clubs []map[string]json.RawMessage
	if err := json.Unmarshal(data, &all); err != nil {
		return nil, fmt.Errorf("count an export: %w", err)
	}
	if err := json.Unmarshal(all["clubs"], &clubs); err != nil {
		return nil, fmt.Errorf("count an export: %w", err)
	}
	delete(all, "clubs")
	h := &holding{data: data, since: who.Today, entries: map[string]int{}}
	h.count(all)
	for _, club := range clubs {
		var name string
		var added time.Time
		if err := errors.Join(json.Unmarshal(club["club"], &name), json.Unmarshal(club["added"], &added)); err != nil {
			return nil, fmt.Errorf("count an export: %w", err)
		}
		h.clubs = append(h.clubs, name)
		h.since = min(h.since, planner.DateOf(added.In(who.Zone)))
		h.count(club)
	}
	return h, nil
}

// count counts the lists of an object of an export, and those within their entries.
func (h *holding) count(object map[string]json.RawMessage) {
	for name, value := range object {
		var entries []map[string]json.RawMessage
		if json.Unmarshal(value, &entries) != nil || entries == nil {
			continue // no list
		}
		h.entries[name] += len(entries)
		for _, e := range entries {
			h.count(e)
		}
	}
}

// total is how many entries there are, and a list of them by kind.
func (h *holding) total() (n int, kinds string) {
	var parts []string
	left := map[string]int{}
	for name, count := range h.entries {
		left[name], n = count, n+count
	}
	for _, w := range entryWords {
		switch count := left[w[0]]; {
		case count == 1:
			parts = append(parts, "1 "+w[1])
		case count > 1:
			parts = append(parts, fmt.Sprintf("%d %s", count, w[2]))
		}
		delete(left, w[0])
	}
	for name, count := range left {
		if count > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count, strings.ReplaceAll(name, "_", " ")))
		}
	}
	return n, say.AndList(parts)
}

// where names the clubs, to stand behind what is stored.
func (h *holding) where() string {
	if len(h.clubs) == 0 {
		return "outside of clubs"
	}
	return "in " + say.AndList(h.clubs)
}

// meExport gives all that is stored of the person as a file.
func meExport(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	h, err := holdingOf(ctx, b, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if h == nil {
		return say.Reply{Lines: []say.Line{say.Linef(nothingStored)}}, nil
	}
	n, kinds := h.total()
	var p say.Page
	p.Addf("The file %s has all that I store about you, %s.", exportFile, h.where())
	p.Addf("These are your settings and %s. What you took back is in it, and so is what coaches wrote about you.", entriesText(n, kinds))
	p.Addf("I show this file to nobody else.")
	p.Addf("Erase all of it: /me erase")
	return say.Reply{Lines: p.Done(), Date: req.Rider.Today,
		Files: []say.File{{Name: exportFile, Type: "application/json", Data: h.data}}}, nil
}

func entriesText(n int, kinds string) string {
	if n == 0 {
		return "no entry"
	}
	if n == 1 {
		return kinds
	}
	return fmt.Sprintf("%d entries (%s)", n, kinds)
}

// meErase erases all that is stored of the person, once they have read what that is.
func meErase(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	h, err := holdingOf(ctx, b, req.Rider)
	switch {
	case err != nil:
		return say.Reply{}, err
	case h == nil:
		return say.Reply{Lines: []say.Line{say.Linef(nothingStored)}}, nil
	case req.Ask || !req.Has(confirm):
		return askErase(&req, h), nil
	}
	done, err := b.DB.Erase(ctx, whose(req.Rider))
	if err != nil {
		if left, unread := holdingOf(ctx, b, req.Rider); left != nil || unread != nil {
			return say.Reply{}, err
		}
		b.Log.ErrorContext(ctx, "an erasure is finished at the next start", "error", err)
		done.At = req.Now
	}
	if len(done.Missed) > 0 {
		b.Log.WarnContext(ctx, "the list of erased people is not in the folder of the backups; musette backup takes it there", "folders", done.Missed)
	}
	req.Rider.Athlete = storage.Athlete{Key: req.Rider.Athlete.Key, Name: req.Rider.Athlete.Name}
	n, kinds := h.total()
	until := planner.DateOf(done.At.In(req.Rider.Zone)).AddDays(storage.KeepBackupDays)
	var p say.Page
	p.Addf("All that I stored about you %s is erased.", h.where())
	p.Addf("Your settings and %s are gone.", entriesText(n, kinds))
	if err != nil {
		p.Addf("! Traces in the file of the database are erased when I start the next time.")
	}
	p.Addf("Copies of my database expire by %s. If one is put back before, I erase you again.", until.Long())
	p.Add(staysInDiscord(&req, h)...)
	p.Addf("If you register a race or share a week again, you start from nothing.")
	return say.Reply{Lines: p.Done(), Date: req.Rider.Today, Forget: true}, nil
}

// askErase says what an erasure would take and leave, with a button that does it.
func askErase(req *desk.Request, h *holding) say.Reply {
	n, kinds := h.total()
	var p say.Page
	p.Addf("Do you want to erase all that I store about you, %s? You cannot undo it.", h.where())
	p.Addf("Your settings and %s go at once, also what you took back.", entriesText(n, kinds))
	p.Addf("You leave the race list and your coaches' lists, and reminders end.")
	p.Addf("Copies of my database expire by %s.", req.Rider.Today.AddDays(storage.KeepBackupDays).Long())
	p.Add(staysInDiscord(req, h)...)
	p.Addf("Keep a copy for yourself first: /me export")
	line := say.Linef("Erase everything: %s", say.CommandLine("me erase", map[string]string{confirm: everything}))
	line.Kind = say.Offered
	p.Add(line)
	return say.Reply{Lines: p.Done(), Date: req.Rider.Today, Buttons: []say.Button{
		{Label: "Erase everything", Command: "me erase", Options: map[string]string{confirm: everything}, Danger: true}, {Label: "Keep everything"}}}
}

// staysInDiscord says what an erasure cannot reach, or what it reaches in a terminal.
func staysInDiscord(req *desk.Request, h *holding) []say.Line {
	if req.AthleteKey.IsZero() {
		return []say.Line{say.Linef("The history of this terminal is deleted, too, with the lines of everybody.")}
	}
	return []say.Line{
		say.Linef("My messages from %s to %s stay in Discord. They are my answers and reminders to you, lines about your races in the club's channel, and digests for the coaches.",
			show.Dated(h.since, req.Rider.Today), show.Dated(req.Rider.Today, req.Rider.Today)),
		say.Linef("I cannot delete these messages. A moderator of the server can delete those in its channels."),
	}
}
