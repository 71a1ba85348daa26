// Package coach has the coaches' commands and their weekly digest.
package coach

import (
	"musette/bot/command"
)

// Commands are the rows of the coaches' side.
func Commands() []command.Command {
	return []command.Command{
		{Name: "coach roster", Task: command.TaskCoach, Run: coachRoster, Coach: true, Club: true,
			Description: "Every rider: who tapers, who starts, who needs attention",
			Example:     "coach roster"},
		{Name: "coach athlete", Task: command.TaskCoach, Run: coachAthlete, Coach: true, Club: true, Options: []command.Option{
			{Name: "athlete", Type: "rider", Required: true, Complete: command.CompleteRider, Example: "Ines",
				Description: "Which rider of the club: the name or part of it"}},
			Description: "One rider: races, taper, the days behind and ahead",
			Example:     "coach athlete athlete:Ines"},
		{Name: "coach digest", Task: command.TaskCoach, Run: coachDigest, Coach: true, Club: true,
			Description: "The coaches' weekly digest, now",
			Example:     "coach digest"},
	}
}
