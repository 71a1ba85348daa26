package plans_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/plans"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/season"
	"musette/storage"
)

// withResults is a talk of a rider who has raced three times and told how it went.
func withResults(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-03-02T08:00:00Z")
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Early Loop" date:2026-04-05 priority:A hours:3h taper:6`, `/race add name:"Mill Crit" date:2026-05-03 priority:B hours:1h`,
		`/race add name:"Quarry Tour" date:2026-05-31 priority:A hours:4h taper:13`, `/race add name:"Heron Valley" date:2026-07-19 priority:A hours:3h`)
	k.Who.Now = bottest.At("2026-06-02T08:00:00Z")
	return k
}

func TestTaperHistory(t *testing.T) {
	k := withResults(t)
	empty := k.OK("/taper history")
	bottest.Wants(t, empty, "I cannot say yet which length suits you: no race has been rated so far.", "After each race, tell me how your legs were, from 1 (empty) to 10 (never better), and whether it went worse than you expected, the same or better: /race result")
	k.OK(`/race result race:"Early Loop" feeling:8 compared:better`)
	bottest.Wants(t, k.OK("/taper history"), "Your plan has 8 days of taper for Heron Valley (Sun 19 Jul), the usual length for 10h10 of riding a week.\n1 race so far is too few to say which length suits you. I can begin to say something after 3 races, and to be sure often takes many more.\n")
	k.OK(`/race result race:"Mill Crit" feeling:7`, `/race result race:"Quarry Tour" feeling:5 compared:worse`)
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "Your plan has 8 days of taper for Heron Valley (Sun 19 Jul), the usual length for 10h10 of riding a week. By your races so far, the best length for you may be anything from ", "Your 3 races cannot narrow that down yet: legs also depend on", "\nYour best legs so far, 8 of 10, came after a taper of 6 days.\n",
		"Quarry Tour (A, Sun 31 May): 13 days with ", " less riding, legs 5 of 10, worse than expected\nMill Crit (B, Sun 3 May): no taper, legs 7 of 10\nEarly Loop (A, Sun 5 Apr): 6 days with ",
		"\nYou have not said yet how Mill Crit went, compared with what you expected.\n", "To find out which length suits you, you could try ", " days once, before Heron Valley (Sun 19 Jul), instead of the planned 8.", "Why: ", " would tell you a little more.", "\nIt is expected to cost you about ", " seconds in an hour of that race, once. What you learn counts in all races after it.\n", "Health comes first.")
	if !reply.Private || reply.Race != "Heron Valley" || len(reply.Buttons) != 5 || reply.Buttons[3].Label != "Mill Crit: as expected" {
		t.Fatalf("private %v, race %q, buttons %v", reply.Private, reply.Race, reply.Buttons)
	}
	onOneScreen(t, reply)
	before := whole(k)
	bottest.Wants(t, k.Press(reply, reply.Buttons[1].Label), "Good: Heron Valley keeps its planned ", "Nothing is changed.")
	if whole(k) != before {
		t.Error("no changes the plan")
	}
	bottest.Wants(t, k.Press(reply, "Mill Crit: worse than expected"), "worse than expected")
	if again := k.OK("/taper history"); len(again.Buttons) != 2 || strings.Contains(again.Text(), "You have not said yet") {
		t.Errorf("asked again: %v\n%s", again.Buttons, again.Text())
	}
	k.Press(reply, reply.Buttons[0].Label)
	if f := k.Facts(); f.Races[len(f.Races)-1].TaperDays == 0 || whole(k) == before {
		t.Error("yes changes nothing")
	}
	bottest.Wants(t, k.OK("/taper history"), " days for Heron Valley (Sun 19 Jul), most likely ", " days, as you set it.")
	k.Refused("/taper history try:yes", "try")
	k.Who.Now = bottest.At("2026-07-17T08:00:00Z")
	bottest.Wants(t, k.OK("/taper history"), "Nothing to try now: the length of your next taper is settled.")
	k.Who.Now = bottest.At("2026-07-20T08:00:00Z")
	bottest.Wants(t, k.OK("/taper history"), "Nothing to try now: you have no A race ahead. Register one: /race add")
}

// Nobody is asked to try anything while ill.
func TestNothingToTryWhileIll(t *testing.T) {
	k := withResults(t)
	k.OK(`/race result race:"Early Loop" feeling:8 compared:better`, `/race result race:"Quarry Tour" feeling:5 compared:worse`)
	bottest.Wants(t, k.OK("/taper history"), "you could try ")
	k.OK("/tell sick symptoms:fever")
	if reply := k.OK("/taper history"); !strings.Contains(reply.Text(), "\nNothing to try now: your health comes first.") || strings.Contains(reply.Text(), "you could try") {
		t.Errorf("ill:\n%s", reply.Text())
	}
}

// What is told on the evening of a race counts that evening, and taken back it counts no more.
func TestTaperHistoryOnRaceDay(t *testing.T) {
	k := withResults(t)
	k.Who.Now = bottest.At("2026-04-05T18:00:00Z")
	bottest.Wants(t, k.OK("/taper history"), "I cannot say yet which length suits you: no race has been rated so far.")
	told := k.OK(`/race result race:"Early Loop" feeling:8`)
	bottest.Wants(t, k.OK("/taper history"), "1 race so far is too few", "\nEarly Loop (A, Sun 5 Apr): 6 days with ", ", legs 8 of 10")
	k.Undo(told)
	bottest.Wants(t, k.OK("/taper history"), "I cannot say yet which length suits you: no race has been rated so far.")
	k.OK(`/race result race:"Early Loop" feeling:8`)
	k.Who.Now = bottest.At("2026-05-03T18:00:00Z")
	k.OK(`/race result race:"Mill Crit" feeling:7`)
	k.Who.Now = bottest.At("2026-05-31T18:00:00Z")
	k.OK(`/race result race:"Quarry Tour" feeling:3 compared:worse`)
	bottest.Wants(t, k.OK("/taper history"), "Your 3 races ", "\nQuarry Tour (A, Sun 31 May): 13 days with ", ", legs 3 of 10, worse than expected")
}

// A length after which legs were poor is not proposed again, and none beyond it, even if the rider had expected it; after the planned
// one that is said. No race that was given up is asked about.
func TestNoSecondTryOfWhatWentBadly(t *testing.T) {
	for _, tc := range []struct {
		days         int
		result, want string
	}{
		{11, "feeling:4", " taper:6"}, {11, "feeling:3 compared:same", " taper:6"}, {6, "feeling:3 compared:same", " taper:1"}, {6, "outcome:gave-up feeling:2", " taper:1"},
		{8, "feeling:3", "Why: Early Loop went badly after 8 days, and you have not raced after 6 days yet."},
	} {
		k := bottest.NewTalk(t)
		k.Who.Now = bottest.At("2026-02-02T08:00:00Z")
		k.OK("/week share week:\""+bottest.InesWeek+"\"", fmt.Sprintf(`/race add name:"Early Loop" date:2026-04-05 priority:A hours:3h taper:%d`, tc.days), `/race add name:"Heron Valley" date:2026-07-19 priority:A hours:3h`)
		k.Who.Now = bottest.At("2026-04-06T08:00:00Z")
		k.OK(`/race result race:"Early Loop" ` + tc.result)
		reply := k.OK("/taper history")
		bottest.Wants(t, reply, tc.want)
		if asks := strings.Contains(reply.Text(), "You have not said yet"); asks != !strings.Contains(tc.result, "compared") && !strings.Contains(tc.result, "gave-up") {
			t.Errorf("%s: asks %v:\n%s", tc.result, asks, reply.Text())
		}
	}
}

// Where both sides went badly there is nothing to try, whatever the rider had expected.
func TestNothingToTryWhereBothSidesWentBadly(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-02-02T08:00:00Z")
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Early Loop" date:2026-04-05 priority:A hours:3h taper:6`, `/race add name:"Quarry Tour" date:2026-05-31 priority:A hours:3h taper:10`, `/race add name:"Heron Valley" date:2026-07-19 priority:A hours:3h`)
	k.Who.Now = bottest.At("2026-06-02T08:00:00Z")
	k.OK(`/race result race:"Early Loop" feeling:4 compared:worse`, `/race result race:"Quarry Tour" feeling:4 compared:same`)
	bottest.Wants(t, k.OK("/taper history"), "There is nothing to try next: no other length that fits would teach you more than the planned 8 days for Heron Valley")
}

// Why a length is tried once more counts the races that had it.
func TestWhyTryCountsRaces(t *testing.T) {
	next := &season.Proposal{Days: 5, Planned: 8, Teaches: 0.1}
	for _, tc := range []struct {
		fives, eights int
		want          string
	}{
		{1, 0, "Why: one race may be luck. A second race after 5 days would tell you more."},
		{2, 0, "Why: even 2 races may be luck. A third race after 5 days would tell you more."},
		{4, 0, "Why: even 4 races may be luck. Another race after 5 days would tell you more."},
		{2, 1, "Why: after 5 days your legs were 7 and 7 of 10, after 8 days 6. That may be luck. A third race after 5 days would tell you more."},
		{3, 4, "Why: even 3 races may be luck. A fourth race after 5 days would tell you more."},
	} {
		h := &season.History{Tried: []season.Tried{{Days: 5, Legs: 7, Ill: true}, {Legs: 4}}}
		for range tc.fives {
			h.Tried = append(h.Tried, season.Tried{Days: 5, Legs: 7})
		}
		for range tc.eights {
			h.Tried = append(h.Tried, season.Tried{Days: 8, Legs: 6})
		}
		if got := plans.WhyTry(h, next); got != tc.want {
			t.Errorf("%d and %d races: %q, want %q", tc.fives, tc.eights, got, tc.want)
		}
	}
}

// Legs are compared by length where some length was ridden twice, and a far better one can be taken
// although the model expects less of a difference.
func TestLegsByLength(t *testing.T) {
	history := func(planned int, tried ...season.Tried) *season.History {
		return &season.History{Tried: tried, Proposal: &season.Proposal{Planned: planned}}
	}
	short, long := season.Tried{Days: 6, Legs: 9}, season.Tried{Days: 12, Legs: 6}
	five, ill := season.Tried{Days: 5, Legs: 9}, season.Tried{Days: 12, Legs: 1, Ill: true}
	for _, tc := range []struct {
		h    *season.History
		want string
	}{
		{history(8, short, short), ""},
		{history(8, short, short, long, ill), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (1 race)."},
		{history(8, short, short, long, season.Tried{Days: 12, Legs: 7}), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races) and 6.5 of 10 after 12 days (2 races). 6"},
		{history(8, short, short, season.Tried{Days: 7, Legs: 8}, long, long), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races), 8 of 10 after 7 days (1 race) and 6 of 10 after 12 days (2 races). 6"},
		{history(6, short, short, long, long), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (2 races)."},
		{history(8, season.Tried{Legs: 8}, season.Tried{Legs: 8}, short), "Your legs on average, by length of taper: 9 of 10 after 6 days (1 race) and 8 of 10 after no taper (2 races)."},
		{history(8, season.Tried{Legs: 8}, short, long), "Your best legs so far, 9 of 10, came after a taper of 6 days."},
		{history(8, season.Tried{Legs: 9}, short, long), ""},
		{history(7, five, five, short, short, long, long), "Your legs on average, by length of taper: 9 of 10 after 5 days (2 races), 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (2 races). 6"},
		{history(6, five, five, short, short, long, long), "Your legs on average, by length of taper: 9 of 10 after 5 days (2 races), 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (2 races)."},
		{history(13, short, short, long, long), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (2 races)."},
		{history(12, short, short, long, long), "Your legs on average, by length of taper: 9 of 10 after 6 days (2 races) and 6 of 10 after 12 days (2 races). 6"},
		{history(6, five, five, short, short, long, season.Tried{Days: 13, Legs: 6}, season.Tried{Days: 10, Legs: 6}), "Your legs on average, by length of taper: 9 of 10 after 5 days (2 races), 9 of 10 after 6 days (2 races), 6 of 10 after 10 days (1 race) and 6 of 10 after 12 days (1 race), and no better after 1 other length."},
	} {
		lines, trusted := plans.LegsLines(tc.h)
		got := (say.Reply{Lines: lines}).Text()
		if trusted > 0 {
			got += fmt.Sprint(" ", trusted)
		}
		if got != tc.want {
			t.Errorf("%+v:\n%s\nwant\n%s", tc.h.Tried, got, tc.want)
		}
	}
}

// A length after which legs were far better is the one advice of the screen, and one press takes it.
func TestLegsAreTrusted(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-02-02T08:00:00Z")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	for i, days := range []int{5, 13, 5, 13} {
		k.OK(fmt.Sprintf("/race add name:\"Loop %d\" date:%s priority:A hours:1h taper:%d", i+1, planner.NewDate(2026, 3, 8).AddDays(28*i), days))
	}
	k.OK("/race add name:Heron date:2026-07-19 priority:A hours:1h")
	k.Who.Now = bottest.At("2026-06-02T08:00:00Z")
	for i, legs := range []int{9, 4, 9, 4} {
		k.OK(fmt.Sprintf(`/race result race:"Loop %d" feeling:%d`, i+1, legs))
	}
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "If you trust your legs more, take 5 days for Heron (Sun 19 Jul), instead of the planned 8.")
	if strings.Contains(reply.Text(), "you could try") {
		t.Errorf("two pieces of advice:\n%s", reply.Text())
	}
	onOneScreen(t, reply)
	bottest.Wants(t, k.Press(reply, "Take 5 days"), "with its own taper of 5 days")
}

// What was learned stays on a phone's screen however many races there were, and says of health no more than others may read.
func TestTaperHistoryIsShort(t *testing.T) {
	k := withResults(t)
	for _, line := range []string{`/race result race:"Early Loop" feeling:8 note:"slept badly, fever after"`, "/tell sick symptoms:fever since:2026-05-25", "/tell well day:2026-05-27", `/race result race:"Quarry Tour" feeling:5`} {
		k.OK(line)
	}
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "legs 5 of 10. Not counted: shortly before it there was no training, for health reasons")
	for _, word := range []string{"fever", "slept", "ill"} {
		if strings.Contains(strings.ReplaceAll(strings.ToLower(reply.Text()), "mill", ""), " "+word) {
			t.Errorf("%s in %s", word, reply.Text())
		}
	}
	onOneScreen(t, reply)
}

// onOneScreen is at most 18 lines and 1,300 characters.
func onOneScreen(t *testing.T, r say.Reply) {
	t.Helper()
	if n, units := len(r.Lines), len(utf16.Encode([]rune(r.Text()))); n > 18 || units > 1300 {
		t.Errorf("%d lines, %d characters:\n%s", n, units, r.Text())
	}
}

// manyResults is a talk of a rider of whom six races have said that short tapers suit, fourteen more are over, and one is to come.
func manyResults(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2024-01-02T08:00:00Z")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	ctx, today := context.Background(), planner.NewDate(2024, 1, 2)
	for i := range 20 {
		race := planner.Race{Name: fmt.Sprintf("Loop %d", i+1), Date: today.AddDays(42 * (i + 1)), Priority: planner.PriorityA, Hours: 3, Days: 1, TaperDays: []int{14, 5}[i%2]}
		id, _, err := k.DB.AddRace(ctx, 1, today, race)
		if err == nil && i < 6 {
			err = k.DB.SetResult(ctx, 1, storage.Result{Race: id.ID, Feeling: []int{5, 8}[i%2]})
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	k.Who.Now = bottest.At("2026-04-22T08:00:00Z")
	k.OK(`/race add name:"Heron Valley" date:2026-07-19 priority:A hours:3h`)
	return k
}

// Where the rider's races leave the usual length out they decide: the answer to the result, the plan and
// the history say so, a plan file says the same, one press takes it back and one brings it again.
func TestRacesDecide(t *testing.T) {
	rounds.Skip(t, "that races decide a taper's length, as bot/plans tells it")
	k := manyResults(t)
	length := func() int {
		f := k.Facts()
		p := engine.Derive(planner.NewDate(2026, 4, 22), &f)
		return p.Tapers[len(p.Tapers)-1].Days
	}
	var told say.Reply
	races := 6
	for len(k.Facts().Taught) == 0 && races < 20 {
		races++
		told = k.OK(fmt.Sprintf(`/race result race:"Loop %d" feeling:%d`, races, []int{8, 5}[races%2]))
	}
	bottest.Wants(t, told, "Your races have taught something about your tapers.", "Heron Valley's taper falls from 8 to ", "/taper history")
	own := length()
	if own >= 8 || own < planner.LeastOwnDays {
		t.Fatalf("%d days", own)
	}
	suits := fmt.Sprintf("Your last %d races say %d days suit you: ", races, own)
	bottest.Wants(t, k.OK(`/plan show race:"Heron Valley"`), suits)
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, fmt.Sprintf("Your races point to a taper of about %d days for Heron Valley (Sun 19 Jul), most likely ", own), fmt.Sprintf("So it has %d days instead of the usual 8.", own))
	onOneScreen(t, reply)
	taught := k.Facts().Taught[0]
	_, f, faults := planfile.Read([]byte(fmt.Sprintf(`{"today":"2026-04-22","week":{"mon":"recovery 40min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45","thu":"off","fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"},
		"races":[{"name":"Heron Valley","date":"2026-07-19","priority":"A","hours":3}],"learned":[{"races":%d,"low":%d,"mid":%d,"high":%d}]}`, taught.Races, taught.Low, taught.Mid, taught.High)))
	if len(faults) > 0 || engine.Derive(planner.NewDate(2026, 4, 22), f).Tapers[0].Days != own {
		t.Errorf("a plan file with %+v says otherwise, faults %v", taught, faults)
	}
	bottest.Wants(t, k.OK("/plan options"), "and a training model, which would choose ", ", does not know your results.\n", "\nIf you would rather have the usual length, take 8 days.\nTake 8 days instead: ")
	no := k.Press(reply, "Back to the usual 8 days")
	bottest.Wants(t, no, "Done. The taper for an A race has the usual length for your hours, whatever your races say.")
	if n := length(); n != 8 {
		t.Errorf("taken back, yet %d days", n)
	}
	bottest.Wants(t, k.OK("/me show"), "The taper for an A race has the usual length for your hours")
	more := k.OK(fmt.Sprintf(`/race result race:"Loop %d" feeling:%d`, races+1, []int{8, 5}[(races+1)%2]))
	again := k.OK("/taper history")
	bottest.Wants(t, again, " days for Heron Valley (Sun 19 Jul)", "It has 8 days, the usual length for 10h10 of riding a week, because you chose that.")
	k.Press(again, "Let my races decide")
	if n := length(); n >= 9 {
		t.Errorf("brought back, yet %d days", n)
	}
	k.Undo(more)
	k.Undo(told)
	if n := length(); n != 8 || len(k.Facts().Taught) != 0 {
		t.Errorf("undone, yet %d days of %+v", n, k.Facts().Taught)
	}
}

// With no race ahead the length is told beside the usual one of the rider's own last race,
// and nothing is pointed to that is not narrowed down.
func TestTaperHistoryWithoutRaceAhead(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	for i, date := range []string{"2026-06-21", "2026-07-19", "2026-08-16"} {
		k.OK(fmt.Sprintf("/race add name:\"Loop %d\" date:%s priority:A hours:3", i, date))
	}
	bottest.Wants(t, k.OK("/taper history"), "Your plan has 8 days of taper for Loop 0 (Sun 21 Jun), the usual length")
	for i, date := range []string{"2026-06-22", "2026-07-20", "2026-08-17"} {
		k.Who.Now = bottest.At(date + "T08:00:00Z")
		k.OK(fmt.Sprintf("/race result race:\"Loop %d\" feeling:8", i))
	}
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "By your races so far, the best length for you may be anything from ", " days, where 8 are usual.\nYour 3 races cannot narrow that down yet")
	if strings.Contains(reply.Text(), "point to") {
		t.Errorf("races point to a length that they cannot narrow down:\n%s", reply.Text())
	}
}
