package gateway

import (
	"context"
	"testing"
	"time"

	"musette/bot/discord/api"
	"musette/bot/discord/discordtest"
)

// TestAgainstDouble resumes at the double, which was written apart from this package and
// keeps its own account of sessions, sequence numbers and versions.
func TestAgainstDouble(t *testing.T) {
	t.Parallel()
	d := discordtest.New(discordtest.Options{HeartbeatInterval: 10 * time.Second, RequireHeartbeats: true})
	t.Cleanup(d.Close)
	client, err := api.New(api.Config{Token: d.Token, Base: d.URL})
	if err != nil {
		t.Fatal(err)
	}
	cfg := setup{Config{NewSession: client.NewSession, Intents: 1, Pace: quick()}, client.GatewayInfo}
	r := start(t, cfg)
	r.event("READY")
	for i, end := range []func(){
		d.Drop,
		d.Reconnect,
		func() { d.ResumeReconnect(2); d.Drop() },
		func() { d.ResumeInvalid(1, true); d.Drop() },
		func() { d.CloseWith(4000) },
	} {
		end()
		if err := d.Dispatch("MISSED", i); err != nil {
			t.Fatal(err)
		}
		got := map[string]bool{} // a RESUME may be done before the event is sent
		for range 2 {
			select {
			case e := <-r.events:
				got[e.Type] = true
			case <-time.After(patience):
				t.Fatalf("end %d: only %v came", i, got)
			}
		}
		if !got["MISSED"] || !got["RESUMED"] {
			t.Fatalf("end %d: %v came", i, got)
		}
	}
	r.until("acknowledged", func(st Status) bool { return !st.LastAck.IsZero() })
	d.RequestHeartbeat()
	if err := d.Dispatch("AFTER", nil); err != nil {
		t.Fatal(err)
	}
	r.event("AFTER")
	if n := d.Counters(); n.Identifies != 1 || n.Resumed != 5 || n.Resumes != 8 || n.ResumeURL != 8 {
		t.Errorf("%+v", n)
	}
	d.InvalidateSessions()
	r.event("READY")

	r.cancel()
	if err := r.result(); err != nil {
		t.Error(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if err := d.WaitDisconnected(ctx); err != nil {
		t.Error(err)
	}
}
