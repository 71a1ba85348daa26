package api

import (
	"context"
	"net/url"
	"strconv"
)

// ChannelPrivateThread is the type of a thread that its members and those who
// manage threads see.
// Source: https://discord.com/developers/docs/resources/channel#start-thread-without-message
const (
	ChannelPrivateThread = 12
	threadRests          = 7 * 24 * 60 // minutes until Discord folds a quiet thread away; a message brings it back
)

// Component of a message that was read back; rows hold further ones.
type seenComponent struct {
	CustomID   string          `json:"custom_id"`
	Components []seenComponent `json:"components"`
}

// SeenMessage is a message that was read back. CustomIDs are those of its buttons.
type SeenMessage struct {
	ID        string
	AuthorID  string
	CustomIDs []string
}

// CreateThread makes a private thread in a channel; its name has at most 100
// characters. Only the bot is in it at first. It is not repeated when its
// outcome is unknown, since that would make two.
func (c *Client) CreateThread(ctx context.Context, channelID, name string) (threadID string, err error) {
	body := struct {
		Name  string `json:"name"`
		Type  int    `json:"type"`
		Rests int    `json:"auto_archive_duration"`
		Open  bool   `json:"invitable"`
	}{name, ChannelPrivateThread, threadRests, false}
	var out Channel
	err = c.do(ctx, call{method: "POST", route: "/channels/{id}/threads", args: []string{channelID}, major: 1, body: body}, &out)
	return out.ID, err
}

// AddThreadMember adds a user to a thread; one who is in it already stays.
func (c *Client) AddThreadMember(ctx context.Context, threadID, userID string) error {
	return c.do(ctx, call{method: "PUT", route: "/channels/{id}/thread-members/{user}", args: []string{threadID, userID}, major: 1, repeat: true}, nil)
}

// ActiveThreads lists the threads of a guild that the bot sees and that are not folded away.
func (c *Client) ActiveThreads(ctx context.Context, guildID string) ([]Channel, error) {
	type list struct {
		Threads []Channel `json:"threads"`
	}
	l, err := get[list](ctx, c, "/guilds/{id}/threads/active", guildID)
	return l.Threads, err
}

// Messages reads back messages of a channel, at most 100, the newest first: those
// that come next after an id, or with "" the last ones. In a server Discord shows
// none to a bot without Read Message History.
func (c *Client) Messages(ctx context.Context, channelID, after string, limit int) ([]SeenMessage, error) {
	var page []struct {
		ID     string `json:"id"`
		Author struct {
			ID string `json:"id"`
		} `json:"author"`
		Components []seenComponent `json:"components"`
	}
	query := url.Values{"limit": {strconv.Itoa(limit)}}
	if after != "" {
		query.Set("after", after)
	}
	err := c.do(ctx, call{method: "GET", route: "/channels/{id}/messages", args: []string{channelID}, major: 1, query: query.Encode(), repeat: true}, &page)
	if err != nil {
		return nil, err
	}
	out := make([]SeenMessage, len(page))
	for i, m := range page {
		out[i] = SeenMessage{ID: m.ID, AuthorID: m.Author.ID, CustomIDs: customIDs(m.Components, maxDepth)}
	}
	return out, nil
}

// maxDepth is how deep components are looked into; Discord nests three at most.
const maxDepth = 4

func customIDs(components []seenComponent, depth int) (ids []string) {
	for _, c := range components {
		if c.CustomID != "" {
			ids = append(ids, c.CustomID)
		}
		if depth > 1 {
			ids = append(ids, customIDs(c.Components, depth-1)...)
		}
	}
	return ids
}
