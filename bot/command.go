package bot

import (
	"context"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
	"musette/planner/typed"
)

// handler answers one command; options are checked against the table before it runs.
type handler func(*Base, context.Context, Request) (Reply, error)

// Complete says what a transport offers while an option is typed.
type Complete uint8

// What can be offered.
const (
	CompleteNothing  Complete = iota
	CompleteRace              // the rider's races, by name or date
	CompleteRaces             // the same, the last of a list
	CompleteRaceOver          // the rider's races that have begun, the newest first
	CompleteDay               // weekdays and dates ahead
	CompleteDayOver           // today and the days before it
	CompleteZone              // IANA time zones
	CompleteRider             // the club's riders, for its coaches
)

// Types of options that transports with channels and roles offer as such.
const (
	TypeChannel = "channel"
	TypeRole    = "role"
)

// typeWeek is the only type that keeps its lines apart.
const typeWeek = "week"

// Option is one option of a command. Values are text; Choices, where given,
// are the only right ones. Example is a right value, shown with every fault.
type Option struct {
	Name        string
	Type        string // what kind of text: day, minutes, race...
	Description string // at most 100 characters
	Required    bool
	Choices     []string
	Complete    Complete
	MaxLen      int // characters; 0 means planner.MaxText
	Example     string
}

// Command is one row of the command table. Required options stand first.
// Public replies may be read by the whole club, all others only by the rider.
type Command struct {
	Name        string // "race add"
	Description string // at most 100 characters
	Task        string // the heading under which /help lists it
	Options     []Option
	Coach       bool // only for the club's coaches
	Admin       bool // only for the club's coaches and those who run its server
	Club        bool // about the club: not in direct messages
	Public      bool
	Writes      bool   // stores what it is told
	Form        string // the option that a form asks for where it is not given; "": none
	Example     string // a whole line

	run handler
}

// Group is the first word of the name.
func (c *Command) Group() string {
	group, _, _ := strings.Cut(c.Name, " ")
	return group
}

// Option finds an option of the command by name.
func (c *Command) Option(name string) (*Option, bool) {
	for i := range c.Options {
		if c.Options[i].Name == name {
			return &c.Options[i], true
		}
	}
	return nil, false
}

// OptionNames are the names in the order of the table.
func (c *Command) OptionNames() []string {
	names := make([]string, len(c.Options))
	for i, o := range c.Options {
		names[i] = o.Name
	}
	return names
}

// Usage is the command with its options, optional ones in brackets.
func (c *Command) Usage() string {
	var b strings.Builder
	b.WriteString("/" + c.Name)
	for _, o := range c.Options {
		if o.Required {
			b.WriteString(" " + o.Name)
		} else {
			b.WriteString(" [" + o.Name + "]")
		}
	}
	return b.String()
}

// findCommand is a row of a table; an unknown name is answered with the nearest.
func findCommand(commands []Command, name string) (*Command, error) {
	for i := range commands {
		if commands[i].Name == name {
			return &commands[i], nil
		}
	}
	first, _, _ := strings.Cut(name, " ")
	return nil, unknownCommand(commands, first, name)
}

// unknownCommand offers the group's commands, else the nearest to what was
// typed: by its first word alone or by both.
func unknownCommand(commands []Command, first, both string) error {
	var group []Line
	var names []string
	for _, c := range commands {
		if c.Group() == first {
			group = append(group, Say("%s", c.Link()))
		}
		names = append(names, c.Name)
	}
	if len(group) > 0 {
		return refuse("command", "/%s needs one of: %s", first, joined(group, ", "))
	}
	for _, name := range []string{first, both} {
		if near := typed.Nearest(name, names); near != "" {
			return refuse("command", "there is no command /%s. Did you mean %s? All of them: /help", clip(name), linkTo(near))
		}
	}
	return refuse("command", "there is no command /%s; /help lists what there is", clip(first))
}

// check refuses options that the table does not know, lacks required ones,
// holds texts to their length, and brings choices to the table's spelling.
func (c *Command) check(given map[string]string) (map[string]string, error) {
	out := make(map[string]string, len(given))
	for _, o := range c.Options {
		value, ok := given[o.Name]
		if !ok {
			if o.Required {
				return nil, refuse(o.Name, "is missing. For example %s", c.exampleSpan())
			}
			continue
		}
		value, err := o.clean(value)
		if err != nil {
			return nil, err
		}
		out[o.Name] = value
	}
	for name := range given {
		if _, ok := out[name]; !ok {
			return nil, c.unknownOption(name)
		}
	}
	return out, nil
}

func (c *Command) unknownOption(name string) *refused {
	names := c.OptionNames()
	if len(names) == 0 {
		return refuse(clip(name), "%s takes no options", c.Link())
	}
	if near := typed.Nearest(name, names); near != "" {
		return refuse(clip(name), "%s has no such option. Did you mean %s?", c.Link(), near)
	}
	return refuse(clip(name), "%s has no such option. It takes %s", c.Link(), strings.Join(names, ", "))
}

// clean trims a value and refuses what no option can hold.
func (o *Option) clean(value string) (string, error) {
	limit := o.MaxLen
	if limit == 0 {
		limit = planner.MaxText
	}
	if !utf8.ValidString(value) {
		return "", refuse(o.Name, "is not readable text (UTF-8). For example %s", o.Example)
	}
	if utf8.RuneCountInString(value) > limit {
		return "", refuse(o.Name, "is longer than %d characters. For example %s", limit, o.Example)
	}
	value = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && o.Type == typeWeek:
			return r
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		}
		return r
	}, value)
	for _, r := range value {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			return "", refuse(o.Name, "holds a control character. For example %s", o.Example)
		}
	}
	value = strings.TrimSpace(value)
	if value == "" {
		return "", refuse(o.Name, "is empty. For example %s", o.Example)
	}
	if len(o.Choices) == 0 {
		return value, nil
	}
	for _, choice := range o.Choices {
		if strings.EqualFold(choice, strings.Join(strings.Fields(value), "-")) {
			return choice, nil
		}
	}
	return "", refuse(o.Name, "%s is not known. Write %s", Shown(value), orList(o.Choices))
}

// allow refuses a command that is not for this person.
func (c *Command) allow(req *Request) error {
	switch {
	case c.Coach && !req.isCoach():
		return refuse("command", "%s is for the club's coaches. Ask one of them", c.Link())
	case c.Admin && !req.Admin && !req.isCoach():
		return refuse("command", "%s is for the club's coaches and those who run its server. Ask one of them", c.Link())
	}
	return nil
}

// Link is the command as it is typed, without options.
func (c *Command) Link() Span { return Span{Kind: CommandSpan, Text: "/" + c.Name, Command: c.Name} }

// exampleSpan is the command's example from the table.
func (c *Command) exampleSpan() Span {
	return Span{Kind: CommandSpan, Text: "/" + c.Example, Command: c.Name}
}
