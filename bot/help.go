package bot

import (
	"context"
	"slices"
	"strings"
)

func (b *Bot) help(_ context.Context, req Request) (Reply, error) {
	if req.has("topic") {
		return b.helpGroup(req.get("topic")), nil
	}
	var p page
	p.add("I plan your race tapers from your usual week: what to ride each day, and why.",
		"Start with your week: /week share week:"+Quote(exampleWeek),
		"Then add a race: "+raceExample(req.rider.today),
		"Its days: /plan show",
		"Each day: /ride")
	p.gap()
	for _, task := range b.tasks(&req) {
		p.add(task.name + ": " + strings.Join(task.commands, ", "))
	}
	p.gap()
	p.add("! Ill, hurt or not sure? Do not ride hard. Chest pain, fainting or trouble breathing: stop and call the emergency number.",
		"Press a topic to see its commands with an example each.")
	reply := Reply{Text: p.String()}
	for _, group := range b.topics(&req) {
		reply.Buttons = append(reply.Buttons, Button{Label: "Help: " + group, Command: "help", Options: map[string]string{"topic": group}})
	}
	return reply, nil
}

// task is a heading of the help and the commands under it.
type task struct {
	name     string
	commands []string
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
		last.commands = append(last.commands, "/"+c.Name)
	}
	return out
}

// topics are the groups of several commands that this person may give.
func (b *Bot) topics(req *Request) []string {
	groups := map[string]int{}
	for i := range b.commands {
		if c := &b.commands[i]; b.allow(c, req) == nil {
			groups[c.Group()]++
		}
	}
	var out []string
	for _, group := range choiceHelp {
		if groups[group] > 1 || group == "done" && groups[group] == 1 {
			out = append(out, group)
		}
	}
	return slices.Compact(out)
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
