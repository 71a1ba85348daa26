package api

import (
	"context"
	"encoding/json"
	"net/url"
	"strconv"
	"time"
)

// User is an account of Discord.
type User struct {
	ID         string `json:"id"`
	Username   string `json:"username"`
	GlobalName string `json:"global_name"`
	Bot        bool   `json:"bot"`
}

// Application is what the bot is registered as.
type Application struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Flags int    `json:"flags"`
}

// SessionStartLimit is how many sessions may still be started.
type SessionStartLimit struct {
	Total, Remaining, MaxConcurrency int
	ResetAfter                       time.Duration // until Remaining is Total again
}

// GatewayInfo says where the gateway is and how it may be used.
type GatewayInfo struct {
	URL               string
	Shards            int // recommended
	SessionStartLimit SessionStartLimit
}

// Channel is a channel of a guild, or a direct one without guild and name.
type Channel struct {
	ID      string `json:"id"`
	GuildID string `json:"guild_id"`
	Name    string `json:"name"`
	Type    int    `json:"type"`
	OwnerID string `json:"owner_id"`        // who made a thread
	Last    string `json:"last_message_id"` // "": nothing was ever written there

	Overwrites []Overwrite `json:"permission_overwrites"`
}

// Overwrite is what a channel allows or denies a role or a user besides the
// server's roles; Allow and Deny are bits as decimal numbers.
type Overwrite struct {
	ID    string `json:"id"`
	Allow string `json:"allow"`
	Deny  string `json:"deny"`
}

// Member is a user in a guild; Roles are ids.
type Member struct {
	Roles []string `json:"roles"`
	Nick  string   `json:"nick"`
	User  User     `json:"user"`
}

// Role is a role of a guild; that of everybody has the guild's id. Permissions
// are bits as a decimal number.
type Role struct {
	ID          string `json:"id"`
	Name        string `json:"name"`
	Permissions string `json:"permissions"`
	Managed     bool   `json:"managed"` // a bot's own, or an integration's
}

// Guild is a server that the bot is in.
type Guild struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// guildPage is how many guilds Discord lists at once, maxPages how many lists are read.
const (
	guildPage = 200
	maxPages  = 1000
)

// answerAttempt leaves time for a second try within an interaction's three seconds.
const answerAttempt = 1500 * time.Millisecond

func get[T any](ctx context.Context, c *Client, route string, args ...string) (T, error) {
	var out T
	err := c.do(ctx, call{method: "GET", route: route, args: args, major: min(1, len(args)), repeat: true}, &out)
	return out, err
}

// Me is the bot's own account; a wrong token gives Status 401.
func (c *Client) Me(ctx context.Context) (User, error) {
	return get[User](ctx, c, "/users/@me")
}

// Application is the bot's own application.
func (c *Client) Application(ctx context.Context) (Application, error) {
	return get[Application](ctx, c, "/applications/@me")
}

// GatewayInfo asks for the gateway and the session starts that are left.
func (c *Client) GatewayInfo(ctx context.Context) (GatewayInfo, error) {
	type answer struct {
		URL    string `json:"url"`
		Shards int    `json:"shards"`
		Limit  struct {
			Total          int   `json:"total"`
			Remaining      int   `json:"remaining"`
			ResetAfter     int64 `json:"reset_after"` // milliseconds
			MaxConcurrency int   `json:"max_concurrency"`
		} `json:"session_start_limit"`
	}
	a, err := get[answer](ctx, c, "/gateway/bot")
	return GatewayInfo{URL: a.URL, Shards: a.Shards, SessionStartLimit: SessionStartLimit{
		Total: a.Limit.Total, Remaining: a.Limit.Remaining, MaxConcurrency: a.Limit.MaxConcurrency,
		ResetAfter: time.Duration(a.Limit.ResetAfter) * time.Millisecond,
	}}, err
}

// Commands lists the application's global commands as Discord has them.
func (c *Client) Commands(ctx context.Context, appID string) ([]json.RawMessage, error) {
	return get[[]json.RawMessage](ctx, c, "/applications/{id}/commands", appID)
}

// PutCommands replaces all global commands.
func (c *Client) PutCommands(ctx context.Context, appID string, commands any) error {
	return c.do(ctx, call{method: "PUT", route: "/applications/{id}/commands", args: []string{appID}, major: 1,
		body: commands, repeat: true}, nil)
}

// deferred is all that a deferred answer may hold.
type deferred struct {
	Flags int `json:"flags,omitempty"`
}

// Answer gives the first answer to an interaction, within three seconds of it. Data is
// a Message, Modal, Choices or nil; of a Message that is deferred only Flags are sent.
// An attempt that got no answer is repeated, and one that turns out to have arrived is no error.
func (c *Client) Answer(ctx context.Context, interactionID, token string, kind int, data any) error {
	body := struct {
		Type int `json:"type"`
		Data any `json:"data,omitempty"`
	}{Type: kind}
	var files []File
	switch d := data.(type) {
	case nil:
	case Message:
		if kind == AnswerDeferred || kind == AnswerDeferredUpdate {
			body.Data = deferred{d.Flags}
			break
		}
		d.Nonce, d.EnforceNonce = "", false
		body.Data, files = onWire(d), d.Files
	case Modal:
		d.Components = list(d.Components)
		body.Data = d
	case Choices:
		d.All = list(d.All)
		body.Data = d
	default:
		body.Data = d
	}
	return c.do(ctx, call{method: "POST", route: "/interactions/{id}/{token}/callback", args: []string{interactionID, token},
		body: body, files: files, interaction: true, repeat: true, done: CodeAlreadyAnswered, attempt: answerAttempt}, nil)
}

// Original looks for the first answer to an interaction, a deferral too; Status 404
// means that there is none.
func (c *Client) Original(ctx context.Context, appID, token string) error {
	return c.do(ctx, call{method: "GET", route: "/webhooks/{application}/{token}/messages/@original", args: []string{appID, token},
		interaction: true, repeat: true}, nil)
}

// EditOriginal replaces the first answer to an interaction, its files included, within 15 minutes.
func (c *Client) EditOriginal(ctx context.Context, appID, token string, m Message) error {
	m.Nonce, m.EnforceNonce = "", false
	m.Flags = 0 // an edit cannot make an answer private or public
	return c.do(ctx, call{method: "PATCH", route: "/webhooks/{application}/{token}/messages/@original", args: []string{appID, token},
		body: onWire(m), files: m.Files, interaction: true, repeat: true}, nil)
}

// FollowUp writes a further answer, within 15 minutes. It is not repeated when
// its outcome is unknown, because Discord would show it twice.
func (c *Client) FollowUp(ctx context.Context, appID, token string, m Message) error {
	m.Nonce, m.EnforceNonce = "", false
	return c.do(ctx, call{method: "POST", route: "/webhooks/{application}/{token}", args: []string{appID, token},
		body: onWire(m), files: m.Files, interaction: true}, nil)
}

// OpenDM gives the direct channel with a user, the same at each call.
func (c *Client) OpenDM(ctx context.Context, userID string) (channelID string, err error) {
	var out Channel
	err = c.do(ctx, call{method: "POST", route: "/users/@me/channels",
		body: map[string]string{"recipient_id": userID}, repeat: true}, &out)
	return out.ID, err
}

// Send writes a message to a channel. With a nonce that Discord enforces it is
// repeated when its outcome is unknown, without one it is not.
func (c *Client) Send(ctx context.Context, channelID string, m Message) (messageID string, err error) {
	var out struct {
		ID string `json:"id"`
	}
	err = c.do(ctx, call{method: "POST", route: "/channels/{id}/messages", args: []string{channelID}, major: 1,
		body: onWire(m), files: m.Files, repeat: m.EnforceNonce && m.Nonce != ""}, &out)
	return out.ID, err
}

// Channel looks up a channel that the bot can see.
func (c *Client) Channel(ctx context.Context, id string) (Channel, error) {
	return get[Channel](ctx, c, "/channels/{id}", id)
}

// Member looks up a user in a guild; Status 404 means that they are not in it.
func (c *Client) Member(ctx context.Context, guildID, userID string) (Member, error) {
	return get[Member](ctx, c, "/guilds/{id}/members/{user}", guildID, userID)
}

// Roles lists the roles of a guild.
func (c *Client) Roles(ctx context.Context, guildID string) ([]Role, error) {
	return get[[]Role](ctx, c, "/guilds/{id}/roles", guildID)
}

// Guilds lists all guilds that the bot is in.
func (c *Client) Guilds(ctx context.Context) ([]Guild, error) {
	var all []Guild
	query := url.Values{"limit": {strconv.Itoa(guildPage)}}
	for range maxPages {
		var page []Guild
		if err := c.do(ctx, call{method: "GET", route: "/users/@me/guilds", query: query.Encode(), repeat: true}, &page); err != nil {
			return nil, err
		}
		all = append(all, page...)
		if len(page) < guildPage {
			break
		}
		query.Set("after", page[len(page)-1].ID)
	}
	return all, nil
}

// wireMessage is a message with its attachments always listed: on an edit
// a missing list would keep the old files.
type wireMessage struct {
	Message
	Attachments []Attachment `json:"attachments"`
}

// onWire is the one place that turns missing lists into empty ones and numbers the files.
func onWire(m Message) wireMessage {
	m.Embeds, m.Components = list(m.Embeds), list(m.Components)
	m.AllowedMentions.Parse = list(m.AllowedMentions.Parse)
	attachments := make([]Attachment, max(len(m.Files), len(m.Attachments)))
	copy(attachments, m.Attachments)
	for i, f := range m.Files {
		attachments[i].ID, attachments[i].Filename = i, f.Name
	}
	return wireMessage{m, attachments}
}

func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}
