package terminal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
)

// controls are the control lines: what follows the word, the field that a fault
// names, and an example.
var controls = []struct{ word, argument, field, example string }{
	{"as", "NAME", "rider", "Ines"}, {"coach", "on|off", "coach", "on"}, {"club", "NAME", "club", "home"}, {"zone", "IANA", "zone", "Europe/Lisbon"},
	{"now", "TIME", "now", ""}, {"tick", "", "tick", ""}, {"press", "LABEL", "press", "Why"}, {"forget", "", "forget", ""},
	{"left", "NAME", "rider", "Ines"}, {"save", "DIR", "save", "out"}, {"quit", "", "quit", ""},
}

// control answers a control line, written without its colon.
func (s *Session) control(ctx context.Context, line string) say.Reply {
	word, arg, _ := strings.Cut(line, " ")
	word, arg = strings.ToLower(word), unquote(trim(arg))
	for _, c := range controls {
		if c.word != word {
			continue
		}
		if word == "now" {
			c.example = s.clock.Now().Format(layouts[0])
		}
		switch {
		case c.argument != "" && arg == "":
			return say.Refusal(c.field, "needs %s. For example :%s %s", c.argument, word, c.example)
		case c.argument == "" && arg != "":
			return say.Refusal(c.field, "takes nothing after it. Write :%s", word)
		}
		reply, err := s.obey(ctx, word, arg)
		if in := (*planner.InputError)(nil); errors.As(err, &in) {
			return say.Refusal(c.field, "%s", in.Msg)
		} else if err != nil {
			return s.bot.Fail(ctx, ":"+word, err)
		}
		return reply
	}
	var words []string
	for _, c := range controls {
		words = append(words, ":"+c.word)
	}
	return say.Refusal("line", "there is no such control line. Write one of %s", strings.Join(words, " "))
}

func (s *Session) obey(ctx context.Context, word, arg string) (say.Reply, error) {
	switch word {
	case "as":
		who := s.who
		who.Athlete = arg
		person, err := s.enter(ctx, who)
		return said("You are now %s.", person.Athlete), err
	case "club":
		who := s.who
		who.Club = arg
		person, err := s.enter(ctx, who)
		return said("You are now in %s.", person.Club), err
	case "coach":
		return s.setCoach(arg)
	case "zone":
		return s.setZone(ctx, arg)
	case "now":
		if err := s.setNow(ctx, arg); err != nil {
			return say.Reply{}, err
		}
		now := s.clock.Now()
		reply := said("It is now %s, %s.", now.Format("Monday 2 January 2006, 15:04"), now.Location())
		reply.Date = planner.DateOf(now)
		return reply, nil
	case "tick":
		return s.tick(ctx)
	case "press":
		return s.press(ctx, arg)
	case "forget":
		s.last = say.Reply{}
		err := s.bot.Forget(ctx, s.who)
		return said("Forgotten: the conversation up to here. What is stored stays."), err
	case "left":
		return s.left(ctx, arg)
	case "save":
		return s.save(arg)
	}
	s.ended = true
	return said("Bye."), nil
}

// unquote takes off the quotes around a value, as options have them.
func unquote(arg string) string {
	for open, closing := range map[string]string{`"`: `"`, "“": "”"} {
		if inner, ok := strings.CutPrefix(arg, open); ok && strings.HasSuffix(inner, closing) {
			return trim(strings.NewReplacer(`\"`, `"`, `\\`, `\`).Replace(strings.TrimSuffix(inner, closing)))
		}
	}
	return arg
}

// said is the answer of a control line.
func said(t say.Template, args ...any) say.Reply {
	return say.Reply{Topic: say.TopicCommand, Topics: []string{say.TopicCommand}, Lines: []say.Line{say.Linef(t, args...)}, Private: true}
}

func (s *Session) setCoach(arg string) (say.Reply, error) {
	switch strings.ToLower(arg) {
	case "on":
		s.who.Coach = true
		return said("You are now a coach of %s.", s.who.Club), nil
	case "off":
		s.who.Coach = false
		return said("You are no coach now."), nil
	}
	return say.Reply{}, &planner.InputError{Msg: say.Shown(arg) + " is not known. Write :coach on or :coach off"}
}

// setZone sets the rider's own zone, as /me set does; the conversation goes on
// with the reply before it.
func (s *Session) setZone(ctx context.Context, zone string) (say.Reply, error) {
	last := s.last
	reply := s.ask(ctx, desk.Request{Command: "me set", Options: map[string]string{"zone": zone}})
	s.last = last
	return reply, nil
}

// layouts of times; those without a zone are in the rider's.
var layouts = []string{"2006-01-02T15:04", "2006-01-02T15:04:05", time.RFC3339, "2006-01-02 15:04", "2006-01-02"}

// setNow freezes the clock.
func (s *Session) setNow(ctx context.Context, text string) error {
	person, err := s.bot.Enter(ctx, s.who)
	if err != nil {
		return err
	}
	zone := person.Zone
	for _, layout := range layouts {
		t, err := time.ParseInLocation(layout, text, zone)
		if err == nil && t.Year() >= planner.MinYear && t.Year() <= planner.MaxYear {
			s.clock.frozen = t.In(zone)
			return nil
		}
	}
	return &planner.InputError{Field: "now", Msg: say.Shown(text) + " is not a time. For example " + s.clock.Now().In(zone).Format(layouts[0])}
}

// pressed does what a button offers.
func (s *Session) pressed(ctx context.Context, b say.Button) say.Reply {
	if b.Command == "" {
		s.last = said("Nothing has changed.")
		return s.last
	}
	return s.ask(ctx, desk.Request{Command: b.Command, Options: b.Options})
}

// press gives the command behind a button of the last reply.
func (s *Session) press(ctx context.Context, label string) (say.Reply, error) {
	var labels []string
	var begins []say.Button
	for _, b := range s.last.Buttons {
		if strings.EqualFold(b.Label, label) {
			return s.pressed(ctx, b), nil
		}
		if len(b.Label) > len(label) && label != "" && strings.EqualFold(b.Label[:len(label)], label) {
			begins = append(begins, b)
		}
		labels = append(labels, b.Label)
	}
	if len(begins) == 1 {
		return s.pressed(ctx, begins[0]), nil
	}
	if len(labels) == 0 {
		return say.Reply{}, &planner.InputError{Msg: "the last reply has no buttons. For example ask /ride, then :press Why"}
	}
	return say.Reply{}, &planner.InputError{Msg: fmt.Sprintf("the last reply has no button %s. It has %s", say.Shown(label), strings.Join(labels, ", "))}
}

// save writes the files of the last reply.
func (s *Session) save(dir string) (say.Reply, error) {
	if len(s.last.Files) == 0 {
		return say.Reply{}, &planner.InputError{Msg: "nothing to write: the last reply has no files"}
	}
	err := os.MkdirAll(dir, 0o700)
	var names []string
	for _, f := range s.last.Files {
		path := filepath.Join(dir, filepath.Base(f.Name))
		if err == nil {
			err = os.WriteFile(path, f.Data, 0o600)
		}
		names = append(names, path)
	}
	if fault := (*fs.PathError)(nil); errors.As(err, &fault) {
		return say.Reply{}, &planner.InputError{Msg: fmt.Sprintf("cannot write there (%v). Name another folder, for example :save out", fault.Err)}
	}
	return said("Saved: %s", strings.Join(names, ", ")), err
}
