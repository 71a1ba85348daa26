package bot

import (
	"context"
	"slices"
	"strings"
)

// helpPages explain the commands of a table.
type helpPages struct{ commands []Command }

// firstTopics are those that riders look for most, in the order of the buttons.
var firstTopics = []string{"race", "week", "plan", "ride", "done", "tell", "season", "me"}

// topicsOf are the groups of a table: those that riders look for most, then all
// others in the table's order.
func topicsOf(commands []Command) []string {
	var out, others []string
	for i := range commands {
		switch group := commands[i].Group(); {
		case slices.Contains(firstTopics, group) || slices.Contains(others, group):
		default:
			others = append(others, group)
		}
	}
	for _, group := range firstTopics {
		if slices.ContainsFunc(commands, func(c Command) bool { return c.Group() == group }) {
			out = append(out, group)
		}
	}
	return append(out, others...)
}

// helpCommand is the row of /help, which explains the other rows and itself.
func helpCommand(others []Command) Command {
	h := &helpPages{commands: append(slices.Clone(others), Command{Name: "help", Task: taskMe,
		Description: "What this bot can do",
		Example:     "help topic:race"})}
	row := &h.commands[len(others)]
	row.Options = []Option{{Name: "topic", Type: "text", Choices: topicsOf(h.commands), Example: "race",
		Description: "A group of commands"}}
	row.run = func(_ *Base, ctx context.Context, req Request) (Reply, error) { return h.run(ctx, req) }
	return *row
}

func (h *helpPages) run(_ context.Context, req Request) (Reply, error) {
	if req.has("topic") {
		return h.group(req.get("topic")), nil
	}
	var p page
	p.addf("I plan your race tapers from your usual week: what to ride each day, and why.")
	p.addf("Start with your week: /week share week:%s", Quote(exampleWeek))
	p.addf("Then add a race: %s", raceExample(req.rider.today))
	p.addf("Its days: /plan show")
	p.addf("Each day: /ride")
	p.gap()
	for _, task := range h.tasks(&req) {
		p.addf("%s: %s", task.name, joined(task.commands, ", "))
	}
	p.gap()
	p.addf("! Ill, hurt or not sure? Do not ride hard. Chest pain, fainting or trouble breathing: stop and call the emergency number.")
	p.addf("Press a topic to see its commands with an example each.")
	reply := Reply{Lines: p.done()}
	for _, group := range h.topics(&req) {
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
func (h *helpPages) tasks(req *Request) []task {
	var out []task
	for i := range h.commands {
		c := &h.commands[i]
		if c.allow(req) != nil {
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
func (h *helpPages) topics(req *Request) []string {
	groups := map[string]int{}
	for i := range h.commands {
		if c := &h.commands[i]; c.allow(req) == nil {
			groups[c.Group()]++
		}
	}
	var out []string
	for _, group := range topicsOf(h.commands) {
		if groups[group] > 1 || group == "done" {
			out = append(out, group)
		}
	}
	return out
}

// group lists a group's commands with options and an example each.
func (h *helpPages) group(group string) Reply {
	var p page
	for _, c := range h.commands {
		if c.Group() != group {
			continue
		}
		p.gap()
		p.addf("%s: %s", c.Link(), c.Description)
		p.addf("For example %s", c.exampleSpan())
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
