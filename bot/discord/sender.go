package discord

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/bot/post"
	"musette/storage"
)

// Send implements post.Sender: a reminder goes to its rider by the way that
// they chose, a digest to the coaches' channel, without a sound.
func (a *App) Send(ctx context.Context, m post.Message) error {
	if m.Post.Kind == storage.PostDigest {
		return a.sendDigest(ctx, m)
	}
	userID, ok := m.Athlete.Key.ID(platform)
	guildID, known := m.Club.Key.ID(platform)
	if !ok || !known {
		return noPlace("the rider is not on Discord")
	}
	rows, err := a.buttons.marked(ctx, press{Owner: userID, Guild: guildID, Mark: markOf(m.Post)}, m.Reply.Buttons)
	if err != nil {
		return fmt.Errorf("%w: %w", post.ErrUnsent, err)
	}
	messages := a.renderer().messages(m.Reply, rows)
	if m.Athlete.Settings.Remind.By == storage.RemindThread {
		return a.writeInThread(ctx, m.Athlete.ID, &m.Club, nameOf(m.Post), messages)
	}
	return a.writeTo(ctx, userID, nameOf(m.Post), messages)
}

// Look implements post.Sender: it reads a reminder's channel back. What the
// coaches' channel holds Discord shows only with a permission that the bot does
// not ask for.
func (a *App) Look(ctx context.Context, m post.Message) (there bool, err error) {
	userID, ok := m.Athlete.Key.ID(platform)
	if m.Post.Kind == storage.PostDigest || !ok {
		return false, post.ErrCannotLook
	}
	inThread := m.Athlete.Settings.Remind.By == storage.RemindThread
	channel := ""
	if inThread {
		athlete, err := a.DB.Athlete(ctx, m.Athlete.ID)
		if err != nil {
			return false, err
		}
		channel = athlete.Thread
	} else {
		person, err := a.DB.FindPerson(ctx, personKey(userID))
		if err != nil {
			return false, err
		}
		channel = person.Channel
	}
	if channel == "" {
		return false, nil // a channel is kept before anything is written there
	}
	seen, err := a.api.Messages(ctx, channel, lookBack)
	switch code := api.Code(err); {
	case code == api.CodeUnknownChannel:
		return false, nil
	case code == api.CodeMissingAccess || code == api.CodeMissingPermission, err == nil && inThread && len(seen) == 0:
		return false, post.ErrCannotLook // an empty list may hide what is there
	case err != nil:
		return false, err
	}
	mark := markOf(m.Post)
	return slices.ContainsFunc(seen, func(s api.SeenMessage) bool {
		return s.AuthorID == a.me && slices.ContainsFunc(s.CustomIDs, func(id string) bool { return markIn(id) == mark })
	}), nil
}

// lookBack is how many messages are read back; it spans more than a day's.
const lookBack = 50

// nameOf names a post: the same after a restart, another one for each day.
func nameOf(p storage.Post) string { return fmt.Sprintf("%s/%v/%s", p.Kind, p.Key, p.Day) }

// markOf is the short name of a post by which its buttons are known again.
func markOf(p storage.Post) string {
	sum := sha256.Sum256([]byte(nameOf(p)))
	text := strings.Repeat("0", markLength) + strconv.FormatUint(binary.BigEndian.Uint64(sum[:]), 36)
	return text[len(text)-markLength:]
}

// noPlace is a post.ErrNoPlace that says in words what is missing.
func noPlace(format string, args ...any) error {
	return fmt.Errorf("%w: %s", post.ErrNoPlace, fmt.Sprintf(format, args...))
}

// sendDigest writes to the coaches' channel. Each coach may press its buttons.
func (a *App) sendDigest(ctx context.Context, m post.Message) error {
	guildID, ok := m.Club.Key.ID(platform)
	channel := channelID(m.Club.Setup.Coaches)
	if !ok || channel == "" {
		return noPlace("no coaches-channel: /club setup coaches-channel:#coaches")
	}
	reply := m.Reply
	if m.Again {
		reply.Text += "\n\nThis digest may have come before: I was interrupted while I sent it."
	}
	reply.Buttons = slices.DeleteFunc(slices.Clone(reply.Buttons), func(b bot.Button) bool { return !isForCoaches(b.Command) })
	rows, err := a.buttons.marked(ctx, press{Guild: guildID, Mark: markOf(m.Post)}, reply.Buttons)
	if err != nil {
		return fmt.Errorf("%w: %w", post.ErrUnsent, err)
	}
	messages := a.renderer().messages(reply, rows)
	for i := range messages {
		messages[i].Flags |= api.FlagSilent
	}
	name := nameOf(m.Post)
	if m.Again {
		name += "/again"
	}
	err = a.send(ctx, channel, name, messages)
	if fault := channelFault(err); fault != "" {
		return noPlace("the coaches-channel: %s", fault)
	}
	return err
}

// writeInThread writes to the private thread of a rider's reminders. One that is
// gone is made anew, once.
func (a *App) writeInThread(ctx context.Context, id storage.AthleteID, club *storage.Club, what string, messages []api.Message) error {
	for again := true; ; again = false {
		thread, err := a.thread(ctx, id, club)
		if err != nil {
			err = fmt.Errorf("%w: %w", post.ErrUnsent, err)
		} else {
			err = a.send(ctx, thread, what, messages)
		}
		switch code := api.Code(err); {
		case code == api.CodeUnknownChannel && again && thread != "":
			if err := a.DB.KeepThread(ctx, id, ""); err != nil {
				return err
			}
		case errors.Is(err, post.ErrNoPlace):
			return err
		case channelFault(err) != "":
			return noPlace("a private thread in the club's channel: %s", threadFault(err))
		default:
			return err
		}
	}
}

// thread is the private thread of a rider's reminders, with the rider in it. It
// is kept before the rider is added, so that no second one is made.
func (a *App) thread(ctx context.Context, id storage.AthleteID, club *storage.Club) (thread string, err error) {
	athlete, err := a.DB.Athlete(ctx, id)
	if err != nil {
		return "", err
	}
	userID, _ := athlete.Key.ID(platform)
	if thread = athlete.Thread; thread == "" {
		parent := channelID(club.Setup.Channel)
		if parent == "" {
			return "", noPlace("the club has no channel for threads: /club setup channel:#races")
		}
		if thread, err = a.api.CreateThread(ctx, parent, cut("Reminders for "+athlete.Name, maxThreadName)); err != nil {
			return "", err
		}
		if err = a.DB.KeepThread(ctx, id, thread); err != nil {
			return "", err
		}
	}
	err = a.api.AddThreadMember(ctx, thread, userID)
	if code := api.Code(err); code == api.CodeUnknownMember || code == api.CodeUnknownUser {
		return thread, noPlace("the rider is not in the server any more")
	}
	return thread, err
}

// wayTime bounds how long an answer waits for the way of reminders.
const wayTime = 20 * time.Second

// threadFault is what is wrong with a thread, in words for the club's admin.
func threadFault(err error) string {
	if api.Code(err) == api.CodeUnknownChannel {
		return "the channel was deleted"
	}
	return "allow me " + threadRights + " there, and the rider to see the channel"
}

// threadRights are the names of what private threads need besides Permissions.
const threadRights = "Create Private Threads and Send Messages in Threads"

// withWay makes the way of a rider's reminders as soon as they ask for them,
// which Discord wants opened when people ask; what fails is told at once.
func (a *App) withWay(ctx context.Context, req *bot.Request, reply bot.Reply) bot.Reply {
	asked := false
	for option := range req.Options {
		asked = asked || strings.HasPrefix(option, "remind")
	}
	if req.Command != "me set" || !asked || reply.Err != nil {
		return reply
	}
	ctx, cancel := context.WithTimeout(ctx, wayTime)
	defer cancel()
	if why := a.wayFault(ctx, req); why != "" {
		reply.Text += "\n! " + why
	}
	return reply
}

// wayFault makes the way of a rider's reminders; it says what is wrong with it.
func (a *App) wayFault(ctx context.Context, req *bot.Request) string {
	const later = "I try again at your first reminder."
	club, err := a.DB.FindClub(ctx, req.ClubKey)
	var athlete storage.Athlete
	if err == nil {
		athlete, err = a.DB.FindAthlete(ctx, club.ID, req.AthleteKey)
	}
	if err != nil {
		a.Log.Error("way of reminders", "ref", req.Ref, "error", err)
		return ""
	}
	remind := athlete.Settings.Remind
	switch {
	case remind.Mode == storage.RemindOff:
		return ""
	case remind.By == storage.RemindThread:
		_, err = a.thread(ctx, athlete.ID, &club)
		if api.Code(err) == api.CodeUnknownChannel && athlete.Thread != "" {
			err = a.DB.KeepThread(ctx, athlete.ID, "") // made anew at the first reminder
		}
		if errors.Is(err, post.ErrNoPlace) {
			return "There is no way to a private thread yet: " + strings.TrimPrefix(err.Error(), post.ErrNoPlace.Error()+": ")
		}
		if channelFault(err) != "" {
			return "I cannot make a private thread in the club's channel: " + threadFault(err) + "."
		}
	case remind.By == storage.RemindDirect:
		err = a.openSoon(ctx, athlete.Key)
		if code := api.Code(err); code == api.CodeClosedDM || code == api.CodeNoMutualGuild {
			return "I cannot write to you directly: allow direct messages from this server, or take reminders as a private thread."
		}
	}
	if err != nil {
		a.Log.Warn("way of reminders", "ref", req.Ref, "error", err)
		return "Discord did not let me open the way to you yet. " + later
	}
	return ""
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
