package bot

import "musette/planner"

// Tasks under which /help lists the commands, in this order.
const (
	taskRaces = "Races"
	taskWeek  = "Your usual week"
	taskPlan  = "Your plan"
	taskLife  = "When life happens"
	taskClub  = "Your club"
	taskCoach = "For coaches"
	taskMe    = "Settings and help"
)

// enlist makes sentences recognise the commands of a table.
func enlist(table []Command) []Command {
	for i := range table {
		Know(table[i].Name, table[i].OptionNames())
	}
	return table
}

// maxWeekText is how long a typed week may be, in characters: as typed.Week has it.
const maxWeekText = 7*(planner.MaxText+6) + 100

// raceOption is a race of the rider.
func raceOption() Option {
	return Option{Name: "race", Type: "race", Description: "Which race: its name, part of it, or its date",
		Complete: CompleteRace, MaxLen: planner.MaxText + len(" 2006-01-02"), Example: "Hill Loop"}
}

// raceOverOption is a race that has begun.
func raceOverOption() Option {
	o := raceOption()
	o.Complete, o.Required = CompleteRaceOver, true
	return o
}

// exampleWeek is a right typical week, for hints.
const exampleWeek = "mon recovery 40min; tue intervals 1h30 5x3min; thu off; sat long 3h"

// dayOption is a day to come.
func dayOption() Option {
	return Option{Name: "day", Type: "day", Required: true, Complete: CompleteDay, Example: "tomorrow",
		Description: "Which day: today, tomorrow, friday, 13 June, 2026-06-13"}
}

// anyDayOption is a day to come or one that is over, today where it is left out.
func anyDayOption() Option {
	o := dayOption()
	o.Required, o.Description = false, "Which day: today, tomorrow, friday, 13 June, yesterday, 2026-06-13"
	return o
}

// dayOverOption is today or a day before it.
func dayOverOption() Option {
	return Option{Name: "day", Type: "day", Complete: CompleteDayOver, Example: "yesterday",
		Description: "Which day: today where left out, yesterday, monday, 30 May, 2026-05-30"}
}

// noteOption is a text that is kept with an entry.
func noteOption(example string) Option {
	return Option{Name: "note", Type: "text", Example: example, Description: "Anything that you want to remember"}
}
