package discordtest

import (
	"encoding/json"
	"net/http"
	"slices"
	"strconv"
)

func ok(body any) reply { return reply{status: http.StatusOK, body: body} }

func (s *Server) getGateway(*call) reply { return ok(jsonMap{"url": s.wsURL() + gatewayPath}) }

func (s *Server) getGatewayBot(*call) reply {
	l := s.gateway.limit
	shards := max(1, s.opts.Shards, (len(s.world.guilds)+s.opts.GuildsPerShard-1)/s.opts.GuildsPerShard)
	return ok(jsonMap{"url": s.wsURL() + gatewayPath, "shards": shards, "session_start_limit": jsonMap{
		"total": l.Total, "remaining": l.Remaining, "reset_after": l.ResetAfter.Milliseconds(), "max_concurrency": l.MaxConcurrency}})
}

func (s *Server) getMe(*call) reply { return ok(s.selfJSON()) }

func (s *Server) getApplication(*call) reply {
	return ok(jsonMap{"id": s.AppID, "name": "musette", "icon": nil, "description": "", "bot_public": true,
		"bot_require_code_grant": false, "flags": s.flags(), "verify_key": "", "summary": "", "hook": true,
		"bot": s.userJSON(s.BotID), "integration_types_config": jsonMap{"0": jsonMap{}}})
}

// getGuilds pages by ?after and ?limit, at most 200.
func (s *Server) getGuilds(c *call) reply {
	limit := 200
	if n, err := strconv.Atoi(c.r.URL.Query().Get("limit")); err == nil {
		limit = min(max(n, 1), 200)
	}
	after := c.r.URL.Query().Get("after")
	out := []jsonMap{}
	for _, id := range s.guildIDs() {
		if len(out) < limit && compareIDs(id, after) > 0 {
			out = append(out, jsonMap{"id": id, "name": s.world.guilds[id].Name, "icon": nil, "banner": nil,
				"owner": false, "permissions": bits(PermLeast), "features": []string{}})
		}
	}
	return ok(out)
}

func (s *Server) getGuild(c *call) reply {
	g := s.world.guilds[c.r.PathValue("guild")]
	if g == nil {
		return failure(10004)
	}
	return ok(s.guildFields(g))
}

func (s *Server) getRoles(c *call) reply {
	g := s.world.guilds[c.r.PathValue("guild")]
	if g == nil {
		return failure(10004)
	}
	return ok(rolesJSON(g))
}

func (s *Server) getMember(c *call) reply {
	guild, id := c.r.PathValue("guild"), c.r.PathValue("user")
	if s.world.guilds[guild] == nil {
		return failure(10004)
	}
	if id == s.BotID {
		return ok(s.memberJSON(&Member{UserID: id}, true))
	}
	m := s.member(guild, id)
	switch {
	case m != nil:
		return ok(s.memberJSON(m, true))
	case s.world.users[id] == nil:
		return failure(10013)
	}
	return failure(10007)
}

func (s *Server) getChannel(c *call) reply {
	ch, refused := s.channel(c, PermView)
	if refused != nil {
		return *refused
	}
	return ok(s.channelJSON(ch))
}

// channel finds the channel of a call that the bot has the permissions for.
func (s *Server) channel(c *call, permissions int64) (*channel, *reply) {
	ch := s.world.channels[c.r.PathValue("channel")]
	if ch == nil {
		return nil, ptr(failure(10003))
	}
	have := s.botPermissions(ch)
	switch {
	case have&PermView == 0:
		return nil, ptr(failure(50001))
	case have&permissions != permissions:
		return nil, ptr(failure(50013))
	}
	return ch, nil
}

// openDM is idempotent: a person has one channel with the bot.
func (s *Server) openDM(c *call) reply {
	var body struct {
		Recipient string `json:"recipient_id"`
	}
	if json.Unmarshal(c.body, &body) != nil || body.Recipient == "" {
		return formFault("recipient_id", "BASE_TYPE_REQUIRED", "This field is required")
	}
	if s.world.users[body.Recipient] == nil || body.Recipient == s.BotID {
		return failure(50033)
	}
	return ok(s.channelJSON(s.world.channels[s.dm(body.Recipient)]))
}

func (s *Server) getMessages(c *call) reply {
	ch, refused := s.channel(c, PermView)
	if refused != nil {
		return *refused
	}
	limit := 50
	if n, err := strconv.Atoi(c.r.URL.Query().Get("limit")); err == nil {
		limit = min(max(n, 1), 100)
	}
	out := []jsonMap{}
	if s.botPermissions(ch)&PermHistory == 0 {
		return ok(out)
	}
	all := s.messages.inChannel[ch.ID]
	if after := c.r.URL.Query().Get("after"); after != "" {
		all = slices.DeleteFunc(slices.Clone(all), func(m *Message) bool { return compareIDs(m.ID, after) <= 0 })
		all = all[:min(len(all), limit)] // those that come next
	}
	for _, m := range slices.Backward(all) {
		if len(out) < limit {
			out = append(out, s.messageJSON(m))
		}
	}
	return ok(out)
}

func (s *Server) getMessage(c *call) reply {
	ch, refused := s.channel(c, PermView)
	if refused != nil {
		return *refused
	}
	m := s.messages.byID[c.r.PathValue("message")]
	if m == nil || m.ChannelID != ch.ID || m.Flags&FlagEphemeral != 0 {
		return failure(10008)
	}
	return ok(s.messageJSON(m))
}
