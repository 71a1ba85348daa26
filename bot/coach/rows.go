// Package coach has the coaches' commands and their weekly digest.
package coach

import (
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/races"
	"musette/bot/weeks"
)

// Commands are the rows of the coaches' side.
func Commands() []command.Command {
	rider := command.Option{Name: "athlete", Type: "rider", Required: true, Complete: command.CompleteRider, Example: "Ines",
		Description: "Which rider of the club: the name or part of it"}
	rows := []command.Command{
		{Name: "coach roster", Task: command.TaskCoach, Run: coachRoster, Coach: true, Club: true,
			Description: "Every rider: who tapers, who starts, who needs attention",
			Example:     "coach roster"},
		{Name: "coach athlete", Task: command.TaskCoach, Run: coachAthlete, Coach: true, Club: true, Options: []command.Option{rider,
			{Name: "show", Type: "choice", Choices: []string{showAll}, Example: showAll, Description: "all: every day with its reasons, what was ridden, results and settings"}},
			Description: "One rider: races, taper, the days behind and ahead",
			Example:     "coach athlete athlete:Ines"},
		{Name: "coach digest", Task: command.TaskCoach, Run: coachDigest, Coach: true, Club: true,
			Description: "The coaches' weekly digest, now",
			Example:     "coach digest"},
	}
	return append(rows, handRows(rider)...)
}

// handRows are the commands by which a coach sets something for a rider.
func handRows(rider command.Option) []command.Command {
	all := rider
	all.Description = "Which rider of the club: the name or part of it, or all"
	one := rider
	one.Or, one.Description = "member", "Which rider: the name or part of it. Somebody who has not written to the bot yet: member"
	member := command.Option{Name: "member", Type: command.TypeMember, Example: "Sam", Description: "Somebody of the club who has not written to the bot yet, in place of athlete"}
	day := command.DayOption()
	return []command.Command{
		{Name: "coach note", Task: command.TaskCoach, Run: coachNote, Coach: true, Club: true, Writes: true, Options: []command.Option{all, day,
			{Name: "text", Type: "text", Required: true, Example: "Stay in the group today", Description: "What the rider reads with that day. none deletes the notes of the day"}},
			Description: "Write a note on a day for a rider or for all",
			Example:     `coach note athlete:Ines day:tomorrow text:"Stay in the group today"`},
		{Name: "coach adjust", Task: command.TaskCoach, Run: coachAdjust, Coach: true, Club: true, Writes: true, Options: []command.Option{rider, day,
			{Name: "session", Type: "session", Required: true, Example: "endurance 1h", Description: "The session of that day: endurance 1h, intervals 1h15 4x5min, rest"}},
			Description: "Set a rider's session of a day by hand",
			Example:     `coach adjust athlete:Ines day:tomorrow session:"endurance 1h"`},
		{Name: "coach release", Task: command.TaskCoach, Run: coachRelease, Writes: true, Options: []command.Option{rider, day},
			Description: "Take back a session that a coach set: the plan counts again. Riders may do it for themselves",
			Example:     `coach release athlete:Ines day:tomorrow`},
		{Name: "coach race", Task: command.TaskCoach, Run: coachRace, Read: races.Read, Coach: true, Club: true, Writes: true, Options: append(append([]command.Option{one}, races.AddOptions()...), member),
			Description: "Register a race for a rider or a new member, who is told in private",
			Example:     `coach race athlete:Ines name:"Hill Loop" date:"13 June" priority:A hours:3h30`},
		{Name: "coach week", Task: command.TaskCoach, Run: coachWeek, Coach: true, Club: true, Writes: true, Options: append(append([]command.Option{one}, weeks.ShareOptions()...), member),
			Description: "Share a typical week for a rider or a new member, who is told in private",
			Example:     `coach week athlete:Ines week:"` + desk.ExampleWeek + `"`},
	}
}
