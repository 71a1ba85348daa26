package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
)

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
	if len(faults) > 0 {
		all := make([]error, len(faults))
		for i := range faults {
			all[i] = &faults[i]
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

func (c *planCommand) read(w *world) ([]byte, error) {
	source := w.stdin
	if c.File != "-" {
		file, err := os.Open(c.File)
		if err != nil {
			return nil, &planner.InputError{Field: "FILE", Msg: fmt.Sprintf("cannot be read (%v). For example musette plan season.json", err)}
		}
		defer file.Close() //nolint:errcheck // only read
		source = file
	}
	data, err := io.ReadAll(io.LimitReader(source, maxPlanFile+1))
	switch {
	case err != nil:
		return nil, &planner.InputError{Field: "FILE", Msg: fmt.Sprintf("cannot be read (%v). For example musette plan season.json", err)}
	case len(data) > maxPlanFile:
		return nil, &planner.InputError{Field: "FILE", Msg: "is larger than 1 MiB; a season takes a few kilobytes, for example musette plan season.json"}
	}
	return data, nil
}

// maxPlanFile is the largest plan file that is read, in bytes.
const maxPlanFile = 1 << 20

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
