package me

import (
	"context"
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner/words"
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
	p.Gap()
	p.Addf("1. Tell me your usual week: /week share week:%s", say.Quote(desk.ExampleWeek))
	p.Addf("2. Add a race: %s", desk.RaceExample(req.Rider.Today))
	p.Addf("3. See your plan: /plan show")
	p.Addf("4. See the day's ride: /ride")
	p.Addf("Or ask me in your own words: /ask")
	if req.IsCoach() {
		p.Addf("See your riders: /coach roster")
	}
	p.Gap()
	p.Addf("! Do not ride hard when you are ill, hurt or not sure. %s", words.Emergency)
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

// topics are the groups with commands that this person may give, but for those that
// the help has named whole and for a rider's one command of the coaches.
func (h *helpPages) topics(req *desk.Request) []string {
	var out []string
	for _, group := range topicsOf(h.commands) {
		named := group == "ride" || group == "ask" || group == "help" || group == "coach" && !req.IsCoach()
		if !named && slices.ContainsFunc(h.commands, func(c command.Command) bool { return c.Group() == group && c.Allow(req) == nil }) {
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
		ofCoach := group == "plan" && c.Task == command.TaskCoach && !req.IsCoach() // what riders may do with what their coach set
		if c.Group() != group && !ofCoach || c.Allow(req) != nil {
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
