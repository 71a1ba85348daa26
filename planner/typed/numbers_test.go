package typed

import "testing"

func TestRating(t *testing.T) {
	for in, want := range map[string]float64{"7": 7, " 7.5 ": 7.5, "7,5": 7.5, "7/10": 7, "8 out of 10": 8, "seven": 7, "10": 10, "1": 1} {
		if got, err := Rating(in); err != nil || got != want {
			t.Errorf("Rating(%q) = %g, %v, want %g", in, got, err, want)
		}
	}
	for _, in := range []string{"", "1_0", "1e1", "0x1p3", "+7", "-7", "0", "0.5", "10.5", "7.3", "eleven", "7-8", "inf", "nan", "7 8", "٧"} {
		_, err := Rating(in)
		wantFault(t, in, err, "7.5")
	}
}

func TestWhole(t *testing.T) {
	for in, want := range map[string]int{"5": 5, "40%": 40, "40 %": 40, "three": 3, " 12 ": 12} {
		if got, err := Whole(in, 1, 50, "3"); err != nil || got != want {
			t.Errorf("Whole(%q) = %d, %v, want %d", in, got, err, want)
		}
	}
	for in, part := range map[string]string{"": "whole number", "1_0": "whole number", "+5": "whole number", "1e1": "whole number", "0x5": "whole number", "2.5": "whole number", "51": "1 to 50", "0": "1 to 50"} {
		_, err := Whole(in, 1, 50, "3")
		wantFault(t, in, err, part, "or example 3")
	}
}

func TestWeekdays(t *testing.T) {
	for in, want := range map[string]int{"tue": 1, "Tuesdays": 1, "tue+thu": 2, "mon-fri": 5, "weekdays": 5, "weekend": 2, "every day": 7, "th": 1, "wensday": 0, "wednsday": 1} {
		if days, err := Weekdays(in); want > 0 && (err != nil || len(days) != want) || want == 0 && err == nil {
			t.Errorf("Weekdays(%q) = %v, %v, want %d days", in, days, err, want)
		}
	}
	for in, part := range map[string]string{"": "tue", "tue easy": "tue", "tuseday week": "tue", "tuez": "did you mean tue?", "mon mon": "mon-fri", "mon, mon": "twice"} {
		_, err := Weekdays(in)
		wantFault(t, in, err, part)
	}
}
