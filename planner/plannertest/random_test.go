package plannertest

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner/engine"
	"musette/planner/planfile"
)

var plans = flag.Int("plans", rounds.Of(120), "how many random plans are checked")

// planOf is the plan of a file, an error where it cannot be read.
func planOf(input []byte) ([]byte, error) {
	today, facts, faults := planfile.Read(input)
	if len(faults) > 0 {
		return nil, &faults[0]
	}
	var out bytes.Buffer
	err := planfile.Write(&out, engine.Derive(today, facts))
	return out.Bytes(), err
}

// judge gives the breaches of a file's plan and of the plan of some days later.
func judge(input []byte, later int) ([]Violation, error) {
	output, err := planOf(input)
	if err != nil {
		return nil, err
	}
	found := Check(input, output)
	if next := Later(input, later); next != nil {
		after, err := planOf(next)
		if err != nil {
			return nil, err
		}
		found = append(found, CheckStable(output, after)...)
	}
	return found, nil
}

func TestRandomPlans(t *testing.T) {
	t.Parallel()
	first := map[string]string{}
	count := map[string]int{}
	for seed := range *plans {
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		input := Generate(r)
		later := 1 + r.IntN(6)
		found, err := judge(input, later)
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, input)
		}
		seen := map[string]bool{}
		for _, v := range found {
			if seen[v.Rule] {
				continue
			}
			seen[v.Rule] = true
			if count[v.Rule]++; first[v.Rule] == "" {
				first[v.Rule] = shrunk(input, v.Rule, later)
			}
		}
	}
	for rule, text := range first {
		t.Errorf("%s is broken by %d of %d plans, first by\n%s", rule, count[rule], *plans, text)
	}
}

// shrunk is the smallest file whose plan still breaks the rule, and how it does.
func shrunk(input []byte, rule string, later int) string {
	how := ""
	fails := func(data []byte) bool {
		found, err := judge(data, later)
		for _, v := range found {
			if err == nil && v.Rule == rule {
				how = v.String()
				return true
			}
		}
		return false
	}
	best := Shrink(input, fails)
	fails(best)
	return fmt.Sprintf("%s\n%s", how, best)
}
