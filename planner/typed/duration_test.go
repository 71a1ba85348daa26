package typed

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"musette/planner"
)

// wantFault checks that err is an InputError whose message holds every part.
func wantFault(t *testing.T, in string, err error, parts ...string) {
	t.Helper()
	var fault *planner.InputError
	if !errors.As(err, &fault) {
		t.Errorf("%q: got error %v, want an InputError", in, err)
		return
	}
	if strings.ContainsAny(fault.Msg, "\n\r") {
		t.Errorf("%q: message %q has more than one line", in, fault.Msg)
	}
	for _, part := range parts {
		if !strings.Contains(fault.Msg, part) {
			t.Errorf("%q: got message %q, want it to hold %q", in, fault.Msg, part)
		}
	}
}

func TestParseMinutes(t *testing.T) {
	tests := map[string]int{
		"1h30": 90, "1:30": 90, "90min": 90, "90": 90, "1.5h": 90, "1,5h": 90, "45'": 45, "2 hours": 120,
		"1 h 30 min": 90, "1h 30": 90, "1h30m": 90, "1h30'": 90, "1 hour and 15 minutes": 75, "2h": 120, "1H30": 90,
		" 90 mins ": 90, "1:05h": 65, "0": 0, "24h": 1440, "1440": 1440, "120s": 2, "45′": 45, "0:45": 45,
		"1.33h": 80, "1 hr": 60, "3 hrs 5 min": 185, "an hour and a half": 90, "hour and ten": 70, "two hours less ten": 110, "three quarters of an hour": 45, "1 1/2 hours": 90,
		"just under the hour, 55 min": 55, "1:30:00": 90, "1:05:42": 66, "1.25h": 75, "1.75 hours": 105, "a couple of hours": 120, "forty five": 45, "about 2h-ish": 120, ".5h": 30, ",75 h": 45, "~.5h": 30, "90 a day": 90,
	}
	for in, want := range tests {
		got, err := Minutes(in)
		if err != nil || got != want {
			t.Errorf("Minutes(%q) = %d, %v, want %d", in, got, err, want)
		}
	}
}

func TestParseMinutesRefuses(t *testing.T) {
	tests := map[string]string{
		"": "1h30", "long": "1h30", "-5": "1h30", "1h90": "1h30", "1:5": "1h30", "1:60": "1h30", "90x": "1h30", "1.5": "whole minutes",
		"90s": "whole minutes", "25h": "24 hours", "1441": "24 hours", "1h 2h": "1h30", "1.5h30": "1h30", "90 5": "1h30",
		"999999999999": "1h30", "1h30 5x3min": "1h30", strings.Repeat("9", 201): "200", "\x00": "1h30", "１h": "1h30", "1:30:": "1h30", "1:30:75": "1h30", "1.30h": "1h30 or 1h18", "2,50 hours": "2h50 or 2h30", ".5": "whole minutes", "1 day": "1h30",
	}
	for in, part := range tests {
		_, err := Minutes(in)
		wantFault(t, in, err, part)
	}
}

func TestParseHours(t *testing.T) {
	tests := map[string]float64{
		"3.5": 3.5, "3,5": 3.5, "3h30": 3.5, "3:30": 3.5, "210min": 3.5, "210'": 3.5, "3 hours": 3, "48h": 48, "0.75h": 0.75, "1 h 15 min": 1.25, "45 min": 0.75,
		"24": 24, "24:00": 24, "45h": 45, "30 hours": 30, "30h30": 30.5, "27:30h": 27.5, "1800min": 30, ".5": 0.5, ",5": 0.5, ".75h": 0.75, "4h a day": 4,
	}
	for in, want := range tests {
		got, err := Hours(in, 1)
		if err != nil || got != want {
			t.Errorf("Hours(%q, 1) = %g, %v, want %g", in, got, err, want)
		}
	}
	for in, part := range map[string]string{
		"": "3h30", "0": "outside", "48.1": "outside", "49h": "outside", "-2": "3h30", "210": "210min", "3 5": "3h30", "4-5": "4h30", "not 3": "3h30", "5 and a bit": "exact", "NaN": "3h30", "1e3": "3h30", "1 day": "3h30", "2 year": "3h30",
		"1e999": "3h30", strings.Repeat("1", 250): "200",
		"45": "Write it like 45min for minutes, or like 45h for hours", "24.1": "24h06", "27:30": "27h30", "48": "48min",
	} {
		_, err := Hours(in, 1)
		wantFault(t, in, err, part)
	}
	for in, want := range map[string]float64{"45": 45, "27:30": 27.5} {
		if got, err := Hours(in, 2); err != nil || got != want {
			t.Errorf("Hours(%q, 2) = %g, %v, want %g", in, got, err, want)
		}
	}
}

func TestParseStart(t *testing.T) {
	tests := map[string]string{
		"10:30": "10:30", "9:05": "09:05", "09:05": "09:05", "10.30": "10:30", "9am": "09:00", "2:15pm": "14:15", "2.15 PM": "14:15",
		"12am": "00:00", "12pm": "12:00", "0:00": "00:00", "23:59": "23:59", " 7:00 ": "07:00", "8": "08:00", "0830": "08:30", "930": "09:30", "noon": "12:00", "half nine": "09:30", "half past seven am": "07:30",
		"quarter to eight": "07:45", "9h30": "09:30", "10 o'clock": "10:00", "7pm evening league": "19:00", "9 30": "09:30", "13pm": "13:00", "2 and half of the afternoon": "14:30", "ten": "10:00",
	}
	for in, want := range tests {
		got, err := Start(in)
		if err != nil || got != want {
			t.Errorf("Start(%q) = %q, %v, want %q", in, got, err, want)
		}
	}
	for _, in := range []string{"", "24:00", "10:60", "10:5", "0am", "am", "10:30:00", "-1:30", "2400", "9-10", "sign on 9, off 10", "14am", "half", "quarter nine", ":30", "10:", "1o:30"} {
		_, err := Start(in)
		wantFault(t, in, err, "10:30")
	}
}

func FuzzParseMinutes(f *testing.F) {
	for _, s := range []string{"1h30", "1:30", "90min", "1.5h", "1,5h", "45'", "2 hours", "1 h 30 min", "1h90", "0", "9999999999", "1''", "x", "1:30:00"} {
		f.Add(s)
	}
	for _, s := range []string{"an hour and a half", "1-2h", "two hours less ten", "just over the hour, 65", "¾ h", "4 or 5 hours", "hour n half", "45"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if h, err := Hours(s, 1); err == nil {
			text := fmt.Sprintf("%gh", h)
			if again, err := Hours(text, 1); h >= 1e-4 && (err != nil || math.Abs(again-h) > 1e-9) && len(text) < 12 {
				t.Errorf("Hours(%q) = %g, %v, want %g", text, again, err, h)
			}
		} else {
			readBack(t, s, err, func(text string) error { _, err := Hours(text, 1); return err })
		}
		m, err := Minutes(s)
		if err != nil {
			wantFault(t, s, err)
			if !hint.MatchString(err.Error()) {
				t.Errorf("Minutes(%q): %v shows no example", s, err)
			}
			readBack(t, s, err, func(text string) error { _, err := Minutes(text); return err })
			return
		}
		if m < 0 || m > minutesPerDay {
			t.Errorf("Minutes(%q) = %d, outside 0 to %d", s, m, minutesPerDay)
		}
		if again, err := Minutes(planner.Duration(m)); err != nil || again != m {
			t.Errorf("Minutes(%q) = %d, %v, want %d", planner.Duration(m), again, err, m)
		}
		if h, err := Hours(s, 1); err == nil && (!(h > 0) || h > planner.MaxRaceHours) {
			t.Errorf("Hours(%q) = %g, outside 0 to %d", s, h, planner.MaxRaceHours)
		}
	})
}

// readBack checks that each reading that an error offers is read when it is chosen.
func readBack(t *testing.T, in string, err error, read func(string) error) {
	t.Helper()
	var open *Ambiguous
	if !errors.As(err, &open) {
		return
	}
	if len(open.Readings) == 0 {
		t.Errorf("%q: %v offers nothing", in, err)
	}
	for _, reading := range open.Readings {
		if err := read(reading.Value); err != nil {
			t.Errorf("%q offers %q, which is refused: %v", in, reading.Value, err)
		}
	}
}

func FuzzParseStart(f *testing.F) {
	for _, s := range []string{"10:30", "9.05", "0830", "half nine", "quarter to 8 in the morning", "2 and half of the afternoon", "6", "12am", "9h30", "ten past ten am", "noon", "24"} {
		f.Add(s)
	}
	form := regexp.MustCompile(`^([01][0-9]|2[0-3]):[0-5][0-9]$`)
	f.Fuzz(func(t *testing.T, s string) {
		start, err := Start(s)
		if err != nil {
			wantFault(t, s, err)
			readBack(t, s, err, func(text string) error { _, err := Start(text); return err })
			return
		}
		if again, err := Start(start); err != nil || again != start || !form.MatchString(start) {
			t.Errorf("Start(%q) = %q, which is read as %q, %v", s, start, again, err)
		}
	})
}

func TestStartAsks(t *testing.T) {
	for in, want := range map[string]string{"half six": "06:30 or 18:30", "3": "03:00 or 15:00", "2:30": "02:30 or 14:30", "3h": "03:00 or 15:00"} {
		_, err := Start(in)
		wantFault(t, in, err, want)
		readBack(t, in, err, func(text string) error { _, err := Start(text); return err })
		if open := (*Ambiguous)(nil); !errors.As(err, &open) || len(open.Readings) != 2 {
			t.Errorf("Start(%q): %v offers no two readings", in, err)
		}
	}
}
