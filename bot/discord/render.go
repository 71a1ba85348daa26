package discord

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"musette/bot"
	"musette/bot/discord/api"
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
// the rest stands in one embed. rows and files go with the answer. Flags are
// the caller's.
func (r renderer) messages(reply bot.Reply, rows []api.Component) []api.Message {
	w := r.words(reply.Verbatim)
	text := strings.TrimSpace(reply.Text)
	first, rest, _ := strings.Cut(text, "\n")
	answer := api.Message{Components: rows}
	var blocks []string
	if reply.Err != nil {
		var over string
		answer.Content, over = w.refusal(reply.Err)
		blocks = w.blocks(over)
	} else {
		var over string
		if answer.Content, over = w.within(first, maxContent, true); over != "" {
			rest = strings.TrimRight(over+"\n"+rest, "\n")
		}
		blocks = withMoments(w.blocks(rest), reply.Moments)
	}
	files, left := sendable(reply.Files)
	parts := split(slices.Concat(left, blocks), maxDescription)
	if len(parts) > maxMessages {
		whole := bot.File{Name: wholeName, Type: wholeType, Data: []byte(reply.Text)}
		files, left = sendable(slices.Concat([]bot.File{whole}, reply.Files))
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

// refusal is a fault in one line, with the option's name as it is typed, and
// what of it has no room.
func (w *words) refusal(fault *bot.FieldError) (content, over string) {
	lead := "**Not done.** "
	if field := oneLine(fault.Field); field != "" {
		if name, ok := code(field); ok {
			lead += name + ": "
		} else {
			lead += escape(field+": ", false)
		}
	}
	content, over = w.within(oneLine(fault.Message), maxContent-length(lead), false)
	return lead + content, over
}

// within writes as much of a line as has room, up to a blank where there is
// one, and returns what is left of it.
func (w *words) within(line string, most int, bold bool) (shown, over string) {
	if shown = w.inline(line, bold); length(shown) <= most {
		return shown, ""
	}
	runes := []rune(line)
	n := sort.Search(len(runes), func(n int) bool { return length(w.inline(string(runes[:n+1]), bold)) > most })
	for back := n; back > n/2; back-- {
		if runes[back] == ' ' {
			n = back
			break
		}
	}
	return w.inline(string(runes[:n]), bold), strings.TrimSpace(string(runes[n:]))
}

// withMoments puts the instants of an answer below its first line.
func withMoments(blocks []string, moments []bot.Moment) []string {
	var lines []string
	for _, m := range moments {
		at := m.At.Unix()
		lines = append(lines, fmt.Sprintf("%s <t:%d:F> (<t:%d:R>)", escape(oneLine(m.Label), true), at, at))
	}
	return append(lines, blocks...)
}

// attach adds files with their words for those who do not see them. The first
// picture is shown in the embed.
func attach(m *api.Message, files []bot.File) {
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

// Marks of lines in a reply's text.
var (
	scheduleLine = regexp.MustCompile(`^((?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)(?: \d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)(?: \d{4})?\b|  ))\s*(.*)$`)
	headingLine  = regexp.MustCompile(`^[\pL\d][\pL\d ]{0,39}$`)
	labelLine    = regexp.MustCompile(`^[^/]{1,80}:$`)
)

// blocks writes the lines behind the first one in Discord's markup. A block is
// a line with its details; a gap is a block of its own, an empty one.
func (w *words) blocks(text string) []string {
	var blocks []string
	under := false // details are small print under a day or a reason, else a list
	lines := w.fold(text)
	for i, line := range lines {
		detail, isDetail := strings.CutPrefix(line, "  ")
		switch {
		case strings.TrimSpace(line) == "":
			if len(blocks) > 0 && blocks[len(blocks)-1] != "" {
				blocks = append(blocks, "")
			}
		case isDetail:
			shown := w.detail(strings.TrimSpace(detail), under)
			if last := len(blocks) - 1; last >= 0 && blocks[last] != "" {
				blocks[last] += "\n" + shown
				continue
			}
			blocks = append(blocks, shown)
		default:
			heading := i > 0 && lines[i-1] == "" && i+1 < len(lines) && headingLine.MatchString(line) || labelLine.MatchString(line)
			var shown string
			shown, under = w.line(line, heading)
			blocks = append(blocks, shown)
		}
	}
	return blocks
}

// fold parts a text at its lines' ends, and lines that are too long for one
// embed at blanks.
func (w *words) fold(text string) []string {
	const (
		marks = 20  // of our own at most, besides those of words
		safe  = 800 // even where every word is a link
	)
	var out []string
	for line := range strings.SplitSeq(text, "\n") {
		indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
		for length(line) > safe && length(w.inline(line, false)) > maxDescription-marks-len(wholeNote) {
			piece := head(line, safe)
			if blank := strings.LastIndexByte(piece, ' '); blank > safe/2 {
				piece = piece[:blank]
			}
			out = append(out, piece)
			line = indent + strings.TrimLeft(line[len(piece):], " ")
		}
		out = append(out, line)
	}
	return out
}

// line writes a line that is no detail, and reports whether details under it
// are small print.
func (w *words) line(line string, heading bool) (shown string, under bool) {
	if day := scheduleLine.FindStringSubmatch(line); day != nil {
		rest, mark := strings.CutSuffix(day[2], " !")
		shown = "**" + strings.TrimSpace(day[1]) + "** " + w.inline(rest, false)
		if mark {
			shown += " **!**"
		}
		return shown, true
	}
	if warning, ok := strings.CutPrefix(line, "! "); ok {
		return "**!** " + w.inline(warning, false), false
	}
	if reason, ok := strings.CutPrefix(line, "- "); ok {
		return "- " + w.inline(reason, false), true
	}
	return w.inline(line, heading), false
}

// detail writes a detail of the line above. A caution stands beside its session
// with a bar and a mark, in full size.
func (w *words) detail(line string, under bool) string {
	if caution, ok := strings.CutPrefix(line, "! "); ok {
		return "> **!** " + w.inline(caution, false)
	}
	if under {
		return "-# " + w.inline(line, false)
	}
	return "- " + w.inline(line, false)
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
