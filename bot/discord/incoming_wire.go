package discord

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// What comes in is read with the few fields that the bot needs: discordgo's own
// types refuse a whole event for one component that they do not know.
// Source: https://discord.com/developers/docs/interactions/receiving-and-responding

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

// selectMenu is the type of a menu of choices.
const selectMenu = 3

type wireData struct {
	Name     string       `json:"name"`
	Options  []wireOption `json:"options"`
	Resolved struct {
		Channels map[string]struct {
			AppPermissions *string `json:"app_permissions"`
		} `json:"channels"`
	} `json:"resolved"`
	CustomID   string          `json:"custom_id"`
	Type       int             `json:"component_type"`
	Values     []string        `json:"values"` // of a select menu
	Components []wireComponent `json:"components"`
}

type wireInteraction struct {
	ID      string          `json:"id"`
	AppID   string          `json:"application_id"`
	Token   string          `json:"token"`
	Type    interactionKind `json:"type"`
	GuildID string          `json:"guild_id"`
	User    *wireUser       `json:"user"`
	Member  *wireMember     `json:"member"`
	Message *struct {
		Flags int `json:"flags"`
	} `json:"message"`
	Data wireData `json:"data"`
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

// maxIDLength is how many digits the largest number of 64 bits has.
const maxIDLength = 20

// isID reports whether a text is one of Discord's numbers.
func isID(id string) bool {
	return id != "" && len(id) <= maxIDLength && strings.Trim(id, "0123456789") == ""
}
