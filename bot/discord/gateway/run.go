package gateway

import (
	"context"
	"fmt"
	"net/http"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/api"
)

// maxResumes is how often a RESUME may fail before a fresh session is asked for.
const maxResumes = 5

// identifyBurst is how many IDENTIFYs may follow each other at the shortest pace. With one more
// every Pace.IdentifyEvery a day has 964, below the 1000 after which Discord resets the token.
const identifyBurst = 100

// reserve is how many IDENTIFYs of the daily budget are left alone: beyond it Discord resets
// the token.
const reserve = 5

// life is what Run remembers from one connection to the next.
type life struct {
	home     string        // the address of the last Info
	session  *ticket       // nil: a fresh one is due
	failures int           // tries in a row that came to no session
	starts   *rate.Limiter // of IDENTIFYs over a day
	refused  int           // RESUMEs of session that came to nothing
}

// Run keeps the session alive until ctx ends, then says goodbye and returns nil, within a few
// seconds. It returns a *FatalError when Discord will not have the bot as it is set up, and
// the error of NewSession if that has one. It must not be called twice.
func (g *Gateway) Run(ctx context.Context) error {
	defer g.settle()
	l := life{starts: rate.NewLimiter(rate.Every(g.pace.IdentifyEvery), identifyBurst)}
	for ctx.Err() == nil {
		if l.session == nil {
			if err := g.admit(ctx, &l); err != nil || ctx.Err() != nil {
				return err
			}
		}
		w, err := g.connect(ctx, l.home, l.session)
		if err != nil {
			return err
		}
		g.down(ctx.Err() != nil)
		if ctx.Err() != nil {
			return nil
		}
		pause, err := g.judge(w, &l)
		if err != nil {
			return err
		}
		wait(ctx, pause)
	}
	return nil
}

// judge draws the consequences of a connection's end: what to try next, and when.
func (g *Gateway) judge(w *wire, l *life) (time.Duration, error) {
	why, readyAt, session := w.outcome()
	if why.fatal != 0 {
		return 0, &FatalError{Code: why.fatal}
	}
	if !readyAt.IsZero() {
		l.failures = 0
	}
	l.failures++
	switch {
	case !readyAt.IsZero():
		l.refused = 0
	case l.session != nil:
		l.refused++
	}
	l.session = session
	if !why.resume || l.refused >= maxResumes {
		l.session, l.refused = nil, 0
	}
	pause := g.pace.retry(l.failures)
	if why.slow {
		pause = max(pause, g.pace.invalid())
	}
	g.log.Warn("gateway lost", "cause", why.text, "resume", l.session != nil, "wait", pause)
	return pause, nil
}

// admit waits until an IDENTIFY is allowed: by the pace, by the daily budget, and by Discord
// answering at all. It returns nil too when ctx ends.
func (g *Gateway) admit(ctx context.Context, l *life) error {
	g.mu.Lock()
	next := g.identified.Add(g.pace.IdentifyGap)
	g.mu.Unlock()
	if !wait(ctx, time.Until(next)) || l.starts.Wait(ctx) != nil {
		return nil
	}
	for {
		info, err := g.info(ctx)
		pause := time.Duration(0)
		switch {
		case ctx.Err() != nil:
			return nil
		case api.Status(err) == http.StatusUnauthorized:
			return &FatalError{Code: 4004}
		case err != nil:
			l.failures++
			g.down(false)
			pause = g.pace.retry(l.failures)
			g.log.Warn("gateway address not known", "error", err, "wait", pause)
		case spent(info):
			pause = info.SessionStartLimit.ResetAfter + g.pace.retry(1)
			g.log.Warn("today's connections are used up", "left", info.SessionStartLimit.Remaining, "wait", pause)
		default:
			l.home = info.URL
			return nil
		}
		if !wait(ctx, pause) {
			return nil
		}
	}
}

func (g *Gateway) info(ctx context.Context) (api.GatewayInfo, error) {
	ctx, cancel := context.WithTimeout(ctx, g.pace.Info)
	defer cancel()
	info, err := g.cfg.Info(ctx)
	if err == nil && !usable(info.URL) {
		err = fmt.Errorf("the address of the gateway is not usable")
	}
	return info, err
}

// spent leaves the reserve alone, of a small budget a tenth. A total of 0 says nothing.
func spent(info api.GatewayInfo) bool {
	limit := info.SessionStartLimit
	return limit.Total > 0 && limit.Remaining <= min(reserve, limit.Total/10)
}

// settle waits for discordgo, which takes a second to close a session.
func (g *Gateway) settle() {
	done := make(chan struct{})
	go func() {
		g.behind.Wait()
		close(done)
	}()
	select {
	case <-done:
	case <-time.After(g.pace.Settle):
		g.log.Warn("discordgo did not finish in time")
	}
}
