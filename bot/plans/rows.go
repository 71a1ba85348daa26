// Package plans has the commands that show, explain, compare and rearrange plans.
package plans

import (
	"fmt"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/planner"
)

// Commands are the rows about plans and seasons.
func Commands() []command.Command {
	return []command.Command{
		{Name: "plan show", Task: command.TaskPlan, Run: planShow, Options: []command.Option{command.RaceOption(),
			{Name: "days", Type: "choice", Choices: choiceDays, Example: daysAll,
				Description: "week is the first seven days, all is the whole plan with its reasons"}},
			Description: "Your schedule up to a race and the days after it",
			Example:     `plan show race:"Hill Loop"`},
		{Name: "plan why", Task: command.TaskPlan, Run: planWhy, Options: []command.Option{command.AnyDayOption()},
			Description: "Why a day is planned the way it is, with sources",
			Example:     "plan why day:friday"},
		{Name: "plan move", Task: command.TaskPlan, Run: planMove, Writes: true, Options: []command.Option{
			{Name: "from", Type: "day", Required: true, Complete: command.CompleteDay, Example: "tuesday",
				Description: "The day whose session you want to ride on another day"},
			{Name: "to", Type: "day", Required: true, Complete: command.CompleteDay, Example: "wednesday",
				Description: "The day that it swaps with"}},
			Description: "Swap two planned days, if the rules allow it",
			Example:     "plan move from:tuesday to:wednesday"},
		{Name: "plan options", Task: command.TaskPlan, Run: planOptions, Options: []command.Option{command.RaceOption()},
			Description: "Taper lengths and cuts compared: what each brings and costs, with a picture",
			Example:     `plan options race:"Hill Loop"`},
		{Name: "plan calendar", Task: command.TaskPlan, Run: planCalendar, Options: []command.Option{command.RaceOption()},
			Description: "A file for your calendar: your races and their training days, of one race or all",
			Example:     `plan calendar race:"Hill Loop"`},
		{Name: "season check", Task: command.TaskPlan, Run: seasonCheck, Options: []command.Option{
			{Name: optionNumbers, Type: "choice", Choices: []string{"few", numbersAll}, Example: numbersAll,
				Description: "few is the verdict, all has the figures behind it with their ranges"}},
			Description: "The one change to your races that is worth it, or that none is, with a picture",
			Example:     "season check"},
		{Name: "season apply", Task: command.TaskPlan, Run: seasonApply, Writes: true, Options: seasonOptions(),
			Description: "Make A races B races or back, and set the taper length, all at once",
			Example:     `season apply make-b:"Hill Loop 2026-06-14" taper:auto`},
		{Name: "taper history", Task: command.TaskPlan, Run: taperHistory, Options: []command.Option{
			{Name: optionTry, Type: "choice", Choices: []string{tryNo}, Example: tryNo,
				Description: "no leaves the next taper as it is planned"}},
			Description: "What your tapers have taught, how surely, and what to try next",
			Example:     "taper history"},
		{Name: "ride", Task: command.TaskPlan, Run: ride, Options: []command.Option{command.AnyDayOption()},
			Description: "What to ride today or on another day, or what was ridden",
			Example:     "ride day:tomorrow"},
	}
}

var choiceDays = []string{"week", daysAll}

// seasonOptions are those of /season apply.
func seasonOptions() []command.Option {
	return []command.Option{
		{Name: optionMakeB, Type: "races", Complete: command.CompleteRaces, MaxLen: maxRacesText, Example: "Hill Loop 2026-06-14; Quarry Crit",
			Description: "A races that become B races, separated by semicolons: name, or name and date"},
		{Name: optionBackToA, Type: "races", Complete: command.CompleteRaces, MaxLen: maxRacesText, Example: "Hill Loop 2026-06-14",
			Description: "B races to make A races again, separated by semicolons. They keep their first day of entry"},
		{Name: desk.OptionTaper, Type: "number", Example: "10",
			Description: fmt.Sprintf("Days of a taper for A races, %d to %d, auto or usual", planner.MinTaperDays, planner.MaxTaperDays)},
	}
}
