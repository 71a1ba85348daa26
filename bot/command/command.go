// Package command is what a row of the command table is, how what people typed
// is checked against it, and what completes it.
package command

import (
	"context"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
)

// Handler answers one command; options are checked against the table before it runs.
type Handler func(context.Context, *desk.Base, desk.Request) (say.Reply, error)

// Complete says what a transport offers while an option is typed.
type Complete uint8

// What can be offered.
const (
	CompleteNothing  Complete = iota
	CompleteRace              // the rider's races, by name or date
	CompleteRaces             // the same, the last of a list
	CompleteRaceOver          // the rider's races that have begun, the newest first
	CompleteRaceJoin          // races of other riders
	CompleteDay               // weekdays and dates ahead
	CompleteDayOver           // today and the days before it
	CompleteZone              // IANA time zones
	CompleteRider             // the club's riders, for its coaches
	CompleteOffers            // the option's own offers; other text is right too
)

// Types of options that transports with channels, roles and members offer as such.
const (
	TypeChannel = "channel"
	TypeRole    = "role"
	TypeMember  = "member"
)

// TypeWeek is the only type that keeps its lines apart.
const TypeWeek = "week"

// Option is one option of a command. Values are text; Choices, where given,
// are the only right ones. Example is a right value, shown with every fault.
type Option struct {
	Name        string
	Type        string // what kind of text: day, minutes, race...
	Description string // at most 100 characters
	Required    bool
	Or          string // another option that may stand in its place
	Choices     []string
	Also        map[string][]string // by choice what people write for it, in small letters, without apostrophes, dots and hyphens
	Offers      []string            // values that are common; a list of them has commas
	Complete    Complete
	MaxLen      int // characters; 0 means planner.MaxText
	Example     string
	Unheard     bool // a name: not searched for words of danger, but for what riders say of themselves
	Handled     bool // read for danger by the handler itself
	Reach       bool // about reminders: its answer says whether they arrive, and who left the club may set it
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
	Anywhere    bool // works for people who are in no club, or have not said in which
	Public      bool
	Writes      bool   // stores what it is told
	Tries       bool   // what it announces is sent before its answer, which says whether that worked
	Clubs       bool   // its answer lets who is in several clubs choose one for direct messages
	Faults      bool   // its answer says what is amiss with the club's channels and role
	Anybody     bool   // whoever reads a button of it may press it: it speaks for who presses
	Form        string // the option that a form asks for where it is not given; "": none
	Example     string // a whole line

	// Read finds what is wrong with options that Check passes, so that it is said
	// together with what Check refuses. nil where Run alone reads them.
	Read func(*desk.Request) error
	Run  Handler
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

// Find is a row of a table; an unknown name is answered with the nearest.
func Find(commands []Command, name string) (*Command, error) {
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
	var group []say.Line
	var names []string
	for _, c := range commands {
		if c.Group() == first {
			group = append(group, say.Linef("%s", c.Link()))
		}
		names = append(names, c.Name)
	}
	if both == "race series" {
		return say.Refuse("command", "series are no command of their own. A race of each week is %s", say.CommandLine("race add",
			map[string]string{"name": "Tuesday Ten", "date": "tuesday", "priority": "C", "repeat": "weekly", "until": "22 July"}))
	}
	if len(group) > 0 {
		return say.Refuse("command", "/%s needs one of: %s", first, say.Joined(group, ", "))
	}
	for _, name := range []string{first, both} {
		if near := typed.Nearest(name, names); near != "" {
			return say.Refuse("command", "there is no command /%s. Did you mean %s? All of them: /help", say.Clip(name), say.CommandLink(near))
		}
	}
	return say.Refuse("command", "there is no command /%s. All of them: /help", say.Clip(first))
}

// Check refuses options that the table does not know, lacks required ones,
// holds texts to their length, and brings choices to the table's spelling. It names
// all faults, and returns the options that have none.
func (c *Command) Check(given map[string]string) (map[string]string, error) {
	out := make(map[string]string, len(given))
	var faults []error
	lacking := 0
	for _, o := range c.Options {
		value, ok := given[o.Name]
		if !ok {
			if _, instead := given[o.Or]; !o.Required || instead {
				continue
			}
			if lacking++; lacking == 1 {
				faults = append(faults, say.Refuse(o.Name, "is missing. For example %s", c.ExampleSpan()))
			} else {
				faults = append(faults, say.Refuse(o.Name, "is missing too. For example %s:%s", o.Name, say.Quote(o.Example)))
			}
			continue
		}
		value, err := o.Clean(value)
		if err != nil {
			faults = append(faults, err)
			continue
		}
		out[o.Name] = value
	}
	for _, name := range slices.Sorted(maps.Keys(given)) {
		if _, known := c.Option(name); !known {
			faults = append(faults, c.unknownOption(name))
		}
	}
	return out, say.Together(faults...)
}

func (c *Command) unknownOption(name string) *say.Refused {
	names := c.OptionNames()
	if len(names) == 0 {
		return say.Refuse(say.Clip(name), "%s takes no options", c.Link())
	}
	if near := typed.Nearest(name, names); near != "" {
		return say.Refuse(say.Clip(name), "%s has no such option. Did you mean %s?", c.Link(), near)
	}
	return say.Refuse(say.Clip(name), "%s has no such option. It takes %s", c.Link(), strings.Join(names, ", "))
}

// Hearing is how closely a value is searched for words of danger.
type Hearing uint8

// What is searched: nothing, only what somebody says of themselves, or all.
const (
	Deaf Hearing = iota
	OwnWords
	AllWords
)

// Hears says whether riders may write of their health in a value: in texts, and with more
// than a word in place of a day, a number or a choice. In place of a name only what they
// say of themselves counts. What transports offer, and what a handler reads by itself,
// is not searched.
func (o *Option) Hears(value string) Hearing {
	several := strings.Contains(strings.TrimSpace(value), " ")
	switch {
	case o.Type == TypeChannel, o.Type == TypeRole, o.Type == TypeMember, o.Handled, slices.Contains(o.Choices, value):
		return Deaf
	case o.Type == "race", o.Type == "races", o.Type == "rider", o.Unheard:
		if several {
			return OwnWords
		}
		return Deaf
	case (o.Type == "text" || o.Type == "question") && len(o.Choices) == 0:
		return AllWords
	case o.Type == TypeWeek:
		if _, err := typed.Week(value); err == nil { // one that is understood has no words but its own
			return Deaf
		}
		return AllWords
	case several:
		return AllWords
	}
	return Deaf
}

// Clean trims a value and refuses what no option can hold.
func (o *Option) Clean(value string) (string, error) {
	limit := o.MaxLen
	if limit == 0 {
		limit = planner.MaxText
	}
	if !utf8.ValidString(value) {
		return "", say.Refuse(o.Name, "is not readable text (UTF-8). For example %s", o.Example)
	}
	if utf8.RuneCountInString(value) > limit {
		return "", say.Refuse(o.Name, "is longer than %d characters. For example %s", limit, o.Example)
	}
	value = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && o.Type == TypeWeek:
			return r
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		}
		return r
	}, value)
	for _, r := range value {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			return "", say.Refuse(o.Name, "holds a control character. For example %s", o.Example)
		}
	}
	value = strings.TrimSpace(value)
	if value == "" {
		return "", say.Refuse(o.Name, "is empty. For example %s", o.Example)
	}
	if len(o.Choices) == 0 {
		return value, nil
	}
	words := strings.Fields(strings.ToLower(value))
	if o.Name == "priority" && len(words) == 2 && words[1] == "race" {
		words = words[:1] // an A race
	}
	plain := strings.TrimPrefix(strings.Join(strings.Fields(plainChoice.Replace(strings.ToLower(value))), " "), "i ")
	for _, choice := range o.Choices {
		if strings.EqualFold(choice, strings.Join(words, "-")) || len(o.Also) > 0 && (plain == plainChoice.Replace(choice) || slices.Contains(o.Also[choice], plain)) {
			return choice, nil
		}
	}
	return "", say.Refuse(o.Name, "%s is not known. Write %s", say.Shown(value), say.OrList(o.Choices))
}

// plainChoice takes away what people write in several ways.
var plainChoice = strings.NewReplacer("'", "", "’", "", ".", "", "!", "", "-", " ", "_", " ")

// Allow refuses a command that is not for this person.
func (c *Command) Allow(req *desk.Request) error {
	switch {
	case c.Coach && !req.IsCoach():
		return say.Refuse("command", "%s is for the club's coaches. Ask one of them", c.Link())
	case c.Admin && !req.Admin && !req.IsCoach():
		return say.Refuse("command", "%s is for the club's coaches and those who run its server. Ask one of them", c.Link())
	}
	return nil
}

// Link is the command as it is typed, without options.
func (c *Command) Link() say.Span {
	return say.Span{Kind: say.CommandSpan, Text: "/" + c.Name, Command: c.Name}
}

// ExampleSpan is the command's example from the table.
func (c *Command) ExampleSpan() say.Span {
	return say.Span{Kind: say.CommandSpan, Text: "/" + c.Example, Command: c.Name}
}

// Form is a text that a person writes or mends instead of typing an option.
type Form struct {
	Option             string // that the text answers
	Title, Label, Hint string
	Text               string // what stands there already
	MaxLen             int    // characters
}

// Help is the description with the choices, where it does not name them itself.
func (o *Option) Help() string {
	text := o.Description
	for _, c := range o.Choices {
		if !strings.Contains(text, c) {
			return text + " (" + say.OrList(o.Choices) + ")"
		}
	}
	return text
}
