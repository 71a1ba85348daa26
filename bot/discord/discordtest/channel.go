package discordtest

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"time"
)

// messageJSON is a message as REST and events carry it.
func (s *Server) messageJSON(m *Message) jsonMap {
	out := jsonMap{"id": m.ID, "channel_id": m.ChannelID, "type": 0, "author": s.userJSON(m.AuthorID), "content": m.Content,
		"embeds": rawList(m.rawEmbeds), "components": rawList(m.rawComponents), "flags": m.Flags, "timestamp": stamp(m.Created),
		"edited_timestamp": nil, "tts": false, "pinned": false, "mention_everyone": false, "mentions": []any{}, "mention_roles": []any{}}
	if !m.Edited.IsZero() {
		out["edited_timestamp"] = stamp(m.Edited)
	}
	files := []jsonMap{}
	for _, a := range m.Attachments {
		url := s.URL + "/attachments/" + m.ChannelID + "/" + a.ID + "/" + a.Filename
		file := jsonMap{"id": a.ID, "filename": a.Filename, "size": a.Size, "url": url, "proxy_url": url, "content_type": a.ContentType}
		if a.Description != "" {
			file["description"] = a.Description
		}
		files = append(files, file)
	}
	out["attachments"] = files
	if m.Nonce != "" {
		out["nonce"] = m.Nonce
	}
	if m.call != nil {
		out["application_id"], out["webhook_id"] = s.AppID, s.AppID
		out["interaction_metadata"] = jsonMap{"id": m.call.ID, "type": m.call.Kind, "user": s.userJSON(m.call.At.User),
			"authorizing_integration_owners": owners(m.call.At)}
	}
	return out
}

func rawList(raw json.RawMessage) json.RawMessage {
	if len(raw) == 0 || string(raw) == "null" {
		return json.RawMessage("[]")
	}
	return raw
}

// postMessage is POST /channels/{id}/messages.
func (s *Server) postMessage(c *call) reply {
	ch, refused := s.channel(c, PermView|PermSend)
	if refused != nil {
		return *refused
	}
	if code := s.dmFault(ch); code != 0 {
		return failure(code)
	}
	var body struct {
		Nonce   any  `json:"nonce"`
		Enforce bool `json:"enforce_nonce"`
		Flags   int  `json:"flags"`
	}
	if len(c.body) > 0 && json.Unmarshal(c.body, &body) != nil {
		return formFault("_misc", "DICT_TYPE_CONVERT", "Only dictionaries may be used in a DictType")
	}
	nonce := ""
	if body.Nonce != nil {
		nonce = idText(body.Nonce)
	}
	switch {
	case len(nonce) > 25:
		return formFault("nonce", "BASE_TYPE_MAX_LENGTH", "Must be 25 or fewer in length.")
	case body.Flags&FlagEphemeral != 0:
		return formFault("flags", "BITFIELD_INVALID", "Only interactions may be answered ephemerally")
	}
	if use, known := s.messages.nonces[nonce]; known && body.Enforce && nonce != "" && time.Since(use.at) < nonceLife {
		if use.message.deleted {
			return failure(10008)
		}
		return ok(s.messageJSON(use.message))
	}
	m := &Message{ChannelID: ch.ID, AuthorID: s.BotID, Nonce: nonce}
	if refused := s.fill(m, c.body, c.files); refused != nil {
		return *refused
	}
	have := s.botPermissions(ch)
	if len(c.files) > 0 && have&PermAttach == 0 {
		return failure(50013)
	}
	if have&PermEmbed == 0 {
		m.Embeds, m.rawEmbeds = nil, nil // Discord drops them without a word
	}
	s.add(m)
	s.messages.sent[ch.ID] = append(s.messages.sent[ch.ID], m)
	if nonce != "" {
		s.messages.nonces[nonce] = nonceUse{message: m, at: m.Created}
	}
	s.announce(m, ch, nil)
	return ok(s.messageJSON(m))
}

// dmFault is why a direct message cannot be delivered, or 0.
func (s *Server) dmFault(ch *channel) int {
	if ch.guild != "" {
		return 0
	}
	u := s.user(ch.recipient)
	if u.closed == 0 && !s.mutual(u) {
		return 50278
	}
	return u.closed
}

// Sent are the messages that the bot posted into a channel of its own accord,
// not as answers, oldest first.
func (s *Server) Sent(channelID string) []Message {
	s.mu.Lock()
	defer s.mu.Unlock()
	return copies(s.messages.sent[channelID])
}

// WaitSent waits until the bot has posted n messages into a channel.
func (s *Server) WaitSent(ctx context.Context, channelID string, n int) ([]Message, error) {
	err := s.wait(ctx, &s.bell, func() bool { return len(s.messages.sent[channelID]) >= n })
	sent := s.Sent(channelID)
	if err != nil {
		return sent, fmt.Errorf("discordtest: %d of %d messages: %w", len(sent), n, err)
	}
	return sent, nil
}

func copies(all []*Message) []Message {
	out := make([]Message, len(all))
	for i, m := range all {
		out[i] = *m
	}
	return out
}

// At says who acts where. Guild "" is a direct message with the bot; Channel ""
// is the guild's first. Locale "" is en-GB.
type At struct {
	Guild, Channel, User string
	Locale               string
}

// place checks an At and fills in its channel.
func (s *Server) place(at At) (At, *channel, error) {
	def(&at.Locale, "en-GB")
	if at.User == "" {
		return at, nil, fmt.Errorf("discordtest: nobody acts: At.User is empty")
	}
	if at.Guild == "" {
		at.Channel = s.dm(at.User)
		return at, s.world.channels[at.Channel], nil
	}
	g := s.world.guilds[at.Guild]
	if g == nil {
		return at, nil, fmt.Errorf("discordtest: the bot is in no guild %s", at.Guild)
	}
	if s.member(at.Guild, at.User) == nil {
		return at, nil, fmt.Errorf("discordtest: %s is no member of %s", at.User, g.Name)
	}
	if at.Channel == "" && len(g.Channels) > 0 {
		at.Channel = g.Channels[0].ID
	}
	ch := s.world.channels[at.Channel]
	if ch == nil || ch.guild != at.Guild {
		return at, nil, fmt.Errorf("discordtest: %s has no channel %q", g.Name, at.Channel)
	}
	return at, ch, nil
}

// Say writes a message as a person does; mention puts the bot's name in front.
// The bot gets its text only in direct messages and where it is mentioned, unless
// it has the message content intent.
func (s *Server) Say(at At, text string, mention bool) (Message, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at, ch, err := s.place(at)
	if err != nil {
		return Message{}, err
	}
	m := &Message{ChannelID: ch.ID, AuthorID: at.User, Content: text}
	var mentions []jsonMap
	if mention {
		m.Content = "<@" + s.BotID + "> " + text
		mentions = append(mentions, s.userJSON(s.BotID))
	}
	s.add(m)
	if s.announce(m, ch, mentions) == 0 {
		return *m, ErrNoSession
	}
	return *m, nil
}

// announce sends MESSAGE_CREATE to the sessions that may see it and counts them.
func (s *Server) announce(m *Message, ch *channel, mentions []jsonMap) int {
	data := s.messageJSON(m)
	data["channel_type"] = ch.Type
	if mentions != nil {
		data["mentions"] = mentions
	}
	e := event{name: "MESSAGE_CREATE", guild: ch.guild, intent: intentDMs}
	if ch.guild != "" {
		e.intent = intentMessages
		data["guild_id"] = ch.guild
		if member := s.member(ch.guild, m.AuthorID); member != nil {
			data["member"] = s.memberJSON(member, false)
		}
	}
	e.data = encode(data)
	if ch.guild != "" && mentions == nil && m.AuthorID != s.BotID {
		data["content"], data["embeds"], data["components"], data["attachments"] = "", []any{}, []any{}, []any{}
		e.withheld = encode(data)
	}
	n := s.dispatch(e)
	if f := &s.gateway.faults; f.duplicates > 0 && m.AuthorID != s.BotID {
		f.duplicates--
		s.dispatch(e)
	}
	return n
}

// maxThreadName is the longest name of a thread, in characters (page "Channels Resource").
const maxThreadName = 100

// botPermissions are the bot's own in a channel. A thread has those of its
// channel, of which another one lets write there.
func (s *Server) botPermissions(ch *channel) int64 {
	parent := s.world.channels[ch.parent]
	switch {
	case ch.parent == "":
		return ch.BotPermissions
	case parent == nil:
		return 0
	case parent.BotPermissions&PermInThreads == 0:
		return parent.BotPermissions &^ PermSend
	}
	return parent.BotPermissions | PermSend
}

func (s *Server) threadJSON(c *channel) jsonMap {
	var last any
	if sent := s.messages.sent[c.ID]; len(sent) > 0 {
		last = sent[len(sent)-1].ID
	}
	return jsonMap{"id": c.ID, "type": c.Type, "guild_id": c.guild, "name": c.Name, "parent_id": c.parent, "owner_id": s.BotID,
		"last_message_id": last, "rate_limit_per_user": 0, "flags": 0, "message_count": 0, "member_count": len(c.members) + 1,
		"total_message_sent": 0, "thread_metadata": jsonMap{"archived": false, "auto_archive_duration": 10080,
			"archive_timestamp": stamp(time.Now()), "locked": false, "invitable": false}}
}

// postThread is POST /channels/{id}/threads. The double knows private ones only.
func (s *Server) postThread(c *call) reply {
	parent, refused := s.channel(c, PermView|PermThreads)
	if refused != nil {
		return *refused
	}
	var body struct {
		Name string `json:"name"`
		Type int    `json:"type"`
	}
	switch {
	case json.Unmarshal(c.body, &body) != nil || body.Name == "":
		return formFault("name", "BASE_TYPE_REQUIRED", "This field is required")
	case len([]rune(body.Name)) > maxThreadName:
		return formFault("name", "BASE_TYPE_BAD_LENGTH", "Must be between 1 and 100 in length.")
	case body.Type != channelThread || parent.guild == "" || parent.parent != "":
		return formFault("type", "BASE_TYPE_CHOICES", "Value is not one of the types that the double knows.")
	}
	thread := &channel{Channel: Channel{ID: s.newID(), Name: body.Name, Type: channelThread}, guild: parent.guild, parent: parent.ID}
	s.world.channels[thread.ID] = thread
	s.dispatch(event{name: "THREAD_CREATE", guild: thread.guild, intent: intentGuilds, data: encode(s.threadJSON(thread))})
	return reply{status: http.StatusCreated, body: s.threadJSON(thread)}
}

// getActiveThreads is GET /guilds/{id}/threads/active; the bot is in each thread of its own.
func (s *Server) getActiveThreads(c *call) reply {
	guild := c.r.PathValue("guild")
	if s.world.guilds[guild] == nil {
		return failure(10004)
	}
	threads, members := []jsonMap{}, []jsonMap{}
	for _, thread := range s.world.channels {
		if thread.guild == guild && thread.Type == channelThread && s.botPermissions(thread)&PermView != 0 {
			threads = append(threads, s.threadJSON(thread))
			members = append(members, jsonMap{"id": thread.ID, "user_id": s.BotID, "join_timestamp": stamp(time.Now()), "flags": 0})
		}
	}
	return ok(jsonMap{"threads": threads, "members": members, "has_more": false})
}

// putThreadMember is PUT /channels/{id}/thread-members/{user}.
func (s *Server) putThreadMember(c *call) reply {
	thread, refused := s.channel(c, PermView|PermSend)
	if refused != nil {
		return *refused
	}
	user := c.r.PathValue("user")
	switch {
	case thread.parent == "":
		return failure(50024)
	case s.world.users[user] == nil:
		return failure(10013)
	case s.member(thread.guild, user) == nil:
		return failure(10007)
	}
	if !slices.Contains(thread.members, user) {
		thread.members = append(thread.members, user)
	}
	return reply{status: http.StatusNoContent}
}

// Thread is a private thread of the bot's.
type Thread struct {
	ID, Name, Channel string
	Members           []string // ids, without the bot
}

// Threads are the threads in a channel, the oldest first.
func (s *Server) Threads(channelID string) []Thread {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Thread
	for id, c := range s.world.channels {
		if c.parent == channelID {
			out = append(out, Thread{ID: id, Name: c.Name, Channel: c.parent, Members: slices.Clone(c.members)})
		}
	}
	slices.SortFunc(out, func(a, b Thread) int { return compareIDs(a.ID, b.ID) })
	return out
}
