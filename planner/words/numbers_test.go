package words_test

import (
	"testing"

	"musette/planner/engine"
	"musette/planner/words"
)

// The days without symptoms that riders are told of are those of the rule.
func TestWellForIsTheRules(t *testing.T) {
	if in := map[string]int{"one day": 1, "two days": 2, "three days": 3}[words.WellFor]; in != engine.FreeAfterIll {
		t.Errorf("riders wait %s, the rule takes %d days", words.WellFor, engine.FreeAfterIll)
	}
}
