package discord

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"musette/storage"
)

func incomingFile(t *testing.T, name string) json.RawMessage {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("testdata", "incoming", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func decodedInteraction(t *testing.T, name string) interaction {
	t.Helper()
	i, err := decodeInteraction(incomingFile(t, name))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return i
}

// wantEqual compares all fields.
func wantEqual(t *testing.T, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

const testAppID = "1280000000000000001"

var riderMo = userInfo{ID: "1260000000000000001", Username: "mo.fern", GlobalName: "Mo Fern"}

func TestCommandInServer(t *testing.T) {
	nicked := riderMo
	nicked.Nick = "Mo (Marrow Vale)"
	wantEqual(t, decodedInteraction(t, "command_server"), interaction{
		ID: "1290000000000000001", AppID: testAppID, Token: "aW50ZXJhY3Rpb246bWFkZS11cA", Kind: kindCommand,
		GuildID: "1270000000000000001", User: nicked, Roles: []string{"1270000000000000011", "1270000000000000012"}, Permissions: 2248473465835105,
		Command: "race add", ResolvedChannels: map[string]resolvedChannel{},
		Options: map[string]string{"name": "Hill Loop", "date": "13 June", "priority": "A", "days": "3", "hours": "3.5", "announce": "true"},
	})
}

func TestCommandInDirectMessage(t *testing.T) {
	wantEqual(t, decodedInteraction(t, "command_direct"), interaction{
		ID: "1290000000000000002", AppID: testAppID, Token: "ZGlyZWN0OmFsc28tbWFkZS11cA", Kind: kindCommand, Private: true,
		User: userInfo{ID: "1260000000000000002", Username: "ash"}, Command: "ride", Options: map[string]string{}, ResolvedChannels: map[string]resolvedChannel{},
	})
}

func TestChannelsAndRolesBecomeReferences(t *testing.T) {
	i := decodedInteraction(t, "command_setup")
	wantEqual(t, i.Command, "club setup")
	wantEqual(t, i.Options, map[string]string{"channel": "<#1270000000000000004>", "coach-role": "<@&1270000000000000011>"})
	own := uint64(1024)
	wantEqual(t, i.ResolvedChannels, map[string]resolvedChannel{"1270000000000000004": {AppPermissions: &own}})
}

func TestOffersAreAskedFor(t *testing.T) {
	i := decodedInteraction(t, "autocomplete")
	wantEqual(t, i.Kind, kindAutocomplete)
	wantEqual(t, i.Command, "race change")
	wantEqual(t, i.Focused, "race")
	wantEqual(t, i.Options, map[string]string{"race": "hil", "date": "13 June"})
}

func TestPressedButton(t *testing.T) {
	wantEqual(t, decodedInteraction(t, "component"), interaction{
		ID: "1290000000000000005", AppID: testAppID, Token: "cHJlc3M6bWFkZS11cA", Kind: kindComponent, Private: true,
		GuildID: "1270000000000000001", User: riderMo, Roles: []string{}, Permissions: 8, CustomID: "v1:k3f9w",
	})
}

func TestFormFields(t *testing.T) {
	labels := decodedInteraction(t, "modal_labels")
	wantEqual(t, labels.CustomID, "v1:form")
	wantEqual(t, labels.Fields, map[string]string{"week": "mon off\ntue intervals 1h30 5x3min", "keep": "true"})
	wantEqual(t, labels.Private, true)

	rows := decodedInteraction(t, "modal_rows")
	wantEqual(t, rows.Fields, map[string]string{"week": "sat long 3h", "from": ""})
	wantEqual(t, rows.Private, false)
}

func TestRequestSaysWhoAsks(t *testing.T) {
	now := time.Date(2026, time.May, 18, 7, 0, 0, 0, time.UTC)
	i := decodedInteraction(t, "command_server")
	req := i.request(now)
	wantEqual(t, req.Command, "race add")
	wantEqual(t, req.Options, i.Options)
	wantEqual(t, req.Athlete, "Mo (Marrow Vale)")
	wantEqual(t, req.AthleteKey, storage.PlatformKey("discord", "1260000000000000001"))
	wantEqual(t, req.Roles, []string{"<@&1270000000000000011>", "<@&1270000000000000012>"})
	wantEqual(t, []bool{req.Admin, req.Ask, req.Forms, req.Coach}, []bool{true, true, true, false})
	wantEqual(t, req.Now, now)

	i = decodedInteraction(t, "command_direct")
	direct := i.request(now)
	wantEqual(t, direct.Athlete, "ash")
	wantEqual(t, direct.Admin, false)
	if len(direct.Roles) != 0 {
		t.Errorf("roles %q", direct.Roles)
	}
	i = decodedInteraction(t, "component")
	wantEqual(t, i.request(now).Ask, false)
	wantEqual(t, i.request(now).Athlete, "Mo Fern")
}

func TestWhoRunsTheServer(t *testing.T) {
	for permissions, want := range map[string]bool{
		"": false, "0": false, "4": false, "16": false, "8": true, "32": true, "40": true, "52224": false,
		"-8": false, "8x": false, "18446744073709551615": true,
		"18446744073709551616": false, // more than can be read is no right
	} {
		i := interaction{User: riderMo, Permissions: rights(permissions)}
		if got := i.request(time.Time{}).Admin; got != want {
			t.Errorf("permissions %q: admin %v, want %v", permissions, got, want)
		}
	}
}

func TestKindsHaveNames(t *testing.T) {
	for kind, want := range map[interactionKind]string{-1: "-1", 0: "0", kindPing: "ping", kindCommand: "command",
		kindComponent: "component", kindAutocomplete: "autocomplete", kindModal: "modal", 6: "6"} {
		wantEqual(t, kind.String(), want)
	}
}

func TestPingNeedsNobody(t *testing.T) {
	i, err := decodeInteraction(json.RawMessage(`{"id":"1","token":"t","type":1}`))
	if err != nil || i.Kind != kindPing {
		t.Errorf("%+v, %v", i, err)
	}
}

// untold stands for what people write and for what lets the bot answer.
const untold = "never-in-an-error"

func TestHostilePayloads(t *testing.T) {
	deep := strings.Repeat(`{"name":"x","type":2,"options":[`, 5000) + strings.Repeat(`]}`, 5000)
	user := `"user":{"id":"1","username":"` + untold + `"}`
	for name, raw := range map[string]string{
		"nothing":        ``,
		"no JSON":        `{"id":"1","token":"` + untold + `"`,
		"null":           `null`,
		"list":           `["` + untold + `"]`,
		"no id":          `{"token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride"}}`,
		"no token":       `{"id":"1","type":2,` + user + `,"data":{"name":"ride"}}`,
		"odd id":         `{"id":"1/../2","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride"}}`,
		"long id":        `{"id":"111111111111111111111","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride"}}`,
		"number as id":   `{"id":1,"token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride"}}`,
		"odd guild":      `{"id":"1","token":"` + untold + `","type":2,"guild_id":"x",` + user + `,"data":{"name":"ride"}}`,
		"nobody":         `{"id":"1","token":"` + untold + `","type":2,"data":{"name":"ride"}}`,
		"empty member":   `{"id":"1","token":"` + untold + `","type":2,"member":{},"data":{"name":"ride"}}`,
		"odd user":       `{"id":"1","token":"` + untold + `","type":2,"user":{"id":"` + untold + `"},"data":{"name":"ride"}}`,
		"unknown kind":   `{"id":"1","token":"` + untold + `","type":6,` + user + `}`,
		"kind as text":   `{"id":"1","token":"` + untold + `","type":"2",` + user + `}`,
		"no name":        `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{}}`,
		"data is a list": `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":[]}`,
		"no value":       `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride","options":[{"name":"day","type":3}]}}`,
		"null value":     `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride","options":[{"name":"day","type":3,"value":null}]}}`,
		"object value":   `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride","options":[{"name":"day","type":3,"value":{"a":"` + untold + `"}}]}}`,
		"nameless":       `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"ride","options":[{"type":3,"value":"x"}]}}`,
		"two subs":       `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"race","options":[{"name":"a","type":1},{"name":"b","type":1}]}}`,
		"odd role":       `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"club","options":[{"name":"r","type":8,"value":"1> @everyone"}]}}`,
		"odd reference":  `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"club","options":[{"name":"r","type":7,"value":true}]}}`,
		"deep options":   `{"id":"1","token":"` + untold + `","type":2,` + user + `,"data":{"name":"race","options":[` + deep + `]}}`,
		"no custom id":   `{"id":"1","token":"` + untold + `","type":3,` + user + `,"data":{}}`,
		"form without":   `{"id":"1","token":"` + untold + `","type":5,` + user + `}`,
	} {
		_, err := decodeInteraction(json.RawMessage(raw))
		if err == nil {
			t.Errorf("%s: accepted", name)
		} else if strings.Contains(err.Error(), untold) {
			t.Errorf("%s: error tells what is secret: %v", name, err)
		}
	}
}

func TestDeepFormIsCutOff(t *testing.T) {
	raw := `{"id":"1","token":"t","type":5,"user":{"id":"1"},"data":{"custom_id":"c","components":[` +
		`{"component":{"custom_id":"week","value":"off"}},` +
		strings.Repeat(`{"components":[`, 500) + `{"custom_id":"deep","value":"x"}` + strings.Repeat(`]}`, 500) + `]}}`
	i, err := decodeInteraction(json.RawMessage(raw))
	if err != nil {
		t.Fatal(err)
	}
	wantEqual(t, i.Fields, map[string]string{"week": "off"})
}

func TestUnknownOptionsArePassedOn(t *testing.T) {
	i, err := decodeInteraction(json.RawMessage(`{"id":"1","token":"t","type":2,"user":{"id":"1"},
		"data":{"name":"gone","options":[{"name":"what","type":3,"value":"x"}]}}`))
	if err != nil {
		t.Fatal(err)
	}
	wantEqual(t, i.Command, "gone")
	wantEqual(t, i.Options, map[string]string{"what": "x"})
}

func TestNamesOfAllLevels(t *testing.T) {
	i, err := decodeInteraction(json.RawMessage(`{"id":"1","token":"t","type":2,"user":{"id":"1"},"data":{"name":"shed","options":[
		{"name":"door","type":2,"options":[{"name":"open","type":1,"options":[{"name":"day","type":3,"value":"friday"}]}]}]}}`))
	if err != nil {
		t.Fatal(err)
	}
	wantEqual(t, i.Command, "shed door open")
	wantEqual(t, i.Options, map[string]string{"day": "friday"})
}

func TestWhatOnlyOnePersonSees(t *testing.T) {
	for where, want := range map[string]bool{
		`"message":{"id":"5","flags":0}`:                    true, // a direct message
		`"guild_id":"7","message":{"id":"5","flags":0}`:     false,
		`"guild_id":"7","message":{"id":"5","flags":64}`:    true,
		`"guild_id":"7","message":{"id":"5","flags":32832}`: true,
		`"guild_id":"7","message":{"id":"5","flags":32768}`: false,
		`"guild_id":"7"`: false,
	} {
		i, err := decodeInteraction(json.RawMessage(`{"id":"1","token":"t","type":3,"user":{"id":"1"},"data":{"custom_id":"c"},` + where + `}`))
		if err != nil {
			t.Fatal(err)
		}
		if i.Private != want {
			t.Errorf("%s: private %v, want %v", where, i.Private, want)
		}
	}
}

// FuzzInteraction: no payload panics, and what is accepted can be answered and
// belongs to somebody.
func FuzzInteraction(f *testing.F) {
	files, err := filepath.Glob("testdata/incoming/*.json")
	if err != nil || len(files) == 0 {
		f.Fatal("no payloads to begin with", err)
	}
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		var m message
		if err := json.Unmarshal(raw, &m); err == nil && string(raw) != "null" {
			if !isID(m.ID) || !isID(m.Author.ID) || !isID(m.ChannelID) {
				t.Errorf("accepted message %+v", m)
			}
			m.question(testAppID)
		}
		i, err := decodeInteraction(raw)
		if err != nil {
			return
		}
		if !isID(i.ID) || i.Token == "" || i.Kind < kindPing || i.Kind > kindModal {
			t.Errorf("accepted %+v", i)
		}
		req := i.request(time.Time{})
		if i.Kind == kindPing {
			return
		}
		if id, ok := req.AthleteKey.ID(platform); !ok || !isID(id) || i.GuildID != "" && !isID(i.GuildID) {
			t.Errorf("request of nobody: %+v", req)
		}
		if !maps.Equal(req.Options, i.Options) {
			t.Errorf("options %q became %q", i.Options, req.Options)
		}
	})
}
