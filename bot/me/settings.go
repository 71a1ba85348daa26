package me

import (
	"cmp"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// setting is what one sentence tells, and the options of /me set that change it.
type setting struct {
	options  []string
	sentence func(who *desk.Rider, s *storage.Settings) say.Line
}

// sentences are all settings, in the order of /me set.
var sentences = []setting{
	{[]string{"zone"}, zoneText}, {[]string{"taper"}, taperText}, {[]string{"cut"}, cutText}, {[]string{"pattern"}, patternText},
	{[]string{"openers"}, openersText}, {[]string{"announce"}, announceText}, {[]string{"remind", "remind-by", "pause"}, remindersText},
}

// settingsText is a sentence a setting; of some options alone where only is given.
func settingsText(who *desk.Rider, s *storage.Settings, only func(option string) bool) []say.Line {
	var lines []say.Line
	for _, one := range sentences {
		wanted := only == nil
		for _, option := range one.options {
			wanted = wanted || only(option)
		}
		if wanted {
			lines = append(lines, one.sentence(who, s))
		}
	}
	return lines
}

func zoneText(who *desk.Rider, s *storage.Settings) say.Line {
	zone := cmp.Or(s.Zone, who.Zone.String()) // a terminal can be asked for one before a rider is stored
	if s.Zone == "" && zone == who.Club.Zone {
		return say.Linef("Your days begin by the time of %s, as set for the club.", zone)
	}
	return say.Linef("Your days begin by the time of %s.", zone)
}

func taperText(_ *desk.Rider, s *storage.Settings) say.Line {
	if s.Taper.Usual {
		return say.Linef("The taper for an A race has the usual length for your hours, whatever your races say.")
	}
	if s.Taper.Days == 0 {
		return say.Linef("I work out how many days the taper for an A race takes.")
	}
	return say.Linef("The taper for an A race takes %s.", show.Count(s.Taper.Days, "day"))
}

func cutText(_ *desk.Rider, s *storage.Settings) say.Line {
	if s.Taper.Cut == 0 {
		return say.Linef("I work out from your weekly hours how much less you ride in a taper.")
	}
	return say.Linef("In a taper you ride %d %% less than usual.", s.Taper.Cut)
}

func patternText(_ *desk.Rider, s *storage.Settings) say.Line {
	if s.Taper.Pattern == planner.UsualDays {
		return say.Linef("The hard sessions of a taper stay on the weekdays of your usual week.")
	}
	return say.Linef("The hard sessions of a taper come every %s day.", s.Taper.Pattern)
}

func openersText(_ *desk.Rider, s *storage.Settings) say.Line {
	if s.Taper.OpenersD2 {
		return say.Linef("Openers, a short ride with a few fast efforts, come two days before the race. The day before it is rest.")
	}
	return say.Linef("Openers, a short ride with a few fast efforts, come on the day before the race.")
}

func announceText(_ *desk.Rider, s *storage.Settings) say.Line {
	if s.Announce {
		return say.Linef("I tell the club's channel when you add a race.")
	}
	return say.Linef("I do not tell the club's channel when you add a race.")
}

func remindersText(who *desk.Rider, s *storage.Settings) say.Line {
	r := &s.Remind
	if r.Mode == storage.RemindOff {
		return say.Linef("I send you no reminders.")
	}
	if r.By == storage.RemindRide {
		return say.Linef("I send you no reminders, because you ask yourself: /ride")
	}
	way := map[storage.RemindBy]string{storage.RemindDirect: "by direct message", storage.RemindThread: "in a private thread of the club"}[r.By]
	what := map[storage.Remind]string{storage.RemindChanged: "of days that differ from your usual week", storage.RemindAlways: "of every day"}[r.Mode]
	line := say.Linef("Near a race I remind you at %s %s, %s.", r.At, what, way)
	if r.Pause >= who.Today {
		line = say.Joined([]say.Line{line, say.Linef("You get none until %s.", show.Dated(r.Pause, who.Today))}, " ")
	}
	return line
}
