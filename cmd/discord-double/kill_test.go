package main

import (
	"bytes"
	"strings"
	"testing"
)

// A short version of the drill: no reminder is lost or doubled.
func TestKill(t *testing.T) {
	var out bytes.Buffer
	if code := run(t.Context(), []string{"kill", "--rounds", "5", "--riders", "60", "--rest", "0s", "--musette", builtMusette(t)}, strings.NewReader(""), &out, &out); code != exitDone {
		t.Fatalf("exit %d\n%s", code, out.String())
	}
	for _, want := range []string{"kills     5 in", "messages  60 for 60 riders", "missing   0\n", "twice     0\n", "unsettled 0\n"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is missing in\n%s", want, out.String())
		}
	}
}

// The measuring of memory counts each rider that is due.
func TestMemory(t *testing.T) {
	var out bytes.Buffer
	if code := run(t.Context(), []string{"memory", "--riders", "200"}, strings.NewReader(""), &out, &out); code != exitDone || !strings.Contains(out.String(), "200 stored, 20 due, 20 reminders") {
		t.Errorf("exit %d\n%s", code, out.String())
	}
}
