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
	for _, in := range []string{threeVersions, twoStates, threeWeeks} {
		f.Add([]byte(in))
	}
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
	told := []planner.Told{f.Taper.Told}
	ok := len(f.Weeks) > 0 && f.Taper.Validate() == nil && f.Taper.Withdrawn.IsZero()
	for _, w := range f.Weeks {
		told = append(told, w.Told)
		ok = ok && (w.From.IsZero() || w.From >= first && w.From <= last)
	}
	for _, old := range f.OldTaper {
		told = append(told, old.Told)
		ok = ok && old.Validate() == nil && !old.Withdrawn.IsZero()
	}
	for _, r := range f.Races {
		dates, told = append(dates, r.Date), append(told, r.Told)
		away := today.DaysUntil(r.Date)
		ok = ok && r.Validate() == nil && away >= -1100 && away <= 1100 && (r.Start == "" || len(r.Start) == 5) && r.ID > 0 && r.Registered <= r.On
	}
	for _, b := range f.Blocks {
		dates, told = append(dates, b.From, b.To), append(told, b.Told)
		ok = ok && b.From <= b.To && b.Percent >= 1 && b.Percent <= 100
	}
	for _, a := range f.Absences {
		dates, told = append(dates, a.From, a.To), append(told, a.Told)
		ok = ok && a.From <= a.To
	}
	for _, l := range f.Limits {
		dates, told = append(dates, l.Date), append(told, l.Told)
		ok = ok && l.Minutes >= 0 && l.Minutes <= 1440
	}
	for _, ill := range f.Ill {
		dates, told = append(dates, ill.From), append(told, ill.Told)
		ok = ok && (ill.To.IsZero() || ill.From <= ill.To && ill.To <= last) && (ill.Cleared.IsZero() || ill.From <= ill.Cleared && ill.Cleared <= today)
		for _, s := range ill.Symptoms {
			ok = ok && strings.TrimSpace(s) != "" && utf8.RuneCountInString(s) <= planner.MaxText
		}
	}
	for _, d := range f.Done {
		dates, told = append(dates, d.Date), append(told, d.Told)
		ok = ok && d.Date <= today && d.Minutes >= 0 && d.Minutes <= 1440 && (d.RPE == 0 || d.RPE >= 1 && d.RPE <= 10) && !d.On.IsZero()
	}
	for _, p := range f.Pins {
		dates, told = append(dates, p.Date), append(told, p.Told)
		ok = ok && (p.Session == planner.RestSession || p.Session.Minutes > 0)
	}
	for _, r := range f.Results {
		ok = ok && r.Feeling >= 1 && r.Feeling <= 10 && r.Race != ""
	}
	for _, d := range dates {
		ok = ok && d >= first && d <= last
	}
	if !ok || !inOrder(told, today) {
		t.Errorf("facts outside their ranges: today %v, %+v", today, f)
	}
	if known := f.KnownOn(today); len(known.Weeks) == 0 {
		t.Errorf("no week is known today, of %+v", f.Weeks)
	}
	checkOnce(t, today, f)
}

// inOrder reports dates of telling that today has reached, none withdrawn before it was told.
func inOrder(told []planner.Told, today planner.Date) bool {
	for _, v := range told {
		if v.On > today || v.Withdrawn > today || !v.Withdrawn.IsZero() && v.On > v.Withdrawn {
			return false
		}
	}
	return true
}

// checkOnce wants one version of a race at most on any day.
func checkOnce(t *testing.T, today planner.Date, f *planner.Facts) {
	t.Helper()
	days := []planner.Date{today}
	for _, r := range f.Races {
		days = append(days, r.On, r.Withdrawn)
	}
	for _, day := range days {
		seen := map[int64]bool{}
		for _, r := range f.Races {
			if !r.KnownOn(day) {
				continue
			}
			if seen[r.ID] {
				t.Errorf("race %d has two versions on %s: %+v", r.ID, day, f.Races)
			}
			seen[r.ID] = true
		}
	}
}
