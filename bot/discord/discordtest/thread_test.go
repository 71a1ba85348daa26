package discordtest_test

import (
	"strings"
	"testing"

	"musette/bot/discord/discordtest"
)

func TestThreads(t *testing.T) {
	s := start(t, discordtest.Options{})
	g := wheelers(s)
	races, ines := g.ChannelID("races"), g.UserID("Ines")
	private := obj{"name": "Reminders", "type": 12}
	if a := rest(t, s, "POST", "/channels/"+races+"/threads", private); a.code() != 50013 {
		t.Errorf("a thread without the permission: %s", a.body)
	}
	if err := s.SetBotPermissions(races, discordtest.PermLeast|discordtest.PermThreads); err != nil {
		t.Fatal(err)
	}
	for name, body := range map[string]obj{"public": {"name": "x", "type": 11}, "nameless": {"type": 12}, "long": {"name": strings.Repeat("é", 101), "type": 12}} {
		if a := rest(t, s, "POST", "/channels/"+races+"/threads", body); a.code() != 50035 {
			t.Errorf("%s: %s", name, a.body)
		}
	}
	thread := rest(t, s, "POST", "/channels/"+races+"/threads", private)
	id := thread.text("id")
	if thread.status != 201 || thread.text("parent_id") != races {
		t.Fatalf("made %s", thread.body)
	}
	messages := "/channels/" + id + "/messages"
	if a := rest(t, s, "POST", messages, obj{"content": "x"}); a.code() != 50013 {
		t.Errorf("a message without the permission: %s", a.body)
	}
	if err := s.SetBotPermissions(races, discordtest.PermView|discordtest.PermInThreads); err != nil {
		t.Fatal(err)
	}
	for user, want := range map[string]int{ines: 204, "5": 404} {
		if a := rest(t, s, "PUT", "/channels/"+id+"/thread-members/"+user, nil); a.status != want {
			t.Errorf("member %s: %d %s", user, a.status, a.body)
		}
	}
	if a := rest(t, s, "PUT", "/channels/"+races+"/thread-members/"+ines, nil); a.code() != 50013 && a.code() != 50024 {
		t.Errorf("member of a channel: %s", a.body)
	}
	if a := rest(t, s, "POST", messages, obj{"content": "hello", "components": button}); a.status != 200 {
		t.Errorf("a message: %s", a.body)
	}
	if a := rest(t, s, "GET", messages, nil); string(a.body) != "[]" {
		t.Errorf("read without the permission: %s", a.body)
	}
	if err := s.SetBotPermissions(races, discordtest.PermView|discordtest.PermHistory); err != nil {
		t.Fatal(err)
	}
	if a := rest(t, s, "GET", messages, nil); !strings.Contains(string(a.body), "hello") {
		t.Errorf("read back: %s", a.body)
	}
	if all := s.Threads(races); len(all) != 1 || all[0].ID != id || all[0].Name != "Reminders" || len(all[0].Members) != 1 {
		t.Errorf("threads %+v", all)
	}
	if a := rest(t, s, "GET", "/guilds/"+g.ID+"/threads/active", nil); !strings.Contains(string(a.body), `"id":"`+id+`"`) {
		t.Errorf("active threads: %s", a.body)
	}
	if a := rest(t, s, "GET", "/guilds/5/threads/active", nil); a.code() != 10004 {
		t.Errorf("threads of a server that is not there: %s", a.body)
	}
	if _, err := s.Press(discordtest.At{User: g.UserID("Tomas")}, s.Sent(id)[0], "Go"); err == nil || !strings.Contains(err.Error(), "only its members") {
		t.Errorf("pressed by one who does not see it: %v", err)
	}
	if err := s.DeleteChannel(id); err != nil {
		t.Fatal(err)
	}
	if a := rest(t, s, "POST", messages, obj{"content": "x"}); a.code() != 10003 {
		t.Errorf("in a thread that is gone: %s", a.body)
	}
}

var button = []obj{{"type": 1, "components": []obj{{"type": 2, "style": 1, "label": "Go", "custom_id": "go"}}}}
