package discord

import (
	"context"
	"sync"
	"time"

	"musette/bot/discord/api"
)

// How long it is remembered that somebody is in a server, and of how many.
const (
	memberTime = 10 * time.Minute
	memberMost = 10_000
)

// members remembers who was in which server lately.
type members struct {
	mu   sync.Mutex
	seen map[string]time.Time // by server and person
}

func (m *members) note(id string, now time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.seen == nil || len(m.seen) >= memberMost {
		m.seen = map[string]time.Time{} // rarely, and asking again is cheap
	}
	m.seen[id] = now
}

func (m *members) lately(id string, now time.Time) bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	at, ok := m.seen[id]
	return ok && now.Sub(at) < memberTime
}

// since is when somebody was seen last; zero: not that it is remembered.
func (m *members) since(id string) time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.seen[id]
}

func (m *members) drop(id string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	delete(m.seen, id)
}

func (m *members) forget() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.seen = nil
}

// isMember asks Discord whether a person is in a server: direct messages tell
// nothing of that. Where Discord does not answer, what was so is taken to be so.
func (a *App) isMember(ctx context.Context, guildID, userID string) bool {
	there, err := a.member(ctx, guildID, userID)
	return there || err != nil
}

// member is isMember with the error where Discord does not answer. It keeps who left.
func (a *App) member(ctx context.Context, guildID, userID string) (there bool, err error) {
	id := memberID(guildID, userID)
	if a.riders.lately(id, time.Now()) {
		return true, nil
	}
	_, err = a.api.Member(ctx, guildID, userID)
	switch api.Code(err) {
	case api.CodeUnknownMember, api.CodeUnknownUser:
		a.riders.drop(id)
		a.keepLeft(ctx, guildID, userID, true)
		return false, nil
	case api.CodeUnknownGuild, api.CodeMissingAccess: // the bot is not there itself
		return false, nil
	}
	if err != nil {
		return false, err
	}
	a.noteHere(ctx, guildID, userID)
	return true, nil
}
