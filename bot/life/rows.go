// Package life has the commands with which riders tell what happens: rides, days
// off, absences, limits, blocks.
package life

import (
	"fmt"

	"musette/bot/command"
	"musette/bot/show"
	"musette/planner"
)

// Commands are the rows about what happens.
func Commands() []command.Command {
	return []command.Command{
		{Name: "done", Task: command.TaskLife, Run: done, Writes: true, Options: []command.Option{
			{Name: "minutes", Type: "minutes", Example: "55",
				Description: "Minutes, e.g. 55 or 1h30. Leave out if you rode as planned. none deletes the last entry"},
			{Name: "rpe", Type: "rating", Example: "7.5",
				Description: "How hard it was as a whole: 1 (very easy) to 10 (all that you have), halves too"},
			command.DayOverOption(), command.NoteOption("legs came good late"),
			{Name: "entry", Type: "number", Example: "1",
				Description: "Which ride of the day this corrects: 1 is the first. Leave out to add a ride"}},
			Description: "You rode: how long, and how hard it felt. Rides of a day add up",
			Example:     "done minutes:55 rpe:8 day:yesterday"},
		{Name: "tell missed", Task: command.TaskLife, Run: tellMissed, Writes: true, Options: []command.Option{
			command.DayOverOption(), command.NoteOption("stuck at work")},
			Description: "You did not ride on a day, and what to do about it",
			Example:     "tell missed day:yesterday"},
		{Name: "tell tired", Task: command.TaskLife, Run: tellTired, Writes: true, Options: []command.Option{command.DayOverOption(),
			{Name: "legs", Type: "choice", Choices: []string{legsHeavy, legsFine, legsEased}, Example: legsFine,
				Description: "heavy if left out. fine takes it back, easier takes the easier form of the day"},
			{Name: "minutes", Type: "minutes", Example: "30", Description: fmt.Sprintf("With legs:easier: how long at most. Leave out for half of it, or %d for a hard day", easierHard)}},
			Description: "Heavy legs: the easier form of the day, with what it costs",
			Example:     "tell tired day:today"},
		{Name: "tell sick", Task: command.TaskLife, Run: tellSick, Writes: true, Options: []command.Option{
			{Name: "symptoms", Type: "text", Handled: true, Complete: command.CompleteOffers, Offers: offeredSymptoms, Example: "fever",
				Description: "What you have: fever, cough, head cold... none takes it back. Only you see it"},
			sinceOption()},
			Description: "You are ill: no training until you are well, and the plan follows",
			Example:     "tell sick symptoms:fever since:yesterday"},
		{Name: "tell injured", Task: command.TaskLife, Run: tellInjured, Writes: true, Options: []command.Option{
			{Name: "what", Type: "text", Handled: true, Complete: command.CompleteOffers, Offers: offeredInjuries, Example: "knee",
				Description: "What hurts: knee, lower back, broken bone... none takes it back. Only you see it"},
			sinceOption()},
			Description: "You are injured: no training until it is over, and the plan follows",
			Example:     "tell injured what:knee since:yesterday"},
		{Name: "tell well", Task: command.TaskLife, Run: tellWell, Writes: true, Options: []command.Option{
			command.DayOverOption(),
			{Name: "cleared", Type: "choice", Choices: choiceCleared, Example: show.ClearedYes,
				Description: "After a stop: yes (a doctor has cleared you), not-yet (still so), not-that (you misread me)"},
			{Name: "of", Type: "choice", Choices: choiceOf, Example: "illness",
				Description: "Which one, if several are open: illness, injury, or a stop: emergency, head, doctor, both"}},
			Description: "You are well again, and what comes first",
			Example:     "tell well day:yesterday"},
		{Name: "tell away", Task: command.TaskLife, Run: tellAway, Writes: true, Options: []command.Option{
			{Name: "from", Type: "day", Required: true, Complete: command.CompleteDay, Example: "4 June",
				Description: "The first day away"},
			{Name: "to", Type: "day", Complete: command.CompleteDay, Example: "6 June",
				Description: "The last day away. Leave out for a single day"},
			{Name: "kind", Type: "choice", Choices: choiceAway, Example: "travel",
				Description: "off (no training), travel (no rides unless you set a limit), none (not away after all)"}},
			Description: "You are away: off or travelling",
			Example:     "tell away from:\"4 June\" to:\"6 June\" kind:travel"},
		{Name: "tell limit", Task: command.TaskLife, Run: tellLimit, Writes: true, Options: []command.Option{command.DayOption(),
			{Name: "minutes", Type: "minutes", Required: true, Example: "45",
				Description: "The most that fits that day: 45, 1h30. 0 is a day off, none lifts the limit"}},
			Description: "A day on which time is short",
			Example:     "tell limit day:friday minutes:45"},
		{Name: "tell block", Task: command.TaskLife, Run: tellBlock, Writes: true, Options: []command.Option{
			{Name: "from", Type: "day", Required: true, Complete: command.CompleteDay, Example: "18 May",
				Description: "The first day of the block"},
			{Name: "to", Type: "day", Required: true, Complete: command.CompleteDay, Example: "31 May",
				Description: "The last day of the block"},
			{Name: "percent", Type: "number", Example: "20",
				Description: "Per cent more than usual, 1 to 100. Leave out for 20, none takes the block back"}},
			Description: "A training block with more minutes than usual",
			Example:     "tell block from:\"18 May\" to:\"31 May\" percent:20"},
	}
}

// sinceOption is the first day of an illness or injury.
func sinceOption() command.Option {
	o := command.DayOverOption()
	o.Name, o.Description = "since", "The first day of it, today if you leave it out: yesterday, monday, 30 May, 2026-05-30"
	return o
}

var (
	choiceCleared = []string{show.ClearedYes, show.ClearedNot, show.ClearedWasNot}
	choiceOf      = []string{illness.noun, injury.noun, planner.LevelEmergency.String(), planner.LevelHead.String(), planner.LevelDoctor.String(), show.BothStops}
)

var choiceAway = []string{"off", "travel", "none"}
