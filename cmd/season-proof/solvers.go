package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"musette/planner/response"
)

//go:embed solvers.py
var script []byte

// solved is a season and what our own optimum says of it.
type solved struct {
	problem Problem
	season  response.Season
	choice  []int
	gain    float64
	seconds float64
}

// A season's time is that of the quickest of some batches: the others were
// disturbed by whatever else the machine does.
const (
	batches   = 10
	batchTime = 200 * time.Microsecond
)

func solve(p Problem) (solved, error) {
	s := solved{problem: p, season: p.season(response.Prior())}
	var ok bool
	if s.choice, s.gain, ok = s.season.Solve(); !ok {
		return solved{}, errors.New("no choice is allowed, not even no taper at all")
	}
	s.seconds = math.Inf(1)
	for range batches {
		start, times := time.Now(), 0
		for time.Since(start) < batchTime {
			for range 10 {
				s.season.Solve()
			}
			times += 10
		}
		s.seconds = min(s.seconds, time.Since(start).Seconds()/float64(times))
	}
	return s, nil
}

// rider is a draw of the belief, as the script takes it.
type rider struct {
	Tau1    float64 `json:"tau1"`
	Tau2    float64 `json:"tau2"`
	K1      float64 `json:"k1"`
	K2      float64 `json:"k2"`
	Percent float64 `json:"percent"`
}

// task is what the script reads. Our choices are there to be judged; the solvers do not see them.
type task struct {
	Riders   []rider   `json:"riders"`
	Problems []Problem `json:"problems"`
	Choices  [][]int   `json:"choices"`
}

// answers is what the script writes: one a season.
type answers struct {
	Highs   string   `json:"highs_version"`
	Glpsol  string   `json:"glpsol_version"`
	Answers []answer `json:"answers"`
}

type answer struct {
	Gains   [][]float64 `json:"gains"` // of each race's candidates
	Highs   found       `json:"highs"`
	Glpsol  found       `json:"glpsol"`
	Allowed bool        `json:"allowed"` // our choice
	Worth   float64     `json:"worth"`   // of our choice, simulated as a whole
}

// found is one solver's optimum.
type found struct {
	Choice   []int   `json:"choice"`
	Allowed  bool    `json:"allowed"`
	Value    float64 `json:"value"`
	Seconds  float64 `json:"seconds"`
	Reported float64 `json:"reported"` // seconds as the solver prints them, 0 where it prints none
}

// findSolvers gives the first Python that has what it takes, or says which
// package is missing.
func findSolvers(ctx context.Context, pythons ...string) (python string, err error) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		return "", errors.New("glpsol is missing: apt-get install glpk-utils")
	}
	for _, python := range pythons {
		if exec.CommandContext(ctx, python, "-c", "from scipy.optimize import milp").Run() == nil {
			return python, nil
		}
	}
	return "", errors.New("scipy 1.9 or later is missing: apt-get install python3-scipy")
}

// askSolvers hands the raw problems to the script.
func askSolvers(ctx context.Context, python string, cases []solved) (answers, error) {
	t := task{}
	for _, d := range response.Prior() {
		t.Riders = append(t.Riders, rider{Tau1: d.Tau1, Tau2: d.Tau2, K1: d.K1, K2: d.K2, Percent: d.Percent})
	}
	for i := range cases {
		t.Problems, t.Choices = append(t.Problems, cases[i].problem), append(t.Choices, cases[i].choice)
	}
	raw, err := json.Marshal(t)
	if err != nil {
		return answers{}, fmt.Errorf("write the problems: %w", err)
	}
	folder, err := os.MkdirTemp("", "season-proof")
	if err != nil {
		return answers{}, err
	}
	defer os.RemoveAll(folder)
	program, problems := filepath.Join(folder, "solvers.py"), filepath.Join(folder, "problems.json")
	if err := errors.Join(os.WriteFile(program, script, 0o600), os.WriteFile(problems, raw, 0o600)); err != nil {
		return answers{}, err
	}
	var told bytes.Buffer
	cmd := exec.CommandContext(ctx, python, program, problems)
	cmd.Stderr = &told
	// More threads than one only cost time on problems as small as these.
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OPENBLAS_NUM_THREADS=1")
	out, err := cmd.Output()
	if err != nil {
		return answers{}, fmt.Errorf("the solvers: %w: %s", err, told.Bytes())
	}
	var a answers
	if err := json.Unmarshal(out, &a); err != nil {
		return answers{}, fmt.Errorf("the solvers' answer: %w", err)
	}
	if len(a.Answers) != len(cases) {
		return answers{}, fmt.Errorf("the solvers answered %d of %d seasons", len(a.Answers), len(cases))
	}
	return a, nil
}
