package planfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"
)

type nodeKind uint8

const (
	nullNode nodeKind = iota
	boolNode
	numberNode
	textNode
	listNode
	objectNode
)

// String names a kind for messages.
func (k nodeKind) String() string {
	return [...]string{"null", "true or false", "a number", "text", "a list", "an object"}[k]
}

// node is a JSON value with its place in the file. Unlike a map it keeps
// duplicate keys, so that they can be reported.
type node struct {
	kind    nodeKind
	at, end int64
	text    string // of text and numbers
	members []member
	items   []*node
}

type member struct {
	key   string
	value *node
}

// parseTree reads the one JSON value of a file.
func parseTree(data []byte) (*node, error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	switch {
	case len(bytes.TrimSpace(data)) == 0:
		return nil, errors.New("is empty")
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")),
		bytes.HasPrefix(data, []byte("{\x00")), bytes.HasPrefix(data, []byte("\x00{")): // without a mark at the beginning
		return nil, errors.New("is UTF-16 text. Save it as UTF-8")
	case !utf8.Valid(data):
		return nil, fmt.Errorf("%s is not UTF-8 text", place(data, firstInvalid(data)))
	}
	var value json.RawMessage
	dec := json.NewDecoder(bytes.NewReader(data))
	if err := dec.Decode(&value); err != nil {
		return nil, syntaxError(data, err)
	}
	if rest := data[dec.InputOffset():]; len(bytes.TrimSpace(rest)) > 0 {
		at := dec.InputOffset() + int64(len(rest)-len(bytes.TrimLeft(rest, " \t\r\n")))
		return nil, fmt.Errorf("goes on after its end at %s", place(data, at))
	}
	dec = json.NewDecoder(bytes.NewReader(value))
	dec.UseNumber()
	return readNode(dec)
}

func firstInvalid(data []byte) int64 {
	at := 0
	for at < len(data) {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	return int64(at)
}

func syntaxError(data []byte, err error) error {
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		return fmt.Errorf("is not JSON at %s: %s", place(data, syntax.Offset-1), syntax.Error())
	case errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("is not JSON: it ends too early, a brace or bracket is missing")
	}
	return fmt.Errorf("is not JSON: %w", err)
}

// place is a byte offset as line and column, both from 1.
func place(data []byte, offset int64) string {
	before := data[:min(max(offset, 0), int64(len(data)))]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	return fmt.Sprintf("line %d, column %d", line, column)
}

// readNode reads the next value; the text was checked to be well-formed before.
func readNode(dec *json.Decoder) (*node, error) {
	tok, err := dec.Token()
	if err != nil {
		return nil, err
	}
	n := &node{at: dec.InputOffset()}
	switch v := tok.(type) {
	case bool:
		n.kind = boolNode
	case json.Number:
		n.kind, n.text = numberNode, v.String()
	case string:
		n.kind, n.text = textNode, v
	case json.Delim:
		if v == '[' {
			n.kind = listNode
			err = readList(dec, n)
		} else {
			n.kind = objectNode
			err = readObject(dec, n)
		}
	}
	n.end = dec.InputOffset()
	return n, err
}

func readList(dec *json.Decoder, n *node) error {
	for dec.More() {
		item, err := readNode(dec)
		if err != nil {
			return err
		}
		n.items = append(n.items, item)
	}
	_, err := dec.Token() // the closing bracket
	return err
}

func readObject(dec *json.Decoder, n *node) error {
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return err
		}
		value, err := readNode(dec)
		if err != nil {
			return err
		}
		n.members = append(n.members, member{key: key.(string), value: value})
	}
	_, err := dec.Token() // the closing brace
	return err
}
