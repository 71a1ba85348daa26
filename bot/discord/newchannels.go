package discord

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/api"
)

// Discord takes bots that open many direct messages for spammers: new channels
// are opened slowly, and not at all for a while when some in a row were refused.
// Source: https://discord.com/developers/docs/resources/user#create-dm
const (
	openingGap   = time.Second
	refusedInRow = 3
	firstRest    = 5 * time.Minute // doubles each time
	longestRest  = 80 * time.Minute
)

// errOpeningRests tells that no new channel is opened for now.
var errOpeningRests = errors.New("opening new direct messages pauses: Discord refused several in a row")

// opener says when a new channel of direct messages may be opened.
type opener struct {
	pace *rate.Limiter
	now  func() time.Time
	log  *slog.Logger

	mu      sync.Mutex
	refused int // in a row
	rest    time.Duration
	until   time.Time
}

func newOpener(now func() time.Time, log *slog.Logger) *opener {
	return &opener{pace: rate.NewLimiter(rate.Every(openingGap), 1), now: now, log: log, rest: firstRest}
}

// wait waits for its turn; it does not wait for the end of a pause.
func (o *opener) wait(ctx context.Context) error {
	o.mu.Lock()
	rests := o.now().Before(o.until)
	o.mu.Unlock()
	if rests {
		return errOpeningRests
	}
	return o.pace.Wait(ctx)
}

// turn takes its turn if that is now; it waits for nothing.
func (o *opener) turn() (now bool, err error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.now().Before(o.until) {
		return false, errOpeningRests
	}
	return o.pace.Allow(), nil
}

// note takes in what became of the first message in a new channel, or of the
// attempt to open one. Behind a pause one more refusal is enough for the next.
func (o *opener) note(err error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	switch api.Code(err) {
	case api.CodeClosedDM, api.CodeNoMutualGuild, api.CodeOpeningTooFast:
	default:
		if err == nil {
			o.refused, o.rest = 0, firstRest
		}
		return
	}
	if o.refused++; o.refused < refusedInRow {
		return
	}
	o.log.Warn("Discord refuses new direct messages; opening pauses", "refused", o.refused, "for", o.rest)
	o.refused, o.until, o.rest = refusedInRow-1, o.now().Add(o.rest), min(2*o.rest, longestRest)
}
