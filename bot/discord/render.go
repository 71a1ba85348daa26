package discord

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"musette/bot/discord/api"
	"musette/bot/say"
)

// renderer writes replies as Discord's messages. mention is the link of a
// command by its name, </plan show:123>, or "" where there is none.
type renderer struct {
	mention func(command string) string
}

// An answer has at most so many messages; a longer one becomes a file.
const (
	maxMessages = 3
	wholeName   = "answer.txt"
	wholeType   = "text/plain; charset=utf-8"
	wholeNote   = "The rest is in " + wholeName + "."
)

// messages are the answer and what follows it, usually nothing. The answer's
// first line is its content, so that notifications and screen readers have it;
// the rest is in one embed. rows and files go with the answer. Flags are
// the caller's.
func (r renderer) messages(reply say.Reply, rows []api.Component) []api.Message {
	w := r.words()
	w.pressed = len(rows) > 0
	answer := api.Message{Components: rows}
	var blocks []string
	if reply.Err != nil {
		var over []say.Line
		answer.Content, over = w.refusal(reply.Err)
		blocks = w.blocks(over)
	} else if len(reply.Lines) > 0 {
		var over []say.Line
		answer.Content, over = w.within(reply.Lines[0], maxContent, true)
		blocks = withMoments(w.blocks(slices.Concat(over, reply.Lines[1:])), reply.Moments)
	}
	files, left := sendable(reply.Files)
	parts := split(slices.Concat(left, blocks), maxDescription)
	if len(parts) > maxMessages {
		whole := say.File{Name: wholeName, Type: wholeType, Data: []byte(reply.Text())}
		files, left = sendable(slices.Concat([]say.File{whole}, reply.Files))
		parts = []string{split(slices.Concat(left, blocks), maxDescription-len("\n\n"+wholeNote))[0] + "\n\n" + wholeNote}
	}
	answer.Embeds = embeds(parts, 0)
	attach(&answer, files)
	all := []api.Message{answer}
	for i := 1; i < len(parts); i++ {
		all = append(all, api.Message{Embeds: embeds(parts, i)})
	}
	for i := range all {
		fit(&all[i])
	}
	return all
}

func embeds(parts []string, i int) []api.Embed {
	if i >= len(parts) {
		return nil
	}
	return []api.Embed{{Description: parts[i]}}
}

// refusal is a line for each fault, with the option's name as it is typed, and
// the part that has no room.
func (w *words) refusal(fault *say.FieldError) (content string, over []say.Line) {
	content = "**" + fault.Lead() + "** "
	for i, one := range append([]say.FieldError{*fault}, fault.More...) {
		lead := fieldName(one.Field)
		if i > 0 {
			lead = "\n" + lead
		}
		room := maxContent - length(content+lead)
		if i > 0 && (len(over) > 0 || room < 0 || length(one.Message) > room/2) { // markup makes it longer
			over = append(over, say.Linef("%s: %s", one.Field, one.Line))
			continue
		}
		text, rest := w.within(one.Line, room, false)
		content += lead + text
		over = append(over, rest...)
	}
	return content, over
}

// fieldName is what a fault begins with.
func fieldName(field string) string {
	field = oneLine(field)
	if field == "" {
		return ""
	}
	if name, ok := code(field); ok {
		return name + ": "
	}
	return escape(field+": ", false)
}

// withMoments puts the instants of an answer below its first line.
func withMoments(blocks []string, moments []say.Moment) []string {
	var lines []string
	for _, m := range moments {
		at := m.At.Unix()
		lines = append(lines, fmt.Sprintf("%s <t:%d:F> (<t:%d:R>)", escape(oneLine(m.Label), true), at, at))
	}
	return append(lines, blocks...)
}

// attach adds files with their words for those who do not see them. The first
// picture is shown in the embed.
func attach(m *api.Message, files []say.File) {
	shown, taken := false, map[string]bool{}
	for i, f := range files {
		name := fileName(f.Name, taken)
		m.Files = append(m.Files, api.File{Name: name, Type: f.Type, Data: f.Data})
		m.Attachments = append(m.Attachments, api.Attachment{ID: i, Filename: name, Description: f.Alt})
		if shown || !strings.HasPrefix(f.Type, "image/") || !picture.MatchString(name) {
			continue
		}
		if shown = true; len(m.Embeds) == 0 {
			m.Embeds = []api.Embed{{}}
		}
		m.Embeds[0].Image = &api.EmbedImage{URL: "attachment://" + name}
	}
}

// picture is a file name that embeds may show.
var picture = regexp.MustCompile(`\.(png|jpe?g|webp|gif)$`)

// withoutFiles is a message with a line in place of its files.
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

// blocks writes the lines behind the first one in Discord's markup. A block is
// a line with its details; a gap is a block of its own, an empty one.
func (w *words) blocks(lines []say.Line) []string {
	var blocks []string
	under := false // details are small print under a day or a reason, else a list
	for _, line := range w.fold(lines) {
		last := len(blocks) - 1
		switch line.Kind {
		case say.Gap:
			if last >= 0 && blocks[last] != "" {
				blocks = append(blocks, "")
			}
			continue
		case say.Offered:
			if w.pressed {
				continue
			}
		case say.Detail, say.Caution:
			if last >= 0 && blocks[last] != "" {
				blocks[last] += "\n" + w.line(line, under)
				continue
			}
		default:
			under = line.Kind == say.Day || line.Kind == say.Reason
		}
		blocks = append(blocks, w.line(line, under))
	}
	return blocks
}

// line writes one line. A caution goes with its session, with a bar and a mark,
// in full size; other details are small print where they are under a day or a reason.
func (w *words) line(line say.Line, under bool) string {
	shown := w.inline(line.Spans, line.Kind == say.Heading)
	switch line.Kind {
	case say.Day:
		shown = "**" + escape(strings.TrimSpace(oneLine(line.Lead)), true) + "** " + shown
		if line.Flag {
			shown += " **!**"
			if line.Mind != "" {
				shown += " " + escape(oneLine(line.Mind), false)
			}
		}
	case say.Warning:
		shown = "**!** " + shown
	case say.Caution:
		shown = "> **!** " + shown
	case say.Reason:
		shown = "- " + shown
	case say.Detail:
		if shown = "- " + shown; under {
			shown = "-# " + shown[len("- "):]
		}
	}
	return shown
}

// split joins blocks to texts within a limit, at lines' ends. It parts a block
// only where that alone is too long.
func split(blocks []string, most int) []string {
	var parts []string
	room := -1
	for _, block := range blocks {
		pieces := []string{block}
		if length(block) > most {
			pieces = strings.Split(block, "\n")
		}
		for _, piece := range pieces {
			size := length(piece)
			if size < room {
				parts[len(parts)-1] += "\n" + piece
				room -= size + len("\n")
			} else if piece != "" {
				parts = append(parts, piece)
				room = most - size
			}
		}
	}
	for i := range parts {
		parts[i] = strings.TrimRight(parts[i], "\n")
	}
	return parts
}
