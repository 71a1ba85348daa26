// Command season-proof shows that the season optimum is the optimum, and how
// quickly it is found: random seasons go to it and, as raw numbers, to
// independent solvers of mixed-integer programmes, HiGHS and glpsol.
//
// Exit codes: 0 done, 1 something differs, is too slow, is missing or broke, 2 wrong use.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"
)

// Exit codes.
const (
	exitDone  = 0
	exitBroke = 1
	exitUse   = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// commandLine is the grammar of the program's arguments.
type commandLine struct {
	Seasons int    `default:"200" help:"How many random seasons, at least 1."`
	Seed    uint64 `default:"1" help:"Which ones."`
	Write   string `placeholder:"FILE" help:"Also write the seasons and what the solvers found, for the tests."`
}

// Validate is called by kong.
func (c *commandLine) Validate() error {
	if c.Seasons < 1 {
		return fmt.Errorf("--seasons is %d, must be at least 1, such as 200", c.Seasons)
	}
	return nil
}

// helpShown ends parsing after --help has been printed.
type helpShown struct{}

// run is the program as a value: arguments and streams in, exit code out.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			if _, ok := p.(helpShown); !ok {
				panic(p)
			}
			code = exitDone
		}
	}()
	var line commandLine
	parser, err := kong.New(&line, kong.Name("season-proof"),
		kong.Description("The season optimum against independent solvers (glpk-utils, python3-scipy).\n\nExit codes: 0 done, 1 something differs, is too slow, is missing or broke, 2 wrong use."),
		kong.Writers(stdout, stderr), kong.Exit(func(int) { panic(helpShown{}) }))
	if err != nil {
		return complain(stderr, err, exitBroke)
	}
	if _, err := parser.Parse(args); err != nil {
		return complain(stderr, err, exitUse)
	}
	if err := line.prove(ctx, stdout); err != nil {
		return complain(stderr, err, exitBroke)
	}
	return exitDone
}

func complain(stderr io.Writer, err error, code int) int {
	_, _ = fmt.Fprintf(stderr, "season-proof: %v\n", err) // nowhere else to say it
	return code
}

// prove makes the seasons, has them solved by all and prints the comparison.
func (c *commandLine) prove(ctx context.Context, stdout io.Writer) error {
	// Debian's Python has Debian's scipy even where another stands first in the path.
	python, err := findSolvers(ctx, "python3", "/usr/bin/python3")
	if err != nil {
		return err
	}
	cases := make([]solved, c.Seasons)
	for i := range cases {
		if cases[i], err = solve(randomProblem(c.Seed, uint64(i))); err != nil {
			return fmt.Errorf("season %d of seed %d: %w", i, c.Seed, err)
		}
	}
	answers, err := askSolvers(ctx, python, cases)
	if err != nil {
		return err
	}
	r := compare(cases, answers)
	if _, err := io.WriteString(stdout, r.table()); err != nil {
		return err
	}
	if err := r.verdict(); err != nil {
		return err
	}
	if c.Write == "" {
		return nil
	}
	return writeSeasons(c.Write, c.Seed, cases, answers)
}
