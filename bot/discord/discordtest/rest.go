package discordtest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"time"
)

const (
	maxRequest = 25 << 20 // bytes of a request
	maxFile    = 10 << 20 // bytes of a file
)

// Request is one call of the bot. Path has no /api/v10 and no query.
type Request struct {
	Method, Path, Query string
	Body                json.RawMessage // the JSON part, nil where there was none
	Files               []File
	At                  time.Time // when it had arrived whole
	Status              int       // of the answer, which may have been dropped
}

// File is a file as it was uploaded.
type File struct {
	Name, Type string
	Data       []byte
}

// call is a request on its way through a handler.
type call struct {
	r      *http.Request // nil before routing
	body   []byte
	files  []File
	at     time.Time
	answer reply
}

// reply is what a handler says: a status and, unless it is 204, JSON.
type reply struct {
	status int
	body   any
	header http.Header
	html   string // instead of body
}

type callKey struct{}

// routes maps the documented paths to handlers.
func (s *Server) routes() *http.ServeMux {
	mux := http.NewServeMux()
	for pattern, handle := range map[string]func(*call) reply{
		"GET /gateway":                                      s.getGateway,
		"GET /gateway/bot":                                  s.getGatewayBot,
		"GET /users/@me":                                    s.getMe,
		"GET /applications/@me":                             s.getApplication,
		"GET /oauth2/applications/@me":                      s.getApplication,
		"GET /users/@me/guilds":                             s.getGuilds,
		"POST /users/@me/channels":                          s.openDM,
		"GET /applications/{app}/commands":                  s.getCommands,
		"PUT /applications/{app}/commands":                  s.putCommands,
		"GET /guilds/{guild}":                               s.getGuild,
		"GET /guilds/{guild}/roles":                         s.getRoles,
		"GET /guilds/{guild}/members/{user}":                s.getMember,
		"GET /guilds/{guild}/threads/active":                s.getActiveThreads,
		"GET /channels/{channel}":                           s.getChannel,
		"GET /channels/{channel}/messages":                  s.getMessages,
		"GET /channels/{channel}/messages/{message}":        s.getMessage,
		"POST /channels/{channel}/messages":                 s.postMessage,
		"POST /channels/{channel}/threads":                  s.postThread,
		"PUT /channels/{channel}/thread-members/{user}":     s.putThreadMember,
		"POST /interactions/{id}/{token}/callback":          s.callback,
		"POST /webhooks/{app}/{token}":                      s.followUp,
		"GET /webhooks/{app}/{token}/messages/{message}":    s.getAnswer,
		"PATCH /webhooks/{app}/{token}/messages/{message}":  s.editAnswer,
		"DELETE /webhooks/{app}/{token}/messages/{message}": s.deleteAnswer,
	} {
		mux.HandleFunc(pattern, func(_ http.ResponseWriter, r *http.Request) {
			c := r.Context().Value(callKey{}).(*call)
			c.r = r
			s.mu.Lock()
			defer s.mu.Unlock()
			c.answer = handle(c)
		})
	}
	return mux
}

// serveREST answers one call: faults first, then the work, then the record.
func (s *Server) serveREST(w http.ResponseWriter, r *http.Request, path string) {
	c := &call{}
	bad := c.read(w, r)
	c.at = time.Now()
	fault, refused := s.takeFault(r.Method, path)
	switch {
	case refused != nil:
		c.answer = *refused
	case bad != nil:
		c.answer = *bad
	case needsToken(path) && r.Header.Get("Authorization") != "Bot "+s.Token:
		c.answer = reply{status: http.StatusUnauthorized, body: jsonMap{"message": "401: Unauthorized", "code": 0}}
	default:
		s.work(c, r, path)
	}
	s.record(Request{Method: r.Method, Path: path, Query: r.URL.RawQuery, Body: c.body, Files: c.files, At: c.at, Status: c.answer.status})
	if !s.pause(r.Context(), fault.Delay) || fault.DropAfterWork {
		hangUp(w)
		return
	}
	c.answer.write(w, path)
	_ = http.NewResponseController(w).Flush() // before Close, which waits for handlers
}

// work finds the handler; an unknown path is a 404 as Discord words it.
func (s *Server) work(c *call, r *http.Request, path string) {
	c.answer = reply{status: http.StatusNotFound, body: jsonMap{"message": "404: Not Found", "code": 0}}
	inner := r.Clone(context.WithValue(r.Context(), callKey{}, c))
	inner.URL.Path, inner.URL.RawPath = path, ""
	s.mux.ServeHTTP(nowhere{}, inner)
}

// nowhere takes what the mux itself writes about unknown paths.
type nowhere struct{}

func (nowhere) Header() http.Header         { return http.Header{} }
func (nowhere) Write(p []byte) (int, error) { return len(p), nil }
func (nowhere) WriteHeader(int)             {}

// needsToken: callbacks and webhooks carry their own token in the path.
func needsToken(path string) bool {
	return !strings.HasPrefix(path, "/interactions/") && !strings.HasPrefix(path, "/webhooks/") && path != "/gateway"
}

// pause waits; it is false where the client or the double is gone.
func (s *Server) pause(ctx context.Context, d time.Duration) bool {
	if d <= 0 {
		return true
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return true
	case <-ctx.Done():
		return false
	}
}

// hangUp closes the TCP connection without an answer.
func hangUp(w http.ResponseWriter) {
	conn, _, err := http.NewResponseController(w).Hijack()
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	_ = conn.Close() // that is the point
}

var idInPath = regexp.MustCompile(`\d{5,}`)

func (a *reply) write(w http.ResponseWriter, path string) {
	h := w.Header()
	for key, values := range a.header {
		h[key] = values
	}
	if a.html != "" {
		h.Set("Content-Type", "text/html; charset=UTF-8")
		w.WriteHeader(a.status)
		_, _ = io.WriteString(w, a.html) // the client may be gone
		return
	}
	if h.Get("X-RateLimit-Bucket") == "" && a.status < 500 {
		h.Set("X-RateLimit-Limit", "50")
		h.Set("X-RateLimit-Remaining", "49")
		h.Set("X-RateLimit-Reset", fmt.Sprintf("%.3f", float64(time.Now().UnixMilli())/1000+1))
		h.Set("X-RateLimit-Reset-After", "1.000")
		h.Set("X-RateLimit-Bucket", bucketOf(path))
	}
	if a.status == http.StatusNoContent {
		w.WriteHeader(a.status)
		return
	}
	data := encode(a.body)
	h.Set("Content-Type", "application/json")
	h.Set("Content-Length", strconv.Itoa(len(data)))
	w.WriteHeader(a.status)
	_, _ = w.Write(data) // the client may be gone
}

// bucketOf names the rate limit of a route, without ids and tokens.
func bucketOf(path string) string {
	path = secretPath.ReplaceAllString(path, "${1}x")
	return fmt.Sprintf("%x", idInPath.ReplaceAllString(path, "0"))
}

// read takes the body apart. What it returns is a refusal.
func (c *call) read(w http.ResponseWriter, r *http.Request) *reply {
	body := http.MaxBytesReader(w, r.Body, maxRequest)
	kind, params, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err == nil && kind == "multipart/form-data" {
		return c.readParts(multipart.NewReader(body, params["boundary"]))
	}
	c.body, err = io.ReadAll(body)
	if err != nil {
		return tooLarge(err)
	}
	if len(c.body) == 0 {
		c.body = nil
		return nil
	}
	if kind != "application/json" {
		return ptr(formFault("_misc", "CONTENT_TYPE_INVALID", `Expected "Content-Type" header to be one of {'application/json'}.`))
	}
	if !json.Valid(c.body) {
		return ptr(failure(50109))
	}
	return nil
}

func ptr[T any](v T) *T { return &v }

func tooLarge(err error) *reply {
	if big := (*http.MaxBytesError)(nil); errors.As(err, &big) {
		return ptr(failure(40005))
	}
	return ptr(failure(50109))
}

// readParts reads payload_json and files[n], which keep the order of n.
func (c *call) readParts(parts *multipart.Reader) *reply {
	files := map[int]File{}
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return tooLarge(err)
		}
		data, err := io.ReadAll(part)
		if err != nil {
			return tooLarge(err)
		}
		if part.FormName() == "payload_json" {
			if c.body = data; !json.Valid(data) {
				return ptr(failure(50109))
			}
			continue
		}
		var n int
		if _, err := fmt.Sscanf(part.FormName(), "files[%d]", &n); err != nil || n < 0 || n > 9 {
			return ptr(formFault(part.FormName(), "UNKNOWN_PART", "Files are named files[0] to files[9]."))
		}
		if len(data) > maxFile {
			return ptr(failure(40005))
		}
		files[n] = File{Name: part.FileName(), Type: part.Header.Get("Content-Type"), Data: data}
	}
	for n := range 10 {
		if f, ok := files[n]; ok {
			if n != len(c.files) {
				return ptr(formFault("files", "FILES_GAP", "Files are numbered from 0 without a gap."))
			}
			c.files = append(c.files, f)
		}
	}
	return nil
}
