package terminal

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"musette/bot/say"
)

// MaxLine is the longest line that is read, in bytes; longer ones are refused.
const MaxLine = 64 << 10

// input is a line of the input; err is io.EOF behind the last one.
type input struct {
	text    string
	tooLong bool
	err     error
}

// Run answers each line of in on out until the input ends, :quit, or the end of
// ctx, which is no error.
func (s *Session) Run(ctx context.Context, in io.Reader, out io.Writer) error {
	lines, done := make(chan input), make(chan struct{})
	defer close(done)
	go readLines(in, lines, done)
	for !s.ended {
		var line input
		select {
		case <-ctx.Done():
			return nil
		case line = <-lines:
		}
		if line.err != nil && !errors.Is(line.err, io.EOF) {
			return line.err
		}
		if line.err != nil && line.text == "" && !line.tooLong {
			return nil // nothing behind the last line's end
		}
		if err := s.put(ctx, line.text, line.tooLong, out); err != nil {
			return err
		}
		if line.err != nil {
			return nil
		}
	}
	return nil
}

// readLines hands on line by line until the input ends or nobody listens.
func readLines(in io.Reader, lines chan<- input, done <-chan struct{}) {
	r := bufio.NewReaderSize(in, MaxLine+1)
	for {
		var line input
		line.text, line.tooLong, line.err = readLine(r)
		select {
		case <-done:
			return
		case lines <- line:
		}
		if line.err != nil {
			return
		}
	}
}

// put answers one line on out.
func (s *Session) put(ctx context.Context, line string, tooLong bool, out io.Writer) error {
	reply, answered := say.Refusal("line", "is longer than %d bytes. Write less in one line", MaxLine), true
	if !tooLong {
		reply, answered = s.Line(ctx, line)
	}
	if !answered && !s.json {
		return nil
	}
	if s.json {
		return writeJSON(out, reply)
	}
	return writeText(out, reply)
}

// readLine reads a line without its end; of one that is too long it skips the rest.
func readLine(r *bufio.Reader) (line string, tooLong bool, err error) {
	data, err := r.ReadSlice('\n')
	if !errors.Is(err, bufio.ErrBufferFull) {
		return string(bytes.TrimSuffix(data, []byte("\n"))), false, err
	}
	for errors.Is(err, bufio.ErrBufferFull) {
		_, err = r.ReadSlice('\n')
	}
	return "", true, err
}

// jsonReply is the one line that scripts read; its keys never go away.
type jsonReply struct {
	OK      bool       `json:"ok"`
	Topic   string     `json:"topic"`
	Topics  []string   `json:"topics"`
	Text    string     `json:"text"`
	Private bool       `json:"private"`
	Error   *jsonError `json:"error"`
	Date    *string    `json:"date"`
	Race    *string    `json:"race"`
	Buttons []string   `json:"buttons"`
	Files   []jsonFile `json:"files"`
	Sent    []jsonSent `json:"sent"`
}

type jsonError struct {
	Field   string      `json:"field"`
	Message string      `json:"message"`
	More    []jsonError `json:"more,omitempty"`
}

type jsonFile struct {
	Name  string `json:"name"`
	Type  string `json:"type"`
	Bytes int    `json:"bytes"`
}

type jsonSent struct {
	To   string `json:"to"`
	Kind string `json:"kind"`
	Text string `json:"text"`
}

func writeJSON(w io.Writer, r say.Reply) error {
	out := jsonReply{OK: r.Err == nil, Topic: r.Topic, Topics: r.Topics, Text: r.TextBesideButtons(), Private: r.Private,
		Buttons: []string{}, Files: []jsonFile{}, Sent: []jsonSent{}}
	if r.Err != nil {
		out.Error = &jsonError{Field: r.Err.Field, Message: r.Err.Message}
		for _, e := range r.Err.More {
			out.Error.More = append(out.Error.More, jsonError{Field: e.Field, Message: e.Message})
		}
	}
	if !r.Date.IsZero() {
		date := r.Date.String()
		out.Date = &date
	}
	if r.Race != "" {
		out.Race = &r.Race
	}
	for _, b := range r.Buttons {
		out.Buttons = append(out.Buttons, b.Label)
	}
	for _, f := range r.Files {
		out.Files = append(out.Files, jsonFile{Name: f.Name, Type: f.Type, Bytes: len(f.Data)})
	}
	for _, m := range r.Sent {
		out.Sent = append(out.Sent, jsonSent{m.To, m.Kind, m.Text()})
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

// writeText is a reply for people, with an empty line behind it.
func writeText(w io.Writer, r say.Reply) error {
	var b strings.Builder
	if r.Err != nil {
		b.WriteString(r.Err.Lead() + " ")
	}
	b.WriteString(r.TextBesideButtons() + "\n")
	for _, m := range r.Sent {
		fmt.Fprintf(&b, "-> %s: %s\n", m.To, m.Text())
	}
	for _, f := range r.Files {
		fmt.Fprintf(&b, "file %s (%d bytes; :save DIR)\n", f.Name, len(f.Data))
	}
	var labels []string
	for _, button := range r.Buttons {
		labels = append(labels, "["+button.Label+"]")
	}
	if r.Menu != "" {
		b.WriteString(r.Menu + ": ")
	}
	if len(labels) > 0 {
		b.WriteString(strings.Join(labels, " ") + "\n")
	}
	_, err := io.WriteString(w, b.String()+"\n")
	return err
}

func trim(s string) string { return strings.TrimSpace(s) }
