package terminal

import (
	"bytes"
	"strings"
	"testing"
)

// Riders and clubs are found again in other capitals and in quotes.
func TestNamesAreFoundAgain(t *testing.T) {
	s := newSession(t)
	say(t, s, `:as "Ann Smith"`)
	say(t, s, week)
	say(t, s, ":as Tomas")
	say(t, s, ":as ann smith")
	if reply := say(t, s, "/week show"); reply.Err != nil || !strings.Contains(reply.Text, "7h10") {
		t.Errorf("the week is lost: %s", reply.Text)
	}
}

// A last line with its end is one line, not two.
func TestNothingAfterTheLastLine(t *testing.T) {
	s := newSession(t)
	s.json = true
	var out bytes.Buffer
	if err := s.Run(t.Context(), strings.NewReader("/help\n"), &out); err != nil {
		t.Fatal(err)
	}
	if got := strings.Count(out.String(), "\n"); got != 1 {
		t.Errorf("%d answers, want 1:\n%s", got, out.String())
	}
}
