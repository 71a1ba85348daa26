package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"
)

// Kinds of interactions.
const (
	kindCommand      = 2
	kindComponent    = 3
	kindAutocomplete = 4
	kindModal        = 5
)

// Kinds of first answers.
const (
	answerMessage        = 4
	answerDeferred       = 5
	answerDeferredUpdate = 6
	answerUpdate         = 7
	answerChoices        = 8
	answerModal          = 9
)

// callback is the first answer to an interaction.
func (s *Server) callback(c *call) reply {
	i := s.calls[c.r.PathValue("token")]
	if i == nil || i.ID != c.r.PathValue("id") {
		return failure(10062)
	}
	i.attempts++
	answer := s.firstAnswer(i, c)
	if answer.status >= 400 {
		i.refused++
	}
	i.bell.ring()
	return answer
}

func (s *Server) firstAnswer(i *Interaction, c *call) reply {
	switch {
	case i.kind != 0:
		return failure(40060)
	case i.expired(c.at):
		return failure(10062)
	}
	var body struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if json.Unmarshal(c.body, &body) != nil {
		return formFault("_misc", "DICT_TYPE_CONVERT", "Only dictionaries may be used in a DictType")
	}
	if !i.takes(body.Type) {
		return formFault("type", "INTERACTION_CALLBACK_TYPE_INVALID", fmt.Sprintf("Type %d does not answer this interaction", body.Type))
	}
	if refused := s.take(i, body.Type, body.Data, c.files); refused != nil {
		return *refused
	}
	i.kind, i.answered = body.Type, c.at
	if c.r.URL.Query().Get("with_response") != "true" {
		return reply{status: http.StatusNoContent}
	}
	out := jsonMap{"interaction": jsonMap{"id": i.ID, "type": i.Kind}, "resource": jsonMap{"type": i.kind}}
	if i.original != nil {
		out["resource"] = jsonMap{"type": i.kind, "message": s.messageJSON(i.original)}
	}
	return ok(out)
}

// expired reports that the time for a first answer is over. Discord counts from what the person
// did. How long the double takes to write is left out, but not how long a broken session kept the event.
func (i *Interaction) expired(at time.Time) bool {
	within := i.s.opts.AnswerWithin
	return !i.delivered.IsZero() && (at.Sub(i.delivered) > within || i.delivered.Sub(i.created) > within)
}

// takes says which answers fit which interactions.
func (i *Interaction) takes(kind int) bool {
	switch kind {
	case answerMessage, answerDeferred:
		return i.Kind != kindAutocomplete
	case answerDeferredUpdate, answerUpdate:
		return (i.Kind == kindComponent || i.Kind == kindModal) && i.source != nil
	case answerChoices:
		return i.Kind == kindAutocomplete
	case answerModal:
		return i.Kind == kindCommand || i.Kind == kindComponent
	}
	return false
}

// take carries the answer out.
func (s *Server) take(i *Interaction, kind int, data json.RawMessage, files []File) *reply {
	var flags struct {
		Flags int `json:"flags"`
	}
	if len(data) > 0 && json.Unmarshal(data, &flags) != nil {
		return ptr(formFault("data", "DICT_TYPE_CONVERT", "Only dictionaries may be used in a DictType"))
	}
	switch kind {
	case answerMessage, answerDeferred:
		m := &Message{ChannelID: i.At.Channel, AuthorID: s.BotID, Flags: flags.Flags & FlagEphemeral, call: i}
		if kind == answerDeferred {
			m.Flags |= flagLoading
		} else if refused := s.fill(m, data, files); refused != nil {
			return refused
		}
		s.add(m)
		i.original = m
	case answerDeferredUpdate:
		i.original = i.source
	case answerUpdate:
		if i.source.deleted {
			return ptr(failure(10008))
		}
		if refused := s.fill(i.source, data, files); refused != nil {
			return refused
		}
		i.source.Edited = time.Now()
		i.original, i.edits = i.source, i.edits+1
	case answerChoices:
		return i.takeChoices(data)
	case answerModal:
		return i.takeModal(data)
	}
	return nil
}

func (i *Interaction) takeChoices(data json.RawMessage) *reply {
	var body struct {
		Choices []Choice `json:"choices"`
	}
	switch {
	case json.Unmarshal(data, &body) != nil || body.Choices == nil:
		return ptr(formFault("data.choices", "BASE_TYPE_REQUIRED", "This field is required"))
	case len(body.Choices) > 25:
		return ptr(formFault("data.choices", "BASE_TYPE_MAX_LENGTH", "Must be 25 or fewer in length."))
	}
	i.choices = body.Choices
	return nil
}

func (i *Interaction) takeModal(data json.RawMessage) *reply {
	var m Modal
	if json.Unmarshal(data, &m) != nil || m.CustomID == "" || m.Title == "" {
		return ptr(formFault("data.custom_id", "BASE_TYPE_REQUIRED", "This field is required"))
	}
	if n := len(m.Components); n < 1 || n > 5 {
		return ptr(formFault("data.components", "BASE_TYPE_BAD_LENGTH", "Must be between 1 and 5 in length."))
	}
	m.source = i.source
	i.modal = &m
	return nil
}

// webhook finds the interaction of a call with an interaction token. Before the
// first answer there is no webhook.
func (s *Server) webhook(c *call) (*Interaction, *reply) {
	i := s.calls[c.r.PathValue("token")]
	switch {
	case c.r.PathValue("app") != s.AppID:
		return nil, ptr(failure(10015))
	case i == nil:
		return nil, ptr(failure(50027))
	case c.at.Sub(i.created) > s.opts.TokenLife:
		return nil, ptr(failure(50027))
	case i.kind == 0 || i.kind == answerChoices || i.kind == answerModal:
		return nil, ptr(failure(10015))
	}
	return i, nil
}

// answerOf finds @original or a follow-up of the call.
func (s *Server) answerOf(c *call) (*Interaction, *Message, *reply) {
	i, refused := s.webhook(c)
	if refused != nil {
		return nil, nil, refused
	}
	id := c.r.PathValue("message")
	if m := i.original; m != nil && !m.deleted && (id == "@original" || id == m.ID) {
		return i, m, nil
	}
	for _, m := range i.followUps {
		if m.ID == id && !m.deleted {
			return i, m, nil
		}
	}
	return nil, nil, ptr(failure(10008))
}

func (s *Server) getAnswer(c *call) reply {
	_, m, refused := s.answerOf(c)
	if refused != nil {
		return *refused
	}
	return ok(s.messageJSON(m))
}

func (s *Server) editAnswer(c *call) reply {
	i, m, refused := s.answerOf(c)
	if refused != nil {
		return *refused
	}
	return s.edit(i, m, c)
}

func (s *Server) edit(i *Interaction, m *Message, c *call) reply {
	if refused := s.fill(m, c.body, c.files); refused != nil {
		return *refused
	}
	if m.Flags&flagLoading == 0 {
		m.Edited = c.at
	}
	m.Flags &^= flagLoading
	if m == i.original {
		i.edits++
	}
	i.bell.ring()
	return ok(s.messageJSON(m))
}

func (s *Server) deleteAnswer(c *call) reply {
	i, m, refused := s.answerOf(c)
	if refused != nil {
		return *refused
	}
	s.remove(m)
	i.bell.ring()
	return reply{status: http.StatusNoContent}
}

// followUp writes a further message. The first one after a deferral takes the
// place of the answer that is still pending.
func (s *Server) followUp(c *call) reply {
	i, refused := s.webhook(c)
	if refused != nil {
		return *refused
	}
	if m := i.original; m != nil && !m.deleted && m.Flags&flagLoading != 0 {
		return s.edit(i, m, c)
	}
	var body struct {
		Flags int `json:"flags"`
	}
	if len(c.body) > 0 && json.Unmarshal(c.body, &body) != nil {
		return formFault("_misc", "DICT_TYPE_CONVERT", "Only dictionaries may be used in a DictType")
	}
	m := &Message{ChannelID: i.At.Channel, AuthorID: s.BotID, Flags: body.Flags & FlagEphemeral, call: i}
	if refused := s.fill(m, c.body, c.files); refused != nil {
		return *refused
	}
	s.add(m)
	i.followUps = append(i.followUps, m)
	i.bell.ring()
	return ok(s.messageJSON(m))
}
