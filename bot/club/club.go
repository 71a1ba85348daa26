package club

import (
	"cmp"
	"context"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner/typed"
	"musette/storage"
)

// coachesChannel is to whom messages for the channel of the digest go.
const coachesChannel = "#coaches"

func clubSetup(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if len(req.Options) == 0 {
		return say.Reply{}, say.Refuse("channel", "there is nothing to set. For example /club setup channel:#races zone:Europe/Lisbon")
	}
	read := func(zone *string, setup *storage.ClubSetup) error { return readSetup(zone, setup, &req) }
	zone, setup := req.Rider.Club.Zone, req.Rider.Club.Setup
	if err := read(&zone, &setup); err != nil {
		return say.Reply{}, err
	}
	club, err := b.DB.EnsureClub(ctx, req.Rider.Club.Key, req.Rider.Club.Name, zone)
	if err == nil {
		club, err = b.DB.UpdateClub(ctx, club.ID, read)
	}
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("%s is set up.", req.Rider.Club.Name)
	p.Add(setupLines(&club)...)
	if club.Setup.CoachRole == "" {
		p.Addf("No coach role is set yet: /club setup coach-role:Coach")
	}
	if club.Setup.Coaches == "" && club.Setup.DigestDay != "off" {
		p.Addf("The digest has no channel yet. Pick one that only coaches read: /club setup coaches-channel:#coaches")
	}
	reply := say.Reply{Lines: p.Done()}
	if req.Has("channel") && club.Setup.Channel != "" {
		reply.Sent = append(reply.Sent, say.Message{To: "#" + req.Rider.Club.Name, Kind: "setup",
			Lines: []say.Line{say.Linef("Lines about the club's races go here. Register yours: /race add")}})
	}
	if req.Has("coaches-channel") && club.Setup.Coaches != "" {
		reply.Sent = append(reply.Sent, say.Message{To: coachesChannel, Kind: "setup",
			Lines: []say.Line{say.Linef("The coaches' weekly digest goes here%s. It tells of riders' plans: let only coaches read this channel. To see it now: /coach digest", digestWhen(&club.Setup, ": "))}})
	}
	return reply, nil
}

func clubShow(_ context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	club := &req.Rider.Club
	var p say.Page
	p.Addf("%s, zone %s.", club.Name, club.Zone)
	p.Add(setupLines(club)...)
	if club.Fault != "" {
		p.Addf("! The channel cannot be written to: %s. Mend that, or set another: /club setup channel:#races", club.Fault)
	}
	p.Addf("Coaches and those who run the server can change it: /club setup zone:%s", club.Zone)
	return say.Reply{Lines: p.Done()}, nil
}

// setupLines is one line a setting, in the order of /club setup. Channels and roles
// are as the transport wrote them.
func setupLines(club *storage.Club) []say.Line {
	orNone := func(s string) say.Span {
		if s == "" {
			return say.Span{Text: say.None}
		}
		return say.Span{Kind: say.Reference, Text: s}
	}
	note := ""
	if club.Setup.Coaches != "" {
		note = " (riders' plans are private: only coaches should read it)"
	}
	return []say.Line{
		say.Linef("  channel: %s", orNone(club.Setup.Channel)),
		say.Linef("  zone: %s", club.Zone),
		say.Linef("  coaches-channel: %s%s", orNone(club.Setup.Coaches), note),
		say.Linef("  coach-role: %s", orNone(club.Setup.CoachRole)),
		say.Linef("  digest: %s", cmp.Or(digestWhen(&club.Setup, ""), "off")),
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
func readSetup(zone *string, s *storage.ClubSetup, req *desk.Request) error {
	reference := func(to *string) func(string) error {
		return func(v string) error {
			if *to = v; strings.EqualFold(v, say.None) {
				*to = ""
			}
			return nil
		}
	}
	var faults []error
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"channel", reference(&s.Channel)},
		{"zone", func(v string) (err error) { *zone, err = desk.FindZone(v); return err }},
		{"coaches-channel", reference(&s.Coaches)},
		{"coach-role", reference(&s.CoachRole)},
		{"digest-day", func(v string) error { s.DigestDay = v; return nil }},
		{"digest-time", func(v string) error {
			at, err := typed.Start(v)
			if err != nil {
				return say.Refuse("", "%s is not a time of day. For example 07:00", say.Shown(v))
			}
			s.DigestTime = at
			return nil
		}},
		{"forget", func(v string) error {
			if req.Has(v) {
				return say.Refuse("", "%s cannot be set and forgotten at once. Write one of them", v)
			}
			*map[string]*string{"channel": &s.Channel, "coaches-channel": &s.Coaches, "coach-role": &s.CoachRole}[v] = ""
			return nil
		}},
	} {
		if !req.Has(step.option) {
			continue
		}
		faults = append(faults, say.InField(step.option, step.read(req.Get(step.option))))
	}
	if err := say.Together(faults...); err != nil {
		return err
	}
	if s.Coaches != "" && strings.EqualFold(s.Coaches, s.Channel) {
		return say.Refuse("coaches-channel", "is the channel where all riders read, and the digest tells of riders' plans. Pick one that only coaches read, for example #coaches")
	}
	return nil
}
