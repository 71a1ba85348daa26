package asked

import (
	"testing"

	"musette/planner/asked/plain"
)

// Patterns are compiled when they are first tried, so that a slip in one would not be seen before.
func TestEachPatternCompiles(t *testing.T) {
	if n := plain.CompileAll(); n < 200 {
		t.Errorf("only %d patterns", n)
	}
}
