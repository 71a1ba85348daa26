package say

import (
	"slices"
	"time"

	"musette/planner"
	"musette/storage"
)

// Topics of replies: commands carry TopicCommand, a question that the bot
// cannot answer TopicUnknown, words of danger TopicRedFlag.
const (
	TopicCommand = "command"
	TopicUnknown = "unknown"
	TopicRedFlag = "red-flag"
)

// Reply is what goes back: the answer in the first line, the reason in the
// second, details after. Date and Race are what the bot understood, zero
// where nothing was meant. Err is set when nothing was done.
type Reply struct {
	Topic   string
	Topics  []string
	Lines   []Line
	Private bool
	Err     *FieldError
	Date    planner.Date
	Race    string
	Buttons []Button
	Menu    string // the buttons are the choices of one menu, which says this before anything is chosen
	Files   []File
	Sent    []Message

	// For transports that show more than plain text.
	Moments []Moment // instants that the answer is about
	Forget  bool     // the person was erased: what the transport keeps of them goes too
}

// Text is the whole reply in words: lines to type say what its buttons do.
func (r Reply) Text() string { return TextOf(r.Lines) }

// TextBesideButtons is the reply in words for those who see its buttons too: no line says
// once more what a button does.
func (r Reply) TextBesideButtons() string { return TextOf(r.LinesBesideButtons()) }

// LinesBesideButtons are the lines of TextBesideButtons.
func (r Reply) LinesBesideButtons() []Line {
	if len(r.Buttons) == 0 {
		return r.Lines
	}
	return slices.DeleteFunc(slices.Clone(r.Lines), func(l Line) bool { return l.Kind == Offered })
}

// Addf puts a line below the others.
func (r *Reply) Addf(t Template, args ...any) { r.Lines = append(r.Lines, Linef(t, args...)) }

// Gap parts what is added next by an empty line.
func (r *Reply) Gap() { r.Lines = append(r.Lines, Line{Kind: Gap}) }

// Moment is an instant that people see in their own zone.
type Moment struct {
	Label string
	At    time.Time
}

// FieldError is a refusal: the option at fault ("" for none) and one sentence,
// which Line has in parts. More are those of other options.
type FieldError struct {
	Field, Message string
	Line           Line
	More           []FieldError
	Unsaved        bool // the command would have stored something
}

// Lead opens a refusal for people.
func (e *FieldError) Lead() string {
	if e.Unsaved {
		return "That did not work, and nothing was saved."
	}
	return "That did not work."
}

// Fields are the options at fault.
func (e *FieldError) Fields() []string {
	fields := []string{e.Field}
	for _, more := range e.More {
		fields = append(fields, more.Field)
	}
	return fields
}

// Button offers a next step: pressing it is the same as giving the command. One
// without a command leaves everything as it is.
type Button struct {
	Label   string
	Command string
	Options map[string]string
	Danger  bool   // it takes something away
	Form    bool   // it shows the command's form, filled with Options
	Anybody bool   // whoever reads it may press it: the command speaks for who presses
	Detail  string // what a choice of a menu says below its label
}

// Offer adds a button and its command as a line to type, Undo: /plan move ...,
// which transports with buttons leave out.
func (r *Reply) Offer(p *Page, label, command string, options map[string]string) {
	r.Buttons = append(r.Buttons, Button{Label: label, Command: command, Options: options})
	p.Add(Offeredf("%s: %s", label, CommandLine(command, options)))
}

// File is an attachment of a reply. Type is a media type; Alt says in words what
// a picture shows.
type File struct {
	Name, Type, Alt string
	Data            []byte
}

// Message goes to somebody else than the person who asked: "#Marrow Vale Wheelers"
// is that club's channel, "#coaches" the one of its digest. With a Rider it goes to
// that rider alone, and To is the rider's name.
type Message struct {
	To, Kind string
	Rider    storage.AthleteID
	Lines    []Line
	Buttons  []Button
}

// Text is the message as a terminal shows it.
func (m Message) Text() string { return TextOf(m.Lines) }

// Page collects the lines of a reply.
type Page struct{ Lines []Line }

// Addf adds a line made of a template.
func (p *Page) Addf(t Template, args ...any) { p.Add(Linef(t, args...)) }

// Add adds lines.
func (p *Page) Add(lines ...Line) { p.Lines = append(p.Lines, lines...) }

// Headingf adds a line that names those below it.
func (p *Page) Headingf(t Template, args ...any) { p.Add(Headingf(t, args...)) }

// Gap parts what follows by an empty line, unless nothing stands before it.
func (p *Page) Gap() {
	if n := len(p.Lines); n > 0 && p.Lines[n-1].Kind != Gap {
		p.Add(Line{Kind: Gap})
	}
}

// Done are the lines, without a gap at their end.
func (p *Page) Done() []Line {
	for n := len(p.Lines); n > 0 && p.Lines[n-1].Kind == Gap; n-- {
		p.Lines = p.Lines[:n-1]
	}
	return p.Lines
}
