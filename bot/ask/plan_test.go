package ask_test

import (
	"fmt"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
)

// worlds are riders as commands and as plan files tell them. Today is 1 June 2026.
var worlds = []struct{ name, week, races string }{
	{"a race far off", "tue intervals 1h30 5x3min; wed endurance 1h45; thu group 1h30; sat endurance 1h; sun long 3h30", "Hill Loop|2026-07-12|A|3.5"},
	{"three races", "mon recovery 40min; tue intervals 1h; wed easy 1h15; thu intervals 1h10; sat easy 1h; sun long 3h", "Quarry Crit|2026-06-07|C|1;Heron Valley|2026-06-14|B|2;Hill Loop|2026-07-05|A|3"},
	{"soon", "tue hard 1h; thu hard 1h; sat long 2h30", "Canal Loop|2026-06-13|A|2"},
	{"two goals", "mon off; tue intervals 1h15 4x4min; wed commute 1h; thu group 2h; fri off; sat recovery 45min; sun long 4h", "Fox Ride|2026-06-21|A|4;Long Pier|2026-07-26|A|1"},
	{"every day", "mon easy 30min; tue hard 45min; wed easy 1h; thu easy 1h; fri hard 1h; sat easy 1h; sun long 2h", "Weir Race|2026-06-28|B|1.5;Stone Ridge|2026-08-02|A|5"},
}

// planned is what `musette plan` plans from a file of the same facts.
func planned(t *testing.T, week, races string) *engine.Plan {
	var days, list []string
	for _, part := range strings.Split(week, "; ") {
		day, rest, _ := strings.Cut(part, " ")
		days = append(days, fmt.Sprintf("%q:%q", day, rest))
	}
	for _, r := range strings.Split(races, ";") {
		f := strings.Split(r, "|")
		list = append(list, fmt.Sprintf(`{"name":%q,"date":%q,"priority":%q,"hours":%s,"registered":"2026-06-01"}`, f[0], f[1], f[2], f[3]))
	}
	today, facts, faults := planfile.Read(fmt.Appendf(nil, `{"today":"2026-06-01","week":{%s},"races":[%s]}`, strings.Join(days, ","), strings.Join(list, ",")))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return engine.Derive(today, facts)
}

// Session, minutes and day of each answer are those of `musette plan` for the same facts.
func TestAnswersAreThePlan(t *testing.T) {
	for _, w := range worlds {
		t.Run(w.name, func(t *testing.T) {
			k := bottest.NewTalk(t)
			k.OK(`/week share week:"` + w.week + `"`)
			for _, r := range strings.Split(w.races, ";") {
				f := strings.Split(r, "|")
				k.OK(fmt.Sprintf("/race add name:%q date:%s priority:%s hours:%s", f[0], f[1], f[2], f[3]))
			}
			plan := planned(t, w.week, w.races)
			for i := 0; i < len(plan.Days); i += rounds.Every(1) {
				answersOfDay(k, &plan.Days[i])
			}
			for from := 0; from+6 < len(plan.Days); from += rounds.Every(5) {
				answersOfWeek(k, plan.Days[from:from+7])
			}
			for i := range plan.Tapers {
				answersOfTaper(k, &plan.Tapers[i])
			}
			for _, r := range strings.Split(w.races, ";") {
				answersAfterRace(k, plan, strings.Split(r, "|"))
			}
			if d, ok := plan.Day(planner.NewDate(2026, 6, 1)); ok {
				bottest.Wants(t, asks(k, "my legs feel flat", "flat-legs"), "Your plan for today is "+show.Careful(d))
			}
		})
	}
}

// answersOfDay asks of one day in ways that belong to different topics.
func answersOfDay(k *bottest.Talk, d *engine.Day) {
	for line, topic := range map[string]string{"what do i ride on ": "ride", "how hard should i ride on ": "how-hard", "why do i ride so on ": "why", "may i ride 10 minutes very easily on ": "may-i",
		"can't ride on ": "away", "what does Ines ride on ": "rider", "and ": "ride"} {
		k.As("Ines")
		switch k.Who.Coach = false; {
		case topic == "rider":
			k.As("Greta")
			k.Who.Coach = true
		case line == "and ":
			k.Say("what do i ride today")
		}
		reply := asks(k, line+d.Date.String(), topic)
		text := reply.Text()
		if reply.Date != d.Date {
			k.T.Errorf("%s%s: its day is %s", line, d.Date, reply.Date)
		}
		if k.As("Ines"); topic == "may-i" && d.Phase == planner.RaceDay {
			continue
		}
		if want := show.Headline(d); !strings.Contains(text, want) && !strings.Contains(text, show.SessionsLabel(d.Sessions, d.Race)) && !restIsTold(text, d) {
			k.T.Errorf("%s%s: the plan has %s, the answer:\n%s", line, d.Date, want, text)
		}
	}
}

// answersAfterRace asks for the days after a race.
func answersAfterRace(k *bottest.Talk, plan *engine.Plan, race []string) {
	reply := asks(k, "what do i do after "+race[0], "after-race")
	date, err := planner.ParseISODate(race[1])
	if err != nil {
		k.T.Fatal(err)
	}
	for day := date.AddDays(1); ; day++ {
		d, ok := plan.Day(day)
		if !ok || d.Phase != planner.Recovering {
			break
		}
		if line := strings.TrimSpace(show.DayLine(d).String()); !strings.Contains(reply.Text(), line) {
			k.T.Errorf("after %s the plan has %q, the answer:\n%s", race[0], line, reply.Text())
		}
	}
	if reply.Date != date.AddDays(1) || reply.Race != race[0] {
		k.T.Errorf("after %s: %s, %s", race[0], reply.Date, reply.Race)
	}
}

// restIsTold reports whether an answer calls a day without riding a rest day.
func restIsTold(text string, d *engine.Day) bool {
	return d.Minutes() == 0 && strings.Contains(text, "rest")
}

func answersOfWeek(k *bottest.Talk, days []engine.Day) {
	from, to := days[0].Date, days[len(days)-1].Date
	minutes := 0
	for i := range days {
		minutes += days[i].Minutes()
	}
	reply := asks(k, fmt.Sprintf("show me the plan from %s to %s", from, to), "plan")
	for i := range days {
		if line := show.DayLine(&days[i]).String(); !strings.Contains(reply.Text(), strings.TrimSpace(line)) {
			k.T.Errorf("the plan has %q, the answer:\n%s", line, reply.Text())
		}
	}
	hours := asks(k, fmt.Sprintf("how many hours in total from %s to %s", from, to), "hours")
	both := k.Say(fmt.Sprintf("what do i ride on %s? And how many hours in total from %s to %s?", from, from, to))
	if want := show.Headline(&days[0]); !strings.Contains(both.Text(), want) && !restIsTold(both.Text(), &days[0]) || !strings.Contains(both.Text(), planner.Duration(minutes)) {
		k.T.Errorf("%s and %s of the week from %s, the answer:\n%s", want, planner.Duration(minutes), from, both.Text())
	}
	for _, r := range []say.Reply{reply, hours} {
		if !strings.Contains(bottest.FirstLine(r), planner.Duration(minutes)) || r.Date != from {
			k.T.Errorf("from %s the plan has %s, the answer, of %s:\n%s", from, planner.Duration(minutes), r.Date, r.Text())
		}
	}
}

func answersOfTaper(k *bottest.Talk, taper *engine.Taper) {
	start := asks(k, "when does my taper for "+taper.Race.Name+" start", "taper-start")
	length := asks(k, "how long is my taper for "+taper.Race.Name, "taper-length")
	if start.Date != taper.From || length.Date != taper.From || start.Race != taper.Race.Name || !strings.Contains(start.Text(), taper.From.Long()) || !strings.Contains(length.Text(), show.Count(taper.Days, "day")) {
		k.T.Errorf("the taper of %s has %d days from %s, the answers:\n%s\n%s", taper.Race.Name, taper.Days, taper.From, start.Text(), length.Text())
	}
}
