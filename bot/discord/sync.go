package discord

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"musette/bot/discord/api"
)

// commandIDs are the numbers that Discord gave the top-level commands, by name.
type commandIDs map[string]string

// mention is a command ("race add") in the form that can be clicked; "" where its
// number is not known.
func (ids commandIDs) mention(command string) string {
	top, _, _ := strings.Cut(command, " ")
	id := ids[top]
	if id == "" {
		return ""
	}
	return "</" + command + ":" + id + ">"
}

// syncCommands compares the commands that Discord has with want and replaces all
// of them where they differ. Changed tells that they were replaced, even when
// reading their numbers afterwards failed.
func syncCommands(ctx context.Context, c *api.Client, appID string, want []definition) (ids commandIDs, changed bool, err error) {
	stored, err := c.Commands(ctx, appID)
	if err != nil {
		return nil, false, fmt.Errorf("read commands: %w", err)
	}
	if sameCommands(stored, want) {
		return idsOf(stored), false, nil
	}
	if err := c.PutCommands(ctx, appID, want); err != nil {
		return nil, false, fmt.Errorf("replace commands: %w", err)
	}
	stored, err = c.Commands(ctx, appID)
	if err != nil {
		return nil, true, fmt.Errorf("read replaced commands: %w", err)
	}
	return idsOf(stored), true, nil
}

// sameCommands compares all that we send; what Discord adds does not count, nor
// does the order of the commands.
func sameCommands(stored []json.RawMessage, want []definition) bool {
	have := make([]string, len(stored))
	for i, raw := range stored {
		var d definition
		if err := json.Unmarshal(raw, &d); err != nil {
			return false // not of the kind that we send
		}
		have[i] = d.canonical()
	}
	wanted := make([]string, len(want))
	for i, d := range want {
		wanted[i] = d.canonical()
	}
	slices.Sort(have)
	slices.Sort(wanted)
	return slices.Equal(have, wanted)
}

// canonical is the same text for definitions that mean the same: lists without
// an order are sorted, defaults filled in, empty and missing made one.
func (d definition) canonical() string {
	d.Type = cmp.Or(d.Type, commandSlash)
	d.Contexts = slices.Sorted(slices.Values(d.Contexts))
	d.Installs = slices.Sorted(slices.Values(d.Installs))
	d.Options = canonicalOptions(d.Options)
	text, _ := json.Marshal(d) // texts, numbers and lists of them always marshal
	return string(text)
}

func canonicalOptions(options []definitionOption) []definitionOption {
	out := slices.Clone(options)
	for i := range out {
		out[i].ChannelTypes = slices.Sorted(slices.Values(out[i].ChannelTypes))
		out[i].Options = canonicalOptions(out[i].Options)
	}
	return out
}

func idsOf(stored []json.RawMessage) commandIDs {
	ids := make(commandIDs, len(stored))
	for _, raw := range stored {
		var c struct {
			ID   string `json:"id"`
			Name string `json:"name"`
			Type int    `json:"type"`
		}
		if err := json.Unmarshal(raw, &c); err == nil && cmp.Or(c.Type, commandSlash) == commandSlash {
			ids[c.Name] = c.ID
		}
	}
	return ids
}
