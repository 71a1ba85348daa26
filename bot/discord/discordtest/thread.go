package discordtest

import (
	"encoding/json"
	"net/http"
	"slices"
	"time"
)

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
	return jsonMap{"id": c.ID, "type": c.Type, "guild_id": c.guild, "name": c.Name, "parent_id": c.parent, "owner_id": s.BotID,
		"last_message_id": nil, "rate_limit_per_user": 0, "flags": 0, "message_count": 0, "member_count": len(c.members) + 1,
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
	case len([]rune(body.Name)) > limitThreadName:
		return formFault("name", "BASE_TYPE_BAD_LENGTH", "Must be between 1 and 100 in length.")
	case body.Type != channelThread || parent.guild == "" || parent.parent != "":
		return formFault("type", "BASE_TYPE_CHOICES", "Value is not one of the types that the double knows.")
	}
	thread := &channel{Channel: Channel{ID: s.newID(), Name: body.Name, Type: channelThread}, guild: parent.guild, parent: parent.ID}
	s.world.channels[thread.ID] = thread
	s.dispatch(event{name: "THREAD_CREATE", guild: thread.guild, intent: intentGuilds, data: encode(s.threadJSON(thread))})
	return reply{status: http.StatusCreated, body: s.threadJSON(thread)}
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
