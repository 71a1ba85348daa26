package me

import (
	"context"
	"errors"
	"maps"
	"strings"

	"musette/bot/desk"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

func meShow(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	told, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	facts, today := told.Now, req.Rider.Today
	var p say.Page
	p.Addf("%s of %s. Today is %s for you.", req.Rider.Athlete.Name, req.Rider.Club.Name, today.Long())
	for _, line := range settingsText(req.Rider, &req.Rider.Athlete.Settings, nil) {
		line.Kind = say.Detail
		p.Add(line)
	}
	if desk.Planned(facts) {
		p.Addf("Usual week: %s. /week show", show.WeekSum(&show.WeekOn(facts, today).Week))
	} else {
		p.Addf("Usual week: not shared yet. For example")
		p.Addf("/week share week:%s", say.Quote(desk.ExampleWeek))
	}
	p.Addf("Races to come: %d. /race list", len(facts.Ahead(today)))
	if facts := toldFacts(facts, today); len(facts) > 0 {
		p.Headingf("What you entered:")
		p.Add(facts...)
	}
	p.Addf("Change a setting, for example /me set taper:10 cut:auto")
	p.Addf("All settings in words: /help topic:me")
	return say.Reply{Lines: p.Done(), Date: today}, nil
}

// health is what the rider told of their health that goes on or is hardly over.
func health(f *planner.Facts, today planner.Date) []say.Line {
	var lines []say.Line
	for _, ill := range f.Ill {
		what := "ill"
		if ill.Injury {
			what = "injured"
		}
		if len(ill.Symptoms) > 0 {
			what += " (" + strings.Join(ill.Symptoms, ", ") + ")"
		}
		switch {
		case ill.To.IsZero():
			lines = append(lines, say.Linef("  since %s: %s. When it is over: /tell well", show.Dated(ill.From, today), what))
		case ill.To >= today.AddDays(-show.AfterDays):
			lines = append(lines, say.Linef("  %s: %s", show.Span(ill.From, ill.To, today), what))
		}
	}
	if h, held := desk.Held(f); held {
		lines = append(lines, say.Linef("  since %s: training is held back. When a doctor has cleared you: /tell well cleared:yes", show.Dated(h.Since, today)))
	}
	return lines
}

// toldFacts are absences, limits, blocks and swaps that are not over yet.
func toldFacts(f *planner.Facts, today planner.Date) []say.Line {
	lines := health(f, today)
	for _, a := range f.Absences {
		if a.To >= today {
			lines = append(lines, say.Linef("  %s: %s", show.Span(a.From, a.To, today), show.AwayWord(a.Travel)))
		}
	}
	for _, l := range f.Limits {
		if l.Date >= today {
			lines = append(lines, say.Linef("  %s: at most %s", show.Dated(l.Date, today), planner.Duration(l.Minutes)))
		}
	}
	for _, k := range f.Blocks {
		if k.To >= today {
			lines = append(lines, say.Linef("  %s: block, %d %% more", show.Span(k.From, k.To, today), k.Percent))
		}
	}
	for _, m := range f.Moves {
		if max(m.From, m.To) >= today {
			lines = append(lines, say.Linef("  %s and %s: swapped", show.Dated(m.From, today), show.Dated(m.To, today)))
		}
	}
	return lines
}

func meSet(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if len(req.Options) == 0 {
		return say.Reply{}, say.Refuse("taper", "there is nothing to set. For example /me set taper:10 cut:50")
	}
	wanted, zone := req.Rider.Athlete.Settings, req.Get("zone")
	if err := readSettings(&wanted, &req); err != nil {
		return nearZone(&req, zone, err)
	}
	var athlete storage.Athlete
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		athlete, err = tx.UpdateSettings(ctx, req.Rider.Athlete.ID, req.Rider.Today, func(s *storage.Settings) error { return readSettings(s, &req) })
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	done := settingsText(req.Rider, &athlete.Settings, req.Has)
	p.Addf("Done. %s", done[0])
	p.Add(done[1:]...)
	if before := req.Rider.Zone.String(); req.Has("zone") && athlete.Settings.Zone != before {
		p.Add(movedStart(e.Facts, req.Rider.Today, before)...)
	}
	if desk.Planned(e.Facts) && setsTaper(&req) {
		p.Add(e.News()...)
	}
	if cut := athlete.Settings.Taper.Cut; req.Has("cut") && cut != 0 && (cut < engine.AdviseMinCut || cut > engine.AdviseMaxCut) && len(e.NewWarnings()) == 0 {
		p.Addf("! Studies found cuts of %s best. Yours is outside.", words.StudiedCuts)
	}
	reply := say.Reply{Date: req.Rider.Today}
	if remind.SetsReminders(&req) {
		lines, buttons, err := remind.NextReminder(ctx, b, &req, &athlete, e)
		if err != nil {
			return say.Reply{}, err
		}
		p.Add(lines...)
		reply.Buttons = buttons
	}
	p.Addf("All settings: /me show")
	reply.Lines = p.Done()
	return reply, nil
}

// movedStart says of the next race with a start that it starts by the new zone now, and how to
// keep the one from before.
func movedStart(f *planner.Facts, today planner.Date, before string) []say.Line {
	r := planner.FirstAhead(f.Races, today, func(r *planner.Race) bool { return r.Start != "" && r.Zone == "" && r.Status.Counts() })
	if r == nil {
		return nil
	}
	return []say.Line{say.Linef("Starts of races are by that time too, also %s of %s. If it starts elsewhere: %s", r.Start, show.RaceName(r),
		say.CommandLine("race morning", map[string]string{"race": show.RaceKey(r), "zone": before}))}
}

// nearZone refuses settings; where the zone is a slip of the pen, a button takes the
// one that is near.
func nearZone(req *desk.Request, typed string, err error) (say.Reply, error) {
	near := desk.NearZone(typed)
	if fault, ok := errors.AsType[*say.Refused](err); !ok || fault.Field != "zone" || near == "" {
		return say.Reply{}, err
	}
	options := maps.Clone(req.Options)
	options["zone"] = near
	return say.Reply{Buttons: []say.Button{{Label: "Set zone " + near, Command: "me set", Options: options}}}, err
}

// setsTaper reports whether an option changes how plans are made.
func setsTaper(r *desk.Request) bool {
	for _, o := range []string{"taper", "cut", "pattern", "openers"} {
		if r.Has(o) {
			return true
		}
	}
	return false
}

// readSettings lays the options over settings. It spells zone and reminders in full.
func readSettings(s *storage.Settings, req *desk.Request) error {
	var faults []error
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"zone", func(v string) (err error) {
			s.Zone, err = desk.FindZone(v)
			req.Options["zone"] = s.Zone
			return err
		}},
		{"taper", func(v string) error { return desk.ReadTaperLength(&s.Taper, v) }},
		{"cut", func(v string) (err error) {
			s.Taper.Cut, err = readCut(v)
			return err
		}},
		{"pattern", func(v string) error { s.Taper.Pattern = pick(v, choicePattern, planner.UsualDays); return nil }},
		{"openers", func(v string) error { s.Taper.OpenersD2 = v == "D-2"; return nil }},
		{"announce", func(v string) error { s.Announce = v == "on"; return nil }},
		{"remind", func(v string) (err error) {
			err = remind.ReadRemind(&s.Remind, v)
			req.Options["remind"] = remind.RemindText(s.Remind)
			return err
		}},
		{"remind-by", func(v string) error {
			s.Remind.By = pick(v, choiceRemindBy, storage.RemindDirect)
			return remind.HasPlace(req, s.Remind.By)
		}},
		{"pause", func(v string) error { return remind.ReadPause(req, s, v) }},
	} {
		if !req.Has(step.option) {
			continue
		}
		faults = append(faults, say.InField(step.option, step.read(req.Get(step.option))))
	}
	if err := say.Together(faults...); err != nil {
		return err
	}
	if req.Has("remind") || req.Has("pause") {
		s.Remind.Since = req.Now // what is past already is not sent
	}
	return nil
}

// readCut reads what a taper removes, in per cent; auto is 0.
func readCut(v string) (int, error) {
	if strings.EqualFold(v, desk.AutoTaper) {
		return 0, nil
	}
	return desk.WholeNumber(v, planner.MinCut, planner.MaxCut, "50, or auto")
}

// pick is the value with that place among the choices, counted from first.
func pick[T ~uint8](value string, choices []string, first T) T {
	for i, c := range choices {
		if c == value {
			return first + T(i)
		}
	}
	return first
}
