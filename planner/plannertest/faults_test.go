package plannertest

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
)

func TestFaultsAreFound(t *testing.T) {
	t.Parallel()
	hit := map[string]bool{"hard.week": true} // has its own test
	tried := 0
	for _, c := range checks {
		for i, f := range c.faults {
			hit[c.rule] = true
			if tried++; rounds.Left(tried) {
				continue
			}
			input := base(f.extra)
			output, err := planOf(input)
			if err != nil {
				t.Fatalf("%s, fault %d: %v", c.rule, i, err)
			}
			if good := Check(input, output); len(good) > 0 {
				t.Errorf("%s, fault %d: the plan breaks rules as it is: %v", c.rule, i, good)
			}
			if found := Check(input, changed(t, output, f.change)); !broken(found, c.rule) {
				t.Errorf("%s, fault %d is not found, only %v", c.rule, i, found)
			}
		}
	}
	for _, c := range checks {
		if !hit[c.rule] {
			t.Errorf("no fault shows that %s can fail", c.rule)
		}
	}
}

// changed is the output with one change.
func changed(t *testing.T, output []byte, change func(*outFile)) []byte {
	out, err := parseOutput(output)
	if err != nil {
		t.Fatal(err)
	}
	change(out)
	if out.Warnings == nil {
		out.Warnings = []outWarning{}
	}
	data, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func broken(found []Violation, rule string) bool {
	return slices.ContainsFunc(found, func(v Violation) bool { return v.Rule == rule })
}

// A week without hard days has none in its plan.
func TestHardInAWeekWithout(t *testing.T) {
	input := []byte(`{"today":"2026-05-25","week":{"tue":"endurance 1h","sat":"long 2h"},"races":[{"name":"Elm Circuit","date":"2026-06-13","priority":"A"}]}`)
	output, err := planOf(input)
	if err != nil {
		t.Fatal(err)
	}
	if found := Check(input, changed(t, output, sets("2026-06-06", "intervals 60 hard 3x3min"))); !broken(found, "hard.week") {
		t.Errorf("not found, only %v", found)
	}
}

// Missing keys, other keys and null lists are no plan.
func TestBrokenOutput(t *testing.T) {
	input := base("")
	output, _ := planOf(input)
	for _, bad := range []string{"", "{}", `{"days":[],"tapers":null,"warnings":[]}`, `{"days":[],"tapers":[],"warnings":[]}`,
		strings.Replace(string(output), `"phase"`, `"phases"`, 1), strings.Replace(string(output), `"cautions": []`, `"cautions": null`, 1)} {
		if len(Check(input, []byte(bad))) == 0 {
			t.Errorf("passes: %.80s", bad)
		}
	}
}

func TestStable(t *testing.T) {
	output, err := planOf(base(""))
	if err != nil {
		t.Fatal(err)
	}
	if found := CheckStable(output, output); len(found) > 0 {
		t.Errorf("same plan: %v", found)
	}
	if found := CheckStable(output, changed(t, output, sets("2026-06-10", "endurance 35 easy"))); len(found) != 1 || found[0].Date != "2026-06-10" {
		t.Errorf("changed day: %v", found)
	}
}
