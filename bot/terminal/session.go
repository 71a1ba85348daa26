// Package terminal carries the conversation over lines of text: from scripts,
// one line in and one answer out, and from people with history and completion.
package terminal

import (
	"context"
	"time"

	"musette/bot"
	"musette/planner"
)

// Config says whom a session speaks for and how.
type Config struct {
	Bot           *bot.Bot
	Club, Athlete string
	Coach         bool
	Zone          string // IANA zone that was asked for; empty: the rider's, else the club's
	Home          string // IANA zone of clubs that are new
	Now           string // freezes the clock; empty: the machine's clock
	JSON          bool
}

// Session is one conversation of a terminal. Its rider, club and clock change
// by control lines.
type Session struct {
	bot   *bot.Bot
	who   bot.Request // club, rider, coach and zone of each request
	home  string
	now   time.Time // zero: the machine's clock
	json  bool
	last  bot.Reply // for :press and :save
	ended bool
}

// Open starts a session. A zone that was asked for becomes the rider's own.
// Faults of the configuration are *planner.InputError.
func Open(ctx context.Context, c Config) (*Session, error) {
	s := &Session{bot: c.Bot, home: c.Home, json: c.JSON,
		who: bot.Request{Club: c.Club, Athlete: c.Athlete, Coach: c.Coach}}
	if err := s.enter(ctx, s.who); err != nil {
		return nil, err
	}
	if c.Zone != "" {
		if reply, err := s.setZone(ctx, c.Zone); err != nil {
			return nil, err
		} else if reply.Err != nil {
			return nil, &planner.InputError{Field: reply.Err.Field, Msg: reply.Err.Message}
		}
		s.who.Zone = c.Zone
	}
	if c.Now == "" {
		return s, nil
	}
	return s, s.setNow(ctx, c.Now)
}

// Line answers one line; answered is false for blank lines and comments, whose
// empty reply only scripts are shown.
func (s *Session) Line(ctx context.Context, line string) (reply bot.Reply, answered bool) {
	line = trim(line)
	switch {
	case line == "" || line[0] == '#':
		return said(""), false
	case line[0] == ':':
		return s.control(ctx, line[1:]), true
	}
	req, err := bot.ParseLine(bot.Commands(), line)
	if err != nil {
		s.last = refusal(err)
		return s.last, true
	}
	return s.ask(ctx, req), true
}

// ask puts a request for the session's rider at the session's time.
func (s *Session) ask(ctx context.Context, req bot.Request) bot.Reply {
	req.Club, req.Athlete, req.Coach, req.Zone = s.who.Club, s.who.Athlete, s.who.Coach, s.who.Zone
	req.Now = s.clock()
	// What breaks has been logged with the reference that the reply shows.
	s.last, _ = s.bot.Handle(ctx, req)
	return s.last
}

func (s *Session) clock() time.Time {
	if s.now.IsZero() {
		return time.Now()
	}
	return s.now
}

// enter makes a club or rider that is new, so that later refusals change nothing.
func (s *Session) enter(ctx context.Context, who bot.Request) error {
	_, err := s.bot.Enter(ctx, who, s.home)
	if err == nil {
		s.who, s.last = who, bot.Reply{}
	}
	return err
}
