package discord

import (
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"
	"time"

	"github.com/bwmarrin/discordgo"

	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/say"
)

const (
	wholeAnswer = 2 * time.Minute // while somebody still waits
	restWork    = 3 * time.Second // at most, until deferrals under way are out

	leastLeft = 300 * time.Millisecond // to begin with a first answer

	deferralLooks = 6 // for one that got no answer
	deferralPause = 500 * time.Millisecond
)

// patience is how long things may take that somebody waits for.
type patience struct {
	deferAfter  time.Duration // work that takes longer is deferred
	promptAfter time.Duration // what cannot be deferred is answered with less
	firstAnswer time.Duration // Discord wants the first answer within 3 s
	tooLate     time.Duration // after what a person did, by Discord's clock: then it is deferred before anything is done
	look        time.Duration // for members' roles, before an answer goes without
}

// discordsPatience is by the three seconds of Discord.
var discordsPatience = patience{deferAfter: time.Second, promptAfter: 1800 * time.Millisecond, firstAnswer: 2800 * time.Millisecond,
	tooLate: 2500 * time.Millisecond, look: 1200 * time.Millisecond}

// errNotDeferred tells that Discord never got a request for time.
var errNotDeferred = errors.New("the request for time got no answer and did not arrive")

// answer is what an interaction is answered with.
type answer struct {
	kind     int // api.AnswerMessage, AnswerUpdate, AnswerModal or AnswerChoices
	messages []api.Message
	modal    api.Modal
	choices  api.Choices
	private  bool
}

// conversation is one interaction on its way to its answer.
type conversation struct {
	*App
	i     *interaction
	from  asked
	ref   string
	began time.Time

	second bool // another process may have answered

	after func(ctx context.Context, sent bool) // once the answer is out
}

// onInteraction answers an interaction, once however often it is delivered.
// One that has waited too long is left alone: nobody would see the answer.
func (a *App) onInteraction(ctx context.Context, raw json.RawMessage, came time.Time) {
	i, err := decodeInteraction(raw)
	if err != nil && i.ID == "" {
		a.Log.Error("an interaction that cannot be read", "error", err)
		return
	}
	if !a.seen.first("i" + i.ID) {
		return
	}
	if err != nil {
		a.unreadable(ctx, &i, came, err)
		return
	}
	if waited := a.Stopwatch().Sub(came); waited > a.patience.firstAnswer-leastLeft {
		a.Log.Error("an interaction came too late to be answered", "waited", waited)
		return
	}
	ctx, cancel := context.WithTimeout(ctx, wholeAnswer)
	defer cancel()
	c := &conversation{App: a, i: &i, from: i.asked(), ref: say.NewRef(), began: came}
	if i.GuildID == "" {
		whose := a.turnOf(ctx, i.User.ID, serverIn(i.CustomID))
		if whose == turnNever {
			return
		}
		c.second = whose == turnAfter
	}
	deferred, err := c.run(ctx)
	if c.second && api.Code(err) == api.CodeAlreadyAnswered {
		return // by another process
	}
	if c.after != nil {
		sent := err == nil
		a.afterwards(ctx, func(ctx context.Context) { c.after(ctx, sent) })
	}
	a.Meter.Interaction(i.Kind.String(), a.Stopwatch().Sub(came), err)
	level := slog.LevelInfo
	attrs := []slog.Attr{slog.String("ref", c.ref), slog.String("kind", i.Kind.String()), slog.Duration("took", a.Stopwatch().Sub(came)), slog.Bool("deferred", deferred)}
	if err != nil {
		level = slog.LevelError
		attrs = append(attrs, slog.String("error", err.Error()))
	}
	a.Log.LogAttrs(ctx, level, "interaction", attrs...)
}

// unreadable answers an interaction of which no more than the token is known.
func (a *App) unreadable(ctx context.Context, i *interaction, came time.Time, why error) {
	ref := say.NewRef()
	ctx, cancel := context.WithDeadline(ctx, came.Add(a.patience.firstAnswer))
	defer cancel()
	m := broken(ref).messages[0]
	m.Flags = api.FlagEphemeral
	err := a.api.Answer(ctx, i.ID, i.Token, api.AnswerMessage, m)
	a.Log.Error("an interaction that cannot be read", "ref", ref, "error", errors.Join(why, err))
}

// run works the answer out and sends it, at once where there is a seat and that takes
// less than a second. Else it asks for time first, and does nothing where it got none:
// nobody would see what was done.
func (c *conversation) run(ctx context.Context) (deferred bool, err error) {
	kind, data := c.deferral()
	if kind == 0 {
		return false, c.first(ctx, c.prompted(ctx))
	}
	var begun chan answer
	if !c.second && !c.old() && c.askTime.none() && c.working.take() {
		begun = make(chan answer, 1)
		go func() { begun <- c.onSeat(ctx, c.working) }()
		timer := time.NewTimer(time.Until(c.began.Add(c.patience.deferAfter)))
		defer timer.Stop()
		select {
		case out := <-begun:
			return false, c.first(ctx, out)
		case <-timer.C:
		}
	}
	err = c.defers(ctx, kind, data)
	if begun == nil && err == nil {
		begun = make(chan answer, 1)
		c.askTime.wait(ctx, restWork)
		begun <- c.seated(ctx, c.working)
	}
	if begun == nil {
		return true, err
	}
	out := <-begun
	if err != nil {
		return true, err
	}
	return true, c.later(ctx, kind, out)
}

// prompted works out what cannot be deferred, or less where that is not ready in time.
func (c *conversation) prompted(ctx context.Context) answer {
	ctx, cancel := context.WithDeadline(ctx, c.began.Add(c.patience.promptAfter))
	defer cancel() // what has no seat yet needs none any more
	done := make(chan answer, 1)
	go func() { done <- c.seated(ctx, c.prompt) }()
	select {
	case out := <-done:
		if ctx.Err() == nil {
			return out
		}
	case <-ctx.Done():
	}
	return c.instead()
}

// defers asks for time. A request that got no answer may have arrived all the same, or
// arrive yet: whether it has is asked.
func (c *conversation) defers(ctx context.Context, kind int, data any) error {
	c.askTime.begin()
	defer c.askTime.end()
	first, cancel := context.WithDeadline(ctx, c.began.Add(c.patience.firstAnswer))
	defer cancel()
	err := c.api.Answer(first, c.i.ID, c.i.Token, kind, data)
	for range deferralLooks {
		if err == nil || c.second || api.Status(err) >= http.StatusBadRequest {
			return err
		}
		if err = c.api.Original(ctx, c.i.AppID, c.i.Token); api.Status(err) == http.StatusNotFound {
			err = errNotDeferred
		}
		if err != nil && !pause(ctx, deferralPause) {
			return err
		}
	}
	return err
}

// old reports an interaction that seems to have been made too long ago to be answered,
// as after a broken connection: it is deferred first and done only if Discord takes
// that. A clock that runs ahead costs no more than the deferral.
func (c *conversation) old() bool {
	made, err := discordgo.SnowflakeTimestamp(c.i.ID)
	return err == nil && c.Now().Sub(made) > c.patience.tooLate
}

// seated works the answer out as soon as there is a seat.
func (c *conversation) seated(ctx context.Context, room seats) answer {
	if !room.await(ctx) {
		return broken(c.ref)
	}
	return c.onSeat(ctx, room)
}

// onSeat works the answer out on a seat that was taken for it.
func (c *conversation) onSeat(ctx context.Context, room seats) answer {
	defer room.leave()
	return c.workOut(room.on(ctx))
}

// instead is the answer where a form or offers are not ready in time.
func (c *conversation) instead() answer {
	if c.i.Kind == kindAutocomplete {
		return answer{kind: api.AnswerChoices, choices: fitChoices(nil)}
	}
	return answer{kind: api.AnswerMessage, private: true, messages: []api.Message{{Content: "The form was not ready in time. Try again in a minute."}}}
}

// workOut makes the answer; what breaks becomes a kind one.
func (c *conversation) workOut(ctx context.Context) (out answer) {
	defer func() {
		if p := recover(); p != nil {
			c.Log.Error("an answer broke", "ref", c.ref, "panic", desk.PanicText(p), "stack", string(debug.Stack()))
			out = broken(c.ref)
		}
	}()
	c.noteHere(ctx, c.i.GuildID, c.i.User.ID)
	switch c.i.Kind {
	case kindAutocomplete:
		return c.offers(ctx)
	case kindComponent:
		return c.press(ctx)
	case kindModal:
		return c.submit(ctx)
	}
	return c.command(ctx)
}

// broken is the answer where making one failed: nothing in it can fail again.
func broken(ref string) answer {
	text := "Something broke here. See what is stored with /me show and /race list, try again, or tell the club's admin the reference " + ref + "."
	return answer{kind: api.AnswerMessage, private: true, messages: []api.Message{{Content: text}}}
}

// deferral is the answer that asks for time; offers and forms cannot be
// deferred. That of a button on a private message shows nothing: what comes may
// take the message's place or follow below it.
func (c *conversation) deferral() (kind int, data any) {
	switch {
	case c.i.Kind == kindAutocomplete, c.opensForm():
		return 0, nil
	case c.i.Kind == kindComponent && c.i.Private:
		return api.AnswerDeferredUpdate, nil
	}
	private := c.i.Kind != kindCommand || !isPublic(c.i.Command)
	return api.AnswerDeferred, api.Message{Flags: c.flags(private)}
}

// opensForm reports what is answered with a form.
func (c *conversation) opensForm() bool {
	switch c.i.Kind {
	case kindCommand:
		cmd, _ := commandNamed(c.i.Command)
		_, given := c.i.Options[cmd.Form]
		return cmd.Form != "" && !given
	case kindComponent:
		return isFormID(c.i.CustomID)
	}
	return false
}

// flags hide an answer from the others of a server; direct messages have no others.
func (c *conversation) flags(private bool) int {
	if private && c.i.GuildID != "" {
		return api.FlagEphemeral
	}
	return 0
}

// first sends the first answer, which Discord takes for 3 s, and the rest.
func (c *conversation) first(ctx context.Context, out answer) error {
	first, cancel := context.WithDeadline(ctx, c.began.Add(c.patience.firstAnswer))
	defer cancel()
	say := func(data any) error { return c.api.Answer(first, c.i.ID, c.i.Token, out.kind, data) }
	var err error
	switch out.kind {
	case api.AnswerModal:
		err = say(out.modal)
	case api.AnswerChoices:
		err = say(out.choices)
	default:
		m := out.messages[0]
		m.Flags |= c.flags(out.private)
		err = c.deliver(first, m, func(m api.Message) error { return say(m) })
	}
	if err != nil {
		return err
	}
	return c.follow(ctx, out.messages[min(1, len(out.messages)):], out.private)
}

// later sends the answer after a deferral of that kind: in its place, or below
// the message whose button was pressed where that is to stay.
func (c *conversation) later(ctx context.Context, kind int, out answer) error {
	if len(out.messages) == 0 {
		out = broken(c.ref)
	}
	if kind == api.AnswerDeferredUpdate && out.kind != api.AnswerUpdate {
		return c.follow(ctx, out.messages, out.private)
	}
	edit := func(m api.Message) error { return c.api.EditOriginal(ctx, c.i.AppID, c.i.Token, m) }
	if err := c.deliver(ctx, out.messages[0], edit); err != nil {
		return err
	}
	return c.follow(ctx, out.messages[1:], out.private)
}

// follow sends what did not fit into one message.
func (c *conversation) follow(ctx context.Context, messages []api.Message, private bool) error {
	for _, m := range messages {
		m.Flags |= c.flags(private)
		add := func(m api.Message) error { return c.api.FollowUp(ctx, c.i.AppID, c.i.Token, m) }
		if err := c.deliver(ctx, m, add); err != nil {
			return err
		}
	}
	return nil
}

// deliver sends a message, and once more without its files where Discord refuses
// it with them: the words count for more than a picture.
func (a *App) deliver(ctx context.Context, m api.Message, send func(api.Message) error) error {
	err := send(m)
	status := api.Status(err)
	if len(m.Files) == 0 || status != http.StatusBadRequest && status != http.StatusRequestEntityTooLarge {
		return err
	}
	a.Log.WarnContext(ctx, "an answer goes out without its files", "error", err)
	return send(withoutFiles(m))
}

// message is a reply as a new message.
func (c *conversation) message(ctx context.Context, reply say.Reply, private bool) answer {
	return answer{kind: api.AnswerMessage, private: private, messages: c.written(ctx, reply, &c.from)}
}

// refusal is a kind answer to what cannot be done.
func (c *conversation) refusal(ctx context.Context, field string, t say.Template, args ...any) answer {
	return c.message(ctx, say.Refusal(field, t, args...), true)
}
