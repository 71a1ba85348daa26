// Package ask answers questions in plain English, and makes proposals of what
// people tell. It computes nothing by itself that a command computes: it gives the
// command.
package ask

import (
	"context"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
)

// The command and its option.
const (
	Name     = "ask"
	Question = "question"
)

// mostQuestion is how long a question may be to be looked at: as long as a message.
const mostQuestion = 2000

// Command is the row of /ask, which gives the commands of the table, once it is there.
func Command(table *[]command.Command) command.Command {
	return command.Command{Name: Name, Task: command.TaskPlan, Options: []command.Option{
		{Name: Question, Type: "question", Required: true, MaxLen: mostQuestion, Example: "may I do the group ride on Thursday?",
			Description: "What you want to know, in your own words"}},
		Description: "Ask in plain English: what to ride, why, may I, how hard",
		Example:     `ask question:"What do I ride tomorrow?"`,
		Run: func(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
			return answer(ctx, b, req, *table)
		}}
}
