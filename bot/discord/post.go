package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/post"
	"musette/bot/say"
	"musette/storage"
)

// writeTo sends direct messages to a person. A refusal is post.ErrRefused: it is
// kept to be told at the person's next command, and never tried again for this
// message. what names the message, so that a repeated call sends it once.
func (a *App) writeTo(ctx context.Context, userID, what string, messages []api.Message) error {
	person, err := a.DB.FindPerson(ctx, personKey(userID))
	if err != nil {
		return err
	}
	channel, opened := person.Channel, false
	for again := true; ; again = false {
		if channel == "" {
			if channel, err = a.openDirect(ctx, userID); err != nil {
				return a.refusal(ctx, userID, fmt.Errorf("%w: %w", post.ErrUnsent, err))
			}
			opened = true
		}
		err = a.send(ctx, channel, what, messages)
		if opened {
			a.opening.note(err)
		}
		if err == nil && person.Told {
			return a.DB.NoteReached(ctx, personKey(userID))
		}
		if api.Code(err) != api.CodeUnknownChannel || !again {
			return a.refusal(ctx, userID, err)
		}
		channel = "" // the one that was kept is gone
	}
}

// openDirect opens the channel of a person's direct messages and keeps its number.
func (a *App) openDirect(ctx context.Context, userID string) (string, error) {
	if err := a.opening.wait(ctx); err != nil {
		return "", err
	}
	return a.openNow(ctx, userID)
}

// openNow is openDirect for one whose turn has come.
func (a *App) openNow(ctx context.Context, userID string) (string, error) {
	channel, err := a.api.OpenDM(ctx, userID)
	if err != nil {
		a.opening.note(err)
		return "", err
	}
	return channel, a.DB.KeepChannel(ctx, personKey(userID), channel)
}

// refusal keeps that a person could not be written to.
func (a *App) refusal(ctx context.Context, userID string, err error) error {
	switch api.Code(err) {
	case api.CodeClosedDM, api.CodeNoMutualGuild:
		return errors.Join(post.ErrRefused, a.DB.NoteRefusal(ctx, personKey(userID)))
	}
	return err
}

// send writes messages to a channel, each once however often it is tried.
func (a *App) send(ctx context.Context, channel, what string, messages []api.Message) error {
	for i, m := range messages {
		m.Nonce, m.EnforceNonce = nonce(what, i), true
		err := a.deliver(ctx, m, func(m api.Message) error {
			_, err := a.api.Send(ctx, channel, m)
			return err
		})
		if err != nil {
			if i == 0 && api.Unsent(err) {
				err = fmt.Errorf("%w: %w", post.ErrUnsent, err)
			}
			return err
		}
	}
	return nil
}

// nonce names the part of a message: Discord sends no two with one nonce.
func nonce(what string, part int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s/%d", what, part))
	return base64.RawURLEncoding.EncodeToString(sum[:])[:24]
}

// announce sends a reply's lines to the club's channel, or to the coaches'. The
// faults say in words what it could not write to, and why; that of the club's
// channel is kept with the club and shown by /club show.
func (a *App) announce(ctx context.Context, club storage.Key, what string, lines []say.Message) (faults []string) {
	if len(lines) == 0 {
		return nil
	}
	found, err := a.DB.FindClub(ctx, club)
	if err != nil {
		a.Log.Error("lines for a club's channel are lost", "error", err)
		return nil
	}
	for i, line := range lines {
		if line.Rider != 0 {
			a.writeRider(ctx, found.Key, fmt.Sprintf("%s/%s/%d", what, line.Kind, i), &line)
			continue
		}
		if !strings.HasPrefix(line.To, "#") {
			a.Log.Error("a line that is not for the club's channel is not sent there", "kind", line.Kind)
			continue
		}
		channel, name := channelID(found.Setup.Channel), "the channel"
		forCoaches := line.To == coachesLine && (line.Kind == setupLine || line.Kind == desk.PinNews)
		if forCoaches {
			channel, name = channelID(found.Setup.Coaches), "the coaches-channel"
		}
		if channel == "" {
			continue // the club has none
		}
		guildID, _ := club.ID(platform)
		rows, err := a.buttons.rows(ctx, "", guildID, line.Buttons)
		if err != nil {
			a.Log.Error("buttons of a line are left out", "error", err)
		}
		text := a.renderer().messages(say.Reply{Lines: line.Lines}, rows)
		for i := range text {
			if line.Kind == desk.PinNews {
				text[i].Flags |= api.FlagSilent
			}
		}
		err = a.send(ctx, channel, fmt.Sprintf("%s/%s/%d", what, line.Kind, i), text)
		fault := channelFault(err)
		if fault != "" {
			faults = append(faults, name+": "+fault)
		} else if err != nil {
			a.Log.Error("a line for a club's channel is lost", "kind", line.Kind, "error", err)
			continue
		}
		if !forCoaches && fault != found.Fault {
			found.Fault = fault
			if err := a.DB.SetFault(ctx, found.ID, fault); err != nil {
				a.Log.Error("fault of a club's channel", "error", err)
			}
		}
	}
	return faults
}

// writeRider sends a rider what a coach set or wrote. Who takes no direct messages
// reads it with the day.
func (a *App) writeRider(ctx context.Context, club storage.Key, what string, line *say.Message) {
	athlete, err := a.DB.Athlete(ctx, line.Rider)
	userID, ok := athlete.Key.ID(platform)
	guildID, _ := club.ID(platform)
	if err != nil || !ok || !a.isMember(ctx, guildID, userID) {
		a.Log.Warn("a line for a rider is not sent", "kind", line.Kind, "error", err)
		return
	}
	rows, err := a.buttons.rows(ctx, userID, guildID, line.Buttons)
	if err == nil {
		err = a.writeTo(ctx, userID, what, a.renderer().messages(say.Reply{Lines: line.Lines, Private: true}, rows))
	}
	if err != nil {
		a.Log.Warn("a line for a rider is not sent", "kind", line.Kind, "error", err)
	}
}

// What a line for the coaches' channel says of itself when that is set.
const (
	coachesLine = "#coaches"
	setupLine   = "setup"
)

// channelFault is what is wrong with a channel, in words for the club's admin.
func channelFault(err error) string {
	switch api.Code(err) {
	case api.CodeUnknownChannel:
		return "it was deleted"
	case api.CodeMissingAccess:
		return "I may not see it. Allow me " + neededRights
	case api.CodeMissingPermission:
		return "I may not write there. Allow me " + neededRights
	}
	return ""
}

// neededRights are the names of Permissions.
const neededRights = "View Channel, Send Messages, Embed Links and Attach Files"

// withRefusal adds to an answer that a direct message was refused earlier.
func withRefusal(reply say.Reply, person storage.Person) say.Reply {
	if person.Refused.IsZero() {
		return reply
	}
	reply.Gap()
	reply.Addf("! I could not write to you on %s: you take no direct messages from this server.", person.Refused.Format("2 January"))
	reply.Addf("  Allow them in the server's privacy settings if you want them.")
	return reply
}

// plainError says in words for coaches what went wrong; what wrapped it is known by it still.
type plainError struct {
	line say.Line
	err  error
}

func (e *plainError) Error() string { return e.line.String() }

func (e *plainError) Unwrap() error { return e.err }

// settled is what happened to a post in plain words, and as one of the errors of
// package post where trying again is of no use or has to wait.
func settled(err error) error {
	if err == nil {
		return nil
	}
	kind := err
	switch code := api.Code(err); {
	case errors.Is(err, post.ErrRefused), errors.Is(err, post.ErrNoPlace):
	case errors.Is(err, errOpeningRests), code == api.CodeOpeningTooFast:
		kind = errors.Join(post.ErrLater, err)
	case isFinal(err):
		kind = errors.Join(post.ErrNoPlace, err)
	}
	return &plainError{say.Linef("%s", plainWords(err)), kind}
}

// isFinal reports that Discord gave a reason for which it will refuse again. A
// refusal without a code comes from a proxy before Discord, and passes.
func isFinal(err error) bool {
	switch status := api.Status(err); status {
	case http.StatusUnauthorized, http.StatusRequestTimeout, http.StatusTooManyRequests:
		return false
	default:
		return status >= 400 && status < 500 && api.Code(err) != 0
	}
}

// plainWords are what is wrong in words for coaches and admins, without routes,
// numbers and what Discord says itself.
func plainWords(err error) string {
	if plain, ok := errors.AsType[*plainError](err); ok {
		return plain.Error()
	}
	switch {
	case errors.Is(err, post.ErrRefused):
		return post.ErrRefused.Error()
	case errors.Is(err, errOpeningRests):
		return "Discord lets me open no new direct messages for a while"
	}
	switch api.Code(err) {
	case api.CodeOpeningTooFast:
		return "Discord lets me open no new direct messages for a while"
	case api.CodeClosedDM, api.CodeNoMutualGuild:
		return post.ErrRefused.Error()
	case api.CodeThreadsFull:
		return "the server has as many threads as Discord allows. Close some"
	case api.CodeChannelKind:
		return "that kind of channel does not take it"
	case api.CodeBlocked, api.CodeBlockedTitle, api.CodeBlockedLink:
		return "the server's own filter blocked the message"
	case api.CodeMissingAccess, api.CodeMissingPermission:
		return "Discord did not let me write there"
	}
	_, fromDiscord := errors.AsType[*api.Error](err)
	switch status := api.Status(err); {
	case status == http.StatusUnauthorized:
		return "Discord does not know my token"
	case status == http.StatusTooManyRequests:
		return "Discord asked me to wait"
	case status >= 400 && status < 500:
		return "Discord refused it"
	case fromDiscord, errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return "Discord did not answer"
	}
	return "something broke here. The log says what"
}
