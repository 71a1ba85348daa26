package discord

import (
	"cmp"
	"context"
	"errors"
	"maps"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/say"
	"musette/storage"
)

// asked is where the interaction comes from.
func (i *interaction) asked() asked {
	from := asked{guildID: i.GuildID, userID: i.User.ID, id: i.ID, rights: map[string]uint64{}}
	for id, channel := range i.ResolvedChannels {
		if channel.AppPermissions != nil {
			from.rights[id] = *channel.AppPermissions
		}
	}
	return from
}

// command answers a slash command.
func (c *conversation) command(ctx context.Context) answer {
	req, refused := c.request(ctx)
	if refused != nil {
		return *refused
	}
	cmd, _ := commandNamed(req.Command) // one that is gone is answered by the bot
	if _, given := req.Options[cmd.Form]; cmd.Form != "" && !given {
		return c.form(ctx, req)
	}
	return c.ask(ctx, req)
}

// request is the interaction as a request, or what it is answered with instead.
func (c *conversation) request(ctx context.Context) (desk.Request, *answer) {
	req := c.i.request(c.Now())
	req.Ref = c.ref
	instead, err := c.place(ctx, &req, &c.from)
	if err != nil {
		out := c.message(ctx, c.Bot.Fail(ctx, "club of "+c.ref, err), true)
		return req, &out
	}
	if instead != nil {
		return req, &answer{kind: api.AnswerMessage, private: true, messages: instead}
	}
	return req, nil
}

// ask puts the request to the bot and makes its reply a message.
func (c *conversation) ask(ctx context.Context, req desk.Request) answer {
	reply := c.reply(ctx, req)
	return c.message(ctx, reply, reply.Private)
}

// reply puts the request to the bot and keeps what is to be done afterwards.
func (c *conversation) reply(ctx context.Context, req desk.Request) say.Reply {
	reply, after := c.put(ctx, req, &c.from)
	c.after = after
	return reply
}

// offers answers a request for values that fit what is being typed.
func (c *conversation) offers(ctx context.Context) answer {
	out := answer{kind: api.AnswerChoices, choices: fitChoices(nil)}
	req, refused := c.request(ctx)
	if refused == nil {
		out.choices = fitChoices(c.Bot.Offer(ctx, req, req.Command, c.i.Focused, req.Options[c.i.Focused]))
	}
	return out
}

// form shows the form of a command.
func (c *conversation) form(ctx context.Context, req desk.Request) answer {
	form, err := c.Bot.Form(ctx, req)
	if err != nil {
		return c.message(ctx, c.Bot.Fail(ctx, "form of "+req.Command, err), true)
	}
	id, err := c.buttons.formID(ctx, c.i.User.ID, c.from.club, req.Command, req.Options)
	if err != nil {
		return c.message(ctx, c.Bot.Fail(ctx, "form of "+req.Command, err), true)
	}
	return answer{kind: api.AnswerModal, modal: modal(form, id)}
}

// submit answers a form that was sent.
func (c *conversation) submit(ctx context.Context) answer {
	pressed, refused := c.owned(ctx)
	if refused != nil {
		return *refused
	}
	return c.pressed(ctx, pressed, c.i.Fields)
}

// press answers a button.
func (c *conversation) press(ctx context.Context) answer {
	pressed, refused := c.owned(ctx)
	if refused != nil {
		return *refused
	}
	switch pressed.Action {
	case actionKeep:
		return c.replace(ctx, say.Reply{Lines: []say.Line{say.Linef("Nothing has changed.")}, Private: true})
	case actionClub:
		return c.chooseClub(ctx, pressed.Club)
	case actionForm:
		req, refused := c.request(ctx)
		if refused != nil {
			return *refused
		}
		req.Command, req.Options = pressed.Command, pressed.Options
		return c.form(ctx, req)
	}
	return c.pressed(ctx, pressed, nil)
}

// owned reads what was pressed. Only who asked may press, and what is too old
// to be known is answered kindly.
func (c *conversation) owned(ctx context.Context) (press, *answer) {
	pressed, err := c.buttons.parse(ctx, c.i.CustomID)
	var out answer
	switch {
	case errors.Is(err, errStale):
		out = c.refusal(ctx, "", "This button is of an old message and works no more. What there is: /help")
	case err != nil:
		out = c.message(ctx, c.Bot.Fail(ctx, "button", err), true)
	case pressed.Owner != "" && pressed.Owner != c.i.User.ID:
		out = c.refusal(ctx, "", "This button is for the rider who asked. Ask yourself: /ride, /plan show")
	default:
		c.from.pressed, c.from.remind, c.from.anywhere = pressed.Guild, pressed.aboutReminders(), pressed.Action == actionCommand && isAnywhere(pressed.Command)
		return pressed, nil
	}
	return press{}, &out
}

// pressed gives the command behind a button or a form, with the form's fields
// as options. The answer to a command that stores something takes the place of
// a private message, so that its buttons are not pressed twice. A post stays: it
// has what to ride, and by its buttons it is known again.
func (c *conversation) pressed(ctx context.Context, p press, fields map[string]string) answer {
	req, refused := c.request(ctx)
	if refused != nil {
		return *refused
	}
	req.Command, req.Ask = p.Command, false
	req.Options = map[string]string{}
	maps.Copy(req.Options, p.Options)
	maps.Copy(req.Options, fields)
	reply := c.reply(ctx, req)
	cmd, _ := commandNamed(req.Command)
	if c.i.Kind == kindComponent && cmd.Writes && reply.Err == nil && p.Mark == "" {
		return c.replace(ctx, reply)
	}
	return c.message(ctx, reply, reply.Private)
}

// replace puts a reply in place of the message whose button was pressed,
// where nobody else reads that; else it is a message of its own.
func (c *conversation) replace(ctx context.Context, reply say.Reply) answer {
	out := c.message(ctx, reply, true)
	if c.i.Private {
		out.kind = api.AnswerUpdate
	}
	return out
}

// chooseClub keeps of which club a person's direct messages speak.
func (c *conversation) chooseClub(ctx context.Context, id storage.ClubID) answer {
	clubs, err := c.clubsOf(ctx, c.i.User.ID)
	if err != nil {
		return c.message(ctx, c.Bot.Fail(ctx, "choice of a club", err), true)
	}
	for _, club := range clubs {
		if club.ID != id {
			continue
		}
		if err := c.DB.ChooseClub(ctx, personKey(c.i.User.ID), id); err != nil {
			return c.message(ctx, c.Bot.Fail(ctx, "choice of a club", err), true)
		}
		return c.replace(ctx, say.Reply{Lines: []say.Line{say.Linef("Your direct messages are about %s now.", cmp.Or(club.Name, "that club")),
			say.Linef("Ask again, for example /ride")}})
	}
	return c.refusal(ctx, "", "You do not ride for that club any more. Ask again, for example /ride")
}

// modal shows a form: one text of several lines, which comes back under the
// name of the option that it answers. customID is of buttons.formID.
func modal(f command.Form, customID string) api.Modal {
	needed := true
	m := api.Modal{CustomID: customID, Title: f.Title, Components: []api.Component{{
		Type: api.ComponentLabel, Label: f.Label, Description: f.Hint,
		Component: &api.Component{Type: api.ComponentTextInput, Style: api.InputParagraph, CustomID: f.Option,
			Value: f.Text, Required: &needed, MinLength: 1, MaxLength: f.MaxLen},
	}}}
	fitModal(&m)
	return m
}
