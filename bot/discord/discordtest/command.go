package discordtest

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Command types a slash command, "race add" with its options by name, and
// delivers it. What a person could not type is an error: unknown names, a
// required option left out, a choice that is none. Channels, roles and users are
// given by id or name. Numbers may be given as text.
func (s *Server) Command(at At, name string, options map[string]any) (*Interaction, error) {
	return s.typed(at, name, options, "")
}

// Autocomplete asks for offers for the focused option, whose text so far is
// among the options. The answer has Choices.
func (s *Server) Autocomplete(at At, name string, options map[string]any, focused string) (*Interaction, error) {
	if focused == "" {
		return nil, fmt.Errorf("discordtest: no option has the focus")
	}
	return s.typed(at, name, options, focused)
}

func (s *Server) typed(at At, name string, options map[string]any, focused string) (*Interaction, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at, ch, err := s.place(at)
	if err != nil {
		return nil, err
	}
	d, path, leaf, err := s.find(name)
	if err != nil {
		return nil, err
	}
	if err := s.allowed(d, at); err != nil {
		return nil, err
	}
	t := typist{s: s, at: at, focused: focused, resolved: jsonMap{}}
	values, err := t.options(name, leaf, options)
	if err != nil {
		return nil, err
	}
	for _, sub := range slices.Backward(path) {
		values = []jsonMap{{"name": sub.Name, "type": sub.Type, "options": values}}
	}
	data := jsonMap{"id": d.ID, "name": d.Name, "type": d.Type}
	if len(values) > 0 {
		data["options"] = values
	}
	if len(t.resolved) > 0 {
		data["resolved"] = t.resolved
	}
	kind := kindCommand
	if focused != "" {
		kind = kindAutocomplete
	}
	return s.interact(&Interaction{Kind: kind, At: at, Name: name}, ch, data)
}

// find walks "race add" down to the options that take values.
func (s *Server) find(name string) (d *definition, path []optionDefinition, leaf []optionDefinition, err error) {
	words := strings.Fields(name)
	if len(words) == 0 {
		return nil, nil, nil, fmt.Errorf("discordtest: no command named")
	}
	for _, c := range s.commands {
		if c.Name == words[0] && c.Type == 1 {
			d = c
		}
	}
	if d == nil {
		return nil, nil, nil, fmt.Errorf("discordtest: no command /%s is registered", words[0])
	}
	leaf = d.Options
	for _, word := range words[1:] {
		n := slices.IndexFunc(leaf, func(o optionDefinition) bool { return o.Name == word && o.Type <= argGroup })
		if n < 0 {
			return nil, nil, nil, fmt.Errorf("discordtest: /%s has no subcommand %q", d.Name, word)
		}
		path, leaf = append(path, leaf[n]), leaf[n].Options
	}
	if len(leaf) > 0 && leaf[0].Type <= argGroup {
		return nil, nil, nil, fmt.Errorf("discordtest: /%s needs a subcommand", name)
	}
	return d, path, leaf, nil
}

// allowed keeps to contexts and default_member_permissions.
func (s *Server) allowed(d *definition, at At) error {
	context := 0
	if at.Guild == "" {
		context = 1
	}
	if d.Contexts != nil && !slices.Contains(d.Contexts, context) {
		return fmt.Errorf("discordtest: /%s is not offered in context %d", d.Name, context)
	}
	if d.Permissions == nil || d.open || at.Guild == "" {
		return nil
	}
	needed, err := strconv.ParseInt(*d.Permissions, 10, 64)
	if err != nil {
		return fmt.Errorf("discordtest: /%s: default_member_permissions: %w", d.Name, err)
	}
	have := s.member(at.Guild, at.User).Permissions
	if have&PermAdmin == 0 && (needed == 0 || have&needed != needed) {
		return fmt.Errorf("discordtest: /%s is not offered to this member", d.Name)
	}
	return nil
}

// typist turns what is typed into option values.
type typist struct {
	s        *Server
	at       At
	focused  string
	resolved jsonMap
}

func (t *typist) options(command string, known []optionDefinition, given map[string]any) ([]jsonMap, error) {
	for name := range given {
		if !slices.ContainsFunc(known, func(o optionDefinition) bool { return o.Name == name }) {
			return nil, fmt.Errorf("discordtest: /%s has no option %q", command, name)
		}
	}
	var out []jsonMap
	for _, o := range known {
		value, ok := given[o.Name]
		focus := o.Name == t.focused
		switch {
		case focus && !o.Autocomplete:
			return nil, fmt.Errorf("discordtest: option %q of /%s has no autocompletion", o.Name, command)
		case focus && !ok:
			value = ""
		case !ok && o.Required && t.focused == "":
			return nil, fmt.Errorf("discordtest: /%s needs option %q", command, o.Name)
		case !ok:
			continue
		}
		entry := jsonMap{"name": o.Name, "type": o.Type}
		if focus {
			entry["focused"], entry["value"] = true, fmt.Sprint(value) // partial input is not checked
			out = append(out, entry)
			continue
		}
		value, err := t.value(o, value)
		if err != nil {
			return nil, fmt.Errorf("discordtest: option %q of /%s: %w", o.Name, command, err)
		}
		entry["value"] = value
		out = append(out, entry)
	}
	if t.focused != "" && !slices.ContainsFunc(known, func(o optionDefinition) bool { return o.Name == t.focused }) {
		return nil, fmt.Errorf("discordtest: /%s has no option %q", command, t.focused)
	}
	return out, nil
}

func (t *typist) value(o optionDefinition, value any) (any, error) {
	text := fmt.Sprint(value)
	switch o.Type {
	case argString:
		n := len([]rune(text))
		if n < o.MinLength || n > 6000 || o.MaxLength > 0 && n > o.MaxLength {
			return nil, fmt.Errorf("its length of %d is not allowed", n)
		}
		return chosen(o, text, func(c any) bool { return c == text })
	case argInteger, argNumber:
		n, err := strconv.ParseFloat(text, 64)
		switch {
		case err != nil:
			return nil, fmt.Errorf("%q is not a number", text)
		case o.Type == argInteger && (n != math.Trunc(n) || math.Abs(n) > 1<<53-1):
			return nil, fmt.Errorf("%q is not an integer", text)
		case o.MinValue != nil && n < *o.MinValue, o.MaxValue != nil && n > *o.MaxValue:
			return nil, fmt.Errorf("%q is out of range", text)
		}
		return chosen(o, json.Number(text), func(c any) bool { return c == n })
	case argBool:
		on, err := strconv.ParseBool(text)
		if err != nil {
			return nil, fmt.Errorf("%q is neither true nor false", text)
		}
		return on, nil
	case argUser, argChannel, argRole:
		return t.resolve(o, text)
	}
	return nil, fmt.Errorf("the double cannot type options of type %d", o.Type)
}

// chosen holds a value to the choices, which may be given by name.
func chosen(o optionDefinition, value any, is func(any) bool) (any, error) {
	if len(o.Choices) == 0 {
		return value, nil
	}
	for _, c := range o.Choices {
		if is(c.Value) || c.Name == fmt.Sprint(value) {
			return c.Value, nil
		}
	}
	return nil, fmt.Errorf("%q is not among the choices", fmt.Sprint(value))
}

// resolve finds what an id or name means and describes it in "resolved".
func (t *typist) resolve(o optionDefinition, text string) (string, error) {
	g := t.s.world.guilds[t.at.Guild]
	if g == nil {
		return "", fmt.Errorf("there are no members, channels and roles outside a guild")
	}
	switch o.Type {
	case argUser:
		if id := g.UserID(text); id != "" {
			t.describe("users", id, t.s.userJSON(id))
			m := t.s.member(g.ID, id)
			member := t.s.memberJSON(m, false)
			member["permissions"] = bits(m.Permissions)
			t.describe("members", id, member)
			return id, nil
		}
	case argRole:
		for n, r := range g.Roles {
			if id := g.RoleID(text); id == r.ID {
				t.describe("roles", id, roleJSON(r, n+1))
				return id, nil
			}
		}
	case argChannel:
		ch := t.s.world.channels[g.ChannelID(text)]
		if ch == nil {
			break
		}
		if len(o.ChannelTypes) > 0 && !slices.Contains(o.ChannelTypes, ch.Type) {
			return "", fmt.Errorf("%q is not of the channel types", text)
		}
		t.describe("channels", ch.ID, jsonMap{"id": ch.ID, "name": ch.Name, "type": ch.Type, "parent_id": nil, "flags": 0,
			"permissions": bits(t.s.member(g.ID, t.at.User).Permissions), "app_permissions": bits(ch.BotPermissions)})
		return ch.ID, nil
	}
	return "", fmt.Errorf("%s has no %q", g.Name, text)
}

func (t *typist) describe(kind, id string, what jsonMap) {
	all, ok := t.resolved[kind].(jsonMap)
	if !ok {
		all = jsonMap{}
		t.resolved[kind] = all
	}
	all[id] = what
}
