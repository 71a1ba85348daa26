package discordtest_test

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

// club is a server with the guild, the commands and one connected client.
type club struct {
	t      *testing.T
	s      *discordtest.Server
	g      discordtest.Guild
	c      *gw
	server discordtest.At // Ines in #races
	dm     discordtest.At // Ines alone with the bot
}

func open(t *testing.T, o discordtest.Options) *club {
	t.Helper()
	s := start(t, o)
	g := wheelers(s)
	if a := rest(t, s, "PUT", "/applications/"+s.AppID+"/commands", commands()); a.status != 200 {
		t.Fatalf("commands: %s", a.body)
	}
	ines := g.UserID("Ines")
	return &club{t, s, g, login(t, s, 1), discordtest.At{Guild: g.ID, User: ines}, discordtest.At{User: ines}}
}

// incoming is what the tests read of INTERACTION_CREATE.
type incoming struct {
	ID, Token string
	Type      int
	Context   int
	GuildID   string `json:"guild_id"`
	Member    *struct {
		Permissions string
		Nick        string
		User        struct{ ID string }
	}
	User    *struct{ ID string }
	Message *struct{ ID string }
	Data    json.RawMessage
	App     string `json:"app_permissions"`
}

// next reads the interaction that the double has just delivered.
func (c *club) next(i *discordtest.Interaction, err error) (*discordtest.Interaction, incoming) {
	c.t.Helper()
	if err != nil {
		c.t.Fatal(err)
	}
	var in incoming
	if err := json.Unmarshal(c.c.want(0, "INTERACTION_CREATE"), &in); err != nil {
		c.t.Fatal(err)
	}
	return i, in
}

func (c *club) ride() (*discordtest.Interaction, incoming) {
	c.t.Helper()
	return c.next(c.s.Command(c.server, "ride", nil))
}

func (c *club) callback(in incoming, kind int, data any) answered {
	c.t.Helper()
	return rest(c.t, c.s, "POST", "/interactions/"+in.ID+"/"+in.Token+"/callback", obj{"type": kind, "data": data})
}

func (c *club) webhook(in incoming, rest string) string {
	return "/webhooks/" + c.s.AppID + "/" + in.Token + rest
}

func (c *club) answer(i *discordtest.Interaction) discordtest.Answer {
	c.t.Helper()
	a, err := i.Answer(soon(c.t))
	if err != nil {
		c.t.Fatal(err)
	}
	return a
}

func TestCommandPayload(t *testing.T) {
	c := open(t, discordtest.Options{})
	options := map[string]any{"name": "Hill Loop", "priority": "B race", "minutes": 90, "channel": "#races", "role": "Coach", "quiet": true}
	_, in := c.next(c.s.Command(c.server, "race add", options))
	if in.Type != 2 || in.GuildID != c.g.ID || in.Context != 0 || in.User != nil || in.Member == nil || in.Member.Permissions != "8" || in.Member.Nick != "Ines K" || in.App != "52224" {
		t.Errorf("payload %+v", in)
	}
	for _, want := range []string{`"name":"add"`, `"value":"Hill Loop"`, `"value":"B"`, `"value":90`, `"value":true`,
		`"value":"` + c.g.RoleID("Coach"), `"app_permissions":"52224"`, `"resolved":`} {
		if !strings.Contains(string(in.Data), want) {
			t.Errorf("data lacks %s: %s", want, in.Data)
		}
	}
	_, in = c.next(c.s.Command(c.dm, "ride", nil))
	if in.Context != 1 || in.Member != nil || in.User == nil || in.User.ID != c.dm.User || in.GuildID != "" {
		t.Errorf("DM payload %+v", in)
	}
	if _, in = c.next(c.s.Command(c.server, "greet", map[string]any{"rider": "Tomas"})); !strings.Contains(string(in.Data), `"members"`) {
		t.Errorf("user option: %s", in.Data)
	}
	_, in = c.next(c.s.Autocomplete(c.server, "race add", map[string]any{"name": "hil"}, "name"))
	if in.Type != 4 || !strings.Contains(string(in.Data), `"focused":true`) {
		t.Errorf("autocomplete %s", in.Data)
	}
}

func TestWhatCannotBeTyped(t *testing.T) {
	c := open(t, discordtest.Options{})
	tomas := discordtest.At{Guild: c.g.ID, User: c.g.UserID("Tomas")}
	for name, tc := range map[string]struct {
		at      discordtest.At
		command string
		options map[string]any
	}{
		"unknown command":      {c.server, "nothing", nil},
		"no subcommand":        {c.server, "race", nil},
		"unknown subcommand":   {c.server, "race lose", nil},
		"unknown option":       {c.server, "ride", map[string]any{"day": "x"}},
		"required left out":    {c.server, "race add", nil},
		"too long":             {c.server, "race add", map[string]any{"name": strings.Repeat("x", 21)}},
		"no choice":            {c.server, "race add", map[string]any{"name": "x", "priority": "Z"}},
		"out of range":         {c.server, "race add", map[string]any{"name": "x", "minutes": 601}},
		"no integer":           {c.server, "race add", map[string]any{"name": "x", "minutes": "1.5"}},
		"unknown channel":      {c.server, "race add", map[string]any{"name": "x", "channel": "none"}},
		"not offered in DM":    {c.dm, "club", nil},
		"member may not":       {tomas, "club", nil},
		"no member":            {discordtest.At{Guild: c.g.ID, User: "1"}, "ride", nil},
		"the bot is not there": {discordtest.At{Guild: "1", User: c.dm.User}, "ride", nil},
		"channel outside":      {c.dm, "race add", map[string]any{"name": "x", "channel": "races"}},
	} {
		if _, err := c.s.Command(tc.at, tc.command, tc.options); err == nil {
			t.Errorf("%s was typed", name)
		}
	}
	if _, err := c.s.Autocomplete(c.server, "race add", nil, "priority"); err == nil {
		t.Error("offers were asked for an option without autocompletion")
	}
}

func TestNobodyConnected(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	rest(t, s, "PUT", "/applications/"+s.AppID+"/commands", commands())
	if _, err := s.Command(discordtest.At{Guild: g.ID, User: g.UserID("Ines")}, "ride", nil); err != discordtest.ErrNoSession {
		t.Errorf("got %v", err)
	}
}

func TestFirstAnswerOnce(t *testing.T) {
	c := open(t, discordtest.Options{})
	i, in := c.ride()
	if a := c.callback(in, 4, obj{"content": "Easy ride", "flags": 64, "components": row("Why", "why"),
		"embeds": []obj{{"title": "Plan", "fields": []obj{{"name": "Tue", "value": "40 min"}}}}}); a.status != 204 {
		t.Fatalf("%d %s", a.status, a.body)
	}
	if a := c.callback(in, 4, obj{"content": "again"}); a.status != 400 || a.code() != 40060 {
		t.Errorf("second answer: %d %s", a.status, a.body)
	}
	a := c.answer(i)
	if a.Text() != "Easy ride\nPlan\nTue\n40 min" || !a.Ephemeral() || !slices.Equal(a.Buttons(), []string{"Why"}) {
		t.Errorf("answer %q, %v", a.Text(), a.Buttons())
	}
	if i.Callbacks() != 2 || i.Refused() != 1 || i.Latency() <= 0 || !i.Received() {
		t.Errorf("callbacks %d, refused %d, latency %v", i.Callbacks(), i.Refused(), i.Latency())
	}
	i.Forget()
	if a := rest(t, c.s, "GET", c.webhook(in, "/messages/@original"), nil); a.code() != 50027 {
		t.Errorf("forgotten: %s", a.body)
	}
}

func row(label, id string) []obj {
	return []obj{{"type": 1, "components": []obj{{"type": 2, "style": 1, "label": label, "custom_id": id}}}}
}

func TestDeferredAnswer(t *testing.T) {
	c := open(t, discordtest.Options{})
	i, in := c.ride()
	original := c.webhook(in, "/messages/@original")
	if a := rest(t, c.s, "PATCH", original, obj{"content": "x"}); a.code() != 10015 {
		t.Errorf("edit before the answer: %s", a.body)
	}
	c.callback(in, 5, obj{"flags": 64})
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := i.Answer(ctx); err == nil || !strings.Contains(err.Error(), "deferred, never edited") {
		t.Errorf("pending: %v", err)
	}
	if a := c.callback(in, 9, form()); a.code() != 40060 {
		t.Errorf("form after a deferral: %s", a.body)
	}
	if a := rest(t, c.s, "PATCH", original, obj{"content": "done"}); a.status != 200 {
		t.Fatalf("edit: %s", a.body)
	}
	if a := c.answer(i); a.Kind != 5 || a.Text() != "done" || !a.Ephemeral() {
		t.Errorf("answer %+v", a)
	}
	follow := rest(t, c.s, "POST", c.webhook(in, ""), obj{"content": "more"})
	message := c.webhook(in, "/messages/"+follow.text("id"))
	rest(t, c.s, "PATCH", message, obj{"embeds": []obj{{"title": "added"}}})
	if all, err := i.WaitFollowUps(soon(t), 1); err != nil || len(all) != 1 || all[0].Text() != "more\nadded" {
		t.Errorf("follow-ups %v, %v", all, err)
	}
	for _, path := range []string{message, original} {
		if a := rest(t, c.s, "DELETE", path, nil); a.status != 204 {
			t.Errorf("delete: %s", a.body)
		}
		if a := rest(t, c.s, "GET", path, nil); a.code() != 10008 {
			t.Errorf("deleted: %s", a.body)
		}
	}
}

func TestFollowUpEndsDeferral(t *testing.T) {
	c := open(t, discordtest.Options{})
	i, in := c.ride()
	c.callback(in, 5, obj{"flags": 64})
	rest(t, c.s, "POST", c.webhook(in, ""), obj{"content": "here"})
	if a := c.answer(i); a.Text() != "here" || !a.Ephemeral() || len(i.FollowUps()) != 0 {
		t.Errorf("answer %+v", a)
	}
}

func TestTimeLimits(t *testing.T) {
	c := open(t, discordtest.Options{AnswerWithin: time.Nanosecond})
	i, in := c.ride()
	if a := c.callback(in, 4, obj{"content": "late"}); a.status != 404 || a.code() != 10062 {
		t.Errorf("late: %d %s", a.status, a.body)
	}
	if i.Refused() != 1 || !strings.Contains(i.State(), "refused") {
		t.Errorf("state %s", i.State())
	}
	c = open(t, discordtest.Options{TokenLife: time.Nanosecond})
	_, in = c.ride()
	c.callback(in, 5, nil)
	if a := rest(t, c.s, "PATCH", c.webhook(in, "/messages/@original"), obj{"content": "x"}); a.code() != 50027 {
		t.Errorf("old token: %s", a.body)
	}
}

func TestAnswersThatDoNotFit(t *testing.T) {
	c := open(t, discordtest.Options{})
	_, command := c.ride()
	_, offers := c.next(c.s.Autocomplete(c.server, "race add", nil, "name"))
	shown, in := c.ride()
	c.callback(in, 9, form())
	_, sent := c.next(c.s.SubmitForm(c.server, c.answer(shown).Modal, nil))
	for name, tc := range map[string]struct {
		in   incoming
		kind int
		data any
	}{
		"update of nothing":       {command, 7, obj{"content": "x"}},
		"deferred update":         {command, 6, nil},
		"choices to a command":    {command, 8, obj{"choices": []obj{}}},
		"message to typing":       {offers, 4, obj{"content": "x"}},
		"deferral of offers":      {offers, 5, nil},
		"no choices":              {offers, 8, obj{}},
		"26 choices":              {offers, 8, obj{"choices": make([]obj, 26)}},
		"form to a form":          {sent, 9, form()},
		"update without a button": {sent, 7, obj{"content": "x"}},
		"form without a title":    {command, 9, obj{"custom_id": "x"}},
		"unknown type":            {command, 3, nil},
	} {
		if a := c.callback(tc.in, tc.kind, tc.data); a.status != 400 || a.code() != 50035 {
			t.Errorf("%s: %d %s", name, a.status, a.body)
		}
	}
	if a := c.callback(command, 4, obj{}); a.code() != 50006 {
		t.Errorf("empty answer: %s", a.body)
	}
	if a := c.callback(offers, 8, obj{"choices": []obj{{"name": "Hill Loop", "value": "1"}}}); a.status != 204 {
		t.Errorf("choices: %s", a.body)
	}
}

// form has a field of each of the two shapes.
func form() obj {
	return obj{"custom_id": "week", "title": "Your week", "components": []obj{
		{"type": 1, "components": []obj{{"type": 4, "custom_id": "mon", "label": "Monday", "style": 1, "value": "off"}}},
		{"type": 18, "label": "Tuesday", "component": obj{"type": 4, "custom_id": "tue", "style": 1, "required": false, "max_length": 5}}}}
}

func TestButtonsAndForms(t *testing.T) {
	c := open(t, discordtest.Options{})
	i, in := c.ride()
	c.callback(in, 4, obj{"content": "Done?", "flags": 64, "components": row("Done", "v1:done:7")})
	message := c.answer(i).Message
	if _, err := c.s.Press(discordtest.At{User: c.g.UserID("Tomas")}, message, "Done"); err == nil {
		t.Error("another person pressed a button that only Ines sees")
	}
	if _, err := c.s.Press(c.server, message, "Nothing"); err == nil {
		t.Error("a button was pressed that is not there")
	}
	press, in := c.next(c.s.Press(c.server, message, "Done"))
	if in.Type != 3 || in.Message == nil || in.Message.ID != message.ID || !strings.Contains(string(in.Data), `"v1:done:7"`) {
		t.Errorf("press %+v %s", in, in.Data)
	}
	c.callback(in, 9, form())
	a := c.answer(press)
	if a.Text() != "Your week\nMonday\noff\nTuesday" {
		t.Errorf("form %q", a.Text())
	}
	for name, fields := range map[string]map[string]string{"unknown": {"wed": "x"}, "too long": {"tue": "123456"}, "required": {"mon": ""}} {
		if _, err := c.s.SubmitForm(c.server, a.Modal, fields); err == nil {
			t.Errorf("%s: the form was sent", name)
		}
	}
	sent, in := c.next(c.s.SubmitForm(c.server, a.Modal, map[string]string{"Tuesday": "1h"}))
	for _, want := range []string{`"custom_id":"mon"`, `"value":"off"`, `"value":"1h"`, `"component":{`, `"components":[{`} {
		if !strings.Contains(string(in.Data), want) {
			t.Errorf("form data lacks %s: %s", want, in.Data)
		}
	}
	c.callback(in, 6, nil)
	rest(t, c.s, "PATCH", c.webhook(in, "/messages/@original"), obj{"content": "Saved", "components": []obj{}})
	if a := c.answer(sent); a.Kind != 6 || a.Message.ID != message.ID || a.Text() != "Saved" || len(a.Buttons()) != 0 || !a.Ephemeral() {
		t.Errorf("after the form: %+v", a)
	}
	_, in = c.next(c.s.Press(c.server, message, "Done")) // an old copy still has it
	c.callback(in, 7, obj{"content": "Over"})
}

func TestDuplicates(t *testing.T) {
	c := open(t, discordtest.Options{})
	c.s.DuplicateNext(1)
	i, first := c.ride()
	if _, again := c.next(i, nil); again.ID != first.ID {
		t.Errorf("%s, then %s", first.ID, again.ID)
	}
	if _, again := c.next(i, i.Redeliver()); again.ID != first.ID {
		t.Errorf("%s, then %s", first.ID, again.ID)
	}
	if i.Received() {
		t.Error("received before anything was acknowledged")
	}
	c.c.send(1, c.c.seq)
	c.c.want(11, "")
	if !i.Received() {
		t.Error("not received after a heartbeat with its sequence")
	}
}

func TestContentIsWithheld(t *testing.T) {
	c := open(t, discordtest.Options{})
	for _, tc := range []struct {
		at      discordtest.At
		mention bool
		want    string
	}{{c.server, false, ""}, {c.server, true, "<@" + c.s.BotID + "> tomorrow?"}, {c.dm, false, "tomorrow?"}} {
		if _, err := c.s.Say(tc.at, "tomorrow?", tc.mention); err != nil {
			t.Fatal(err)
		}
		var m struct {
			Content  string
			Mentions []obj
			Member   *obj
		}
		if err := json.Unmarshal(c.c.want(0, "MESSAGE_CREATE"), &m); err != nil {
			t.Fatal(err)
		}
		if m.Content != tc.want || (len(m.Mentions) == 1) != tc.mention || (m.Member != nil) != (tc.at.Guild != "") {
			t.Errorf("got %+v, want content %q", m, tc.want)
		}
	}
}

func TestTrafficHidesTokens(t *testing.T) {
	var lines safeBuffer
	requests := make(chan discordtest.Request, 100)
	c := open(t, discordtest.Options{Traffic: &lines, OnRequest: func(r discordtest.Request) { requests <- r }, KeepRequests: -1})
	_, in := c.ride()
	c.callback(in, 4, obj{"content": "Easy ride"})
	if text := lines.String(); strings.Contains(text, c.s.Token) || strings.Contains(text, in.Token) || !strings.Contains(text, "Easy ride") {
		t.Errorf("traffic:\n%s", text)
	}
	if len(requests) != 2 || len(c.s.Requests()) != 0 {
		t.Errorf("%d requests seen, %d kept", len(requests), len(c.s.Requests()))
	}
}
