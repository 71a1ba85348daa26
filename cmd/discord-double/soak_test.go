package main

import (
	"bytes"
	"strings"
	"testing"
)

// The soak itself is a drill; a small one shows that it counts.
func TestSoak(t *testing.T) {
	var out bytes.Buffer
	if code := run(t.Context(), []string{"soak", "--riders", "5", "--days", "3", "--events", "3"}, strings.NewReader(""), &out, &out); code != exitDone || !strings.Contains(out.String(), "day   3") {
		t.Errorf("exit %d\n%s", code, out.String())
	}
}
