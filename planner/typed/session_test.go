package typed

import (
	"strings"
	"testing"

	"musette/planner"
)

func TestParseSession(t *testing.T) {
	five3 := planner.Sets{{Reps: 5, Work: 180}}
	tests := []struct {
		in      string
		kind    planner.Kind
		minutes int16
		sets    planner.Sets
	}{
		{"recovery 40min", planner.Recovery, 40, planner.Sets{}},
		{"easy 40", planner.Recovery, 40, planner.Sets{}},
		{"chill 2h", planner.Recovery, 120, planner.Sets{}},
		{"Recovery ride 40 min", planner.Recovery, 40, planner.Sets{}},
		{"40min recovery", planner.Recovery, 40, planner.Sets{}},
		{"endurance 1h45", planner.Endurance, 105, planner.Sets{}},
		{"LONG 3h", planner.Long, 180, planner.Sets{}},
		{"long ride: 3h", planner.Long, 180, planner.Sets{}},
		{"other 1.5h", planner.Other, 90, planner.Sets{}},
		{"gym 45'", planner.Strength, 45, planner.Sets{}},
		{"strength training 30min", planner.Strength, 30, planner.Sets{}},
		{"race 2 hours", planner.RaceRide, 120, planner.Sets{}},
		{"opener 1h", planner.Openers, 60, planner.Sets{}},
		{"rest", planner.Rest, 0, planner.Sets{}},
		{"rest day", planner.Rest, 0, planner.Sets{}},
		{"off", planner.Rest, 0, planner.Sets{}},
		{"intervals 1h30 5x3min", planner.Intervals, 90, five3},
		{"intervals 5x3min 1h30", planner.Intervals, 90, five3},
		{"intervals 1:30 5×3min", planner.Intervals, 90, five3},
		{"interval 90min, 5x3'", planner.Intervals, 90, five3},
		{"intervals 1 h 30 min 5 x 3 min", planner.Intervals, 90, five3},
		{"intervals 1h 5x3", planner.Intervals, 60, five3},
		{"intervals 90 5*3", planner.Intervals, 90, five3},
		{"intervals 5x3min", planner.Intervals, 52, five3},
		{"intervals 1h30 5x3min/2min", planner.Intervals, 90, planner.Sets{{Reps: 5, Work: 180, Rest: 120}}},
		{"intervals 5x3min/2min", planner.Intervals, 48, planner.Sets{{Reps: 5, Work: 180, Rest: 120}}},
		{"intervals 1h 10x30s", planner.Intervals, 60, planner.Sets{{Reps: 10, Work: 30, Rest: 0}}},
		{`intervals 1h 10x30"`, planner.Intervals, 60, planner.Sets{{Reps: 10, Work: 30, Rest: 0}}},
		{"intervals 1h 10x30''", planner.Intervals, 60, planner.Sets{{Reps: 10, Work: 30, Rest: 0}}},
		{"intervals 1h 10x30s/15", planner.Intervals, 60, planner.Sets{{Reps: 10, Work: 30, Rest: 15}}},
		{"intervals 2h 4x8min", planner.Intervals, 120, planner.Sets{{Reps: 4, Work: 480, Rest: 0}}},
		{"intervals 2 x 20 min 1h30", planner.Intervals, 90, planner.Sets{{Reps: 2, Work: 1200, Rest: 0}}},
		{"intervals 4x4", planner.Intervals, 47, planner.Sets{{Reps: 4, Work: 240, Rest: 0}}},
		{"intervals 4x4 90", planner.Intervals, 90, planner.Sets{{Reps: 4, Work: 240, Rest: 0}}},
		{"intervals 4x4min 1:30", planner.Intervals, 90, planner.Sets{{Reps: 4, Work: 240, Rest: 0}}},
		{"intervals 1h30 3x1:30", planner.Intervals, 90, planner.Sets{{Reps: 3, Work: 90, Rest: 0}}},
		{"intervals 1h30 3x2min30", planner.Intervals, 90, planner.Sets{{Reps: 3, Work: 150, Rest: 0}}},
		{"intervals 1h30 3x2'30\"", planner.Intervals, 90, planner.Sets{{Reps: 3, Work: 150, Rest: 0}}},
		{"intervals 1h30 3x1.5min", planner.Intervals, 90, planner.Sets{{Reps: 3, Work: 90, Rest: 0}}},
		{"intervals 3h 1x1h", planner.Intervals, 180, planner.Sets{{Reps: 1, Work: 3600, Rest: 0}}},
		{"openers 1h 3x1min + 3x10s", planner.Openers, 60, planner.Sets{{Reps: 3, Work: 60, Rest: 0}, {Reps: 3, Work: 10, Rest: 0}}},
		{"openers 3x1min+3x10s+2x5s 1h", planner.Openers, 60, planner.Sets{{Reps: 3, Work: 60, Rest: 0}, {Reps: 3, Work: 10, Rest: 0}, {Reps: 2, Work: 5, Rest: 0}}},
		{"endurance 2h 6x10s", planner.Endurance, 120, planner.Sets{{Reps: 6, Work: 10, Rest: 0}}},

		{"spin 30", planner.Recovery, 30, planner.Sets{}},
		{"easy spin 30min", planner.Recovery, 30, planner.Sets{}},
		{"rec ride 30min", planner.Recovery, 30, planner.Sets{}},
		{"1h30", planner.Endurance, 90, planner.Sets{}},
		{"90", planner.Endurance, 90, planner.Sets{}},
		{"ride 1h30", planner.Endurance, 90, planner.Sets{}},
		{"1h30 rides", planner.Endurance, 90, planner.Sets{}},
		{"base 2h", planner.Endurance, 120, planner.Sets{}},
		{"steady ride 2h", planner.Endurance, 120, planner.Sets{}},
		{"tempo 1h 2x20min", planner.Endurance, 60, planner.Sets{{Reps: 2, Work: 1200, Rest: 0}}},
		{"steady long ride 4h", planner.Long, 240, planner.Sets{}},
		{"hard 1h", planner.Intervals, 60, planner.Sets{}},
		{"int 1h30 5x3min", planner.Intervals, 90, five3},
		{"threshold intervals 5x3", planner.Intervals, 52, five3},
		{"vo2 1h30 5x3min", planner.Intervals, 90, five3},
		{"1h30 VO2max 5x3min", planner.Intervals, 90, five3},
		{"vo2 max efforts 1h30 5x3min", planner.Intervals, 90, five3},
		{"vo2 90 5x3min", planner.Intervals, 90, five3},
		{"efforts 1h", planner.Intervals, 60, planner.Sets{}},
		{"hard hill efforts 1h30 5x3min", planner.Intervals, 90, five3},
		{"hills 1h", planner.Intervals, 60, planner.Sets{}},
		{"group 1h30", planner.Group, 90, planner.Sets{}},
		{"group 1h30 1x40min", planner.Group, 90, planner.Sets{{Reps: 1, Work: 2400, Rest: 0}}},
		{"hard group ride 2h", planner.Group, 120, planner.Sets{}},
		{"club ride 2h", planner.Group, 120, planner.Sets{}},
		{"club run 2h", planner.Group, 120, planner.Sets{}},
		{"bunch hard 2h", planner.Group, 120, planner.Sets{}},
		{"chaingang 1h15", planner.Group, 75, planner.Sets{}},
		{"chain gang 1h15", planner.Group, 75, planner.Sets{}},
		{"weekly race 1h", planner.Group, 60, planner.Sets{}},
		{"commute 25min", planner.Commute, 25, planner.Sets{}},
		{"easy commute 25min", planner.Commute, 25, planner.Sets{}},
		{"indoor 1h", planner.Indoor, 60, planner.Sets{}},
		{"turbo trainer 1h", planner.Indoor, 60, planner.Sets{}},
		{"rollers 30min", planner.Indoor, 30, planner.Sets{}},
		{"indoor 1h 5x3min", planner.Indoor, 60, five3},
		{"weights 45", planner.Strength, 45, planner.Sets{}},
		{"run 30min", planner.Other, 30, planner.Sets{}},
		{"easy swim 30min", planner.Other, 30, planner.Sets{}},
		{"walk 1h", planner.Other, 60, planner.Sets{}},
		{"yoga 20min", planner.Other, 20, planner.Sets{}},
		{"1h30 5x3min", planner.Intervals, 90, five3},
		{"5x3min", planner.Intervals, 52, five3},
		{"easy long ride 3h", planner.Long, 180, planner.Sets{}},
		{"long ride 100km 4h", planner.Long, 240, planner.Sets{}},
		{"rollers one hour easy", planner.Indoor, 60, planner.Sets{}},
		{"turbo intervals 1h 5x3min", planner.Indoor, 60, five3},
		{"zone 2 for an hour and a half", planner.Endurance, 90, planner.Sets{}},
		{"chaingang at 6:30pm 1h15", planner.Group, 75, planner.Sets{}},
	}
	for _, tc := range tests {
		want := planner.Session{Kind: tc.kind, Effort: tc.kind.UsualEffort(), Minutes: tc.minutes, Sets: tc.sets}
		if tc.kind == planner.Indoor && !tc.sets.IsZero() {
			want.Effort = planner.Hard
		}
		got, err := Session(tc.in)
		if err != nil || got != want {
			t.Errorf("Session(%q) = %+v, %v, want %+v", tc.in, got, err, want)
			continue
		}
		if again, err := Session(got.Label()); err != nil || again != got {
			t.Errorf("Session(%q) = %+v, %v, want %+v", got.Label(), again, err, got)
		}
	}
}

func TestParseSessionRefuses(t *testing.T) {
	tests := map[string][]string{
		"":                               {"kind", "endurance 1h30"},
		"busy":                           {"no session", "endurance 1h30"},
		"busy 1h":                        {"takes no length", "busy alone"},
		"ride":                           {"ride needs a length"},
		"weekly 1h":                      {"not a kind"},
		"vo 2 5x3min":                    {"not a kind"},
		"easy group 1h":                  {"two kinds"},
		"hard turbo 1h":                  {"indoor 1h 5x3min"},
		"60 km":                          {"2h15 instead of 60 km"},
		"1-1.5h":                         {"two lengths", "1h15"},
		"maybe 1h":                       {"leaves open", "endurance 1h30"},
		"swim 30 then gym 40":            {"2 sessions"},
		"off 1h easy":                    {"two kinds"},
		"ride gym 1h":                    {"two sessions"},
		"can't ride outside":             {"busy alone"},
		"tempoo groop":                   {"\"tempoo\" (did you mean tempo?)", "\"groop\" (did you mean group?)"},
		"group commute 1h":               {"two kinds"},
		"groop 1h":                       {"did you mean group?"},
		"buzy":                           {"did you mean busy?"},
		"intervall 1h30":                 {"did you mean intervals?", "recovery", "strength"},
		"recvery 40min":                  {"did you mean recovery?"},
		"strenght 30min":                 {"did you mean strength?"},
		"lnog 3h":                        {"did you mean long?"},
		"rce 2h":                         {"did you mean race?"},
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
		"endurance 1h tue":               {"Put a semicolon between days"},
		"tue endurance 1h":               {"Put a semicolon between days"},
		"endurance 1h uphill":            {"uphill"},
		"intervals 1h 0x3min":            {"1 to 60"},
		"intervals 1h 61x30s":            {"1 to 60"},
		"intervals 1h 2.5x3min":          {"1 to 60"},
		"intervals 1h 5x4s":              {"5 s to 180 min"},
		"intervals 9h 2x181min":          {"5 s to 180 min"},
		"intervals 9h 2x999999999h":      {"5 s to 180 min"},
		"intervals 1h 5x":                {"5x3min"},
		"intervals 1h 5xmin":             {"xmin", "not a kind"},
		"intervals 1h 5x3min/":           {"5x3min/2min"},
		"intervals 1h 5x3min/0":          {"5x3min/2min"},
		"intervals 1h 5x3min/4h":         {"5x3min/2min"},
		"intervals 40min 5x10min":        {"longer than its 40min"},
		"intervals 60x3h":                {"24 hours"},
		"intervals 1h 2x1+2x1+2x1+2x1":   {"more than 3 groups"},
		"intervals 1h +":                 {"starts with its kind"},
		"intervals 1h 5x3min +":          {"starts with its kind"},
		"intervals + 5x3min":             {"cannot read"},
		"intervals 1h 999999999999x3min": {"cannot read"},
		strings.Repeat("easy ", 41):      {"200"},
		"endurance\x00 1h":               {"endurance 1h30"},
		"endurance \xff":                 {"endurance 1h30"},
		"x 3":                            {"kind"},
		"min 40":                         {"cannot read"},
	}
	for in, parts := range tests {
		_, err := Session(in)
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
