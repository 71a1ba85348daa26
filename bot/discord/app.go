package discord

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"runtime/debug"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"musette/bot"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/bot/meter"
	"musette/bot/post"
	"musette/storage"
)

// platform is how keys of clubs and riders name Discord.
const platform = "discord"

// Permissions are what the bot asks of a server: View Channels, Send Messages,
// Embed Links and Attach Files.
const Permissions = 1<<10 | 1<<11 | 1<<14 | 1<<15

// ThreadPermissions are those and what reminders in private threads need: Create
// Private Threads and Send Messages in Threads. The invite link does not ask for them.
const ThreadPermissions = Permissions | 1<<36 | 1<<38

// intents are guilds, their messages and direct messages. None is privileged:
// texts come with direct messages and mentions only.
const (
	intents       = 1<<0 | 1<<9 | directIntents
	directIntents = 1 << 12
)

const (
	commandSeats = 4                // answers to interactions worked out at once
	promptSeats  = 4                // those that cannot be deferred, besides
	talkSeats    = 8                // messages answered at once, which may wait for Discord's pace
	backlog      = 4096             // events under way, and as many that wait; more are dropped and logged
	grace        = 20 * time.Second // for answers under way when the bot stops
	aheadOfTime  = time.Minute      // over which reminders of one minute are spread, before it
)

// closeBadToken is the gateway's code for a token that Discord does not know.
const closeBadToken = 4004

// InviteLink adds the bot to a server with exactly the rights that it needs.
func InviteLink(appID string) string {
	return "https://discord.com/oauth2/authorize?client_id=" + appID + "&scope=bot+applications.commands&permissions=" + strconv.Itoa(Permissions)
}

// Config is what the bot needs on Discord.
type Config struct {
	Token string
	URL   string // empty: Discord; else a double's, http://127.0.0.1:8585
	Zone  string // IANA zone of clubs that are new
	DB    *storage.DB
	Bot   *bot.Bot
	Log   *slog.Logger
	Out   io.Writer     // what the operator should read: the invite link, the connection
	Share gateway.Share // of the bot's shards
	Pace  gateway.Pace  // zero but in tests
	Now   func() time.Time
	Meter *meter.Meter // nil: nothing is counted

	Stopwatch func() time.Time // how long things take, also where Now is moved by hand

	patience patience // zero but in tests
}

// App is the bot on Discord.
type App struct {
	Config
	api     *api.Client
	buttons buttons

	me, appID string
	links     atomic.Pointer[commandIDs] // of commands; nil until they are known
	names     guildNames
	riders    members
	looked    members // servers whose channels and role were looked at lately
	seen      recent  // interactions and messages that came already
	telling   claims  // what answers under way tell
	opening   *directOpening
	posts     *post.Poster
	looks     lookRest

	working, prompt, talking seats // for deferrable answers, those that are not, and messages
	askTime                  deferrals

	arrived *gateway.Arrivals

	mu       sync.RWMutex // held for writing while the queues close
	closed   bool
	commands chan job
	talks    chan job // messages, and what follows an answer: neither may hold up commands
	firsts   chan job // first direct messages to people, which wait for opening
	guilds   chan job // about servers, one after the other
}

// job is an event that waits for a worker, or what remains to be done after an answer.
type job struct {
	gateway.Event
	came time.Time
	rest func(context.Context) // instead of the event
}

// New makes the bot; a bad URL is a *planner.InputError. A nil Now or Stopwatch is
// the machine's clock.
func New(c Config) (*App, error) {
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Stopwatch == nil {
		c.Stopwatch = time.Now
	}
	if c.patience == (patience{}) {
		c.patience = discordsPatience
	}
	c.Pace = c.Pace.Filled()
	client, err := api.New(api.Config{Token: c.Token, Base: c.URL, Log: c.Log})
	if err != nil {
		return nil, err
	}
	a := &App{Config: c, api: client, buttons: buttons{store: c.DB}, opening: newDirectOpening(c.Now, c.Log),
		working: make(seats, commandSeats), prompt: make(seats, promptSeats), talking: make(seats, talkSeats),
		arrived: gateway.NewArrivals(), commands: make(chan job, backlog), talks: make(chan job, backlog), firsts: make(chan job, backlog), guilds: make(chan job, backlog)}
	a.posts = post.New(post.Config{DB: c.DB, Bot: lookedUp{a}, Sender: a, Log: c.Log, Now: c.Now, Ahead: aheadOfTime, Meter: c.Meter, Elsewhere: a.elsewhere})
	return a, nil
}

// Run answers until ctx ends, which is no error; answers under way are finished.
// Errors that no waiting mends are a *gateway.FatalError.
func (a *App) Run(ctx context.Context) error {
	if err := a.signIn(ctx); err != nil {
		return err
	}
	background, stop := context.WithCancel(ctx)
	defer stop()
	working, abandon := context.WithCancel(context.WithoutCancel(ctx)) // what has begun is finished
	defer abandon()
	sessions, err := a.sessions(background)
	if err == nil {
		err = a.partClubs(ctx)
	}
	if err != nil {
		return err
	}
	var side, work sync.WaitGroup
	side.Go(func() { a.keepCommands(background) })
	side.Go(func() { a.eraseOld(background) })
	side.Go(func() { a.watch(background, sessions) })
	work.Go(func() { a.work(working, a.firsts) })
	work.Go(func() { a.work(working, a.guilds) })
	work.Go(func() { spread(a.commands, func(j job) { a.handle(working, j) }) })
	work.Go(func() {
		spread(a.talks, func(j job) { a.talking.sit(working, func(ctx context.Context) { a.handle(ctx, j) }) })
	})
	work.Go(func() { a.keepPosting(background) })
	err = gateway.RunAll(ctx, sessions)
	stop()
	a.closeQueues()
	if !finished(&work, grace) {
		a.Log.Error("answers under way took too long to finish")
		abandon()
		finished(&work, grace)
	}
	side.Wait()
	return err
}

// signIn learns who the bot is. Discord may be out of reach for a while.
func (a *App) signIn(ctx context.Context) error {
	for wait := time.Second; ; wait = min(2*wait, time.Minute) {
		me, err := a.api.Me(ctx)
		var app api.Application
		if err == nil {
			app, err = a.api.Application(ctx)
		}
		switch {
		case err == nil:
			a.me, a.appID = me.ID, app.ID
			fmt.Fprintf(a.Out, "%s is ready. Invite it to a server with\n%s\n", me.Username, InviteLink(app.ID))
			return nil
		case ctx.Err() != nil:
			return nil
		case api.Status(err) == 401:
			return &gateway.FatalError{Code: closeBadToken}
		}
		a.Log.Warn("cannot sign in yet", "error", err, "again_in", wait)
		if !pause(ctx, wait) {
			return nil
		}
	}
}

// keepCommands brings Discord's copy of the command table up to date, once.
func (a *App) keepCommands(ctx context.Context) {
	for wait := 5 * time.Second; ; wait = min(2*wait, 10*time.Minute) {
		ids, changed, err := syncCommands(ctx, a.api, a.appID, definitions(bot.Commands()))
		if err == nil {
			a.links.Store(&ids)
			a.Log.Info("commands are up to date", "changed", changed)
			return
		}
		if ctx.Err() != nil {
			return
		}
		a.Log.Warn("commands cannot be compared yet", "error", err, "again_in", wait)
		if !pause(ctx, wait) {
			return
		}
	}
}

// renderer words replies with the commands clickable as far as they are known.
func (a *App) renderer() renderer {
	var known commandIDs
	if ids := a.links.Load(); ids != nil {
		known = *ids
	}
	return renderer{mention: known.mention}
}

// take queues an event of the gateway and returns at once.
func (a *App) take(e gateway.Event) {
	queue := a.commands
	switch e.Type {
	case "READY", "GUILD_CREATE", "GUILD_UPDATE", "GUILD_DELETE", "CHANNEL_DELETE":
		queue = a.guilds
	case "MESSAGE_CREATE":
		queue = a.talks
	case "INTERACTION_CREATE":
	default:
		return
	}
	a.push(queue, job{Event: e, came: a.Stopwatch()})
}

// push queues a job; it reports whether there was room.
func (a *App) push(queue chan job, j job) bool {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.closed {
		return false
	}
	select {
	case queue <- j:
		return true
	default:
		a.Log.Error("too busy: an event is dropped", "event", j.Type)
		a.Meter.Dropped(j.Type)
		return false
	}
}

// afterwards does what remains after an answer without holding up the next ones.
func (a *App) afterwards(ctx context.Context, rest func(context.Context)) {
	if !a.push(a.talks, job{Event: gateway.Event{Type: "rest"}, rest: rest}) {
		rest(ctx) // the bot stops, or is full of these
	}
}

func (a *App) closeQueues() {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.closed = true
	close(a.commands)
	close(a.talks)
	close(a.firsts)
	close(a.guilds)
}

// spread handles jobs each on its own, until the queue closes and all are done.
func spread(queue <-chan job, handle func(job)) {
	var all sync.WaitGroup
	room := make(chan struct{}, backlog)
	for j := range queue {
		room <- struct{}{}
		all.Go(func() {
			defer func() { <-room }()
			handle(j)
		})
	}
	all.Wait()
}

// work handles jobs in order until the queue closes and is empty.
func (a *App) work(ctx context.Context, queue <-chan job) {
	for j := range queue {
		a.handle(ctx, j)
	}
}

func (a *App) handle(ctx context.Context, j job) {
	defer func() {
		if p := recover(); p != nil {
			a.Log.Error("an event broke its handler", "event", j.Type, "panic", desk.PanicText(p), "stack", string(debug.Stack()))
		}
	}()
	switch {
	case j.rest != nil:
		ctx, cancel := context.WithTimeout(ctx, wholeAnswer)
		defer cancel()
		j.rest(ctx)
	case j.Type == "INTERACTION_CREATE":
		a.onInteraction(ctx, j.Data, j.came)
	case j.Type == "MESSAGE_CREATE":
		a.onMessage(ctx, j.Data)
	default:
		if err := a.onGuild(ctx, j.Event); err != nil {
			a.Log.Error("event about a server", "event", j.Type, "error", err)
		}
	}
}
