package discordtest

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Interaction is what a person did with the bot: a command, a press of a button,
// a form sent, or offers asked for while typing.
type Interaction struct {
	ID   string
	Kind int    // 2 command, 3 component, 4 autocomplete, 5 form
	At   At     // with the channel filled in
	Name string // "race add", or the custom id

	s       *Server
	token   string
	payload json.RawMessage
	source  *Message // where the button was, also for a form that a button opened

	// The server's lock guards what follows.
	bell      bell
	created   time.Time
	delivered time.Time // when it first went out on a websocket
	answered  time.Time
	kind      int // of the first answer, 0 before it
	attempts  int
	refused   int
	edits     int // of the original answer
	original  *Message
	followUps []*Message
	choices   []Choice
	modal     *Modal
	copies    []delivery
}

// delivery is one copy of the event in a session.
type delivery struct {
	session *session
	seq     int64
}

// Choice is an offer of autocompletion.
type Choice struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
}

// Modal is a form that the bot showed.
type Modal struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []Component `json:"components"`

	source *Message
}

// Answer is what the person sees in the end. Kind is that of the first answer
// (4 message, 5 deferred, 6 deferred update, 7 update, 8 choices, 9 form);
// Message is the message after the edit that a deferral promised.
type Answer struct {
	Kind    int
	Message Message
	Choices []Choice
	Modal   *Modal // nil unless Kind is 9
}

// Text is what there is to read.
func (a Answer) Text() string {
	switch {
	case a.Modal != nil:
		lines := []string{a.Modal.Title}
		for c := range walk(a.Modal.Components) {
			for _, part := range []string{c.Label, c.Description, c.Content, c.Value} {
				if part != "" {
					lines = append(lines, part)
				}
			}
		}
		return strings.Join(lines, "\n")
	case a.Kind == answerChoices:
		var lines []string
		for _, c := range a.Choices {
			lines = append(lines, c.Name)
		}
		return strings.Join(lines, "\n")
	}
	return a.Message.Text()
}

// Buttons are the labels of the answer's buttons, in order.
func (a Answer) Buttons() []string { return a.Message.Buttons() }

// Ephemeral reports whether only the person who asked sees the answer.
func (a Answer) Ephemeral() bool { return a.Message.Flags&FlagEphemeral != 0 }

// Answer waits until the person would see the outcome: the first answer, or what
// a deferred one promised; of a press that was deferred without an edit the first message below it.
func (i *Interaction) Answer(ctx context.Context) (Answer, error) {
	var out Answer
	err := i.s.wait(ctx, &i.bell, func() bool {
		below := i.kind == answerDeferredUpdate && i.edits == 0 && len(i.followUps) > 0
		pending := i.kind == 0 || (i.kind == answerDeferred || i.kind == answerDeferredUpdate) && i.edits == 0 && !i.original.deleted
		if pending && !below {
			return false
		}
		out = Answer{Kind: i.kind, Choices: slices.Clone(i.choices), Modal: i.modal}
		if i.original != nil {
			out.Message = *i.original
		}
		if below {
			out.Message = *i.followUps[0]
		}
		return true
	})
	if err != nil {
		return out, fmt.Errorf("discordtest: %q (%s): %w", i.Name, i.State(), err)
	}
	return out, nil
}

// WaitFollowUps waits for n further messages and returns all there are.
func (i *Interaction) WaitFollowUps(ctx context.Context, n int) ([]Message, error) {
	err := i.s.wait(ctx, &i.bell, func() bool { return len(i.followUps) >= n })
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return copies(i.followUps), err
}

// FollowUps are the further messages so far.
func (i *Interaction) FollowUps() []Message {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return copies(i.followUps)
}

// State says in a few words how far the interaction came.
func (i *Interaction) State() string {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	switch {
	case i.delivered.IsZero():
		return "never delivered"
	case i.kind == 0 && i.refused > 0:
		return fmt.Sprintf("%d answers refused, none accepted", i.refused)
	case i.kind == 0:
		return "delivered, not answered"
	case i.edits == 0 && (i.kind == answerDeferred || i.kind == answerDeferredUpdate):
		return "deferred, never edited"
	}
	return fmt.Sprintf("answered with type %d", i.kind)
}

// Callbacks is how many first answers arrived, those that were refused included:
// 1 where the bot answered exactly once.
func (i *Interaction) Callbacks() int {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.attempts
}

// Refused is how many of the Callbacks were refused, too late or too many.
func (i *Interaction) Refused() int {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.refused
}

// Latency is the time from delivery to the accepted first answer, 0 before it.
func (i *Interaction) Latency() time.Duration {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	if i.answered.IsZero() || i.delivered.IsZero() {
		return 0
	}
	return i.answered.Sub(i.delivered)
}

// Received reports whether the client has surely got the event: it answered, or
// named a sequence as high in a heartbeat or RESUME.
func (i *Interaction) Received() bool {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.attempts > 0 || slices.ContainsFunc(i.copies, func(d delivery) bool { return d.session.acked >= d.seq })
}

// Redeliver sends the same event once more, as Discord sometimes does.
func (i *Interaction) Redeliver() error {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	if i.deliver() == 0 {
		return ErrNoSession
	}
	return nil
}

// Forget drops the interaction and its messages, so that long runs stay small.
func (i *Interaction) Forget() {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	delete(i.s.calls, i.token)
	for _, m := range append(i.followUps, i.original) {
		if m != nil && m.call == i {
			i.s.remove(m)
		}
	}
}

// deliver dispatches the event and counts the sessions that get it.
func (i *Interaction) deliver() int {
	return i.s.dispatch(event{name: "INTERACTION_CREATE", guild: i.At.Guild, data: i.payload,
		writing: func() {
			if i.delivered.IsZero() {
				i.delivered = time.Now()
			}
		},
		delivered: func(ses *session, seq int64) { i.copies = append(i.copies, delivery{ses, seq}) }})
}

// interact makes an interaction with its data and delivers it.
// The caller holds the lock.
func (s *Server) interact(i *Interaction, ch *channel, data jsonMap) (*Interaction, error) {
	i.s, i.ID, i.created = s, s.newID(), time.Now()
	i.token = "made-up-" + i.ID
	p := jsonMap{"id": i.ID, "application_id": s.AppID, "type": i.Kind, "token": i.token, "version": 1, "data": data,
		"channel_id": ch.ID, "channel": s.channelJSON(ch), "app_permissions": bits(ch.BotPermissions), "locale": i.At.Locale,
		"entitlements": []any{}, "attachment_size_limit": maxFile, "authorizing_integration_owners": owners(i.At)}
	if i.At.Guild == "" {
		p["user"], p["context"] = s.userJSON(i.At.User), 1
	} else {
		m := s.member(i.At.Guild, i.At.User)
		member := s.memberJSON(m, true)
		member["permissions"] = bits(m.Permissions)
		p["member"], p["context"], p["guild_id"], p["guild_locale"] = member, 0, i.At.Guild, "en-GB"
		p["guild"] = jsonMap{"id": i.At.Guild, "locale": "en-GB", "features": []string{}}
	}
	if i.source != nil {
		p["message"] = s.messageJSON(i.source)
	}
	i.payload = encode(p)
	if i.deliver() == 0 {
		return nil, ErrNoSession
	}
	s.calls[i.token] = i
	if f := &s.gateway.faults; f.duplicates > 0 {
		f.duplicates--
		i.deliver()
	}
	return i, nil
}

func owners(at At) jsonMap {
	if at.Guild == "" {
		return jsonMap{"0": "0"}
	}
	return jsonMap{"0": at.Guild}
}
