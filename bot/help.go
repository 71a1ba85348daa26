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
	p.addf("I plan race tapers from your typical week: what to ride each day, and why.")
	p.addf("Start with your week: /week share week:%s", Quote(exampleWeek))
	p.addf("Then a race: %s", raceExample(req.rider.today))
	p.addf("Its days: /plan show")
	p.addf("Each day: /ride")
	task := ""
	for _, c := range b.commands {
		if c.Task != task {
			task = c.Task
			p.gap()
			p.heading("%s", task)
		}
		p.addf("%s: %s", c.Link(), c.Description)
	}
	p.gap()
	p.addf("Options of a group: /help topic:race")
	return Reply{Lines: p.done()}, nil
}

// helpGroup lists a group's commands with options and an example each.
func (b *Bot) helpGroup(group string) Reply {
	var p page
	for _, c := range b.commands {
		if c.Group() != group {
			continue
		}
		p.gap()
		p.addf("%s: %s", c.Link(), c.Description)
		p.addf("For example %s", c.example())
		for _, o := range c.Options {
			p.addf("  %s%s: %s", o.Name, map[bool]string{true: " (needed)"}[o.Required], o.help())
		}
	}
	return Reply{Lines: p.done()}
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
	p.addf("I cannot answer questions in plain words; I know commands only.")
	p.addf("Today's session: /ride")
	p.addf("Your schedule: /plan show")
	p.addf("Why a day is so: /plan why")
	p.addf("Everything else: /help")
	return Reply{Topic: TopicUnknown, Private: true, Lines: p.done()}
}
