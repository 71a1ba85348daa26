package plannertest

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/planner"
)

// known are breaches by the planner that stand until it is mended. Each is as
// narrow as it can be: the rule, what the breach says, what the day usually is.
// The checker reports them; only the random test passes over them.
var known = []struct {
	name, rule  string
	text, usual *regexp.Regexp
	file        string // a least plan file that shows it
}{
	{"a ride over two hours after an illness or race is called steady, whatever its kind", "contract.session", regexp.MustCompile(`^(intervals|commute|recovery) \d+ steady`), regexp.MustCompile(`.`),
		`{"today":"2028-02-22","week":{"mon":"intervals 170min","sat":"indoor 2h50 10x1min","tue":"group 215min"},"races":[],"sick":[{"from":"2028-02-13","to":"2028-02-17"}]}`},
	{"a commute in a window is ridden when ill", "health.easy", regexp.MustCompile(`^(recovery|commute) \d+ easy`), regexp.MustCompile(`commute`),
		`{"today":"2027-10-17","week":{"sat":"commute 20min"},"races":[{"date":"2028-03-30","name":"Juniper Tour","priority":"A"}],"sick":[{"from":"2027-10-15"}]}`},
	{"openers before a race inside a taper are ridden when ill", "health.easy", regexp.MustCompile(`^openers \d+ openers`), regexp.MustCompile(`.`),
		`{"today":"2027-10-17","week":{"mon":"recovery 20min"},"races":[{"date":"2028-03-28","name":"Ivy Sprint","priority":"B"},{"date":"2028-03-30","name":"Juniper Tour","priority":"A"}],"sick":[{"from":"2027-10-15"}]}`},
	{"a commute in a window is ridden after a block", "block.after", regexp.MustCompile(`^(recovery|commute) \d+ easy on day 1`), regexp.MustCompile(`commute`),
		`{"today":"2027-11-15","week":{"mon":"commute 34min"},"races":[{"date":"2027-12-13","name":"Alder Loop","priority":"A"}],"blocks":[{"from":"2027-11-28","to":"2027-12-06"}]}`},
	{"strength work in a window passes a limit", "day.limit", regexp.MustCompile(`strength`), regexp.MustCompile(`strength`),
		`{"today":"2026-09-06","week":{"fri":"endurance 1h03","mon":"endurance 80min; recovery 40min","sun":"long 204min","tue":"recovery 42min; strength 1h","wed":"commute 41min"},"races":[{"date":"2026-10-09","hours":20,"name":"Cedar Dash","priority":"A"}],"limits":[{"date":"2026-09-29","minutes":15}]}`},
	{"a hard day after an illness, or a day before a B race, fills a limit that is a day off", "day.off", regexp.MustCompile(`^\w+ 1?\d (easy|steady)`), regexp.MustCompile(`.`),
		`{"today":"2028-02-22","week":{"sat":"indoor 2h50 10x1min"},"races":[],"sick":[{"from":"2028-02-17","to":"2028-02-23"}],"limits":[{"date":"2028-03-04","minutes":15}]}`},
	{"openers or a steady ride on a travel day with a limit", "day.travel", regexp.MustCompile(`^(openers \d+ openers|endurance [1-4]\d steady) `), regexp.MustCompile(`.`),
		`{"today":"2026-08-10","week":{"sun":"long 5h35"},"races":[{"date":"2026-08-24","name":"Alder Loop","priority":"A"}],"away":[{"from":"2026-08-21","to":"2026-08-25","kind":"travel"}],"limits":[{"date":"2026-08-23","minutes":30}]}`},
	{"a first hard or long day after a race is ridden on a travel day", "day.travel", regexp.MustCompile(`^(intervals \d+ hard|(endurance|long) \d+ steady) `), regexp.MustCompile(`.`),
		`{"today":"2026-12-15","week":{"sat":"group 4h"},"races":[{"date":"2027-01-01","hours":4,"name":"Birch Climb","priority":"A"}],"away":[{"from":"2027-01-09","to":"2027-01-13","kind":"travel"}]}`},
	{"a first hard day after a race is ridden on a day off", "day.off", regexp.MustCompile(`^(intervals \d+ hard|(endurance|long) \d+ steady)`), regexp.MustCompile(`.`),
		`{"today":"2027-10-29","week":{"thu":"group 2h11"},"races":[{"date":"2028-01-11","hours":6.5,"name":"Birch Climb","priority":"A"}],"limits":[{"date":"2028-01-20","minutes":3}]}`},
	{"an added touch, or a hard or long day after a race, passes a limit", "day.limit", regexp.MustCompile(`^(intervals \d+ hard|(long|endurance) \d+ steady)`), regexp.MustCompile(`.`),
		`{"today":"2027-08-10","week":{"sun":"long 1h10; endurance 35min","thu":"intervals 60min 6x3min","tue":"strength 1h"},"races":[{"date":"2027-09-09","name":"Alder Loop","priority":"A"}],"limits":[{"date":"2027-09-05","minutes":43}]}`},
	{"a first hard day after an illness is the day after a long C race", "hard.after", regexp.MustCompile(`on D\+1 of`), regexp.MustCompile(`.`),
		`{"today":"2026-11-21","week":{"sat":"intervals 49min 10x1min"},"races":[{"date":"2026-11-27","hours":4,"name":"Alder Loop","priority":"C"}],"sick":[{"from":"2026-11-17","to":"2026-11-20"}]}`},
	{"a ride after a knock on the head has another kind for no reason", "contract.why", regexp.MustCompile(`^no reason for (endurance|recovery) \d+ (steady|easy), usually`), regexp.MustCompile(`.`),
		`{"today":"2028-02-11","week":{"fri":"endurance 35min","mon":"intervals 45min 1x20min","sat":"long 1h05","thu":"endurance 40min","tue":"endurance 30min","wed":"endurance 40min"},"races":[],"sick":[{"from":"2028-02-05","cleared":"2028-02-07","symptoms":["knock on the head"]}]}`},
	{"a usual hard day stays on D-2 as the week changes inside the window", "hard.eve", regexp.MustCompile(` on D-[12] of`), regexp.MustCompile(`.`),
		`{"today":"2027-03-01","week":[{"fri":"endurance 135min","mon":"group 3h","sat":"indoor 2h15 3x10min","thu":"recovery 1h15","tue":"endurance 3h20","wed":"long 5h30"},{"told":"2027-02-23","wed":"busy"}],"races":[{"date":"2027-03-03","name":"Alder Loop","priority":"A"}]}`},
	{"a long ride on the way back from a race and an illness keeps to the race alone", "health.easy", regexp.MustCompile(`^(long|endurance) \d+ steady, at most 75`), regexp.MustCompile(`.`),
		`{"today":"2027-08-26","week":{"wed":"long 2h18"},"races":[{"date":"2027-09-01","hours":4,"name":"Alder Loop","priority":"A"}],"sick":[{"from":"2027-08-26","to":"2027-09-01"}]}`},
	{"a hard session set by hand stays on the way back from an illness", "health.easy", regexp.MustCompile(`^intervals \d+ hard .*on the way back`), regexp.MustCompile(`.`),
		`{"today":"2027-11-12","week":{},"races":[],"pins":[{"date":"2027-11-12","session":"intervals 1h 3x3min"}],"sick":[{"from":"2027-11-03","to":"2027-11-06"}]}`},
	{"what a B race plans before it overrules D+2 of another", "hard.after", regexp.MustCompile(`on D\+2 of`), regexp.MustCompile(`.`),
		`{"today":"2026-10-14","week":{"mon":"endurance 2h35","wed":"indoor 1h20 4x4min"},"races":[{"date":"2027-01-09","name":"Cedar Dash","priority":"B"},{"date":"2027-01-14","name":"Dune Round","priority":"B"}]}`},
	{"a usually free D-2 is ridden after lost days", "minutes.usual", regexp.MustCompile(`^recovery (25|30) easy, usually (rest|strength)`), regexp.MustCompile(`^(rest|strength \S+)$`),
		`{"today":"2027-08-21","week":{"mon":"endurance 1h05","sat":"recovery 20min","thu":"long 1h20","tue":"commute 20min","wed":"intervals 55min 3x3min + 4x30s"},"races":[{"date":"2027-09-07","name":"Alder Loop","priority":"A"}],"away":[{"from":"2027-09-02","to":"2027-09-04"}]}`},
	{"a hard day without a set that stays as it is has a reason", "contract.why", regexp.MustCompile(`^nothing is changed`), regexp.MustCompile(`(intervals|group|race) \S+$`),
		`{"today":"2027-07-15","week":{"sat":"intervals 40min"},"races":[{"date":"2027-08-20","name":"Birch Climb","priority":"A","taper":17}]}`},
}

// passOver tells which known breach a violation is, -1 for none.
func passOver(v *view, found Violation) int {
	for i, k := range known {
		if k.rule != found.Rule || !k.text.MatchString(found.Text) {
			continue
		}
		d, err := planner.ParseISODate(found.Date)
		switch knock := slices.ContainsFunc(v.f.Ill, func(ill planner.Illness) bool { return anyOf(ill, stops) }); {
		case k.rule == "hard.eve" && (d != v.today || len(v.f.Weeks) < 2),
			strings.HasPrefix(found.Text, "no reason") && !knock,
			strings.Contains(found.Text, "hard on the way back") && !v.pinned(d):
			continue // nowhere else
		}
		if err == nil && k.usual.MatchString(v.usual(d).String()) {
			return i
		}
	}
	return -1
}

// The planner still breaks each; an entry that holds no more must go.
func TestKnownBreaches(t *testing.T) {
	t.Parallel()
	for i, k := range known {
		output, err := planOf([]byte(k.file))
		if err != nil {
			t.Fatal(err)
		}
		v, err := newView([]byte(k.file), output)
		if err != nil {
			t.Fatal(err)
		}
		still := false
		for _, found := range Check([]byte(k.file), output) {
			still = still || passOver(v, found) == i
		}
		if !still {
			t.Errorf("the planner does not break this any more, take it out of the list: %s", k.name)
		}
	}
}
