package discordtest_test

import (
	"bytes"
	"compress/zlib"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"musette/bot/discord/discordtest"
)

type obj = map[string]any

// patience bounds every wait of these tests.
const patience = 20 * time.Second

func soon(t *testing.T) context.Context {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	t.Cleanup(cancel)
	return ctx
}

func start(t *testing.T, o discordtest.Options) *discordtest.Server {
	t.Helper()
	s := discordtest.New(o)
	t.Cleanup(s.Close)
	return s
}

// wheelers is the made-up club.
func wheelers(s *discordtest.Server) discordtest.Guild {
	return s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers",
		Channels: []discordtest.Channel{{Name: "races"}, {Name: "rides"}},
		Roles:    []discordtest.Role{{Name: "Coach"}},
		Members: []discordtest.Member{{Name: "Ines", Nick: "Ines K", Roles: []string{"Coach"}, Permissions: discordtest.PermAdmin},
			{Name: "Tomas"}}})
}

// gw is a plain websocket client.
type gw struct {
	t       *testing.T
	ws      *websocket.Conn
	session string
	resume  string
	seq     int64
}

type frame struct {
	Op   int             `json:"op"`
	Data json.RawMessage `json:"d"`
	Seq  int64           `json:"s"`
	Type string          `json:"t"`
}

func dial(t *testing.T, s *discordtest.Server, path string) *gw {
	t.Helper()
	ws, resp, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(s.URL, "http")+path+"/?v=10&encoding=json", nil)
	if err != nil {
		t.Fatalf("dial: %v", err)
	}
	if err := resp.Body.Close(); err != nil {
		t.Fatal(err)
	}
	g := &gw{t: t, ws: ws}
	t.Cleanup(func() { _ = ws.Close() })
	return g
}

func (g *gw) read() (frame, error) {
	var f frame
	if err := g.ws.SetReadDeadline(time.Now().Add(patience)); err != nil {
		return f, err
	}
	kind, data, err := g.ws.ReadMessage()
	if err != nil {
		return f, err
	}
	if kind == websocket.BinaryMessage {
		r, err := zlib.NewReader(bytes.NewReader(data))
		if err != nil {
			return f, err
		}
		if data, err = io.ReadAll(r); err != nil {
			return f, err
		}
		f.Seq = 0
	}
	err = json.Unmarshal(data, &f)
	if f.Seq > 0 {
		g.seq = f.Seq
	}
	return f, err
}

// want reads the next frame, which must be this one; typ is of dispatches.
func (g *gw) want(op int, typ string) json.RawMessage {
	g.t.Helper()
	f, err := g.read()
	if err != nil {
		g.t.Fatalf("waiting for op %d %s: %v", op, typ, err)
	}
	if f.Op != op || f.Type != typ {
		g.t.Fatalf("got op %d %s, want op %d %s", f.Op, f.Type, op, typ)
	}
	return f.Data
}

func (g *gw) wantClose(code int) {
	g.t.Helper()
	f, err := g.read()
	if !websocket.IsCloseError(err, code) {
		g.t.Fatalf("got %+v, %v, want close %d", f, err, code)
	}
}

func (g *gw) send(op int, data any) {
	g.t.Helper()
	if err := g.ws.WriteJSON(obj{"op": op, "d": data}); err != nil {
		g.t.Fatalf("send op %d: %v", op, err)
	}
}

const intents = 1 | 1<<9 | 1<<12

func identify(s *discordtest.Server) obj {
	return obj{"token": s.Token, "intents": intents, "properties": obj{"os": "linux", "browser": "t", "device": "t"}}
}

// login connects, identifies and reads up to the last GUILD_CREATE.
func login(t *testing.T, s *discordtest.Server, guilds int) *gw {
	t.Helper()
	g := dial(t, s, "/gateway")
	g.want(10, "")
	g.send(2, identify(s))
	g.ready(guilds)
	return g
}

func (g *gw) ready(guilds int) {
	g.t.Helper()
	var ready struct {
		Session string `json:"session_id"`
		Resume  string `json:"resume_gateway_url"`
		Guilds  []struct {
			Unavailable bool `json:"unavailable"`
		} `json:"guilds"`
	}
	if err := json.Unmarshal(g.want(0, "READY"), &ready); err != nil {
		g.t.Fatal(err)
	}
	if len(ready.Guilds) != guilds || ready.Session == "" || !strings.HasSuffix(ready.Resume, "/gateway/resume") {
		g.t.Fatalf("READY: %+v", ready)
	}
	g.session, g.resume = ready.Session, ready.Resume
	for range guilds {
		g.want(0, "GUILD_CREATE")
	}
}

// resumed connects anew and asks for the session; the caller reads the answer.
func (g *gw) resumed(s *discordtest.Server) *gw {
	g.t.Helper()
	n := dial(g.t, s, "/gateway/resume")
	n.want(10, "")
	n.session, n.seq = g.session, g.seq
	n.send(6, obj{"token": s.Token, "session_id": g.session, "seq": g.seq})
	return n
}

// answered is what REST said.
type answered struct {
	status int
	header http.Header
	body   []byte
}

func (a answered) code() int {
	var e struct {
		Code int `json:"code"`
	}
	if json.Unmarshal(a.body, &e) != nil {
		return -1
	}
	return e.Code
}

func (a answered) text(key string) string {
	var m obj
	if json.Unmarshal(a.body, &m) != nil {
		return ""
	}
	v, ok := m[key]
	if !ok {
		return ""
	}
	return fmt.Sprint(v)
}

func rest(t *testing.T, s *discordtest.Server, method, path string, body any) answered {
	t.Helper()
	a, err := try(s, method, path, body)
	if err != nil {
		t.Fatalf("%s %s: %v", method, path, err)
	}
	return a
}

func try(s *discordtest.Server, method, path string, body any) (answered, error) {
	var reader io.Reader
	if body != nil {
		data, err := json.Marshal(body)
		if err != nil {
			return answered{}, err
		}
		reader = bytes.NewReader(data)
	}
	return do(s, method, path, "application/json", reader, s.Token)
}

func do(s *discordtest.Server, method, path, kind string, body io.Reader, token string) (answered, error) {
	r, err := http.NewRequest(method, s.URL+"/api/v10"+path, body)
	if err != nil {
		return answered{}, err
	}
	if body != nil {
		r.Header.Set("Content-Type", kind)
	}
	if token != "" {
		r.Header.Set("Authorization", "Bot "+token)
	}
	client := http.Client{Timeout: patience, Transport: &http.Transport{DisableKeepAlives: true}}
	resp, err := client.Do(r)
	if err != nil {
		return answered{}, err
	}
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		return answered{}, err
	}
	return answered{resp.StatusCode, resp.Header, data}, resp.Body.Close()
}

// upload posts payload_json with one file.
func upload(t *testing.T, s *discordtest.Server, method, path string, body any, name string, data []byte) answered {
	t.Helper()
	var form bytes.Buffer
	w := multipart.NewWriter(&form)
	payload, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.WriteField("payload_json", string(payload)); err != nil {
		t.Fatal(err)
	}
	part, err := w.CreateFormFile("files[0]", name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	a, err := do(s, method, path, w.FormDataContentType(), &form, s.Token)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// safeBuffer is a buffer for several goroutines.
type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (b *safeBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.Write(p)
}

func (b *safeBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.String()
}
