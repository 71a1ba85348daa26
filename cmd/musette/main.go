// Command musette plans race tapers for the riders of cycling clubs.
//
// Exit codes: 0 done, 1 something broke, 2 bad input or wrong use.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strconv"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"musette/planner"
)

// Exit codes.
const (
	exitDone  = 0
	exitBroke = 1
	exitInput = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)   // a second signal ends the program at once
	signal.Ignore(syscall.SIGPIPE) // writing to a reader who is gone is an error, after which we clean up
	os.Exit(run(ctx, os.Args[1:], os.Environ(), os.Stdin, os.Stdout, os.Stderr))
}

// world is what a subcommand may touch.
type world struct {
	ctx            context.Context
	environ        []string
	configFile     string
	stdin          io.Reader
	stdout, stderr io.Writer
}

// commandLine is the grammar of the program's arguments.
type commandLine struct {
	Config  string           `placeholder:"FILE" help:"Configuration file. Left out: musette.toml where there is one."`
	Version kong.VersionFlag `help:"Print the version and end."`

	Demo       demoCommand    `cmd:"" help:"Play a made-up club's conversation, offline."`
	Chat       chatCommand    `cmd:"" help:"Talk to the bot: a line in, an answer out."`
	Serve      serveCommand   `cmd:"" help:"Run the bot on Discord until it is stopped."`
	Check      checkCommand   `cmd:"" help:"Say what is missing before the bot can run, and the fix."`
	Plan       planCommand    `cmd:"" help:"Plan a race season from a plan file, without a database."`
	Export     exportCommand  `cmd:"" help:"Write all that is stored of one person, as JSON."`
	Erase      eraseCommand   `cmd:"" help:"Erase all that is stored of one person."`
	Backup     backupCommand  `cmd:"" help:"Copy the database while the bot runs, and look through the copy."`
	Restore    restoreCommand `cmd:"" help:"Put a backup in the place of the database."`
	ShowConfig configCommand  `cmd:"" name:"config" help:"Print the configuration in force, secrets hidden."`
}

// helpShown ends parsing after --help or --version has been printed.
type helpShown struct{}

// run is the program as a value: arguments and streams in, exit code out.
// environ is as of os.Environ.
func run(ctx context.Context, args, environ []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			if _, ok := p.(helpShown); !ok {
				panic(p)
			}
			code = exitDone
		}
	}()
	var line commandLine
	parser, err := kong.New(&line, kong.Name("musette"),
		kong.Description("Plans race tapers for the riders of cycling clubs.\n\nExit codes: 0 done, 1 something broke, 2 bad input or wrong use."),
		kong.Vars{"version": version()}, kong.Writers(stdout, stderr), kong.Exit(func(int) { panic(helpShown{}) }))
	if err != nil {
		return complain(stderr, err, exitBroke)
	}
	if len(args) > 0 && args[0] == "help" {
		args = append(slices.Clone(args[1:]), "--help")
	}
	call, err := parser.Parse(withNumbers(args))
	if err != nil {
		code := complain(stderr, err, exitInput)
		fmt.Fprintln(stderr, "musette --help shows how it is used, for example musette chat --as Ines")
		return code
	}
	w := &world{ctx: ctx, environ: environ, configFile: line.Config, stdin: stdin, stdout: stdout, stderr: stderr}
	err = call.Run(w)
	var in *planner.InputError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled) && ctx.Err() != nil:
		if slices.Contains([]string{"demo", "chat", "serve"}, call.Command()) {
			return exitDone // an interrupt is their usual end
		}
		return complain(stderr, errStopped, exitBroke)
	case errors.Is(err, syscall.EPIPE):
		return exitBroke // who reads no more, as head -1, wants no line about it
	case errors.As(err, &in):
		return complain(stderr, err, exitInput)
	}
	return complain(stderr, err, exitBroke)
}

// withNumbers joins a number below nothing to the flag before it, so that it is read as the
// flag's value and refused as such, and not taken for a flag: --keep -3.
func withNumbers(args []string) (joined []string) {
	for i, arg := range args {
		_, err := strconv.Atoi(arg)
		if before := len(joined) - 1; i > 0 && err == nil && arg[0] == '-' && strings.HasPrefix(args[i-1], "--") && args[i-1] != "--" && !strings.Contains(args[i-1], "=") {
			joined[before] += "=" + arg
			continue
		}
		joined = append(joined, arg)
	}
	return joined
}

// complain writes a line for each fault. Of a fault of the input only the field
// and what is wrong with it are shown, not the way that it took through the program.
func complain(stderr io.Writer, err error, code int) int {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, fault := range joined.Unwrap() {
			complain(stderr, fault, code)
		}
		return code
	}
	text := err.Error()
	if in := (*planner.InputError)(nil); errors.As(err, &in) {
		text = in.Error()
	}
	fmt.Fprintln(stderr, "musette: "+oneLine(text))
	return code
}
