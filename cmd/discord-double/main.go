// Command discord-double is a Discord on the loopback, to run the bot by hand
// and to watch what passes.
//
// Exit codes: 0 done, 1 something broke, 2 wrong use.
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
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// world is what a subcommand may touch.
type world struct {
	ctx            context.Context
	stdin          io.Reader
	stdout, stderr io.Writer
}

// commandLine is the grammar of the program's arguments.
type commandLine struct {
	Run     runCommand     `cmd:"" help:"Run a made-up club; type what its riders do."`
	Load    loadCommand    `cmd:"" help:"Measure how quickly the bot answers."`
	Chaos   chaosCommand   `cmd:"" help:"Strike the bot with faults at random and count what becomes of each interaction."`
	Burst   burstCommand   `cmd:"" help:"Ask 400 things at once, then for 20 pictures a second, and count what is answered in time."`
	Kill    killCommand    `cmd:"" help:"Kill musette serve again and again while it sends reminders, and count what arrives."`
	Full    fullCommand    `cmd:"" help:"Fill the disk while musette serve sends reminders, and count what arrives (needs root)."`
	Damage  damageCommand  `cmd:"" help:"Damage a database, put its backup back, and count what arrives."`
	Clock   clockCommand   `cmd:"" help:"Let the bot's clock run ahead and back while reminders come due, and count what arrives."`
	Replica replicaCommand `cmd:"" help:"Three processes with 3,000 clubs; one is killed and restored from a replica that lags."`
	Package packageCommand `cmd:"" help:"Install the Debian package in a machine of its own, upgrade it while the service sends reminders, remove it (root, systemd)."`
	Clubs   clubsCommand   `cmd:"" help:"Run musette serve for many clubs and measure memory, start, reminders and answers."`
	Soak    soakCommand    `cmd:"" help:"Live a season with 500 riders and count everybody's reminders each morning."`
	Memory  memoryCommand  `cmd:"" help:"Measure memory and pace of reminders with many riders stored."`
	Screens screensCommand `cmd:"" help:"Play a file of lines and print as JSON what people see (docs/screens/render.sh)."`
	CheckJS checkJSCommand `cmd:"" name:"check-js" help:"Check the double with discord.js, an independent client (node, npm)."`
}

// helpShown ends parsing after --help has been printed.
type helpShown struct{}

// run is the program as a value: arguments and streams in, exit code out.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			if _, ok := p.(helpShown); !ok {
				panic(p)
			}
			code = exitDone
		}
	}()
	var line commandLine
	parser, err := kong.New(&line, kong.Name("discord-double"),
		kong.Description("A Discord on 127.0.0.1, for the bot's developers.\n\nExit codes: 0 done, 1 something broke, 2 wrong use."),
		kong.Writers(stdout, stderr), kong.Exit(func(int) { panic(helpShown{}) }))
	if err != nil {
		return complain(stderr, err, exitBroke)
	}
	call, err := parser.Parse(args)
	if err != nil {
		return complain(stderr, err, exitUse)
	}
	if err := call.Run(&world{ctx: ctx, stdin: stdin, stdout: stdout, stderr: stderr}); err != nil {
		return complain(stderr, err, exitBroke)
	}
	return exitDone
}

func complain(stderr io.Writer, err error, code int) int {
	_, _ = fmt.Fprintf(stderr, "discord-double: %v\n", err) // nowhere else to say it
	return code
}
