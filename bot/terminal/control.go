package terminal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"musette/bot"
	"musette/planner"
)

// controls are the control lines: what follows the word, and what it is for.
var controls = []struct{ word, argument, example string }{
	{"as", "NAME", "Ines"}, {"coach", "on|off", "on"}, {"club", "NAME", "home"}, {"zone", "IANA", "Europe/Lisbon"},
	{"now", "TIME", "2026-06-01T08:00"}, {"tick", "", ""}, {"press", "LABEL", "Why"}, {"forget", "", ""},
	{"save", "DIR", "out"}, {"quit", "", ""},
}

// control answers a control line, written without its colon.
func (s *Session) control(ctx context.Context, line string) bot.Reply {
	word, arg, _ := strings.Cut(line, " ")
	word, arg = strings.ToLower(word), unquote(trim(arg))
	for _, c := range controls {
		if c.word != word {
			continue
		}
		switch {
		case c.argument != "" && arg == "":
			return bot.Refusal(word, fmt.Sprintf("needs %s; for example :%s %s", c.argument, word, c.example))
		case c.argument == "" && arg != "":
			return bot.Refusal(word, fmt.Sprintf("takes nothing after it; write :%s", word))
		}
		reply, err := s.obey(ctx, word, arg)
		if err != nil {
			return inField(word, err)
		}
		return reply
	}
	var words []string
	for _, c := range controls {
		words = append(words, ":"+c.word)
	}
	return bot.Refusal("line", "there is no such control line; there are "+strings.Join(words, " "))
}

func (s *Session) obey(ctx context.Context, word, arg string) (bot.Reply, error) {
	switch word {
	case "as":
		who := s.who
		who.Athlete = arg
		return s.become(ctx, who, "You are now "+arg+".")
	case "club":
		who := s.who
		who.Club = arg
		return s.become(ctx, who, "You are now in "+arg+".")
	case "coach":
		return s.setCoach(arg)
	case "zone":
		return s.setZone(ctx, arg)
	case "now":
		if err := s.setNow(ctx, arg); err != nil {
			return bot.Reply{}, err
		}
		reply := said("It is now " + s.now.Format("Monday 2 January 2006, 15:04") + ", " + s.now.Location().String() + ".")
		reply.Date = planner.DateOf(s.now)
		return reply, nil
	case "tick":
		return said("Nothing is due."), nil
	case "press":
		return s.press(ctx, arg)
	case "forget":
		s.last = bot.Reply{}
		return said("Forgotten: the conversation up to here. What is stored stays."), nil
	case "save":
		return s.save(arg)
	}
	s.ended = true
	return said("Bye."), nil
}

// unquote takes the quotes off a value that stands in them.
func unquote(arg string) string {
	if n := len(arg); n >= 2 && arg[0] == '"' && arg[n-1] == '"' {
		return trim(arg[1 : n-1])
	}
	return arg
}

// said is the answer of a control line.
func said(text string) bot.Reply {
	return bot.Reply{Topic: bot.TopicCommand, Topics: []string{bot.TopicCommand}, Text: text, Private: true}
}

// refusal puts an error into a reply; what is not a fault of the line keeps its text.
func refusal(err error) bot.Reply {
	var in *planner.InputError
	if errors.As(err, &in) {
		return bot.Refusal(in.Field, in.Msg)
	}
	return bot.Refusal("", err.Error())
}

// inField is a refusal that names the control line.
func inField(word string, err error) bot.Reply {
	var in *planner.InputError
	if errors.As(err, &in) {
		return bot.Refusal(word, in.Msg)
	}
	return bot.Refusal(word, err.Error())
}

func (s *Session) become(ctx context.Context, who bot.Request, text string) (bot.Reply, error) {
	if err := checkName(text); err != nil {
		return bot.Reply{}, err
	}
	if err := s.enter(ctx, who); err != nil {
		return bot.Reply{}, err
	}
	return said(text), nil
}

func checkName(text string) error {
	bad := func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }
	if !utf8.ValidString(text) || strings.IndexFunc(text, bad) >= 0 {
		return &planner.InputError{Msg: "the name holds characters that cannot be shown; for example Ines"}
	}
	return nil
}

func (s *Session) setCoach(arg string) (bot.Reply, error) {
	switch strings.ToLower(arg) {
	case "on":
		s.who.Coach = true
		return said("You are now a coach of " + s.who.Club + "."), nil
	case "off":
		s.who.Coach = false
		return said("You are no coach now."), nil
	}
	return bot.Reply{}, &planner.InputError{Msg: fmt.Sprintf("%q is not known; write :coach on or :coach off", arg)}
}

// setZone sets the rider's own zone, as /me set does; the conversation goes on
// with the reply before it.
func (s *Session) setZone(ctx context.Context, zone string) (bot.Reply, error) {
	last := s.last
	reply := s.ask(ctx, bot.Request{Command: "me set", Options: map[string]string{"zone": zone}})
	s.last = last
	return reply, nil
}

// layouts of times; those without a zone are in the rider's.
var layouts = []string{"2006-01-02T15:04", "2006-01-02T15:04:05", time.RFC3339, "2006-01-02 15:04", "2006-01-02"}

// setNow freezes the clock.
func (s *Session) setNow(ctx context.Context, text string) error {
	zone, err := s.bot.Enter(ctx, s.who, s.home)
	if err != nil {
		return err
	}
	for _, layout := range layouts {
		t, err := time.ParseInLocation(layout, text, zone)
		if err == nil && t.Year() >= planner.MinYear && t.Year() <= planner.MaxYear {
			s.now = t.In(zone)
			return nil
		}
	}
	return &planner.InputError{Field: "now", Msg: fmt.Sprintf("%q is not a time; for example 2026-06-01T08:00", text)}
}

// press gives the command behind a button of the last reply.
func (s *Session) press(ctx context.Context, label string) (bot.Reply, error) {
	var labels []string
	for _, b := range s.last.Buttons {
		if strings.EqualFold(b.Label, label) {
			return s.ask(ctx, bot.Request{Command: b.Command, Options: b.Options}), nil
		}
		labels = append(labels, b.Label)
	}
	if len(labels) == 0 {
		return bot.Reply{}, &planner.InputError{Msg: "the last reply has no buttons; for example ask /ride, then :press Why"}
	}
	return bot.Reply{}, &planner.InputError{Msg: fmt.Sprintf("the last reply has no button %q; it has %s", label, strings.Join(labels, ", "))}
}

// save writes the files of the last reply.
func (s *Session) save(dir string) (bot.Reply, error) {
	if len(s.last.Files) == 0 {
		return bot.Reply{}, &planner.InputError{Msg: "nothing to write: the last reply has no files"}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return bot.Reply{}, err
	}
	var names []string
	for _, f := range s.last.Files {
		path := filepath.Join(dir, filepath.Base(f.Name))
		if err := os.WriteFile(path, f.Data, 0o644); err != nil {
			return bot.Reply{}, err
		}
		names = append(names, path)
	}
	return said("Saved: " + strings.Join(names, ", ")), nil
}
