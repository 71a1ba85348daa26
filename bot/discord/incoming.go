package discord

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/storage"
)

// What comes in is read with the few fields that the bot needs: discordgo's own
// types refuse a whole event for one component that they do not know.
// Source: https://discord.com/developers/docs/interactions/receiving-and-responding

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
	rightManageServer  = 1 << 5
)

const (
	optionGroup = 2  // beside optionSubcommand: holds options and no value
	maxNesting  = 4  // levels of options or components; Discord has at most three
	maxIDLength = 20 // digits of the largest number of 64 bits
)

// userInfo is an account and what it is called where it writes.
type userInfo struct {
	ID, Username, GlobalName, Nick string
	Bot                            bool
}

// shownName is the name under which a person is seen there.
func (u *userInfo) shownName() string { return cmp.Or(u.Nick, u.GlobalName, u.Username) }

// resolvedChannel is a channel that an option names. Permissions are those of who
// asks, AppPermissions the bot's own where Discord tells them.
type resolvedChannel struct {
	Name           string
	Type           int
	Permissions    uint64
	AppPermissions *uint64
}

// interaction is a command, a pressed button, a filled form or a request for offers.
type interaction struct {
	ID, AppID, Token   string // the token allows to answer for 15 minutes and is never logged
	Kind               interactionKind
	GuildID, ChannelID string // no guild in direct messages
	User               userInfo
	Roles              []string // ids
	Permissions        uint64   // of who asks, in this channel; 0 in direct messages
	AppPermissions     uint64   // of the bot, in this channel
	Private            bool     // only who asks sees it: a direct message, or on an ephemeral message
	SizeLimit          int      // bytes of a file in the answer; 0: not told

	// Of commands and requests for offers.
	Command          string            // all its words: "race add"
	Options          map[string]string // as text; a channel is <#ID>, a role <@&ID>
	Focused          string            // the option that is being typed
	ResolvedChannels map[string]resolvedChannel

	// Of buttons and forms.
	CustomID  string
	MessageID string            // that it sits on
	Values    []string          // chosen in a list
	Fields    map[string]string // of a form, by custom id
}

type wireUser struct {
	ID         string `json:"id"`
	Username   string `json:"username"`
	GlobalName string `json:"global_name"`
	Bot        bool   `json:"bot"`
	System     bool   `json:"system"`
}

type wireMember struct {
	User        wireUser `json:"user"`
	Nick        string   `json:"nick"`
	Roles       []string `json:"roles"`
	Permissions string   `json:"permissions"`
}

type wireOption struct {
	Type    int             `json:"type"`
	Name    string          `json:"name"`
	Value   json.RawMessage `json:"value"`
	Focused bool            `json:"focused"`
	Options []wireOption    `json:"options"`
}

type wireComponent struct {
	CustomID   string          `json:"custom_id"`
	Value      json.RawMessage `json:"value"`
	Component  *wireComponent  `json:"component"`  // of a label
	Components []wireComponent `json:"components"` // of a row
}

type wireData struct {
	Name     string       `json:"name"`
	Options  []wireOption `json:"options"`
	Resolved struct {
		Channels map[string]struct {
			Name           string  `json:"name"`
			Type           int     `json:"type"`
			Permissions    string  `json:"permissions"`
			AppPermissions *string `json:"app_permissions"`
		} `json:"channels"`
	} `json:"resolved"`
	CustomID   string          `json:"custom_id"`
	Values     []string        `json:"values"`
	Components []wireComponent `json:"components"`
}

type wireInteraction struct {
	ID             string          `json:"id"`
	AppID          string          `json:"application_id"`
	Token          string          `json:"token"`
	Type           interactionKind `json:"type"`
	GuildID        string          `json:"guild_id"`
	ChannelID      string          `json:"channel_id"`
	User           *wireUser       `json:"user"`
	Member         *wireMember     `json:"member"`
	AppPermissions string          `json:"app_permissions"`
	SizeLimit      int             `json:"attachment_size_limit"`
	Message        *struct {
		ID    string `json:"id"`
		Flags int    `json:"flags"`
	} `json:"message"`
	Data wireData `json:"data"`
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
	i := interaction{ID: w.ID, AppID: w.AppID, Token: w.Token, Kind: w.Type, GuildID: w.GuildID, ChannelID: w.ChannelID,
		AppPermissions: rights(w.AppPermissions), SizeLimit: w.SizeLimit, Private: w.GuildID == ""}
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
		i.MessageID = w.Message.ID
		i.Private = i.Private || w.Message.Flags&api.FlagEphemeral != 0
	}
	if i.Kind != kindPing && !isID(i.User.ID) {
		return interaction{}, errors.New("interaction without a user")
	}
	if i.GuildID != "" && !isID(i.GuildID) || i.ChannelID != "" && !isID(i.ChannelID) {
		return interaction{}, errors.New("interaction with a bad guild or channel")
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
		i.CustomID, i.Values = d.CustomID, d.Values
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
		channel := resolvedChannel{Name: c.Name, Type: c.Type, Permissions: rights(c.Permissions)}
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
	if o.Type != optionChannel && o.Type != optionRole {
		return value, nil
	}
	if !isID(value) {
		return "", errors.New("channel or role without an id")
	}
	if o.Type == optionChannel {
		return channelReference(value), nil
	}
	return roleReference(value), nil
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
// forms. The club's name is not part of an interaction: the caller adds it.
func (i *interaction) request(now time.Time) bot.Request {
	req := bot.Request{Command: i.Command, Options: i.Options, Athlete: i.User.shownName(),
		AthleteKey: storage.PlatformKey(platform, i.User.ID), Admin: i.Permissions&(rightAdministrator|rightManageServer) != 0,
		Ask: i.Kind == kindCommand, Forms: true, Ref: bot.NewRef(), Now: now}
	if i.GuildID != "" {
		req.ClubKey = storage.PlatformKey(platform, i.GuildID)
	}
	req.Roles = roleReferences(i.Roles)
	return req
}

// decodeEvent reads the fields of T. Its errors hold no text of the payload.
func decodeEvent[T any](raw json.RawMessage) (T, error) {
	var out T
	err := json.Unmarshal(raw, &out)
	var field *json.UnmarshalTypeError
	switch {
	case errors.As(err, &field):
		return out, fmt.Errorf("event with a wrong field %s", field.Field)
	case err != nil:
		return out, errors.New("event that is not JSON")
	}
	return out, nil
}

func (u *wireUser) info(nick string) userInfo {
	return userInfo{ID: u.ID, Username: u.Username, GlobalName: u.GlobalName, Nick: nick, Bot: u.Bot}
}

// plainText is a JSON text, number or truth value as text; ok is false for all else.
func plainText(raw json.RawMessage) (text string, ok bool) {
	if len(raw) == 0 {
		return "", false
	}
	switch raw[0] {
	case '"':
		return text, json.Unmarshal(raw, &text) == nil
	case '{', '[', 'n':
		return "", false
	}
	return string(raw), true
}

// rights are permissions, which Discord writes as a decimal number in a text;
// none where they are missing or not readable.
func rights(text string) uint64 {
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		return 0 // ParseUint gives the largest number when it is out of range
	}
	return n
}

// isID reports whether a text is one of Discord's numbers.
func isID(id string) bool {
	return id != "" && len(id) <= maxIDLength && strings.Trim(id, "0123456789") == ""
}

func roleReference(id string) string { return "<@&" + id + ">" }

func roleReferences(ids []string) []string {
	var out []string
	for _, id := range ids {
		out = append(out, roleReference(id))
	}
	return out
}
