package discord

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"sync"
	"time"

	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/storage"
)

// interactionKind is what a person did; the numbers are Discord's.
type interactionKind int

const (
	kindPing         interactionKind = 1
	kindCommand      interactionKind = 2
	kindComponent    interactionKind = 3
	kindAutocomplete interactionKind = 4
	kindModal        interactionKind = 5
)

// String is for log lines.
func (k interactionKind) String() string {
	names := [...]string{kindPing: "ping", kindCommand: "command", kindComponent: "component",
		kindAutocomplete: "autocomplete", kindModal: "modal"}
	if k < kindPing || int(k) >= len(names) {
		return strconv.Itoa(int(k))
	}
	return names[k]
}

// Rights of a member that make them somebody who runs the server.
const (
	rightAdministrator = 1 << 3
	rightView          = 1 << 10
	rightManageServer  = 1 << 5
)

const (
	optionGroup = 2 // beside optionSubcommand: holds options and no value
	maxNesting  = 4 // levels of options or components; Discord has at most three
)

// userInfo is an account and what it is called where it writes.
type userInfo struct {
	ID, Username, GlobalName, Nick string
	Bot                            bool
}

// shownName is the name under which a person is seen there.
func (u *userInfo) shownName() string { return cmp.Or(u.Nick, u.GlobalName, u.Username) }

// resolvedChannel is a channel that an option names, with the bot's own rights
// there where Discord tells them.
type resolvedChannel struct{ AppPermissions *uint64 }

// interaction is a command, a pressed button, a filled form or a request for offers.
type interaction struct {
	ID, AppID, Token string // the token allows to answer for 15 minutes and is never logged
	Kind             interactionKind
	GuildID          string // empty in direct messages
	User             userInfo
	Roles            []string // ids
	Permissions      uint64   // of who asks, in this channel; 0 in direct messages
	Private          bool     // only who asks sees it: a direct message, or on an ephemeral message

	// Of commands and requests for offers.
	Command          string            // all its words: "race add"
	Options          map[string]string // as text; a channel is <#ID>, a role <@&ID>
	Focused          string            // the option that is being typed
	ResolvedChannels map[string]resolvedChannel

	// Of buttons, menus and forms.
	CustomID string            // of a menu: what was chosen
	Fields   map[string]string // of a form, by custom id
}

// decodeInteraction reads an INTERACTION_CREATE. It fails on what cannot be
// answered or belongs to nobody; its errors hold no text of the payload.
func decodeInteraction(raw json.RawMessage) (interaction, error) {
	w, err := decodeEvent[wireInteraction](raw)
	if err != nil {
		return interaction{}, err
	}
	if !isID(w.ID) || w.Token == "" {
		return interaction{}, errors.New("interaction without id or token")
	}
	i := interaction{ID: w.ID, AppID: w.AppID, Token: w.Token, Kind: w.Type, GuildID: w.GuildID, Private: w.GuildID == ""}
	if w.User != nil {
		i.User = w.User.info("")
	}
	if w.Member != nil {
		i.Roles, i.Permissions = w.Member.Roles, rights(w.Member.Permissions)
		if w.Member.User.ID != "" {
			i.User = w.Member.User.info(w.Member.Nick)
		}
	}
	if w.Message != nil {
		i.Private = i.Private || w.Message.Flags&api.FlagEphemeral != 0
	}
	if i.Kind != kindPing && !isID(i.User.ID) {
		return interaction{}, errors.New("interaction without a user")
	}
	if i.GuildID != "" && !isID(i.GuildID) {
		return interaction{}, errors.New("interaction with a bad guild")
	}
	return i, i.readData(&w.Data)
}

func (i *interaction) readData(d *wireData) error {
	switch i.Kind {
	case kindPing:
		return nil
	case kindCommand, kindAutocomplete:
		return i.readCommand(d)
	case kindComponent:
		i.CustomID = d.CustomID
		if d.Type == selectMenu && len(d.Values) > 0 {
			i.CustomID = d.Values[0] // each choice of a menu says what a button's id says
		}
	case kindModal:
		i.CustomID, i.Fields = d.CustomID, make(map[string]string)
		i.readFields(d.Components, maxNesting)
	default:
		return fmt.Errorf("interaction of an unknown kind %d", i.Kind)
	}
	if i.CustomID == "" {
		return errors.New("interaction without a custom id")
	}
	return nil
}

// readCommand follows the names down to the options that have values.
func (i *interaction) readCommand(d *wireData) error {
	if d.Name == "" {
		return errors.New("command without a name")
	}
	i.Command, i.Options = d.Name, make(map[string]string)
	options := d.Options
	for range maxNesting {
		if len(options) != 1 || options[0].Type != optionSubcommand && options[0].Type != optionGroup {
			break
		}
		i.Command += " " + options[0].Name
		options = options[0].Options
	}
	for _, o := range options {
		value, err := o.text()
		if err != nil && i.Kind == kindAutocomplete {
			continue // what is being typed is not checked yet
		}
		if err != nil {
			return err
		}
		i.Options[o.Name] = value
		if o.Focused {
			i.Focused = o.Name
		}
	}
	i.ResolvedChannels = make(map[string]resolvedChannel, len(d.Resolved.Channels))
	for id, c := range d.Resolved.Channels {
		var channel resolvedChannel
		if c.AppPermissions != nil {
			own := rights(*c.AppPermissions)
			channel.AppPermissions = &own
		}
		i.ResolvedChannels[id] = channel
	}
	return nil
}

// text is a value as people would type it.
func (o *wireOption) text() (string, error) {
	value, ok := plainText(o.Value)
	if !ok || o.Name == "" {
		return "", errors.New("option without a name or a plain value")
	}
	refer, ok := map[int]func(string) string{optionChannel: channelReference, optionRole: roleReference, optionUser: userReference}[o.Type]
	if !ok {
		return value, nil
	}
	if !isID(value) {
		return "", errors.New("channel, role or member without an id")
	}
	return refer(value), nil
}

// readFields gathers what was typed, in rows and below labels. What else a form
// may hold is left out.
func (i *interaction) readFields(components []wireComponent, levels int) {
	if levels == 0 {
		return
	}
	for _, c := range components {
		if value, ok := plainText(c.Value); ok && c.CustomID != "" {
			i.Fields[c.CustomID] = value
		}
		if c.Component != nil {
			i.readFields([]wireComponent{*c.Component}, levels-1)
		}
		i.readFields(c.Components, levels-1)
	}
}

// request is what the bot is asked by a command, and who asks for buttons and
// forms. The caller adds the club and the reference.
func (i *interaction) request(now time.Time) desk.Request {
	return desk.Request{Command: i.Command, Options: i.Options, Athlete: i.User.shownName(),
		AthleteKey: storage.PlatformKey(platform, i.User.ID), Admin: i.Permissions&(rightAdministrator|rightManageServer) != 0,
		Roles: roleReferences(i.Roles), Ask: i.Kind == kindCommand, Forms: true, Now: now}
}

func userReference(id string) string { return "<@" + id + ">" }

func roleReference(id string) string { return "<@&" + id + ">" }

func roleReferences(ids []string) []string {
	var out []string
	for _, id := range ids {
		out = append(out, roleReference(id))
	}
	return out
}

// recentSize is how many ids are remembered: at 200 events a second those of 40 seconds.
const recentSize = 8192

// recent remembers the last ids that came: Discord may deliver an event twice.
type recent struct {
	mu   sync.Mutex
	ids  map[string]bool
	ring [recentSize]string
	next int
}

// first reports whether the id has not come before, and remembers it.
func (r *recent) first(id string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.ids[id] {
		return false
	}
	if r.ids == nil {
		r.ids = make(map[string]bool, recentSize)
	}
	delete(r.ids, r.ring[r.next])
	r.ring[r.next], r.ids[id] = id, true
	r.next = (r.next + 1) % recentSize
	return true
}
