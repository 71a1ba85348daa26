// Package races has the commands about races and their results.
package races

import (
	"fmt"
	"slices"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
)

// Commands are the rows about races.
func Commands() []command.Command {
	needRace := command.RaceOption()
	needRace.Required = true
	details := raceDetails()
	add := append(AddOptions(), seriesOptions()...)
	priority := details[2]
	priority.Required = true
	return []command.Command{
		{Name: "race add", Task: command.TaskRaces, Run: raceAdd, Read: Read, Writes: true, Options: add,
			Description: "Register a race. The answer has your taper dates and conflicts",
			Example:     `race add name:"Hill Loop" date:"13 June" priority:A hours:3h30`},
		{Name: "race list", Task: command.TaskRaces, Run: raceList, Public: true,
			Description: "The club's race calendar",
			Example:     "race list"},
		{Name: "race join", Task: command.TaskRaces, Run: raceJoin, Writes: true, Anybody: true, Options: []command.Option{
			{Name: "race", Type: "race", Required: true, Complete: command.CompleteRaceJoin, MaxLen: needRace.MaxLen, Example: "Hill Loop",
				Description: "Which race of another rider: its name, part of it, or its date"},
			details[2]},
			Description: "Ride a race that another rider of the club has registered",
			Example:     `race join race:"Hill Loop" priority:B`},
		{Name: "race change", Task: command.TaskRaces, Run: raceChange, Read: Read, Writes: true, Options: append(append([]command.Option{needRace}, clearable(details)...), statusOption()),
			Description: "Change the details of a race",
			Example:     `race change race:"Hill Loop" start:10:30`},
		{Name: "race priority", Task: command.TaskRaces, Run: racePriority, Writes: true, Options: []command.Option{needRace, priority},
			Description: "Make a race an A, B or C race",
			Example:     `race priority race:"Hill Loop" priority:B`},
		{Name: "race remove", Task: command.TaskRaces, Run: raceRemove, Writes: true, Options: []command.Option{needRace,
			{Name: "until", Type: "day", Complete: command.CompleteDay, Example: "22 July",
				Description: "For a weekly race: take out all of that name up to this day"}},
			Description: "Take a race out of the calendar",
			Example:     `race remove race:"Hill Loop"`},
		{Name: "race result", Task: command.TaskRaces, Run: raceResult, Writes: true, Options: []command.Option{command.RaceOverOption(),
			{Name: "feeling", Type: "number", Example: "8",
				Description: "How your legs were: 1 (empty) to 10 (never better). none alone deletes the entry"},
			{Name: "result", Type: "text", Example: "12th", Description: "Placing or time, as you like to write it. Your coaches see it"},
			command.NoteOption("windy, good legs at the end"),
			{Name: "outcome", Type: "choice", Choices: choiceOutcome, Also: alsoOutcome, Example: "finished",
				Description: "Finished, gave up (a stage race ends there), or not started. none takes it back"},
			{Name: "compared", Type: "choice", Choices: choiceCompared, Also: alsoCompared, Example: "same",
				Description: "Compared with what you expected: worse, same or better. none takes it back"},
			{Name: "day", Type: "day", Complete: command.CompleteDayOver, Example: "yesterday",
				Description: "With gave-up in a stage race: the day on which you stopped. Leave out for today"}},
			Description: "How a race went: your legs, the result, whether you finished. You can add parts later",
			Example:     `race result race:"Hill Loop" feeling:8 result:12th`},
		morningRow(),
	}
}

// weekly is the only way in which a race repeats.
const weekly = "weekly"

// seriesOptions make a race of each week.
func seriesOptions() []command.Option {
	return []command.Option{
		{Name: "repeat", Type: "choice", Choices: []string{weekly}, Example: weekly, Description: "Weekly: the same race each week, until a day"},
		{Name: "until", Type: "day", Complete: command.CompleteDay, Example: "22 July", Description: "With repeat: the last day of the series"},
	}
}

// Words of what happens to a race.
const (
	statusCancelled = "cancelled"
	statusPostponed = "postponed"
	statusPlanned   = "planned"
)

func statusOption() command.Option {
	return command.Option{Name: "status", Type: "choice", Choices: []string{statusCancelled, statusPostponed, statusPlanned}, Example: statusCancelled,
		Description: "Cancelled, postponed (with its new date), or planned: it takes place after all"}
}

var (
	choiceOutcome  = []string{"finished", "gave-up", "not-started", say.None}
	choiceCompared = []string{"worse", "same", "better", say.None}
	choicePriority = []string{"A", "B", "C"}
	choiceEmphasis = []string{"important", "train-through"}
)

// What riders write for an outcome or a comparison. Who pulled out of a race had begun it.
var (
	alsoOutcome = map[string][]string{
		"finished": {"finish", "did finish", "completed", "completed it", "done", "made it", "finisher"},
		"gave-up": {"dnf", "did not finish", "didnt finish", "not finished", "didnt complete", "did not complete", "give up", "given up", "pulled out", "dropped out", "drop out",
			"abandoned", "abandon", "stopped", "retired", "quit", "withdrew", "had to stop", "stepped off", "climbed off"},
		"not-started": {"dns", "did not start", "didnt start", "not start", "never started", "no start", "no show", "did not race", "didnt race", "did not ride", "didnt ride", "did not ride it", "didnt ride it",
			"did not go", "didnt go", "skipped", "skipped it", "missed", "missed it", "stayed home", "stayed at home"},
	}
	alsoCompared = map[string][]string{
		"worse":  {"worse than expected", "worse than i expected", "worse than that", "slower", "slower than expected"},
		"same":   {"the same", "as expected", "as i expected", "same as expected", "like expected", "about the same", "equal"},
		"better": {"better than expected", "better than i expected", "better than that", "faster", "faster than expected"},
	}
)

// AddOptions are the options that register a race.
func AddOptions() []command.Option {
	add := raceDetails()
	for i := range add[:3] {
		add[i].Required = true
	}
	return add
}

// raceDetails are the options that describe a race, none of them required.
func raceDetails() []command.Option {
	return []command.Option{
		{Name: "name", Type: "text", Unheard: true, Example: "Hill Loop", Description: "The race's name"},
		{Name: "date", Type: "day", Complete: command.CompleteDay, Example: "13 June",
			Description: "Race day, or the first day of a stage race: 2026-06-13, 13 June"},
		{Name: "priority", Type: "choice", Choices: choicePriority, Example: "A",
			Description: "A: taper for it, B: a few easier days, C: ridden as training"},
		{Name: "hours", Type: "hours", Example: "3h30",
			Description: "How long it takes you, per day: 3.5, 3h30, 210min. Over a day: 30h"},
		{Name: "kind", Type: "text", Unheard: true, Example: "road race",
			Description: "Road race, criterium, time trial, gravel, stage race, endurance"},
		{Name: "start", Type: "time", Example: "10:30", Description: "Start time, 24 hours: 10:30"},
		{Name: "days", Type: "number", Example: "3", Description: fmt.Sprintf("Race days of a stage race, 1 to %d", planner.MaxRaceDays)},
		{Name: "end", Type: "day", Complete: command.CompleteDay, Example: "15 June", Description: "The last day of a stage race, instead of days"},
		{Name: "emphasis", Type: "choice", Choices: choiceEmphasis, Example: "important",
			Description: "For a B race: important eases more days before it, train-through fewer"},
		{Name: "place", Type: "text", Unheard: true, Example: "Market Square", Description: "Where it starts"},
		{Name: desk.OptionTaper, Type: "number", Example: "10",
			Description: fmt.Sprintf("Days of the taper for this race, %d to %d, or auto", planner.MinTaperDays, planner.MaxTaperDays)},
	}
}

// clearable says of the details that can be left out how to forget them.
func clearable(details []command.Option) []command.Option {
	out := slices.Clone(details)
	for i := range out {
		switch o := &out[i]; o.Name {
		case "hours", "kind", "start", "place":
			o.Description += ". none deletes it"
		case "days", "end":
			o.Description += ". none means one day"
		case "emphasis":
			o.Choices = append(slices.Clone(o.Choices), say.None)
			o.Description = "For a B race: important eases more days before it, train-through fewer. none: as usual for a B race"
		}
	}
	return out
}
