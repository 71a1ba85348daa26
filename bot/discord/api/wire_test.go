package api

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/google/go-cmp/cmp"

	"musette/planner"
)

func TestBase(t *testing.T) {
	for base, want := range map[string]string{
		"":                               "https://discord.com",
		"http://127.0.0.1:8585":          "http://127.0.0.1:8585",
		"http://127.0.0.1:8585/":         "http://127.0.0.1:8585",
		"http://localhost:8585/api":      "http://localhost:8585",
		"http://[::1]:8585/api/v10/":     "http://[::1]:8585",
		"https://relay.example.org/api/": "https://relay.example.org",
		"https://discord.com":            "https://discord.com",
		"127.0.0.1:8585":                 "",
		"ftp://127.0.0.1":                "",
		"http://":                        "",
		"http://192.0.2.7:8585":          "",
		"http://relay.example.org":       "",
		"http://localhost.example.org":   "",
		"http://me:pw@127.0.0.1":         "",
		"http://127.0.0.1/api?x=1":       "",
		"http://127.0.0.1/other":         "",
		"::":                             "",
	} {
		c, err := New(Config{Base: base})
		if want == "" {
			var bad *planner.InputError
			if !errors.As(err, &bad) || bad.Field != "discord.url" || !strings.Contains(bad.Msg, "http://127.0.0.1:8585") {
				t.Errorf("%q: %v", base, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", base, err)
			continue
		}
		got := "https://discord.com"
		if u := c.http.Transport.(*transport).base; u != nil {
			got = u.String()
		}
		if got != want {
			t.Errorf("%q leads to %s, want %s", base, got, want)
		}
	}
}

func TestRequestsGoToVersion10AsTheBot(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		w.Header().Set("X-RateLimit-Limit", "5") // numbers that discordgo would fail on
		w.Header().Set("X-RateLimit-Remaining", "many")
		w.Header().Set("X-RateLimit-Reset-After", "soon")
		if strings.HasSuffix(r.URL.Path, "/gateway") {
			say(w, 200, `{"url":"ws://127.0.0.1:9"}`)
			return
		}
		say(w, 200, `{"id":"7","username":"musette","bot":true}`)
	})
	me, err := d.Me(within(t))
	if diff := cmp.Diff(User{ID: "7", Username: "musette", Bot: true}, me); diff != "" || err != nil {
		t.Errorf("%v %s", err, diff)
	}
	s, err := d.NewSession()
	if err != nil {
		t.Fatal(err)
	}
	if url, err := s.Gateway(); url != "ws://127.0.0.1:9/" || err != nil {
		t.Errorf("gateway %q, %v", url, err)
	}
	got := d.requests()
	if len(got) != 2 || got[0].path != "/api/v10/users/@me" || got[1].path != "/api/v10/gateway" {
		t.Errorf("requests %v", got)
	}
	for _, r := range got {
		if r.header.Get("Authorization") != "Bot "+botToken || !strings.HasPrefix(r.header.Get("User-Agent"), "DiscordBot (") {
			t.Errorf("headers %v", r.header)
		}
		if _, typed := r.header["Content-Type"]; typed {
			t.Error("a request without a body names its type")
		}
	}
}

func TestSessionForTheGateway(t *testing.T) {
	c, err := New(Config{Token: "Bot " + botToken})
	if err != nil {
		t.Fatal(err)
	}
	s, err := c.NewSession()
	if err != nil {
		t.Fatal(err)
	}
	other, _ := c.NewSession()
	if s == other || s.Token != "Bot "+botToken || s.Identify.Token != s.Token {
		t.Error("want a session of its own with the bot's token")
	}
	if s.StateEnabled || !s.SyncEvents || s.Compress || s.Identify.Compress || s.ShouldReconnectOnError || s.LogLevel != -1 || s.Debug ||
		s.ShouldRetryOnRateLimit || s.MaxRestRetries != 0 || discordgo.APIVersion != "10" {
		t.Errorf("session %+v", s)
	}
}

func TestBodies(t *testing.T) {
	const empty = `"embeds":[],"components":[],"allowed_mentions":{"parse":[]},"attachments":[]`
	ctx := within(t)
	for name, c := range map[string]struct {
		do         func(*Client) error
		path, body string
	}{
		"message": {func(c *Client) error {
			return c.Answer(ctx, "1", "tok", AnswerMessage, Message{Content: "a", Flags: 64, Nonce: "n"})
		},
			"/interactions/1/tok/callback", `{"type":4,"data":{"content":"a","flags":64,` + empty + `}}`},
		"deferred": {func(c *Client) error {
			return c.Answer(ctx, "1", "tok", AnswerDeferred, Message{Content: "a", Flags: 64})
		},
			"/interactions/1/tok/callback", `{"type":5,"data":{"flags":64}}`},
		"deferred update": {func(c *Client) error { return c.Answer(ctx, "1", "tok", AnswerDeferredUpdate, nil) },
			"/interactions/1/tok/callback", `{"type":6}`},
		"no choices": {func(c *Client) error { return c.Answer(ctx, "1", "tok", AnswerChoices, Choices{}) },
			"/interactions/1/tok/callback", `{"type":8,"data":{"choices":[]}}`},
		"form": {func(c *Client) error {
			return c.Answer(ctx, "1", "tok", AnswerModal, Modal{CustomID: "f", Title: "T"})
		}, "/interactions/1/tok/callback", `{"type":9,"data":{"custom_id":"f","title":"T","components":[]}}`},
		"edit": {func(c *Client) error {
			return c.EditOriginal(ctx, "1", "tok", Message{Flags: 64, Nonce: "n", EnforceNonce: true})
		}, "/webhooks/1/tok/messages/@original", `{"content":"",` + empty + `}`},
		"follow-up": {func(c *Client) error { return c.FollowUp(ctx, "1", "tok", Message{Content: "a", Flags: 64}) },
			"/webhooks/1/tok", `{"content":"a","flags":64,` + empty + `}`},
		"send": {func(c *Client) error {
			_, err := c.Send(ctx, "5", Message{Content: "a", Nonce: "n", EnforceNonce: true})
			return err
		}, "/channels/5/messages", `{"content":"a","nonce":"n","enforce_nonce":true,` + empty + `}`},
		"open": {func(c *Client) error { _, err := c.OpenDM(ctx, "3"); return err }, "/users/@me/channels", `{"recipient_id":"3"}`},
		"thread": {func(c *Client) error { _, err := c.CreateThread(ctx, "5", "Reminders for Ines"); return err }, "/channels/5/threads",
			`{"name":"Reminders for Ines","type":12,"auto_archive_duration":10080,"invitable":false}`},
		"put": {func(c *Client) error { return c.PutCommands(ctx, "1", []string{}) },
			"/applications/1/commands", `[]`},
	} {
		d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { say(w, 200, `{"id":"7"}`) })
		if err := c.do(d.Client); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		r := d.requests()[0]
		if r.path != "/api/v10"+c.path || r.header.Get("Content-Type") != "application/json" {
			t.Errorf("%s: %s as %s", name, r.path, r.header.Get("Content-Type"))
		}
		if diff := cmp.Diff(parsed(t, []byte(c.body)), parsed(t, r.body)); diff != "" {
			t.Errorf("%s: -want +got\n%s", name, diff)
		}
	}
}

func parsed(t *testing.T, body []byte) any {
	t.Helper()
	var v any
	if err := json.Unmarshal(body, &v); err != nil {
		t.Errorf("%v: %s", err, body)
	}
	return v
}

func TestFilesGoAsMultipart(t *testing.T) {
	m := Message{Content: "a", Embeds: []Embed{{Image: &EmbedImage{URL: "attachment://plan.png"}}},
		Attachments: []Attachment{{ID: 9, Description: "a picture of the plan"}},
		Files:       []File{{Name: "plan.png", Type: "image/png", Data: []byte("png")}, {Name: "plan.ics", Data: []byte("ics")}}}
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		if n == 1 { // the second attempt must be whole too
			hangUp(t, w)
			return
		}
		say(w, 200, `{"id":"7"}`)
	})
	if err := d.Answer(within(t), "1", interactionToken, AnswerMessage, m); err != nil {
		t.Fatal(err)
	}
	r := d.requests()[1]
	kind, params, err := mime.ParseMediaType(r.header.Get("Content-Type"))
	if kind != "multipart/form-data" || err != nil {
		t.Fatal(kind, err)
	}
	var parts []string
	for mr := multipart.NewReader(bytes.NewReader(r.body), params["boundary"]); ; {
		p, err := mr.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(p)
		if p.FormName() == "payload_json" {
			want := `{"type":4,"data":{"content":"a","embeds":[{"image":{"url":"attachment://plan.png"}}],"components":[],"allowed_mentions":{"parse":[]},
				"attachments":[{"id":"0","filename":"plan.png","description":"a picture of the plan"},{"id":"1","filename":"plan.ics"}]}}`
			if diff := cmp.Diff(parsed(t, []byte(want)), parsed(t, data)); diff != "" {
				t.Error(diff)
			}
			data = nil
		}
		parts = append(parts, fmt.Sprintf("%s %s %s %s", p.FormName(), p.FileName(), p.Header.Get("Content-Type"), data))
	}
	want := []string{"payload_json  application/json ", "files[0] plan.png image/png png", "files[1] plan.ics application/octet-stream ics"}
	if diff := cmp.Diff(want, parts); diff != "" {
		t.Error(diff)
	}
	if m.Attachments[0].ID != 9 {
		t.Error("the caller's message was changed")
	}
}

func TestReading(t *testing.T) {
	ctx := within(t)
	answers := map[string]string{
		"/applications/@me":          `{"id":"1","name":"musette","flags":64,"more":{}}`,
		"/gateway/bot":               `{"url":"wss://g","shards":2,"session_start_limit":{"total":1000,"remaining":998,"reset_after":1500,"max_concurrency":1}}`,
		"/applications/1/commands":   `[{"name":"plan","version":"3"}]`,
		"/channels/5":                `{"id":"5","guild_id":"2","name":"club","type":0}`,
		"/guilds/2/members/3":        `{"roles":["8"],"nick":null,"user":{"id":"3","global_name":null}}`,
		"/guilds/2/roles":            `[{"id":"8","name":"coach"}]`,
		"/users/@me/channels":        `{"id":"6","type":1}`,
		"/guilds/2/members/%2F..%2F": `{}`,
	}
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		body, ok := answers[strings.TrimPrefix(r.URL.EscapedPath(), "/api/v10")]
		if !ok {
			say(w, 404, `{"message":"404: Not Found","code":0}`)
			return
		}
		say(w, 200, body)
	})
	check := func(got any, err error, want any) {
		t.Helper()
		if diff := cmp.Diff(want, got); diff != "" || err != nil {
			t.Errorf("%v %s", err, diff)
		}
	}
	app, err := d.Application(ctx)
	check(app, err, Application{ID: "1", Name: "musette", Flags: 64})
	info, err := d.GatewayInfo(ctx)
	check(info, err, GatewayInfo{"wss://g", 2, SessionStartLimit{Total: 1000, Remaining: 998, MaxConcurrency: 1, ResetAfter: 1500 * time.Millisecond}})
	commands, err := d.Commands(ctx, "1")
	check(commands, err, []json.RawMessage{[]byte(`{"name":"plan","version":"3"}`)})
	channel, err := d.Channel(ctx, "5")
	check(channel, err, Channel{ID: "5", GuildID: "2", Name: "club"})
	member, err := d.Member(ctx, "2", "3")
	check(member, err, Member{Roles: []string{"8"}, User: User{ID: "3"}})
	roles, err := d.Roles(ctx, "2")
	check(roles, err, []Role{{ID: "8", Name: "coach"}})
	dm, err := d.OpenDM(ctx, "3")
	check(dm, err, "6")
	_, err = d.Member(ctx, "2", "/../")
	check(nil, err, nil)
	before := len(d.requests())
	for _, id := range []string{"", ".."} {
		if _, err := d.Member(ctx, id, "3"); err == nil || len(d.requests()) != before {
			t.Errorf("id %q: %v", id, err)
		}
	}
}

func TestGuildsReadsAllPages(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		var first int
		_, _ = fmt.Sscan(r.URL.Query().Get("after"), &first)
		var page []Guild
		for id := first + 1; id <= min(first+guildPage, 401); id++ {
			page = append(page, Guild{ID: fmt.Sprint(id), Name: "Marrow Vale Wheelers"})
		}
		_ = json.NewEncoder(w).Encode(page)
	})
	all, err := d.Guilds(within(t))
	if err != nil || len(all) != 401 || all[400].ID != "401" || len(d.requests()) != 3 {
		t.Errorf("%d guilds in %d requests, %v", len(all), len(d.requests()), err)
	}
}

func TestErrorsAndLogsHoldNoSecrets(t *testing.T) {
	answers := map[string]func(http.ResponseWriter){
		"drop": func(w http.ResponseWriter) { hangUp(t, w) },
		"html": func(w http.ResponseWriter) { w.WriteHeader(502); _, _ = io.WriteString(w, secretText) },
		"edge": func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", "0.01")
			w.WriteHeader(429)
			_, _ = io.WriteString(w, secretText)
		},
		"rate":   func(w http.ResponseWriter) { say(w, 429, `{"message":"slow","retry_after":0.01}`) },
		"403":    func(w http.ResponseWriter) { w.WriteHeader(403); _, _ = io.WriteString(w, secretText) },
		"202":    func(w http.ResponseWriter) { w.WriteHeader(202); _, _ = io.WriteString(w, secretText) },
		"302":    func(w http.ResponseWriter) { w.Header().Set("Location", "/"+secretText); w.WriteHeader(302) },
		"broken": func(w http.ResponseWriter) { w.Header().Set("Content-Length", "99"); say(w, 200, secretText) },
		"form": func(w http.ResponseWriter) {
			say(w, 400, `{"message":"Invalid Form Body","code":50035,"errors":{"embeds":{"0":{"title":{"_errors":[{"code":"BASE_TYPE_MAX_LENGTH","message":"`+secretText+`"}]}}}}}`)
		},
	}
	for name, answer := range answers {
		d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { answer(w) })
		m := Message{Content: secretText}
		var errs []error
		errs = append(errs, d.Answer(within(t), "1", interactionToken, AnswerMessage, m), d.EditOriginal(within(t), "1", interactionToken, m),
			d.FollowUp(within(t), "1", interactionToken, m))
		_, err := d.Send(within(t), "5", m)
		errs = append(errs, err)
		ctx, cancel := context.WithCancel(within(t))
		cancel()
		errs = append(errs, d.FollowUp(ctx, "1", interactionToken, m))
		if !errors.Is(errs[4], context.Canceled) {
			t.Errorf("%s: %v", name, errs[4])
		}
		if errs[3] == nil {
			t.Errorf("%s: no error", name)
		}
		if name == "form" && !strings.Contains(errs[3].Error(), "POST /channels/{id}/messages: 400 Invalid Form Body: embeds.0.title BASE_TYPE_MAX_LENGTH (code 50035)") {
			t.Errorf("got %v", errs[3])
		}
		text := fmt.Sprintf("%+v %s", errs, d.logs)
		for _, secret := range []string{interactionToken, botToken, secretText} {
			if strings.Contains(text, secret) {
				t.Errorf("%s: %q in %s", name, secret, text)
			}
		}
	}
}

func TestEndlessAnswerIsCut(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		if n > 1 {
			say(w, 200, `[]`)
			return
		}
		chunk := bytes.Repeat([]byte(" "), 1<<20)
		for range maxAnswer>>20 + 1 {
			if _, err := w.Write(chunk); err != nil {
				return
			}
		}
		_, _ = io.WriteString(w, `[{"id":"8"}]`)
	})
	roles, err := d.Roles(within(t), "2")
	if err != nil || len(roles) != 0 || len(d.requests()) != 2 {
		t.Errorf("%v, %v in %d requests", roles, err, len(d.requests()))
	}
}

func TestWaitOfARefusal(t *testing.T) {
	for _, c := range []struct {
		body   float64
		header string
		want   time.Duration
	}{
		{0.064, "1", 64 * time.Millisecond},
		{0, "2", 2 * time.Second},
		{0, "", edgeWait},
		{0, "soon", edgeWait},
		{-3, "-1", edgeWait},
		{1e300, "", maxWait},
		{0, "NaN", edgeWait},
		{0, "0", minWait},
		{0, "Mon, 04 May 2026 12:00:00 GMT", minWait}, // long past
	} {
		if got := wait(c.body, c.header); got != c.want {
			t.Errorf("wait(%v, %q) = %v, want %v", c.body, c.header, got, c.want)
		}
	}
}

func TestRedirectIsNotFollowed(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, "/elsewhere", http.StatusTemporaryRedirect)
	})
	err := d.Answer(within(t), "1", interactionToken, AnswerMessage, Message{})
	if Status(err) != http.StatusTemporaryRedirect || len(d.requests()) != 1 {
		t.Errorf("%d requests, %v", len(d.requests()), err)
	}
}
