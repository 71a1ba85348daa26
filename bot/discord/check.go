package discord

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"time"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/bot/discord/gateway"
	"musette/planner"
	"musette/storage"
)

// States of a Finding.
const (
	StateOK   = "ok"
	StateFix  = "fix"  // the bot cannot do its work; Text says how to mend it
	StateNote = "note" // good to know
)

// Finding is one line of a check.
type Finding struct {
	State string
	What  string // what was looked at, in a word or two
	Text  string
}

// fewStarts is how few session starts a day are worth a warning: a bot that
// starts again and again may use them up, and then Discord resets its token.
const fewStarts = 100

// privileged are the flags of an application that may see who is online, the
// members of servers, or the text of all messages; each for large bots and for small ones.
// Source: https://discord.com/developers/docs/resources/application#application-object-application-flags
const privileged = 1<<12 | 1<<13 | 1<<14 | 1<<15 | 1<<18 | 1<<19

// checker collects findings.
type checker struct {
	api    *api.Client
	db     *storage.DB
	share  gateway.Share
	unread bool
	found  []Finding
}

// Check asks Discord what the bot needs and looks at each club that has it. It
// changes nothing. Of c it needs Token, URL, DB and Share; with an empty Token it only
// looks whether Discord answers. Without a DB clubs count as new, unless unread
// tells that there is one which could not be read.
func Check(ctx context.Context, c Config, unread bool) []Finding {
	client, err := api.New(api.Config{Token: c.Token, Base: c.URL, Log: c.Log})
	if err != nil {
		text := err.Error()
		if in, ok := errors.AsType[*planner.InputError](err); ok {
			text = in.Msg
		}
		return []Finding{{StateFix, "discord.url", text}}
	}
	k := checker{api: client, db: c.DB, share: c.Share, unread: unread}
	known := k.signIn(ctx, cmp.Or(c.URL, "Discord"), c.Token != "")
	k.clock(time.Now())
	if !known {
		return k.found
	}
	k.application(ctx)
	k.connections(ctx)
	k.clubs(ctx)
	return k.found
}

func (k *checker) ok(what, format string, args ...any)   { k.add(StateOK, what, format, args) }
func (k *checker) fix(what, format string, args ...any)  { k.add(StateFix, what, format, args) }
func (k *checker) note(what, format string, args ...any) { k.add(StateNote, what, format, args) }

func (k *checker) add(state, what, format string, args []any) {
	k.found = append(k.found, Finding{state, what, fmt.Sprintf(format, args...)})
}

// signIn tells whether there is a token that Discord knows.
func (k *checker) signIn(ctx context.Context, where string, hasToken bool) bool {
	me, err := k.api.Me(ctx)
	switch status := api.Status(err); {
	case err == nil:
		k.ok("discord", "%s answers", where)
		k.ok("token", "Discord knows it, the bot is called %s", storage.ShownName(cmp.Or(me.GlobalName, me.Username), "bot"))
		return true
	case status == http.StatusUnauthorized:
		k.ok("discord", "%s answers", where)
		if hasToken {
			k.fix("token", "Discord does not know it. Copy it again, or make a new one on the page Bot of your application")
		}
	case status != 0:
		k.fix("discord", "%s refuses (%s). Wait some minutes and check again", where, plainWords(err))
	default:
		k.fix("discord", "%s cannot be reached (%s). Look at this machine's network, firewall and clock", where, withoutRoute(err))
	}
	return false
}

// clockOff is by how much the clock of this machine may differ from Discord's.
const clockOff = 10 * time.Minute

// clock compares this machine's clock with Discord's, where that has told it.
func (k *checker) clock(now time.Time) {
	at, ago, known := k.api.Time()
	if !known {
		return
	}
	off := now.Sub(at.Add(ago)).Round(time.Second)
	const mend = "Set it, for example with timedatectl set-ntp true. A musette serve that starts meanwhile sends no reminders until it is right"
	switch {
	case off > clockOff:
		k.fix("clock", "this machine's is %v ahead of Discord's. %s", off, mend)
	case off < -clockOff:
		k.fix("clock", "this machine's is %v behind Discord's. %s", -off, mend)
	default:
		k.ok("clock", "this machine's agrees with Discord's")
	}
}

// application looks at what the bot is registered as, and at its commands.
func (k *checker) application(ctx context.Context) {
	app, err := k.api.Application(ctx)
	if err != nil {
		k.unknown("application", err)
		return
	}
	k.ok("application", "%s, id %s. Invite it with %s", storage.ShownName(app.Name, "without a name"), app.ID, InviteLink(app.ID))
	if app.Flags&privileged == 0 {
		k.ok("intents", "no privileged one is on, and none is needed")
	} else {
		k.note("intents", "privileged ones are on. musette uses none, so you can switch them off on the page Bot")
	}
	stored, err := k.api.Commands(ctx, app.ID)
	switch {
	case err != nil:
		k.unknown("commands", err)
	case sameCommands(stored, definitions(bot.Commands())):
		k.ok("commands", "Discord has them all as they are now")
	default:
		k.fix("commands", "Discord has none, or old ones. Start musette serve, which brings them up to date")
	}
}

// connections looks at the shards, and how many more times the bot may connect today.
func (k *checker) connections(ctx context.Context) {
	info, err := k.api.GatewayInfo(ctx)
	if err != nil {
		k.unknown("connections", err)
		return
	}
	switch all := cmp.Or(k.share.Shards, info.Shards); {
	case all < info.Shards:
		k.note("shards", "%d are set, and Discord recommends %d: at 2,500 servers a shard it refuses the bot. docs/scale.md says how to change their number", all, info.Shards)
	case k.share.Whole() && k.share.Shards == 0:
		k.ok("shards", "as many as Discord recommends, now %d, all in one process", all)
	case k.share.Whole():
		k.ok("shards", "%d as set, all in one process", all)
	default:
		k.ok("shards", "%d of %d in this process. Other processes must run the others", len(k.share.Own), all)
	}
	limit := info.SessionStartLimit
	switch {
	case limit.Remaining == 0:
		k.fix("connections", "none of %d is left. Stop the bot, and start it again in %s", limit.Total, limit.ResetAfter.Round(time.Minute))
	case limit.Remaining < fewStarts:
		k.note("connections", "only %d of %d are left for the next %s: something starts the bot again and again. Look at its log",
			limit.Remaining, limit.Total, limit.ResetAfter.Round(time.Minute))
	default:
		k.ok("connections", "%d of %d are left today", limit.Remaining, limit.Total)
	}
}

// clubs looks at each server that has the bot, and for clubs that have it no more.
func (k *checker) clubs(ctx context.Context) {
	guilds, err := k.api.Guilds(ctx)
	if err != nil {
		k.unknown("clubs", err)
		return
	}
	elsewhere := len(guilds)
	guilds = slices.DeleteFunc(guilds, func(g api.Guild) bool { return !k.share.Has(g.ID) })
	if elsewhere -= len(guilds); elsewhere > 0 {
		k.note("clubs", "servers whose shards other processes run: %d. They are not looked at here", elsewhere)
	} else if len(guilds) == 0 {
		k.fix("clubs", "no server has the bot. Open the invite link")
	}
	if k.unread {
		k.note("clubs", "servers that have the bot: %d. What they have set up is in the database and not looked at", len(guilds))
		return
	}
	stored, gone, err := k.stored(ctx)
	if err != nil {
		k.unknown("clubs", err)
		return
	}
	for i, g := range guilds {
		if ctx.Err() != nil {
			k.note("clubs", "time is up after %d of %d", i, len(guilds))
			return
		}
		what := "club " + storage.ShownName(g.Name, g.ID)
		at := slices.IndexFunc(stored, func(c storage.Club) bool { return c.Key == clubKey(g.ID) })
		if slices.ContainsFunc(gone, func(c storage.GoneClub) bool { return c.Key == clubKey(g.ID) }) {
			k.note(what, "removed the bot and has it again. musette serve sees that when it runs, and keeps what is stored")
			continue
		}
		if at < 0 {
			k.fix(what, "is not set up. Run /club setup there")
			continue
		}
		k.channel(ctx, what, &stored[at])
		k.coachesChannel(ctx, what, stored[at].Setup.Coaches)
		k.coachRole(ctx, what, g.ID, stored[at].Setup.CoachRole)
	}
	k.gone(guilds, stored, gone)
}

// stored are the clubs that have the bot, and those that removed it, as far as
// is known here.
func (k *checker) stored(ctx context.Context) (there []storage.Club, gone []storage.GoneClub, err error) {
	if k.db == nil {
		return nil, nil, nil
	}
	if there, err = k.db.Clubs(ctx, platform); err != nil {
		return nil, nil, err
	}
	gone, err = k.db.GoneClubs(ctx, platform)
	return there, gone, err
}

// gone tells what happens to the data of clubs that have the bot no more.
func (k *checker) gone(guilds []api.Guild, there []storage.Club, gone []storage.GoneClub) {
	has := func(key storage.Key) bool {
		return slices.ContainsFunc(guilds, func(g api.Guild) bool { return clubKey(g.ID) == key })
	}
	for _, club := range there {
		if !has(club.Key) {
			k.note("club "+club.Name, fmt.Sprintf("has removed the bot. What is stored of it is erased %d days after musette serve sees that", keepDays))
		}
	}
	for _, club := range gone {
		what := "removed the bot on"
		if id, _ := club.Key.ID(platform); !k.share.Has(id) {
			what = "is of a shard that this process does not run since"
		}
		what += club.Since.Format(" 2 January")
		switch end := club.Since.Add(keepGone); {
		case has(club.Key):
		case end.Before(k.db.Now()):
			k.note("club "+club.Name, "%s. musette serve erases its data here when it runs", what)
		default:
			k.note("club "+club.Name, "%s. Its data are erased here on %s", what, end.Format("2 January"))
		}
	}
}

// channel looks whether a club's channel is there and was writable when last written to.
func (k *checker) channel(ctx context.Context, what string, club *storage.Club) {
	id := channelID(club.Setup.Channel)
	if id == "" {
		k.fix(what, "no channel. Run /club setup there")
		return
	}
	channel, err := k.api.Channel(ctx, id)
	if fault := cmp.Or(channelFault(err), club.Fault); fault != "" {
		k.fix(what, "channel: %s. Set it anew there: /club setup channel:#races", fault)
		return
	}
	if err != nil {
		k.unknown(what+", channel", err)
		return
	}
	k.ok(what, "channel #%s is there", storage.ShownName(channel.Name, channel.ID))
}

// coachesChannel looks whether the channel of the digest is there, where one is set.
func (k *checker) coachesChannel(ctx context.Context, what, reference string) {
	id := channelID(reference)
	if id == "" {
		return
	}
	channel, err := k.api.Channel(ctx, id)
	switch fault := channelFault(err); {
	case fault != "":
		k.fix(what, "coaches-channel: %s. Set it anew there: /club setup coaches-channel:#coaches", fault)
	case err != nil:
		k.unknown(what+", coaches-channel", err)
	case readByAll(ctx, k.api, &channel):
		k.note(what, "everybody in the server can read the coaches-channel #%s, and the digest tells of riders' plans. To close it: %s", storage.ShownName(channel.Name, channel.ID), closeChannel)
	default:
		k.ok(what, "coaches-channel #%s is there", storage.ShownName(channel.Name, channel.ID))
	}
}

// coachRole looks whether the role that makes coaches is there.
func (k *checker) coachRole(ctx context.Context, what, guildID, reference string) {
	if reference == "" {
		k.note(what, "no coach role, so that nobody is a coach. Run /club setup coach-role:@Coach there")
		return
	}
	roles, err := k.api.Roles(ctx, guildID)
	if err != nil {
		k.unknown(what+", coach role", err)
		return
	}
	at := slices.IndexFunc(roles, func(r api.Role) bool { return r.ID == inner(reference, "<@&") })
	if at < 0 {
		k.fix(what, "the coach role was deleted, so that nobody is a coach. Run /club setup coach-role:@Coach there")
		return
	}
	k.ok(what, "coaches have the role %s", storage.ShownName(roles[at].Name, roles[at].ID))
}

// unknown is what could not be looked up.
func (k *checker) unknown(what string, err error) {
	k.fix(what, "could not be looked up: %s. Check again", plainWords(err))
}

// withoutRoute is why there was no answer, without what was asked.
func withoutRoute(err error) string {
	if e, ok := errors.AsType[*api.Error](err); ok {
		return e.Message
	}
	return plainWords(err)
}
