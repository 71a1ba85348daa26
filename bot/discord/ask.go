package discord

import (
	"context"
	"errors"
	"regexp"
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/say"
	"musette/storage"
)

// asked is where a request came from. A direct message has no server.
type asked struct {
	guildID, userID, id string

	rights   map[string]uint64 // of the bot in channels that the request names, where Discord tells them
	pressed  string            // the server whose club a pressed button is about
	remind   bool              // the button is one of reminders, which who left may stop too
	anywhere bool              // the button is of a command that needs no club
	club     string            // the server whose club the request is about; place finds it
	choice   []storage.Club    // that the answer offers, of which club direct messages speak
}

// put gives a request to the bot. The reply has what the person should know
// besides; after is to be called once it is out, or could not be sent.
func (a *App) put(ctx context.Context, req desk.Request, from *asked) (reply say.Reply, after func(ctx context.Context, sent bool)) {
	cmd, _ := commandNamed(req.Command)
	if refused := a.permit(ctx, &cmd, &req, from); refused != nil {
		return *refused, func(context.Context, bool) {}
	}
	a.lookBefore(ctx, &cmd, &req)
	reply, _ = a.Bot.Handle(ctx, req) // what broke has been logged with the reference that the reply shows
	reply = a.settle(ctx, &cmd, &req, from, reply)
	reply, toldRefusal := a.tellRefusal(ctx, &req, from, reply)
	reply, toldFaults := a.tellFaults(ctx, &req, from, reply)
	return reply, func(ctx context.Context, sent bool) {
		toldRefusal(ctx, sent)
		toldFaults(ctx, sent)
		if !cmd.Tries {
			a.announce(ctx, req.ClubKey, from.id, reply.Sent)
		}
	}
}

// permit says why a request is not carried out here, by this person, or with
// these channels and roles; nil: it may be. It brings references to their form.
func (a *App) permit(ctx context.Context, cmd *command.Command, req *desk.Request, from *asked) *say.Reply {
	if cmd.Name == "" || req.Fault != nil || a.Bot.Alarms(req) { // Handle says what there is instead
		return nil
	}
	if cmd.Club && from.guildID == "" {
		refused := inServerOnly(cmd)
		return &refused
	}
	if reply, forbidden := a.Bot.Forbids(ctx, req); forbidden {
		if lack := a.lackOfCoaches(ctx, cmd, req); lack != nil {
			reply = *lack
		}
		return &reply
	}
	return a.checkReferences(ctx, cmd, req, from)
}

// settle completes an answer with what only the platform knows: names that came
// meanwhile, whether messages arrive, who reads a channel.
func (a *App) settle(ctx context.Context, cmd *command.Command, req *desk.Request, from *asked, reply say.Reply) say.Reply {
	if name := a.names.name(from.club); req.Club == "" && name != "" { // it came while the club was stored
		if err := a.rename(ctx, guildEvent{ID: from.club, Name: name}); err != nil {
			a.Log.Error("name of a club", "ref", req.Ref, "error", err)
		}
	}
	reply = a.withReach(ctx, cmd, req, reply)
	if cmd.Faults && reply.Err == nil {
		if club, err := a.DB.FindClub(ctx, req.ClubKey); err == nil {
			faults, _ := a.faultsNow(ctx, &club) // where Discord does not answer, what is stored is shown alone
			for _, fault := range faults {
				reply.Addf("! %s", fault.line)
			}
		}
	}
	if cmd.Tries && len(reply.Sent) > 0 {
		var faults []string
		stand(ctx, func() { faults = a.announce(ctx, req.ClubKey, from.id, reply.Sent) })
		for _, fault := range faults {
			reply.Addf("! I cannot write to %s, then run %s again.", fault, cmd.Link())
		}
	}
	if cmd.Clubs || cmd.Anywhere && cmd.Task == command.TaskMe {
		reply = a.withLimits(ctx, reply, from)
	}
	if from.guildID == "" && cmd.Clubs {
		if clubs, err := a.clubsOf(ctx, from.userID); err == nil && len(clubs) > 1 {
			from.choice = clubs
		}
	}
	return reply
}

// withLimits says of an answer about all clubs of a person which those are that this process knows,
// where others run shards of the bot.
func (a *App) withLimits(ctx context.Context, reply say.Reply, from *asked) say.Reply {
	if a.Share.Whole() || reply.Err != nil {
		return reply
	}
	clubs, err := a.DB.ClubsOf(ctx, personKey(from.userID))
	if err != nil || len(clubs) == 0 {
		return reply
	}
	names := make([]string, len(clubs))
	for i, club := range clubs {
		names[i] = club.Name
	}
	reply.Addf("! This is about %s. For another club of yours ask in its server as well.", strings.Join(names, ", "))
	return reply
}

// written is a reply as messages with its buttons.
func (a *App) written(ctx context.Context, reply say.Reply, from *asked) []api.Message {
	rows, err := a.buttons.below(ctx, from.userID, from.club, reply)
	if err != nil {
		a.Log.Error("buttons are left out", "error", err)
	}
	return a.renderer().messages(reply, append(rows, a.buttons.clubRows(from.userID, from.choice)...))
}

// place says about which club a request is: the server's, else the one that a
// pressed button is about, else that of the person's direct messages. instead
// answers where that is not known.
func (a *App) place(ctx context.Context, req *desk.Request, from *asked) (instead []api.Message, err error) {
	req.Home = a.Zone
	if from.guildID != "" {
		from.club = from.guildID
		req.ClubKey, req.Club = clubKey(from.club), a.names.name(from.club)
		return nil, nil
	}
	req.Elsewhere = true // there are no nicknames in direct messages
	clubsOf := a.clubsOf
	if from.pressed != "" && from.remind {
		clubsOf = func(ctx context.Context, userID string) ([]storage.Club, error) {
			return a.DB.ClubsOf(ctx, personKey(userID))
		}
	}
	clubs, err := clubsOf(ctx, from.userID)
	if err != nil {
		return nil, err
	}
	if from.pressed != "" {
		for _, club := range clubs {
			if club.Key == clubKey(from.pressed) {
				return nil, a.speakOf(req, club, from)
			}
		}
		if from.anywhere {
			req.Club = noClubName
			return nil, nil
		}
		return a.renderer().messages(say.Refusal("", oldClub), nil), nil
	}
	person, err := a.DB.FindPerson(ctx, personKey(from.userID))
	if err != nil {
		return nil, err
	}
	for _, club := range clubs {
		if len(clubs) == 1 || club.ID == person.Club {
			return nil, a.speakOf(req, club, from)
		}
	}
	if a.Bot.Alarms(req) { // which waits for no question: health is of the person in all clubs
		if len(clubs) > 0 {
			return nil, a.speakOf(req, clubs[0], from)
		}
		req.Nowhere = true
		return nil, nil
	}
	if isAnywhere(req.Command) || from.anywhere {
		req.Club = noClubName
		return nil, nil
	}
	if len(clubs) > 1 {
		return a.renderer().messages(say.Reply{Lines: []say.Line{say.Linef(whichClub), say.Linef(whyClub)}}, a.buttons.clubRows(from.userID, clubs)), nil
	}
	if cmd, ok := commandNamed(req.Command); ok && cmd.Club { // a club would be of no help here
		return a.renderer().messages(inServerOnly(&cmd), nil), nil
	}
	return a.renderer().messages(say.Refusal("", noClub), nil), nil
}

func inServerOnly(cmd *command.Command) say.Reply {
	return say.Refusal("command", "%s works in the club's server only, since it is about the club", cmd.Link())
}

// speakOf makes a request one about that club.
func (a *App) speakOf(req *desk.Request, club storage.Club, from *asked) error {
	id, ok := club.Key.ID(platform)
	if !ok {
		return errors.New("a club of another platform")
	}
	from.club, req.ClubKey, req.Club = id, club.Key, club.Name
	return nil
}

// clubsOf are the clubs for which a person rides and in whose servers they still
// are; of one who rides for none yet, the only club there is, if they are in its server.
func (a *App) clubsOf(ctx context.Context, userID string) ([]storage.Club, error) {
	clubs, err := a.DB.ClubsOf(ctx, personKey(userID))
	if err != nil {
		return nil, err
	}
	if id := a.single(); len(clubs) == 0 && id != "" {
		clubs = []storage.Club{{Key: clubKey(id), Name: a.names.name(id)}}
	}
	return slices.DeleteFunc(clubs, func(club storage.Club) bool {
		id, ok := club.Key.ID(platform)
		return !ok || !a.isMember(ctx, id, userID)
	}), nil
}

const (
	noClubName = "no club" // of requests by people who are in none, or in several
	whichClub  = "For which club are your direct messages?"
	whyClub    = "You ride for more than one. I remember what you choose. /me show offers the choice again."
	oldClub    = "This button is about a club for which you do not ride any more."
	noClub     = "I do not know yet for which club you ride. Give me a command in your club's server once, for example /week share. After that direct messages work too."
)

var (
	channelText = regexp.MustCompile(`^<#\d{1,20}>$`)
	roleText    = regexp.MustCompile(`^<@&\d{1,20}>$`)
	userText    = regexp.MustCompile(`^<@(\d{1,20})>$`)
)

// checkReferences refuses channels that are not of this server and what is no
// role: choices of a platform are not enforced.
func (a *App) checkReferences(ctx context.Context, cmd *command.Command, req *desk.Request, from *asked) *say.Reply {
	for _, o := range cmd.Options {
		value, given := req.Options[o.Name]
		if !given || strings.EqualFold(value, "none") {
			continue
		}
		switch o.Type {
		case command.TypeRole:
			if !roleText.MatchString(value) {
				return refused(o.Name, "pick a role of this server")
			}
			var wrong string
			stand(ctx, func() { wrong = a.checkRole(ctx, value, from.guildID) })
			if wrong != "" {
				return refused(o.Name, wrong)
			}
		case command.TypeMember:
			var wrong string
			stand(ctx, func() { wrong = a.nameMember(ctx, value, req, from) })
			if wrong != "" {
				return refused(o.Name, wrong)
			}
		case command.TypeChannel:
			var wrong string
			var open bool
			stand(ctx, func() {
				var channel api.Channel
				channel, wrong = a.checkChannel(ctx, value, from)
				open = wrong == "" && o.Name == "coaches-channel" && readByAll(ctx, a.api, &channel)
			})
			if wrong != "" {
				return refused(o.Name, wrong)
			}
			if open {
				return refused(o.Name, "everybody in the server can read that channel, and the digest tells of riders' plans. Pick another one, or close it: "+closeChannel)
			}
		}
	}
	return nil
}

// nameMember looks up whom an option means, and brings name and key into the request.
func (a *App) nameMember(ctx context.Context, value string, req *desk.Request, from *asked) (wrong string) {
	id := userText.FindStringSubmatch(value)
	if id == nil {
		return "pick a member of this server"
	}
	member, err := a.api.Member(ctx, from.guildID, id[1])
	if err != nil || member.User.ID != id[1] {
		return "I cannot find that member here now. Pick a member of this server, or try again later"
	}
	if member.User.Bot {
		return "that is a program. Pick a rider of this server"
	}
	user := userInfo{ID: id[1], Username: member.User.Username, GlobalName: member.User.GlobalName, Nick: member.Nick}
	req.Member = desk.Member{Key: storage.PlatformKey(platform, id[1]), Name: storage.ShownName(user.shownName(), "A rider")}
	return ""
}

func refused(field, text string) *say.Reply {
	reply := say.Refusal(field, "%s", text)
	return &reply
}

// checkChannel says what is wrong with a channel for the lines of a server's club.
func (a *App) checkChannel(ctx context.Context, value string, from *asked) (channel api.Channel, wrong string) {
	if !channelText.MatchString(value) {
		return channel, "pick a text channel of this server"
	}
	if rights, told := from.rights[channelID(value)]; told && rights&rightAdministrator == 0 && rights&Permissions != Permissions {
		return channel, "I may not write there. Allow me " + neededRights + ", then try again"
	}
	channel, err := a.api.Channel(ctx, channelID(value))
	fault := channelFault(err)
	switch {
	case fault != "":
		return channel, "I cannot use that channel: " + fault + ", then try again"
	case err != nil:
		return channel, "I could not look at that channel: " + plainWords(err) + ". Try again"
	case channel.GuildID != from.guildID:
		return channel, "that channel is not of this server. Pick one of its text channels"
	case channel.Type != channelTypeText && channel.Type != channelTypeNews:
		return channel, "that is no text channel. Pick one of the server's text channels"
	}
	return channel, ""
}

// checkRole says why nobody could become a coach by a role.
func (a *App) checkRole(ctx context.Context, value, guildID string) (wrong string) {
	if value == roleReference(guildID) {
		return "that role is everybody's. Pick the role of the coaches"
	}
	roles, err := a.api.Roles(ctx, guildID)
	if err != nil {
		return "I could not look at the server's roles: " + plainWords(err) + ". Try again"
	}
	at := slices.IndexFunc(roles, func(r api.Role) bool { return roleReference(r.ID) == value })
	switch {
	case at < 0:
		return "that role is not of this server. Pick the role of the coaches"
	case roles[at].Managed:
		return "that role belongs to a bot, so nobody can be given it. Pick the role of the coaches"
	}
	return ""
}

// forCoaches reports a press that needs no owner, since the command checks at
// each call that a coach gives it, or acts for whoever presses.
func (p press) forCoaches() bool {
	cmd, _ := commandNamed(p.Command)
	return p.Owner == "" && p.Action == actionCommand && (cmd.Coach || cmd.Anybody)
}

// aboutReminders reports a press that changes nothing but a rider's own reminders.
func (p press) aboutReminders() bool {
	cmd, _ := commandNamed(p.Command)
	for name := range p.Options {
		if option, ok := cmd.Option(name); !ok || !option.Reach {
			return false
		}
	}
	return p.Action == actionCommand && len(p.Options) > 0
}
