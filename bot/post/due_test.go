package post

import (
	"bufio"
	"os"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"musette/bot/remind"
	"musette/planner"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// dueAt agrees with another reading of the time zone database: see testdata/due.txt.
func TestDueAtAgreesWithZoneinfo(t *testing.T) {
	file, err := os.Open("testdata/due.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	compared := 0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		f := strings.Fields(lines.Text())
		due, ok := remind.DueAt(day(t, f[1]), f[2], must(time.LoadLocation(f[0])))
		got := "never"
		if ok {
			got = due.UTC().Format("2006-01-02T15:04Z07:00")
		}
		if got != f[3] {
			t.Errorf("%s %s %s: got %s, want %s", f[0], f[1], f[2], got, f[3])
		}
		compared++
	}
	if compared < 390 {
		t.Errorf("only %d lines were compared", compared)
	}
}

// The cases that gave trouble elsewhere, told by hand.
func TestDueAt(t *testing.T) {
	for _, tc := range []struct{ what, zone, day, at, want string }{
		{"an ordinary morning", "Europe/Lisbon", "2026-06-13", "06:30", "2026-06-13T05:30Z"},
		{"jumped over", "Europe/Berlin", "2026-03-29", "02:30", "2026-03-29T01:00Z"},
		{"shown twice", "Europe/Berlin", "2026-10-25", "02:30", "2026-10-25T00:30Z"},
		{"jump of half an hour", "Australia/Lord_Howe", "2026-10-04", "02:15", "2026-10-03T15:30Z"},
		{"three quarters of an hour", "Asia/Kathmandu", "2026-06-13", "06:30", "2026-06-13T00:45Z"},
		{"far ahead", "Pacific/Kiritimati", "2026-06-13", "06:30", "2026-06-12T16:30Z"},
		{"far behind", "Pacific/Pago_Pago", "2026-06-13", "23:30", "2026-06-14T10:30Z"},
		{"midnight jumped over", "America/Santiago", "2026-09-06", "00:00", "2026-09-06T04:00Z"},
		{"midnight jumped over", "Africa/Cairo", "2026-04-24", "00:30", "2026-04-23T22:00Z"},
		{"the hour before midnight twice", "America/Santiago", "2026-04-04", "23:30", "2026-04-05T02:30Z"},
		{"the jump takes the evening", "America/Nuuk", "2024-03-30", "23:30", "2024-03-31T00:59Z"},
		{"a day that never was", "Pacific/Apia", "2011-12-30", "06:30", ""},
		{"no time of day", "UTC", "2026-06-13", "24:30", ""},
	} {
		due, ok := remind.DueAt(day(t, tc.day), tc.at, must(time.LoadLocation(tc.zone)))
		if ok != (tc.want != "") || ok && !due.Equal(instant(tc.want)) {
			t.Errorf("%s, %s %s %s: got %v %v, want %s", tc.what, tc.zone, tc.day, tc.at, due.UTC(), ok, tc.want)
		}
	}
}

func TestDaysEnd(t *testing.T) {
	for _, tc := range []struct{ zone, day, end string }{
		{"Europe/Berlin", "2026-03-29", "2026-03-29T22:00Z"}, // 23 hours
		{"Europe/Berlin", "2026-10-25", "2026-10-25T23:00Z"}, // 25 hours
		{"Australia/Lord_Howe", "2026-04-05", "2026-04-05T13:30Z"},
		{"America/Santiago", "2026-04-04", "2026-04-05T04:00Z"}, // 24:00 is 23:00 once more
		{"America/Santiago", "2026-09-05", "2026-09-06T04:00Z"},
		{"Africa/Cairo", "2026-04-23", "2026-04-23T22:00Z"},
		{"America/Nuuk", "2024-03-30", "2024-03-31T01:00Z"},
		{"Pacific/Apia", "2011-12-29", "2011-12-30T10:00Z"},
		{"Pacific/Kiritimati", "2026-06-13", "2026-06-13T10:00Z"},
		{"Pacific/Pago_Pago", "2026-06-13", "2026-06-14T11:00Z"},
	} {
		zone := must(time.LoadLocation(tc.zone))
		if got := endOfDay(day(t, tc.day), zone); !got.Equal(instant(tc.end)) {
			t.Errorf("%s %s ends at %v, want %s", tc.zone, tc.day, got.UTC(), tc.end)
		}
		if got := remind.StartOfDay(day(t, tc.day).AddDays(1), zone); !got.Equal(instant(tc.end)) {
			t.Errorf("%s: the day after %s begins at %v, want %s", tc.zone, tc.day, got.UTC(), tc.end)
		}
	}
}

// However time is cut into pieces, each day is due once.
func TestDuesBetween(t *testing.T) {
	for _, name := range yearZones {
		zone := must(time.LoadLocation(name))
		for _, at := range []string{"00:00", "02:15", "02:30", "23:45"} {
			next := day(t, "2026-01-02")
			begin := endOfDay(next.AddDays(-1), zone).Add(-time.Second)
			for after, step := begin, time.Duration(0); after.Before(begin.AddDate(1, 0, 0)); after = after.Add(step) {
				step = (step*7+13*time.Minute)%(50*time.Hour) + time.Minute
				for _, m := range duesBetween(at, zone, after, after.Add(step)) {
					if m.day != next {
						t.Fatalf("%s %s: %s is due after %s", name, at, m.day, next.AddDays(-1))
					}
					next = next.AddDays(1)
				}
			}
			if next < day(t, "2027-01-01") {
				t.Errorf("%s %s: the last day due is %s", name, at, next.AddDays(-1))
			}
		}
	}
	apia := must(time.LoadLocation("Pacific/Apia"))
	var days []planner.Date
	for _, m := range duesBetween("06:30", apia, instant("2011-12-28T00:00Z"), instant("2012-01-01T00:00Z")) {
		days = append(days, m.day)
	}
	if len(days) != 4 || days[1] != day(t, "2011-12-29") || days[2] != day(t, "2011-12-31") {
		t.Errorf("around the day that Apia left out: %v", days)
	}
}
