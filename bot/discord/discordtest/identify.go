package discordtest

import (
	"encoding/json"
	"time"
)

type identifyPayload struct {
	Token string `json:"token"`
	Identify
}

func (c *conn) identify(data json.RawMessage) {
	s := c.s
	var p identifyPayload
	if err := json.Unmarshal(data, &p); err != nil {
		c.close(closeDecode)
		return
	}
	if c.session != nil {
		c.close(closeAuthenticated)
		return
	}
	s.counters.Identifies++
	s.counters.LastIdentify = p.Identify
	s.bell.ring()
	if s.gateway.limit.Remaining--; s.gateway.limit.Remaining < 0 {
		s.gateway.limit.Remaining = 0
		s.overBudget()
		return
	}
	shard := [2]int{0, 1}
	if p.Shard != nil {
		shard = *p.Shard
	}
	s.shard(shard).Identifies++
	if code := s.identifyFault(p, shard); code != 0 {
		c.close(code)
		return
	}
	f := &s.gateway.faults
	if s.tooSoon(shard[0]) || f.identifyInvalid > 0 {
		s.shard(shard).Invalid++
		f.identifyInvalid = max(0, f.identifyInvalid-1)
		c.send(opInvalid, false)
		return
	}
	c.zlib = p.Compress
	s.begin(c, p, shard)
}

// overBudget ends all sessions, as Discord does when it resets the token of a bot that
// has used its session starts up.
func (s *Server) overBudget() {
	s.counters.OverBudget++
	for c := range s.gateway.conns {
		c.close(closeBadToken)
	}
	clear(s.gateway.sessions)
}

// tooSoon reports that another IDENTIFY with the same rate limit key came just now, and
// notes this one.
// Source: https://discord.com/developers/docs/events/gateway#sharding-max-concurrency
func (s *Server) tooSoon(shard int) bool {
	key := shard % max(1, s.gateway.limit.MaxConcurrency)
	last := s.gateway.last[key]
	s.gateway.last[key] = time.Now()
	return time.Since(last) < s.opts.IdentifyEvery
}

// identifyFault is the close code that an IDENTIFY earns, or 0.
func (s *Server) identifyFault(p identifyPayload, shard [2]int) int {
	f := &s.gateway.faults
	switch {
	case p.Token != s.Token && p.Token != "Bot "+s.Token:
		return closeBadToken
	case f.refuseIdentify > 0:
		f.refuseIdentify--
		return f.refuseCode
	case shard[1] < 1 || shard[0] < 0 || shard[0] >= shard[1]:
		return closeBadShard
	case s.guildsOf(shard) > s.opts.GuildsPerShard:
		return closeTooManyGuilds
	case p.Intents < 0 || p.Intents > intentsKnown:
		return closeBadIntents
	case p.Intents&(intentMembers|intentPresence|intentContent)&^s.opts.Privileged != 0:
		return closeNoSuchIntents
	}
	return 0
}

// guildsOf counts the servers of a shard.
func (s *Server) guildsOf(shard [2]int) (n int) {
	for id := range s.world.guilds {
		if shardOf(id, shard[1]) == shard[0] {
			n++
		}
	}
	return n
}

// begin opens a session: READY, then GUILD_CREATE for each server. Sessions of
// the same shard and kind that nobody is connected to are over.
func (s *Server) begin(c *conn, p identifyPayload, shard [2]int) {
	for id, old := range s.gateway.sessions {
		if old.conn == nil && old.shard == shard && old.intents == p.Intents {
			delete(s.gateway.sessions, id)
		}
	}
	ses := &session{id: "s" + s.newID(), intents: p.Intents, shard: shard}
	c.session = ses
	start := func() { s.ready(c, ses, p.Shard != nil) }
	if delay := s.gateway.faults.readyDelay; delay > 0 {
		s.after(delay, start)
		return
	}
	start()
}

func (s *Server) ready(c *conn, ses *session, sharded bool) {
	if c.ended || c.closing {
		return
	}
	guilds := []jsonMap{}
	var mine []string
	for _, id := range s.guildIDs() {
		if shardOf(id, ses.shard[1]) == ses.shard[0] {
			mine = append(mine, id)
			guilds = append(guilds, jsonMap{"id": id, "unavailable": true})
		}
	}
	version := 10
	if c.version == "9" {
		version = 9
	}
	ready := jsonMap{"v": version, "user": s.selfJSON(), "session_id": ses.id, "session_type": "normal",
		"resume_gateway_url": s.wsURL() + resumePath, "application": jsonMap{"id": s.AppID, "flags": s.flags()},
		"guilds": guilds, "private_channels": []any{}, "relationships": []any{}, "_trace": []string{"double"}}
	if sharded {
		ready["shard"] = ses.shard
	}
	ses.conn = c
	s.gateway.sessions[ses.id] = ses
	ses.push("READY", encode(ready), nil)
	s.counters.Ready++
	s.bell.ring()
	if ses.intents&intentGuilds == 0 {
		return
	}
	for _, id := range mine {
		ses.push("GUILD_CREATE", s.guildJSON(s.world.guilds[id]), nil)
	}
}

// flags of the application: limited grants of privileged intents.
func (s *Server) flags() int {
	flags := 0
	for intent, flag := range map[int]int{intentPresence: 1 << 13, intentMembers: 1 << 15, intentContent: 1 << 19} {
		if s.opts.Privileged&intent != 0 {
			flags |= flag
		}
	}
	return flags
}
