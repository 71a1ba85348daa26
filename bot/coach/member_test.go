package coach_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

func without(t *testing.T, r say.Reply, text string) {
	t.Helper()
	if strings.Contains(r.Text(), text) {
		t.Errorf("reply has %q:\n%s", text, r.Text())
	}
}

// A coach enters a week and a race for somebody who has never written. They are told
// when they come, once, and may erase it all.
func TestMemberWhoIsNew(t *testing.T) {
	k := coached(t)
	reply := k.OK(`/coach week member:Sam week:"tue intervals 1h 4x4min; sat long 3h"`)
	bottest.Wants(t, reply, "The week of Sam from", "Sam has not written to me yet", "how to erase it")
	race := k.OK(`/coach race member:Sam name:"Hill Loop" date:2026-07-12 priority:A hours:3h`)
	bottest.Wants(t, race, "Hill Loop is in the calendar of Sam", "Sam has not written to me yet")
	if len(reply.Sent)+len(race.Sent) > 0 {
		t.Errorf("sent %+v, %+v", reply.Sent, race.Sent)
	}
	bottest.Wants(t, k.OK("/coach roster"), "Sam: Hill Loop (A, Sun 12 Jul)")
	bottest.Wants(t, k.OK("/coach athlete athlete:Sam"), "Hill Loop")
	k.OK(`/coach race athlete:Sam name:"Mill Race" date:2026-08-02 priority:B hours:2h`)
	as(k, "Sam")
	first := k.OK("/ride")
	bottest.Wants(t, first, "Before you wrote to me, your coach entered for you: your typical week, Hill Loop on Sun 12 Jul and Mill Race on Sun 2 Aug.", "/me show", "/me erase")
	without(t, k.OK("/ride"), "Before you wrote")
	k.As("Rui")
	k.Who.Coach = true
	told := k.OK(`/coach race member:Sam name:"Fen Race" date:2026-09-06 priority:B hours:2h`)
	bottest.Wants(t, told, "Sam gets a private message about it now")
	if len(told.Sent) != 1 || told.Sent[0].To != "Sam" {
		t.Errorf("sent %+v", told.Sent)
	}
}

// What is refused stores nobody.
func TestMemberIsRefused(t *testing.T) {
	k := coached(t)
	for line, field := range map[string]string{
		`/coach week week:"tue intervals 1h; sat long 3h"`:                         "athlete",
		`/coach week athlete:Ines member:Sam week:"tue intervals 1h; sat long 3h"`: "member",
		`/coach week member:Sam week:"tue bananas"`:                                "week",
		`/coach race member:Sam name:"Hill Loop" date:2020-07-12 priority:A`:       "date",
		`/coach adjust athlete:Sam day:tomorrow session:rest`:                      "athlete",
	} {
		without(t, k.Refused(line, field), "Sam has")
	}
	without(t, k.OK("/coach roster"), "Sam")
	as(k, "Tomas")
	k.Refused(`/coach week member:Sam week:"tue intervals 1h; sat long 3h"`, "command")
}

// Who erases at once what a coach entered reads no more of it.
func TestMemberErases(t *testing.T) {
	k := coached(t)
	k.OK(`/coach week member:Sam week:` + say.Quote(bottest.InesWeek))
	as(k, "Sam")
	k.OK("/me erase confirm:everything")
	without(t, k.OK("/me show"), "Before you wrote")
	k.As("Rui")
	k.Who.Coach = true
	without(t, k.OK("/coach roster"), "Sam")
}
