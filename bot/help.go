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
	p.addf("I plan your race tapers from your usual week: what to ride each day, and why.")
	p.addf("Start with your week: /week share week:%s", Quote(exampleWeek))
	p.addf("Then add a race: %s", raceExample(req.rider.today))
	p.addf("Its days: /plan show")
	p.addf("Each day: /ride")
	p.gap()
	for _, task := range b.tasks(&req) {
		p.addf("%s: %s", task.name, joined(task.commands, ", "))
	}
	p.gap()
	p.addf("! Ill, hurt or not sure? Do not ride hard. Chest pain, fainting or trouble breathing: stop and call the emergency number.")
	p.addf("Press a topic to see its commands with an example each.")
	reply := Reply{Lines: p.done()}
	for _, group := range b.topics(&req) {
		reply.Buttons = append(reply.Buttons, Button{Label: "Help: " + group, Command: "help", Options: map[string]string{"topic": group}})
	}
	return reply, nil
}

// task is a heading of the help and the commands under it.
type task struct {
	name     string
	commands []Line
}

// tasks are the commands that this person may give, by what they are for.
func (b *Bot) tasks(req *Request) []task {
	var out []task
	for i := range b.commands {
		c := &b.commands[i]
		if b.allow(c, req) != nil {
			continue
		}
		if len(out) == 0 || out[len(out)-1].name != c.Task {
			out = append(out, task{name: c.Task})
		}
		last := &out[len(out)-1]
		last.commands = append(last.commands, Line{Spans: []Span{c.Link()}})
	}
	return out
}

// topics are the groups of several commands that this person may give, and /done,
// whose options need more than a line.
func (b *Bot) topics(req *Request) []string {
	groups := map[string]int{}
	for i := range b.commands {
		if c := &b.commands[i]; b.allow(c, req) == nil {
			groups[c.Group()]++
		}
	}
	var out []string
	for _, group := range choiceHelp {
		if groups[group] > 1 || group == "done" {
			out = append(out, group)
		}
	}
	return out
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
	p.addf("I cannot answer questions in plain words yet. I know commands only.")
	p.addf("Today's session: /ride")
	p.addf("Your schedule: /plan show")
	p.addf("Why a day is so: /plan why")
	p.addf("Everything else: /help")
	return Reply{Topic: TopicUnknown, Private: true, Lines: p.done()}
}
