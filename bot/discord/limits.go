package discord

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"musette/bot/command"
	"musette/bot/discord/api"
	"musette/bot/say"
)

// What Discord takes, from its public documentation: pages "Message Resource",
// "API Reference", "Component Reference" and "Interactions". Lengths are counted in UTF-16 units
// here, which is never less than Discord counts.
const (
	maxContent     = 2000
	maxEmbeds      = 10
	maxEmbedTitle  = 256
	maxDescription = 4096
	maxFields      = 25
	maxFieldName   = 256
	maxFieldValue  = 1024
	maxEmbedSum    = 6000 // over all embeds of a message

	maxRows        = 5
	maxRowButtons  = 5
	maxCustomID    = 100
	maxButtonLabel = 80

	maxOptions    = 25 // of a select menu
	maxOptionText = 100
	maxSelectHint = 150

	maxFiles    = 10
	maxFile     = 10 << 20 // bytes
	maxRequest  = 25 << 20 // bytes, all files and the message
	maxAlt      = 1024
	maxUsers    = 100 // who may be notified
	maxNonce    = 25
	maxFileName = 100 // our own

	maxThreadName = 100

	maxModalTitle       = 45
	maxModalComponents  = 5
	maxLabel            = 45
	maxLabelDescription = 100
	maxInput            = 4000
	maxPlaceholder      = 100

	maxChoices    = 25
	maxChoiceText = 100
)

// length is how much of a limit a text takes, in UTF-16 units.
func length(s string) int {
	n := 0
	for _, r := range s {
		n += utf16.RuneLen(r)
	}
	return n
}

// cut is the longest beginning of a text within a limit, with "..." where
// something is left out and there is room for it.
func cut(s string, most int) string {
	if length(s) <= most {
		return s
	}
	const dots = "..."
	n := 0
	for i, r := range s {
		if n += utf16.RuneLen(r); n > most-len(dots) {
			return s[:i] + dots[:min(len(dots), most)]
		}
	}
	return s
}

// fit brings a message within every limit: texts are cut, what is too many is
// left out. It notifies nobody but the users that are listed.
func fit(m *api.Message) {
	m.Content = cut(m.Content, maxContent)
	if m.AllowedMentions.Parse = []string{}; len(m.AllowedMentions.Users) > maxUsers {
		m.AllowedMentions.Users = m.AllowedMentions.Users[:maxUsers]
	}
	if length(m.Nonce) > maxNonce {
		m.Nonce = m.Nonce[:0]
	}
	m.EnforceNonce = m.Nonce != ""
	m.Attachments = fitFiles(m)
	m.Embeds = fitEmbeds(m.Embeds)
	m.Components = fitRows(m.Components)
}

// messageRoom is the part of a request that its files leave for the message: more
// than the longest one takes with every character escaped.
const messageRoom = 256 << 10

// sendable are the files that one message takes. A line about each other file
// says why it is left out.
func sendable(files []say.File) (kept []say.File, left []string) {
	room := maxRequest - messageRoom
	for _, f := range files {
		why := ""
		switch {
		case len(f.Data) > min(room, maxFile):
			why = " is too large to send."
		case len(kept) == maxFiles:
			why = fmt.Sprintf(" is left out: one message takes %d files.", maxFiles)
		default:
			room -= len(f.Data)
			kept = append(kept, f)
			continue
		}
		left = append(left, escape(fileName(f.Name, map[string]bool{}), true)+why)
	}
	return kept, left
}

// fitFiles keeps as many files as a message takes and lists each of them.
func fitFiles(m *api.Message) []api.Attachment {
	m.Files = m.Files[:min(len(m.Files), maxFiles)]
	var out []api.Attachment
	for i := range m.Files {
		a := api.Attachment{ID: i, Filename: m.Files[i].Name}
		for _, given := range m.Attachments {
			if given.ID == i {
				a.Description = cut(given.Description, maxAlt)
			}
		}
		out = append(out, a)
	}
	return out
}

func fitEmbeds(embeds []api.Embed) []api.Embed {
	out := make([]api.Embed, 0, min(len(embeds), maxEmbeds))
	left := maxEmbedSum
	take := func(s string, most int) string {
		s = cut(s, min(most, left))
		left -= length(s)
		return s
	}
	for _, e := range embeds[:min(len(embeds), maxEmbeds)] {
		e.Title = take(e.Title, maxEmbedTitle)
		e.Description = take(e.Description, maxDescription)
		var fields []api.EmbedField
		for _, f := range e.Fields[:min(len(e.Fields), maxFields)] {
			f.Name, f.Value = cut(f.Name, maxFieldName), cut(f.Value, maxFieldValue)
			if size := length(f.Name) + length(f.Value); f.Name != "" && f.Value != "" && size <= left {
				left -= size
				fields = append(fields, f)
			}
		}
		e.Fields = fields
		if e.Title != "" || e.Description != "" || len(fields) > 0 || e.Image != nil {
			out = append(out, e)
		}
	}
	return out
}

// fitRows drops buttons that Discord would refuse together with their message:
// without a face, or with an id that is too long or taken.
func fitRows(rows []api.Component) []api.Component {
	out := make([]api.Component, 0, min(len(rows), maxRows))
	taken := map[string]bool{}
	for _, row := range rows {
		var kept []api.Component
		for _, c := range row.Components {
			if len(kept) > 0 && (c.Type == api.ComponentSelect || kept[0].Type == api.ComponentSelect) {
				continue // a menu has its row for itself
			}
			if c.Type == api.ComponentSelect {
				if c, ok := fitMenu(c, taken); ok {
					kept = append(kept, c)
				}
				continue
			}
			c.Label = cut(strings.TrimSpace(c.Label), maxButtonLabel)
			if c.Label == "" || c.CustomID == "" || length(c.CustomID) > maxCustomID || taken[c.CustomID] || len(kept) == maxRowButtons {
				continue
			}
			taken[c.CustomID] = true
			kept = append(kept, c)
		}
		if row.Components = kept; len(kept) > 0 && len(out) < maxRows {
			out = append(out, row)
		}
	}
	return out
}

// fitMenu drops choices that Discord would refuse together with their message. A
// menu without choices is none.
func fitMenu(c api.Component, taken map[string]bool) (api.Component, bool) {
	c.Placeholder = cut(c.Placeholder, maxSelectHint)
	var kept []api.Option
	for _, o := range c.Options {
		o.Label, o.Description = cut(strings.TrimSpace(o.Label), maxOptionText), cut(o.Description, maxOptionText)
		again := slices.ContainsFunc(kept, func(other api.Option) bool { return other.Value == o.Value })
		if o.Label != "" && o.Value != "" && length(o.Value) <= maxOptionText && !again && len(kept) < maxOptions {
			kept = append(kept, o)
		}
	}
	ok := len(kept) > 0 && c.CustomID != "" && length(c.CustomID) <= maxCustomID && !taken[c.CustomID]
	if c.Options = kept; ok {
		taken[c.CustomID] = true
	}
	return c, ok
}

// fitModal brings a form within every limit. Its custom ids must be short enough.
func fitModal(m *api.Modal) {
	m.Title = cut(m.Title, maxModalTitle)
	m.Components = m.Components[:min(len(m.Components), maxModalComponents)]
	for i := range m.Components {
		label := &m.Components[i]
		label.Label, label.Description = cut(label.Label, maxLabel), cut(label.Description, maxLabelDescription)
		if input := label.Component; input != nil {
			if input.MaxLength <= 0 || input.MaxLength > maxInput {
				input.MaxLength = maxInput
			}
			input.Value = head(input.Value, input.MaxLength)
			input.Placeholder = cut(input.Placeholder, maxPlaceholder)
		}
	}
}

// fitChoices are offers as Discord takes them. A value that is too long is left
// out: cut, it would mean something else.
func fitChoices(offers []command.Offer) api.Choices {
	out := api.Choices{All: []api.Choice{}}
	for _, o := range offers {
		c := api.Choice{Name: cut(strings.TrimSpace(o.Label), maxChoiceText), Value: o.Value}
		again := slices.ContainsFunc(out.All, func(other api.Choice) bool { return other.Name == c.Name })
		if c.Name != "" && c.Value != "" && length(c.Value) <= maxChoiceText && !again && len(out.All) < maxChoices {
			out.All = append(out.All, c)
		}
	}
	return out
}

// head is the beginning of a text within a limit.
func head(s string, most int) string {
	n := 0
	for i, r := range s {
		if n += utf16.RuneLen(r); n > most {
			return s[:i]
		}
	}
	return s
}

// fileName makes a name of a file safe, [a-z0-9._-], and other than those taken.
func fileName(name string, taken map[string]bool) string {
	name = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || strings.ContainsRune("._-", r) {
			return r
		}
		return '-'
	}, strings.ToLower(path.Base(name)))
	ext := path.Ext(name)
	base := strings.Trim(strings.TrimSuffix(name, ext), ".-")
	if ext == "." {
		ext = ""
	}
	if base == "" || len(ext) > maxFileName/2 {
		base, ext = "file", head(ext, maxFileName/2)
	}
	base = head(base, maxFileName-len(ext)-len("-10"))
	name = base + ext
	for n := 2; taken[name]; n++ {
		name = base + "-" + strconv.Itoa(n) + ext
	}
	taken[name] = true
	return name
}
