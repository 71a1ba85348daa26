package discordtest_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"musette/bot/discord/discordtest"
)

func TestSessionLife(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	c := login(t, s, 1)
	c.send(1, c.seq)
	c.want(11, "")
	if _, err := s.Say(discordtest.At{User: g.UserID("Ines")}, "hello", false); err != nil {
		t.Fatal(err)
	}
	c.want(0, "MESSAGE_CREATE")
	s.Drop()
	if _, err := c.read(); err == nil || websocket.IsCloseError(err, 1000, 1001) {
		t.Fatalf("after Drop: %v", err)
	}
	if _, err := s.Say(discordtest.At{User: g.UserID("Tomas")}, "missed", false); err != nil {
		t.Fatal(err)
	}
	r := c.resumed(s)
	if data := r.want(0, "MESSAGE_CREATE"); !strings.Contains(string(data), "missed") {
		t.Errorf("replayed %s", data)
	}
	r.want(0, "RESUMED")
	n := s.Counters()
	if n.Connections != 2 || n.ResumeURL != 1 || n.Identifies != 1 || n.Resumes != 1 || n.Resumed != 1 || n.LastIdentify.Intents != intents {
		t.Errorf("counters: %+v", n)
	}
}

func TestResumedIsNotReplayed(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := login(t, s, 0)
	first := c.seq
	for range 2 { // RESUMED has a sequence, too, but belongs to its connection
		s.Drop()
		c.seq = first
		c.resumed(s).want(0, "RESUMED")
	}
}

func TestClientCloseEndsSession(t *testing.T) {
	for code, resumable := range map[int]bool{1000: false, 1001: false, 4000: true} {
		s := start(t, discordtest.Options{})
		c := login(t, s, 0)
		if err := c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""), time.Now().Add(patience)); err != nil {
			t.Fatal(err)
		}
		if err := s.WaitDisconnected(soon(t)); err != nil {
			t.Fatal(err)
		}
		r := c.resumed(s)
		if resumable {
			r.want(0, "RESUMED")
		} else if data := r.want(9, ""); string(data) != "false" {
			t.Errorf("after close %d: op 9 %s", code, data)
		}
	}
}

func TestRefusedClients(t *testing.T) {
	for name, tc := range map[string]struct {
		op   int
		data func(*discordtest.Server) any
		code int
	}{
		"wrong token":       {2, with("token", "wrong"), 4004},
		"not identified":    {3, func(*discordtest.Server) any { return obj{} }, 4003},
		"unknown opcode":    {99, func(*discordtest.Server) any { return obj{} }, 4001},
		"not an IDENTIFY":   {2, func(*discordtest.Server) any { return "x" }, 4002},
		"too large":         {2, with("x", strings.Repeat("x", 5000)), 4002},
		"bad shard":         {2, with("shard", []int{2, 2}), 4010},
		"unknown intents":   {2, with("intents", 1<<30), 4013},
		"privileged intent": {2, with("intents", 1<<15), 4014},
		"resume, bad token": {6, func(*discordtest.Server) any { return obj{"token": "no", "session_id": "x", "seq": 0} }, 4004},
	} {
		t.Run(name, func(t *testing.T) {
			s := start(t, discordtest.Options{})
			c := dial(t, s, "/gateway")
			c.want(10, "")
			c.send(tc.op, tc.data(s))
			c.wantClose(tc.code)
		})
	}
}

func with(key string, value any) func(*discordtest.Server) any {
	return func(s *discordtest.Server) any {
		p := identify(s)
		p[key] = value
		return p
	}
}

func TestGatewayFaultsBeforeReady(t *testing.T) {
	s := start(t, discordtest.Options{})
	s.RefuseUpgrade(503, 1)
	if _, resp, err := websocket.DefaultDialer.Dial("ws"+s.URL[4:]+"/gateway", nil); err == nil || resp.StatusCode != 503 {
		t.Fatalf("upgrade: %v", err)
	}
	s.NoHello(1)
	mute := dial(t, s, "/gateway")
	mute.send(1, nil)
	mute.want(11, "") // the answer to the heartbeat is the first frame
	s.IdentifyInvalid(1)
	c := dial(t, s, "/gateway")
	c.want(10, "")
	c.send(2, identify(s))
	c.want(9, "")
	s.DelayReady(time.Millisecond)
	c.send(2, identify(s))
	c.ready(0)
	s.RefuseIdentify(4013, 1)
	d := dial(t, s, "/gateway")
	d.want(10, "")
	d.send(2, identify(s))
	d.wantClose(4013)
	if n := s.Counters(); n.Refused != 1 || n.Identifies != 3 || n.Ready != 1 {
		t.Errorf("counters: %+v", n)
	}
}

func TestResumeFaults(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := login(t, s, 0)
	s.Drop()
	s.ResumeReconnect(1)
	c.resumed(s).want(7, "")
	s.ResumeInvalid(1, true)
	if data := c.resumed(s).want(9, ""); string(data) != "true" {
		t.Errorf("op 9 %s", data)
	}
	r := c.resumed(s)
	r.want(0, "RESUMED")
	s.Drop()
	s.ResumeInvalid(1, false)
	if data := r.resumed(s).want(9, ""); string(data) != "false" {
		t.Errorf("op 9 %s", data)
	}
	last := r.resumed(s)
	last.want(9, "") // the session is gone for good
	last.send(2, identify(s))
	last.ready(0)
}

func TestOrdersFromDiscord(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := login(t, s, 0)
	s.RequestHeartbeat()
	c.want(1, "")
	s.Reconnect()
	c.want(7, "")
	s.HoldAcks(true)
	c.send(1, c.seq)
	if err := s.WaitCounters(soon(t), func(n discordtest.Counters) bool { return n.Heartbeats == 1 }); err != nil {
		t.Fatal(err)
	}
	if err := s.Dispatch("SOMETHING_NEW", obj{"x": 1}); err != nil {
		t.Fatal(err)
	}
	c.want(0, "SOMETHING_NEW") // and no op 11 before it
	s.HoldAcks(false)
	s.InvalidateSessions()
	c.want(9, "")
	c.resumed(s).want(9, "")
	c.send(2, identify(s))
	c.ready(0)
	s.CloseWith(4009)
	c.wantClose(4009)
	c.resumed(s).want(9, "")
}

func TestSilence(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := login(t, s, 0)
	s.Silence()
	if err := s.Dispatch("SOMETHING", obj{}); err != nil {
		t.Fatal(err)
	}
	c.send(1, c.seq)
	r := c.resumed(s) // a new connection is heard, and hears what was missed
	r.want(0, "SOMETHING")
	r.want(0, "RESUMED")
	if err := c.ws.SetReadDeadline(time.Now().Add(50 * time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	if _, data, err := c.ws.ReadMessage(); err == nil || websocket.IsUnexpectedCloseError(err) {
		t.Errorf("the silent connection said %q, %v", data, err)
	}
}

func TestMissingHeartbeats(t *testing.T) {
	s := start(t, discordtest.Options{HeartbeatInterval: 50 * time.Millisecond, RequireHeartbeats: true})
	c := login(t, s, 0)
	c.wantClose(4009)
}

func TestIdentifyPaceAndBudget(t *testing.T) {
	s := start(t, discordtest.Options{IdentifyEvery: time.Hour})
	s.SetSessionStartLimit(discordtest.SessionStartLimit{Total: 1000, Remaining: 4, ResetAfter: time.Hour, MaxConcurrency: 2})
	first := begin(t, s, 0, 4)
	first.want(0, "READY")
	begin(t, s, 1, 4).want(0, "READY") // another key
	begin(t, s, 2, 4).want(9, "")      // that of shard 0
	begin(t, s, 3, 4).want(9, "")
	if n := s.Shard(2, 4); n != (discordtest.ShardCounters{Identifies: 1, Invalid: 1}) {
		t.Errorf("shard 2: %+v", n)
	}
	begin(t, s, 0, 4).wantClose(4004) // the token is reset, for all
	first.wantClose(4004)
	if n := s.Counters(); n.OverBudget != 1 {
		t.Errorf("counters: %+v", n)
	}
	var info struct {
		Limit struct {
			Remaining  int   `json:"remaining"`
			ResetAfter int64 `json:"reset_after"`
		} `json:"session_start_limit"`
	}
	if err := json.Unmarshal(rest(t, s, "GET", "/gateway/bot", nil).body, &info); err != nil {
		t.Fatal(err)
	}
	if info.Limit.Remaining != 0 || info.Limit.ResetAfter != time.Hour.Milliseconds() {
		t.Errorf("limit: %+v", info)
	}
}

// begin says IDENTIFY for a shard.
func begin(t *testing.T, s *discordtest.Server, shard ...int) *gw {
	t.Helper()
	c := dial(t, s, "/gateway")
	c.want(10, "")
	p := identify(s)
	p["shard"] = shard
	c.send(2, p)
	return c
}

// TestRefusedShards has shards that Discord refuses.
func TestRefusedShards(t *testing.T) {
	s := start(t, discordtest.Options{GuildsPerShard: 2})
	for range 5 {
		s.AddGuild(discordtest.Guild{Name: "Club"})
	}
	for _, shard := range [][]int{{3, 3}, {-1, 3}, {0, 0}, {0}} {
		begin(t, s, shard...).wantClose(4010)
	}
	begin(t, s, 0, 1).wantClose(4011)
	var info struct {
		Shards int `json:"shards"`
	}
	if err := json.Unmarshal(rest(t, s, "GET", "/gateway/bot", nil).body, &info); err != nil || info.Shards != 3 {
		t.Errorf("%+v, %v", info, err)
	}
}

func TestCompressedPayloads(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := dial(t, s, "/gateway")
	c.want(10, "")
	p := identify(s)
	p["compress"], p["shard"] = true, []int{0, 1}
	c.send(2, p)
	if err := c.ws.SetReadDeadline(time.Now().Add(patience)); err != nil {
		t.Fatal(err)
	}
	kind, _, err := c.ws.ReadMessage()
	if err != nil || kind != websocket.BinaryMessage {
		t.Fatalf("READY came as type %d, %v", kind, err)
	}
	if err := s.Dispatch("SOMETHING", obj{"x": 1}); err != nil {
		t.Fatal(err)
	}
	c.want(0, "SOMETHING")
}

func TestShards(t *testing.T) {
	s := start(t, discordtest.Options{})
	for _, id := range []string{"4194304", "8388608"} { // 1<<22 and 2<<22
		s.AddGuild(discordtest.Guild{ID: id, Name: "Club " + id, Channels: []discordtest.Channel{{Name: "races"}}, Members: []discordtest.Member{{UserID: "7" + id}}})
	}
	var shards [2]*gw
	for n := range shards {
		c := dial(t, s, "/gateway")
		c.want(10, "")
		p := identify(s)
		p["shard"] = []int{n, 2}
		c.send(2, p)
		c.ready(1)
		shards[n] = c
	}
	for _, at := range []discordtest.At{{Guild: "4194304", User: "74194304"}, {User: "74194304"}} {
		if _, err := s.Say(at, "hello", false); err != nil {
			t.Fatal(err)
		}
	}
	if data := shards[1].want(0, "MESSAGE_CREATE"); !strings.Contains(string(data), `"guild_id":"4194304"`) {
		t.Errorf("shard 1 got %s", data)
	}
	if data := shards[0].want(0, "MESSAGE_CREATE"); strings.Contains(string(data), "guild_id") {
		t.Errorf("shard 0 got %s", data)
	}
}

func TestGuildEvents(t *testing.T) {
	s := start(t, discordtest.Options{})
	c := login(t, s, 0)
	g := wheelers(s)
	c.want(0, "GUILD_CREATE")
	if err := s.DeleteChannel(g.ChannelID("rides")); err != nil {
		t.Fatal(err)
	}
	c.want(0, "CHANNEL_DELETE")
	s.GuildOutage(g.ID)
	if data := c.want(0, "GUILD_DELETE"); !strings.Contains(string(data), `"unavailable":true`) {
		t.Errorf("outage: %s", data)
	}
	s.RemoveGuild(g.ID)
	if data := c.want(0, "GUILD_DELETE"); strings.Contains(string(data), "unavailable") {
		t.Errorf("removal: %s", data)
	}
	if got := rest(t, s, "GET", "/guilds/"+g.ID, nil).code(); got != 10004 {
		t.Errorf("removed guild: code %d", got)
	}
}
