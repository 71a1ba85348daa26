package gateway

import (
	"context"
	"time"
)

// maxResumes is how often a RESUME may fail before a fresh session is asked for.
const maxResumes = 5

// life is what Run remembers from one connection to the next.
type life struct {
	home     string  // the address that Discord told last
	session  *ticket // nil: a fresh one is due
	failures int     // tries in a row that came to no session
	refused  int     // RESUMEs of session that came to nothing
}

// Run keeps the session alive until ctx ends, then says goodbye and returns nil, within a few
// seconds. It returns a *FatalError when Discord will not have the bot as it is set up, and
// the error of NewSession if that has one. It must not be called twice.
func (g *Gateway) Run(ctx context.Context) error {
	defer g.settle()
	defer g.admitted(nil)
	var l life
	for ctx.Err() == nil {
		if l.session == nil {
			if err := g.admit(ctx, &l); err != nil || ctx.Err() != nil {
				return err
			}
		}
		w, err := g.connect(ctx, l.home, l.session)
		g.admitted(nil)
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
		if readyAt.IsZero() { // another process came in between: their paces must part
			pause += between(0, g.pace.IdentifyGap<<min(l.failures, 4))
		}
	}
	g.log.Warn("gateway lost", "cause", why.text, "resume", l.session != nil, "wait", pause)
	return pause, nil
}

// admit waits until an IDENTIFY is allowed. It returns nil too when ctx ends.
func (g *Gateway) admit(ctx context.Context, l *life) error {
	p, err := g.starts.admit(ctx, g.cfg.Shard, func() { g.down(false) })
	if p == nil {
		return err
	}
	l.home = p.home
	g.admitted(p)
	return nil
}

// admitted keeps the pass for the next IDENTIFY, and gives the last one back if there was none.
func (g *Gateway) admitted(p *pass) {
	g.mu.Lock()
	last := g.pass
	g.pass = p
	g.mu.Unlock()
	if last != nil {
		last.dropped()
	}
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
