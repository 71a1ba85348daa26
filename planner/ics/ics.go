// Package ics writes calendars as iCalendar (RFC 5545): text escaped, lines
// folded at 75 octets, time zones with all their changes in the calendar's years.
package ics

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Calendar is a list of events with the instant at which it was made.
type Calendar struct {
	Name   string
	Made   time.Time
	Events []Event
}

// Event is an entry of a calendar. With AllDay only the dates of From and To count,
// and To is the day after the last; else both are instants, shown in From's zone.
type Event struct {
	UID         string
	Sequence    int
	From, To    time.Time
	AllDay      bool
	Summary     string
	Description string
	Location    string
	Category    string // one word of our own
	Busy        bool   // it takes the time of who has it
	Cancelled   bool
}

const (
	product   = "-//musette//race tapers//EN"
	maxOctets = 75 // of a line, without its end
	dateForm  = "20060102"
	timeForm  = "20060102T150405"
)

// Write is the calendar as a file.
func (c *Calendar) Write() []byte {
	var w writer
	w.line("BEGIN", "VCALENDAR")
	w.line("VERSION", "2.0")
	w.line("PRODID", product)
	w.line("CALSCALE", "GREGORIAN")
	w.line("METHOD", "PUBLISH")
	w.text("X-WR-CALNAME", c.Name)
	for _, z := range c.zones() {
		z.write(&w)
	}
	for i := range c.Events {
		c.Events[i].write(&w, c.Made)
	}
	w.line("END", "VCALENDAR")
	return []byte(w.String())
}

func (e *Event) write(w *writer, made time.Time) {
	w.line("BEGIN", "VEVENT")
	w.text("UID", e.UID)
	w.line("DTSTAMP", made.UTC().Format(timeForm+"Z"))
	w.line("SEQUENCE", fmt.Sprint(e.Sequence))
	w.when("DTSTART", e.From, e)
	w.when("DTEND", e.To, e)
	w.text("SUMMARY", e.Summary)
	w.text("DESCRIPTION", e.Description)
	w.text("LOCATION", e.Location)
	w.text("CATEGORIES", e.Category)
	if e.Cancelled {
		w.line("STATUS", "CANCELLED")
	} else {
		w.line("STATUS", "CONFIRMED")
	}
	if e.Busy && !e.Cancelled {
		w.line("TRANSP", "OPAQUE")
	} else {
		w.line("TRANSP", "TRANSPARENT")
	}
	w.line("END", "VEVENT")
}

// writer writes content lines.
type writer struct{ strings.Builder }

// line writes a property whose value needs no escaping.
func (w *writer) line(name, value string) { w.fold(name + ":" + value) }

// text writes a property that holds text, unless that is empty.
func (w *writer) text(name, value string) {
	if value = Escape(value); value != "" {
		w.line(name, value)
	}
}

// when writes an instant: a date, or a time in its zone.
func (w *writer) when(name string, at time.Time, e *Event) {
	switch zone := e.From.Location(); {
	case e.AllDay:
		w.line(name+";VALUE=DATE", at.Format(dateForm))
	case plainUTC(zone), twice(at.In(zone)):
		w.line(name, at.UTC().Format(timeForm+"Z"))
	default:
		w.line(name+";TZID="+zone.String(), at.In(zone).Format(timeForm))
	}
}

// twice reports an instant whose clock comes a second time, since clocks go back: readers
// of calendars do not agree which one is meant.
func twice(at time.Time) bool {
	_, offset := at.Zone()
	start, end := at.ZoneBounds()
	for _, edge := range []time.Time{start, end} {
		if edge.IsZero() {
			continue
		}
		_, before := edge.Add(-time.Second).Zone()
		_, after := edge.Zone()
		other := before + after - offset
		clock := at.Add(time.Duration(offset-other) * time.Second)
		if _, there := clock.Zone(); before > after && there == other {
			return true
		}
	}
	return false
}

// plainUTC reports a zone that needs no description.
func plainUTC(zone *time.Location) bool {
	return slices.Contains([]string{"UTC", "Etc/UTC", "Etc/UCT", "UCT", "Zulu", "Universal"}, zone.String())
}

// fold writes a content line in parts of at most 75 octets, none within a letter.
func (w *writer) fold(line string) {
	room := maxOctets
	for len(line) > room {
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		w.WriteString(line[:cut] + "\r\n ")
		line, room = line[cut:], maxOctets-1 // the blank counts
	}
	w.WriteString(line + "\r\n")
}

var escaper = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// Escape is a text as a value holds it: valid, without control characters.
func Escape(text string) string {
	text = escaper.Replace(strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, text)
}

// zone is a time zone with the span in which it is needed.
type zone struct {
	*time.Location
	from, to time.Time
}

// zones are those of the events with times, by their names.
func (c *Calendar) zones() []zone {
	var all []zone
	for i := range c.Events {
		e := &c.Events[i]
		if e.AllDay || plainUTC(e.From.Location()) {
			continue
		}
		k := slices.IndexFunc(all, func(z zone) bool { return z.String() == e.From.Location().String() })
		if k < 0 {
			k = len(all)
			all = append(all, zone{e.From.Location(), e.From, e.To})
		}
		z := &all[k]
		if e.From.Before(z.from) {
			z.from = e.From
		}
		if e.To.After(z.to) {
			z.to = e.To
		}
	}
	slices.SortFunc(all, func(a, b zone) int { return strings.Compare(a.String(), b.String()) })
	return all
}

// write describes a zone by each change of its clocks, from the one that holds
// when the first event begins to the last before the last event ends.
func (z zone) write(w *writer) {
	w.line("BEGIN", "VTIMEZONE")
	w.line("TZID", z.String())
	for at := z.from; ; {
		start, end := at.In(z.Location).ZoneBounds()
		z.observance(w, start, at)
		if end.IsZero() || end.After(z.to) {
			break
		}
		at = end
	}
	w.line("END", "VTIMEZONE")
}

// observance is a stretch of one offset that begins at start, the zero time where
// it always was; at lies in it.
func (z zone) observance(w *writer, start, at time.Time) {
	name, offset := at.In(z.Location).Zone()
	was, onset := offset, "19700101T000000"
	if !start.IsZero() {
		_, was = start.Add(-time.Second).In(z.Location).Zone()
		onset = start.UTC().Add(time.Duration(was) * time.Second).Format(timeForm)
	}
	kind := "STANDARD"
	if at.In(z.Location).IsDST() {
		kind = "DAYLIGHT"
	}
	w.line("BEGIN", kind)
	w.line("DTSTART", onset)
	w.line("TZOFFSETFROM", offsetText(was))
	w.line("TZOFFSETTO", offsetText(offset))
	w.line("TZNAME", name)
	w.line("END", kind)
}

// offsetText is an offset in seconds: +0100.
func offsetText(seconds int) string {
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	text := fmt.Sprintf("%c%02d%02d", sign, seconds/3600, seconds/60%60)
	if s := seconds % 60; s != 0 {
		text += fmt.Sprintf("%02d", s)
	}
	return text
}
