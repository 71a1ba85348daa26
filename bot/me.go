package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/storage"
)

func (b *Base) meShow(ctx context.Context, req Request) (Reply, error) {
	told, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	facts, today := told.now, req.rider.today
	var p page
	p.addf("%s of %s. Your day is %s, zone %s.", req.rider.athlete.Name, req.rider.club.Name, today.Long(), req.rider.zone)
	p.add(settingsText(req.rider.athlete.Settings, today)...)
	if planned(facts) {
		p.addf("Usual week: %s. /week show", weekSum(&weekOn(facts, today).Week))
	} else {
		p.addf("Usual week: not shared yet. For example")
		p.addf("/week share week:%s", Quote(exampleWeek))
	}
	ahead := 0
	for i := range facts.Races {
		if facts.Races[i].Last() >= today {
			ahead++
		}
	}
	p.addf("Races to come: %d. /race list", ahead)
	if facts := toldFacts(facts, today); len(facts) > 0 {
		p.heading("What you entered:")
		p.add(facts...)
	}
	p.addf("Change settings: /me set taper:10 cut:auto")
	return Reply{Lines: p.done(), Date: today}, nil
}

// weekOn is the typical week that holds on a day.
func weekOn(f *planner.Facts, day planner.Date) *planner.DatedWeek {
	now := 0
	for i, w := range f.Weeks {
		if w.From <= day {
			now = i
		}
	}
	return &f.Weeks[now]
}

// settingsText is one line a setting, in the order of /me set.
func settingsText(s storage.Settings, today planner.Date) []Line {
	values := map[string]string{
		"zone": "the club's", "taper": autoTaper, "cut": autoTaper, "announce": "off",
		"remind": remindText(s.Remind), "remind-by": s.Remind.By.String(), "pause": "0",
		"pattern": patternText(s.Taper.Pattern), "openers": "D-1"}
	if s.Zone != "" {
		values["zone"] = s.Zone
	}
	if s.Taper.Days != 0 {
		values["taper"] = count(s.Taper.Days, "day")
	}
	if s.Taper.Cut != 0 {
		values["cut"] = fmt.Sprintf("%d %%", s.Taper.Cut)
	}
	if s.Taper.OpenersD2 {
		values["openers"] = "D-2"
	}
	if s.Announce {
		values["announce"] = "on"
	}
	if s.Remind.Pause >= today {
		values["pause"] = "to " + dated(s.Remind.Pause, today)
	}
	var lines []Line
	for _, o := range settings() {
		lines = append(lines, Say("  %s: %s", o.Name, values[o.Name]))
	}
	return lines
}

// patternText is the setting of hard days in words.
func patternText(p planner.Pattern) string {
	if p == planner.UsualDays {
		return "your usual hard days"
	}
	return "hard days every " + p.String() + " day"
}

// toldFacts are absences, limits, blocks and swaps that are not over yet.
func toldFacts(f *planner.Facts, today planner.Date) []Line {
	var lines []Line
	for _, a := range f.Absences {
		if a.To >= today {
			lines = append(lines, Say("  %s: %s", span(a.From, a.To, today), awayWord(a.Travel)))
		}
	}
	for _, l := range f.Limits {
		if l.Date >= today {
			lines = append(lines, Say("  %s: at most %s", dated(l.Date, today), planner.Duration(l.Minutes)))
		}
	}
	for _, k := range f.Blocks {
		if k.To >= today {
			lines = append(lines, Say("  %s: block, %d %% more", span(k.From, k.To, today), k.Percent))
		}
	}
	for _, m := range f.Moves {
		if max(m.From, m.To) >= today {
			lines = append(lines, Say("  %s and %s: swapped", dated(m.From, today), dated(m.To, today)))
		}
	}
	return lines
}

func (b *Base) meSet(ctx context.Context, req Request) (Reply, error) {
	if len(req.Options) == 0 {
		return Reply{}, refuse("taper", "nothing to set. For example /me set taper:10 cut:50")
	}
	wanted := req.rider.athlete.Settings
	if err := readSettings(&wanted, &req); err != nil {
		return Reply{}, err
	}
	var athlete storage.Athlete
	e, err := b.change(ctx, req, func() (err error) {
		athlete, err = b.db.UpdateSettings(ctx, req.rider.athlete.ID, req.rider.today, func(s *storage.Settings) error { return readSettings(s, &req) })
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	var set []string
	for _, o := range settings() {
		if req.has(o.Name) {
			set = append(set, o.Name+" "+req.get(o.Name))
		}
	}
	p.addf("Set: %s.", strings.Join(set, ", "))
	if planned(e.facts) && req.setsTaper() {
		p.add(e.news()...)
	}
	if cut := athlete.Settings.Taper.Cut; req.has("cut") && cut != 0 && (cut < 40 || cut > 60) && len(e.newWarnings()) == 0 {
		p.addf("! Studies found cuts of 40 to 60 per cent best. Yours is outside.")
	}
	reply := Reply{Date: req.rider.today}
	if req.setsReminders() {
		lines, buttons, err := b.nextReminder(ctx, &req, &athlete, e)
		if err != nil {
			return Reply{}, err
		}
		p.add(lines...)
		reply.Buttons = buttons
	}
	p.addf("All settings: /me show")
	reply.Lines = p.done()
	return reply, nil
}

// setsTaper reports whether an option changes how plans are made.
func (r *Request) setsTaper() bool {
	for _, o := range []string{"taper", "cut", "pattern", "openers"} {
		if r.has(o) {
			return true
		}
	}
	return false
}

// readSettings lays the options over settings. It spells zone and reminders in full.
func readSettings(s *storage.Settings, req *Request) error {
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"zone", func(v string) (err error) {
			s.Zone, err = FindZone(v)
			req.Options["zone"] = s.Zone
			return err
		}},
		{"taper", func(v string) (err error) {
			s.Taper.Days, err = readTaperDays(v)
			return err
		}},
		{"cut", func(v string) (err error) {
			s.Taper.Cut, err = readCut(v)
			return err
		}},
		{"pattern", func(v string) error { s.Taper.Pattern = pick(v, choicePattern, planner.UsualDays); return nil }},
		{"openers", func(v string) error { s.Taper.OpenersD2 = v == "D-2"; return nil }},
		{"announce", func(v string) error { s.Announce = v == "on"; return nil }},
		{"remind", func(v string) (err error) {
			err = readRemind(&s.Remind, v)
			req.Options["remind"] = remindText(s.Remind)
			return err
		}},
		{"remind-by", func(v string) error {
			s.Remind.By = pick(v, choiceRemindBy, storage.RemindDirect)
			return req.hasPlace(s.Remind.By)
		}},
		{"pause", func(v string) error { return req.readPause(s, v) }},
	} {
		if !req.has(step.option) {
			continue
		}
		if err := step.read(req.get(step.option)); err != nil {
			return inField(step.option, err)
		}
	}
	if req.has("remind") || req.has("pause") {
		s.Remind.Since = req.Now // what is past already is not sent
	}
	return nil
}

// readTaperDays reads a length of tapers; auto is 0.
func readTaperDays(v string) (int, error) {
	if strings.EqualFold(v, autoTaper) {
		return 0, nil
	}
	return wholeNumber(v, planner.MinTaperDays, planner.MaxTaperDays, "10, or auto")
}

// readCut reads what a taper removes, in per cent; auto is 0.
func readCut(v string) (int, error) {
	if strings.EqualFold(v, autoTaper) {
		return 0, nil
	}
	return wholeNumber(v, planner.MinCut, planner.MaxCut, "50, or auto")
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
