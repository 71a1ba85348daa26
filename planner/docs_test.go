package planner

import (
	"os"
	"strings"
	"testing"
)

// Every rule id that a reason or warning can carry has its heading in docs/rules.md.
func TestRulesAreDocumented(t *testing.T) {
	page, err := os.ReadFile("../docs/rules.md")
	if err != nil {
		t.Fatal(err)
	}
	for rule, source := range sources {
		if !strings.Contains(string(page), "\n### "+rule+"\n") {
			t.Errorf("docs/rules.md has no heading for %s", rule)
		}
		if source == "" {
			t.Errorf("%s has no source", rule)
		}
	}
	for code, n := range noteTexts {
		if n.text == "" || sources[n.rule] == "" {
			t.Errorf("note %d has no sentence or no known rule", code)
		}
	}
}
