package api

import (
	"net/http"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestMessagesAreReadBack(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		say(w, 200, `[{"id":"9","author":{"id":"1"},"components":[{"type":1,"components":[{"type":2,"custom_id":"a"},{"type":2,"custom_id":"b"}]}]},{"id":"8","author":{"id":"3"},"content":"hi"}]`)
	})
	got, err := d.Messages(within(t), "5", "7", 50)
	want := []SeenMessage{{ID: "9", AuthorID: "1", CustomIDs: []string{"a", "b"}}, {ID: "8", AuthorID: "3"}}
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("%v %s", err, diff)
	}
	if r := d.requests()[0]; r.method != "GET" || r.path != "/api/v10/channels/5/messages" || r.query != "after=7&limit=50" {
		t.Errorf("%s %s?%s", r.method, r.path, r.query)
	}
}

// Two threads would be worse than none; a member who is added twice is there once.
func TestThreadsAreNotMadeTwice(t *testing.T) {
	answer := func(n int, w http.ResponseWriter, r *http.Request) {
		if n == 1 {
			hangUp(t, w)
			return
		}
		w.WriteHeader(http.StatusNoContent)
	}
	d := newDouble(t, answer)
	if _, err := d.CreateThread(within(t), "5", "Reminders"); err == nil || len(d.requests()) != 1 {
		t.Errorf("%d requests, %v", len(d.requests()), err)
	}
	d = newDouble(t, answer)
	if err := d.AddThreadMember(within(t), "7", "3"); err != nil || len(d.requests()) != 2 {
		t.Errorf("%d requests, %v", len(d.requests()), err)
	}
	if r := d.requests()[1]; r.method != "PUT" || r.path != "/api/v10/channels/7/thread-members/3" {
		t.Errorf("%s %s", r.method, r.path)
	}
}
