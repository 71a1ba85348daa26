package discordtest

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

type jsonMap map[string]any

// encode writes what the double made itself, which always can be written.
func encode(v any) json.RawMessage {
	raw, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("discordtest: %v", err))
	}
	return raw
}

func (s *Server) userJSON(id string) jsonMap {
	u := s.user(id)
	out := jsonMap{"id": u.id, "username": u.name, "global_name": nil, "discriminator": "0", "avatar": nil, "public_flags": 0}
	if u.bot {
		out["bot"] = true
	}
	return out
}

func (s *Server) selfJSON() jsonMap {
	out := s.userJSON(s.BotID)
	out["verified"], out["mfa_enabled"], out["email"], out["flags"] = true, true, nil, 0
	return out
}

// memberJSON is a member without permissions, which only interactions carry.
func (s *Server) memberJSON(m *Member, withUser bool) jsonMap {
	roles := m.Roles
	if roles == nil {
		roles = []string{}
	}
	out := jsonMap{"roles": roles, "nick": nil, "avatar": nil, "joined_at": stamp(time.Unix(1700000000, 0)),
		"deaf": false, "mute": false, "flags": 0, "pending": false, "premium_since": nil, "communication_disabled_until": nil}
	if m.Nick != "" {
		out["nick"] = m.Nick
	}
	if withUser {
		out["user"] = s.userJSON(m.UserID)
	}
	return out
}

func (s *Server) channelJSON(c *channel) jsonMap {
	if c.guild == "" {
		return jsonMap{"id": c.ID, "type": channelDM, "last_message_id": nil, "flags": 0,
			"recipients": []jsonMap{s.userJSON(c.recipient)}}
	}
	if c.parent != "" {
		return s.threadJSON(c)
	}
	overwrites := []jsonMap{}
	if c.Private {
		overwrites = append(overwrites, jsonMap{"id": c.guild, "type": 0, "allow": "0", "deny": bits(PermView)})
	}
	return jsonMap{"id": c.ID, "type": c.Type, "guild_id": c.guild, "name": c.Name, "position": 0, "topic": nil,
		"nsfw": false, "parent_id": nil, "last_message_id": nil, "rate_limit_per_user": 0, "flags": 0,
		"permission_overwrites": overwrites}
}

func roleJSON(r Role, position int) jsonMap {
	return jsonMap{"id": r.ID, "name": r.Name, "color": 0, "hoist": false, "icon": nil, "unicode_emoji": nil,
		"position": position, "permissions": bits(r.Permissions), "managed": false, "mentionable": false, "flags": 0}
}

// rolesJSON are all roles of a guild; @everyone has the guild's own id.
func rolesJSON(g *Guild) []jsonMap {
	out := []jsonMap{roleJSON(Role{ID: g.ID, Name: "@everyone", Permissions: PermLeast}, 0)}
	for i, r := range g.Roles {
		out = append(out, roleJSON(r, i+1))
	}
	return out
}

func (s *Server) guildFields(g *Guild) jsonMap {
	owner := s.BotID
	if len(g.Members) > 0 {
		owner = g.Members[0].UserID
	}
	return jsonMap{"id": g.ID, "name": g.Name, "icon": nil, "owner_id": owner, "roles": rolesJSON(g), "emojis": []any{},
		"stickers": []any{}, "features": []string{}, "preferred_locale": "en-GB", "verification_level": 0,
		"default_message_notifications": 1, "explicit_content_filter": 0, "mfa_level": 0, "nsfw_level": 0,
		"premium_tier": 0, "afk_timeout": 300, "afk_channel_id": nil, "system_channel_id": nil, "system_channel_flags": 0,
		"rules_channel_id": nil, "description": nil, "vanity_url_code": nil, "premium_progress_bar_enabled": false}
}

// guildJSON is the payload of GUILD_CREATE.
func (s *Server) guildJSON(g *Guild) json.RawMessage {
	out := s.guildFields(g)
	channels := []jsonMap{}
	for _, c := range g.Channels {
		channels = append(channels, s.channelJSON(&channel{Channel: c, guild: g.ID}))
	}
	out["channels"], out["members"] = channels, []jsonMap{s.memberJSON(&Member{UserID: s.BotID}, true)}
	out["member_count"], out["large"], out["unavailable"] = len(g.Members)+1, false, false
	out["joined_at"] = stamp(time.Unix(1700000000, 0))
	for _, empty := range []string{"threads", "voice_states", "presences", "stage_instances", "guild_scheduled_events", "soundboard_sounds"} {
		out[empty] = []any{}
	}
	return encode(out)
}

// guildIDs are the ids of the bot's servers, oldest first.
func (s *Server) guildIDs() []string {
	ids := make([]string, 0, len(s.world.guilds))
	for id := range s.world.guilds {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, compareIDs)
	return ids
}

// compareIDs orders snowflakes by age: shorter ones are older.
func compareIDs(a, b string) int {
	if len(a) != len(b) {
		return len(a) - len(b)
	}
	if a < b {
		return -1
	}
	if a > b {
		return 1
	}
	return 0
}
