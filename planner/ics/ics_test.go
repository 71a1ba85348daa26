package ics_test

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"musette/planner/ics"
)

func write(e ics.Event) string {
	c := ics.Calendar{Name: "Race plan", Made: time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC), Events: []ics.Event{e}}
	return string(c.Write())
}

func TestTextIsEscaped(t *testing.T) {
	for text, want := range map[string]string{
		`a;b,c\d`: `a\;b\,c\\d`, "two\nlines\r\nthree\rfour": `two\nlines\nthree\nfour`, "tab\tbell\a\x00": "tabbell", "no\xffletter": "no\uFFFDletter", `"quoted": yes`: `"quoted": yes`,
	} {
		if got := ics.Escape(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Lines are folded at 75 octets, never within a letter, and unfold to what was written.
func TestLinesAreFolded(t *testing.T) {
	for _, letter := range []string{"x", "é", "€", "🚴"} {
		for n := range 160 {
			text := strings.Repeat(letter, n+1)
			file := write(ics.Event{UID: "1@musette", Summary: text, AllDay: true})
			for line := range strings.SplitSeq(file, "\r\n") {
				if len(line) > 75 || !utf8.ValidString(line) {
					t.Fatalf("%d times %s: line of %d octets %q", n+1, letter, len(line), line)
				}
			}
			if !strings.Contains(strings.ReplaceAll(file, "\r\n ", ""), "\r\nSUMMARY:"+text+"\r\n") {
				t.Fatalf("%d times %s is not found again:\n%s", n+1, letter, file)
			}
		}
	}
}

func TestZonesAreDescribed(t *testing.T) {
	for name, want := range map[string][]string{
		"UTC":     {"DTSTART:20261024T220000Z", "DTEND:20261025T040000Z"},
		"Etc/UTC": {"DTSTART:20261024T220000Z"},
		"Europe/Madrid": {"DTSTART;TZID=Europe/Madrid:20261025T000000", "DTEND;TZID=Europe/Madrid:20261025T050000",
			"BEGIN:DAYLIGHT\r\nDTSTART:20260329T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nTZNAME:CEST\r\nEND:DAYLIGHT",
			"BEGIN:STANDARD\r\nDTSTART:20261025T030000\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0100\r\nTZNAME:CET\r\nEND:STANDARD"},
		"Asia/Kolkata": {"DTSTART;TZID=Asia/Kolkata:20261025T033000", "TZOFFSETTO:+0530\r\nTZNAME:IST"},
		"Etc/GMT+9":    {"TZOFFSETFROM:-0900\r\nTZOFFSETTO:-0900"},
	} {
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		from := time.Date(2026, 10, 24, 22, 0, 0, 0, time.UTC).In(zone)
		file := write(ics.Event{UID: "1@musette", From: from, To: from.Add(6 * time.Hour), Busy: true})
		for _, part := range want {
			if !strings.Contains(file, part) {
				t.Errorf("%s lacks %q:\n%s", name, part, file)
			}
		}
		if strings.Contains(file, "VTIMEZONE") != strings.Contains(file, "TZID=") {
			t.Errorf("%s: a zone without use, or none for what needs it:\n%s", name, file)
		}
	}
}

func TestStates(t *testing.T) {
	on := ics.Event{UID: "1@musette", Busy: true, AllDay: true}
	off := on
	off.Cancelled = true
	if file := write(on); !strings.Contains(file, "STATUS:CONFIRMED\r\nTRANSP:OPAQUE") {
		t.Error(file)
	}
	if file := write(off); !strings.Contains(file, "STATUS:CANCELLED\r\nTRANSP:TRANSPARENT") {
		t.Error(file)
	}
}

// Times that the clocks show twice in a night are written without a zone, for no two readers agree on them.
func TestHoursThatComeTwice(t *testing.T) {
	lisbon, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	for at, want := range map[string]string{
		"2026-10-24T23:30:00Z": "DTSTART;TZID=Europe/Lisbon:20261025T003000", "2026-10-25T00:30:00Z": "DTSTART:20261025T003000Z",
		"2026-10-25T01:30:00Z": "DTSTART:20261025T013000Z", "2026-10-25T02:30:00Z": "DTSTART;TZID=Europe/Lisbon:20261025T023000",
		"2027-03-28T00:30:00Z": "DTSTART;TZID=Europe/Lisbon:20270328T003000", "2027-03-28T01:30:00Z": "DTSTART;TZID=Europe/Lisbon:20270328T023000",
	} {
		start, err := time.Parse(time.RFC3339, at)
		if err != nil {
			t.Fatal(err)
		}
		c := ics.Calendar{Events: []ics.Event{{UID: "1", From: start.In(lisbon), To: start.Add(time.Hour).In(lisbon)}}}
		if text := string(c.Write()); !strings.Contains(text, want+"\r\n") {
			t.Errorf("%s: no %s in\n%s", at, want, text)
		}
	}
}
