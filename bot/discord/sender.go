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

	"musette/bot/discord/api"
	"musette/bot/post"
	"musette/bot/say"
	"musette/storage"
)

// Send implements post.Sender: a reminder goes to its rider by the way that
// they chose, a digest to the coaches' channel, without a sound.
func (a *App) Send(ctx context.Context, m post.Message) error {
	send := a.sendReminder
	if m.Post.Kind == storage.PostDigest {
		send = a.sendDigest
	}
	err := send(ctx, m)
	if err != nil {
		a.Log.Info("a post was not sent", "post", m.Post.ID, "error", err) // what is kept of it is in plain words
	}
	return settled(err)
}

// sendReminder writes to a rider. Who left the club's server is not written to
// in its name, even where another server is shared.
func (a *App) sendReminder(ctx context.Context, m post.Message) error {
	userID, ok := m.Athlete.Key.ID(platform)
	guildID, known := m.Club.Key.ID(platform)
	if !ok || !known {
		return noPlace("the rider is not on Discord")
	}
	if a.single() != guildID { // else Discord itself refuses those who left: no server is shared
		switch there, err := a.member(ctx, guildID, userID); {
		case err != nil:
			return fmt.Errorf("%w: %w", post.ErrUnsent, err)
		case !there:
			return noPlace("no longer in the club's server")
		}
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
	if there, err = a.look(ctx, m); err != nil && !errors.Is(err, post.ErrCannotLook) {
		return false, settled(err)
	}
	return there, err
}

func (a *App) look(ctx context.Context, m post.Message) (there bool, err error) {
	userID, ok := m.Athlete.Key.ID(platform)
	if m.Post.Kind == storage.PostDigest || !ok {
		return false, post.ErrCannotLook
	}
	inThread := m.Athlete.Settings.Remind.By == storage.RemindThread
	if there, err = a.lookBy(ctx, userID, &m, inThread, m.PutBack); there || err != nil || !m.PutBack {
		return there, err
	}
	// The way may have been changed after the database was copied. Where it cannot be seen, it was most likely not.
	there, err = a.lookBy(ctx, userID, &m, !inThread, !inThread) // no direct message is opened for those who want none
	if errors.Is(err, post.ErrCannotLook) || isFinal(err) {
		return false, nil
	}
	return there, err
}

// lookBy looks for a post in the direct messages or the threads of a rider. A channel or
// thread is kept before anything is written there, but a database that was put back may be
// older than that: then Discord is asked for it.
func (a *App) lookBy(ctx context.Context, userID string, m *post.Message, inThread, ask bool) (there bool, err error) {
	var channels []string
	if inThread {
		channels, err = a.reminderThreads(ctx, m, ask)
	} else {
		channels, err = a.directChannel(ctx, userID, ask)
	}
	if err != nil {
		return false, err
	}
	var unread error
	for _, channel := range channels {
		there, err := a.holds(ctx, channel, inThread, m.Post)
		switch {
		case there && inThread && m.PutBack:
			return true, a.DB.KeepThread(ctx, m.Athlete.ID, channel)
		case there:
			return true, nil
		case errors.Is(err, post.ErrCannotLook):
			unread = err
		case err != nil:
			return false, err
		}
	}
	return false, unread
}

// directChannel is where a direct message may be, none where nobody opened it.
func (a *App) directChannel(ctx context.Context, userID string, ask bool) ([]string, error) {
	person, err := a.DB.FindPerson(ctx, personKey(userID))
	if err != nil {
		return nil, err
	}
	channel := person.Channel
	if channel == "" && ask {
		if channel, err = a.openDirect(ctx, userID); err != nil {
			return nil, a.refusal(ctx, userID, err)
		}
	}
	if channel == "" {
		return nil, nil
	}
	return []string{channel}, nil
}

// reminderThreads are the threads in which a reminder may be. Discord is asked for all of
// the bot's with that name: one that was made since the copy of the database is listed, as
// Discord folds none away within seven days.
func (a *App) reminderThreads(ctx context.Context, m *post.Message, ask bool) (ids []string, err error) {
	athlete, err := a.DB.Athlete(ctx, m.Athlete.ID)
	switch {
	case err != nil:
		return nil, err
	case athlete.Thread != "":
		return []string{athlete.Thread}, nil
	case !ask:
		return nil, nil
	}
	guildID, _ := m.Club.Key.ID(platform)
	threads, err := a.api.ActiveThreads(ctx, guildID)
	if isFinal(err) {
		return nil, post.ErrCannotLook
	}
	for _, thread := range threads {
		if thread.OwnerID == a.me && thread.Type == api.ChannelPrivateThread && thread.Name == threadName(&athlete) {
			ids = append(ids, thread.ID)
		}
	}
	return ids, err
}

// holds reports whether a post is in a channel.
func (a *App) holds(ctx context.Context, channel string, inThread bool, p storage.Post) (there bool, err error) {
	since := idAt(p.Claimed.Add(-clockSlack))
	seen, err := a.api.Messages(ctx, channel, since, lookBack)
	switch code := api.Code(err); {
	case code == api.CodeUnknownChannel:
		return false, nil
	case err == nil && inThread && len(seen) == 0:
		return false, a.hidden(ctx, channel, since)
	case isFinal(err):
		return false, post.ErrCannotLook
	case err != nil:
		return false, err
	}
	mark := markOf(p)
	return slices.ContainsFunc(seen, func(s api.SeenMessage) bool {
		return s.AuthorID == a.me && slices.ContainsFunc(s.CustomIDs, func(id string) bool { return markIn(id) == mark })
	}), nil
}

// hidden tells why a thread shows no message since an id: nil where there is none.
// Without the right to read its history Discord shows an empty list, too, but of
// the last message it gives the id all the same.
func (a *App) hidden(ctx context.Context, thread, since string) error {
	channel, err := a.api.Channel(ctx, thread)
	switch {
	case isFinal(err), err == nil && newerID(channel.Last, since):
		return post.ErrCannotLook
	}
	return err
}

// newerID compares ids of Discord, which grow with time.
func newerID(id, than string) bool {
	return len(id) > len(than) || len(id) == len(than) && id > than
}

// lookBack is how many messages since the claim of a post are read back, as many
// as Discord shows at once; clockSlack is how far clocks may differ.
const (
	lookBack   = 100
	clockSlack = time.Minute
)

// idAt is an id that Discord would have given at an instant, "" before there were any.
// Source: https://discord.com/developers/docs/reference#snowflakes
func idAt(at time.Time) string {
	const epoch = 1420070400000 // milliseconds
	if at.UnixMilli() <= epoch {
		return ""
	}
	return strconv.FormatInt((at.UnixMilli()-epoch)<<22, 10)
}

// nameOf names a post: the same after a restart, another one for each day.
func nameOf(p storage.Post) string { return fmt.Sprintf("%s/%v/%s", p.Kind, p.Key, p.Day) }

// markOf is the short name of a post by which its buttons are known again.
func markOf(p storage.Post) string {
	sum := sha256.Sum256([]byte(nameOf(p)))
	text := strings.Repeat("0", markLength) + strconv.FormatUint(binary.BigEndian.Uint64(sum[:]), 36)
	return text[len(text)-markLength:]
}

// noPlace is a post.ErrNoPlace that says in words what is missing.
func noPlace(t say.Template, args ...any) error {
	return &plainError{say.Linef(t, args...), post.ErrNoPlace}
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
		reply.Gap()
		reply.Addf("This digest may have come before: I was interrupted while I sent it.")
	}
	reply.Buttons = slices.DeleteFunc(slices.Clone(reply.Buttons), func(b say.Button) bool { return !isForCoaches(b.Command) })
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
// gone is made again, once.
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
		if thread, err = a.api.CreateThread(ctx, parent, threadName(&athlete)); err != nil {
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

// threadName is how the thread of a rider's reminders is called.
func threadName(athlete *storage.Athlete) string {
	return cut("Reminders for "+athlete.Name, maxThreadName)
}
