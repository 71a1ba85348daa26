package me

import (
	"context"
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
)

// helpPages explain the commands of a table.
type helpPages struct{ commands []command.Command }

// firstTopics are those that riders look for most, in the order of the menu.
var firstTopics = []string{"race", "week", "plan", "ride", "done", "tell", "season", "me"}

// topicsOf are the groups of a table: those that riders look for most, then all
// others in the table's order.
func topicsOf(commands []command.Command) []string {
	var out, others []string
	for i := range commands {
		switch group := commands[i].Group(); {
		case slices.Contains(firstTopics, group) || slices.Contains(others, group):
		default:
			others = append(others, group)
		}
	}
	for _, group := range firstTopics {
		if slices.ContainsFunc(commands, func(c command.Command) bool { return c.Group() == group }) {
			out = append(out, group)
		}
	}
	return append(out, others...)
}

// Help is the row of /help, which explains the other rows and itself.
func Help(others []command.Command) command.Command {
	h := &helpPages{commands: append(slices.Clone(others), command.Command{Name: "help", Task: command.TaskMe, Anywhere: true,
		Description: "What this bot can do",
		Example:     "help topic:race"})}
	row := &h.commands[len(others)]
	row.Options = []command.Option{{Name: "topic", Type: "text", Choices: topicsOf(h.commands), Example: "race",
		Description: "A group of commands"}}
	row.Run = func(ctx context.Context, _ *desk.Base, req desk.Request) (say.Reply, error) { return h.run(ctx, req) }
	return *row
}

func (h *helpPages) run(_ context.Context, req desk.Request) (say.Reply, error) {
	if req.Has("topic") {
		return h.group(&req, req.Get("topic")), nil
	}
	var p say.Page
	p.Addf("I plan your race tapers, the easier days before a race. I make them from your usual week, and say what to ride each day, and why.")
	p.Addf("Start with your week: /week share week:%s", say.Quote(desk.ExampleWeek))
	p.Addf("Then add a race: %s", desk.RaceExample(req.Rider.Today))
	p.Addf("Its days: /plan show")
	p.Addf("Each day: /ride")
	p.Gap()
	for _, task := range h.tasks(&req) {
		p.Addf("%s: %s", task.name, say.Joined(task.commands, ", "))
	}
	p.Gap()
	p.Addf("! Ill, hurt or not sure? Do not ride hard. Chest pain, fainting or trouble breathing: stop and call the emergency number.")
	p.Add(show.LeavingErases())
	return say.Reply{Lines: p.Done(), Menu: "Choose a topic to see its commands", Buttons: h.choices(&req)}, nil
}

// choices are the entries of the menu of topics.
func (h *helpPages) choices(req *desk.Request) []say.Button {
	var out []say.Button
	for _, group := range h.topics(req) {
		var verbs []string
		for i := range h.commands {
			if c := &h.commands[i]; c.Group() == group && c.Allow(req) == nil {
				verbs = append(verbs, strings.TrimPrefix(c.Name, group+" "))
			}
		}
		b := say.Button{Label: group, Command: "help", Options: map[string]string{"topic": group}}
		if len(verbs) > 1 {
			b.Detail = strings.Join(verbs, ", ")
		}
		out = append(out, b)
	}
	return out
}

// task is a heading of the help and the commands under it.
type task struct {
	name     string
	commands []say.Line
}

// tasks are the commands that this person may give, by what they are for.
func (h *helpPages) tasks(req *desk.Request) []task {
	var out []task
	for i := range h.commands {
		c := &h.commands[i]
		if c.Allow(req) != nil {
			continue
		}
		name := c.Task
		if name == command.TaskCoach && !req.IsCoach() {
			name = command.TaskPlan // what riders too may do with what their coach set
		}
		at := slices.IndexFunc(out, func(t task) bool { return t.name == name })
		if at < 0 {
			at, out = len(out), append(out, task{name: name})
		}
		out[at].commands = append(out[at].commands, say.Line{Spans: []say.Span{c.Link()}})
	}
	return out
}

// topics are the groups of several commands that this person may give, and /done,
// whose options need more than a line.
func (h *helpPages) topics(req *desk.Request) []string {
	groups := map[string]int{}
	for i := range h.commands {
		if c := &h.commands[i]; c.Allow(req) == nil {
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

// group lists those of a group's commands that this person may give, with options
// and an example each.
func (h *helpPages) group(req *desk.Request, group string) say.Reply {
	var p say.Page
	for _, c := range h.commands {
		if c.Group() != group || c.Allow(req) != nil {
			continue
		}
		p.Gap()
		p.Addf("%s: %s", c.Link(), c.Description)
		p.Addf("For example %s", c.ExampleSpan())
		for _, o := range c.Options {
			p.Addf("  %s%s: %s", o.Name, map[bool]string{true: " (needed)"}[o.Required], o.Help())
		}
	}
	switch {
	case len(p.Lines) == 0:
		p.Addf("These commands are for the club's coaches. What you can do: /help")
	case group == "coach":
		p.Gap()
		p.Addf("Riders can get a copy of all that I store about them, also what coaches wrote: /me export")
	case group == "me":
		p.Gap()
		p.Addf("Your club sees your races. Its coaches also see your plan, your rides and your race results. Your notes are yours alone.")
		p.Add(show.HealthKept(), show.LeavingErases())
	}
	return say.Reply{Lines: p.Done()}
}
