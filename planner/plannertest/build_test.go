package plannertest

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

// scene is a plan file and the days of its plan that are not as usual, each
// "phase: session, session", so that a test can change one line and have
// reasons, cautions and sums follow.
type scene struct {
	in       inputFile
	last     string
	lines    map[string]string
	warnings []outWarning
	finish   func(*outFile) // a last change that nothing follows
}

const demoWeek = `"week":{"mon":"recovery 40min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45",
 "thu":"off","fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"}`

func newScene(t *testing.T, input, last string, lines map[string]string) *scene {
	t.Helper()
	s := &scene{last: last, lines: map[string]string{}}
	if err := json.Unmarshal([]byte("{"+demoWeek+","+input+"}"), &s.in); err != nil {
		t.Fatal(err)
	}
	for k, v := range lines {
		s.lines[k] = v
	}
	return s
}

func (s *scene) set(lines ...string) {
	for _, l := range lines {
		date, rest, _ := strings.Cut(l, " ")
		s.lines[date] = rest
	}
}

func (s *scene) warn(code, text string) {
	s.warnings = append(s.warnings, outWarning{code, text})
}

// violations builds the output and checks it.
func (s *scene) violations(t *testing.T) []Violation {
	t.Helper()
	input, err := json.Marshal(s.in)
	if err != nil {
		t.Fatal(err)
	}
	p, err := inputPlan(input)
	if err != nil {
		t.Fatal(err)
	}
	out := outFile{Tapers: []outTaper{}, Warnings: append([]outWarning{}, s.warnings...)}
	end, err := parseDay(s.last)
	if err != nil {
		t.Fatal(err)
	}
	for d := p.today; d <= end; d++ {
		out.Days = append(out.Days, s.buildDay(t, p, d))
	}
	for i := range out.Days {
		p.days[p.today+day(i)] = &out.Days[i]
	}
	if !p.stopped() {
		s.buildTapers(p, &out, end)
	}
	if s.finish != nil {
		s.finish(&out)
	}
	data, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	return Check(input, data)
}

func (s *scene) buildDay(t *testing.T, p *plan, d day) outDay {
	t.Helper()
	o := outDay{Date: d.String(), Weekday: weekdays[d.weekday()], Phase: "normal", Why: []outWhy{}, Cautions: []string{}}
	for _, u := range p.usual(d) {
		text := fmt.Sprintf("%s %d %s", u.kind, u.minutes, usualEffort[u.kind])
		if u.set != nil {
			text += " " + u.set.String()
		}
		o.Usual = append(o.Usual, readSession(t, text))
	}
	if len(o.Usual) == 0 {
		o.Usual = []outSession{readSession(t, "rest 0 rest")}
	}
	o.Sessions = o.Usual
	if line, ok := s.lines[o.Date]; ok {
		phase, sessions, _ := strings.Cut(line, ":")
		o.Phase = phase
		if sessions = strings.TrimSpace(sessions); sessions != "" {
			o.Sessions = nil
			for _, part := range strings.Split(sessions, ",") {
				o.Sessions = append(o.Sessions, readSession(t, part))
			}
		}
	}
	if races := p.raceOn(d); len(races) > 0 {
		o.Race = &races[0].Name
	}
	if o.changed() {
		o.Why = []outWhy{{"some.rule", "a reason", "common practice"}}
	}
	for _, x := range o.Sessions {
		if x.isHard() || x.Effort == "openers" {
			o.Cautions = []string{"a caution"}
		}
	}
	return o
}

func readSession(t *testing.T, text string) outSession {
	t.Helper()
	s := outSession{RPE: "2-3", Text: "start 10:30"}
	words := strings.Fields(text)
	if _, err := fmt.Sscan(strings.Join(words[:3], " "), &s.Kind, &s.Minutes, &s.Effort); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	if len(words) > 3 {
		s.Sets = &words[3]
	}
	return s
}

// buildTapers sums the window that the settings and registered give.
func (s *scene) buildTapers(p *plan, out *outFile, end day) {
	for _, r := range p.races {
		if r.Priority != "A" || p.raceOn(r.date)[0] != r || r.date > end || r.date < p.today {
			continue
		}
		n := keys(p.lengths(r))[0]
		from := r.date - day(n)
		if n < 1 || from < p.today {
			continue
		}
		x := p.sum(from, r.date-1)
		cut := 100 * (1 - float64(x.planned)/float64(x.usual))
		out.Tapers = append(out.Tapers, outTaper{Race: r.Name, Priority: "A", Days: n, From: from.String(),
			CutPercent: math.Round(cut*10) / 10, UsualMinutes: x.usual, PlannedMinutes: x.planned,
			UsualRides: x.usualDays, PlannedRides: x.days})
	}
}

func sevenDays(t *testing.T) *scene {
	t.Helper()
	return newScene(t, `"today":"2026-05-15","taper":{"days":7},"races":[{"name":"Alder Loop","date":"2026-05-24",
 "priority":"A","hours":3.5,"start":"10:30","registered":"2026-04-01"}]`, "2026-05-28", map[string]string{
		"2026-05-17": "taper: intervals 65 hard 2x8min", "2026-05-18": "taper:",
		"2026-05-19": "taper: endurance 45 easy", "2026-05-20": "taper: intervals 50 hard 3x3min",
		"2026-05-21": "taper:", "2026-05-22": "taper: recovery 30 easy", "2026-05-23": "taper: openers 70 openers",
		"2026-05-24": "race: race 210 race", "2026-05-25": "recovery:",
		"2026-05-26": "recovery: endurance 60 easy", "2026-05-27": "recovery: endurance 105 easy",
	})
}

func fourteenDays(t *testing.T) *scene {
	t.Helper()
	s := sevenDays(t)
	s.in.Today = "2026-05-08"
	s.in.Taper = map[string]any{"days": 14.0}
	s.set("2026-05-10 taper: intervals 75 hard 4x8min", "2026-05-11 taper:", "2026-05-12 taper: intervals 55 hard 5x3min",
		"2026-05-13 taper: recovery 60 easy", "2026-05-14 taper:", "2026-05-15 taper: intervals 50 hard 2x8min",
		"2026-05-16 taper: endurance 80 easy", "2026-05-17 taper: intervals 50 hard 2x8min",
		"2026-05-19 taper: endurance 30 easy", "2026-05-20 taper: intervals 40 hard 3x3min", "2026-05-23 taper: openers 60 openers")
	return s
}

// long14 is the same with every ride twice as long, where least lengths
// leave room.
func long14(t *testing.T) *scene {
	t.Helper()
	s := fourteenDays(t)
	s.in.Week = map[string]string{"mon": "recovery 1h30", "tue": "intervals 3h 5x3min", "wed": "endurance 3h30",
		"thu": "off", "fri": "endurance 2h30", "sat": "long 6h", "sun": "intervals 4h 4x8min"}
	s.set("2026-05-10 taper: intervals 150 hard 4x8min", "2026-05-11 taper: recovery 80 easy", "2026-05-12 taper: intervals 110 hard 5x3min",
		"2026-05-13 taper: recovery 120 easy", "2026-05-15 taper: intervals 100 hard 2x8min",
		"2026-05-16 taper: endurance 195 easy", "2026-05-17 taper: intervals 105 hard 2x8min", "2026-05-18 taper: recovery 60 easy",
		"2026-05-19 taper: endurance 120 easy", "2026-05-20 taper: intervals 90 hard 3x3min", "2026-05-22 taper: recovery 60 easy",
		"2026-05-23 taper: openers 90 openers", "2026-05-25 recovery: recovery 45 easy",
		"2026-05-27 recovery: endurance 120 easy")
	return s
}

// farWindow is long14 with six days more in front.
func farWindow(t *testing.T) *scene {
	t.Helper()
	s := long14(t)
	s.in.Today = "2026-05-04"
	s.in.Taper = map[string]any{"days": 20.0}
	s.set("2026-05-04 taper: recovery 80 easy", "2026-05-05 taper: intervals 170 hard 5x3min", "2026-05-06 taper: endurance 80 easy",
		"2026-05-07 taper:", "2026-05-08 taper: endurance 80 easy", "2026-05-09 taper: endurance 210 easy",
		"2026-05-16 taper: endurance 165 easy")
	return s
}

func bRace(t *testing.T) *scene {
	t.Helper()
	return newScene(t, `"today":"2026-05-15","races":[{"name":"Birch Climb","date":"2026-05-24","priority":"B","hours":2,
 "registered":"2026-04-01"}]`, "2026-05-26", map[string]string{
		"2026-05-22": "taper: recovery 40 easy", "2026-05-23": "taper: openers 60 openers", "2026-05-24": "race: race 120 race",
	})
}

func cRace(t *testing.T) *scene {
	t.Helper()
	return newScene(t, `"today":"2026-05-15","races":[{"name":"Cedar Dash","date":"2026-05-23","priority":"C","hours":5,
 "registered":"2026-04-01"}]`, "2026-05-25", map[string]string{
		"2026-05-23": "race: race 300 race", "2026-05-24": "normal: endurance 60 easy",
	})
}

func cFriday(t *testing.T) *scene {
	t.Helper()
	s := cRace(t)
	s.in.Races[0].Date, s.in.Races[0].Hours, s.last = "2026-05-22", 1, "2026-05-24"
	s.lines = map[string]string{"2026-05-22": "race: race 60 race", "2026-05-24": "normal: endurance 75 steady"}
	return s
}

func noRace(t *testing.T) *scene {
	t.Helper()
	return newScene(t, `"today":"2026-05-15","races":[]`, "2026-05-28", nil)
}

func overloaded(t *testing.T) *scene {
	t.Helper()
	s := fourteenDays(t)
	s.in.Blocks = []span{{From: "2026-05-05", To: "2026-05-09", Percent: 20}}
	s.set("2026-05-08 overload: endurance 90 steady", "2026-05-09 overload: long 215 steady",
		"2026-05-10 taper: recovery 60 easy", "2026-05-13 taper: recovery 60 easy", "2026-05-14 taper:",
		"2026-05-15 taper: endurance 60 easy", "2026-05-16 taper: endurance 95 easy")
	return s
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
