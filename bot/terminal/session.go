// Package terminal carries the conversation over lines of text: from scripts,
// one line in and one answer out, and from people with history and completion.
package terminal

import (
	"cmp"
	"context"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// Config says whom a session speaks for and how.
type Config struct {
	Bot           *bot.Bot
	DB            *storage.DB // of the bot; nil: nothing is owed
	Clock         *Clock      // that the database goes by; nil: one of the session's own
	Club, Athlete string
	Coach         bool
	Zone          string // IANA zone that was asked for; empty: the rider's, else the club's
	Home          string // IANA zone of clubs that are new
	Now           string // freezes the clock; empty: the machine's clock
	History       string // file of the lines typed before; empty: none
	JSON          bool
}

// Session is one conversation of a terminal. Its rider, club and clock change
// by control lines.
type Session struct {
	bot   *bot.Bot
	db    *storage.DB
	who   desk.Request // club, rider, coach and zones of each request
	asked desk.Request // whose zone was asked for and is not stored yet
	clock *Clock
	json  bool
	last  say.Reply // for :press and :save
	ended bool

	history string
	wipe    bool // the lines typed up to here are to be forgotten
}

// Open starts a session. A zone that was asked for becomes the rider's own as
// soon as anything is stored of them. Faults of the configuration are *planner.InputError.
func Open(ctx context.Context, c Config) (*Session, error) {
	s := &Session{bot: c.Bot, db: c.DB, clock: cmp.Or(c.Clock, new(Clock)), json: c.JSON, history: c.History}
	who := desk.Request{Club: c.Club, Athlete: c.Athlete, Coach: c.Coach, Home: c.Home}
	if c.Zone != "" {
		zone, err := desk.FindZone(c.Zone)
		if err != nil {
			return nil, err
		}
		who.Zone = zone
		s.asked = who
	}
	if _, err := s.enter(ctx, who); err != nil {
		return nil, err
	}
	if err := s.keepZone(ctx, true); err != nil || c.Now == "" {
		return s, err
	}
	return s, s.setNow(ctx, c.Now)
}

// Line answers one line; answered is false for blank lines and comments, whose
// empty reply only scripts are shown. A line that has begun is finished, whatever
// becomes of ctx.
func (s *Session) Line(ctx context.Context, line string) (reply say.Reply, answered bool) {
	ctx = context.WithoutCancel(ctx)
	line = trim(line)
	switch {
	case line == "" || line[0] == '#':
		return said(""), false
	case line[0] == ':':
		return s.control(ctx, line[1:]), true
	}
	req, _ := command.ParseLine(bot.Commands(), line) // the bot answers a fault, after words of danger
	return s.ask(ctx, req), true
}

// ask puts a request for the session's rider at the session's time.
func (s *Session) ask(ctx context.Context, req desk.Request) say.Reply {
	req.Club, req.Athlete, req.Coach, req.Zone, req.Home = s.who.Club, s.who.Athlete, s.who.Coach, s.who.Zone, s.who.Home
	req.Now = s.clock.Now()
	if err := s.comeBack(ctx, &req); err != nil {
		return s.bot.Fail(ctx, "left", err)
	}
	// What breaks has been logged with the reference that the reply shows.
	s.last, _ = s.bot.Handle(ctx, req)
	if s.last.Forget {
		if err := s.forgetLines(); err != nil {
			return s.bot.Fail(ctx, "history", err)
		}
	}
	if err := s.keepZone(ctx, false); err != nil {
		return s.bot.Fail(ctx, "zone", err)
	}
	return s.last
}

// keepZone stores the zone that was asked for, once its rider is known. One that
// the rider has set since stays, unless it is to be replaced.
func (s *Session) keepZone(ctx context.Context, replace bool) error {
	owed := s.asked
	if owed.Zone == "" {
		return nil
	}
	person, err := s.bot.Enter(ctx, owed)
	if err != nil || !person.Known {
		return err
	}
	s.asked = desk.Request{}
	if person.OwnZone && !replace {
		return nil
	}
	owed.Now, owed.Command, owed.Options = s.clock.Now(), "me set", map[string]string{"zone": owed.Zone}
	reply, err := s.bot.Handle(ctx, owed)
	if err == nil && reply.Err != nil {
		err = &planner.InputError{Field: reply.Err.Field, Msg: reply.Err.Message}
	}
	return err
}

// enter goes on as another rider; nothing is stored of them by that.
func (s *Session) enter(ctx context.Context, who desk.Request) (bot.Person, error) {
	who.Now = s.clock.Now()
	person, err := s.bot.Enter(ctx, who)
	if err == nil {
		s.who, s.last = who, say.Reply{}
	}
	return person, err
}
