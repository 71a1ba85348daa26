package bot_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
)

var (
	randomCommands = flag.Int("commands", rounds.Of(2000), "random commands that TestRandomCommands gives, and six times the calendars of TestOfferedRaceIsFound")
	randomSeed     = flag.Uint64("seed", 20260601, "other random commands")
)

// hardDay is the line of a day that has something hard.
var hardDay = regexp.MustCompile(`^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ \w{3} +(intervals|group|openers|RACE)`)

// secret is a word that only the rider who wrote it may ever read again.
const secret = "quokka"

// pools hold values of options, right ones and wrong ones, by the option's name,
// else by its type.
var pools = map[string][]string{
	"day":  {"today", "yesterday", "tomorrow", "friday", "2026-06-20", "2026-05-30", "6/7", "someday", "2026-06-31"},
	"date": {"2026-06-14", "2026-06-28", "12 July", "2026-06-03", "sunday", "2025-01-01"},
	"from": {"today", "tomorrow", "2026-06-08", "2026-06-19", "2026-05-25", "nonsense"}, "to": {"2026-06-10", "2026-06-21", "2026-06-01", "sunday"},
	"since": {"yesterday", "today", "2026-05-28", "2026-07-01"}, "until": {"2026-07-31", "2026-06-01"}, "end": {"2026-06-30", "2026-06-15"},
	"minutes": {"55", "1h30", "0", "none", "2h", "-5", "1_0"}, "hours": {"3", "1h15", "45", "0"}, "percent": {"20", "100", "none", "0"},
	"rpe": {"6", "8.5", "11", "1e1"}, "feeling": {"7", "3", "none", "12"}, "taper": {"auto", "7", "14", "3"}, "cut": {"auto", "40", "90"}, "days": {"1", "3", "0", "week", "all"},
	"race": {"Hill Loop", "Quarry Crit", "next", "hil", "Nowhere"}, "name": {"Hill Loop", "Quarry Crit", "Old Bridge", "Heart Attack Hill", "/plan show"},
	"week": {bottest.InesWeek, "tue intervals 1h 4x4min; sat long 2h; sun endurance 1h", "mon bananas", "tue 80km"}, "second": {"wed intervals 1h 4x4min; sat long 2h"},
	"session": {"endurance 1h", "intervals 1h15 5x4min", "rest", "bananas"}, "zone": {"Europe/Lisbon", "Europe/Lisabon"}, "remind": {"06:30", "always 07:00", "off", "25:00"}, "start": {"10:30", "8", "26:00"},
	"note": {secret + " legs", "chest pain on the climb", "fine", "no chest pain at all"}, "symptoms": {"fever", "runny nose", "banged my head", secret}, "what": {"sore knee", secret},
	"result": {"12th", "DNF"}, "athlete": {"Ines", "Tomas", "all"}, "text": {"Drink well", ""}, "place": {"Market Square"}, "kind": {"road race", "off", "travel", "none"},
	"question": {"what do I ride tomorrow?", "i have chest pain", "may i race on sunday"}, "make-b": {"Hill Loop"}, "back-to-a": {"Hill Loop"}, "pause": {"3", "0"},
}

// randomLine is one command with options of any kind.
func randomLine(r *rand.Rand, table []command.Command) (string, map[string]string) {
	cmd := table[r.IntN(len(table))]
	options := map[string]string{}
	for _, o := range cmd.Options {
		if !o.Required && r.IntN(3) > 0 {
			continue
		}
		pool := pools[o.Name]
		if len(o.Choices) > 0 {
			pool = o.Choices
		}
		if len(pool) == 0 {
			pool = []string{o.Example}
		}
		options[o.Name] = pool[r.IntN(len(pool))]
	}
	return cmd.Name, options
}

// lastDays are the answers for the days before today.
func lastDays(k *bottest.Talk) string {
	var b strings.Builder
	for back := range 2 {
		day := planner.DateOf(k.Who.Now).AddDays(-1 - back)
		b.WriteString(k.Say("/ride day:"+day.String()).Text() + "\n")
	}
	return b.String()
}

// Random commands, right and wrong, of two riders and a coach: nothing breaks, what
// is undone is as it was, days that are over stay, what is shown is what the
// planner says, hard sessions have cautions, nobody reads what is another's.
func TestRandomCommands(t *testing.T) {
	const each = 100
	for seed := range max(1, *randomCommands/each) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			t.Parallel()
			commandsOf(t, rand.New(rand.NewPCG(uint64(seed), *randomSeed)), each)
		})
	}
}

// commandsOf gives so many commands to a new club.
func commandsOf(t *testing.T, r *rand.Rand, each int) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30`)
	table := slices.DeleteFunc(bot.Commands(), func(c command.Command) bool {
		return c.Admin || c.Name == "me erase" || c.Name == "me export"
	})
	for step := range each {
		if step == each/2 {
			k.Who.Now = bottest.At("2026-06-06T08:00:00Z")
		}
		k.Who.Coach = r.IntN(5) == 0
		giveOne(t, k, r, table)
		k.Who.Coach = false
		if step%20 == 19 {
			showsThePlan(t, k)
			nobodyElseReads(t, k)
		}
	}
}

// giveOne gives a command, and now and then takes it back.
func giveOne(t *testing.T, k *bottest.Talk, r *rand.Rand, table []command.Command) {
	name, options := randomLine(r, table)
	line := fmt.Sprintf("/%s %v", name, options)
	before, past, looks := k.Stored(), "", r.IntN(4) == 0
	if looks {
		past = lastDays(k)
	}
	reply := k.Ask(name, options, "")
	if reply.Err != nil {
		if after := k.Stored(); !reflect.DeepEqual(before, after) && !held(k) {
			t.Fatalf("%s was refused (%s) and changed something", line, reply.Text())
		}
		return
	}
	for day := range strings.Lines(reply.Text()) {
		if hardDay.MatchString(day) && !strings.Contains(day, " !") {
			t.Fatalf("%s shows a hard day without a caution:\n%s", line, reply.Text())
		}
	}
	switch name {
	case "done", "tell missed", "tell sick", "tell injured", "tell well", "race result", "tell tired", "me set", "race change":
	default:
		if !looks || held(k) {
			break
		}
		if after := lastDays(k); after != past {
			t.Fatalf("%s changed days that are over:\n%s\nthey were\n%s", line, after, past)
		}
	}
	if i := slices.IndexFunc(reply.Buttons, func(b say.Button) bool { return b.Label == "Undo" }); i >= 0 && r.IntN(2) == 0 {
		if back := k.Press(reply, "Undo"); back.Err != nil {
			t.Fatalf("undo of %s: %s", line, back.Text())
		}
		if after := k.Stored(); !reflect.DeepEqual(before, after) {
			t.Fatalf("%s, undone:\n%+v\nbefore\n%+v", line, after, before)
		}
	}
}

// held reports a hold that nobody has ended.
func held(k *bottest.Talk) bool {
	f := k.Facts()
	return slices.ContainsFunc(f.Holds, func(h planner.Hold) bool { return h.Cleared.IsZero() })
}

// showsThePlan compares /ride with the planner, and looks for cautions.
func showsThePlan(t *testing.T, k *bottest.Talk) {
	facts := k.Stored().([]any)[4].(planner.Facts)
	if len(k.Facts().Weeks) == 0 {
		return
	}
	today := planner.DateOf(k.Who.Now)
	plan := engine.Derive(today, &facts)
	if held(k) {
		for _, line := range []string{"/ride", "/ride tomorrow", "/plan show", "/plan options", "/season check", "when does my taper start", "how fresh will I be"} {
			text := k.Say(line).Text()
			for _, session := range []string{"intervals", "openers", "RACE", "as training", "taper starts"} {
				if strings.Contains(text, session) {
					t.Fatalf("%s tells of %s while training is held:\n%s", line, session, text)
				}
			}
		}
		digestTells(t, k, plan)
		return
	}
	for _, d := range plan.Days[:min(4, len(plan.Days))] {
		text := k.Say("/ride day:" + d.Date.String()).Text()
		logged := slices.ContainsFunc(k.Facts().Done, func(ride planner.Ride) bool { return ride.Date == d.Date })
		if logged || d.Race != nil {
			continue
		}
		if !strings.Contains(text, show.Headline(&d)) {
			t.Fatalf("%s: the planner says %q, /ride says\n%s", d.Date, show.Headline(&d), text)
		}
		if d.IsHard() && !strings.Contains(text, "\n! ") {
			t.Fatalf("%s: a hard day without a caution:\n%s", d.Date, text)
		}
	}
	tellsTheSame(t, k, plan)
}

// digestTells compares what the coaches' digest says of the rider with the planner: the
// taper and its day, else the next race, and that health keeps from training, no more.
func digestTells(t *testing.T, k *bottest.Talk, plan *engine.Plan) {
	me := k.Who
	defer func() { k.Who = me }()
	facts := k.Facts()
	k.Who.Athlete, k.Who.Coach = "Tomas", true
	reply := k.Say("/coach digest")
	riders := "Ines: " // a digest of nothing names nobody
	if len(reply.Files) > 0 {
		riders = string(reply.Files[0].Data)
	} else if next := facts.NextRace(plan.Today); next != nil {
		if near := plan.Today.DaysUntil(next.Date); 0 <= near && near <= 7 {
			t.Fatalf("%s is in %d days, the digest says\n%s", next.Name, near, reply.Text())
		}
		riders += fmt.Sprintf("%s (%s, %s)", show.RaceName(next), next.Priority, show.Dated(next.Date, plan.Today))
	} else {
		riders += "no race to come"
	}
	_, text, found := strings.Cut("\n"+riders, "\nInes: ")
	line, rest, _ := strings.Cut(text, "\n")
	want := "no race to come"
	if next := facts.NextRace(plan.Today); next != nil {
		want = fmt.Sprintf("%s (%s, %s)", show.RaceName(next), next.Priority, show.Dated(next.Date, plan.Today))
	}
	tapers := 0
	for _, taper := range plan.Tapers {
		if taper.From <= plan.Today && plan.Today < taper.Race.Date {
			want, tapers = fmt.Sprintf(", taper day %d of %d", taper.From.DaysUntil(plan.Today)+1, taper.Days), 1
			break
		}
	}
	if !found || !strings.Contains(line, want) || strings.Contains(line, ", taper day ") != (tapers > 0) || strings.Contains(reply.Text(), "tapering now") != (tapers > 0) {
		t.Fatalf("the planner says %q of Ines, the digest says %q:\n%s", want, line, reply.Text())
	}
	mine, _, _ := strings.Cut("\n"+rest, "\n"+"Tomas")
	today, known := plan.Day(plan.Today)
	if ill := held(k) || known && today.Phase == planner.Health; ill && !strings.Contains(mine, "not training: health") {
		t.Fatalf("the digest does not say that Ines does not train:\n%s", riders)
	}
}

// tellsTheSame compares the days of /plan show, of the coach's view of the rider and of
// the reminder with the planner.
func tellsTheSame(t *testing.T, k *bottest.Talk, plan *engine.Plan) {
	me := k.Who
	defer func() { k.Who = me }()
	texts := map[string]string{"/plan show": k.Say("/plan show days:all").Text()}
	k.Who.Athlete, k.Who.Coach = "Tomas", true
	texts["/coach athlete"] = k.Say("/coach athlete athlete:Ines").Text()
	texts["/coach athlete, everything"] = k.Say("/coach athlete athlete:Ines show:all").Text()
	k.Who = me
	for what, text := range texts {
		text, _, _ = strings.Cut(text, "The last 7 days")
		for line := range strings.Lines(text) {
			for i := range plan.Days {
				d := &plan.Days[i]
				lead, label := show.DayLead(d.Date), show.SessionsLabel(d.Sessions, d.Race)
				if strings.HasPrefix(line, lead) && !strings.HasPrefix(line, lead+" "+label) && !strings.HasPrefix(line, lead+label) && !(d.Phase == planner.Health && strings.Contains(line, "not training: health")) {
					t.Fatalf("%s: the planner says %q, %s says %q", d.Date, label, what, line)
				}
			}
		}
	}
	digestTells(t, k, plan)
	reply, due := k.Reminder(plan.Today, k.Who.Now)
	d, _ := plan.Day(plan.Today)
	text := reply.Text()
	if due && d.Race == nil && strings.HasPrefix(text, "Today, ") && !strings.Contains(text, "ridden already") && !strings.Contains(text, "you do not ride") && !strings.Contains(text, show.Headline(d)) {
		t.Fatalf("%s: the planner says %q, the reminder says\n%s", d.Date, show.Headline(d), text)
	}
}

// nobodyElseReads looks for the rider's own words in what others are shown.
func nobodyElseReads(t *testing.T, k *bottest.Talk) {
	me := k.Who
	defer func() { k.Who = me }()
	k.Who.Athlete, k.Who.Coach = "Tomas", true
	for _, line := range []string{"/coach roster", "/coach digest", "/coach athlete athlete:Ines", "/race list"} {
		text := k.Say(line).Text()
		for _, word := range []string{secret, "fever", "chest", "banged", "runny"} {
			if strings.Contains(strings.ToLower(strings.ReplaceAll(text, "Chest pain, fainting", "")), word) {
				t.Fatalf("%s tells others %q:\n%s", line, word, text)
			}
		}
	}
	k.Who.Coach = false
	if reply := k.Say("/coach athlete athlete:Ines"); reply.Err == nil {
		t.Fatalf("a rider reads another's plan:\n%s", reply.Text())
	}
}
