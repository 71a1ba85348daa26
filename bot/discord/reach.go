package discord

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/bot/post"
	"musette/bot/say"
	"musette/storage"
)

// reachTime bounds how long an answer waits until reminders can reach the rider.
const reachTime = 20 * time.Second

// threadFault is what is wrong with a thread, in words for the club's admin.
func threadFault(err error) string {
	if api.Code(err) == api.CodeUnknownChannel {
		return "the channel was deleted"
	}
	return "allow me " + threadRights + " there, and the rider to see the channel"
}

// threadRights are the names of what private threads need besides Permissions.
const threadRights = "Create Private Threads and Send Messages in Threads"

// withReach makes sure that reminders can reach a rider as soon as they ask for them,
// which Discord wants opened when people ask; what fails is told at once.
func (a *App) withReach(ctx context.Context, cmd *command.Command, req *desk.Request, reply say.Reply) say.Reply {
	asked := slices.ContainsFunc(cmd.Options, func(o command.Option) bool { return o.Reach && req.Has(o.Name) })
	if !asked || reply.Err != nil {
		return reply
	}
	ctx, cancel := context.WithTimeout(ctx, reachTime)
	defer cancel()
	var why say.Line
	stand(ctx, func() { why = a.reachFault(ctx, req) })
	if len(why.Spans) > 0 {
		reply.Addf("! %s", why)
	}
	return reply
}

// reachFault makes sure that reminders can reach a rider; it says what is in the way, in
// an empty line where nothing is.
func (a *App) reachFault(ctx context.Context, req *desk.Request) say.Line {
	club, err := a.DB.FindClub(ctx, req.ClubKey)
	var athlete storage.Athlete
	if err == nil {
		athlete, err = a.DB.FindAthlete(ctx, club.ID, req.AthleteKey)
	}
	if err != nil {
		a.Log.Error("way of reminders", "ref", req.Ref, "error", err)
		return say.Line{}
	}
	remind := athlete.Settings.Remind
	switch {
	case remind.Mode == storage.RemindOff:
		return say.Line{}
	case remind.By == storage.RemindThread:
		_, err = a.thread(ctx, athlete.ID, &club)
		if api.Code(err) == api.CodeUnknownChannel && athlete.Thread != "" {
			err = a.DB.KeepThread(ctx, athlete.ID, "") // made anew at the first reminder
		}
		if plain, ok := errors.AsType[*plainError](err); ok && errors.Is(err, post.ErrNoPlace) {
			return say.Linef("There is no way to a private thread yet: %s", plain.line)
		}
		if channelFault(err) != "" {
			return say.Linef("I cannot make a private thread in the club's channel: %s.", threadFault(err))
		}
		if isFinal(err) {
			return say.Linef("I cannot make a private thread in the club's channel: %s.", plainWords(err))
		}
	case remind.By == storage.RemindDirect:
		err = a.openSoon(ctx, athlete.Key)
		if code := api.Code(err); code == api.CodeClosedDM || code == api.CodeNoMutualGuild {
			return say.Linef("I cannot write to you directly: allow direct messages from this server, or take reminders as a private thread.")
		}
	}
	if err != nil {
		a.Log.Warn("way of reminders", "ref", req.Ref, "error", err)
		return say.Linef("Discord did not let me open the way to you yet. I try again at your first reminder.")
	}
	return say.Line{}
}

// openSoon opens the channel of a rider's direct messages: at once, or behind
// others without holding up the answer.
func (a *App) openSoon(ctx context.Context, key storage.Key) error {
	userID, _ := key.ID(platform)
	missing := func(ctx context.Context) bool {
		person, err := a.DB.FindPerson(ctx, key)
		return err == nil && person.Channel == ""
	}
	if !missing(ctx) {
		return nil
	}
	now, err := a.opening.turn()
	if now {
		_, err = a.openNow(ctx, userID)
	}
	if now || err != nil {
		return err
	}
	a.push(a.firsts, job{Event: gateway.Event{Type: "open"}, rest: func(ctx context.Context) {
		if !missing(ctx) {
			return
		}
		if _, err := a.openDirect(ctx, userID); a.refusal(ctx, userID, err) != nil {
			a.Log.Warn("a channel for reminders is not opened yet", "error", err)
		}
	}})
	return nil
}

// Discord takes bots that open many direct messages for spammers: new channels
// are opened slowly, and not at all for a while when some in a row were refused.
// Source: https://discord.com/developers/docs/resources/user#create-dm
const (
	openingGap   = time.Second
	refusedInRow = 3
	firstRest    = 5 * time.Minute // doubles each time
	longestRest  = 80 * time.Minute
)

// errOpeningRests tells that no new channel is opened for now.
var errOpeningRests = errors.New("opening new direct messages pauses: Discord refused several in a row")

// directOpening says when a new channel of direct messages may be opened.
type directOpening struct {
	pace *rate.Limiter
	now  func() time.Time
	log  *slog.Logger

	mu      sync.Mutex
	refused int // in a row
	rest    time.Duration
	until   time.Time
}

func newDirectOpening(now func() time.Time, log *slog.Logger) *directOpening {
	return &directOpening{pace: rate.NewLimiter(rate.Every(openingGap), 1), now: now, log: log, rest: firstRest}
}

// wait waits for its turn; it does not wait for the end of a pause.
func (o *directOpening) wait(ctx context.Context) error {
	o.mu.Lock()
	rests := o.now().Before(o.until)
	o.mu.Unlock()
	if rests {
		return errOpeningRests
	}
	return o.pace.Wait(ctx)
}

// turn takes its turn if that is now; it waits for nothing.
func (o *directOpening) turn() (now bool, err error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.now().Before(o.until) {
		return false, errOpeningRests
	}
	return o.pace.Allow(), nil
}

// note takes in what happened to the first message in a new channel, or of the
// attempt to open one. Behind a pause one more refusal is enough for the next.
func (o *directOpening) note(err error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	switch api.Code(err) {
	case api.CodeClosedDM, api.CodeNoMutualGuild, api.CodeOpeningTooFast:
	default:
		if err == nil {
			o.refused, o.rest = 0, firstRest
		}
		return
	}
	if o.refused++; o.refused < refusedInRow {
		return
	}
	o.log.Warn("Discord refuses new direct messages; opening pauses", "refused", o.refused, "for", o.rest)
	o.refused, o.until, o.rest = refusedInRow-1, o.now().Add(o.rest), min(2*o.rest, longestRest)
}
