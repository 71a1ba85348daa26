package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"reflect"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"go.uber.org/goleak"
)

func TestMain(m *testing.M) {
	goleak.VerifyTestMain(m, goleak.Cleanup(func(code int) {
		if built.folder != "" {
			os.RemoveAll(built.folder)
		}
		os.Exit(code)
	}))
}

// built is musette, which is built once for all tests that need a process of it.
var built struct {
	once            sync.Once
	folder, program string
	err             error
}

func builtMusette(t *testing.T) string {
	t.Helper()
	built.once.Do(func() {
		if built.folder, built.err = os.MkdirTemp("", "musette-built-"); built.err == nil {
			built.program, built.err = buildMusette(context.Background(), built.folder, os.Stderr)
		}
	})
	if built.err != nil {
		t.Fatal(built.err)
	}
	return built.program
}

// output is what `run` has printed so far.
type output struct {
	mu   sync.Mutex
	text strings.Builder
	grew chan struct{}
}

func (o *output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	close(o.grew)
	o.grew = make(chan struct{})
	return o.text.Write(p)
}

// wait waits until the text fits the pattern and returns the groups.
func (o *output) wait(t *testing.T, pattern string) []string {
	t.Helper()
	deadline := time.After(patience)
	for {
		o.mu.Lock()
		text, grew := o.text.String(), o.grew
		o.mu.Unlock()
		if found := regexp.MustCompile(pattern).FindStringSubmatch(text); found != nil {
			return found
		}
		select {
		case <-grew:
		case <-deadline:
			t.Fatalf("no %s in:\n%s", pattern, text)
		}
	}
}

// echoBot is a bot of one command, which answers with a button; the button
// opens a form.
type echoBot struct {
	t          *testing.T
	url, token string
}

func (b *echoBot) call(method, path string, body any) []byte {
	data, err := json.Marshal(body)
	if err != nil {
		b.t.Error(err)
	}
	r, err := http.NewRequest(method, b.url+"/api/v10"+path, bytes.NewReader(data))
	if err != nil {
		b.t.Error(err)
		return nil
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Authorization", "Bot "+b.token)
	client := http.Client{Timeout: patience, Transport: &http.Transport{DisableKeepAlives: true}}
	resp, err := client.Do(r)
	if err != nil {
		b.t.Error(err)
		return nil
	}
	data, err = io.ReadAll(resp.Body)
	if err != nil || resp.StatusCode >= 300 {
		b.t.Errorf("%s %s: %d %s, %v", method, path, resp.StatusCode, data, err)
	}
	if err := resp.Body.Close(); err != nil {
		b.t.Error(err)
	}
	return data
}

type obj = map[string]any

// live connects, registers and answers until the double ends.
func (b *echoBot) live() {
	var app struct{ ID string }
	if err := json.Unmarshal(b.call("GET", "/applications/@me", nil), &app); err != nil {
		b.t.Error(err)
	}
	b.call("PUT", "/applications/"+app.ID+"/commands", []obj{{"name": "echo", "description": "Say it again",
		"options": []obj{{"type": 3, "name": "word", "description": "What", "required": true, "autocomplete": true}}}})
	ws, resp, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(b.url, "http")+"/gateway?v=10&encoding=json", nil)
	if err != nil {
		b.t.Error(err)
		return
	}
	defer func() { _, _ = ws.Close(), resp.Body.Close() }()
	if err := ws.WriteJSON(obj{"op": 2, "d": obj{"token": b.token, "intents": 1<<12 | 1<<9}}); err != nil {
		b.t.Error(err)
	}
	for {
		var f struct {
			T string
			D json.RawMessage
		}
		if ws.ReadJSON(&f) != nil {
			return
		}
		switch f.T {
		case "INTERACTION_CREATE":
			b.interaction(f.D)
		case "MESSAGE_CREATE":
			b.message(f.D)
		}
	}
}

func (b *echoBot) interaction(data json.RawMessage) {
	var i struct {
		ID, Token string
		Type      int
		Data      json.RawMessage
	}
	if err := json.Unmarshal(data, &i); err != nil {
		b.t.Error(err)
	}
	answer := obj{"type": 4, "data": obj{"content": fmt.Sprintf("got %d", i.Type), "flags": 64,
		"components": []obj{{"type": 1, "components": []obj{{"type": 2, "style": 1, "label": "Say more", "custom_id": "more"}}}}}}
	switch i.Type {
	case 3:
		answer = obj{"type": 9, "data": obj{"custom_id": "form", "title": "Say more", "components": []obj{
			{"type": 18, "label": "More", "component": obj{"type": 4, "style": 1, "custom_id": "more"}}}}}
	case 4:
		answer = obj{"type": 8, "data": obj{"choices": []obj{{"name": "offered", "value": "x"}}}}
	case 5:
		answer = obj{"type": 7, "data": obj{"content": "form with " + string(i.Data), "components": []obj{}}}
	}
	b.call("POST", "/interactions/"+i.ID+"/"+i.Token+"/callback", answer)
}

func (b *echoBot) message(data json.RawMessage) {
	var m struct {
		Channel string `json:"channel_id"`
		Author  struct {
			ID  string
			Bot bool
		}
		Content string
	}
	if err := json.Unmarshal(data, &m); err != nil {
		b.t.Error(err)
	}
	if !m.Author.Bot && m.Content != "" {
		var dm struct{ ID string }
		if err := json.Unmarshal(b.call("POST", "/users/@me/channels", obj{"recipient_id": m.Author.ID}), &dm); err != nil {
			b.t.Error(err)
		}
		b.call("POST", "/channels/"+dm.ID+"/messages", obj{"content": "heard: " + m.Content})
	}
}

func TestRunPlaysTheRiders(t *testing.T) {
	in, lines := io.Pipe()
	out := &output{grew: make(chan struct{})}
	code := make(chan int, 1)
	go func() {
		code <- run(t.Context(), []string{"run", "--quiet", "--listen", "127.0.0.1:0"}, in, out, out)
	}()
	found := out.wait(t, `MUSETTE_DISCORD__TOKEN=(\S+) MUSETTE_DISCORD__URL=(\S+) go run`)
	bot := &echoBot{t: t, token: found[1], url: found[2]}
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		bot.live()
	}()
	for _, step := range []struct{ line, want string }{
		{"wait", ``},
		{`Ines: /echo word:"Hill Loop"`, `Ines alone sees \(first answer after \d+ ms\):\n   got 2\n   \[Say more\]`},
		{"Ines press Say more", `:\n   Say more\n   More`},
		{`Ines form More="and more"`, `form with .*"value":"and more"`},
		{"Ines offers echo word:off", `:\n   offered`},
		{"Ines dm: hello", `heard: hello`},
		{"Tomas: @musette who is up?", `heard: <@\d+> who is up\?`},
		{"Ines: /echo", `\?\? word: is missing|needs option "word"`},
		{"Nobody: hello", `\?\? no rider "Nobody"`},
		{"Ines dances", `\?\? "dances" is not understood`},
		{"op7", ``}, {"hold-acks on", ``}, {"invalid", ``}, {"silence", ``}, {"drop", ``},
	} {
		if _, err := io.WriteString(lines, step.line+"\n"); err != nil {
			t.Fatal(err)
		}
		out.wait(t, step.want)
	}
	if err := lines.Close(); err != nil {
		t.Fatal(err)
	}
	if got := <-code; got != exitDone {
		t.Errorf("exit %d", got)
	}
	<-gone
}

func TestWrongUse(t *testing.T) {
	for _, tc := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"run", "--listen", "0.0.0.0:0"}, exitBroke, "not a loopback address"},
		{[]string{"swim"}, exitUse, "swim"},
		{[]string{"--help"}, exitDone, "check-js"},
	} {
		var out bytes.Buffer
		if code := run(context.Background(), tc.args, strings.NewReader(""), &out, &out); code != tc.code || !strings.Contains(out.String(), tc.want) {
			t.Errorf("%v: exit %d, %s", tc.args, code, out.String())
		}
	}
}

func TestFormFields(t *testing.T) {
	got := formFields(`Monday="off"  Long ride="2h easy" broken`)
	if want := map[string]string{"Monday": "off", "Long ride": "2h easy"}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v", got)
	}
}
