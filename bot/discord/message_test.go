package discord

import (
	"encoding/json"
	"strings"
	"testing"
)

func decodedMessage(t *testing.T, name string) message {
	t.Helper()
	var m message
	if err := json.Unmarshal(incomingFile(t, name), &m); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return m
}

func TestMessageInServer(t *testing.T) {
	m := decodedMessage(t, "message_server")
	author := riderMo
	author.Nick = "Mo (Marrow Vale)"
	wantEqual(t, m, message{
		ID: "1290000000000000008", ChannelID: "1270000000000000002", GuildID: "1270000000000000001", Type: messageReply, Author: author,
		Content: "hey <@1280000000000000001> what do I ride tomorrow? <@!1260000000000000002>",
		Roles:   []string{"1270000000000000011"}, Mentions: []string{testAppID, "1260000000000000002"},
	})
	wantEqual(t, m.name(), "Mo (Marrow Vale)")
	wantEqual(t, m.roles(), []string{"<@&1270000000000000011>"})
	wantEqual(t, m.fromPerson(), true)
	wantEqual(t, []bool{m.mentions(testAppID), m.mentions("1260000000000000001")}, []bool{true, false})
	wantEqual(t, m.question(testAppID), "hey what do I ride tomorrow? <@!1260000000000000002>")
}

func TestMessageInDirectChannel(t *testing.T) {
	m := decodedMessage(t, "message_direct")
	wantEqual(t, m.GuildID, "")
	wantEqual(t, m.name(), "ash")
	wantEqual(t, m.mentions(testAppID), false)
	wantEqual(t, m.fromPerson(), true)
	wantEqual(t, m.question(testAppID), "what do I ride tomorrow?")
}

func TestQuestionLosesTheMention(t *testing.T) {
	for content, want := range map[string]string{
		"<@7> ride":             "ride",
		"<@!7>ride":             "ride",
		"<@7>, what tomorrow?":  "what tomorrow?",
		"ride <@7>":             "ride",
		"<@7>":                  "",
		"<@7> <@7>\n<@!7>":      "",
		"<@77> ride":            "<@77> ride",
		"<@7> mon off\ntue off": "mon off\ntue off",
		"<<@7>@7> /help":        "<@7> /help", // one pass: what is left is not looked at again
	} {
		m := message{Content: content}
		if got := m.question("7"); got != want {
			t.Errorf("%q: %q, want %q", content, got, want)
		}
	}
}

func TestOnlyPeopleAreAnswered(t *testing.T) {
	for name, c := range map[string]struct {
		fields string
		want   bool
	}{
		"person":           {`"type":0,"author":{"id":"3"}`, true},
		"answer":           {`"type":19,"author":{"id":"3"}`, true},
		"bot":              {`"type":0,"author":{"id":"3","bot":true}`, false},
		"webhook":          {`"type":0,"webhook_id":"9","author":{"id":"3"}`, false},
		"Discord itself":   {`"type":0,"author":{"id":"3","system":true}`, false},
		"somebody joined":  {`"type":7,"author":{"id":"3"}`, false},
		"command's answer": {`"type":20,"author":{"id":"3"}`, false},
	} {
		var m message
		if err := json.Unmarshal([]byte(`{"id":"1","channel_id":"2",`+c.fields+`}`), &m); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if m.fromPerson() != c.want {
			t.Errorf("%s: from a person %v, want %v", name, !c.want, c.want)
		}
	}
}

func TestHostileMessages(t *testing.T) {
	for _, raw := range []string{
		``, `[]`, `{`, `{"id":"1"}`, `{"id":"1","channel_id":"2"}`, `{"id":"x","channel_id":"2","author":{"id":"3"}}`,
		`{"id":"1","channel_id":"` + untold + `","author":{"id":"3"}}`, `{"id":"1","channel_id":"2","author":{"id":"` + untold + `"}}`,
		`{"id":"1","channel_id":"2","guild_id":"` + untold + `","author":{"id":"3"}}`,
		`{"id":"1","channel_id":"2","author":{"id":"3"},"content":["` + untold + `"]}`,
		`{"id":"1","channel_id":"2","author":{"id":"3"},"mentions":"` + untold + `"}`,
	} {
		var m message
		err := json.Unmarshal([]byte(raw), &m)
		if err == nil {
			t.Errorf("%s: accepted", raw)
		} else if strings.Contains(err.Error(), untold) {
			t.Errorf("%s: error tells what was written: %v", raw, err)
		}
	}
}

func TestEventsOfServers(t *testing.T) {
	var ready readyEvent
	if err := json.Unmarshal([]byte(`{"v":10,"session_id":"s","user":{"id":"1","username":"musette","bot":true},
		"application":{"id":"2","flags":0},"guilds":[{"id":"3","unavailable":true},{"id":"4","unavailable":true}],"shard":[1,2]}`), &ready); err != nil {
		t.Fatal(err)
	}
	if len(ready.Guilds) != 2 || ready.Guilds[1].ID != "4" || ready.Shard != [2]int{1, 2} {
		t.Errorf("ready: %+v", ready)
	}
	var guild guildEvent
	if err := json.Unmarshal([]byte(`{"id":"3","name":"Marrow Vale Wheelers","unavailable":true,"roles":[{"id":"5"}]}`), &guild); err != nil {
		t.Fatal(err)
	}
	wantEqual(t, guild, guildEvent{ID: "3", Name: "Marrow Vale Wheelers", Unavailable: true})
	var channel channelEvent
	if err := json.Unmarshal([]byte(`{"id":"6","guild_id":"3","type":0,"name":"races"}`), &channel); err != nil {
		t.Fatal(err)
	}
	wantEqual(t, channel, channelEvent{ID: "6", GuildID: "3"})
}
