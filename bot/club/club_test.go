package club_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/storage"
)

func TestClubSetup(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/club show"), "Marrow Vale Wheelers", "channel: none", "coaches-channel: none", "zone: Europe/Lisbon", "coach-role: none", "digest: monday at 07:00")
	bottest.Wants(t, k.Refused("/club setup digest-day:off", "command"), "is for the club's coaches", "Ask one of them")
	k.Who.Coach = true
	bottest.Wants(t, k.Refused("/club setup", "channel"), "there is nothing to set. For example /club setup channel:#races")
	if _, err := k.DB.FindClub(t.Context(), storage.NameKey(k.Who.Club)); err == nil {
		t.Error("refusals made the club")
	}

	reply := k.OK("/club setup channel:#races zone:tokyo")
	bottest.Wants(t, reply, "Marrow Vale Wheelers is set up.", "channel: #races", "zone: Asia/Tokyo", "No coach role is set yet")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "#Marrow Vale Wheelers" || reply.Sent[0].Kind != "setup" || !reply.Private {
		t.Errorf("sent %+v, private %v", reply.Sent, reply.Private)
	}
	want := storage.ClubSetup{Channel: "#races", DigestDay: "monday", DigestTime: "07:00"}
	if club := k.Club(); club.Setup != want || club.Zone != "Asia/Tokyo" {
		t.Errorf("stored %+v in zone %s, want %+v", club.Setup, club.Zone, want)
	}

	reply = k.OK("/club setup coach-role:Coach digest-day:WEDNESDAY digest-time:6:30")
	want.CoachRole, want.DigestDay, want.DigestTime = "Coach", "wednesday", "06:30"
	if club := k.Club(); club.Setup != want || club.Zone != "Asia/Tokyo" || len(reply.Sent) != 0 {
		t.Errorf("stored %+v in zone %s, want %+v; sent %v", club.Setup, club.Zone, want, reply.Sent)
	}
	if strings.Contains(reply.Text(), "No coach role") || !slices.Equal(references(reply), []string{"#races", "Coach"}) {
		t.Errorf("references %q in\n%s", references(reply), reply.Text())
	}

	reply = k.OK("/club setup channel:None coach-role:NONE digest-day:off")
	want.Channel, want.CoachRole, want.DigestDay = "", "", "off"
	if club := k.Club(); club.Setup != want || len(reply.Sent) != 0 || len(references(reply)) != 0 {
		t.Errorf("stored %+v, want %+v; sent %v, references %q", club.Setup, want, reply.Sent, references(reply))
	}
	show := k.OK("/club show")
	bottest.Wants(t, show, "channel: none", "coach-role: none", "digest: off")
	if show.Private {
		t.Error("how the club is set up is private")
	}
	k.Who.Zone = ""
	bottest.Wants(t, k.OK("/me show"), "the time of Asia/Tokyo")
}

func TestClubSetupDigestTime(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Coach = true
	for typed, want := range map[string]string{"7:00": "07:00", "07:00": "07:00", "19.45": "19:45", "7pm": "19:00", "12:15 am": "00:15", "23:59": "23:59", "0:00": "00:00"} {
		k.OK("/club setup digest-time:" + say.Quote(typed))
		if got := k.Club().Setup.DigestTime; got != want {
			t.Errorf("%s is stored as %s, want %s", typed, got, want)
		}
	}
}

// A wrong value is refused in the name of its option, with a right example, also
// beside right ones, and changes nothing.
func TestClubSetupRefuses(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Coach = true
	k.OK("/club setup channel:#races coach-role:Coach digest-day:friday digest-time:8:00")
	for _, tc := range []struct{ option, value, example string }{
		{"channel", strings.Repeat("x", 201), "#races"}, {"channel", "a\x00b", "#races"}, {"channel", " ", "#races"},
		{"coach-role", strings.Repeat("x", 201), "Coach"}, {"coach-role", "a\u202eb", "Coach"},
		{"zone", "Mars/Base", "Europe/Lisbon"}, {"zone", "none", "Europe/Lisbon"}, {"zone", "Europe/Lisbom", "Europe/Lisbon"},
		{"digest-day", "someday", "monday"}, {"digest-day", "none", "off"}, {"digest-time", "24:00", "07:00"},
		{"digest-time", "noonish", "07:00"}, {"digest-time", "none", "07:00"}, {"digest-time", "7:5", "07:00"},
	} {
		reply := k.Refused("/club setup "+tc.option+":"+say.Quote(tc.value), tc.option)
		bottest.Wants(t, reply, tc.example)
		options := map[string]string{"channel": "#other", "zone": "tokyo", "coach-role": "Boss", "digest-day": "off", "digest-time": "9:00"}
		options[tc.option] = tc.value
		cmd, err := command.Find(bot.Commands(), "club setup")
		if err != nil {
			t.Fatal(err)
		}
		k.Refused(cmd.FormatLine(options), tc.option)
	}
	bottest.Wants(t, k.Refused("/club setup chanel:#races", "chanel"), "Did you mean channel?")
}

// Who is a coach is asked at each call: by the role that the club has set then.
func TestCoachByRole(t *testing.T) {
	k := bottest.NewTalk(t)
	k.With(command.Command{Name: "whistle", Coach: true,
		Run: func(context.Context, *desk.Base, desk.Request) (say.Reply, error) {
			return say.Reply{Lines: []say.Line{say.Linef("heard")}}, nil
		}})
	k.OnPlatform("9", "1")
	whistle := func(want bool) {
		t.Helper()
		if reply := k.Ask("whistle", nil, ""); (reply.Err == nil) != want {
			t.Errorf("roles %q, admin %v: %s", k.Who.Roles, k.Who.Admin, reply.Text())
		}
	}
	may := func(want bool, roles ...string) {
		t.Helper()
		k.Who.Roles = roles
		whistle(want)
		if reply := k.Say("/club setup digest-day:friday"); (reply.Err == nil) != want {
			t.Errorf("roles %q set up the club: %s", roles, reply.Text())
		}
	}
	may(false)
	may(false, "")
	k.Who.Admin = true
	k.OK("/club setup coach-role:<@&5>")
	whistle(false) // who runs the server sets it up, and is no coach by that
	k.Who.Admin = false
	may(false)
	may(false, "", "<@&6>", "5")
	may(true, "<@&6>", "<@&5>")
	k.OK("/club setup coach-role:<@&7>") // by a coach, who is none after it
	may(false, "<@&6>", "<@&5>")
	may(true, "<@&7>")
	k.OnPlatform("10", "1")
	may(false, "<@&7>") // another club's role
	k.OnPlatform("9", "1")
	k.Who.Roles = []string{"<@&7>"}
	k.OK("/club setup coach-role:none")
	may(false, "<@&7>")
	may(false, "", "none")
}

// A fault of the channel is shown until another channel is set.
func TestClubShowTellsTheFault(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OnPlatform("9", "1")
	k.Who.Admin = true
	k.OK("/club setup channel:<#12>")
	if err := k.DB.SetFault(t.Context(), k.Club().ID, "it was deleted"); err != nil {
		t.Fatal(err)
	}
	bottest.Wants(t, k.OK("/club show"), "! The channel cannot be written to: it was deleted. Mend that, or set another: /club setup channel:#races")
	k.OK("/club setup channel:<#13>")
	if reply := k.OK("/club show"); strings.Contains(reply.Text(), "!") {
		t.Errorf("the fault is that of another channel:\n%s", reply.Text())
	}
}

// The channel of the digest is proved by a line that says who should read it.
func TestClubSetupOfTheCoachesChannel(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Coach = true
	reply := k.OK("/club setup coaches-channel:#coaches coach-role:Coach")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "#coaches" || reply.Sent[0].Kind != "setup" || !strings.Contains(reply.Sent[0].Text(), "goes here: monday at 07:00. It tells of riders' plans: let only coaches read this channel.") {
		t.Errorf("sent %+v", reply.Sent)
	}
	bottest.Wants(t, reply, "  coaches-channel: #coaches (riders' plans are private: only coaches should read it)")
	if strings.Contains(reply.Text(), "no channel yet") || !slices.Equal(references(reply), []string{"#coaches", "Coach"}) {
		t.Errorf("references %q in\n%s", references(reply), reply.Text())
	}
	if reply := k.OK("/club setup channel:#races coaches-channel:#staff"); len(reply.Sent) != 2 || k.Club().Setup.Coaches != "#staff" {
		t.Errorf("sent %+v, stored %+v", reply.Sent, k.Club().Setup)
	}
	k.Refused("/club setup coaches-channel:#a forget:coaches-channel", "forget")
	reply = k.OK("/club setup forget:coaches-channel")
	if setup := k.Club().Setup; setup.Coaches != "" || setup.Channel != "#races" || setup.CoachRole != "Coach" || len(reply.Sent) != 0 {
		t.Errorf("stored %+v, sent %+v", setup, reply.Sent)
	}
	bottest.Wants(t, reply, "The digest has no channel yet. Pick one that only coaches read: /club setup coaches-channel:#coaches")
	k.OK("/club setup coaches-channel:#coaches")
	if reply := k.OK("/club setup coaches-channel:none digest-day:off"); k.Club().Setup.Coaches != "" || len(reply.Sent) != 0 || strings.Contains(reply.Text(), "no channel yet") {
		t.Errorf("stored %+v, sent %+v:\n%s", k.Club().Setup, reply.Sent, reply.Text())
	}
}

// references are what a transport wrote itself.
func references(r say.Reply) []string {
	var out []string
	for _, l := range r.Lines {
		for _, s := range l.Spans {
			if s.Kind == say.Reference {
				out = append(out, s.Text)
			}
		}
	}
	return out
}
