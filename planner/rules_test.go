package planner_test

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"testing"

	"musette/planner"
	"musette/planner/planfile"
	"musette/planner/plannertest"
)

var planCount = flag.Int("plans", 20000, "how many random plan files the rules are checked on")

// planOf is what `musette plan --json` prints for a plan file.
func planOf(t testing.TB, input []byte) []byte {
	t.Helper()
	today, facts, faults := planfile.Read(input)
	if len(faults) > 0 {
		t.Fatalf("plan file refused: %v\n%s", faults, input)
	}
	var out bytes.Buffer
	if err := planfile.Write(&out, planner.Derive(today, facts)); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Every rule holds on random weeks, races and settings; the rates of plans
// that a warning excuses stay within what the rules' own conflicts explain.
func TestRulesHoldOnRandomPlans(t *testing.T) {
	n := *planCount
	warned := map[string]int{}
	failed := 0
	for i := range n {
		input := plannertest.Generate(rand.New(rand.NewPCG(uint64(i), 7)))
		output := planOf(t, input)
		for code := range plannertest.Warned(output) {
			warned[code]++
		}
		if v := plannertest.Check(input, output); len(v) > 0 {
			t.Errorf("seed %d: %v\n%s", i, v, input)
			if failed++; failed >= 5 {
				t.FailNow()
			}
		}
	}
	for code, most := range map[string]float64{"taper.volume": 0.12, "taper.pattern": 0.08, "taper.shape": 0.03, "taper.frequency": 0.02} {
		if got := float64(warned[code]) / float64(n); got > most {
			t.Errorf("plans with a %s warning: got %.3f, want at most %.3f", code, got, most)
		}
	}
	t.Logf("warnings in %d plans: %v", n, warned)
}

// An ordinary week has no warning.
func TestOrdinaryWeeksHaveNoWarning(t *testing.T) {
	failed := 0
	for i := range *planCount / 10 {
		input := plannertest.GenerateOrdinary(rand.New(rand.NewPCG(uint64(i), 11)))
		if v := plannertest.CheckOrdinary(input, planOf(t, input)); len(v) > 0 {
			t.Errorf("seed %d: %v\n%s", i, v, input)
			if failed++; failed >= 5 {
				t.FailNow()
			}
		}
	}
}
