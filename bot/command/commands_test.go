package command_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
)

// TestTableFitsChatServices holds the table to the limits that chat services
// put on commands, so that it can be uploaded as it is.
func TestTableFitsChatServices(t *testing.T) {
	name := regexp.MustCompile(`^[a-z0-9-]{1,32}$`)
	seen, groups := map[string]bool{}, map[string]int{}
	for _, c := range bot.Commands() {
		words := strings.Fields(c.Name)
		if len(words) > 2 || seen[c.Name] {
			t.Errorf("/%s: more than two words or there twice", c.Name)
		}
		seen[c.Name] = true
		groups[c.Group()] += len(words) - 1
		for _, w := range words {
			if !name.MatchString(w) {
				t.Errorf("/%s: %q is no name", c.Name, w)
			}
		}
		if n := utf8.RuneCountInString(c.Description); n < 1 || n > 100 {
			t.Errorf("/%s: description of %d characters", c.Name, n)
		}
		if len(c.Options) > 25 || c.Run == nil || c.Task == "" {
			t.Errorf("/%s: %d options, run %v, task %q", c.Name, len(c.Options), c.Run != nil, c.Task)
		}
		checkOptions(t, &c, name)
	}
	for group, n := range groups {
		if seen[group] && n > 0 || n > 25 || len(groups) > 100 {
			t.Errorf("/%s: is a command and a group, or has %d commands", group, n)
		}
	}
}

func checkOptions(t *testing.T, c *command.Command, name *regexp.Regexp) {
	t.Helper()
	optional, seen := false, map[string]bool{}
	for _, o := range c.Options {
		at := "/" + c.Name + " " + o.Name
		if !name.MatchString(o.Name) || seen[o.Name] {
			t.Errorf("%s: no name or there twice", at)
		}
		seen[o.Name] = true
		if n := utf8.RuneCountInString(o.Description); n < 1 || n > 100 {
			t.Errorf("%s: description of %d characters", at, n)
		}
		if o.Required && optional {
			t.Errorf("%s: required after an optional one", at)
		}
		optional = optional || !o.Required
		if len(o.Choices) > 25 || len(o.Choices) > 0 && o.Complete != command.CompleteNothing {
			t.Errorf("%s: %d choices, completes %d", at, len(o.Choices), o.Complete)
		}
		if _, err := o.Clean(o.Example); err != nil || o.Type == "" {
			t.Errorf("%s: example %q of type %q: %v", at, o.Example, o.Type, err)
		}
	}
}

func TestTableExamplesParse(t *testing.T) {
	for _, c := range bot.Commands() {
		req, err := read("/" + c.Example)
		if err != nil || req.Command != c.Name {
			t.Errorf("%s: got %q, %v", c.Example, req.Command, err)
		}
	}
}

// TestTypoInEveryOption: a wrong value is refused in the name of its option and
// changes nothing.
func TestTypoInEveryOption(t *testing.T) {
	bad := map[string][]string{
		"text": {strings.Repeat("x", 201)}, "question": {strings.Repeat("x", 2001)}, "race": {"Zzyzx"}, "races": {"Zzyzx", ";", "Hill Loop; Zzyzx", "Hill Loop 2026-06-15"}, "day": {"someday", "2026-02-30", "2026-13-01", "2020-01-01"},
		"choice": {"maybe"}, "hours": {"-1", "soon", "0", "49"}, "time": {"25:00", "noonish"}, "number": {"x", "0", "1000", "3.5"},
		"week": {"mon flying 40min", "tue intervals 25h", "40min"}, "minutes": {"soon", "-5", "25h"}, "zone": {"Mars/Olympus"},
		"weekday": {"someday", "tomorrow", "tue-x", "13 June"}, "sessions": {"flying 40min", "25h", "intervals", "40km"},
		"rider":   {"Zzyzx"},
		"session": {"flying 1h", "race 1h", "intervals 25h"},
		"days":    {"x", "-1", "61", "3.5"},
		"channel": {strings.Repeat("x", 201)}, "role": {strings.Repeat("x", 201)}, "member": {strings.Repeat("x", 201)},
		"rating": {"x", "0", "0.5", "10.5", "7.3", "-7", "NaN", "7/9"},
	}
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3.5`)
	k.Who.Now, k.Who.Coach = bottest.At("2026-05-15T08:00:00Z"), true // before the days of the examples
	tried := 0
	for _, c := range bot.Commands() {
		req, err := read("/" + c.Example)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range c.Options {
			if len(bad[o.Type]) == 0 && o.Name != "topic" {
				t.Errorf("/%s %s: no bad values of type %s", c.Name, o.Name, o.Type)
			}
			for _, value := range append([]string{"", "a\x07b", strings.Repeat("y", 2001)}, bad[o.Type]...) {
				options := map[string]string{}
				for name, v := range req.Options {
					options[name] = v
				}
				options[o.Name] = value
				if tried++; !rounds.Left(tried) {
					k.Refused(c.FormatLine(options), o.Name)
				}
			}
		}
	}
}
