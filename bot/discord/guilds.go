package discord

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/storage"
)

// guildNames are the servers that have the bot, by number, with their names.
type guildNames struct {
	mu    sync.RWMutex
	names map[string]string
}

func (g *guildNames) set(id, name string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.names == nil {
		g.names = map[string]string{}
	}
	g.names[id] = cmp.Or(name, g.names[id])
}

func (g *guildNames) drop(id string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	delete(g.names, id)
}

// only keeps of a shard's servers no others but those, which may have no name yet.
func (g *guildNames) only(ids []string, mine func(id string) bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	names := make(map[string]string, len(ids))
	for id, name := range g.names {
		if !mine(id) {
			names[id] = name
		}
	}
	for _, id := range ids {
		names[id] = g.names[id]
	}
	g.names = names
}

func (g *guildNames) name(id string) string {
	g.mu.RLock()
	defer g.mu.RUnlock()
	return g.names[id]
}

// single is the one server that has the bot, "" where it is none or several.
func (g *guildNames) single() string {
	g.mu.RLock()
	defer g.mu.RUnlock()
	if len(g.names) == 1 {
		for id := range g.names {
			return id
		}
	}
	return ""
}

func clubKey(guildID string) storage.Key  { return storage.PlatformKey(platform, guildID) }
func personKey(userID string) storage.Key { return storage.PlatformKey(platform, userID) }
func channelReference(id string) string   { return "<#" + id + ">" }
func channelID(reference string) string   { return inner(reference, "<#") }
func inner(reference, open string) string {
	if len(reference) > len(open)+1 && reference[:len(open)] == open && reference[len(reference)-1] == '>' {
		return reference[len(open) : len(reference)-1]
	}
	return ""
}

// onGuild follows which servers have the bot.
func (a *App) onGuild(ctx context.Context, e gateway.Event) error {
	switch e.Type {
	case "READY":
		var ready readyEvent
		if err := json.Unmarshal(e.Data, &ready); err != nil {
			return err
		}
		return a.onReady(ctx, &ready)
	case "CHANNEL_DELETE":
		var channel channelEvent
		if err := json.Unmarshal(e.Data, &channel); err != nil {
			return err
		}
		return a.onChannelGone(ctx, channel)
	}
	var guild guildEvent
	if err := json.Unmarshal(e.Data, &guild); err != nil {
		return err
	}
	switch {
	case e.Type != "GUILD_DELETE":
		a.names.set(guild.ID, guild.Name)
		return errors.Join(a.DB.RejoinClub(ctx, clubKey(guild.ID)), a.rename(ctx, guild))
	case guild.Unavailable:
		return nil // an outage of Discord; the server still has the bot
	}
	a.names.drop(guild.ID)
	a.Log.Info(fmt.Sprintf("a server removed the bot; what is stored of it is kept for %d days", keepDays))
	return a.DB.LeaveClub(ctx, clubKey(guild.ID))
}

// rename keeps what a server is called now with its club, if that is stored.
func (a *App) rename(ctx context.Context, guild guildEvent) error {
	club, err := a.DB.FindClub(ctx, clubKey(guild.ID))
	if errors.Is(err, storage.ErrNotFound) {
		return nil
	}
	name := storage.ShownName(guild.Name, club.Name)
	if err != nil || name == club.Name {
		return err
	}
	return a.DB.RenameClub(ctx, club.ID, name)
}

// onReady compares the servers of a shard that have the bot with the clubs that
// are stored: some may have removed it while it was away.
func (a *App) onReady(ctx context.Context, ready *readyEvent) error {
	mine := func(id string) bool { return gateway.ShardOf(id, ready.Shard[1]) == ready.Shard[0] }
	ids := make([]string, len(ready.Guilds))
	there := map[storage.Key]bool{}
	for i, g := range ready.Guilds {
		ids[i] = g.ID
		there[clubKey(g.ID)] = true
	}
	a.names.only(ids, mine)
	a.connected(ready.Shard[0], len(ids))
	err := a.leaveAbsent(ctx, mine, there)
	if err == nil {
		a.arrived.Note(ready.Shard[0])
	}
	return err
}

// onChannelGone notes that a club's channel was deleted.
func (a *App) onChannelGone(ctx context.Context, channel channelEvent) error {
	a.looked.forget()
	club, err := a.DB.FindClub(ctx, clubKey(channel.GuildID))
	if errors.Is(err, storage.ErrNotFound) || err == nil && club.Setup.Channel != channelReference(channel.ID) {
		return nil
	}
	if err != nil {
		return err
	}
	return a.DB.SetFault(ctx, club.ID, "it was deleted")
}

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

// claims are what answers under way tell, so that no other one tells it meanwhile.
type claims struct {
	mu    sync.Mutex
	since map[string]time.Time
}

// claim takes what nobody tells yet. One that was not freed ends when its answer must be over.
func (c *claims) claim(what string, now time.Time) (free func(), claimed bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if at, taken := c.since[what]; taken && now.Sub(at) < 2*wholeAnswer {
		return nil, false
	}
	if c.since == nil {
		c.since = map[string]time.Time{}
	}
	c.since[what] = now
	return func() {
		c.mu.Lock()
		defer c.mu.Unlock()
		if c.since[what].Equal(now) {
			delete(c.since, what)
		}
	}, true
}

// isMember asks Discord whether a person is in a server: direct messages tell
// nothing of that. Where Discord does not answer soon, what was so is taken to be so.
func (a *App) isMember(ctx context.Context, guildID, userID string) (there bool) {
	if a.riders.lately(memberID(guildID, userID), a.Stopwatch()) {
		return true
	}
	err := a.lookSoon(ctx, func(ctx context.Context) (err error) {
		there, err = a.member(ctx, guildID, userID)
		return err
	})
	if err != nil {
		return !a.hasLeft(ctx, guildID, userID)
	}
	return there
}

// member is isMember with the error where Discord does not answer. It keeps who left.
func (a *App) member(ctx context.Context, guildID, userID string) (there bool, err error) {
	id := memberID(guildID, userID)
	if a.riders.lately(id, a.Stopwatch()) {
		return true, nil
	}
	_, err = a.api.Member(ctx, guildID, userID)
	ctx = context.WithoutCancel(ctx) // what was found out is kept
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

// closeChannel says how a channel becomes one for coaches only.
const closeChannel = "in that channel's settings, Permissions, take View Channel from everyone and allow it to the coach role and to me"

// readByAll reports that everybody in the server can read a channel. What the
// channel says of everybody's role, which has the server's id, goes before what
// the role may do elsewhere; where that is not known, it may view.
func readByAll(ctx context.Context, client *api.Client, channel *api.Channel) bool {
	if channel.Type == api.ChannelPrivateThread {
		return false
	}
	if at := slices.IndexFunc(channel.Overwrites, func(o api.Overwrite) bool { return o.ID == channel.GuildID }); at >= 0 {
		switch o := channel.Overwrites[at]; {
		case rights(o.Allow)&rightView != 0:
			return true
		case rights(o.Deny)&rightView != 0:
			return false
		}
	}
	roles, err := client.Roles(ctx, channel.GuildID)
	if at := slices.IndexFunc(roles, func(r api.Role) bool { return r.ID == channel.GuildID }); err == nil && at >= 0 {
		return rights(roles[at].Permissions)&(rightView|rightAdministrator) != 0
	}
	return true
}
