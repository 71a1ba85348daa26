package command_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/planner"
)

// read parses a line and checks its options, as the bot does.
func read(line string) (desk.Request, error) {
	req, err := command.ParseLine(bot.Commands(), line)
	if err != nil || req.Command == "" {
		return req, err
	}
	cmd, err := command.Find(bot.Commands(), req.Command)
	if err != nil {
		return req, err
	}
	req.Options, err = cmd.Check(req.Options)
	return req, err
}

func TestParseLine(t *testing.T) {
	type options = map[string]string
	for _, tc := range []struct {
		line, command string
		want          options
	}{
		{`/race add name:"Hill Loop" date:2026-06-13 priority:A`, "race add", options{"name": "Hill Loop", "date": "2026-06-13", "priority": "A"}},
		{`/race add name: Hill Loop date: 13 June priority: a`, "race add", options{"name": "Hill Loop", "date": "13 June", "priority": "A"}},
		{`/race add Hill Loop date:13 June priority:A start:10:30`, "race add", options{"name": "Hill Loop", "date": "13 June", "priority": "A", "start": "10:30"}},
		{`/race add "Hill Loop" priority:A date:sat`, "race add", options{"name": "Hill Loop", "date": "sat", "priority": "A"}},
		{`/race add name:"The \"Old\" \\ Loop\n" date:sat priority:A`, "race add", options{"name": `The "Old" \ Loop\n`, "date": "sat", "priority": "A"}},
		{`/race add name:“Hill Loop” date:sat priority:A`, "race add", options{"name": "Hill Loop", "date": "sat", "priority": "A"}},
		{`/race add name:"Stage 1: date: hills" date:sat priority:A`, "race add", options{"name": "Stage 1: date: hills", "date": "sat", "priority": "A"}},
		{`/race add name:d'Or 5" tour date:sat priority:A`, "race add", options{"name": `d'Or 5" tour`, "date": "sat", "priority": "A"}},
		{`/RACE Add NAME:x Date:sat PRIORITY:a`, "race add", options{"name": "x", "date": "sat", "priority": "A"}},
		{"  /race\tadd\tname:x\tdate:sat\tpriority:A  ", "race add", options{"name": "x", "date": "sat", "priority": "A"}},
		{`/ride`, "ride", options{}},
		{`/ride tomorrow`, "ride", options{"day": "tomorrow"}},
		{`/ride day:tomorrow`, "ride", options{"day": "tomorrow"}},
		{`/plan why friday`, "plan why", options{"day": "friday"}},
		{`/race remove Hill Loop`, "race remove", options{"race": "Hill Loop"}},
		{`/week share mon: recovery 40min; Tue: off`, "week share", options{"week": "mon: recovery 40min; Tue: off"}},
		{`/week share week:mon off from:mon`, "week share", options{"week": "mon off", "from": "mon"}},
		{`/me set taper:auto openers:d-2 announce:OFF`, "me set", options{"taper": "auto", "openers": "D-2", "announce": "off"}},
		{`/help RACE`, "help", options{"topic": "race"}},
		{"/race list", "race list", options{}},
	} {
		got, err := read(tc.line)
		if err != nil || got.Command != tc.command || !reflect.DeepEqual(got.Options, tc.want) {
			t.Errorf("%s:\n got %q %v, %v\nwant %q %v", tc.line, got.Command, got.Options, err, tc.command, tc.want)
		}
	}
}

func TestParseLineRefuses(t *testing.T) {
	for _, tc := range []struct{ line, field, says string }{
		{`/race add name:"Hill Loop date:sat priority:A`, "name", "closing quote"},
		{`/race add name:"Hill" Loop date:sat priority:A`, "name", "after its closing quote"},
		{`/race add name:"Hill"Loop date:sat priority:A`, "name", "after its closing quote"},
		{`/race add name:x dat:sat priority:A`, "dat", "Did you mean date?"},
		{`/race add name:"x" dat:sat priority:A`, "dat", "Did you mean date?"},
		{`/race add nmae:x date:sat priority:A`, "nmae", "Did you mean name?"},
		{`/race add name:x date:sat priority:A colour:red`, "colour", "It takes name, date"},
		{`/race add name:x date:sat date:sun priority:A`, "date", "twice"},
		{`/race add Hill name:x date:sat priority:A`, "name", "twice"},
		{`/race add name:x date:sat`, "priority", "missing"},
		{`/race add`, "name", "missing"},
		{`/race add name: date:sat priority:A`, "name", "empty"},
		{`/race add name:"  " date:sat priority:A`, "name", "empty"},
		{`/race add name:x date:sat priority:D`, "priority", "A, B or C"},
		{`/race add name:` + strings.Repeat("é", 201) + ` date:sat priority:A`, "name", "longer than 200"},
		{`/week share week:` + strings.Repeat("x", 2001), "week", "longer than 1542"},
		{`/race list all`, "command", "no options"},
		{`/race list all:yes`, "all", "no options"},
		{`/race`, "command", "needs one of: /race add, "},
		{`/race series name:x until:sat`, "command", "repeat:weekly until:"},
		{`/race ad name:x`, "command", "/race add?"},
		{`/rase add name:x`, "command", "/race add?"},
		{`/rid`, "command", "/ride?"},
		{`/helpp`, "command", "/help?"},
		{`/xyzzy`, "command", "All of them: /help"},
		{`/`, "command", "All of them: /help"},
		{"/ride \xff", "line", "UTF-8"},
		{"/ride to\x00day", "day", "control character"},
		{"/ride to\u202eday", "day", "control character"},
	} {
		_, err := read(tc.line)
		var in *planner.InputError
		if !errors.As(err, &in) || in.Field != tc.field || !strings.Contains(in.Msg, tc.says) {
			t.Errorf("%.60s: got %v; want %s: ...%s...", tc.line, err, tc.field, tc.says)
		}
	}
}

func TestFormatLineReadsBack(t *testing.T) {
	add := bot.Commands()[0]
	for _, name := range []string{"Hill Loop", `The "Old" Loop`, `back\slash`, `ends with \`, "x", "“quoted”", "date: hills", `"`, "Cup:Final", "cup-:x", "date:x", "a:b:c"} {
		options := map[string]string{"name": name, "date": "2026-06-13", "priority": "B", "place": "a b"}
		got, err := read(add.FormatLine(options))
		if err != nil || !reflect.DeepEqual(got.Options, options) {
			t.Errorf("%s: got %v, %v", add.FormatLine(options), got.Options, err)
		}
	}
}

func FuzzParseLine(f *testing.F) {
	for _, c := range bot.Commands() {
		f.Add("/" + c.Example)
	}
	for _, line := range []string{"", "/", "/race add name:\"", "/ride \\", "/week share mon:", "/race add a:b:c \"", "what now?", "/ride “”", "/ÿ :"} {
		f.Add(line)
	}
	commands := bot.Commands()
	f.Fuzz(func(t *testing.T, line string) {
		req, err := command.ParseLine(commands, line)
		if err != nil {
			var in *planner.InputError
			if !errors.As(err, &in) || in.Field == "" || strings.ContainsAny(in.Msg, "\n\x1b") {
				t.Errorf("%q: %#v is no clear refusal", line, err)
			}
			return
		}
		if req.Command == "" {
			return
		}
		for i := range commands {
			if c := &commands[i]; c.Name == req.Command {
				again, err := command.ParseLine(commands, c.FormatLine(req.Options))
				if err != nil || !reflect.DeepEqual(again, req) {
					t.Errorf("%q: reads back as %+v, %v", line, again, err)
				}
			}
		}
	})
}
