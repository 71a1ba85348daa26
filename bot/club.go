package bot

import (
	"cmp"
	"context"
	"strings"

	"musette/planner/typed"
	"musette/storage"
)

// coachesChannel is to whom messages for the channel of the digest go.
const coachesChannel = "#coaches"

// clubCommands are the rows of the club's own settings.
func clubCommands() []Command {
	return []Command{
		{Name: "club setup", Task: taskClub, run: (*Base).clubSetup, Admin: true, Club: true, Writes: true, Options: clubOptions(),
			Description: "Set channel, zone, coach role and digest of the club",
			Example:     `club setup channel:#races zone:Europe/Lisbon coach-role:Coach`},
		{Name: "club show", Task: taskClub, run: (*Base).clubShow, Public: true, Club: true,
			Description: "How the club is set up",
			Example:     "club show"},
	}
}

var (
	choiceDigest = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "off"}
	choiceForget = []string{"channel", "coaches-channel", "coach-role"}
)

func clubOptions() []Option {
	return []Option{
		{Name: "channel", Type: TypeChannel, Example: "#races",
			Description: "Where public lines about races go"},
		{Name: "zone", Type: "zone", Complete: CompleteZone, Example: "Europe/Lisbon",
			Description: "Time zone of the club and of riders who set none"},
		{Name: "coaches-channel", Type: TypeChannel, Example: "#coaches",
			Description: "Where the weekly digest goes. Riders' plans are private: use one that only coaches read"},
		{Name: "coach-role", Type: TypeRole, Example: "Coach",
			Description: "Who has this role is a coach of the club"},
		{Name: "digest-day", Type: "choice", Choices: choiceDigest, Example: "monday",
			Description: "Weekday of the coaches' digest, or off"},
		{Name: "digest-time", Type: "time", Example: "07:00",
			Description: "Time of the digest by the club's zone, 24 hours: 07:00"},
		{Name: "forget", Type: "choice", Choices: choiceForget, Example: "channel",
			Description: "Have no channel, no coaches' channel or no coach role any more"},
	}
}

func (b *Base) clubSetup(ctx context.Context, req Request) (Reply, error) {
	if len(req.Options) == 0 {
		return Reply{}, refuse("channel", "nothing to set. For example /club setup channel:#races zone:Europe/Lisbon")
	}
	read := func(zone *string, setup *storage.ClubSetup) error { return readSetup(zone, setup, &req) }
	zone, setup := req.rider.club.Zone, req.rider.club.Setup
	if err := read(&zone, &setup); err != nil {
		return Reply{}, err
	}
	club, err := b.db.EnsureClub(ctx, req.rider.club.Key, req.rider.club.Name, zone)
	if err == nil {
		club, err = b.db.UpdateClub(ctx, club.ID, read)
	}
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s is set up.", req.rider.club.Name)
	p.add(setupLines(&club)...)
	if club.Setup.CoachRole == "" {
		p.addf("No coach role yet: /club setup coach-role:Coach")
	}
	if club.Setup.Coaches == "" && club.Setup.DigestDay != "off" {
		p.addf("The digest has no channel yet. Pick one that only coaches read: /club setup coaches-channel:#coaches")
	}
	reply := Reply{Lines: p.done()}
	if req.has("channel") && club.Setup.Channel != "" {
		reply.Sent = append(reply.Sent, Message{To: "#" + req.rider.club.Name, Kind: "setup",
			Lines: []Line{Say("Lines about the club's races go here. Register yours: /race add")}})
	}
	if req.has("coaches-channel") && club.Setup.Coaches != "" {
		reply.Sent = append(reply.Sent, Message{To: coachesChannel, Kind: "setup",
			Lines: []Line{Say("The coaches' weekly digest goes here%s. It tells of riders' plans: let only coaches read this channel. Now: /coach digest", digestWhen(&club.Setup, ": "))}})
	}
	return reply, nil
}

func (b *Base) clubShow(_ context.Context, req Request) (Reply, error) {
	club := &req.rider.club
	var p page
	p.addf("%s, zone %s.", club.Name, club.Zone)
	p.add(setupLines(club)...)
	if club.Fault != "" {
		p.addf("! The channel cannot be written to: %s. Mend that, or set another: /club setup channel:#races", club.Fault)
	}
	p.addf("Change it (coaches, and who runs the server): /club setup zone:%s", club.Zone)
	return Reply{Lines: p.done()}, nil
}

// setupLines is one line a setting, in the order of /club setup. Channels and roles
// are as the transport wrote them.
func setupLines(club *storage.Club) []Line {
	orNone := func(s string) Span {
		if s == "" {
			return Span{Text: none}
		}
		return Span{Kind: Reference, Text: s}
	}
	note := ""
	if club.Setup.Coaches != "" {
		note = " (riders' plans are private: only coaches should read it)"
	}
	return []Line{
		Say("  channel: %s", orNone(club.Setup.Channel)),
		Say("  zone: %s", club.Zone),
		Say("  coaches-channel: %s%s", orNone(club.Setup.Coaches), note),
		Say("  coach-role: %s", orNone(club.Setup.CoachRole)),
		Say("  digest: %s", cmp.Or(digestWhen(&club.Setup, ""), "off")),
	}
}

// digestWhen is day and time of the digest after some words; "" where it is off.
func digestWhen(s *storage.ClubSetup, lead string) string {
	if s.DigestDay == "off" {
		return ""
	}
	return lead + s.DigestDay + " at " + s.DigestTime
}

// readSetup lays the options over a club's zone and setup.
func readSetup(zone *string, s *storage.ClubSetup, req *Request) error {
	reference := func(to *string) func(string) error {
		return func(v string) error {
			if *to = v; strings.EqualFold(v, none) {
				*to = ""
			}
			return nil
		}
	}
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"channel", reference(&s.Channel)},
		{"zone", func(v string) (err error) { *zone, err = FindZone(v); return err }},
		{"coaches-channel", reference(&s.Coaches)},
		{"coach-role", reference(&s.CoachRole)},
		{"digest-day", func(v string) error { s.DigestDay = v; return nil }},
		{"digest-time", func(v string) error {
			at, err := typed.Start(v)
			if err != nil {
				return refuse("", "%s is not a time of day. For example 07:00", Shown(v))
			}
			s.DigestTime = at
			return nil
		}},
		{"forget", func(v string) error {
			if req.has(v) {
				return refuse("", "%s cannot be set and forgotten at once. Write one of them", v)
			}
			*map[string]*string{"channel": &s.Channel, "coaches-channel": &s.Coaches, "coach-role": &s.CoachRole}[v] = ""
			return nil
		}},
	} {
		if !req.has(step.option) {
			continue
		}
		if err := step.read(req.get(step.option)); err != nil {
			return inField(step.option, err)
		}
	}
	if s.Coaches != "" && strings.EqualFold(s.Coaches, s.Channel) {
		return refuse("coaches-channel", "is the channel where all riders read, and the digest tells of riders' plans. Pick one that only coaches read, for example #coaches")
	}
	return nil
}
