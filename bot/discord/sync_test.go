package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/discord/api"
)

// commandStore plays the part of Discord that keeps commands. It adds what
// Discord adds to a command.
type commandStore struct {
	mu       sync.Mutex
	commands []map[string]any
	puts     int
	gets     int
	failGet  int // answer this read, counted from 1, with a refusal
	failPut  bool
}

func (s *commandStore) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if r.URL.Path != "/api/v10/applications/"+testAppID+"/commands" {
		http.NotFound(w, r)
		return
	}
	refused := false
	switch r.Method {
	case http.MethodGet:
		s.gets++
		refused = s.gets == s.failGet
	case http.MethodPut:
		s.puts++
		if refused = s.failPut; !refused {
			body, _ := io.ReadAll(r.Body)
			s.store(body)
		}
	}
	w.Header().Set("Content-Type", "application/json")
	if refused {
		w.WriteHeader(http.StatusForbidden)
		_, _ = io.WriteString(w, `{"message":"Missing Access","code":50001}`)
		return
	}
	_ = json.NewEncoder(w).Encode(s.commands)
}

// store keeps commands with what Discord adds, the last one first. A body that
// it cannot read leaves no commands.
func (s *commandStore) store(body []byte) {
	s.commands = nil
	_ = json.Unmarshal(body, &s.commands)
	slices.Reverse(s.commands)
	for i, c := range s.commands {
		c["id"], c["application_id"], c["version"] = fmt.Sprint(500+i), testAppID, "77"
		c["name_localizations"], c["description_localizations"] = nil, nil
		c["nsfw"], c["dm_permission"] = false, true
		reverse(c["contexts"])
		addDefaults(c["options"])
	}
}

// reverse shows that a list has no order.
func reverse(list any) {
	if items, ok := list.([]any); ok {
		slices.Reverse(items)
	}
}

func addDefaults(options any) {
	list, _ := options.([]any)
	for _, item := range list {
		o := item.(map[string]any)
		o["name_localizations"], o["description_localizations"] = nil, nil
		if o["type"] != float64(optionSubcommand) {
			for key, value := range map[string]any{"required": false, "autocomplete": false} {
				if o[key] == nil {
					o[key] = value
				}
			}
		} else if o["options"] == nil {
			o["options"] = []any{}
		}
		reverse(o["channel_types"])
		addDefaults(o["options"])
	}
}

// newCommandStore starts a store with commands in it.
func newCommandStore(t *testing.T, commands []definition) (*commandStore, *api.Client) {
	t.Helper()
	store := &commandStore{commands: []map[string]any{}}
	if commands != nil {
		body, err := json.Marshal(commands)
		if err != nil {
			t.Fatal(err)
		}
		store.store(body)
	}
	server := httptest.NewServer(store)
	t.Cleanup(server.Close)
	client, err := api.New(api.Config{Token: "made-up", Base: server.URL})
	if err != nil {
		t.Fatal(err)
	}
	return store, client
}

func table() []definition { return definitions(bot.Commands()) }

// trySync gives the commands of the table to a store.
func trySync(t *testing.T, client *api.Client) (commandIDs, bool, error) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
	defer cancel()
	return syncCommands(ctx, client, testAppID, table())
}

func TestEqualCommandsAreNotPut(t *testing.T) {
	store, client := newCommandStore(t, table())
	ids, changed, err := trySync(t, client)
	if err != nil || changed || store.puts != 0 || store.gets != 1 {
		t.Errorf("changed %v, %d put, %d read, %v", changed, store.puts, store.gets, err)
	}
	checkIDs(t, store, ids)
}

func TestListsOfNumbersHaveNoOrder(t *testing.T) {
	want := []definition{{Name: "lamp", Type: 1, Contexts: []int{0, 1}, Installs: []int{1, 0}}}
	for stored, same := range map[string]bool{
		`{"name":"lamp","contexts":[1,0],"integration_types":[0,1]}`: true,
		`{"name":"lamp","contexts":[1,0],"integration_types":[1]}`:   false,
		`{"name":"lamp","contexts":[1,2],"integration_types":[0,1]}`: false,
		`{"name":"lamp","contexts":null,"integration_types":[0,1]}`:  false,
	} {
		if got := sameCommands([]json.RawMessage{json.RawMessage(stored)}, want); got != same {
			t.Errorf("%s: same %v, want %v", stored, got, same)
		}
	}
}

func TestNewCommandsArePutOnce(t *testing.T) {
	store, client := newCommandStore(t, nil)
	ids, changed, err := trySync(t, client)
	if err != nil || !changed || store.puts != 1 {
		t.Errorf("first: changed %v, %d put, %v", changed, store.puts, err)
	}
	checkIDs(t, store, ids)
	if _, changed, err = trySync(t, client); err != nil || changed || store.puts != 1 {
		t.Errorf("second: changed %v, %d put, %v", changed, store.puts, err)
	}
}

func checkIDs(t *testing.T, store *commandStore, ids commandIDs) {
	t.Helper()
	if len(ids) != len(table()) {
		t.Errorf("%d ids of %d commands", len(ids), len(table()))
	}
	for _, c := range store.commands {
		if id := ids[c["name"].(string)]; id != c["id"] {
			t.Errorf("/%v has id %q, want %v", c["name"], id, c["id"])
		}
	}
}

// TestChangedCommandsArePut changes one thing that Discord has, for each thing
// that is sent.
func TestChangedCommandsArePut(t *testing.T) {
	first := func(d []definition, name string) *definition {
		return &d[slices.IndexFunc(d, func(d definition) bool { return d.Name == name })]
	}
	for name, change := range map[string]func(d []definition) []definition{
		"description": func(d []definition) []definition { d[0].Description += "!"; return d },
		"name":        func(d []definition) []definition { d[0].Name += "s"; return d },
		"extra command": func(d []definition) []definition {
			return append(d, definition{Name: "old", Description: "x", Type: 1})
		},
		"missing command": func(d []definition) []definition { return d[1:] },
		"none at all":     func([]definition) []definition { return nil },
		"other type":      func(d []definition) []definition { d[0].Type = 2; return d },
		"contexts":        func(d []definition) []definition { d[0].Contexts = []int{0}; return d },
		"no contexts":     func(d []definition) []definition { d[0].Contexts = nil; return d },
		"installs":        func(d []definition) []definition { d[0].Installs = []int{0, 1}; return d },
		"permissions":     func(d []definition) []definition { d[0].Permissions = new(string); return d },
		"missing option":  func(d []definition) []definition { o := &d[0].Options[0]; o.Options = o.Options[1:]; return d },
		"extra option": func(d []definition) []definition {
			o := &d[0].Options[0]
			o.Options = append(o.Options, definitionOption{Type: 3, Name: "weather", Description: "x"})
			return d
		},
		"order of options":   func(d []definition) []definition { slices.Reverse(d[0].Options[0].Options); return d },
		"option name":        func(d []definition) []definition { d[0].Options[0].Options[0].Name += "s"; return d },
		"option type":        func(d []definition) []definition { d[0].Options[0].Options[0].Type = 4; return d },
		"option description": func(d []definition) []definition { d[0].Options[0].Options[0].Description += "!"; return d },
		"not required":       func(d []definition) []definition { d[0].Options[0].Options[0].Required = false; return d },
		"no autocomplete":    func(d []definition) []definition { d[0].Options[0].Options[1].Autocomplete = false; return d },
		"max length":         func(d []definition) []definition { d[0].Options[0].Options[0].MaxLength++; return d },
		"choice":             func(d []definition) []definition { d[0].Options[0].Options[2].Choices[0].Value += "!"; return d },
		"fewer choices": func(d []definition) []definition {
			o := &d[0].Options[0].Options[2]
			o.Choices = o.Choices[1:]
			return d
		},
		"channel types": func(d []definition) []definition {
			first(d, "club").Options[0].Options[0].ChannelTypes = []int{0}
			return d
		},
	} {
		t.Run(name, func(t *testing.T) {
			store, client := newCommandStore(t, change(table()))
			_, changed, err := trySync(t, client)
			if err != nil || !changed || store.puts != 1 {
				t.Errorf("changed %v, %d put, %v", changed, store.puts, err)
			}
			if _, changed, err = trySync(t, client); err != nil || changed {
				t.Errorf("again: changed %v, %v", changed, err)
			}
		})
	}
}

// TestForeignCommandsAreReplaced: what another program left there may have a
// form that we never send.
func TestForeignCommandsAreReplaced(t *testing.T) {
	for _, foreign := range []string{
		`{"id":"1","name":"dice","description":"d","type":1,"options":[{"type":4,"name":"n","description":"d","choices":[{"name":"six","value":6}]}]}`,
		`{"id":"1","name":"Show rider","description":"","type":2}`,
	} {
		store, client := newCommandStore(t, table())
		var extra map[string]any
		if err := json.Unmarshal([]byte(foreign), &extra); err != nil {
			t.Fatal(err)
		}
		store.commands = append(store.commands, extra)
		ids, changed, err := trySync(t, client)
		if err != nil || !changed || store.puts != 1 {
			t.Errorf("changed %v, %d put, %v", changed, store.puts, err)
		}
		checkIDs(t, store, ids)
	}
}

func TestRefusalsOfCommandsAreErrors(t *testing.T) {
	for name, c := range map[string]struct {
		failGet int
		failPut bool
		changed bool
		says    string
	}{
		"read":       {1, false, false, "read commands"},
		"put":        {0, true, false, "replace commands"},
		"read again": {2, false, true, "read replaced commands"},
	} {
		t.Run(name, func(t *testing.T) {
			store, client := newCommandStore(t, nil)
			store.failGet, store.failPut = c.failGet, c.failPut
			ids, changed, err := trySync(t, client)
			if err == nil || !strings.Contains(err.Error(), c.says) || changed != c.changed || ids != nil || api.Status(err) != 403 {
				t.Errorf("ids %v, changed %v, %v", ids, changed, err)
			}
		})
	}
}

func TestCommandsCanBeClicked(t *testing.T) {
	ids := idsOf([]json.RawMessage{
		json.RawMessage(`{"id":"123","name":"race","type":1}`), json.RawMessage(`{"id":"124","name":"ride"}`),
		json.RawMessage(`{"id":"125","name":"help","type":3}`), json.RawMessage(`null`), json.RawMessage(`{"id":5}`),
	})
	for command, want := range map[string]string{"race add": "</race add:123>", "ride": "</ride:124>", "help": "", "week share": "", "": ""} {
		if got := ids.mention(command); got != want {
			t.Errorf("%q: %q, want %q", command, got, want)
		}
	}
	if got := commandIDs(nil).mention("ride"); got != "" {
		t.Errorf("without ids: %q", got)
	}
}
