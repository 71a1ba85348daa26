package command

import "musette/planner"

// Tasks under which /help lists the commands, in this order.
const (
	TaskRaces = "Races"
	TaskWeek  = "Your usual week"
	TaskPlan  = "Your plan"
	TaskLife  = "When life happens"
	TaskClub  = "Your club"
	TaskCoach = "For coaches"
	TaskMe    = "Settings and help"
)

// MaxWeekText is how long a typed week may be, in characters: as typed.Week has it.
const MaxWeekText = 7*(planner.MaxText+6) + 100

// RaceOption is a race of the rider.
func RaceOption() Option {
	return Option{Name: "race", Type: "race", Description: "Which race: its name, part of it, or its date",
		Complete: CompleteRace, MaxLen: planner.MaxText + len(" 2006-01-02"), Example: "Hill Loop"}
}

// RaceOverOption is a race that has begun.
func RaceOverOption() Option {
	o := RaceOption()
	o.Complete, o.Required = CompleteRaceOver, true
	return o
}

// DayOption is a day to come.
func DayOption() Option {
	return Option{Name: "day", Type: "day", Required: true, Complete: CompleteDay, Example: "tomorrow",
		Description: "Which day: today, tomorrow, friday, 13 June, 2026-06-13"}
}

// AnyDayOption is a day to come or one that is over, today where it is left out.
func AnyDayOption() Option {
	o := DayOption()
	o.Required, o.Description = false, "Which day: today, tomorrow, friday, 13 June, yesterday, 2026-06-13"
	return o
}

// DayOverOption is today or a day before it.
func DayOverOption() Option {
	return Option{Name: "day", Type: "day", Complete: CompleteDayOver, Example: "yesterday",
		Description: "Which day, today if you leave it out: yesterday, monday, 30 May, 2026-05-30"}
}

// NoteOption is a text that is kept with an entry.
func NoteOption(example string) Option {
	return Option{Name: "note", Type: "text", Example: example, Description: "Anything that you want to remember"}
}
