package bot_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/storage"
)

// A platform's rider stays the same under another name, which the club sees
// after the next change.
func TestRenamedRiderIsTheSame(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OnPlatform("9", "1")
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`)
	was := k.Facts()
	k.Who.Club, k.Who.Athlete = "Marrow Vale Riders", "Beatriz"
	bottest.Wants(t, k.OK("/me show"), "Beatriz of Marrow Vale Riders.", "10h10")
	bottest.Wants(t, k.OK("/race list"), "Races of Marrow Vale Riders: 1 to come", "Hill Loop: Ines (A, you)")
	if got := k.Facts(); !bottest.SameFacts(got, was) {
		t.Errorf("facts %+v, were %+v", got, was)
	}
	k.Refused("/me set taper:3", "taper")
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Ines (A, you)") // refusals store nothing
	k.OK("/me set announce:on")
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Beatriz (A, you)")
	if club, err := k.DB.FindClub(t.Context(), k.Who.ClubKey); err != nil || club.Name != "Marrow Vale Riders" {
		t.Errorf("club %+v, %v; want the new name", club, err)
	}
}

func TestTwoRidersWithOneName(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OnPlatform("9", "1")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A`)
	k.OnPlatform("9", "2")
	k.Refused(`/race remove race:"Hill Loop"`, "race")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:C`)
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Ines (A), Ines (C, you)")
	k.OK(`/race remove race:"Hill Loop"`)
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Ines (A)\n")
	k.OnPlatform("9", "1")
	if got := len(k.Facts().Races); got != 1 {
		t.Errorf("the namesake has %d races, want 1", got)
	}
	k.Who.ClubKey, k.Who.AthleteKey = storage.Key{}, storage.Key{} // typed names are others again
	k.Who.Club, k.Who.Athlete = "discord:9", "discord:1"
	bottest.Wants(t, k.OK("/me show"), "Races to come: 0")
}

// Names that somebody chose to break things change no line of a reply but their own.
func TestHostileNames(t *testing.T) {
	lines := []string{"/me show", `/race add name:"Hill Loop" date:2026-06-28 priority:A`, "/race list", "/club show", "/club setup channel:#races",
		`/race add name:"Quarry" date:2026-06-07 priority:C`, "/plan show", "/help", `/race remove race:"Hill Loop"`}
	talk := func(club, rider string) (replies []say.Reply) {
		k := bottest.NewTalk(t)
		k.OnPlatform("9", "1")
		k.Who.Club, k.Who.Athlete, k.Who.Admin = club, rider, true
		for _, line := range lines {
			replies = append(replies, k.OK(line))
		}
		return replies
	}
	want := talk("Marrow Vale Wheelers", "Ines")
	for _, name := range []string{"", " ", "\n", "A\nB\r\nC", "\u200b\u200d\u2060", "A\u202eB\u2066C", "\x00\x1b[31m", "\xff\xfe", "\ufffd", "\u3164", "\u2800",
		strings.Repeat("x", 300), strings.Repeat("ü ", 300), "%s%d%!", "\u2028A\u2029", strings.Repeat("\u0301", 300)} {
		for i, reply := range talk(name, name) {
			if got, want := strings.Count(reply.Text(), "\n"), strings.Count(want[i].Text(), "\n"); got != want {
				t.Errorf("%q: %s has %d lines, want %d:\n%s", name, lines[i], got+1, want+1, reply.Text())
			}
			if len(reply.Sent) != len(want[i].Sent) {
				t.Errorf("%q: %s sends %v", name, lines[i], reply.Sent)
			}
			texts := []string{reply.Text()}
			for _, m := range reply.Sent {
				texts = append(texts, m.Text(), m.To)
				if strings.Contains(m.Text(), "\n") {
					t.Errorf("%q: %s sends lines %q", name, lines[i], m.Text())
				}
			}
			for _, text := range texts {
				unseen := func(r rune) bool {
					return r != '\n' && unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == utf8.RuneError
				}
				if strings.ContainsFunc(text, unseen) || !utf8.ValidString(text) || strings.Contains(text, "%!") && name != "%s%d%!" {
					t.Errorf("%q: %s shows %q", name, lines[i], text)
				}
				for line := range strings.Lines(text) {
					if utf8.RuneCountInString(line) > 300 {
						t.Errorf("%q: %s has a line of %d characters", name, lines[i], utf8.RuneCountInString(line))
					}
				}
			}
		}
	}
}

// Names that are typed must be fit as they are.
func TestTypedNamesAreNotMended(t *testing.T) {
	k := bottest.NewTalk(t)
	for _, name := range []string{"", "A\u200bB", strings.Repeat("x", 300)} {
		k.Who.Athlete = name
		if reply := k.Ask("me show", nil, ""); reply.Err == nil || reply.Err.Field != "rider" {
			t.Errorf("%q: %s", name, reply.Text())
		}
	}
}

// Public lines need a place: a terminal is one, a platform's club has to set it.
func TestAnnouncementsNeedAChannel(t *testing.T) {
	k := bottest.NewTalk(t)
	sent := func(line string, want int) {
		t.Helper()
		if reply := k.OK(line); len(reply.Sent) != want || want > 0 && (reply.Sent[0].To != "#Marrow Vale Wheelers" || !strings.HasPrefix(reply.Sent[0].Text(), "Ines races ")) {
			t.Errorf("%s sends %+v, want %d", line, reply.Sent, want)
		}
	}
	sent("/race add name:One date:2026-06-14 priority:C", 1)
	k.OnPlatform("9", "1")
	sent("/race add name:One date:2026-06-14 priority:C", 0)
	k.Who.Admin = true
	k.OK("/club setup channel:<#12>")
	sent("/race add name:Two date:2026-06-15 priority:C", 1)
	k.OK("/me set announce:off")
	sent("/race add name:Three date:2026-06-16 priority:C", 0)
	k.OK("/me set announce:on", "/club setup channel:none")
	sent("/race add name:Four date:2026-06-17 priority:C", 0)
}

// The transport's reference is the one in the log, and in the reply where it broke.
func TestTheTransportsReference(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Ref = "k3f9w"
	for _, line := range []string{"/help", "/ride day:someday"} {
		k.Log.Reset()
		if reply := k.Say(line); strings.Contains(reply.Text(), "k3f9w") || strings.Count(k.Log.String(), "ref=k3f9w") != 1 {
			t.Errorf("%s: %s, log %s", line, reply.Text(), k.Log)
		}
	}
	k.Log.Reset()
	k.DB.Close()
	req := k.Who
	req.Command = "ride"
	reply, err := k.Bot.Handle(t.Context(), req)
	if err == nil || !strings.Contains(err.Error(), "ref k3f9w") || !strings.Contains(reply.Text(), "the reference k3f9w.") || strings.Count(k.Log.String(), "ref=k3f9w") != 1 {
		t.Errorf("%q, %v, log %s", reply.Text(), err, k.Log)
	}
}
