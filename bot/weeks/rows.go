// Package weeks has the commands about the usual week, and its form.
package weeks

import (
	"musette/bot/command"
	"musette/bot/desk"
)

// Commands are the rows about the usual week.
func Commands() []command.Command {
	from := command.Option{Name: "from", Type: "day", Complete: command.CompleteDay, Example: "1 June",
		Description: "The first day of this week. Leave out for today"}
	until := from
	until.Required, until.Description = true, "The day from which that week would hold"
	return []command.Command{
		{Name: "week share", Task: command.TaskWeek, Run: weekShare, Writes: true, Form: "week", Options: ShareOptions(),
			Description: "Share your typical week, from which every plan is made",
			Example:     `week share week:"` + desk.ExampleWeek + `"`},
		{Name: "week show", Task: command.TaskWeek, Run: weekShow,
			Description: "Show the typical week that your plans are made from",
			Example:     "week show"},
		{Name: "week change", Task: command.TaskWeek, Run: weekChange, Writes: true, Options: []command.Option{
			{Name: "day", Type: "weekday", Required: true, Example: "tue",
				Description: "Which weekday: tue, or several: tue+thu, mon-fri, weekend"},
			{Name: "session", Type: "sessions", Required: true, Example: "endurance 1h15",
				Description: "What you usually do then: intervals 1h 4x4min, rest, busy, or two: recovery 40min; strength 30min"},
			from},
			Description: "Change one day of your typical week, the others stay",
			Example:     `week change day:tue session:"endurance 1h15"`},
		{Name: "week withdraw", Task: command.TaskWeek, Run: weekWithdraw, Writes: true, Options: []command.Option{until},
			Description: "Take back a typical week that you shared for later",
			Example:     `week withdraw from:"1 June"`},
	}
}

// ShareOptions are the options that share a week.
func ShareOptions() []command.Option {
	return []command.Option{
		{Name: "week", Type: command.TypeWeek, Required: true, MaxLen: command.MaxWeekText,
			Description: "Your typical week, days separated by semicolons. Days left out are rest, busy days are never ridden",
			Example:     desk.ExampleWeek},
		{Name: "from", Type: "day", Complete: command.CompleteDay, Example: "1 June",
			Description: "The first day of this week. Leave out for today"},
		{Name: "second", Type: command.TypeWeek, MaxLen: command.MaxWeekText,
			Description: "The other of two weeks in turn, if you have two (shift work). Written in the same way",
			Example:     desk.ExampleWeek}}
}
