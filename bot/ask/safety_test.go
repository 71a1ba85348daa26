package ask_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// Whom to call is said for others too, and heat has its caution (ACSM on heat illness, from memory; to call
// and to stay is what first aid teaches, common practice). Nothing is held back for it.
func TestOthersInDangerAndHeat(t *testing.T) {
	k := bottest.NewTalk(t)
	for line, want := range map[string]string{
		"my wife has chest pain":                               "call the emergency number",
		"my teammate passed out on the ride":                   "call the emergency number",
		"a rider collapsed, what do i do":                      "call the emergency number",
		"a rider in my group collapsed, what do i do":          "call the emergency number",
		"a guy crashed and is not moving what do we do":        "call the emergency number",
		"a lady fell off her bike and her helmet is cracked":   "they must not ride on",
		"my friend just crashed and hit his head":              "they must not ride on",
		"how do I ride in the heat?":                           "drink to thirst",
		"it will be 38 degrees on race day, what should I do?": "drink to thirst",
		"is it too hot to race at 38 degrees":                  "for its organiser and local rules",
	} {
		reply := k.Say(line)
		bottest.Wants(t, reply, want)
		if strings.Contains(reply.Text(), "I plan no training") {
			t.Errorf("%q holds training back", line)
		}
	}
	if text := k.Say("my uncle died of a heart attack last year").Text(); strings.Contains(text, "needs help now") {
		t.Error(text)
	}
}

// A ride of a day without one is asked for its length: "as planned" would be refused. While
// training is held back that comes after whom to call.
func TestRodeOnAFreeDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	bottest.Wants(t, k.Say("I did my ride on thursday"), "No ride is planned on Thursday 28 May 2026: how long did you ride?", "/done day:2026-05-28 minutes:45min")
	k.Say("i have chest pain")
	reply := k.Say("rode it")
	bottest.Wants(t, reply, "call the emergency number", "No ride is planned on Monday 1 June 2026: how long did you ride?")
	if text := reply.Text(); strings.Contains(text, "as planned") || !strings.HasPrefix(text, "! Stop") {
		t.Error(text)
	}
}

// A day without a word for a race is no race to add.
func TestTaperAskedWithADayAndNoRace(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	if reply := k.Say("how long is my taper if we ride 3h on sunday"); reply.Err != nil || strings.Contains(reply.Text(), "Something broke") {
		t.Error(reply.Text())
	}
}

// An illness that is long over, cold weather and a figure of speech are no illness.
func TestNotIllNow(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	for line, topic := range map[string]string{
		"had covid in 2021 and it was awful, what do i ride on thursday":    "ride",
		"i caught a cold two years ago before a race, how long is my taper": "taper-length",
		"that sprint was sick":                                   "unknown",
		"i have had a cold since last winter, what do i ride":    "sick",
		"i have a cold, had one last year too":                   "sick",
		"i caught a cold day before yesterday":                   "sick",
		"caught cold outside on sunday, what do i ride tomorrow": "sick",
		"got a cold, what do i ride tomorrow":                    "sick",
	} {
		if reply := k.Say(line); reply.Topic != topic {
			t.Errorf("%q: %s\n%s", line, reply.Topic, reply.Text())
		}
	}
	if reply := k.Say("its cold outside, should i ride indoors"); reply.Topic == "sick" {
		t.Error(reply.Text())
	}
}
