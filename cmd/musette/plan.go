package main

import (
	"bytes"
	"errors"
	"fmt"

	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/storage"
)

// maxPlanFaults is how many faults of one plan file are told.
const maxPlanFaults = 20

// planCommand plans from a file alone.
type planCommand struct {
	File string `arg:"" help:"Plan file, or - for standard input."`
	JSON bool   `name:"json" help:"Write the whole plan as JSON."`
}

// Run implements the subcommand. Nothing is written unless the whole plan can be.
func (c *planCommand) Run(w *world) error {
	data, err := c.read(w)
	if err != nil {
		return err
	}
	today, facts, faults := planfile.Read(data)
	if len(faults) == 0 {
		faults = strangeNames(facts)
	}
	if len(faults) > 0 {
		all := make([]error, min(len(faults), maxPlanFaults))
		for i := range all {
			all[i] = &faults[i]
		}
		if more := len(faults) - len(all); more > 0 {
			all = append(all, &planner.InputError{Field: "FILE", Msg: fmt.Sprintf("has %d faults more. Mend these first, for example %s", more, faults[0].Field)})
		}
		return errors.Join(all...)
	}
	plan := engine.Derive(today, facts)
	var out bytes.Buffer
	if c.JSON {
		if err := planfile.Write(&out, plan); err != nil {
			return err
		}
	} else {
		writePlan(&out, plan, facts)
	}
	_, err = w.stdout.Write(out.Bytes())
	return err
}

// strangeNames tells of races whose name chat would refuse: joiners where neither
// emoji nor a script has them.
func strangeNames(facts *planner.Facts) (faults []planner.InputError) {
	for i, race := range facts.Races { // in the order of the file
		err := storage.CheckName(fmt.Sprintf("races[%d].name", i), race.Name, `"name": "Hill Loop"`)
		if in, bad := errors.AsType[*planner.InputError](err); bad {
			faults = append(faults, *in)
		}
	}
	return faults
}

func (c *planCommand) read(w *world) ([]byte, error) {
	var data []byte
	var err error
	if c.File == "-" {
		data, err = readInput(w.ctx, w.stdin)
	} else {
		data, err = readFile(w.ctx, c.File)
	}
	switch {
	case errors.Is(err, errInterrupted):
		return nil, err
	case errors.Is(err, errTooLarge):
		return nil, &planner.InputError{Field: "FILE", Msg: "is larger than 1 MiB. A season takes a few kilobytes, for example musette plan season.json"}
	case err != nil:
		return nil, &planner.InputError{Field: "FILE", Msg: fmt.Sprintf("cannot be read (%v). For example musette plan season.json", err)}
	}
	return data, nil
}

// writePlan is a plan for people: tapers and warnings first, then a day a line.
func writePlan(out *bytes.Buffer, plan *engine.Plan, facts *planner.Facts) {
	fmt.Fprintf(out, "Plan from %s to %s.\n", plan.Today.Long(), plan.Today.AddDays(len(plan.Days)-1).Long())
	for _, line := range show.Summary(plan, facts) {
		fmt.Fprintln(out, line)
	}
	fmt.Fprintln(out)
	for _, line := range show.Schedule(plan.Days) {
		fmt.Fprintln(out, line)
	}
}
