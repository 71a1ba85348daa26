package discord

import (
	"context"
	"encoding/json"
	"errors"
	"runtime/debug"
	"strings"
	"time"

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
	if m.GuildID != "" && a.isFirst(ctx, m.Author.ID) && a.push(a.firsts, job{Event: gateway.Event{Type: "first"}, rest: func(ctx context.Context) { a.respond(ctx, &m) }}) {
		return
	}
	a.respond(ctx, &m)
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
	began, ref := time.Now(), say.NewRef()
	err := a.talk(ctx, m, ref)
	if err != nil {
		a.Log.Error("message", "ref", ref, "direct", m.GuildID == "", "took", time.Since(began), "error", err)
		return
	}
	a.Log.Info("message", "ref", ref, "direct", m.GuildID == "", "took", time.Since(began))
}

func (a *App) talk(ctx context.Context, m *message, ref string) error {
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
