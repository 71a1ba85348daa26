package discordtest

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Permission bits that the double keeps to.
const (
	PermAdmin       = 1 << 3
	PermView        = 1 << 10
	PermSend        = 1 << 11
	PermEmbed       = 1 << 14
	PermAttach      = 1 << 15
	PermHistory     = 1 << 16 // without it a server's messages cannot be read back
	PermThreads     = 1 << 36 // Create Private Threads
	PermInThreads   = 1 << 38 // Send Messages in Threads, which counts there instead of PermSend
	PermLeast       = PermView | PermSend | PermEmbed | PermAttach
	permDM          = 1<<14 | 1<<15 | 1<<16 | 1<<17 | 1<<18
	channelText     = 0
	channelDM       = 1
	channelThread   = 12 // a private one
	timestampLayout = "2006-01-02T15:04:05.000000+00:00"
)

// Guild is a Discord server. Empty ids are made up by AddGuild.
type Guild struct {
	ID, Name string
	Channels []Channel
	Roles    []Role
	Members  []Member
}

// Channel is a channel of a guild; Type 0 is text. BotPermissions are the bot's
// own in it; 0 is PermLeast (SetBotPermissions takes them away).
type Channel struct {
	ID, Name       string
	Type           int
	BotPermissions int64
	Private        bool // the role of everybody may not view it
}

// Role is a role of a guild.
type Role struct {
	ID, Name    string
	Permissions int64
}

// Member is a person in a guild. Roles are ids or names of the guild's roles.
// Permissions 0 is PermLeast.
type Member struct {
	UserID, Name, Nick string
	Roles              []string
	Permissions        int64
}

// ChannelID is the id of the channel of that name, "" where there is none.
func (g Guild) ChannelID(name string) string {
	for _, c := range g.Channels {
		if c.Name == strings.TrimPrefix(name, "#") || c.ID == name {
			return c.ID
		}
	}
	return ""
}

// RoleID is the id of the role of that name, "" where there is none.
func (g Guild) RoleID(name string) string {
	for _, r := range g.Roles {
		if r.Name == strings.TrimPrefix(name, "@") || r.ID == name {
			return r.ID
		}
	}
	return ""
}

// UserID is the id of the member of that name, "" where there is none.
func (g Guild) UserID(name string) string {
	for _, m := range g.Members {
		if m.Name == strings.TrimPrefix(name, "@") || m.UserID == name {
			return m.UserID
		}
	}
	return ""
}

// world is who and what exists. The server's lock guards it.
type world struct {
	users    map[string]*user
	guilds   map[string]*Guild
	channels map[string]*channel
	dms      map[string]string // user id -> channel id
}

type user struct {
	id, name string
	bot      bool
	joined   bool // has been seen in a guild
	closed   int  // the code with which direct messages are refused, or 0
}

type channel struct {
	Channel
	guild     string   // "" for direct messages
	recipient string   // of direct messages
	parent    string   // of threads
	members   []string // of threads, without the bot
}

func (w *world) init() {
	w.users, w.guilds = map[string]*user{}, map[string]*Guild{}
	w.channels, w.dms = map[string]*channel{}, map[string]string{}
}

// AddGuild adds a server that the bot is in, or replaces the one with its id,
// and tells connected sessions. It returns the guild with its ids.
func (s *Server) AddGuild(g Guild) Guild {
	s.mu.Lock()
	defer s.mu.Unlock()
	g = s.settle(g)
	s.forgetChannels(g.ID)
	s.world.guilds[g.ID] = &g
	for _, c := range g.Channels {
		s.world.channels[c.ID] = &channel{Channel: c, guild: g.ID}
	}
	for _, m := range g.Members {
		u := s.user(m.UserID)
		u.name, u.joined = m.Name, true
	}
	s.dispatch(event{name: "GUILD_CREATE", guild: g.ID, intent: intentGuilds, data: s.guildJSON(&g)})
	return g
}

// settle gives ids to what lacks them, without touching the caller's slices.
func (s *Server) settle(g Guild) Guild {
	g.Channels, g.Roles, g.Members = slices.Clone(g.Channels), slices.Clone(g.Roles), slices.Clone(g.Members)
	id := func(p *string) {
		if *p == "" {
			*p = s.newID()
		}
	}
	id(&g.ID)
	for i := range g.Channels {
		id(&g.Channels[i].ID)
		def(&g.Channels[i].BotPermissions, PermLeast)
	}
	for i := range g.Roles {
		id(&g.Roles[i].ID)
	}
	for i := range g.Members {
		m := &g.Members[i]
		id(&m.UserID)
		def(&m.Permissions, PermLeast)
		def(&m.Name, "rider-"+m.UserID)
		m.Roles = slices.Clone(m.Roles)
		for j, role := range m.Roles {
			if known := g.RoleID(role); known != "" {
				m.Roles[j] = known
			}
		}
	}
	return g
}

// RemoveGuild makes the bot leave a server: GUILD_DELETE without "unavailable".
func (s *Server) RemoveGuild(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.world.guilds, id)
	s.forgetChannels(id)
	s.dispatch(event{name: "GUILD_DELETE", guild: id, intent: intentGuilds, data: encode(jsonMap{"id": id})})
}

func (s *Server) forgetChannels(guild string) {
	for id, c := range s.world.channels {
		if c.guild == guild {
			delete(s.world.channels, id)
		}
	}
}

// GuildOutage sends GUILD_DELETE with unavailable:true, as in an outage of Discord.
func (s *Server) GuildOutage(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.dispatch(event{name: "GUILD_DELETE", guild: id, intent: intentGuilds,
		data: encode(jsonMap{"id": id, "unavailable": true})})
}

// DeleteChannel deletes a channel of a guild; calls on it get 10003 from then on.
func (s *Server) DeleteChannel(id string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.world.channels[id]
	if c == nil || c.guild == "" {
		return fmt.Errorf("discordtest: there is no channel %s", id)
	}
	delete(s.world.channels, id)
	if g := s.world.guilds[c.guild]; g != nil {
		g.Channels = slices.DeleteFunc(slices.Clone(g.Channels), func(o Channel) bool { return o.ID == id })
	}
	name := "CHANNEL_DELETE"
	if c.parent != "" {
		name = "THREAD_DELETE"
	}
	s.dispatch(event{name: name, guild: c.guild, intent: intentGuilds, data: encode(s.channelJSON(c))})
	return nil
}

// SetBotPermissions sets the bot's permissions in a channel: without PermView
// calls get 50001, without PermSend messages get 50013, and so on.
func (s *Server) SetBotPermissions(channelID string, permissions int64) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.world.channels[channelID]
	if c == nil || c.guild == "" {
		return fmt.Errorf("discordtest: there is no channel %s", channelID)
	}
	c.BotPermissions = permissions
	return nil
}

// CloseDMs makes messages to a person fail with code 50007 (closed, blocked) or
// 50278 (no server in common); 0 opens them again.
func (s *Server) CloseDMs(userID string, code int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.user(userID).closed = code
}

// DM is the id of the direct message channel with a person, made where needed.
func (s *Server) DM(userID string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.dm(userID)
}

func (s *Server) dm(userID string) string {
	if id, ok := s.world.dms[userID]; ok {
		return id
	}
	s.user(userID)
	id := s.newID()
	s.world.dms[userID] = id
	s.world.channels[id] = &channel{Channel: Channel{ID: id, Type: channelDM, BotPermissions: permDM | PermLeast}, recipient: userID}
	return id
}

// user finds a person, who comes to life when first named.
func (s *Server) user(id string) *user {
	u := s.world.users[id]
	if u == nil {
		u = &user{id: id, name: "rider-" + id}
		s.world.users[id] = u
	}
	return u
}

// member finds a person in a guild, nil where either is missing.
func (s *Server) member(guildID, userID string) *Member {
	g := s.world.guilds[guildID]
	if g == nil {
		return nil
	}
	for i := range g.Members {
		if g.Members[i].UserID == userID {
			return &g.Members[i]
		}
	}
	return nil
}

// mutual reports whether a person shares a server with the bot. People who were
// never in one use the bot by themselves.
func (s *Server) mutual(u *user) bool {
	if !u.joined {
		return true
	}
	for id := range s.world.guilds {
		if s.member(id, u.id) != nil {
			return true
		}
	}
	return false
}

func stamp(t time.Time) string { return t.UTC().Format(timestampLayout) }

func bits(p int64) string { return strconv.FormatInt(p, 10) }
