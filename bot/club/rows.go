// Package club has the commands about the club's own settings.
package club

import (
	"musette/bot/command"
)

// Commands are the rows of the club's own settings.
func Commands() []command.Command {
	return []command.Command{
		{Name: "club setup", Task: command.TaskClub, Run: clubSetup, Tries: true, Admin: true, Club: true, Writes: true, Options: clubOptions(),
			Description: "Set channel, zone, coach role and digest of the club",
			Example:     `club setup channel:#races zone:Europe/Lisbon coach-role:Coach`},
		{Name: "club show", Task: command.TaskClub, Run: clubShow, Public: true, Club: true, Faults: true,
			Description: "How the club is set up",
			Example:     "club show"},
	}
}

var (
	choiceDigest = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "off"}
	choiceForget = []string{"channel", "coaches-channel", "coach-role"}
)

func clubOptions() []command.Option {
	return []command.Option{
		{Name: "channel", Type: command.TypeChannel, Example: "#races",
			Description: "Where public lines about races go"},
		{Name: "zone", Type: "zone", Complete: command.CompleteZone, Example: "Europe/Lisbon",
			Description: "Time zone of the club and of riders who set none"},
		{Name: "coaches-channel", Type: command.TypeChannel, Example: "#coaches",
			Description: "Where the weekly digest goes. Riders' plans are private: use one that only coaches read"},
		{Name: "coach-role", Type: command.TypeRole, Example: "Coach",
			Description: "Members with this role are coaches"},
		{Name: "digest-day", Type: "choice", Choices: choiceDigest, Example: "monday",
			Description: "Weekday of the coaches' digest, or off"},
		{Name: "digest-time", Type: "time", Example: "07:00",
			Description: "Time of the digest by the club's zone, 24 hours: 07:00"},
		{Name: "forget", Type: "choice", Choices: choiceForget, Example: "channel",
			Description: "Take a setting back: channel, coaches-channel or coach-role"},
	}
}
