package planner

import (
	"strings"
	"testing"
)

func TestParseSession(t *testing.T) {
	five3 := Sets{{Reps: 5, Work: 180}}
	tests := []struct {
		in      string
		kind    Kind
		minutes int16
		sets    Sets
	}{
		{"recovery 40min", Recovery, 40, Sets{}},
		{"easy 40", Recovery, 40, Sets{}},
		{"Recovery ride 40 min", Recovery, 40, Sets{}},
		{"40min recovery", Recovery, 40, Sets{}},
		{"endurance 1h45", Endurance, 105, Sets{}},
		{"LONG 3h", Long, 180, Sets{}},
		{"long ride: 3h", Long, 180, Sets{}},
		{"other 1.5h", Other, 90, Sets{}},
		{"gym 45'", Strength, 45, Sets{}},
		{"strength training 30min", Strength, 30, Sets{}},
		{"race 2 hours", RaceRide, 120, Sets{}},
		{"opener 1h", Openers, 60, Sets{}},
		{"rest", Rest, 0, Sets{}},
		{"rest day", Rest, 0, Sets{}},
		{"off", Rest, 0, Sets{}},
		{"intervals 1h30 5x3min", Intervals, 90, five3},
		{"intervals 5x3min 1h30", Intervals, 90, five3},
		{"intervals 1:30 5×3min", Intervals, 90, five3},
		{"interval 90min, 5x3'", Intervals, 90, five3},
		{"intervals 1 h 30 min 5 x 3 min", Intervals, 90, five3},
		{"intervals 1h 5x3", Intervals, 60, five3},
		{"intervals 90 5*3", Intervals, 90, five3},
		{"intervals 5x3min", Intervals, 55, five3},
		{"intervals 1h30 5x3min/2min", Intervals, 90, Sets{{5, 180, 120}}},
		{"intervals 5x3min/2min", Intervals, 50, Sets{{5, 180, 120}}},
		{"intervals 1h 10x30s", Intervals, 60, Sets{{10, 30, 0}}},
		{`intervals 1h 10x30"`, Intervals, 60, Sets{{10, 30, 0}}},
		{"intervals 1h 10x30''", Intervals, 60, Sets{{10, 30, 0}}},
		{"intervals 1h 10x30s/15", Intervals, 60, Sets{{10, 30, 15}}},
		{"intervals 2h 4x8min", Intervals, 120, Sets{{4, 480, 0}}},
		{"intervals 2 x 20 min 1h30", Intervals, 90, Sets{{2, 1200, 0}}},
		{"intervals 4x4", Intervals, 49, Sets{{4, 240, 0}}},
		{"intervals 4x4 90", Intervals, 90, Sets{{4, 240, 0}}},
		{"intervals 4x4min 1:30", Intervals, 90, Sets{{4, 240, 0}}},
		{"intervals 1h30 3x1:30", Intervals, 90, Sets{{3, 90, 0}}},
		{"intervals 1h30 3x2min30", Intervals, 90, Sets{{3, 150, 0}}},
		{"intervals 1h30 3x2'30\"", Intervals, 90, Sets{{3, 150, 0}}},
		{"intervals 1h30 3x1.5min", Intervals, 90, Sets{{3, 90, 0}}},
		{"intervals 3h 1x1h", Intervals, 180, Sets{{1, 3600, 0}}},
		{"openers 1h 3x1min + 3x10s", Openers, 60, Sets{{3, 60, 0}, {3, 10, 0}}},
		{"openers 3x1min+3x10s+2x5s 1h", Openers, 60, Sets{{3, 60, 0}, {3, 10, 0}, {2, 5, 0}}},
		{"endurance 2h 6x10s", Endurance, 120, Sets{{6, 10, 0}}},

		{"spin 30", Recovery, 30, Sets{}},
		{"easy spin 30min", Recovery, 30, Sets{}},
		{"rec ride 30min", Recovery, 30, Sets{}},
		{"1h30", Endurance, 90, Sets{}},
		{"90", Endurance, 90, Sets{}},
		{"ride 1h30", Endurance, 90, Sets{}},
		{"1h30 rides", Endurance, 90, Sets{}},
		{"base 2h", Endurance, 120, Sets{}},
		{"steady ride 2h", Endurance, 120, Sets{}},
		{"tempo 1h 2x20min", Endurance, 60, Sets{{2, 1200, 0}}},
		{"steady long ride 4h", Long, 240, Sets{}},
		{"hard 1h", Intervals, 60, Sets{}},
		{"int 1h30 5x3min", Intervals, 90, five3},
		{"threshold intervals 5x3", Intervals, 55, five3},
		{"vo2 1h30 5x3min", Intervals, 90, five3},
		{"1h30 VO2max 5x3min", Intervals, 90, five3},
		{"vo2 max efforts 1h30 5x3min", Intervals, 90, five3},
		{"vo2 90 5x3min", Intervals, 90, five3},
		{"efforts 1h", Intervals, 60, Sets{}},
		{"hard hill efforts 1h30 5x3min", Intervals, 90, five3},
		{"hills 1h", Intervals, 60, Sets{}},
		{"group 1h30", Group, 90, Sets{}},
		{"group 1h30 1x40min", Group, 90, Sets{{1, 2400, 0}}},
		{"hard group ride 2h", Group, 120, Sets{}},
		{"club ride 2h", Group, 120, Sets{}},
		{"club run 2h", Group, 120, Sets{}},
		{"bunch hard 2h", Group, 120, Sets{}},
		{"chaingang 1h15", Group, 75, Sets{}},
		{"chain gang 1h15", Group, 75, Sets{}},
		{"weekly race 1h", Group, 60, Sets{}},
		{"commute 25min", Commute, 25, Sets{}},
		{"easy commute 25min", Commute, 25, Sets{}},
		{"indoor 1h", Indoor, 60, Sets{}},
		{"turbo trainer 1h", Indoor, 60, Sets{}},
		{"rollers 30min", Indoor, 30, Sets{}},
		{"indoor 1h 5x3min", Indoor, 60, five3},
		{"weights 45", Strength, 45, Sets{}},
		{"run 30min", Other, 30, Sets{}},
		{"easy swim 30min", Other, 30, Sets{}},
		{"walk 1h", Other, 60, Sets{}},
		{"yoga 20min", Other, 20, Sets{}},
	}
	for _, tc := range tests {
		want := Session{Kind: tc.kind, Effort: tc.kind.UsualEffort(), Minutes: tc.minutes, Sets: tc.sets}
		if tc.kind == Indoor && !tc.sets.IsZero() {
			want.Effort = Hard
		}
		got, err := ParseSession(tc.in)
		if err != nil || got != want {
			t.Errorf("ParseSession(%q) = %+v, %v, want %+v", tc.in, got, err, want)
			continue
		}
		if again, err := ParseSession(got.Label()); err != nil || again != got {
			t.Errorf("ParseSession(%q) = %+v, %v, want %+v", got.Label(), again, err, got)
		}
	}
}

func TestParseSessionRefuses(t *testing.T) {
	tests := map[string][]string{
		"":                               {"kind", "endurance 1h30"},
		"busy":                           {"no session", "endurance 1h30"},
		"busy 1h":                        {"takes no length", "busy alone"},
		"ride":                           {"ride needs a length"},
		"1h30 5x3min":                    {"kind", "endurance 1h30"},
		"weekly 1h":                      {"did you mean weekly race?"},
		"vo 2 5x3min":                    {"not a kind"},
		"easy group 1h":                  {"two kinds"},
		"easy long 1h":                   {"two kinds"},
		"hard turbo 1h":                  {"two kinds"},
		"group commute 1h":               {"two kinds"},
		"groop 1h":                       {"did you mean group?"},
		"buzy":                           {"did you mean busy?"},
		"5x3min":                         {"kind", "endurance 1h30"},
		"intervall 1h30":                 {"did you mean intervals?", "recovery", "strength"},
		"recvery 40min":                  {"did you mean recovery?"},
		"ednurance 1h":                   {"did you mean endurance?"},
		"lnog 3h":                        {"did you mean long?"},
		"rce 2h":                         {"did you mean race?"},
		"strenght 30min":                 {"did you mean strength?"},
		"teusday 1h":                     {"did you mean tuesday?"},
		"juggling 1h":                    {"rest, recovery, endurance, long, intervals, openers, race, strength, other, group, commute, indoor, busy", "endurance 1h30"},
		"endurance":                      {"endurance 1h30"},
		"strength":                       {"strength 1h30"},
		"easy":                           {"recovery 1h30"},
		"openers 3x1min":                 {"openers 1h30"},
		"intervals":                      {"intervals 1h30 5x3min"},
		"rest 40min":                     {"takes no length", "recovery 40min"},
		"off 1h":                         {"takes no length"},
		"strength 1h 3x10s":              {"strength 30min"},
		"endurance 25h":                  {"24 hours"},
		"endurance 0":                    {"1 to 1440"},
		"endurance 0h":                   {"1 to 1440"},
		"endurance 1.5":                  {"whole minutes"},
		"endurance 1h 2h":                {"two lengths"},
		"endurance -90":                  {"endurance 1h30"},
		"endurance 1h easy":              {"part two sessions"},
		"endurance 1h tue":               {"part the days with ;"},
		"tue endurance 1h":               {"part the days with ;"},
		"endurance 1h uphill":            {"uphill"},
		"intervals 1h 0x3min":            {"1 to 60"},
		"intervals 1h 61x30s":            {"1 to 60"},
		"intervals 1h 2.5x3min":          {"1 to 60"},
		"intervals 1h 5x4s":              {"5 s to 180 min"},
		"intervals 9h 2x181min":          {"5 s to 180 min"},
		"intervals 9h 2x999999999h":      {"5 s to 180 min"},
		"intervals 1h 5x":                {"5x3min"},
		"intervals 1h 5xmin":             {"5x3min"},
		"intervals 1h 5x3min/":           {"5x3min/2min"},
		"intervals 1h 5x3min/0":          {"5x3min/2min"},
		"intervals 1h 5x3min/4h":         {"5x3min/2min"},
		"intervals 40min 5x10min":        {"longer than its 40min"},
		"intervals 60x3h":                {"24 hours"},
		"intervals 1h 2x1+2x1+2x1+2x1":   {"more than 3 groups"},
		"intervals 1h +":                 {"cannot read"},
		"intervals 1h 5x3min +":          {"cannot read"},
		"intervals + 5x3min":             {"cannot read"},
		"intervals 1h 999999999999x3min": {"cannot read"},
		strings.Repeat("easy ", 41):      {"200"},
		"endurance\x00 1h":               {"endurance 1h30"},
		"endurance \xff":                 {"endurance 1h30"},
		"x 3":                            {"kind"},
		"min 40":                         {"cannot read"},
	}
	for in, parts := range tests {
		_, err := ParseSession(in)
		wantFault(t, in, err, parts...)
	}
}

func TestNearest(t *testing.T) {
	words := []string{"recovery", "endurance", "rest", "race"}
	for in, want := range map[string]string{
		"rec": "recovery", "Endurence": "endurance", "rets": "rest", "rcae": "race", "x": "", "swimming": "", "": "", strings.Repeat("r", 100): "",
	} {
		if got := Nearest(in, words); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", in, got, want)
		}
	}
}
