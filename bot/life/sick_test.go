package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
)

// illness is what is known of illnesses and injuries, in short.
func ills(k *bottest.Talk) (out []string) {
	for _, ill := range k.Facts().Ill {
		to := "open"
		if !ill.To.IsZero() {
			to = ill.To.String()
		}
		kind := "ill"
		if ill.Injury {
			kind = "injured"
		}
		out = append(out, kind+" "+ill.From.String()+" "+to+" "+ill.Level.String()+" "+strings.Join(ill.Symptoms, "+"))
	}
	return out
}

func wantIlls(t *testing.T, k *bottest.Talk, want ...string) {
	t.Helper()
	if got := strings.Join(ills(k), "; "); got != strings.Join(want, "; ") {
		t.Errorf("told: %s, want %s", got, strings.Join(want, "; "))
	}
}

// An illness is told, goes on, is entered again and ends; each Undo leaves what was before.
func TestIllness(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	reply := k.OK(`/tell sick symptoms:"fever, cough" since:yesterday`)
	bottest.Wants(t, reply, "Noted: ill since Mon 1 Jun (fever, cough).", "! Do not train with this.", "Hill Loop on Sun 28 Jun", "every day is rest",
		`Coaches see only "not training: health"`, "/tell well")
	wantIlls(t, k, "ill 2026-06-01 open rest fever+cough")
	more := k.OK("/tell sick headache")
	bottest.Wants(t, more, "Noted: still ill since Mon 1 Jun (fever, cough, headache).")
	if strings.Contains(more.Text(), "Coaches see") {
		t.Errorf("what is stored is said twice:\n%s", more.Text())
	}
	k.Undo(more)
	wantIlls(t, k, "ill 2026-06-01 open rest fever+cough")
	earlier := k.OK("/tell sick since:saturday")
	wantIlls(t, k, "ill 2026-05-30 open rest fever+cough")
	k.Undo(earlier)
	wantIlls(t, k, "ill 2026-06-01 open rest fever+cough")
	bottest.Wants(t, k.OK("/plan show"), "so your plan has rest every day until you are well", "The plan for Hill Loop")
	bottest.Wants(t, k.OK("/me show"), "since Mon 1 Jun: ill (fever, cough)")
	k.Refused("/tell well day:2026-06-01", "day")
	k.Refused("/tell well day:2026-05-20", "day")
	k.Refused("/tell well day:tomorrow", "day")
	k.Refused("/tell sick since:tomorrow", "since")
	k.Refused("/tell sick since:someday", "since")
	well := k.OK("/tell well")
	bottest.Wants(t, well, "Noted: well from today, Tue 2 Jun.", "Fri 5 Jun, you ride again:")
	wantIlls(t, k, "ill 2026-06-01 2026-06-01 rest fever+cough")
	k.Refused("/tell well", "day")
	k.Undo(well)
	wantIlls(t, k, "ill 2026-06-01 open rest fever+cough")
	gone := k.OK("/tell sick symptoms:none")
	wantIlls(t, k)
	k.Undo(gone)
	wantIlls(t, k, "ill 2026-06-01 open rest fever+cough")
	k.Refused("/tell sick symptoms:none since:2026-05-30", "since")
	k.Refused("/tell injured what:none", "what")
}

func TestHeadColdAndInjury(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK(`/tell sick symptoms:"head cold"`), "With a head cold only", "/tell well")
	wantIlls(t, k, "ill 2026-06-01 open easy head cold")
	bottest.Wants(t, k.OK("/tell injured what:knee"), "injured from today", "No training with an injury")
	ask := k.OK("/tell well")
	bottest.Wants(t, ask, "Which is over")
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	bottest.Wants(t, k.Press(ask, "The injury"), "well from today, Wed 3 Jun")
	wantIlls(t, k, "ill 2026-06-01 open easy head cold", "injured 2026-06-01 2026-06-02 rest knee")
	k.Refused("/tell injured what:hip since:yesterday", "since")
	bottest.Wants(t, k.OK("/tell well cleared:not-yet"), "still ill, since Mon 1 Jun")
	bottest.Wants(t, k.OK("/tell well"), "well from today")
	k.Refused(`/tell sick symptoms:"`+strings.Repeat("x", planner.MaxText+1)+`"`, "symptoms")
}

// Common symptoms are offered, in a list as well.
func TestSymptomsAreOffered(t *testing.T) {
	k := bottest.NewTalk(t)
	if got := k.Offers("tell sick", "symptoms", "fev"); len(got) != 1 || got[0] != "fever" {
		t.Errorf("offered %v", got)
	}
	if got := k.Offers("tell sick", "symptoms", "fever, cou"); len(got) != 1 || got[0] != "fever, cough" {
		t.Errorf("offered %v", got)
	}
	if got := k.Offers("tell injured", "what", ""); len(got) < 8 {
		t.Errorf("offered %v", got)
	}
}

// What was graver than its symptoms say stays so when its end is undone.
func TestUndoOfWellKeepsHowGraveItWas(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/tell sick", `/tell sick symptoms:"runny nose"`)
	k.Who.Now = bottest.At("2026-06-06T08:00:00Z")
	before := k.Facts()
	k.Undo(k.OK("/tell well"))
	if after := k.Facts(); !bottest.SameFacts(before, after) || after.Ill[0].Level != planner.LevelRest {
		t.Errorf("%+v\nwas\n%+v", after.Ill, before.Ill)
	}
}

// What was planned on a day of which illness is told later is shown, and does not count as
// ridden; a race on such a day is asked about.
func TestIllnessToldLate(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3.5`, `/race add name:"Old Mill" date:2026-06-07 priority:C hours:1`)
	k.Who.Now = bottest.At("2026-06-09T08:00:00Z")
	shown := k.OK("/ride day:2026-06-08").Text()
	reply := k.OK("/tell sick symptoms:fever since:2026-06-06")
	bottest.Wants(t, reply, "ill since Sat 6 Jun", "Old Mill on Sun 7 Jun counts as ridden. If you did not start: /race result outcome:not-started")
	was, _, _ := strings.Cut(strings.SplitN(shown, ": ", 2)[1], ". Nothing is logged.")
	bottest.Wants(t, k.OK("/ride day:2026-06-08"), was+" was planned.", "it does not count as ridden")
	k.Who.Coach = true
	bottest.Wants(t, k.OK("/coach athlete Ines show:all"), "Sat 6 Jun  planned easy 2h20, not training: health", "Sun 7 Jun  planned RACE Old Mill 1h, nothing logged")
}

// Of a race weeks away an open injury says what must hold before a start, of one in two
// days that it is not started.
func TestRacesWhileHurt(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-20 priority:A hours:3.5`)
	bottest.Wants(t, k.OK("/tell injured what:knee"), "Hill Loop on Sat 20 Jun is 18 days away, too early to say whether you can start.", "free of pain since Wed 17 Jun or longer")
	for _, line := range []string{"/ride day:2026-06-20", "/plan why day:2026-06-20", "can I race Hill Loop?", "/plan show"} {
		if text := k.Say(line).Text(); strings.Contains(text, "Do not start") {
			t.Errorf("%s:\n%s", line, text)
		}
	}
	for _, line := range []string{"can I race Hill Loop?", "may I start Hill Loop", "am I ok to do hill loop then?"} {
		bottest.Wants(t, k.Say(line), "Start only if you have been free of pain")
	}
	k.OK(`/race add name:"Old Mill" date:2026-06-05 priority:C hours:1`)
	for _, line := range []string{"/ride day:2026-06-05", "/plan show", "may I start Old Mill?", "can i still race old mill", "is it ok to start old mill?"} {
		bottest.Wants(t, k.Say(line), "Do not start Old Mill")
	}
}

// Words that say more than a head cold are kept as more, whatever else they name.
func TestWorseThanWhatIsOffered(t *testing.T) {
	for line, want := range map[string]planner.Level{"I have a sore throat and a temperature": planner.LevelRest, "just a sore throat": planner.LevelEasy} {
		k := withWeek(t)
		reply := k.Say(line)
		f := k.Facts()
		if len(f.Ill) != 1 || f.Ill[0].Level != want || (want == planner.LevelRest) == strings.Contains(reply.Text(), "With a head cold only") {
			t.Errorf("%q: %+v\n%s", line, f.Ill, reply.Text())
		}
	}
}

// Well again too late for a race, the answer says not to start, and so does the season check.
func TestWellTooLateForARace(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3`)
	k.Who.Now = bottest.At("2026-06-10T08:00:00Z")
	k.OK("/tell injured what:knee")
	k.Who.Now = bottest.At("2026-06-12T08:00:00Z")
	const not = "! Do not start Hill Loop on Sun 14 Jun: you need more time after your injury."
	well := k.OK("/tell well")
	if n := strings.Count(well.Text(), not); n != 1 {
		t.Errorf("said %d times:\n%s", n, well.Text())
	}
	bottest.Wants(t, k.OK("/season check"), not, "So there is no season to weigh before that.")
}

// After a head cold riding begins again at once; the two days of rest belong to graver illness.
func TestWellAfterACold(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	k.OK(`/tell sick symptoms:"sore throat" since:yesterday`)
	well := k.OK("/tell well")
	bottest.Wants(t, well, "From here you come back step by step.", "you ride again")
	if strings.Contains(well.Text(), "without symptoms") {
		t.Errorf("days of rest are asked for after a cold:\n%s", well.Text())
	}
}
