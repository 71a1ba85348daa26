package discordtest

import (
	"fmt"
	"slices"
	"strings"
)

// Press presses a button of a message by its label or custom id, or chooses from a
// menu by a label. The message may be an old copy, as on a phone that has not heard of an edit.
func (s *Server) Press(at At, m Message, button string) (*Interaction, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	current := s.messages.byID[m.ID]
	if current == nil {
		return nil, fmt.Errorf("discordtest: the message is gone")
	}
	ch := s.world.channels[current.ChannelID]
	if ch == nil {
		return nil, fmt.Errorf("discordtest: the channel is gone")
	}
	at.Guild, at.Channel = ch.guild, ch.ID
	at, ch, err := s.place(at)
	if err != nil {
		return nil, err
	}
	if current.Flags&FlagEphemeral != 0 && current.call != nil && current.call.At.User != at.User {
		return nil, fmt.Errorf("discordtest: only %s sees this message", current.call.At.User)
	}
	if ch.guild == "" && ch.recipient != at.User {
		return nil, fmt.Errorf("discordtest: only %s sees this channel", ch.recipient)
	}
	if ch.parent != "" && !slices.Contains(ch.members, at.User) {
		return nil, fmt.Errorf("discordtest: only its members see this thread")
	}
	for c := range walk(m.Components) {
		for _, o := range c.Options {
			if o.Label == button {
				i := &Interaction{Kind: kindComponent, At: at, Name: c.CustomID, source: current}
				return s.interact(i, ch, jsonMap{"custom_id": c.CustomID, "component_type": partMenu, "id": c.ID, "values": []string{o.Value}})
			}
		}
		if c.Type != partButton || c.Label != button && c.CustomID != button && !strings.HasPrefix(c.Label, button+" ") {
			continue
		}
		if c.Disabled || c.Style == linkStyle {
			return nil, fmt.Errorf("discordtest: the button %q cannot be pressed", button)
		}
		i := &Interaction{Kind: kindComponent, At: at, Name: c.CustomID, source: current}
		return s.interact(i, ch, jsonMap{"custom_id": c.CustomID, "component_type": partButton, "id": c.ID})
	}
	return nil, fmt.Errorf("discordtest: the message has no button %q", button)
}

// SubmitForm fills a form in and sends it. Fields are named by custom id or
// label; those left out keep the value that the form came with.
func (s *Server) SubmitForm(at At, m *Modal, fields map[string]string) (*Interaction, error) {
	if m == nil {
		return nil, fmt.Errorf("discordtest: there is no form")
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	at, ch, err := s.place(at)
	if err != nil {
		return nil, err
	}
	f := formFiller{fields: fields, used: map[string]bool{}}
	components := f.all(m.Components, "")
	for name := range fields {
		if !f.used[name] {
			f.fail("the form has no field %q", name)
		}
	}
	if f.err != nil {
		return nil, f.err
	}
	i := &Interaction{Kind: kindModal, At: at, Name: m.CustomID, source: m.source}
	return s.interact(i, ch, jsonMap{"custom_id": m.CustomID, "components": components, "resolved": jsonMap{}})
}

// formFiller turns the parts of a form into what comes back: rows and labels
// keep their shape, inputs come with their value.
type formFiller struct {
	fields map[string]string
	used   map[string]bool
	id     int
	err    error
}

func (f *formFiller) fail(format string, args ...any) {
	if f.err == nil {
		f.err = fmt.Errorf("discordtest: "+format, args...)
	}
}

func (f *formFiller) all(components []Component, label string) []jsonMap {
	out := []jsonMap{}
	for _, c := range components {
		out = append(out, f.one(c, label))
	}
	return out
}

func (f *formFiller) one(c Component, label string) jsonMap {
	f.id++
	out := jsonMap{"type": c.Type, "id": f.id}
	switch c.Type {
	case partRow:
		out["components"] = f.all(c.Components, "")
	case partLabel:
		if c.Component == nil {
			f.fail("a label without a component")
			return out
		}
		out["component"] = f.one(*c.Component, c.Label)
	case partInput:
		out["custom_id"], out["value"] = c.CustomID, f.input(c, label)
	case partText:
	default:
		f.fail("the double cannot fill in components of type %d", c.Type)
	}
	return out
}

func (f *formFiller) input(c Component, label string) string {
	value := c.Value
	for _, name := range []string{c.CustomID, c.Label, label} {
		if typed, ok := f.fields[name]; ok && name != "" {
			value, f.used[name] = typed, true
			break
		}
	}
	n := len([]rune(value))
	required := c.Required == nil || *c.Required
	switch {
	case required && n == 0:
		f.fail("the field %q is required", c.CustomID)
	case n > 4000 || c.MaxLength > 0 && n > c.MaxLength:
		f.fail("the field %q is too long", c.CustomID)
	case n > 0 && n < c.MinLength:
		f.fail("the field %q is too short", c.CustomID)
	}
	return value
}
