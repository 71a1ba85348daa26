package typed

import (
	"reflect"
	"strings"
	"testing"

	"musette/planner"
)

const demoWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

func TestParseWeekdayPlan(t *testing.T) {
	tests := map[string]string{
		"":                                    "rest",
		" ; ":                                 "rest",
		"rest":                                "rest",
		"rest day":                            "rest",
		"off":                                 "rest",
		"day off":                             "rest",
		"OFF":                                 "rest",
		"busy":                                "busy",
		"Busy day":                            "busy",
		"off; strength 30min":                 "strength 30min",
		"club ride 2h; gym 30":                "group 2h; strength 30min",
		"1h30; 30min":                         "endurance 1h30; endurance 30min",
		"commute 25min; turbo 1h 2x20min":     "commute 25min; indoor 1h 2x20min",
		"club run 3h then cafe":               "group 3h",
		"can't ride, kids":                    "busy",
		"never, i work nights":                "busy",
		"nothing":                             "rest",
		"legs up":                             "rest",
		"25 min into work, 50 home":           "commute 25min; commute 50min",
		"swim 40 min then weights half hour":  "other 40min; strength 30min",
		"ride 1h and 30min run":               "endurance 1h; other 30min",
		"recovery 40min; strength 30min":      "recovery 40min; strength 30min",
		"recovery 40min + strength 30min":     "recovery 40min; strength 30min",
		"recovery 40min + 30min strength":     "recovery 40min; strength 30min",
		"easy 40\ngym 30":                     "recovery 40min; strength 30min",
		"openers 1h 3x1min + 3x10s + gym 30":  "openers 1h 3x1min + 3x10s; strength 30min",
		"openers 1h 3x1min+3 x 10s; easy 30;": "openers 1h 3x1min + 3x10s; recovery 30min",
		"rest; strength 30min":                "strength 30min",
		"easy 1h;easy 1h;easy 1h;easy 1h;easy 1h;easy 1h": "recovery 1h; recovery 1h; recovery 1h; recovery 1h; recovery 1h; recovery 1h",
	}
	for in, want := range tests {
		p, err := Weekday(in)
		if err != nil || p.String() != want {
			t.Errorf("Weekday(%q) = %q, %v, want %q", in, p.String(), err, want)
		}
	}
}

// Who types a day sees it again, so one wrong letter in a long word is made good. A
// program's file is refused.
func TestDayMendsWords(t *testing.T) {
	for in, want := range map[string]string{"recvery 40min": "recovery 40min", "intervls 1h 5x3min": "intervals 1h 5x3min", "cmmute 35 n weights half hr": "commute 35min; strength 30min", "off": "rest", "busy": "busy"} {
		if p, err := Day(in); err != nil || p.String() != want {
			t.Errorf("Day(%q) = %q, %v, want %q", in, p.String(), err, want)
		}
	}
	for _, in := range []string{"recvery 40min", "intervls 1h 5x3min"} {
		_, err := Weekday(in)
		wantFault(t, in, err, "did you mean")
	}
	for _, in := range []string{"recvry 40min", "logn 1h"} {
		_, err := Day(in)
		wantFault(t, in, err, "did you mean")
	}
}

func TestParseWeekdayPlanRefuses(t *testing.T) {
	tests := map[string]string{
		"busy; recovery 40min":         "busy alone",
		"recovery 40min + busy":        "busy alone",
		"busy; strength 30min":         "busy alone",
		"busy; rest":                   "busy alone",
		"off; recovery 40min":          "rest alone",
		"rest; recovery 40min":         "rest alone",
		"long 13h; endurance 12h":      "24 hours",
		"long 23h; strength 2h":        "24 hours",
		strings.Repeat("easy 5;", 7):   "more than 6",
		strings.Repeat("easy 5; ", 30): "200",
		"recovery 40min; juggle 1h":    "juggle",
		"recovery 40min +":             "kind",
		"+":                            "kind",
		strings.Repeat("easy 99 9x65s/65s+9x65s/65s;", 6): "200",
	}
	for in, part := range tests {
		_, err := Weekday(in)
		wantFault(t, in, err, part, "or example")
	}
}

func TestParseWeek(t *testing.T) {
	demo := strings.Replace(demoWeek, "off", "rest", 1)
	const rest = "mon rest; tue rest; wed rest; thu rest; fri rest; sat rest; sun rest"
	tests := []struct{ name, in, want string }{
		{"demo", demoWeek, demo},
		{"lines and long names", "Monday: recovery 40min\nTuesday - intervals 1h30 5x3min\nWednesday endurance 1h45\r\nThurs off\nFRI. endurance 1h15\nSaturday, long 3h\nSundays = intervals 2h 4x8min", demo},
		{"clause without weekday", "tue easy 40; gym 30; wed long 2h",
			"mon rest; tue recovery 40min; strength 30min; wed long 2h; thu rest; fri rest; sat rest; sun rest"},
		{"list", "mon, wed and fri: easy 40", "mon recovery 40min; tue rest; wed recovery 40min; thu rest; fri recovery 40min; sat rest; sun rest"},
		{"stretch", "tue-thu endurance 1h", "mon rest; tue endurance 1h; wed endurance 1h; thu endurance 1h; fri rest; sat rest; sun rest"},
		{"stretch over sunday", "sat to mon busy", "mon busy; tue rest; wed rest; thu rest; fri rest; sat busy; sun busy"},
		{"free and busy", "mon off; tue busy; wed 1h; thu group ride 1h30 1x40min; fri turbo 1h 2x20min; sat yoga 30min; sun weekly race 1h",
			"mon rest; tue busy; wed endurance 1h; thu group 1h30 1x40min; fri indoor 1h 2x20min; sat other 30min; sun group 1h"},
		{"shared second clause", "mon/tue easy 40; gym 30", "mon recovery 40min; strength 30min; tue recovery 40min; strength 30min; wed rest; thu rest; fri rest; sat rest; sun rest"},
		{"only rest", "mon", rest},
		{"empty clauses", ";;mon rest;;", rest},
		{"plus", "mon easy 40 + gym 30; weds openers 1h 3x1min + 3x10s",
			"mon recovery 40min; strength 30min; tue rest; wed openers 1h 3x1min + 3x10s; thu rest; fri rest; sat rest; sun rest"},
		{"comma before a weekday", "mon easy 40, tue, thu long 2h", "mon recovery 40min; tue long 2h; wed rest; thu long 2h; fri rest; sat rest; sun rest"},
		{"groups of days", "weekdays commute 2x25min; weekend 3h",
			"mon commute 25min; commute 25min; tue commute 25min; commute 25min; wed commute 25min; commute 25min; thu commute 25min; commute 25min; fri commute 25min; commute 25min; sat endurance 3h; sun endurance 3h"},
		{"joined days", "tue+thu turbo 1h", "mon rest; tue indoor 1h; wed rest; thu indoor 1h; fri rest; sat rest; sun rest"},
		{"weekday inside", "commute mon 35 min each way", "mon commute 35min; commute 35min; tue rest; wed rest; thu rest; fri rest; sat rest; sun rest"},
		{"two letters", "Mo 45 easy; Tu 5x4min 75min; We 1h30; Th rest; Fr spin 40; Sa 3hrs long ride; Su 2h",
			"mon recovery 45min; tue intervals 1h15 5x4min; wed endurance 1h30; thu rest; fri recovery 40min; sat long 3h; sun endurance 2h"},
		{"two letters and what we do", "Mo rest, Tu intervals 1h, We ride 1h30, Sa long 3h",
			"mon rest; tue intervals 1h; wed endurance 1h30; thu rest; fri rest; sat long 3h; sun rest"},
		{"we in a list", "mon/we/fri 1h; sat and su 2h", "mon endurance 1h; tue rest; wed endurance 1h; thu rest; fri endurance 1h; sat endurance 2h; sun endurance 2h"},
		{"we with a length", "tue easy 40; we 1h; thu - off", "mon rest; tue recovery 40min; wed endurance 1h; thu rest; fri rest; sat rest; sun rest"},
		{"we ride", "tue easy 40; we run 30min; thu off", "mon rest; tue recovery 40min; other 30min; wed rest; thu rest; fri rest; sat rest; sun rest"},
		{"dash before a length", "mon - 40min easy", "mon recovery 40min; tue rest; wed rest; thu rest; fri rest; sat rest; sun rest"},
	}
	for _, tc := range tests {
		w, err := Week(tc.in)
		if err != nil || w.String() != tc.want {
			t.Errorf("%s: got %q, %v, want %q", tc.name, w.String(), err, tc.want)
		}
	}
}

func TestParseWeekRefuses(t *testing.T) {
	tests := map[string][]string{
		"":                        {"mon recovery 40min"},
		" ;\n; ":                  {"mon recovery 40min"},
		"recovery 40min; tue off": {"before the first weekday", "mon recovery 40min"},
		"mnodya easy 40":          {"before the first weekday", "did you mean monday?"},
		"mon groop 1h; tue flyng 1h; wed juggle 2h": {"Monday \"groop\" (did you mean group?), Tuesday \"flyng\", Wednesday \"juggle\"", "endurance 1h30"},
		"mon of; tue groop 1h; wed 30km; fri long":  {"Monday \"of\" (did you mean off?), Tuesday \"groop\" (did you mean group?)", "Wednesday: a ride is planned by its time", "1h instead of 30 km", "Friday: long needs a length"},
		"mon easy 40; mon gym 30":                   {"Monday is named twice"},
		"mon, mon easy 40":                          {"Monday is named twice"},
		"mon-sun easy 40; wed off":                  {"Wednesday is named twice"},
		"mon easy 40; teu easy 40":                  {"Monday: ", "did you mean tue?"},
		"mon easy 40 tue long 2h":                   {"Monday: ", "Put a semicolon between days"},
		"mon busy; easy 40":                         {"Monday: ", "busy alone"},
		"fri long":                                  {"Friday: ", "long 1h30"},
		"mon easy 40; " + strings.Repeat("x", 3000): {"more than"},
		"mon " + strings.Repeat("easy 40; ", 25):    {"Monday: ", "200"},
	}
	for in, parts := range tests {
		_, err := Week(in)
		wantFault(t, in, err, parts...)
	}
}

func FuzzParseWeek(f *testing.F) {
	for _, s := range []string{
		demoWeek, "mon-fri easy 40\nsat long 3h", "mon, wed: gym 30 + easy 1h", "tue openers 1h 3x1min+3x10s/30s", "off", "mon rest; strength 30",
		"mon intervals 5x1:30/1'15\"", "mon intervals 60x3h", "sun 4x4", "mon busy; tue group 1h + vo2max 1h 3x3; wed 1h; thu turbo 1h 2x20; fri weekly race 1h", "mon easy 99 9x65s/65s+9x65s; easy 99 9x65s/65s",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, err := Week(s)
		if err != nil {
			wantFault(t, s, err)
			return
		}
		for day, p := range w {
			total := 0
			for _, session := range p.Sessions {
				total += int(session.Minutes)
				if session.Minutes < 1 || session.Kind == planner.Rest || session.Effort != effortOf(session.Kind, session.Sets) || session.Sets.WorkSeconds() > int(session.Minutes)*60 {
					t.Errorf("Week(%q) holds %+v", s, session)
				}
			}
			if total > minutesPerDay || len(p.Sessions) > maxSessionsPerDay || p.Busy && len(p.Sessions) > 0 {
				t.Errorf("Week(%q): %s is %+v", s, planner.Weekday(day), p)
			}
		}
		again, err := Week(w.String())
		if err != nil || !reflect.DeepEqual(again, w) {
			t.Errorf("Week(%q) = %+v, %v, want %+v", w.String(), again, err, w)
		}
	})
}
