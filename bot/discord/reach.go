package discord

import (
	"context"
	"errors"
	"strings"
	"time"

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
func (a *App) withReach(ctx context.Context, req *desk.Request, reply say.Reply) say.Reply {
	asked := false
	for option := range req.Options {
		asked = asked || strings.HasPrefix(option, "remind")
	}
	if req.Command != "me set" || !asked || reply.Err != nil {
		return reply
	}
	ctx, cancel := context.WithTimeout(ctx, reachTime)
	defer cancel()
	if why := a.reachFault(ctx, req); len(why.Spans) > 0 {
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
