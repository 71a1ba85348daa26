// Package lint judges what is sent to Discord: by the limits of its public
// documentation, and by its API description where that is at hand.
package lint

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Fault is one documented limit that a payload breaks. Its text holds numbers
// and places, never what the payload says.
type Fault struct {
	Where string // JSON pointer, "" for the whole body
	Rule  string // stable name of the rule
	Text  string
}

func (f Fault) String() string { return f.Where + ": " + f.Rule + ": " + f.Text }

// Lint checks a request of the bot for the documented limits that Discord's
// OpenAPI document lacks, and for the bot's own promise to notify nobody. Files
// are the names of the uploaded files in their order. Wrong JSON types are the
// schema's business and pass here. A clean payload gives none.
func Lint(method, path string, body []byte, files []string) []Fault {
	l := &linter{files: files, customIDs: make(map[string]bool)}
	switch payload := payloadKindOf(method, path); payload {
	case payloadNone:
		return nil
	case payloadUnknown:
		l.fail("", ruleRoute, "no rules for %s", payloadName(method, path))
	default:
		if value, ok := l.decode(body); ok {
			l.payload(payload, value)
		}
	}
	slices.SortStableFunc(l.faults, func(a, b Fault) int {
		return cmp.Or(strings.Compare(a.Where, b.Where), strings.Compare(a.Rule, b.Rule))
	})
	return l.faults
}

func (l *linter) decode(body []byte) (value any, ok bool) {
	decoder := json.NewDecoder(bytes.NewReader(body))
	decoder.UseNumber()
	if err := decoder.Decode(&value); err != nil {
		l.fail("", ruleBody, "not JSON")
		return nil, false
	}
	if _, err := decoder.Token(); err != io.EOF {
		l.fail("", ruleBody, "more than one JSON value")
		return nil, false
	}
	return value, true
}

func (l *linter) payload(payload payloadKind, value any) {
	if payload == payloadCommands {
		l.commands(value)
		return
	}
	members, ok := value.(map[string]any)
	if !ok {
		l.fail("", ruleBody, "not an object")
		return
	}
	o := lintObject{"", members}
	switch payload {
	case payloadCallback:
		l.callback(o)
	case payloadMessage:
		l.message(o, messageCreate)
	case payloadMessageEdit:
		l.message(o, messageEdit)
	case payloadFollowUp:
		l.message(o, messageFollowUp)
	case payloadFollowUpEdit:
		l.message(o, messageFollowUpEdit)
	case payloadDM:
		l.keys(o, "recipient_id")
		if o.text("recipient_id") == "" {
			l.fail("/recipient_id", ruleRecipient, "missing")
		}
	case payloadThread:
		l.keys(o, "name", "type", "auto_archive_duration", "invitable", "rate_limit_per_user")
		if !o.has("name") {
			l.fail("/name", ruleThreadName, "missing")
		}
		l.length(o, "name", ruleThreadName, 1, limitThreadName)
		if o.integer("type") != privateThread {
			l.fail("/type", ruleThreadKind, "everybody sees a thread that is not private")
		}
	}
}

// CheckRequest runs the schema check and the lint over one captured request and
// joins what they find. Without schemas (nil) only the lint runs.
func CheckRequest(schemas *Schemas, method, path string, body []byte, files []string) error {
	var found []error
	if schemas != nil {
		if err := schemas.Check(method, path, body); err != nil {
			found = append(found, fmt.Errorf("schema: %w", err))
		}
	}
	for _, fault := range Lint(method, path, body, files) {
		found = append(found, fmt.Errorf("lint: %s: %s", payloadName(method, path), fault))
	}
	return errors.Join(found...)
}

// Payload is a captured request of the bot: Body is its JSON, of a multipart
// request the part payload_json, and Files are the names of the uploaded files.
type Payload struct {
	Method, Path string
	Body         []byte
	Files        []string
}

// Reporter is what CheckAll needs of a *testing.T.
type Reporter interface {
	Helper()
	Errorf(format string, args ...any)
}

// CheckAll reports each captured request that CheckRequest refuses.
func CheckAll(t Reporter, schemas *Schemas, payloads ...Payload) {
	t.Helper()
	for i, p := range payloads {
		if err := CheckRequest(schemas, p.Method, p.Path, p.Body, p.Files); err != nil {
			t.Errorf("request %d: %v", i, err)
		}
	}
}

// privateThread is Discord's number of that kind of channel.
const privateThread = 12

// linter gathers the faults of one payload.
type linter struct {
	faults    []Fault
	files     []string
	customIDs map[string]bool
}

func (l *linter) fail(at, rule, format string, args ...any) {
	l.faults = append(l.faults, Fault{at, rule, fmt.Sprintf(format, args...)})
}

// lintObject is a JSON object and its place. Missing, null and wrongly typed
// members read as zero values.
type lintObject struct {
	at      string
	members map[string]any
}

func (o lintObject) has(key string) bool { return o.members[key] != nil }

func (o lintObject) text(key string) string {
	s, _ := o.members[key].(string)
	return s
}

func (o lintObject) flag(key string) bool {
	b, _ := o.members[key].(bool)
	return b
}

func (o lintObject) number(key string) (int64, bool) {
	n, _ := o.members[key].(json.Number)
	i, err := n.Int64()
	return i, err == nil
}

func (o lintObject) integer(key string) int64 {
	i, _ := o.number(key)
	return i
}

func (o lintObject) list(key string) []any {
	items, _ := o.members[key].([]any)
	return items
}

func (o lintObject) object(key string) (lintObject, bool) {
	members, ok := o.members[key].(map[string]any)
	return lintObject{o.at + "/" + key, members}, ok
}

// objects are the objects of a list, with their places in it.
func (o lintObject) objects(key string) []lintObject {
	return lintObjects(o.at+"/"+key, o.list(key))
}

func lintObjects(at string, items []any) []lintObject {
	var all []lintObject
	for i, item := range items {
		if members, ok := item.(map[string]any); ok {
			all = append(all, lintObject{at + "/" + strconv.Itoa(i), members})
		}
	}
	return all
}

func (l *linter) keys(o lintObject, allowed ...string) {
	for key := range o.members {
		if !slices.Contains(allowed, key) {
			l.fail(o.at+"/"+key, ruleKeys, "not documented here")
		}
	}
}

// length checks a text that is there; whether it must be there is the
// schema's business.
func (l *linter) length(o lintObject, key, rule string, least, most int) {
	text, ok := o.members[key].(string)
	if !ok {
		return
	}
	if n := utf8.RuneCountInString(text); n < least || n > most {
		l.fail(o.at+"/"+key, rule, "%d characters, want %d to %d", n, least, most)
	}
}

func (l *linter) count(o lintObject, key, rule string, least, most int) {
	if !o.has(key) {
		return
	}
	if n := len(o.list(key)); n < least || n > most {
		l.fail(o.at+"/"+key, rule, "%d items, want %d to %d", n, least, most)
	}
}

var (
	timestampMarkup = regexp.MustCompile(`<t:[^<>\s]*>?`)
	// Page "API Reference", section Timestamp Styles; seconds since 1970.
	timestampForm = regexp.MustCompile(`^<t:-?\d{1,13}(:[tTdDfFsSR])?>$`)
)

// marked checks the timestamps of texts in which Discord shows markup.
func (l *linter) marked(o lintObject, keys ...string) {
	for _, key := range keys {
		for _, markup := range timestampMarkup.FindAllString(o.text(key), -1) {
			if !timestampForm.MatchString(markup) {
				l.fail(o.at+"/"+key, ruleTimestampForm, "a timestamp without a number or with an unknown style")
			}
		}
	}
}

// plain refuses timestamps where Discord shows texts as they are.
func (l *linter) plain(o lintObject, keys ...string) {
	for _, key := range keys {
		if strings.Contains(o.text(key), "<t:") {
			l.fail(o.at+"/"+key, ruleTimestampPlace, "shown as it is written: no timestamps here")
		}
	}
}

// customID checks the developer's own id of a component, unique in its message
// or form.
func (l *linter) customID(o lintObject) {
	l.length(o, "custom_id", ruleCustomID, 1, limitCustomID)
	id := o.text("custom_id")
	if id != "" && l.customIDs[id] {
		l.fail(o.at+"/custom_id", ruleCustomIDUnique, "used twice")
	}
	l.customIDs[id] = true
}
