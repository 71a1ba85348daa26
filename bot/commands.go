package bot

import "slices"

// table is made once; sentences know its commands from then on.
var table = enlist(assemble())

// Commands is the command table: terminal, completion, help and the generated
// reference are all made from it.
func Commands() []Command { return slices.Clone(table) }

// assemble puts the rows of all rooms together, in the order of the reference.
func assemble() []Command {
	rows := slices.Concat(raceCommands(), weekCommands(), planCommands(), lifeCommands(), coachCommands(), clubCommands(), meCommands())
	return append(rows, helpCommand(rows))
}
