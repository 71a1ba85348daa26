package bot

import (
	"fmt"
	"strings"
	"time"

	"musette/planner"
)

// Topics of replies: commands carry TopicCommand, a question that the bot
// cannot answer TopicUnknown.
const (
	TopicCommand = "command"
	TopicUnknown = "unknown"
)

// Reply is what goes back: the answer in the first line of Text, the reason in
// the second, details after. Date and Race are what the bot understood, zero
// where nothing was meant. Err is set when nothing was done.
type Reply struct {
	Topic   string
	Topics  []string
	Text    string
	Private bool
	Err     *FieldError
	Date    planner.Date
	Race    string
	Buttons []Button
	Files   []File
	Sent    []Message

	// For transports that show more than plain text.
	Moments  []Moment // instants that the answer is about
	Verbatim []string // parts of Text that the transport wrote itself: a channel, a role
}

// Moment is an instant that people see in their own zone.
type Moment struct {
	Label string
	At    time.Time
}

// FieldError is a refusal: the option at fault ("" for none) and one sentence.
type FieldError struct {
	Field, Message string
}

// Button offers a next step: pressing it is the same as giving the command. One
// without a command leaves everything as it is.
type Button struct {
	Label   string
	Command string
	Options map[string]string
	Danger  bool // it takes something away
	Form    bool // it shows the command's form, filled with Options
}

// offer adds a button and its command as a line to type: Undo: /plan move ...
func (r *Reply) offer(p *page, label, command string, options map[string]string) {
	r.Buttons = append(r.Buttons, Button{Label: label, Command: command, Options: options})
	p.add(label + ": " + lineOf(command, options))
}

// lineOf is a command of the table as a line to type.
func lineOf(command string, options map[string]string) string {
	for _, c := range Commands() {
		if c.Name == command {
			return c.FormatLine(options)
		}
	}
	return ""
}

// File is an attachment of a reply. Type is a media type; Alt says in words what
// a picture shows.
type File struct {
	Name, Type, Alt string
	Data            []byte
}

// Message goes to somebody else than the person who asked: "#Marrow Vale Wheelers"
// is that club's channel, "#coaches" the one of its digest.
type Message struct {
	To, Kind, Text string
}

// page collects the lines of a reply.
type page struct{ lines []string }

func (p *page) addf(format string, args ...any) {
	p.lines = append(p.lines, fmt.Sprintf(format, args...))
}

func (p *page) add(lines ...string) { p.lines = append(p.lines, lines...) }

// gap parts what follows by an empty line, unless nothing stands before it.
func (p *page) gap() {
	if n := len(p.lines); n > 0 && p.lines[n-1] != "" {
		p.lines = append(p.lines, "")
	}
}

func (p *page) String() string {
	return strings.TrimRight(strings.Join(p.lines, "\n"), "\n")
}
