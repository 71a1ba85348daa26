package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/planner/response"
)

// Random seasons are such as riders have, and the same again.
func TestRandomProblem(t *testing.T) {
	kinds := map[float64]int{}
	stages, inside := 0, 0
	for i := range uint64(300) {
		p := randomProblem(3, i)
		if again := randomProblem(3, i); !slices.Equal(p.Usual, again.Usual) || len(p.Races) != len(again.Races) {
			t.Fatalf("season %d is another the second time", i)
		}
		if len(p.Races) < 1 || len(p.Races) > mostRaces || len(p.Usual) > mostDays || p.Budget > len(p.Usual)*3/10 {
			t.Errorf("season %d: %d races, %d days, budget %d", i, len(p.Races), len(p.Usual), p.Budget)
		}
		for k, r := range p.Races {
			kinds[r.Weight]++
			if r.Last > r.First {
				stages++
			}
			if k > 0 && r.First < p.Races[k-1].First {
				t.Errorf("season %d: races out of order", i)
			}
			for _, c := range r.Candidates {
				from := r.First - len(c.Window)
				if from < 0 {
					t.Errorf("season %d: a window before the season", i)
				}
				inside += len(slices.DeleteFunc(slices.Clone(p.Races), func(o Race) bool { return o.First < from || o.First >= r.First }))
			}
		}
	}
	if kinds[weightA] < 100 || kinds[weightB] < 100 || kinds[weightC] < 100 || stages < 100 || inside < 100 {
		t.Errorf("priorities %v, %d stage races, %d races inside windows", kinds, stages, inside)
	}
}

// A usual week has usual days: their mean is 1.
func TestUsualWeek(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 100 {
		total := 0.0
		week := usualWeek(rng)
		for _, load := range week {
			total += load
		}
		if math.Abs(total-7) > 1e-9 || slices.Min(week[:]) < 0 {
			t.Fatalf("%v", week)
		}
	}
}

// A candidate's gain is what following fitness and fatigue day by day gives,
// with races inside windows and among recovery days.
func TestGainsDayByDay(t *testing.T) {
	belief := response.Prior()[:16]
	for i := range uint64(5) {
		p := randomProblem(4, i)
		season := p.season(belief)
		for k := range p.Races {
			r := &p.Races[k]
			for j := range r.Candidates {
				want := p.follow(belief, r, &r.Candidates[j]) - p.follow(belief, r, &Candidate{})
				if got := season.Stops[k].Options[j].Gain; math.Abs(got-want) > 1e-9 {
					t.Errorf("season %d, race %d, candidate %d: %v, want %v", i, k, j, got, want)
				}
			}
		}
	}
}

// follow is the weighted sum of performance on race mornings, on average over the belief.
func (p *Problem) follow(b response.Belief, r *Race, c *Candidate) float64 {
	loads := slices.Clone(p.Usual)
	for i, share := range c.Window {
		loads[r.First-len(c.Window)+i] *= share
	}
	for i, share := range c.Recover {
		if d := r.Last + 1 + i; d < len(loads) {
			loads[d] *= share
		}
	}
	total := 0.0
	for i := range b {
		var s response.State
		for d, load := range loads {
			for k := range p.Races {
				if p.Races[k].First == d {
					total += p.Races[k].Weight * b[i].Percent * b[i].Performance(b[i].Morning(s))
				}
			}
			s = b[i].Evening(s, load)
		}
	}
	return total / float64(len(b))
}

// sample is three seasons and answers that agree.
func sample(t *testing.T) ([]solved, answers) {
	t.Helper()
	var cases []solved
	a := answers{Highs: "one", Glpsol: "other"}
	for i := range uint64(3) {
		p := randomProblem(5, i)
		s := solved{problem: p, season: p.season(response.Prior()), seconds: 1e-6}
		s.choice, s.gain, _ = s.season.Solve()
		f := found{Choice: s.choice, Allowed: true, Value: s.gain, Seconds: 200e-6}
		one := answer{Highs: f, Glpsol: f, Allowed: true, Worth: s.gain}
		for _, stop := range s.season.Stops {
			var gains []float64
			for _, o := range stop.Options {
				gains = append(gains, o.Gain)
			}
			one.Gains = append(one.Gains, gains)
		}
		cases, a.Answers = append(cases, s), append(a.Answers, one)
	}
	return cases, a
}

// Whatever does not hold is told, and only that.
func TestVerdict(t *testing.T) {
	for _, test := range []struct {
		want string // "" for none
		harm func(cases []solved, a *answers)
	}{
		{"", func([]solved, *answers) {}},
		{"from HiGHS's differs by", func(_ []solved, a *answers) { a.Answers[1].Highs.Value += 1e-4 }},
		{"from glpsol's differs by", func(_ []solved, a *answers) { a.Answers[2].Glpsol.Value -= 1e-4 }},
		{"from HiGHS's differs by +Inf", func(_ []solved, a *answers) { a.Answers[0].Highs.Value = math.NaN() }},
		{"a gain from the script's", func(_ []solved, a *answers) { a.Answers[0].Gains[0][0] += 1e-4 }},
		{"from its choice simulated", func(_ []solved, a *answers) { a.Answers[1].Worth += 1e-4 }},
		{"not allowed in seasons [1]", func(_ []solved, a *answers) { a.Answers[1].Allowed = false }},
		{"not allowed in seasons [2]", func(_ []solved, a *answers) { a.Answers[2].Highs.Allowed = false }},
		{"only 66.7 times as fast", func(cases []solved, _ *answers) {
			for i := range cases {
				cases[i].seconds = 3e-6
			}
		}},
	} {
		cases, a := sample(t)
		test.harm(cases, &a)
		r := compare(cases, a)
		err := r.verdict()
		if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n")) {
			t.Errorf("want %q, got %v", test.want, err)
		}
	}
}

// The table has a line for each solver.
func TestTable(t *testing.T) {
	cases, a := sample(t)
	r := compare(cases, a)
	table := r.table()
	for _, want := range []string{"3 seasons", "season optimum", "one  ", "other  ", "0.2000 ms", "200"} {
		if !strings.Contains(table, want) {
			t.Errorf("no %q in\n%s", want, table)
		}
	}
}

// The file for the tests has the seasons and both solvers' optima.
func TestWriteSeasons(t *testing.T) {
	cases, a := sample(t)
	name := filepath.Join(t.TempDir(), "seasons.json")
	if err := writeSeasons(name, 5, cases, a); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		About   head
		Seasons []line
	}
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Seasons) != 3 || !slices.Equal(file.About.Solvers, []string{"one", "other"}) {
		t.Fatalf("%+v", file)
	}
	for i, got := range file.Seasons {
		if got.Highs != cases[i].gain || got.Glpsol != cases[i].gain || len(got.Stops) != len(cases[i].season.Stops) || got.Budget != cases[i].season.Budget {
			t.Errorf("season %d: %+v", i, got)
		}
	}
}

// What is missing is named with its package.
func TestFindSolversMissing(t *testing.T) {
	folder := t.TempDir()
	t.Setenv("PATH", folder)
	var stdout, stderr bytes.Buffer
	if code := run(context.Background(), nil, &stdout, &stderr); code != exitBroke || !strings.Contains(stderr.String(), "apt-get install glpk-utils") {
		t.Errorf("without glpsol: %d %s", code, stderr.String())
	}
	if err := os.WriteFile(filepath.Join(folder, "glpsol"), []byte("#!/bin/sh\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := findSolvers(context.Background(), "python3"); err == nil || !strings.Contains(err.Error(), "apt-get install python3-scipy") {
		t.Errorf("without scipy: %v", err)
	}
}

func TestWrongUse(t *testing.T) {
	for _, args := range [][]string{{"--seasons", "0"}, {"--seasons", "many"}, {"more"}} {
		var stdout, stderr bytes.Buffer
		if code := run(context.Background(), args, &stdout, &stderr); code != exitUse || stderr.Len() == 0 {
			t.Errorf("%v: %d %s", args, code, stderr.String())
		}
	}
	var stdout, stderr bytes.Buffer
	if code := run(context.Background(), []string{"--help"}, &stdout, &stderr); code != exitDone || !strings.Contains(stdout.String(), "--seasons") {
		t.Errorf("--help: %d %s", code, stdout.String())
	}
}
