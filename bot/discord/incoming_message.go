package discord

import (
	"errors"
	"slices"
	"strings"
)

// Types of messages that people write.
// Source: https://discord.com/developers/docs/resources/message
const (
	messageDefault = 0
	messageReply   = 19
)

// message is something that was written where the bot can read it.
type message struct {
	ID, ChannelID, GuildID string // no guild in direct messages
	Content                string // empty in a guild where the bot is not mentioned
	Author                 userInfo
	Roles                  []string // ids
	Mentions               []string // ids of users
	WebhookID              string
	Type                   int
	System                 bool // written in Discord's own name
}

// UnmarshalJSON reads a MESSAGE_CREATE; its errors hold no text of the payload.
func (m *message) UnmarshalJSON(raw []byte) error {
	w, err := decodeEvent[struct {
		ID        string     `json:"id"`
		ChannelID string     `json:"channel_id"`
		GuildID   string     `json:"guild_id"`
		Content   string     `json:"content"`
		Author    wireUser   `json:"author"`
		Member    wireMember `json:"member"`
		Mentions  []wireUser `json:"mentions"`
		WebhookID string     `json:"webhook_id"`
		Type      int        `json:"type"`
	}](raw)
	if err != nil {
		return err
	}
	if !isID(w.ID) || !isID(w.ChannelID) || !isID(w.Author.ID) || w.GuildID != "" && !isID(w.GuildID) {
		return errors.New("message without id, channel or author")
	}
	*m = message{ID: w.ID, ChannelID: w.ChannelID, GuildID: w.GuildID, Content: w.Content, Author: w.Author.info(w.Member.Nick),
		Roles: w.Member.Roles, WebhookID: w.WebhookID, Type: w.Type, System: w.Author.System}
	for _, u := range w.Mentions {
		m.Mentions = append(m.Mentions, u.ID)
	}
	return nil
}

// name is what its author is called there.
func (m *message) name() string { return m.Author.shownName() }

// roles are the author's as a role option writes them.
func (m *message) roles() []string { return roleReferences(m.Roles) }

// fromPerson is false for bots, webhooks and what Discord itself writes, such as
// that somebody joined.
func (m *message) fromPerson() bool {
	return !m.Author.Bot && !m.System && m.WebhookID == "" && (m.Type == messageDefault || m.Type == messageReply)
}

// mentions reports whether a user is mentioned, or answered with a notification.
func (m *message) mentions(id string) bool { return slices.Contains(m.Mentions, id) }

// question is what was written besides calling the bot.
func (m *message) question(botID string) string {
	text := m.Content
	for _, mention := range []string{"<@" + botID + ">", "<@!" + botID + ">"} {
		text = strings.ReplaceAll(strings.ReplaceAll(text, mention+" ", ""), mention, "")
	}
	return strings.TrimSpace(strings.TrimLeft(text, " \t\r\n,:"))
}

// guildEvent is a GUILD_CREATE or GUILD_DELETE. A deleted guild that is only
// unavailable is coming back.
type guildEvent struct {
	ID          string `json:"id"`
	Name        string `json:"name"`
	Unavailable bool   `json:"unavailable"`
}

// channelEvent is a CHANNEL_DELETE.
type channelEvent struct {
	ID      string `json:"id"`
	GuildID string `json:"guild_id"`
}

// readyEvent is a READY. Shard is the connection's number and how many there
// are, both 0 where that is not told.
type readyEvent struct {
	Guilds []struct{ ID string } `json:"guilds"`
	Shard  [2]int                `json:"shard"`
}
