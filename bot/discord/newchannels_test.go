package discord

import (
	"errors"
	"log/slog"
	"strings"
	"testing"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/api"
)

// Opening pauses after refusals in a row, each time for longer, and goes on as
// before once somebody could be written to.
func TestOpeningPauses(t *testing.T) {
	now, log := start, &logBook{}
	o := newDirectOpening(func() time.Time { return now }, slog.New(slog.NewTextHandler(log, nil)))
	o.pace = rate.NewLimiter(rate.Inf, 1)
	closed, fast := &api.Error{Code: api.CodeClosedDM}, &api.Error{Code: api.CodeOpeningTooFast}
	open := func(want bool) {
		t.Helper()
		if err := o.wait(t.Context()); errors.Is(err, errOpeningRests) == want || err != nil && want {
			t.Fatalf("after %v: %v", now.Sub(start), err)
		}
	}
	o.note(closed)
	o.note(&api.Error{Code: api.CodeNoMutualGuild})
	o.note(nil)
	o.note(closed)
	o.note(&api.Error{Status: 500}) // says nothing about the person
	o.note(fast)
	open(true)
	o.note(closed)
	for _, rest := range []time.Duration{5, 10, 20, 40, 80, 80} {
		open(false)
		now = now.Add(rest*time.Minute - time.Second)
		open(false)
		now = now.Add(time.Second)
		open(true)
		o.note(fast)
	}
	now = now.Add(longestRest)
	o.note(nil)
	o.note(closed)
	o.note(closed)
	open(true)
	o.note(closed)
	now = now.Add(firstRest)
	open(true)
	if n := strings.Count(log.String(), "opening pauses"); n != 8 {
		t.Errorf("told %d times, want 8:\n%s", n, log)
	}
}
