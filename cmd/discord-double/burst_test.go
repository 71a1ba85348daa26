package main

import (
	"bytes"
	"strings"
	"testing"
)

// The burst itself is a drill; a small one shows that it counts.
func TestBurst(t *testing.T) {
	var out bytes.Buffer
	code := run(t.Context(), []string{"burst", "--count", "40", "--rate", "5", "--seconds", "1"}, strings.NewReader(""), &out, &out)
	if code != exitDone || !strings.Contains(out.String(), "at once   40 asked: 40 answered in time") || !strings.Contains(out.String(), "pictures  5 asked: 5 answered in time") {
		t.Errorf("exit %d\n%s", code, out.String())
	}
}
