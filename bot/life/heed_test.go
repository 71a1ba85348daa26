package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// stopped checks that a reply is the stop answer with its three answers, and that
// training is held back at a level from then on.
func stopped(t *testing.T, k *bottest.Talk, line string, level planner.Level) say.Reply {
	t.Helper()
	reply := k.Say(line)
	if reply.Err != nil || reply.Topic != say.TopicRedFlag || !reply.Private || !strings.HasPrefix(reply.Text(), "! ") || !strings.Contains(bottest.FirstLine(reply), "112") {
		t.Errorf("%s: no stop answer first (topic %s, private %v):\n%s", line, reply.Topic, reply.Private, reply.Text())
	}
	if len(reply.Buttons) != 3 || strings.Count(reply.Text(), "\n") > 24 {
		t.Errorf("%s: buttons %v:\n%s", line, reply.Buttons, reply.Text())
	}
	holds := k.Facts().Holds
	if len(holds) == 0 || holds[len(holds)-1].Level != level {
		t.Errorf("%s: holds %+v, want one of level %s", line, holds, level)
	}
	return reply
}

// Words of danger stop wherever a rider writes them, faults of the line and riders
// that are new included, and none of the words is kept.
func TestDangerStopsEverywhere(t *testing.T) {
	for line, level := range map[string]planner.Level{
		`/done minutes:55 note:"chest pain on the climb"`:              planner.LevelEmergency,
		`/done note:"chest pain on the climb"`:                         planner.LevelEmergency,
		`/done minutes:soon note:"I blacked out"`:                      planner.LevelEmergency,
		`/done notes:"I blacked out"`:                                  planner.LevelEmergency,
		`/tell missed note:"banged my head in a crash"`:                planner.LevelHead,
		`/race result race:"Old Mill" feeling:3 result:"DNF, fainted"`: planner.LevelEmergency,
		`/race result note:"lost consciousness"`:                       planner.LevelEmergency,
		`/week share week:"mon recovery 40min; tue chest pain"`:        planner.LevelEmergency,
		`/tell sick symptoms:"fever, chest pain"`:                      planner.LevelEmergency,
		`/tell sick symptoms:"fever, chest" since:"2 November"`:        planner.LevelEmergency,
		`/tell injured what:"broken collarbone"`:                       planner.LevelDoctor,
		`/tell limit day:friday minutes:"none, I have chest pain"`:     planner.LevelEmergency,
		`/ride I have chest pain`:                                      planner.LevelEmergency,
		`/nosuch I have chest pain`:                                    planner.LevelEmergency,
		`I have chest pain`:                                            planner.LevelEmergency,
		`dor no peito na subida`:                                       planner.LevelEmergency,
	} {
		for _, known := range []bool{true, false} {
			k := bottest.NewTalk(t)
			if known {
				k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Old Mill" date:2026-06-01 priority:C hours:2`)
			}
			stopped(t, k, line, level)
			facts := k.Facts()
			if rides := len(facts.Done); rides > 1 || rides == 1 && !strings.Contains(line, "minutes:55") && !strings.Contains(line, "missed") {
				t.Errorf("%s: logged %+v", line, facts.Done)
			}
			if len(facts.Ill) > 0 {
				t.Errorf("%s: ill %+v besides the hold", line, facts.Ill)
			}
			if strings.Contains(k.Log.String(), "chest") {
				t.Errorf("%s: words in the log:\n%s", line, k.Log)
			}
		}
	}
}

// The minutes that came with words of danger are kept, the words are not.
func TestMinutesAreKeptWithoutWords(t *testing.T) {
	k := withWeek(t)
	reply := stopped(t, k, `/done minutes:55 rpe:8 note:"chest pain on the climb"`, planner.LevelEmergency)
	bottest.Wants(t, reply, "Noted: 55min on Tue 2 Jun", "Your words are not kept.", `Coaches see only "not training: health"`)
	who, err := k.Base.Rider(t.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	rides, err := k.DB.Rides(t.Context(), who.Athlete.ID, who.Today)
	if err != nil || len(rides) != 1 || rides[0].Minutes != 55 || rides[0].RPE != 8 || rides[0].Note != "" {
		t.Errorf("rides %+v, %v", rides, err)
	}
	if again := stopped(t, k, `/tell missed day:2026-05-31 note:"chest pain"`, planner.LevelEmergency); strings.Contains(again.Text(), "Coaches see") {
		t.Errorf("what is stored is said twice:\n%s", again.Text())
	}
}

// The rider's own names, and what only sounds like danger, stop nothing.
func TestNamesDoNotStop(t *testing.T) {
	k := withWeek(t)
	for _, line := range []string{`/race add name:"Heart Attack Hill" date:2026-06-28 priority:A hours:3.5 place:"Concussion Corner"`,
		`/done day:2026-05-31 note:"rode up heart attack hill, see you soon"`, `/plan show race:"Heart Attack Hill"`,
		`/week share week:"mon recovery 40min; thu rest; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"`} {
		k.OK(line)
	}
	if h := k.Facts().Holds; len(h) > 0 {
		t.Errorf("holds %+v", h)
	}
}

// Where it may be danger it is asked, in a line. Until it is answered, by a button or in
// words, training is held back. Yes keeps it back, no does not.
func TestDoubtAsks(t *testing.T) {
	k := withWeek(t)
	ask := func() say.Reply {
		reply := k.Say("my heart was racing")
		if reply.Topic != say.TopicRedFlag || len(reply.Buttons) != 2 || len(k.Facts().Holds) != 1 {
			t.Fatalf("no question: %v\n%s", reply.Buttons, reply.Text())
		}
		if text := k.OK("/ride").Text(); strings.Contains(text, "intervals") {
			t.Fatalf("asked and not answered, it goes on:\n%s", text)
		}
		k.Refused("/done", "minutes")
		return reply
	}
	if no := k.Press(ask(), "No, I do not"); no.Err != nil || len(k.Facts().Holds) > 0 {
		t.Errorf("no: %s", no.Text())
	}
	bottest.Wants(t, k.OK("/ride"), "intervals")
	for _, no := range []string{"no", "No, I don't.", "nope", "false alarm"} {
		ask()
		if reply := k.Say(no); reply.Err != nil || len(k.Facts().Holds) > 0 {
			t.Errorf("%q: %s", no, reply.Text())
		}
	}
	ask()
	if late := k.Say("thanks"); len(k.Facts().Holds) != 1 {
		t.Errorf("thanks: %s", late.Text())
	}
	if late := k.Say("no"); len(k.Facts().Holds) != 1 {
		t.Errorf("a no to something else: %s", late.Text())
	}
	k.Press(k.OK("/ride"), "You misread me")
	ask()
	bottest.Wants(t, k.Say("yes, since this morning"), "From today I plan no training")
	if again := k.Say("my heart was racing"); len(again.Buttons) != 3 || len(k.Facts().Holds) != 1 {
		t.Errorf("held already, it is asked what is known: %s", again.Text())
	}
	yes := k.Press(k.OK("/ride"), "You misread me")
	if yes = k.Press(ask(), "Yes, I have that"); yes.Topic != say.TopicRedFlag || len(k.Facts().Holds) != 1 {
		t.Errorf("yes: %s", yes.Text())
	}
}

// A doubt on the day of a doctor's word does not take that word away.
func TestDoubtAfterClearance(t *testing.T) {
	k := withWeek(t)
	stopped(t, k, "I banged my head", planner.LevelHead)
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	k.OK("/tell well cleared:yes")
	before := k.Stored()
	reply := k.Say("what if i bang my head again")
	if reply.Topic != say.TopicRedFlag {
		t.Fatalf("not asked: %s", reply.Text())
	}
	k.Say("no")
	if after := k.Stored(); !sameStored(before, after) {
		t.Errorf("the clearance is gone: %+v", k.Facts().Holds)
	}
}

// Who may harm themselves gets words of their own; the plan and what coaches see stay.
func TestTalkIsGentle(t *testing.T) {
	k := withWeek(t)
	before := k.Stored()
	for _, line := range []string{"I want to die", `/tell sick symptoms:"I want to die"`, `/week share week:"I want to die"`} {
		reply := k.Say(line)
		if reply.Topic != say.TopicRedFlag || !strings.HasPrefix(reply.Text(), "Thank you for telling me.") || len(reply.Buttons) > 0 {
			t.Errorf("%s:\n%s", line, reply.Text())
		}
	}
	if !sameStored(before, k.Stored()) {
		t.Error("something is stored")
	}
	reply := k.Say(`/done note:"I want to die"`)
	bottest.Wants(t, reply, "Thank you for telling me.", "Noted: 1h30 on Tue 2 Jun")
}

// A fever in a note is no stop: the command is done, and the illness is entered, or
// offered where the note is about a day that is long over.
func TestFeverInANote(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Old Mill" date:2026-06-02 priority:C hours:2`)
	reply := k.OK(`/race result race:"Old Mill" feeling:5 result:"DNF, fever 39" note:"windy"`)
	bottest.Wants(t, reply, "legs 5 of 10, DNF, fever 39.", "Your coaches do not see this result", "Do not train with this.", "ill from today, Tue 2 Jun (fever)")
	who, _ := k.Base.Rider(t.Context(), k.Who)
	results, err := k.DB.Results(t.Context(), who.Athlete.ID)
	for _, r := range results {
		if err != nil || r.Note != "windy" {
			t.Errorf("%+v, %v", r, err)
		}
	}
	k.Press(reply, "I am not ill")
	if ill := k.Facts().Ill; len(ill) > 0 {
		t.Errorf("still ill: %+v", ill)
	}
	old := k.OK(`/done 40 day:2026-05-28 note:"fever the night before"`)
	if len(k.Facts().Ill) > 0 {
		t.Errorf("ill by a note of last week: %s", old.Text())
	}
	bottest.Wants(t, k.Press(old, "I am ill"), "Noted: ill")
}

// An illness that is told in plain words counts at once, on each road: the plan, the
// reminder and the press that logs a ride as planned know of it.
func TestPlainIllnessCounts(t *testing.T) {
	for line, level := range map[string]planner.Level{
		"i have a fever": planner.LevelRest, "I've been throwing up all night": planner.LevelRest, "got a head cold": planner.LevelEasy,
		`/ask question:"i have a fever, can i ride on friday?"`: planner.LevelRest, "my knee hurts when i pedal": planner.LevelRest,
		`/tell missed note:"fever since yesterday"`: planner.LevelRest,
	} {
		k := withWeek(t)
		k.OK(`/me set remind:"always 06:30"`, `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3.5`)
		rode := say.Reply{Buttons: []say.Button{{Label: "Rode it", Command: "done", Options: map[string]string{"day": "2026-06-02"}}}}
		reply := k.Say(line)
		if ill := k.Facts().Ill; len(ill) != 1 || ill[0].Level != level {
			t.Errorf("%s: ill %+v\n%s", line, ill, reply.Text())
		}
		bottest.Wants(t, reply, "! ", "Noted: ", "I am not ", "/me erase")
		for _, day := range []string{"", " tomorrow"} {
			if text := k.OK("/ride" + day).Text(); strings.Contains(text, "intervals") || !strings.Contains(text, "rest") {
				t.Errorf("%s, then /ride%s:\n%s", line, day, text)
			}
		}
		if strings.HasPrefix(line, "/tell missed") {
			continue
		}
		if text := k.Press(rode, "Rode it").Text(); strings.Contains(text, "as planned") {
			t.Errorf("%s: logged as planned:\n%s", line, text)
		}
		if morning, due := k.Reminder(planner.NewDate(2026, 6, 3), bottest.At("2026-06-03T04:30:00Z")); due && (strings.Contains(morning.Text(), "min hard") || strings.Contains(morning.Text(), "endurance")) {
			t.Errorf("%s: the reminder goes on:\n%s", line, morning.Text())
		}
		k.Press(reply, reply.Buttons[0].Label)
		if ill := k.Facts().Ill; len(ill) > 0 {
			t.Errorf("%s: %s leaves %+v", line, reply.Buttons[0].Label, ill)
		}
	}
}

// While training is held back nothing shows a session, and each answer ends it or not.
func TestHoldLasts(t *testing.T) {
	k := withWeek(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	before := k.Facts()
	stop := stopped(t, k, `I have chest pain`, planner.LevelEmergency)
	for _, line := range []string{"/ride", "/ride tomorrow", "/plan show", "/plan show days:all", `/plan show race:"Hill Loop"`, "/tell well", "/tell well cleared:not-yet"} {
		reply := k.OK(line)
		if len(reply.Buttons) != 3 || len(reply.Files) > 0 || strings.Contains(reply.Text(), "intervals") || !strings.Contains(reply.Text(), "112") {
			t.Errorf("%s goes on:\n%s", line, reply.Text())
		}
	}
	for _, line := range []string{"/plan options", "/season check", "/tell sick symptoms:none", `/race add name:"Town Lap" date:2026-07-19 priority:A hours:2`, "/plan why tomorrow"} {
		if text := k.Say(line).Text(); strings.Contains(text, "intervals") || strings.Contains(text, "Ridden as training") {
			t.Errorf("%s goes on:\n%s", line, text)
		}
	}
	k.Refused("/done", "minutes")
	k.Refused("/plan move from:friday to:saturday", "from")
	back := k.Press(stop, "You misread me")
	bottest.Wants(t, back, "Your plan is back.", "What changes in your plan:")
	if len(k.Facts().Holds) > 0 || !strings.Contains(k.OK("/ride").Text(), "intervals") {
		t.Errorf("held still: %+v", k.Facts().Holds)
	}
	if again := k.Press(back, "Undo"); again.Topic != say.TopicRedFlag || len(k.Facts().Holds) != 1 {
		t.Errorf("undone: %s", again.Text())
	}
	cleared := k.Press(stop, "A doctor has cleared me")
	bottest.Wants(t, cleared, "a doctor has cleared you", "you ride again:")
	if got := k.Facts(); len(got.Done) != len(before.Done) || got.Holds[0].Cleared.IsZero() {
		t.Errorf("not cleared: %+v", got.Holds)
	}
}

// An old button ends no other stop than its own, and no illness taken back ends any.
func TestNothingElseEndsAHold(t *testing.T) {
	k := withWeek(t)
	first := stopped(t, k, "palpitations since this morning", planner.LevelDoctor)
	k.OK("/tell sick symptoms:fever", "/tell sick symptoms:none")
	stopped(t, k, "I banged my head", planner.LevelHead)
	reply := k.Press(first, "You misread me")
	bottest.Wants(t, reply, "held back for a knock to the head, entered on Tue 2 Jun")
	k.Refused("/tell well day:yesterday cleared:maybe", "cleared")
	if len(k.Facts().Holds) != 1 {
		t.Errorf("%+v", k.Facts().Holds)
	}
	bottest.Wants(t, k.OK("/tell well cleared:yes"), "step by step: 20, 30, 40, 45, 60 minutes")
}

func sameStored(a, b any) bool {
	return bottest.SameFacts(a.([]any)[2].(planner.Facts), b.([]any)[2].(planner.Facts)) && a.([]any)[1].(storage.Athlete).ID == b.([]any)[1].(storage.Athlete).ID
}

// A line that tells of an illness and of nothing else that is understood is answered as
// such, without the list of what the bot can do.
func TestIllnessAlone(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.Say("i have a headache from work")
	bottest.Wants(t, reply, "! Do not train with this", "/tell sick")
	if strings.Contains(reply.Text(), "/race add") || reply.Topic != "sick" {
		t.Errorf("%s: %s", reply.Topic, reply.Text())
	}
}

// No option is deaf to what riders say of themselves.
func TestEveryOptionHears(t *testing.T) {
	for _, line := range []string{`/help "I have chest pain"`, `/help topic:"chest pain since this morning"`, `/me set zone:"I have chest pain"`, `/plan show race:"I have chest pain"`, `/race join race:"I fainted"`,
		`/race add name:"I have chest pain" date:2026-06-14 priority:A hours:3`, `/race add name:"Hill Loop" date:2026-06-14 priority:"A, I have chest pain" hours:3`, `/tell away from:tomorrow kind:"I have chest pain"`,
		`/race change race:"Hill Loop" place:"I have chest pain"`, `/plan calendar "I have chest pain"`} {
		k := withWeek(t)
		stopped(t, k, line, planner.LevelEmergency)
	}
}
