package terminal

import (
	"context"
	"strings"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/say"
)

// complete lists whole lines that go on from what has been typed.
func (s *Session) complete(ctx context.Context, line string) []string {
	switch {
	case strings.HasPrefix(line, ":"):
		return completeControl(line)
	case !strings.HasPrefix(line, "/"):
		return nil
	}
	for _, c := range bot.Commands() {
		if rest, ok := strings.CutPrefix(line, "/"+c.Name+" "); ok {
			return s.completeOption(ctx, &c, line[:len(line)-len(rest)], rest)
		}
	}
	var out []string
	for _, c := range bot.Commands() {
		if whole := "/" + c.Name; strings.HasPrefix(whole, line) {
			out = append(out, whole+" ")
		}
	}
	return out
}

func completeControl(line string) []string {
	var out []string
	for _, c := range controls {
		whole := ":" + c.word
		if c.argument != "" {
			whole += " "
		}
		if strings.HasPrefix(whole, line) {
			out = append(out, whole)
		}
	}
	return out
}

// completeOption goes on with a value of the option being typed, or else with
// the names of options that are not there yet.
func (s *Session) completeOption(ctx context.Context, c *command.Command, head, rest string) []string {
	name, at := openOption(c, rest)
	var out []string
	if name != "" {
		typed := strings.TrimLeft(rest[at:], `" `)
		req := s.who
		req.Now = s.clock.Now()
		for _, o := range s.bot.Offer(ctx, req, c.Name, name, typed) {
			out = append(out, head+rest[:at]+say.Quote(o.Value)+" ")
		}
	}
	if i := strings.LastIndexByte(rest, ' ') + 1; len(out) == 0 {
		for _, option := range c.OptionNames() {
			if strings.HasPrefix(option, rest[i:]) && !strings.Contains(" "+rest, " "+option+":") {
				out = append(out, head+rest[:i]+option+":")
			}
		}
	}
	return out
}

// openOption is the option whose value is being typed and where that value
// begins; a text without an option belongs to the first one.
func openOption(c *command.Command, rest string) (string, int) {
	name, at := "", 0
	for _, option := range c.OptionNames() {
		if i := strings.LastIndex(" "+rest, " "+option+":"); i >= 0 && i+len(option)+1 > at {
			name, at = option, i+len(option)+1
		}
	}
	if name == "" && len(c.Options) > 0 && rest != "" {
		return c.Options[0].Name, 0
	}
	value, quoted := strings.CutPrefix(rest[at:], `"`)
	if quoted && strings.Contains(value, `" `) || !quoted && strings.HasSuffix(value, " ") {
		return "", 0 // the value is closed
	}
	return name, at
}
