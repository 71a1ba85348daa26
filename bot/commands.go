package bot

import (
	"slices"

	"musette/bot/ask"
	"musette/bot/club"
	"musette/bot/coach"
	"musette/bot/command"
	"musette/bot/life"
	"musette/bot/me"
	"musette/bot/plans"
	"musette/bot/races"
	"musette/bot/weeks"
)

// table is made once.
var table = assemble()

// Commands is the command table: terminal, completion, help and the generated
// reference are all made from it.
func Commands() []command.Command { return slices.Clone(table) }

// assemble puts the rows of all rooms together, in the order of the reference.
func assemble() []command.Command {
	rows := slices.Concat(races.Commands(), weeks.Commands(), plans.Commands(), life.Commands(), coach.Commands(), club.Commands(), me.Commands())
	all := new([]command.Command) // which /ask gives, itself included
	rows = append(rows, ask.Command(all))
	*all = append(rows, me.Help(rows))
	return *all
}
