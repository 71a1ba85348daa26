package bot_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/say"
)

// No line of an answer says once more what a button of it does, but for those that
// are left out beside buttons.
func TestNoTextRepeatsAButton(t *testing.T) {
	rounds.Skip(t, "that no answer of testdata/screens.txt repeats a button")
	data, err := os.ReadFile("../testdata/screens.txt")
	if err != nil {
		t.Fatal(err)
	}
	k := bottest.NewTalk(t)
	looked, left := 0, 0
	for row := range strings.Lines(string(data)) {
		line := strings.SplitN(strings.TrimSpace(row), " ", 3)[2]
		switch {
		case line == ":coach on":
			k.Who.Coach = true
		case strings.HasPrefix(line, ":as "):
			k.As(strings.TrimPrefix(line, ":as "))
		case strings.HasPrefix(line, ":now "):
			k.Who.Now = bottest.At(strings.TrimPrefix(line, ":now ") + ":00Z")
		case strings.HasPrefix(line, ":tick "): // a terminal's
		default:
			reply := k.Say(line)
			if reply.Err != nil {
				t.Fatalf("%s: %s", line, reply.Text())
			}
			for _, l := range reply.Lines {
				if l.Kind == say.Offered {
					left++
				} else if label := repeated(l, reply.Buttons); label != "" {
					t.Errorf("%s: %q repeats [%s]", line, l.Words(), label)
				}
			}
			looked++
		}
	}
	if looked < 45 || left < 10 {
		t.Errorf("only %d answers, %d lines of buttons", looked, left)
	}
	button := []say.Button{{Label: "Stop", Command: "me set", Options: map[string]string{"remind": "off"}}}
	if repeated(say.Linef("To stop: /me set remind:off"), button) == "" || repeated(say.Linef("Later: /me set remind:07:00"), button) != "" {
		t.Error("what repeats a button is taken wrongly")
	}
}

// repeated is the label of the button whose command a line names, "" for none. A race
// may be named otherwise than by its button.
func repeated(l say.Line, buttons []say.Button) string {
	for _, s := range l.Spans {
		if s.Kind != say.CommandSpan {
			continue
		}
		req, err := command.ParseLine(bot.Commands(), s.Text)
		if err != nil {
			continue // a form of words, not a line to type
		}
		at := slices.IndexFunc(buttons, func(b say.Button) bool {
			if b.Command != req.Command || len(b.Options) != len(req.Options) || len(b.Options) == 0 {
				return false
			}
			for name, value := range b.Options {
				if typed, ok := req.Options[name]; !ok || name != "race" && typed != value {
					return false
				}
			}
			return true
		})
		if at >= 0 {
			return buttons[at].Label
		}
	}
	return ""
}
