package discordtest_test

import (
	"encoding/json"
	"sync"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

// TestManyAtOnce answers from many goroutines while others drive and look on.
func TestManyAtOnce(t *testing.T) {
	const people, each = 4, 10
	c := open(t, discordtest.Options{AnswerWithin: patience})
	var answering sync.WaitGroup
	heard := make(chan struct{})
	go func() {
		defer close(heard)
		for range people * each {
			var in incoming
			if err := json.Unmarshal(c.c.want(0, "INTERACTION_CREATE"), &in); err != nil {
				t.Error(err)
			}
			answering.Go(func() {
				if _, err := try(c.s, "POST", "/interactions/"+in.ID+"/"+in.Token+"/callback", obj{"type": 5}); err != nil {
					t.Error(err)
				}
				if _, err := try(c.s, "PATCH", c.webhook(in, "/messages/@original"), obj{"content": "done"}); err != nil {
					t.Error(err)
				}
			})
		}
	}()
	ctx := soon(t)
	var driving sync.WaitGroup
	for range people {
		driving.Go(func() {
			for range each {
				i, err := c.s.Command(c.server, "ride", nil)
				if err != nil {
					t.Error(err)
					return
				}
				if a, err := i.Answer(ctx); err != nil || a.Text() != "done" || i.Callbacks() != 1 {
					t.Errorf("%q, %v, %d callbacks", a.Text(), err, i.Callbacks())
				}
				c.s.Counters()
				c.s.Requests()
			}
		})
	}
	driving.Wait()
	<-heard
	answering.Wait()
}

// TestCloseEndsEverything: silent, mute and delayed ones too; goleak looks after it.
func TestCloseEndsEverything(t *testing.T) {
	s := discordtest.New(discordtest.Options{})
	login(t, s, 0)
	s.Silence()
	s.NoHello(1)
	dial(t, s, "/gateway")
	s.DelayReady(time.Hour)
	late := dial(t, s, "/gateway")
	late.want(10, "")
	late.send(2, identify(s))
	f := s.Fail(discordtest.Rule{Path: "/users/@me", Delay: time.Hour})
	failed := make(chan error, 1)
	go func() {
		_, err := try(s, "GET", "/users/@me", nil)
		failed <- err
	}()
	if err := s.WaitCounters(soon(t), func(n discordtest.Counters) bool { return n.Identifies == 2 }); err != nil {
		t.Fatal(err)
	}
	if err := s.WaitRequests(soon(t), 1); err != nil { // recorded before the delay
		t.Fatal(err)
	}
	s.Close()
	if err := <-failed; err == nil || f.Hits() != 1 {
		t.Errorf("the delayed request ended with %v, %d hits", err, f.Hits())
	}
	if _, err := s.WaitSent(soon(t), "1", 1); err == nil {
		t.Error("waiting on a closed double ended well")
	}
}
