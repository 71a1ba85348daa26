// Package post sends what musette writes by itself: each rider's daily reminder
// and each club's weekly digest. What is owed is asked of the database and
// worked out in everybody's own zone; a row is claimed before a message is sent,
// so that restarts and steps of the clock neither lose nor double one.
package post

import (
	"cmp"
	"context"
	"errors"
	"log/slog"
	"sync"
	"sync/atomic"
	"time"

	"musette/bot/meter"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// Words makes the messages; *bot.Bot does.
type Words interface {
	Reminder(ctx context.Context, who *storage.Known, day planner.Date, now time.Time) (reply say.Reply, due bool, err error)
	Digest(ctx context.Context, club storage.Club, now time.Time) (say.Reply, error)
}

// Message is a post on its way. Athlete is zero for a digest. Again marks a
// digest that may have been sent before. PutBack marks a message that the database
// may be older than, since it was put back: channels that are missing in it may be there.
type Message struct {
	Post    storage.Post
	Athlete storage.Athlete
	Club    storage.Club
	Reply   say.Reply
	Again   bool
	PutBack bool

	state int64 // of the database that it was made from
}

// Sender carries messages out. Both methods are called by several goroutines
// and end with their context. Send sends a message with the same Post.ID once
// however often it is called within three minutes. Look tells whether a message
// is there already; its Reply is empty where there is nothing to say any more.
type Sender interface {
	Send(ctx context.Context, m Message) error
	Look(ctx context.Context, m Message) (there bool, err error)
}

// What a Sender's error may be or wrap. ErrRefused and ErrNoPlace are final for
// the message; all others are temporary. Of an ErrUnsent the Sender knows that
// nothing went out; of other temporary errors nothing is known. An ErrLater says
// that this message must wait while others may go; the other temporary errors
// mean that no message gets through. Reasons are kept with the post: they must
// hold no text of messages and no token.
var (
	ErrRefused    = errors.New("direct messages are closed")
	ErrNoPlace    = errors.New("there is no place to write to")
	ErrUnsent     = errors.New("nothing was sent")
	ErrCannotLook = errors.New("sent messages cannot be read back")
	ErrLater      = errors.New("it is not sent yet") // neither an outage nor the end of one
)

// Config is what a Poster needs. A nil Log drops log lines, a nil Now is the
// machine's clock; it must be the same clock as the database's.
type Config struct {
	DB     *storage.DB
	Bot    Words
	Sender Sender
	Log    *slog.Logger
	Now    func() time.Time
	Ahead  time.Duration // reminders are sent spread over so many whole minutes before their time; 0: none
	AtOnce int           // messages sent at once; 0: 8

	Meter *meter.Meter // nil: nothing is counted

	Elsewhere func(context.Context) (at time.Time, known bool) // by a clock that is not this machine's; nil: there is none
}

// Poster sends what is owed. It is safe for use by several goroutines.
type Poster struct {
	Config

	start    startWatch    // of Run, until its clock is believed first
	doubted  bool          // that has been logged
	believed chan struct{} // closed then

	clock   clockWatch // of Run, whose ticks follow each other
	ticking sync.Mutex // held by the tick that runs
	zones   map[string]*time.Location
	next    map[timetable]memo
	erased  planner.Date // when old posts were erased last, UTC
	putBack putBack
	steady  time.Time // since when ticks followed each other steadily

	mu      sync.Mutex
	doubt   map[storage.PostID]time.Time    // since when open posts may have arrived; zero: they have not
	decided map[storage.PostID]storage.Post // what happened to open posts, where it could not be stored

	streak atomic.Int32 // temporary failures in a row; after an outage a tick begins with some
}

// New makes a Poster; it does nothing until Run or Tick.
func New(c Config) *Poster {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	c.AtOnce = cmp.Or(c.AtOnce, 8)
	return &Poster{Config: c, start: startWatch{elsewhere: c.Elsewhere}, believed: make(chan struct{}), zones: map[string]*time.Location{}, next: map[timetable]memo{}, doubt: map[storage.PostID]time.Time{}, decided: map[storage.PostID]storage.Post{}}
}

// How long things stay.
const (
	catchUp   = 7 * 24 * time.Hour  // what was owed before is not even recorded
	keepPosts = 60 * 24 * time.Hour // of what happened to posts
	keepFresh = 48 * time.Hour      // a digest makes sense
	steadyFor = 6 * time.Hour       // a clock is watched before posts are erased by it
)

// Tick sends all that is owed up to now and was not sent before, in order; it
// returns when each message is sent, given up or put off to a later tick. When
// ctx ends it finishes what it has claimed and begins nothing new.
func (p *Poster) Tick(ctx context.Context, now time.Time) error {
	return p.tick(ctx, context.WithoutCancel(ctx), now)
}

// tick is Tick; what has been claimed is finished until sending ends.
func (p *Poster) tick(ctx, sending context.Context, now time.Time) error {
	p.ticking.Lock()
	defer p.ticking.Unlock()
	if p.streak.Load() >= outageAt {
		p.streak.Store(outageAt - probes)
	} else {
		p.streak.Store(0)
	}
	last, err := p.DB.LastTick(ctx)
	if err != nil {
		return err
	}
	if p.putBack.from, p.putBack.at, err = p.DB.PutBack(ctx); err != nil {
		return err
	}
	window := newWindow(last, now, p.Ahead)
	if p.steady.IsZero() || !window.steady() {
		p.steady = now
	}
	heldUp := p.settleOpen(ctx, sending, now)
	if errors.Is(heldUp, errOutage) {
		p.streak.Store(outageAt - 1) // what is new may go elsewhere: one of it is tried
	} else if heldUp != nil {
		return heldUp
	}
	candidates, err := p.owed(ctx, window)
	if err != nil {
		return err
	}
	if err := p.deliver(ctx, sending, candidates, now); err != nil {
		return err
	}
	if heldUp != nil && p.streak.Load() > 0 {
		p.streak.Store(outageAt)
		return errors.Join(heldUp, p.DB.NoteTick(ctx, now))
	}
	if err := p.erase(ctx, now); err != nil {
		return err
	}
	return p.DB.NoteTick(ctx, now)
}

// erase deletes old posts once a day, but only when the clock has run steadily
// for hours: a wrong one must not erase what keeps messages from being sent twice.
func (p *Poster) erase(ctx context.Context, now time.Time) error {
	today := planner.DateOf(now.UTC())
	if today == p.erased || now.Sub(p.steady) < steadyFor {
		return nil
	}
	left, err := p.DB.ErasePosts(ctx, now.Add(-keepPosts))
	if err == nil && !left {
		p.erased = today
	}
	return err
}
