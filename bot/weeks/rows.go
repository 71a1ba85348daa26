// Package weeks has the commands about the usual week, and its form.
package weeks

import (
	"musette/bot/command"
	"musette/bot/desk"
)

// Commands are the rows about the usual week.
func Commands() []command.Command {
	return []command.Command{
		{Name: "week share", Task: command.TaskWeek, Run: weekShare, Writes: true, Form: "week", Options: ShareOptions(),
			Description: "Share your typical week, from which every plan is made",
			Example:     `week share week:"` + desk.ExampleWeek + `"`},
		{Name: "week show", Task: command.TaskWeek, Run: weekShow,
			Description: "Show the typical week that your plans are made from",
			Example:     "week show"},
	}
}

// ShareOptions are the options that share a week.
func ShareOptions() []command.Option {
	return []command.Option{
		{Name: "week", Type: command.TypeWeek, Required: true, MaxLen: command.MaxWeekText,
			Description: "Your typical week, days separated by semicolons. Days left out are rest, busy days are never ridden",
			Example:     desk.ExampleWeek},
		{Name: "from", Type: "day", Complete: command.CompleteDay, Example: "1 June",
			Description: "The first day of this week. Leave out for today"}}
}
