package bot

import (
	"context"
	"slices"
	"strings"
	"testing"

	"musette/storage"
)

// onPlatform goes on in a club and as a rider that have numbers of a platform.
func (k *talk) onPlatform(club, rider string) {
	k.who.ClubKey, k.who.AthleteKey = storage.PlatformKey("discord", club), storage.PlatformKey("discord", rider)
}

// club is the club as it is stored.
func (k *talk) club() storage.Club {
	k.t.Helper()
	who, err := k.base.rider(k.t.Context(), k.who)
	if err != nil {
		k.t.Fatal(err)
	}
	return who.club
}

func TestClubSetup(t *testing.T) {
	k := newTalk(t)
	wants(t, k.ok("/club show"), "Marrow Vale Wheelers", "channel: none", "coaches-channel: none", "zone: Europe/Lisbon", "coach-role: none", "digest: monday at 07:00")
	wants(t, k.refused("/club setup digest-day:off", "command"), "is for the club's coaches", "Ask one of them")
	k.who.Coach = true
	wants(t, k.refused("/club setup", "channel"), "nothing to set. For example /club setup channel:#races")
	if _, err := k.db.FindClub(t.Context(), storage.NameKey(k.who.Club)); err == nil {
		t.Error("refusals made the club")
	}

	reply := k.ok("/club setup channel:#races zone:tokyo")
	wants(t, reply, "Marrow Vale Wheelers is set up.", "channel: #races", "zone: Asia/Tokyo", "No coach role yet")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "#Marrow Vale Wheelers" || reply.Sent[0].Kind != "setup" || !reply.Private {
		t.Errorf("sent %+v, private %v", reply.Sent, reply.Private)
	}
	want := storage.ClubSetup{Channel: "#races", DigestDay: "monday", DigestTime: "07:00"}
	if club := k.club(); club.Setup != want || club.Zone != "Asia/Tokyo" {
		t.Errorf("stored %+v in zone %s, want %+v", club.Setup, club.Zone, want)
	}

	reply = k.ok("/club setup coach-role:Coach digest-day:WEDNESDAY digest-time:6:30")
	want.CoachRole, want.DigestDay, want.DigestTime = "Coach", "wednesday", "06:30"
	if club := k.club(); club.Setup != want || club.Zone != "Asia/Tokyo" || len(reply.Sent) != 0 {
		t.Errorf("stored %+v in zone %s, want %+v; sent %v", club.Setup, club.Zone, want, reply.Sent)
	}
	if strings.Contains(reply.Text(), "No coach role") || !slices.Equal(references(reply), []string{"#races", "Coach"}) {
		t.Errorf("references %q in\n%s", references(reply), reply.Text())
	}

	reply = k.ok("/club setup channel:None coach-role:NONE digest-day:off")
	want.Channel, want.CoachRole, want.DigestDay = "", "", "off"
	if club := k.club(); club.Setup != want || len(reply.Sent) != 0 || len(references(reply)) != 0 {
		t.Errorf("stored %+v, want %+v; sent %v, references %q", club.Setup, want, reply.Sent, references(reply))
	}
	show := k.ok("/club show")
	wants(t, show, "channel: none", "coach-role: none", "digest: off")
	if show.Private {
		t.Error("how the club is set up is private")
	}
	k.who.Zone = ""
	wants(t, k.ok("/me show"), "zone Asia/Tokyo")
}

func TestClubSetupDigestTime(t *testing.T) {
	k := newTalk(t)
	k.who.Coach = true
	for typed, want := range map[string]string{"7:00": "07:00", "07:00": "07:00", "19.45": "19:45", "7pm": "19:00", "12:15 am": "00:15", "23:59": "23:59", "0:00": "00:00"} {
		k.ok("/club setup digest-time:" + Quote(typed))
		if got := k.club().Setup.DigestTime; got != want {
			t.Errorf("%s is stored as %s, want %s", typed, got, want)
		}
	}
}

// A wrong value is refused in the name of its option, with a right example, also
// beside right ones, and changes nothing.
func TestClubSetupRefuses(t *testing.T) {
	k := newTalk(t)
	k.who.Coach = true
	k.ok("/club setup channel:#races coach-role:Coach digest-day:friday digest-time:8:00")
	for _, tc := range []struct{ option, value, example string }{
		{"channel", strings.Repeat("x", 201), "#races"}, {"channel", "a\x00b", "#races"}, {"channel", " ", "#races"},
		{"coach-role", strings.Repeat("x", 201), "Coach"}, {"coach-role", "a\u202eb", "Coach"},
		{"zone", "Mars/Base", "Europe/Lisbon"}, {"zone", "none", "Europe/Lisbon"}, {"zone", "Europe/Lisbom", "Europe/Lisbon"},
		{"digest-day", "someday", "monday"}, {"digest-day", "none", "off"}, {"digest-time", "24:00", "07:00"}, {"digest-time", "7", "07:00"},
		{"digest-time", "noonish", "07:00"}, {"digest-time", "none", "07:00"}, {"digest-time", "7:5", "07:00"},
	} {
		reply := k.refused("/club setup "+tc.option+":"+Quote(tc.value), tc.option)
		wants(t, reply, tc.example)
		options := map[string]string{"channel": "#other", "zone": "tokyo", "coach-role": "Boss", "digest-day": "off", "digest-time": "9:00"}
		options[tc.option] = tc.value
		cmd, err := findCommand(Commands(), "club setup")
		if err != nil {
			t.Fatal(err)
		}
		k.refused(cmd.FormatLine(options), tc.option)
	}
	wants(t, k.refused("/club setup chanel:#races", "chanel"), "Did you mean channel?")
}

// Who is a coach is asked at each call: by the role that the club has set then.
func TestCoachByRole(t *testing.T) {
	k := newTalk(t)
	k.with(Command{Name: "whistle", Coach: true,
		run: func(*Base, context.Context, Request) (Reply, error) { return Reply{Lines: []Line{Say("heard")}}, nil }})
	k.onPlatform("9", "1")
	whistle := func(want bool) {
		t.Helper()
		if reply := k.ask("whistle", nil, ""); (reply.Err == nil) != want {
			t.Errorf("roles %q, admin %v: %s", k.who.Roles, k.who.Admin, reply.Text())
		}
	}
	may := func(want bool, roles ...string) {
		t.Helper()
		k.who.Roles = roles
		whistle(want)
		if reply := k.say("/club setup digest-day:friday"); (reply.Err == nil) != want {
			t.Errorf("roles %q set up the club: %s", roles, reply.Text())
		}
	}
	may(false)
	may(false, "")
	k.who.Admin = true
	k.ok("/club setup coach-role:<@&5>")
	whistle(false) // who runs the server sets it up, and is no coach by that
	k.who.Admin = false
	may(false)
	may(false, "", "<@&6>", "5")
	may(true, "<@&6>", "<@&5>")
	k.ok("/club setup coach-role:<@&7>") // by a coach, who is none after it
	may(false, "<@&6>", "<@&5>")
	may(true, "<@&7>")
	k.onPlatform("10", "1")
	may(false, "<@&7>") // another club's role
	k.onPlatform("9", "1")
	k.who.Roles = []string{"<@&7>"}
	k.ok("/club setup coach-role:none")
	may(false, "<@&7>")
	may(false, "", "none")
}

// A fault of the channel is shown until another channel is set.
func TestClubShowTellsTheFault(t *testing.T) {
	k := newTalk(t)
	k.onPlatform("9", "1")
	k.who.Admin = true
	k.ok("/club setup channel:<#12>")
	if err := k.db.SetFault(t.Context(), k.club().ID, "it was deleted"); err != nil {
		t.Fatal(err)
	}
	wants(t, k.ok("/club show"), "! The channel cannot be written to: it was deleted. Mend that, or set another: /club setup channel:#races")
	k.ok("/club setup channel:<#13>")
	if reply := k.ok("/club show"); strings.Contains(reply.Text(), "!") {
		t.Errorf("the fault is that of another channel:\n%s", reply.Text())
	}
}

// The channel of the digest is proved by a line that says who should read it.
func TestClubSetupOfTheCoachesChannel(t *testing.T) {
	k := newTalk(t)
	k.who.Coach = true
	reply := k.ok("/club setup coaches-channel:#coaches coach-role:Coach")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "#coaches" || reply.Sent[0].Kind != "setup" || !strings.Contains(reply.Sent[0].Text(), "goes here: monday at 07:00. It tells of riders' plans: let only coaches read this channel.") {
		t.Errorf("sent %+v", reply.Sent)
	}
	wants(t, reply, "  coaches-channel: #coaches (riders' plans are private: only coaches should read it)")
	if strings.Contains(reply.Text(), "no channel yet") || !slices.Equal(references(reply), []string{"#coaches", "Coach"}) {
		t.Errorf("references %q in\n%s", references(reply), reply.Text())
	}
	if reply := k.ok("/club setup channel:#races coaches-channel:#staff"); len(reply.Sent) != 2 || k.club().Setup.Coaches != "#staff" {
		t.Errorf("sent %+v, stored %+v", reply.Sent, k.club().Setup)
	}
	k.refused("/club setup coaches-channel:#a forget:coaches-channel", "forget")
	reply = k.ok("/club setup forget:coaches-channel")
	if setup := k.club().Setup; setup.Coaches != "" || setup.Channel != "#races" || setup.CoachRole != "Coach" || len(reply.Sent) != 0 {
		t.Errorf("stored %+v, sent %+v", setup, reply.Sent)
	}
	wants(t, reply, "The digest has no channel yet. Pick one that only coaches read: /club setup coaches-channel:#coaches")
	k.ok("/club setup coaches-channel:#coaches")
	if reply := k.ok("/club setup coaches-channel:none digest-day:off"); k.club().Setup.Coaches != "" || len(reply.Sent) != 0 || strings.Contains(reply.Text(), "no channel yet") {
		t.Errorf("stored %+v, sent %+v:\n%s", k.club().Setup, reply.Sent, reply.Text())
	}
}

// references are what a transport wrote itself.
func references(r Reply) []string {
	var out []string
	for _, l := range r.Lines {
		for _, s := range l.Spans {
			if s.Kind == Reference {
				out = append(out, s.Text)
			}
		}
	}
	return out
}
