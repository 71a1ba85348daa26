package ask_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// dialogues are talks as impatient people write: a line, then what its answer holds. Today is Monday 1 June 2026; the
// races are Quarry Crit (C, 7 June), Heron Valley (B, 14 June) and Hill Loop (A, 12 July).
const dialogues = `
what do i ride tomorrow > Tomorrow, Tue 2 Jun: intervals
and thursday? > Thu 4 Jun: rest
why? > Thu 4 Jun: rest
and the week after? > Thu 11 Jun

what am i on sat > Sat 6 Jun: easy 1h45
same for sunday > Sun 7 Jun: RACE Quarry Crit
why so long > Race day: Quarry Crit

when does my taper start > Your taper for Hill Loop starts
what about the other race? > Quarry Crit (C, Sun 7 Jun) has no taper
no, the crit > Quarry Crit
not that one, hill loop > Your taper for Hill Loop starts
how long is it > Your taper for Hill Loop is 14 days long

when is heron valley > Heron Valley is on Sunday 14 June
and how long is the taper for it > Heron Valley (B, Sun 14 Jun) has no taper

what do i ride thursday > Thu 4 Jun
i meant next week > Thu 11 Jun
and friday? > Fri 12 Jun

how many hours this week > Mon 1 Jun to Sun 7 Jun
and next week? > Mon 8 Jun to Sun 14 Jun
i meant the week after > Mon 15 Jun to Sun 21 Jun

show me next week > Mon 8 Jun to Sun 14 Jun
and the one after > Mon 15 Jun to Sun 21 Jun
why is tuesday so hard > Tue 16 Jun

can't ride friday > Not saved yet
yes > Noted for Fri 5 Jun: away
what do i ride friday > Fri 5 Jun: rest

can't ride friday > Not saved yet
no > I store nothing
what do i ride friday > Fri 5 Jun: endurance

can't ride friday > Not saved yet
ok > Say yes
ok do it > Noted for Fri 5 Jun: away
undo > Fri 5 Jun

got a race on 20 june called canal loop, it's an A > Not saved yet
ok do it > Canal Loop is in your calendar: A race
when does its taper start > Your taper for Canal Loop starts

i've entered moor dash 28 june > how much does it matter
yes > Which of them
the b one > Moor Dash is in your calendar: B race

add moor dash 28 june > how much does it matter
A > Moor Dash is in your calendar: A race

rode 2h yesterday, felt awful > Not saved yet
yes please > Noted: 2h on Sun 31 May
what do i ride today > Today, Mon 1 Jun

may i do the group ride on thursday? > Thu 4 Jun
and on friday? > Fri 5 Jun
ok and an hour easy then? > Fri 5 Jun

may i do the group ride on thursday? > Thu 4 Jun
what if i only do an hour of it > Thu 4 Jun
or just half an hour easy? > Thu 4 Jun

i missed sunday > Do not make it up
do i make it up? > Sunday 31 May 2026
sorry, i meant saturday > Saturday 30 May 2026

what do i eat before the race > before a race of over 90 minutes
and during? > g of carbohydrate an hour
and after? > within two hours

how fresh will i be for hill loop > On the morning of Hill Loop
and for the crit > Quarry Crit

what do I ride today > Today, Mon 1 Jun
not today, tomorrow > Tomorrow, Tue 2 Jun
no wednesday > Wed 3 Jun

what do i ride the day before hill loop > Sat 11 Jul: openers
and the day before that > Fri 10 Jul
and the day after hill loop > Mon 13 Jul

is hill loop an A > It is an A race
make it a B > Make Hill Loop a race of priority B?
yes > Hill Loop is now: B race

i'm away next week > from Monday 8 June 2026 to Sunday 14 June 2026
from tuesday to thursday > from Tuesday 9 June 2026 to Thursday 11 June 2026
yes > Noted for Tue 9 Jun to Thu 11 Jun

i want to swap tuesday and wednesday > Not saved yet
do it > Swapped: Tue 2 Jun and Wed 3 Jun
undo > Swapped back

can i lift weights this week > Yes
and race week? > in the last 7 days before Hill Loop

what do i ride friday > Fri 5 Jun: endurance
that's too long > Fri 5 Jun
i only have 45 min > At most 45min on Friday 5 June 2026
yes > Noted: at most 45min

what's on tomorrow? > Tue 2 Jun
how hard? > Tue 2 Jun
and the day after > Wed 3 Jun

when's my next race > Quarry Crit is on
and the one after that > Heron Valley is on
how long till then > Heron Valley is on

my legs are dead > Flat or heavy legs
should i rest then > You may rest on Mon 1 Jun
what about tomorrow > Tue 2 Jun: intervals

do i ride on monday > Mon 1 Jun
are you sure > Mon 1 Jun: recovery
yes > I have proposed nothing

what do i ride on 6/7 > Which day do you mean?
the second one > Sun 7 Jun: RACE Quarry Crit
`

func TestDialogues(t *testing.T) {
	all := strings.Split(strings.TrimSpace(dialogues), "\n\n")
	if len(all) < 30 {
		t.Errorf("only %d dialogues", len(all))
	}
	for _, d := range all {
		k := bottest.WithRaces(t)
		talk := ""
		for line := range strings.Lines(d) {
			said, want, _ := strings.Cut(strings.TrimSpace(line), " > ")
			talk += "\n> " + said
			if reply := k.Say(said); reply.Err != nil || !strings.Contains(reply.Text(), want) {
				t.Errorf("%s\nwants %q:\n%s", talk, want, reply.Text())
				break
			}
		}
	}
}

// A yes counts for the person to whom something was proposed, for a while, and not when the talk is forgotten.
func TestYesIsOfOnePerson(t *testing.T) {
	k := bottest.WithRaces(t)
	proposed := func() { k.Say("can't ride friday") }
	unheard := func(why string) {
		if reply := k.Say("yes"); !strings.Contains(reply.Text(), "I have proposed nothing") {
			t.Errorf("%s: %s", why, reply.Text())
		}
	}
	unheard("nothing was said")
	proposed()
	k.As("Bram")
	unheard("another person")
	k.As("Ines")
	if err := k.Bot.Forget(t.Context(), k.Who); err != nil {
		t.Fatal(err)
	}
	unheard("forgotten")
	proposed()
	k.Say("what do i ride today")
	unheard("another question since")
	proposed()
	k.Who.Now = bottest.At("2026-06-01T08:11:00Z")
	unheard("eleven minutes ago")
}

// newRiders tell their week and their race in two messages, in any order, or in one.
var newRiders = [][]string{
	{"hi I ride tue and thu about an hour, sat 3 hours, sunday 2. hard on tuesdays", "my A race is Hill Loop on 12 july"},
	{"got a race on 13 june called canal loop, it's my big one", "i ride tues thurs and sundays"},
	{"I do about 7 hours a week, 4 rides, two of them hard, and my goal is Canal Loop on 27 June"},
	{"usual week mon off tue half ten group ride 2h wed off thu 1h intervals sat long", "race is sat 27 june, moor road race, A"},
	{"normaly i do tusday 1h hard, thurday 1h esy, sunday 3h longe", "i hav race 20.06. Cannal Lop, importent"},
	{"In my week I make Tuesday one hour the intervals, Thursday one hour soft, Sunday four hours with the group", "My principal race is the Windmill Road Race, the day 28 of June"},
	{"i ride 8 hrs a week, tue thu sat sun", "racing 28 june at moor dash its an A"},
	{"so im training for the beacon climb on the 5th of july its my main thing this year", "weekdays I get an hour tue wed thu and then 3 hours on sunday"},
	{"Racing Fen Edge Ten on 21 June (A). Week: Tue 1h intervals, Thu 1h, Sat 2h, Sun 3h long."},
	{"i want to taper for a crit on june 27th", "mon wed fri 1 hour each, sunday club run 3h"},
	{"commute mon to fri 30 min each way, long ride sunday 3h, hard group ride wednesday", "A race: Copper Loop, 4 July"},
}

// A new rider reaches a first useful plan within two messages of free text and two presses.
func TestNewRiders(t *testing.T) {
	for _, lines := range newRiders {
		k := bottest.NewTalk(t)
		presses := 0
		for _, line := range lines {
			reply := k.Say(line)
			for _, label := range wanted(reply) {
				k.Press(reply, label)
				presses++
			}
		}
		if text := k.Say("show my plan").Text(); !strings.HasPrefix(text, "Taper for ") || presses > 2 {
			t.Errorf("%q: after %d presses:\n%s", lines, presses, text)
		}
	}
}

// wanted are the buttons that a new rider presses: the week, and the race as an A race.
func wanted(reply say.Reply) (labels []string) {
	race := false
	for _, b := range reply.Buttons {
		switch {
		case b.Label == "Use this week":
			labels = append(labels, b.Label)
		case strings.HasPrefix(b.Label, "Add ") && !race:
			labels, race = append(labels, b.Label), true
		}
	}
	return labels
}

// What was read of a week is said back, so that whoever is misread sees it.
func TestWeeksAsPeopleTellThem(t *testing.T) {
	k := bottest.NewTalk(t)
	for line, read := range map[string]string{
		"my week is tue an hour hard, thu an hour easy, sat 3 hours long":     "tue 1h hard; thu 1h easy; sat 3 hours long",
		"commute mon to wed 20 min each way, long ride sunday 3h":             "mon commute 40min; tue commute 40min; wed commute 40min; sun long 3h",
		"usually I ride 6 hours a week, 3 rides, one of them hard":            "tue hard 110min; thu easy 110min; sun long 145min",
		"normal week: an hour tue thu and 2 hours on sunday":                  "tue 1h; thu 1h; sun 2 hours",
		"mon of; tue intrvals; wed 30km":                                      "mon off; tue intrvals 1h; wed 1h.",
		"my week is tue 1h intervals, thursday 80k, weekend long 100 km":      "tue 1h intervals; thu 3h; sat long 3h45.",
		"my normal week is tue half nine chaingang, thu 1h, sat 2h, sunday 3": "tue group 1h30; thu 1h; sat 2h; sun 3h",
	} {
		bottest.Wants(t, asks(k, line, "tell-week"), "I read: "+read)
	}
}

// Two sessions of a day stand beside each other in any way.
func TestTwoSessionsOfADay(t *testing.T) {
	k := bottest.NewTalk(t)
	for _, between := range []string{" + ", " and ", " & ", " then ", " and then ", ", ", " / ", " with ", " followed by "} {
		for _, hard := range []string{"intervals 1h 5x4min", "5x4min intervals 1h", "1h intervals 5x4min"} {
			line := "my week is tue commute 40min" + between + hard + ", thu gym 45min" + between + "easy 1h, sat long 3h, rest monday"
			bottest.Wants(t, asks(k, line, "tell-week"), "tue commute 40min; ", "thu gym 45min; easy 1h; sat long 3h; mon rest.")
		}
	}
	bottest.Wants(t, asks(k, "my week is tue commute 40min + intervals 1h 5x4min, thu hard 1h15, sat long 3h, rest monday", "tell-week"), "I read: tue commute 40min; intervals 1h 5x4min; thu hard 1h15; sat long 3h; mon rest.")
}

// A week and a race of one message are stored one after the other, also by words.
func TestWeekAndRaceOfOneMessage(t *testing.T) {
	k := bottest.NewTalk(t) // Monday 1 June 2026
	both := k.Say("hi, new here. my week is tue and thu hard 1h, long ride saturday 3h, rest monday, and I race the Hill Loop on 20 June, it's an A")
	bottest.Wants(t, both, "tue hard 1h; thu hard 1h; sat long 3h; mon rest", "Hill Loop on Saturday 20 June 2026, an A race")
	bottest.Wants(t, k.Say("use this week"), "5h on 3 days", "Not saved yet. Still to answer: Add Hill Loop.")
	bottest.Wants(t, k.Say("yes"), "Hill Loop is in your calendar", "Its taper takes")
	bottest.Wants(t, k.Say("yes"), "nothing that waits for a yes")
}
