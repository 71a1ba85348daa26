package typed

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

func TestParseDate(t *testing.T) {
	today := planner.NewDate(2026, time.June, 10) // a Wednesday
	tests := map[string]string{
		"2026-06-13": "2026-06-13", "2027-1-2": "2027-01-02", "2026/06/13": "2026-06-13",
		"13 June": "2026-06-13", "June 13": "2026-06-13", "13 jun 2027": "2027-06-13", "June 13, 2027": "2027-06-13", "13th of June": "2026-06-13",
		"the 13th of June 2027": "2027-06-13", "jun 13th": "2026-06-13", "13june": "2026-06-13", "13-Jun-2027": "2027-06-13", "13. Juni": "2026-06-13",
		"13. June": "2026-06-13", "on 13 June": "2026-06-13", "Sept 1": "2026-09-01", "1 JANUARY": "2027-01-01", "June 9": "2027-06-09", "june 10": "2026-06-10",
		"13/6": "2026-06-13", "6/13": "2026-06-13", "13.6.": "2026-06-13", "13.6": "2026-06-13", "13. 6. 2027": "2027-06-13", "13/6/2027": "2027-06-13", "6/13/2027": "2027-06-13", "13/6/27": "2027-06-13",
		"6/6": "2027-06-06", "7/7": "2026-07-07", "6/6/2026": "2026-06-06",
		"today": "2026-06-10", "Tomorrow": "2026-06-11", "tmrw": "2026-06-11", "the day after tomorrow": "2026-06-12", "day  after tomorrow": "2026-06-12", "yesterday": "2026-06-09",
		"in 3 days": "2026-06-13", "in 1 day": "2026-06-11", "in 0 days": "2026-06-10", "3 days ago": "2026-06-07",
		"sat": "2026-06-13", "Saturday": "2026-06-13", "on saturday": "2026-06-13", "this sat": "2026-06-13", "next saturday": "2026-06-20", "next mon": "2026-06-15",
		"wed": "2026-06-10", "next wed": "2026-06-17", "tue": "2026-06-16", "next sun": "2026-06-21", "next mon week": "2026-06-22", "the tuesday after next": "2026-06-23", "sun": "2026-06-14",
		"Sat 13 June": "2026-06-13", "Saturday 13 June 2026": "2026-06-13", "sat, june 13": "2026-06-13", "Saturday, June 13th, 2026": "2026-06-13",
		"29 Feb": "2028-02-29", "29/2": "2028-02-29", "29 feb 2028": "2028-02-29",
		"20th": "2026-06-20", "the 31st": "2026-07-31", "on the 9th": "2026-07-09",
		"1971-01-01": "1971-01-01", "2199-12-31": "2199-12-31",
	}
	for in, want := range tests {
		d, err := Date(in, today)
		if want == "" {
			wantFault(t, in, err, "13 June")
			continue
		}
		if err != nil || d.String() != want {
			t.Errorf("Date(%q) = %v, %v, want %s", in, d, err, want)
		}
	}
}

func TestParseDateRefuses(t *testing.T) {
	today := planner.NewDate(2026, time.June, 10)
	tests := map[string][]string{
		"":                              {"20 June"},
		"6/7":                           {"Monday 6 July 2026", "Monday 7 June 2027", "Write 6 July or 7 June"},
		"6.7.":                          {"6 July 2026", "7 June 2027"},
		"6/7/2026":                      {"Monday 6 July 2026", "Sunday 7 June 2026"},
		"31 June":                       {"June has no day 31", "20 June"},
		"30 feb":                        {"February has no day 30"},
		"30/2":                          {"February has no day 30"},
		"29 feb 2027":                   {"February 2027 has no day 29"},
		"2026-02-30":                    {"February 2026 has no day 30"},
		"2026-13-01":                    {"no month"},
		"13/13":                         {"no month"},
		"0/0":                           {"no month"},
		"13/0":                          {"no month"},
		"0 June":                        {"June has no day 0"},
		"1970-12-31":                    {"1971"},
		"13 June 2200":                  {"2199"},
		"0001-01-01":                    {"1971"},
		"13 June 27":                    {"four digits"},
		"Friday 13 June":                {"is a Saturday, not a Friday"},
		"sat after next":                {"20 June 2026", "27 June 2026"},
		"next thursday week":            {"18 June 2026", "25 June 2026"},
		"not saturday":                  {"20 June"},
		"before saturday":               {"20 June"},
		"the day after saturday":        {"20 June"},
		"the week after tomorrow":       {"20 June"},
		"next week":                     {"has 7 days", "21 June"},
		"next month":                    {"has 31 days", "31 July"},
		"weekend":                       {"Saturday 13 June 2026 or Sunday 14 June 2026"},
		"tue 5/7":                       {"is a Sunday, not a Tuesday"},
		"end of july":                   {"which day of July?"},
		"thrusdya":                      {"did you mean thursday?"},
		"next fortnight":                {"20 June"},
		"next days":                     {"20 June"},
		"munday":                        {"20 June"},
		"sat or sun":                    {"20 June"},
		"5th saturday in july":          {"July has no such Saturday"},
		"in 2 weeks ago":                {"20 June"},
		"4th saturday july":             {"Saturday 4 July 2026 or Saturday 25 July 2026"},
		"in 4000 days":                  {"20 June"},
		"in -3 days":                    {"20 June"},
		"june":                          {"20 June"},
		"13":                            {"20 June"},
		"13 14 june":                    {"20 June"},
		"june 13-14":                    {"20 June"},
		"june 6/7":                      {"20 June"},
		"13 of 6":                       {"20 June"},
		"13nd june":                     {"20 June"},
		"2.5 w/kg":                      {"20 June"},
		"10:30":                         {"20 June"},
		"13 jnue":                       {"did you mean june?"},
		"32nd":                          {"no month has a day 32"},
		"2026-06-13T10:00":              {"20 June"},
		"13/6-2027":                     {"20 June"},
		"99999999999 june":              {"20 June"},
		"\xff":                          {"20 June"},
		strings.Repeat("tomorrow ", 30): {"200"},
	}
	for in, parts := range tests {
		d, err := Date(in, today)
		if err == nil {
			t.Errorf("Date(%q) = %v, want an error", in, d)
			continue
		}
		wantFault(t, in, err, parts...)
	}
}

// Every form that the program prints must be read back, from any day of the week.
func TestParseDateReadsItsOwnForms(t *testing.T) {
	start := planner.NewDate(2027, time.December, 20)
	for i := range 120 {
		today := start.AddDays(i)
		for ahead := range 90 {
			want := today.AddDays(ahead)
			for _, text := range []string{want.String(), want.Long(), want.Short()} {
				if got, err := Date(text, today); err != nil || got != want {
					t.Fatalf("on %v: Date(%q) = %v, %v, want %v", today, text, got, err, want)
				}
			}
			if got, err := Date(want.Weekday().Short(), today); err != nil || got < today || got > today.AddDays(6) || got.Weekday() != want.Weekday() {
				t.Fatalf("on %v: Date(%q) = %v, %v", today, want.Weekday().Short(), got, err)
			}
		}
	}
}

// Fields look ahead or back; today is Wednesday 10 June 2026.
func TestDirections(t *testing.T) {
	today := planner.NewDate(2026, time.June, 10)
	tests := []struct{ in, ride, plan, over string }{
		{"wed", "2026-06-10", "2026-06-17", "2026-06-10"},
		{"thu", "2026-06-11", "2026-06-11", "2026-06-04"},
		{"this mon", "2026-06-15", "2026-06-15", "2026-06-08"},
		{"13 June", "2026-06-13", "2026-06-13", "2026-06-13"},
		{"1 June", "2027-06-01", "2027-06-01", "2026-06-01"},
		{"20 dec", "2026-12-20", "2026-12-20", "2025-12-20"},
		{"29 feb", "2028-02-29", "2028-02-29", "2024-02-29"},
		{"the 30th", "2026-06-30", "2026-06-30", "2026-05-30"},
		{"the 12th", "2026-06-12", "2026-06-12", "2026-06-12"},
		{"last sunday in may", "2027-05-30", "2027-05-30", "2026-05-31"},
		{"last sat", "2026-06-06", "2026-06-06", "2026-06-06"},
		{"sunday week", "2026-06-21", "2026-06-21", "2026-06-21"},
		{"next sunday", "2026-06-21", "2026-06-21", "2026-06-21"},
		{"tomorrow", "2026-06-11", "2026-06-11", "2026-06-11"},
	}
	for _, tc := range tests {
		for want, read := range map[*string]func(string, planner.Date) (planner.Date, error){&tc.ride: Date, &tc.plan: DateComing, &tc.over: DateBack} {
			if d, err := read(tc.in, today); err != nil || d.String() != *want {
				t.Errorf("%q = %v, %v, want %s", tc.in, d, err, *want)
			}
		}
	}
	// Never a day of a year to come.
	newYear := planner.NewDate(2026, time.December, 30)
	if d, err := DateBack("2 jan", newYear); err != nil || d.String() != "2026-01-02" {
		t.Errorf("2 jan = %v, %v, want 2026-01-02", d, err)
	}
}

// Where people differ over what is meant both days are offered.
func TestDateAsks(t *testing.T) {
	tests := []struct {
		in, today string
		want      []string
	}{
		{"next sunday", "2026-06-13", []string{"2026-06-14", "2026-06-21"}}, // a Saturday
		{"next sat", "2026-06-13", []string{"2026-06-20", "2026-06-27"}},
		{"next mon", "2026-06-14", []string{"2026-06-15", "2026-06-22"}},
		{"last mon", "2026-06-10", []string{"2026-06-01", "2026-06-08"}},
		{"6/7", "2026-06-10", []string{"2026-07-06", "2027-06-07"}},
		{"weekend", "2026-06-10", []string{"2026-06-13", "2026-06-14"}},
		{"the weekend after next", "2026-06-10", []string{"2026-06-27", "2026-06-28"}},
		{"4th sat july", "2026-06-10", []string{"2026-07-04", "2026-07-25"}},
	}
	for _, tc := range tests {
		today, _ := planner.ParseISODate(tc.today)
		_, err := Date(tc.in, today)
		var open *Ambiguous
		if !errors.As(err, &open) {
			t.Errorf("%s on %s: got %v, want two readings", tc.in, tc.today, err)
			continue
		}
		var got []string
		for _, r := range open.Readings {
			got = append(got, r.Value)
		}
		if !slices.Equal(got, tc.want) {
			t.Errorf("%s on %s: offers %v, want %v", tc.in, tc.today, got, tc.want)
		}
		wantFault(t, tc.in, err, open.Readings[0].Label, open.Readings[1].Label)
	}
}

func TestFirstAndLastDay(t *testing.T) {
	today := planner.NewDate(2026, time.June, 10)
	for in, want := range map[string][2]string{
		"next week": {"2026-06-15", "2026-06-21"}, "this week": {"2026-06-08", "2026-06-14"}, "weekend": {"2026-06-13", "2026-06-14"}, "next weekend": {"2026-06-20", "2026-06-21"},
		"next month": {"2026-07-01", "2026-07-31"}, "13 June": {"2026-06-13", "2026-06-13"},
	} {
		from, err := DateFrom(in, today)
		to, err2 := DateTo(in, today)
		if err != nil || err2 != nil || from.String() != want[0] || to.String() != want[1] {
			t.Errorf("%q is %v to %v, %v, %v, want %v", in, from, to, err, err2, want)
		}
	}
}

func FuzzParseDate(f *testing.F) {
	for i, s := range []string{
		"2026-06-13", "13 June", "June 13, 2027", "13/6", "6/7", "13.6.", "sat", "next saturday", "in 3 days", "the 20th", "29 feb", "31 June", "Sat 13 Jun",
		"sunday week", "a fortnight on sat", "first sunday in july", "last mon", "sun 5/7", "next weekend", "in 2 months", "the 4th sat of july", "twenty first june", "20.6.26",
		"1 jan 2199", "3 days ago", "13th of june 1971", "sat after",
	} {
		f.Add(s, int32(20000+i))
	}
	first, last := planner.NewDate(planner.MinYear, time.January, 1), planner.NewDate(planner.MaxYear, time.December, 31)
	f.Fuzz(func(t *testing.T, s string, day int32) {
		today := min(max(planner.Date(day), first), last)
		for name, read := range map[string]func(string, planner.Date) (planner.Date, error){"Date": Date, "DateComing": DateComing, "DateBack": DateBack, "DateFrom": DateFrom, "DateTo": DateTo} {
			d, err := read(s, today)
			if err != nil {
				wantFault(t, s, err)
				readBack(t, s, err, func(text string) error { _, err := read(text, today); return err })
				continue
			}
			if d < first || d > last {
				t.Errorf("%s(%q, %v) = %v, outside %v to %v", name, s, today, d, first, last)
			}
			for _, text := range []string{d.String(), d.Long()} {
				if again, err := read(text, today); err != nil || again != d {
					t.Errorf("%s(%q) = %v, %v, want %v", name, text, again, err, d)
				}
			}
			if plain := strings.ToLower(s); strings.Contains(plain, "not ") || strings.Contains(plain, "except") {
				t.Errorf("%s(%q) = %v, want a refusal", name, s, d)
			}
		}
	})
}
