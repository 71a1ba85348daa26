package bot

import (
	"context"
	"strings"
)

func (b *Bot) help(_ context.Context, req Request) (Reply, error) {
	if req.has("topic") {
		return b.helpGroup(req.get("topic")), nil
	}
	var p page
	p.add("I plan race tapers from your typical week: what to ride each day, and why.",
		"Start with your week: /week share week:"+Quote(exampleWeek),
		"Then a race: "+raceExample(req.rider.today),
		"Its days: /plan show",
		"Each day: /ride")
	task := ""
	for _, c := range b.commands {
		if c.Task != task {
			task = c.Task
			p.gap()
			p.add(task)
		}
		p.addf("/%s: %s", c.Name, c.Description)
	}
	p.gap()
	p.add("Options of a group: /help topic:race")
	return Reply{Text: p.String()}, nil
}

// helpGroup lists a group's commands with options and an example each.
func (b *Bot) helpGroup(group string) Reply {
	var p page
	for _, c := range b.commands {
		if c.Group() != group {
			continue
		}
		p.gap()
		p.add("/"+c.Name+": "+c.Description, "For example /"+c.Example)
		for _, o := range c.Options {
			p.addf("  %s%s: %s", o.Name, map[bool]string{true: " (needed)"}[o.Required], o.help())
		}
	}
	return Reply{Text: p.String()}
}

// help is the description with the choices, where it does not name them itself.
func (o *Option) help() string {
	text := o.Description
	for _, c := range o.Choices {
		if !strings.Contains(text, c) {
			return text + " (" + orList(o.Choices) + ")"
		}
	}
	return text
}

// unknown answers a plain question: it never guesses.
func (b *Bot) unknown() Reply {
	var p page
	p.add("I cannot answer questions in plain words; I know commands only.",
		"Today's session: /ride",
		"Your schedule: /plan show",
		"Why a day is so: /plan why",
		"Everything else: /help")
	return Reply{Topic: TopicUnknown, Private: true, Text: p.String()}
}
