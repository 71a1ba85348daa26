package planfile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
	"musette/planner/typed"
)

// faultList collects faults with their place in the file.
type faultList []placedFault

type placedFault struct {
	at int64
	planner.InputError
}

func (l *faultList) add(at int64, path, msg string) {
	*l = append(*l, placedFault{at, planner.InputError{Field: path, Msg: msg}})
}

// inOrder lists the faults in the order of the file, each once.
func (l faultList) inOrder() []planner.InputError {
	slices.SortStableFunc(l, func(a, b placedFault) int { return cmp.Compare(a.at, b.at) })
	var out []planner.InputError
	told := map[planner.InputError]bool{}
	for _, f := range l {
		if !told[f.InputError] {
			out = append(out, f.InputError)
		}
		told[f.InputError] = true
	}
	return out
}

// object is a JSON object whose keys are checked. Keys with null are absent.
type object struct {
	path   string
	fields []field
	values map[string]*node
	end    int64
	faults *faultList
}

// newObject checks the keys of n. It is nil where n is no object at all.
func newObject(n *node, path, example string, fields []field, faults *faultList) *object {
	if n.kind != objectNode {
		faults.add(n.at, path, fmt.Sprintf("must be an object, not %s. For example %s", n.kind, example))
		return nil
	}
	o := &object{path: path, fields: fields, values: map[string]*node{}, end: n.end, faults: faults}
	seen := map[string]bool{}
	for _, m := range n.members {
		switch {
		case !slices.ContainsFunc(fields, func(f field) bool { return f.key == m.key }):
			o.unknownKey(m)
		case seen[m.key]:
			faults.add(m.value.at, o.at(m.key), fmt.Sprintf("stands twice. Keep one, for example %s", o.example(m.key)))
		case m.value.kind != nullNode:
			o.values[m.key] = m.value
		}
		seen[m.key] = true
	}
	return o
}

func (o *object) unknownKey(m member) {
	place, _, _ := strings.Cut(o.path, "[")
	if why, gone := goneKeys[place+"."+m.key]; gone {
		o.faults.add(m.value.at, o.at(m.key), why+". For example "+o.fields[0].example)
		return
	}
	keys := make([]string, len(o.fields))
	for i, f := range o.fields {
		keys[i] = f.key
	}
	if near := typed.Nearest(m.key, keys); near != "" {
		o.faults.add(m.value.at, o.at(m.key), fmt.Sprintf("is not a known key (did you mean %s?). For example %s", near, o.example(near)))
		return
	}
	o.faults.add(m.value.at, o.at(m.key), fmt.Sprintf("is not a known key, those are %s. For example %s", strings.Join(keys, ", "), o.fields[0].example))
}

// at is the path of a key; odd keys are quoted to stay on one line.
func (o *object) at(key string) string {
	plain := key != "" && !strings.ContainsFunc(key, func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '-'
	})
	if !plain || len(key) > maxShown {
		key = quote(key)
	}
	if o.path == "" {
		return key
	}
	return o.path + "." + key
}

// maxShown is how many characters of a faulty text are repeated in its message.
const maxShown = 40

func quote(s string) string {
	if utf8.RuneCountInString(s) > maxShown {
		s = string([]rune(s)[:maxShown]) + "…"
	}
	return strconv.Quote(s)
}

func (o *object) example(key string) string {
	for _, f := range o.fields {
		if f.key == key {
			return f.example
		}
	}
	return o.fields[0].example
}

// bad reports a fault of a key that is present and adds the example of the key.
func (o *object) bad(key, format string, args ...any) {
	o.faults.add(o.values[key].at, o.at(key), fmt.Sprintf(format, args...)+". For example "+o.example(key))
}

// has reports whether the key is present and of that kind; the wrong kind is a fault.
func (o *object) has(key string, kind nodeKind) bool {
	n := o.values[key]
	if n == nil {
		return false
	}
	if n.kind != kind {
		o.bad(key, "must be %s, not %s", kind, n.kind)
		return false
	}
	return true
}

// require reports the keys that are missing.
func (o *object) require(keys ...string) {
	for _, key := range keys {
		if o.values[key] == nil {
			o.faults.add(o.end, o.at(key), "is missing. For example "+o.example(key))
		}
	}
}

// text reads a line of at most MaxText characters that is not blank.
func (o *object) text(key string) (string, bool) {
	if !o.has(key, textNode) {
		return "", false
	}
	s := o.values[key].text
	if msg := checkText(s); msg != "" {
		o.bad(key, "%s", msg)
		return "", false
	}
	return s, true
}

// checkText says what is wrong with a text, or nothing.
func checkText(s string) string {
	switch n := utf8.RuneCountInString(s); {
	case strings.TrimSpace(s) == "":
		return "is empty"
	case n > planner.MaxText:
		return fmt.Sprintf("has %d characters, more than %d", n, planner.MaxText)
	case strings.ContainsFunc(s, unicode.IsControl):
		return fmt.Sprintf("%s holds a control character", quote(s))
	case strings.ContainsFunc(s, unseen):
		return fmt.Sprintf("%s holds characters that cannot be seen", quote(s))
	}
	return ""
}

// unseen tells characters that change the direction of a text or that nobody
// sees. The joiners of scripts and emoji, which names need, are none.
func unseen(r rune) bool {
	const nonJoiner, joiner = '\u200c', '\u200d'
	return r != nonJoiner && r != joiner && !unicode.Is(unicode.Variation_Selector, r) && !(0xe0020 <= r && r <= 0xe007f) &&
		unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point)
}

// date reads an ISO date of the years that the planner knows.
func (o *object) date(key string) (planner.Date, bool) {
	if !o.has(key, textNode) {
		return 0, false
	}
	s := o.values[key].text
	d, err := planner.ParseISODate(s)
	if err != nil {
		o.bad(key, "%s is not a date like 2026-06-13 of the years %d to %d", quote(s), planner.MinYear, planner.MaxYear)
		return 0, false
	}
	if y, _, _ := d.Civil(); y > planner.MaxYear {
		o.bad(key, "%s is outside the years %d to %d", quote(s), planner.MinYear, planner.MaxYear)
		return 0, false
	}
	return d, true
}

// number reads a number from low to high; above reports whether low itself is refused.
func (o *object) number(key string, low, high float64, above bool) (float64, bool) {
	if !o.has(key, numberNode) {
		return 0, false
	}
	s := o.values[key].text
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < low || v > high || above && v == low {
		from := ""
		if above {
			from = "above "
		}
		o.bad(key, "%s is outside %s%g to %g", shorten(s), from, low, high)
		return 0, false
	}
	return v, true
}

// integer reads a whole number from low to high.
func (o *object) integer(key string, low, high int) (int, bool) {
	v, ok := o.number(key, float64(low), float64(high), false)
	if ok && v != math.Trunc(v) {
		o.bad(key, "%s is not a whole number", shorten(o.values[key].text))
		return 0, false
	}
	return int(v), ok
}

func shorten(s string) string {
	if len(s) > maxShown {
		return s[:maxShown] + "…"
	}
	return s
}

// choice reads one of a few words, in either case, and gives its index.
func (o *object) choice(key string, words ...string) (int, bool) {
	if !o.has(key, textNode) {
		return 0, false
	}
	s := o.values[key].text
	for i, w := range words {
		if strings.EqualFold(s, w) {
			return i, true
		}
	}
	o.bad(key, "%s is not %s", quote(s), oneOf(words))
	return 0, false
}

// oneOf is "a, b or c".
func oneOf(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// stretch reads from and to. With open, to may be missing and is then zero.
func (o *object) stretch(open bool) (from, to planner.Date, ok bool) {
	o.require("from")
	if !open {
		o.require("to")
	}
	from, okFrom := o.date("from")
	to, okTo := o.date("to")
	if okFrom && okTo && from > to {
		o.bad("from", "%s is after to, %s", from, to)
		return 0, 0, false
	}
	return from, to, okFrom && (okTo || open && o.values["to"] == nil)
}

// objects checks a list of objects and hands out those that are objects.
func (o *object) objects(key string, fields []field, use func(i int, item *object)) {
	if !o.has(key, listNode) {
		return
	}
	for i, n := range o.values[key].items {
		path := fmt.Sprintf("%s[%d]", o.at(key), i)
		if item := newObject(n, path, o.example(key), fields, o.faults); item != nil {
			use(i, item)
		}
	}
}
