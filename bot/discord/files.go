package discord

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"musette/bot/discord/api"
)

// deliver sends a message, and once more without its files where Discord refuses
// it with them: the words count for more than a picture.
func (a *App) deliver(ctx context.Context, m api.Message, send func(api.Message) error) error {
	err := send(m)
	status := api.Status(err)
	if len(m.Files) == 0 || status != http.StatusBadRequest && status != http.StatusRequestEntityTooLarge {
		return err
	}
	a.Log.WarnContext(ctx, "an answer goes out without its files", "error", err)
	return send(withoutFiles(m))
}

// withoutFiles is a message with a line in the place of its files.
func withoutFiles(m api.Message) api.Message {
	const shown = "The picture could not be shown: Discord did not take it."
	line := shown
	if slices.ContainsFunc(m.Files, func(f api.File) bool { return !strings.HasPrefix(f.Type, "image/") }) {
		line = "What was attached could not be sent: Discord did not take it."
	}
	m.Files, m.Attachments = nil, nil
	m.Embeds = slices.Clone(m.Embeds)
	if len(m.Embeds) == 0 {
		m.Embeds = []api.Embed{{}}
	}
	first := &m.Embeds[0]
	first.Image = nil
	if first.Description != "" {
		line = cut(first.Description, maxDescription-length("\n\n"+line)) + "\n\n" + line
	}
	first.Description = line
	fit(&m)
	return m
}
