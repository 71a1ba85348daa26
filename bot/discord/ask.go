package discord

import (
	"context"
	"regexp"
	"strings"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/storage"
)

// asked is where a request came from. A direct message has no server.
type asked struct {
	guildID, userID, id string

	rights map[string]uint64 // of the bot in channels that the request names, where Discord tells them
	choice []storage.Club    // that the answer offers, of which club direct messages speak
}

// put gives a request to the bot. The reply has what the person should know
// besides; after is to be called once it is out.
func (a *App) put(ctx context.Context, req bot.Request, from *asked) (reply bot.Reply, after func(context.Context)) {
	if refused := a.checkPlace(ctx, &req, from); refused != nil {
		return *refused, func(context.Context) {}
	}
	reply, _ = a.Bot.Handle(ctx, req) // what broke has been logged with the reference that the reply shows
	lines := reply.Sent
	if req.Command == "club setup" && len(lines) > 0 {
		// Whether the bot may write there is told at once.
		if fault := a.announce(ctx, req.ClubKey, from.id, lines); fault != "" {
			reply.Text += "\n! I cannot write to the channel: " + fault + ", then run /club setup again."
		}
		lines = nil
	}
	if from.guildID == "" && req.Command == "me show" {
		if clubs, err := a.DB.ClubsOf(ctx, personKey(from.userID)); err == nil && len(clubs) > 1 {
			from.choice = clubs
		}
	}
	person, err := a.DB.FindPerson(ctx, personKey(from.userID))
	tell := err == nil && !person.Refused.IsZero() && reply.Private && reply.Err == nil
	if tell {
		reply = withRefusal(reply, person)
	}
	return reply, func(ctx context.Context) {
		a.announce(ctx, req.ClubKey, from.id, lines)
		if !tell {
			return
		}
		if err := a.DB.ForgetRefusal(ctx, personKey(from.userID)); err != nil {
			a.Log.Error("refusal that was told", "ref", req.Ref, "error", err)
		}
	}
}

const (
	whichClub = "For which club are your direct messages?\nYou ride for more than one; I remember what you choose. /me show offers the choice again."
	noClub    = "I do not know yet for which club you ride. Give me a command in your club's server once, for example /week share; after that direct messages work too."
)

// written is a reply as messages with its buttons.
func (a *App) written(ctx context.Context, reply bot.Reply, from *asked) []api.Message {
	rows, err := a.buttons.rows(ctx, from.userID, reply.Buttons)
	if err != nil {
		a.Log.Error("buttons are left out", "error", err)
	}
	return a.renderer().messages(reply, append(rows, a.buttons.clubRows(from.userID, from.choice)...))
}

// place says about which club a request is: the server's, else the one of the
// person's direct messages. instead answers where that is not known.
func (a *App) place(ctx context.Context, req *bot.Request, guildID, userID string) (instead []api.Message, err error) {
	req.Home = a.Zone
	if guildID != "" {
		req.ClubKey, req.Club = clubKey(guildID), a.guilds.name(guildID)
		return nil, nil
	}
	club, choice, err := a.clubOf(ctx, userID)
	switch {
	case err != nil:
		return nil, err
	case len(choice) > 0:
		return a.renderer().messages(bot.Reply{Text: whichClub}, a.buttons.clubRows(userID, choice)), nil
	case club.Key.IsZero():
		return a.renderer().messages(bot.Refusal("", noClub), nil), nil
	}
	req.ClubKey, req.Club = club.Key, club.Name
	return nil, nil
}

// clubOf is the club of which a person's direct messages speak: the one that
// they chose, the only one for which they ride, or the only one there is. Where
// they ride for several and have not chosen, these are the choice.
func (a *App) clubOf(ctx context.Context, userID string) (club storage.Club, choice []storage.Club, err error) {
	clubs, err := a.DB.ClubsOf(ctx, personKey(userID))
	if err != nil {
		return storage.Club{}, nil, err
	}
	switch len(clubs) {
	case 0:
		id := a.guilds.single()
		if id == "" {
			return storage.Club{}, nil, nil
		}
		return storage.Club{Key: clubKey(id), Name: a.guilds.name(id)}, nil, nil
	case 1:
		return clubs[0], nil, nil
	}
	person, err := a.DB.FindPerson(ctx, personKey(userID))
	for _, club := range clubs {
		if club.ID == person.Club {
			return club, nil, err
		}
	}
	return storage.Club{}, clubs, err
}

var (
	channelText = regexp.MustCompile(`^<#\d{1,20}>$`)
	roleText    = regexp.MustCompile(`^<@&\d{1,20}>$`)
)

// checkPlace refuses commands about the club in direct messages, and channels
// and roles that are not of this server: choices of a platform are not enforced.
func (a *App) checkPlace(ctx context.Context, req *bot.Request, from *asked) *bot.Reply {
	cmd, ok := commandNamed(req.Command)
	if !ok {
		return nil
	}
	if cmd.Club && from.guildID == "" {
		return refused("command", "/"+cmd.Name+" works in the club's server only, since it is about the club")
	}
	for _, o := range cmd.Options {
		value, given := req.Options[o.Name]
		if !given || strings.EqualFold(value, "none") {
			continue
		}
		switch o.Type {
		case bot.TypeRole:
			if !roleText.MatchString(value) {
				return refused(o.Name, "pick a role of this server")
			}
			if value == roleReference(from.guildID) {
				return refused(o.Name, "that role is everybody's; pick the role of the coaches")
			}
		case bot.TypeChannel:
			if wrong := a.checkChannel(ctx, value, from); wrong != "" {
				return refused(o.Name, wrong)
			}
		}
	}
	return nil
}

func refused(field, text string) *bot.Reply {
	reply := bot.Refusal(field, text)
	return &reply
}

// checkChannel says what is wrong with a channel for the lines of a server's club.
func (a *App) checkChannel(ctx context.Context, value string, from *asked) string {
	if !channelText.MatchString(value) {
		return "pick a text channel of this server"
	}
	if rights, told := from.rights[channelID(value)]; told && rights&rightAdministrator == 0 && rights&Permissions != Permissions {
		return "I may not write there; allow me " + neededRights + ", then try again"
	}
	channel, err := a.api.Channel(ctx, channelID(value))
	if fault := channelFault(err); fault != "" {
		return "I cannot use that channel: " + fault + ", then try again"
	}
	if err == nil && channel.GuildID != from.guildID {
		return "that channel is not of this server; pick one of its text channels"
	}
	return ""
}
