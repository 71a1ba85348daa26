package plannertest

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestGoodPlansPass(t *testing.T) {
	scenes := map[string]func(*testing.T) *scene{"seven": sevenDays, "fourteen": fourteenDays, "long fourteen": long14, "twenty": farWindow,
		"B": bRace, "C": cRace, "C on Friday": cFriday, "no race": noRace, "overloaded": overloaded}
	for name, make := range scenes {
		if got := make(t).violations(t); len(got) > 0 {
			t.Errorf("%s: %v", name, got)
		}
	}
	input, output := readFile(t, "seven.in.json"), readFile(t, "seven.out.json")
	if got := CheckOrdinary(input, output); len(got) > 0 {
		t.Errorf("hand-written week: %v", got)
	}
}

// Each fault is one change of a good plan that breaks one rule alone.
func TestFaultsAreFound(t *testing.T) {
	hit := map[string]bool{}
	for i, f := range faults() {
		s := f.base(t)
		f.change(s)
		got := s.violations(t)
		if len(got) == 0 {
			t.Errorf("fault %d against %s: not found", i, f.rule)
		}
		for _, v := range got {
			hit[v.Rule] = true
			if v.Rule != f.rule {
				t.Errorf("fault against %s also gives %v", f.rule, v)
			}
		}
	}
	for _, id := range Rules() {
		if !hit[id] {
			t.Errorf("no fault shows that %s can fail", id)
		}
	}
}

func TestWarningsExcuseButSafety(t *testing.T) {
	s := fourteenDays(t)
	s.set("2026-05-16 taper: endurance 180 easy")
	s.warn("taper.volume", "Alder Loop: the cut is smaller than asked.")
	if got := s.violations(t); len(got) > 0 {
		t.Errorf("warned volume: %v", got)
	}
	s = sevenDays(t)
	s.set("2026-05-22 taper: intervals 50 hard 2x8min")
	for _, code := range Rules() {
		s.warn(code, "Alder Loop: anything")
	}
	if got := s.violations(t); !broken(got, "taper.eve") {
		t.Errorf("hard on D-2 excused: %v", got)
	}
}

func TestBrokenOutput(t *testing.T) {
	input, output := readFile(t, "seven.in.json"), readFile(t, "seven.out.json")
	for _, cut := range []string{"", "{}", `{"days":[],"tapers":null,"warnings":[]}`} {
		if got := Check(input, []byte(cut)); len(got) == 0 {
			t.Errorf("output %q passes", cut)
		}
	}
	for _, key := range []string{`"phase"`, `"sets"`, `"gain"`, `"cautions"`} {
		got := Check(input, bytes.Replace(output, []byte(key), []byte(`"x"`), 1))
		if len(got) != 1 || got[0].Rule != "contract.json" {
			t.Errorf("without %s: %v", key, got)
		}
	}
}

func TestOrdinaryAllowsNoWarning(t *testing.T) {
	input, output := readFile(t, "seven.in.json"), readFile(t, "seven.out.json")
	warned := bytes.Replace(output, []byte(`"warnings": []`), []byte(`"warnings": [{"code":"taper.volume","text":"Alder Loop"}]`), 1)
	if got := Check(input, warned); len(got) > 0 {
		t.Errorf("Check: %v", got)
	}
	if got := CheckOrdinary(input, warned); len(got) != 1 || got[0].Rule != "ordinary.warning" {
		t.Errorf("CheckOrdinary: %v", got)
	}
	if got := Warned(warned); !got["taper.volume"] || len(got) != 1 {
		t.Errorf("Warned: %v", got)
	}
}

func TestStable(t *testing.T) {
	output := readFile(t, "seven.out.json")
	if got := CheckStable(output, output); len(got) > 0 {
		t.Errorf("same output: %v", got)
	}
	moved := bytes.Replace(output, []byte(`"minutes": 65`), []byte(`"minutes": 60`), 1)
	if got := CheckStable(output, moved); len(got) != 1 || got[0].Date != "2026-05-17" {
		t.Errorf("changed day: %v", got)
	}
}

func TestLater(t *testing.T) {
	input := readFile(t, "seven.in.json")
	p, err := inputPlan(Later(input, 20))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := p.in.Today, "2026-06-04"; got != want {
		t.Errorf("today %s, want %s", got, want)
	}
	ill := bytes.Replace(input, []byte(`"taper"`), []byte(`"sick":[{"from":"2026-05-15","symptoms":["fever"]}],"taper"`), 1)
	if got := Later(ill, 1); got != nil {
		t.Errorf("open illness: %s", got)
	}
}

// The generator must be readable by its own reader and reach every corner.
func TestGenerate(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	seen := map[string]int{}
	const n = 3000
	for range n {
		p, err := inputPlan(Generate(r))
		if err != nil {
			t.Fatal(err)
		}
		if p.weekly < 180 || p.weekly > 1500 {
			t.Errorf("week of %d min: %v", p.weekly, p.in.Week)
		}
		for _, x := range p.races {
			if x.registered > p.today || x.registered > x.date {
				t.Errorf("registered %s, today %s, race %s", x.Registered, p.in.Today, x.Date)
			}
			seen["race day "+weekdays[x.date.weekday()]]++
			seen["priority "+x.Priority]++
			if x.last > x.date {
				seen["stage race"]++
			}
		}
		for what, is := range map[string]bool{"one A": len(p.races) == 1 && p.races[0].Priority == "A", "season": len(p.races) > 5,
			"away": len(p.in.Away) > 0, "limits": len(p.in.Limits) > 0, "blocks": len(p.in.Blocks) > 0,
			"sick": len(p.in.Sick) > 0, "stopped": p.stopped(), "done": len(p.in.Done) > 0, "results": len(p.in.Results) > 0,
			"no hard day": p.hardDaysAWeek() == 0, "three hard days": p.hardDaysAWeek() == 3,
			"past race": p.races[0].last < p.today, "short week": p.weekly < 300, "long week": p.weekly > 1200} {
			if is {
				seen[what]++
			}
		}
	}
	for _, what := range []string{"race day mon", "race day sun", "priority A", "priority B", "priority C", "stage race",
		"season", "away", "limits", "blocks", "sick", "stopped", "done", "results", "no hard day", "three hard days",
		"past race", "short week", "long week"} {
		if seen[what] == 0 {
			t.Errorf("never made: %s", what)
		}
	}
	if got := seen["one A"]; got < n/2 {
		t.Errorf("%d of %d with one A race", got, n)
	}
}

func TestGenerateOrdinary(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		data := GenerateOrdinary(r)
		p, err := inputPlan(data)
		if err != nil {
			t.Fatal(err)
		}
		rides := 0
		for d := day(0); d < 7; d++ {
			if p.usualRides(d) > 0 {
				rides++
			}
			if p.usualHard(d) && p.usualHard(d+1) {
				t.Errorf("neighbours are hard: %s", data)
			}
		}
		hard := p.hardDaysAWeek()
		if rides < 5 || hard < 1 || hard > 3 || p.weekly < 480 || p.weekly > 900 || p.races[0].date-p.today < 15 {
			t.Errorf("%d rides, %d hard, %d min: %s", rides, hard, p.weekly, data)
		}
	}
}

func TestShrink(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	data := Generate(r)
	for len(data) < 1500 {
		data = Generate(r)
	}
	hasA := func(data []byte) bool {
		var in inputFile
		return json.Unmarshal(data, &in) == nil && slices.ContainsFunc(in.Races, func(x inputRace) bool { return x.Priority == "A" })
	}
	if !hasA(data) {
		t.Fatalf("no A race in %s", data)
	}
	got := Shrink(data, hasA)
	var in inputFile
	if err := json.Unmarshal(got, &in); err != nil || !hasA(got) {
		t.Fatalf("%v: %s", err, got)
	}
	if len(in.Races) != 1 || in.Taper != nil || in.Sick != nil || in.Week["mon"] != "rest" && in.Week["mon"] != "off" {
		t.Errorf("not small: %s", got)
	}
}
