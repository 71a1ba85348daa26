// Package me has the commands about the rider's own settings, and the help.
package me

import (
	"fmt"

	"musette/bot/command"
	"musette/planner"
)

// Commands are the rows about the rider's own settings.
func Commands() []command.Command {
	return []command.Command{
		{Name: "me show", Task: command.TaskMe, Run: meShow, Clubs: true,
			Description: "Your settings and what you entered",
			Example:     "me show"},
		{Name: "me set", Task: command.TaskMe, Run: meSet, Writes: true, Options: settings(),
			Description: "Change your settings",
			Example:     "me set zone:Europe/Lisbon taper:10"},
		{Name: "me export", Task: command.TaskMe, Run: meExport, Anywhere: true,
			Description: "All that is stored of you in all your clubs, as a file for you alone",
			Example:     "me export"},
		{Name: "me erase", Task: command.TaskMe, Run: meErase, Writes: true, Anywhere: true, Options: []command.Option{
			{Name: confirm, Type: "choice", Choices: []string{everything}, Example: everything,
				Description: "The answer without it says what goes and what stays. With everything it goes"}},
			Description: "Erase all that is stored of you in all your clubs. You are asked first",
			Example:     "me erase"},
	}
}

var (
	choicePattern  = []string{"usual", "second", "third"}
	choiceOpeners  = []string{"D-1", "D-2"}
	choiceOnOff    = []string{"on", "off"}
	choiceRemindBy = []string{"direct", "thread", "ride"}
)

// settings are the options of /me set, shared with the reply of /me show.
func settings() []command.Option {
	return []command.Option{
		{Name: "zone", Type: "zone", Complete: command.CompleteZone, Example: "Europe/Lisbon",
			Description: "Your time zone, by city: Europe/Lisbon"},
		{Name: "taper", Type: "number", Example: "10",
			Description: fmt.Sprintf("Days of a taper for A races, %d to %d, or auto (from hours and races), or usual (hours alone)", planner.MinTaperDays, planner.MaxTaperDays)},
		{Name: "cut", Type: "number", Example: "50",
			Description: "How much of your usual time a taper takes off, 20 to 80 per cent, or auto: by your weekly hours"},
		{Name: "pattern", Type: "choice", Choices: choicePattern, Example: "usual",
			Description: "Hard days of a taper: those of your usual week, every second day, or every third"},
		{Name: "openers", Type: "choice", Choices: choiceOpeners, Example: "D-1",
			Description: "Openers on the eve (D-1) or two days before (D-2) with rest on the eve"},
		{Name: "announce", Type: "choice", Choices: choiceOnOff, Example: "on",
			Description: "Tell the club's channel when you add a race"},
		{Name: "remind", Type: "time", Reach: true, Example: "06:30",
			Description: "Daily reminders near races: 06:30, changed 06:30, always 06:30 (every day) or off"},
		{Name: "remind-by", Type: "choice", Reach: true, Choices: choiceRemindBy, Example: "direct",
			Description: "Reminders as a direct message, in a private thread of the club, or only when you ask /ride"},
		{Name: "pause", Type: "days", Reach: true, Example: "3",
			Description: "Days without reminders, 1 to 60. 0 ends a pause"},
	}
}
