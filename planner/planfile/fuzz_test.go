package planfile

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"musette/planner"
)

func FuzzRead(f *testing.F) {
	f.Add([]byte(allKeys))
	for _, tc := range badFiles {
		f.Add([]byte(tc.in))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		today, facts, faults := Read(data)
		if (len(faults) == 0) != (facts != nil) {
			t.Fatalf("got facts %v with faults %v", facts, faults)
		}
		told := map[planner.InputError]bool{}
		for _, fault := range faults {
			if fault.Field == "" || told[fault] {
				t.Errorf("fault %q has no field or is told twice", fault.Error())
			}
			told[fault] = true
			checkMessage(t, fault)
		}
		if facts != nil {
			checkRanges(t, today, facts)
		}
	})
}

// checkRanges holds facts against the documented ranges.
func checkRanges(t *testing.T, today planner.Date, f *planner.Facts) {
	t.Helper()
	first, last := planner.NewDate(planner.MinYear, time.January, 1), planner.NewDate(planner.MaxYear, time.December, 31)
	dates := []planner.Date{today}
	ok := len(f.Weeks) == 1 && f.Taper.Validate() == nil
	for _, r := range f.Races {
		dates = append(dates, r.Date, r.Registered)
		away := today.DaysUntil(r.Date)
		ok = ok && r.Validate() == nil && away >= -1100 && away <= 1100 && (r.Start == "" || len(r.Start) == 5)
	}
	for _, b := range f.Blocks {
		dates = append(dates, b.From, b.To)
		ok = ok && b.From <= b.To && b.Percent >= 1 && b.Percent <= 100
	}
	for _, a := range f.Absences {
		dates = append(dates, a.From, a.To)
		ok = ok && a.From <= a.To
	}
	for _, l := range f.Limits {
		dates = append(dates, l.Date)
		ok = ok && l.Minutes >= 0 && l.Minutes <= 1440
	}
	for _, ill := range f.Ill {
		dates = append(dates, ill.From)
		ok = ok && (ill.To.IsZero() || ill.From <= ill.To && ill.To <= last)
		for _, s := range ill.Symptoms {
			ok = ok && strings.TrimSpace(s) != "" && utf8.RuneCountInString(s) <= planner.MaxText
		}
	}
	for _, d := range f.Done {
		dates = append(dates, d.Date)
		ok = ok && d.Date <= today && d.Minutes >= 0 && d.Minutes <= 1440 && (d.RPE == 0 || d.RPE >= 1 && d.RPE <= 10)
	}
	for _, r := range f.Results {
		ok = ok && r.Feeling >= 1 && r.Feeling <= 10 && r.Race != ""
	}
	for _, d := range dates {
		ok = ok && d >= first && d <= last
	}
	if !ok {
		t.Errorf("facts outside their ranges: today %v, %+v", today, f)
	}
}
