package bot_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
)

// toRide is a hard session that somebody could go and ride.
var toRide = regexp.MustCompile(`(?i)\bintervals\b|\bopeners\b|\bgroup (ride|\d)|(?-i:RACE)\b|\d ?x ?\d|ridden as training|\bhard (day|session|part|ride)s?\b|chaingang`)

// echoes are commands whose answers repeat what the rider entered, or that explain the bot.
var echoes = map[string]bool{"week share": true, "week show": true, "week change": true, "week withdraw": true, "me show": true, "me export": true, "me erase": true, "help": true, "club set": true}

// heldTalk is a rider with a week and races, whose training is held back.
func heldTalk(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3.5 start:10:30`, `/race add name:"Quarry Crit" date:2026-06-04 priority:C hours:1`)
	k.Say("I have chest pain")
	return k
}

// While training is held back no command names a hard session as something to ride,
// in its lines, its buttons or its files.
func TestHeldCommandsNameNoSession(t *testing.T) {
	for _, cmd := range bot.Commands() {
		if cmd.Coach || cmd.Admin || echoes[cmd.Name] || cmd.Name == "tell well" { // which ends it
			continue
		}
		k := heldTalk(t)
		lines := []string{"/" + cmd.Name, "/" + cmd.Example}
		for _, o := range cmd.Options {
			if o.Type == "day" {
				lines = append(lines, fmt.Sprintf("/%s %s:tomorrow", cmd.Name, o.Name), fmt.Sprintf("/%s %s:friday", cmd.Name, o.Name))
			}
			for _, choice := range o.Choices {
				lines = append(lines, fmt.Sprintf("/%s %s:%s", cmd.Name, o.Name, choice))
			}
			if o.Type == "race" {
				lines = append(lines, fmt.Sprintf("/%s %s:\"Hill Loop\"", cmd.Name, o.Name))
			}
		}
		for _, line := range lines {
			namesNoSession(t, k, line)
		}
	}
}

// Nor does the answer to any question that writers asked.
func TestHeldQuestionsNameNoSession(t *testing.T) {
	files, err := filepath.Glob("../testdata/asked/hand-*.tsv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no questions: %v", err)
	}
	k := heldTalk(t)
	i := 0
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for row := range strings.Lines(string(raw)) {
			f := strings.SplitN(strings.TrimSpace(row), "\t", 4)
			if i++; len(f) < 4 || i%rounds.Every(11) > 0 || strings.HasPrefix(f[0], "tell-week") {
				continue
			}
			namesNoSession(t, k, f[3])
			if !held(k) {
				t.Fatalf("%q ended the hold", f[3])
			}
		}
	}
}

// pastOrOwn is what was planned for a day that is over, and the examples of a week and of questions.
var pastOrOwn = regexp.MustCompile(`\b(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day \d+ May 2026 had |You rode on |Your plan had |The hard sessions of a taper |/week share week:|^For example: what do I ride tomorrow\?`)

func namesNoSession(t *testing.T, k *bottest.Talk, line string) {
	t.Helper()
	reply := k.Say(line)
	if reply.Err != nil {
		return
	}
	texts := []string{reply.Text()}
	for _, f := range reply.Files {
		texts = append(texts, string(f.Data), f.Alt)
	}
	for _, text := range texts {
		for said := range strings.Lines(text) {
			if pastOrOwn.MatchString(said) {
				continue
			}
			if toRide.MatchString(said) && !strings.Contains(strings.ToLower(line), strings.ToLower(toRide.FindString(said))) {
				t.Errorf("%s names a session while training is held back: %s", line, said)
			}
		}
	}
}
