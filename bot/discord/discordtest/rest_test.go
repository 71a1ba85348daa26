package discordtest_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

func TestReads(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	ines := g.UserID("Ines")
	for path, want := range map[string]string{
		"/gateway":                             "/gateway",
		"/gateway/bot":                         `"max_concurrency":1`,
		"/users/@me":                           s.BotID,
		"/applications/@me":                    s.AppID,
		"/users/@me/guilds":                    g.ID,
		"/guilds/" + g.ID:                      "Marrow Vale Wheelers",
		"/guilds/" + g.ID + "/roles":           "Coach",
		"/guilds/" + g.ID + "/members/" + ines: "Ines K",
		"/channels/" + g.ChannelID("races"):    `"name":"races"`,
		"/channels/" + s.DM(ines):              ines,
	} {
		a := rest(t, s, "GET", path, nil)
		if a.status != 200 || !strings.Contains(string(a.body), want) || a.header.Get("X-RateLimit-Bucket") == "" {
			t.Errorf("GET %s: %d %s", path, a.status, a.body)
		}
	}
}

func TestGuildPages(t *testing.T) {
	s := start(t, discordtest.Options{})
	for range 3 {
		s.AddGuild(discordtest.Guild{Name: "Club"})
	}
	var first, second []struct {
		ID string `json:"id"`
	}
	if err := json.Unmarshal(rest(t, s, "GET", "/users/@me/guilds?limit=2", nil).body, &first); err != nil || len(first) != 2 {
		t.Fatalf("first page: %v, %v", first, err)
	}
	if err := json.Unmarshal(rest(t, s, "GET", "/users/@me/guilds?limit=2&after="+first[1].ID, nil).body, &second); err != nil || len(second) != 1 {
		t.Fatalf("second page: %v, %v", second, err)
	}
}

func TestRefusals(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	ines, races := g.UserID("Ines"), g.ChannelID("races")
	s.CloseDMs(g.UserID("Tomas"), 50007)
	gone := s.AddGuild(discordtest.Guild{Name: "Gone", Members: []discordtest.Member{{Name: "Lost"}}})
	s.RemoveGuild(gone.ID)
	if err := s.DeleteChannel(g.ChannelID("rides")); err != nil {
		t.Fatal(err)
	}
	hello := obj{"content": "hello"}
	for name, tc := range map[string]struct {
		method, path string
		body         any
		status, code int
	}{
		"unknown path":     {"GET", "/nothing", nil, 404, 0},
		"unknown user":     {"GET", "/guilds/" + g.ID + "/members/1", nil, 404, 10013},
		"no member":        {"GET", "/guilds/" + g.ID + "/members/" + gone.UserID("Lost"), nil, 404, 10007},
		"unknown guild":    {"GET", "/guilds/1", nil, 404, 10004},
		"unknown message":  {"GET", "/channels/" + races + "/messages/1", nil, 404, 10008},
		"deleted channel":  {"POST", "/channels/" + g.ChannelID("rides") + "/messages", hello, 404, 10003},
		"closed DMs":       {"POST", "/channels/" + s.DM(g.UserID("Tomas")) + "/messages", hello, 403, 50007},
		"no mutual guild":  {"POST", "/channels/" + s.DM(gone.UserID("Lost")) + "/messages", hello, 403, 50278},
		"empty":            {"POST", "/channels/" + races + "/messages", obj{}, 400, 50006},
		"long nonce":       {"POST", "/channels/" + races + "/messages", obj{"content": "x", "nonce": strings.Repeat("n", 26)}, 400, 50035},
		"ephemeral":        {"POST", "/channels/" + races + "/messages", obj{"content": "x", "flags": 64}, 400, 50035},
		"too long":         {"POST", "/channels/" + races + "/messages", obj{"content": strings.Repeat("é", 2001)}, 400, 50035},
		"wrong type":       {"POST", "/channels/" + races + "/messages", obj{"content": 5}, 400, 50035},
		"nobody":           {"POST", "/users/@me/channels", obj{"recipient_id": "1"}, 400, 50033},
		"no recipient":     {"POST", "/users/@me/channels", obj{}, 400, 50035},
		"late callback":    {"POST", "/interactions/1/none/callback", obj{"type": 5}, 404, 10062},
		"webhook token":    {"POST", "/webhooks/" + s.AppID + "/none", hello, 401, 50027},
		"another's app":    {"PATCH", "/webhooks/" + ines + "/none/messages/@original", hello, 404, 10015},
		"commands of none": {"PUT", "/applications/1/commands", []any{}, 403, 50001},
	} {
		t.Run(name, func(t *testing.T) {
			if a := rest(t, s, tc.method, tc.path, tc.body); a.status != tc.status || a.code() != tc.code {
				t.Errorf("got %d %s, want %d code %d", a.status, a.body, tc.status, tc.code)
			}
		})
	}
}

func TestToken(t *testing.T) {
	s := start(t, discordtest.Options{})
	for _, token := range []string{"", "wrong"} {
		a, err := do(s, "GET", "/users/@me", "", nil, token)
		if err != nil || a.status != 401 {
			t.Errorf("token %q: %d %s, %v", token, a.status, a.body, err)
		}
	}
	if a, err := do(s, "POST", "/channels/1/messages", "application/json", strings.NewReader("{"), s.Token); err != nil || a.code() != 50109 {
		t.Errorf("broken JSON: %s, %v", a.body, err)
	}
	if a, err := do(s, "POST", "/channels/1/messages", "text/plain", strings.NewReader("{}"), s.Token); err != nil || a.code() != 50035 {
		t.Errorf("plain text: %s, %v", a.body, err)
	}
}

func TestPermissions(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	races := g.ChannelID("races")
	for _, tc := range []struct {
		permissions int64
		code        int
	}{{0, 50001}, {discordtest.PermView, 50013}, {discordtest.PermView | discordtest.PermSend, 0}} {
		if err := s.SetBotPermissions(races, tc.permissions); err != nil {
			t.Fatal(err)
		}
		if a := rest(t, s, "POST", "/channels/"+races+"/messages", obj{"content": "x"}); a.code() != tc.code {
			t.Errorf("with %d: %s", tc.permissions, a.body)
		}
	}
	if a := upload(t, s, "POST", "/channels/"+races+"/messages", obj{"content": "x"}, "plan.ics", []byte("x")); a.code() != 50013 {
		t.Errorf("file without permission: %s", a.body)
	}
	if rest(t, s, "POST", "/channels/"+races+"/messages", obj{"content": "x", "embeds": []obj{{"title": "lost"}}}); len(s.Sent(races)[1].Embeds) != 0 {
		t.Error("the embed was kept without the permission")
	}
}

func TestMessagesAndNonce(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	ines := g.UserID("Ines")
	dm := rest(t, s, "POST", "/users/@me/channels", obj{"recipient_id": ines}).text("id")
	if again := rest(t, s, "POST", "/users/@me/channels", obj{"recipient_id": ines}).text("id"); dm == "" || again != dm || dm != s.DM(ines) {
		t.Fatalf("channels %q, %q", dm, again)
	}
	path := "/channels/" + dm + "/messages"
	body := obj{"content": "due", "nonce": "n1", "enforce_nonce": true, "attachments": []obj{{"id": 0, "filename": "plan.png", "description": "the plan"}}}
	first := upload(t, s, "POST", path, body, "plan.png", []byte("picture"))
	second := upload(t, s, "POST", path, body, "plan.png", []byte("picture"))
	if first.status != 200 || first.text("id") != second.text("id") {
		t.Fatalf("first %d %s, second %s", first.status, first.body, second.body)
	}
	rest(t, s, "POST", path, obj{"content": "other", "nonce": "n1"}) // not enforced
	sent, err := s.WaitSent(soon(t), dm, 2)
	if err != nil || len(sent) != 2 {
		t.Fatalf("sent %d, %v", len(sent), err)
	}
	if a := sent[0].Attachments; len(a) != 1 || a[0].Description != "the plan" || string(sent[0].Files[0].Data) != "picture" {
		t.Errorf("attachments %+v", a)
	}
	if a := rest(t, s, "GET", path+"/"+first.text("id"), nil); a.text("content") != "due" {
		t.Errorf("read back: %s", a.body)
	}
	if a := rest(t, s, "GET", path+"?limit=1", nil); !strings.Contains(string(a.body), "other") || strings.Contains(string(a.body), "due") {
		t.Errorf("newest: %s", a.body)
	}
	last := s.Requests()[2]
	if last.Path != path || last.Method != "POST" || len(last.Files) != 1 || last.Status != 200 || !json.Valid(last.Body) {
		t.Errorf("recorded %+v", last)
	}
}

func TestRestFaults(t *testing.T) {
	s := start(t, discordtest.Options{})
	f := s.Fail(discordtest.Rule{Method: "GET", Path: "/users/*", Times: 2, Status: 503})
	for n, want := range []int{503, 503, 200} {
		if a := rest(t, s, "GET", "/users/@me", nil); a.status != want {
			t.Errorf("try %d: %d", n, a.status)
		}
	}
	if f.Hits() != 2 {
		t.Errorf("hits: %d", f.Hits())
	}
	endless := s.Fail(discordtest.Rule{Path: "/users/**", Times: -1, Status: 403, Code: 50001})
	if a := rest(t, s, "GET", "/users/@me/guilds", nil); a.status != 403 || a.code() != 50001 {
		t.Errorf("403: %d %s", a.status, a.body)
	}
	endless.Stop()
	slow := s.Fail(discordtest.Rule{Path: "/users/@me", Delay: time.Millisecond})
	if a := rest(t, s, "GET", "/users/@me", nil); a.status != 200 || slow.Hits() != 1 {
		t.Errorf("slow: %d", a.status)
	}
}

func TestRateLimits(t *testing.T) {
	for name, tc := range map[string]struct {
		rule  discordtest.Rule
		other int // what another route says meanwhile
		html  bool
	}{
		"route":  {discordtest.Rule{Path: "/users/@me", Status: 429, RetryAfter: time.Hour}, 200, false},
		"global": {discordtest.Rule{Path: "/users/@me", Status: 429, RetryAfter: time.Hour, Global: true}, 429, false},
		"edge":   {discordtest.Rule{Path: "/users/@me", Status: 429, RetryAfter: time.Hour, HTML: true}, 429, true},
	} {
		t.Run(name, func(t *testing.T) {
			s := start(t, discordtest.Options{})
			s.Fail(tc.rule)
			for range 2 {
				a := rest(t, s, "GET", "/users/@me", nil)
				if a.status != 429 || a.header.Get("Retry-After") != "3600" || strings.HasPrefix(string(a.body), "<!DOCTYPE") != tc.html {
					t.Errorf("%d %v %s", a.status, a.header, a.body)
				}
			}
			if a := rest(t, s, "GET", "/gateway/bot", nil); a.status != tc.other {
				t.Errorf("another route: %d", a.status)
			}
			if n := s.Counters().EarlyRetries; n == 0 {
				t.Error("the early retry was not counted")
			}
		})
	}
}

func TestLostAnswer(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	s.Fail(discordtest.Rule{Method: "POST", Path: "/channels/*/messages", DropAfterWork: true})
	if a, err := try(s, "POST", "/channels/"+g.ChannelID("races")+"/messages", obj{"content": "x"}); err == nil {
		t.Errorf("answered %d %s", a.status, a.body)
	}
	if n := len(s.Sent(g.ChannelID("races"))); n != 1 {
		t.Errorf("%d messages", n)
	}
}

func TestCommandsKeepTheirIDs(t *testing.T) {
	s := start(t, discordtest.Options{})
	path := "/applications/" + s.AppID + "/commands"
	var before, after []struct{ ID, Name string }
	if err := json.Unmarshal(rest(t, s, "PUT", path, commands()).body, &before); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(rest(t, s, "PUT", path, commands()[:1]).body, &after); err != nil {
		t.Fatal(err)
	}
	if len(after) != 1 || after[0] != before[0] {
		t.Errorf("before %v, after %v", before, after)
	}
	if list := s.Commands(); len(list) != 1 || len(list["race add"]) != 6 {
		t.Errorf("commands %v", list)
	}
	for name, bad := range map[string]any{
		"capitals":       []obj{{"name": "Race", "description": "x"}},
		"no description": []obj{{"name": "race"}},
		"twice":          []obj{{"name": "race", "description": "x"}, {"name": "race", "description": "y"}},
		"late required": []obj{{"name": "race", "description": "x", "options": []obj{
			{"type": 3, "name": "a", "description": "x"}, {"type": 3, "name": "b", "description": "x", "required": true}}}},
		"no list": obj{},
	} {
		if a := rest(t, s, "PUT", path, bad); a.status != http.StatusBadRequest || a.code() != 50035 {
			t.Errorf("%s: %d %s", name, a.status, a.body)
		}
	}
}

// commands are definitions with every kind of option that the double can type.
func commands() []obj {
	option := func(kind int, name string, more obj) obj {
		o := obj{"type": kind, "name": name, "description": "what it is", "required": false}
		for key, value := range more {
			o[key] = value
		}
		return o
	}
	return []obj{
		{"name": "race", "description": "Races", "options": []obj{{"type": 1, "name": "add", "description": "Add one", "options": []obj{
			option(3, "name", obj{"required": true, "autocomplete": true, "max_length": 20}),
			option(3, "priority", obj{"choices": []obj{{"name": "A race", "value": "A"}, {"name": "B race", "value": "B"}}}),
			option(4, "minutes", obj{"min_value": 1, "max_value": 600}),
			option(7, "channel", obj{"channel_types": []int{0}}), option(8, "role", nil), option(5, "quiet", nil)}}}},
		{"name": "ride", "description": "What is on", "contexts": []int{0, 1}, "default_member_permissions": nil},
		{"name": "club", "description": "Admin", "contexts": []int{0}, "default_member_permissions": "32"},
		{"name": "greet", "description": "Greet", "options": []obj{option(6, "rider", obj{"required": true})}},
	}
}
