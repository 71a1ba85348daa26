package terminal

import (
	"context"
	"slices"
	"strings"
	"sync"

	"musette/bot"
	"musette/bot/post"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// collector is a post.Sender that keeps what it is to send.
type collector struct {
	mu  sync.Mutex
	all []post.Message
}

// Send implements post.Sender.
func (c *collector) Send(_ context.Context, m post.Message) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.all = append(c.all, m)
	return nil
}

// Look implements post.Sender: what an interrupted session collected is gone.
func (c *collector) Look(context.Context, post.Message) (bool, error) { return false, nil }

// served is the platform whose riders musette serve writes to.
const served = "discord"

// tick runs what is owed up to the session's time, for all riders and clubs of
// the database. The reply has the buttons of what the session's rider got. What
// is owed on a platform must not be swallowed by a terminal.
func (s *Session) tick(ctx context.Context) (say.Reply, error) {
	if s.db == nil {
		return said("Nothing is due."), nil
	}
	clubs, err := s.db.Clubs(ctx, served)
	if err != nil {
		return say.Reply{}, err
	}
	if len(clubs) > 0 {
		return say.Reply{}, &planner.InputError{Msg: "this database has clubs on Discord, and musette serve sends what they are owed. Use another file with --db"}
	}
	person, err := s.bot.Enter(ctx, s.who)
	if err != nil {
		return say.Reply{}, err
	}
	var sent collector
	now := s.clock.Now()
	poster := post.New(post.Config{DB: s.db, Bot: s.bot, Sender: &sent, Now: s.clock.Now})
	if err := poster.Tick(ctx, now); err != nil {
		return say.Reply{}, err
	}
	slices.SortStableFunc(sent.all, func(a, b post.Message) int { return int(a.Post.ID - b.Post.ID) })
	reply := said("Nothing is due.")
	switch n := len(sent.all); {
	case n == 1:
		reply = said("1 message sent.")
	case n > 1:
		reply = said("%d messages sent.", n)
	}
	gone, err := s.db.EraseLeft(ctx, planner.DateOf(now.In(person.Zone)))
	switch {
	case err != nil:
		return say.Reply{}, err
	case gone == 1:
		reply.Addf("1 rider who left %d days ago is erased.", storage.KeepLeft)
	case gone > 1:
		reply.Addf("%d riders who left %d days ago are erased.", gone, storage.KeepLeft)
	}
	for _, m := range sent.all {
		to := "#" + m.Club.Name
		if m.Post.Kind == storage.PostReminder {
			to = m.Athlete.Name
		}
		lines := m.Reply.Lines
		if s.isFor(&m, person) {
			lines = m.Reply.LinesBesideButtons()
			reply.Buttons, reply.Files = m.Reply.Buttons, m.Reply.Files
			reply.Date, reply.Race = m.Reply.Date, m.Reply.Race
		}
		reply.Sent = append(reply.Sent, say.Message{To: to, Kind: string(m.Post.Kind), Lines: lines})
	}
	s.last = reply
	return reply, nil
}

// isFor reports whether a message is for whom the session speaks: their
// reminder, or their club's digest where they are a coach.
func (s *Session) isFor(m *post.Message, who bot.Person) bool {
	if !strings.EqualFold(m.Club.Name, who.Club) {
		return false
	}
	if m.Post.Kind == storage.PostDigest {
		return s.who.Coach
	}
	return strings.EqualFold(m.Athlete.Name, who.Athlete)
}
