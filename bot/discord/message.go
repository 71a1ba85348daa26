package discord

import (
	"context"
	"encoding/json"
	"errors"
	"runtime/debug"
	"slices"
	"strings"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/bot/post"
	"musette/bot/say"
)

// onMessage answers direct messages, and mentions in a server: there with a
// pointer that tells nothing, and the answer as a direct message.
func (a *App) onMessage(ctx context.Context, raw json.RawMessage) {
	var m message
	if err := json.Unmarshal(raw, &m); err != nil {
		a.Log.Error("a message that cannot be read", "error", err)
		return
	}
	if !m.fromPerson() || m.Author.ID == a.me || m.GuildID != "" && !m.mentions(a.me) || !a.seen.first("m"+m.ID) {
		return
	}
	if m.GuildID == "" && !a.isOurs(ctx, &m) {
		return
	}
	if m.GuildID != "" && a.isFirst(ctx, m.Author.ID) && a.push(a.firsts, job{Event: gateway.Event{Type: "first"}, rest: func(ctx context.Context) { a.respond(ctx, &m) }}) {
		return
	}
	a.respond(ctx, &m)
}

// hear takes what a session of shard 0 brings that another process runs, too: what concerns no
// server comes there alone, and is for the process that knows the rider.
func (a *App) hear(e gateway.Event) {
	var where struct {
		GuildID string `json:"guild_id"`
	}
	if e.Type != "INTERACTION_CREATE" && e.Type != "MESSAGE_CREATE" || json.Unmarshal(e.Data, &where) != nil || where.GuildID != "" {
		return
	}
	a.take(e)
}

// Whose a direct message is, where several processes hear it.
type turn int

const (
	turnNever turn = iota
	turnNow        // it is this process's
	turnAfter      // it is unless another one has answered meanwhile
)

// turnOf says whether this process answers a person outside servers: at once where it is about
// a server of its own (guildID, "" where it is about none), or where it runs shard 0 and knows the
// rider; else if it knows the rider and nobody answers; else if it runs shard 0 and still nobody
// does. It waits for that.
func (a *App) turnOf(ctx context.Context, userID, guildID string) turn {
	if a.Share.Whole() {
		return turnNow
	}
	if guildID != "" {
		if a.Share.Has(guildID) {
			return turnNow
		}
		return turnNever
	}
	first := slices.Contains(a.Share.Own, 0)
	clubs, err := a.DB.ClubsOf(ctx, personKey(userID))
	waits := a.Pace.Turn
	switch known := err == nil && len(clubs) > 0; {
	case first && known:
		return turnNow
	case first:
		waits *= 2
	case !known:
		return turnNever
	}
	there := false
	stand(ctx, func() { there = pause(ctx, waits) })
	if !there {
		return turnNever
	}
	return turnAfter
}

// isOurs reports whether this process answers a direct message.
func (a *App) isOurs(ctx context.Context, m *message) bool {
	whose := a.turnOf(ctx, m.Author.ID, "")
	if whose != turnAfter {
		return whose == turnNow
	}
	since, err := a.api.Messages(ctx, m.ChannelID, m.ID, lookBack)
	if err != nil {
		a.Log.Warn("whether another process has answered is not known", "error", err)
	}
	return !slices.ContainsFunc(since, func(s api.SeenMessage) bool { return s.AuthorID == a.me })
}

// isFirst reports whether a direct message to the person needs a new channel.
func (a *App) isFirst(ctx context.Context, userID string) bool {
	person, err := a.DB.FindPerson(ctx, personKey(userID))
	return err == nil && person.Channel == ""
}

// respond answers a message and logs that.
func (a *App) respond(ctx context.Context, m *message) {
	ctx, cancel := context.WithTimeout(ctx, wholeAnswer)
	defer cancel()
	began, ref := a.Stopwatch(), say.NewRef()
	err := a.talk(ctx, m, ref)
	if err != nil {
		a.Log.Error("message", "ref", ref, "direct", m.GuildID == "", "took", a.Stopwatch().Sub(began), "error", err)
		return
	}
	a.Log.Info("message", "ref", ref, "direct", m.GuildID == "", "took", a.Stopwatch().Sub(began))
}

func (a *App) talk(ctx context.Context, m *message, ref string) error {
	a.noteHere(ctx, m.GuildID, m.Author.ID)
	messages, after := a.answerTo(ctx, m, ref)
	var err error
	if m.GuildID == "" {
		err = a.send(ctx, m.ChannelID, m.ID, messages)
	} else {
		err = a.writeTo(ctx, m.Author.ID, m.ID, messages)
	}
	after(ctx, err == nil)
	if m.GuildID != "" {
		err = a.point(ctx, m, err)
	}
	return err
}

// point tells in the channel where the answer is, and nothing of it. A channel
// in which the bot may not write stays quiet.
func (a *App) point(ctx context.Context, m *message, failed error) error {
	line := say.Linef("I answer in direct messages: look there.")
	switch {
	case errors.Is(failed, post.ErrRefused):
		line = say.Linef("I cannot write to you directly: allow direct messages from this server, or ask with a slash command, whose answer only you see: /ride, /plan show, /help")
	case failed != nil:
		line = say.Linef("My answer did not get through. Try again in a while, or with a slash command, whose answer only you see: /ride, /plan show, /help")
	}
	lines := []say.Line{line, desk.Emergency()} // the same for all, so that it tells nothing
	err := a.send(ctx, m.ChannelID, m.ID+"/pointer", a.renderer().messages(say.Reply{Lines: lines}, nil))
	if channelFault(err) != "" {
		err = nil
	}
	if errors.Is(failed, post.ErrRefused) {
		failed = nil // it was told
	}
	return errors.Join(failed, err)
}

// answerTo words the answer to a message. after is to be called once it is out,
// or could not be sent. What breaks becomes a kind answer.
func (a *App) answerTo(ctx context.Context, m *message, ref string) (out []api.Message, after func(ctx context.Context, sent bool)) {
	after = func(context.Context, bool) {}
	defer func() {
		if p := recover(); p != nil {
			a.Log.Error("an answer broke", "ref", ref, "panic", desk.PanicText(p), "stack", string(debug.Stack()))
			out = broken(ref).messages
		}
	}()
	from := &asked{guildID: m.GuildID, userID: m.Author.ID, id: m.ID}
	text := m.question(a.me)
	req := desk.Request{Text: text}
	if strings.HasPrefix(text, "/") {
		req, _ = command.ParseLine(bot.Commands(), text) // the bot answers a fault, after words of danger
	}
	req.Athlete, req.AthleteKey, req.Roles = m.name(), personKey(m.Author.ID), m.roles()
	req.Ref, req.Now, req.Ask = ref, a.Now(), true
	instead, err := a.place(ctx, &req, from)
	switch {
	case err != nil:
		return a.written(ctx, a.Bot.Fail(ctx, "message "+ref, err), from), after
	case instead != nil:
		return instead, after
	}
	reply, after := a.put(ctx, req, from)
	return a.written(ctx, reply, from), after
}

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
