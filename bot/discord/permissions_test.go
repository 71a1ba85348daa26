package discord

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest/notice"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/discord/discordtest"
	"musette/bot/say"
)

// personas are who may ask something, and where.
var personas = []string{"rider", "coach", "manager", "stranger", "other club", "direct message", "left"}

// kind is what decides who may give a command: what docs/commands.md says of it.
func kindOf(c *command.Command) string {
	switch {
	case c.Coach:
		return "for coaches"
	case c.Admin:
		return "for coaches and who runs the server"
	case c.Club:
		return "about the club"
	case c.Anywhere:
		return "for people in no club too"
	}
	return "for members"
}

// matrix is a club with a rider, a coach, a manager of the server and a stranger;
// another club; and a rider who left. Each may be made to ask for anything.
type matrix struct {
	*stage
	other   discordtest.Guild
	at      map[string]discordtest.At
	earlier map[buttonOf]discordtest.Message // in the direct messages of the rider who left
}

// triedByAll are the commands that everybody tries: all, and under the race detector two of a kind.
func triedByAll() []command.Command {
	all := bot.Commands()
	if !rounds.Raced {
		return all
	}
	ofKind := map[string]int{}
	return slices.DeleteFunc(all, func(c command.Command) bool {
		kind := fmt.Sprint(kindOf(&c), forNobody(&c))
		ofKind[kind]++
		return ofKind[kind] > 2
	})
}

// buttonOf says what a button gives, and for whom it is: "" for nobody in particular.
type buttonOf struct{ command, owner string }

// forNobody tells whether a button that gives a command may be for nobody in particular.
func forNobody(c *command.Command) bool { return isForCoaches(c.Name) || c.Anybody }

func newMatrix(t *testing.T) *matrix {
	m := &matrix{stage: newStage(t, discordtest.Options{})}
	m.other = m.double.AddGuild(discordtest.Guild{Name: "Harbour Riders", Channels: []discordtest.Channel{{Name: "races"}}, Roles: []discordtest.Role{{Name: "Coach"}}, Members: []discordtest.Member{{Name: "Otto"}}})
	m.eventually("both servers are known", func() bool { return m.servers() == 2 })
	m.club.Members = append(m.club.Members, discordtest.Member{Name: "Lena"}, discordtest.Member{Name: "Stefan"})
	m.club = m.double.AddGuild(m.club)
	for _, c := range bot.Commands() {
		m.double.OpenToAll(c.Group())
	}
	m.give(m.in("Admin"), "club setup", "channel", m.club.ChannelID("races"), "coach-role", m.club.RoleID("Coach"))
	m.tapering("Ines")
	m.give(m.in("Ines"), "race add", "name", "Vale Crit", "date", "2026-08-16", "priority", "C")
	m.tapering("Lena")
	for _, name := range []string{"Ines", "Lena"} { // a race that has begun
		m.give(m.in(name), "race add", "name", "Dawn Crit", "date", "2026-06-01", "priority", "C")
	}
	elsewhere := discordtest.At{Guild: m.other.ID, User: m.other.UserID("Otto")}
	m.give(elsewhere, "race add", "name", "Harbour Sprint", "date", "2026-06-21", "priority", "C")
	m.give(elsewhere, "race add", "name", "Harbour Dawn", "date", "2026-06-01", "priority", "C")
	m.at = map[string]discordtest.At{"rider": m.in("Ines"), "coach": m.in("Mira"), "manager": m.in("Admin"), "stranger": m.in("Stefan"),
		"other club": elsewhere, "direct message": m.direct("Ines"), "left": m.direct("Lena")}
	m.earlier = map[buttonOf]discordtest.Message{}
	for _, c := range triedByAll() {
		for _, owner := range []string{"", m.club.UserID("Ines"), m.at["left"].User} {
			if owner != "" || forNobody(&c) {
				m.earlier[buttonOf{c.Name, owner}] = m.posted(&c, "left", owner, true)
			}
		}
	}
	m.leaves("Lena")
	return m
}

// verdict is what an answer says of whether the person may.
func verdict(text string) string {
	for part, word := range map[string]string{
		"is for the club's coaches and those who run its server": "coaches, managers",
		"is for the club's coaches. Ask one of them":             "coaches",
		"so that nobody is one. Who runs the server sets one":    "coaches",
		"works in the club's server only":                        "in the server",
		"I do not know yet for which club you ride":              "members",
		"This button is for the rider who asked":                 "its owner",
		"is about a club for which you do not ride any more":     "members",
	} {
		if strings.Contains(text, part) {
			return "no: " + word
		}
	}
	return "yes"
}

// optionsOf are right options for a command, from its example.
func (m *matrix) optionsOf(c *command.Command, who string) map[string]any {
	guild := m.club
	if who == "other club" {
		guild = m.other
	}
	req, _ := command.ParseLine(bot.Commands(), "/"+strings.TrimPrefix(c.Example, "/"))
	out := map[string]any{}
	for name, value := range req.Options {
		out[name] = value
		switch o, _ := c.Option(name); o.Type {
		case command.TypeChannel:
			out[name] = guild.ChannelID("races")
		case command.TypeRole:
			out[name] = guild.RoleID("Coach")
		case "rider":
			out[name] = "Ines"
		}
	}
	return out
}

// sees keeps clubs apart: nobody may read of another club's people and races.
func (m *matrix) sees(who, what, text string) {
	m.t.Helper()
	foreign := []string{"Otto", "Harbour Sprint", "Harbour Dawn"}
	if who == "other club" {
		foreign = []string{"Ines", "Lena", "Mira", "Vale Crit", "Dawn Crit"}
	}
	for _, name := range foreign {
		if strings.Contains(text, name) {
			m.t.Errorf("%s reads of %s in %s:\n%s", who, name, what, text)
		}
	}
}

// notOffered tells that Discord itself does not offer a command in direct messages.
func notOffered(err error) bool {
	return err != nil && strings.Contains(err.Error(), "is not offered in context")
}

// commands is who may give which command.
func (m *matrix) commands(c *command.Command, who string) string {
	i, err := m.double.Command(m.at[who], c.Name, m.optionsOf(c, who))
	if notOffered(err) {
		return "no: in the server"
	}
	a := m.await(i, err)
	if a.Modal != nil {
		return "yes"
	}
	m.sees(who, "/"+c.Name, a.Text())
	return verdict(a.Text())
}

// buttons is who may press a button of the club that gives the command, for somebody or for
// nobody in particular, as digests have. Everybody gets one where they are: those of the
// club in its server or in direct messages, the other club in its own server.
func (m *matrix) buttons(c *command.Command, who, owner string, direct bool) string {
	message, kept := m.earlier[buttonOf{c.Name, owner}]
	if who != "left" || !kept {
		message = m.posted(c, who, owner, direct)
	}
	a := m.await(m.double.Press(m.at[who], message, "Press"))
	if a.Modal != nil {
		return "yes"
	}
	m.sees(who, "a button of /"+c.Name, a.Text())
	return verdict(a.Text())
}

// posted is a message with a button that gives a command.
func (m *matrix) posted(c *command.Command, who, owner string, direct bool) discordtest.Message {
	options := map[string]string{}
	for name, value := range m.optionsOf(c, who) {
		switch o, _ := c.Option(name); o.Type {
		case command.TypeChannel:
			value = "<#" + value.(string) + ">"
		case command.TypeRole:
			value = "<@&" + value.(string) + ">"
		}
		options[name] = value.(string)
	}
	channel := m.club.ChannelID("general")
	switch {
	case direct || m.at[who].Guild == "":
		channel = m.double.DM(m.at[who].User)
	case who == "other club":
		channel = m.other.ChannelID("races")
	}
	rows, err := m.app.buttons.rows(m.t.Context(), owner, m.club.ID, []say.Button{{Label: "Press", Command: c.Name, Options: options}})
	if err != nil {
		m.t.Fatal(err)
	}
	id, err := m.app.api.Send(m.within(), channel, m.app.renderer().messages(say.Reply{Lines: []say.Line{say.Linef("Here it is.")}}, rows)[0])
	if err != nil {
		m.t.Fatal(err)
	}
	sent := m.double.Sent(channel)
	return sent[slices.IndexFunc(sent, func(s discordtest.Message) bool { return s.ID == id })]
}

// offers is what a person is offered while an option of a command is typed.
func (m *matrix) offers(c *command.Command, o *command.Option, who string) string {
	i, err := m.double.Autocomplete(m.at[who], c.Name, map[string]any{o.Name: ""}, o.Name)
	if notOffered(err) {
		return "nothing"
	}
	a := m.await(i, err)
	var all []string
	for _, choice := range a.Choices {
		all = append(all, fmt.Sprint(choice.Value))
	}
	text := strings.Join(all, "\n")
	m.sees(who, "offers of /"+c.Name, text)
	switch {
	case strings.Contains(text, "Dawn") && len(all) == 1:
		return "the race that has begun"
	case strings.Contains(text, "Hill Loop"), strings.Contains(text, "Vale Crit"), strings.Contains(text, "Harbour Sprint"):
		return "races"
	case text == map[string]string{"rider": "Ines", "direct message": "Ines", "other club": "Otto", "manager": "Admin", "stranger": "Stefan"}[who] && text != "":
		return "own name"
	case strings.Contains(text, "Ines"), strings.Contains(text, "Otto"):
		return "riders"
	case len(all) == 0:
		return "nothing"
	}
	return "common values"
}

// permissionPage is the part of docs/commands.md on who may do what, a line for each command or option.
type permissionPage struct {
	*matrix
	bytes.Buffer
}

// table asks for each command or option as everybody. Commands of a kind have one
// verdict; what is offered for options of a kind depends on what the person has stored.
func (p *permissionPage) table(title, first, second string, columns []string, ask func(line func(name, kind string, cell func(who string) string))) {
	fmt.Fprintf(p, "\n### %s\n\n| %s | %s | %s |\n|%s\n", title, first, second, strings.Join(columns, " | "), strings.Repeat("---|", len(columns)+2))
	type ofKind struct{ kind, who string }
	usual := map[ofKind]string{}
	ask(func(name, kind string, cell func(who string) string) {
		fmt.Fprintf(p, "| %s | %s |", name, kind)
		for _, who := range columns {
			verdict := cell(who)
			if was, seen := usual[ofKind{kind, who}]; seen && was != verdict && first != "option" {
				p.t.Errorf("%s: %s is not like the others %s for %s: %s, not %s", title, name, kind, who, verdict, was)
			}
			usual[ofKind{kind, who}] = verdict
			fmt.Fprintf(p, " %s |", verdict)
		}
		p.WriteByte('\n')
	})
}

// offered names what an option offers.
var offered = map[command.Complete]string{
	command.CompleteRace: "a race", command.CompleteRaces: "a list of races", command.CompleteRaceOver: "a race that has begun",
	command.CompleteRaceJoin: "a race of others", command.CompleteDay: "a day ahead", command.CompleteDayOver: "a day that is over",
	command.CompleteZone: "a time zone", command.CompleteRider: "a rider", command.CompleteOffers: "a common value",
}

// Who may do what is a part of docs/commands.md, made by asking for everything as everybody.
func TestPermissions(t *testing.T) {
	p := permissionPage{matrix: newMatrix(t)}
	p.WriteString(permissionsHead)
	commands := triedByAll()
	each := func(do func(c *command.Command)) {
		for i := range commands {
			if commands[i].Name != "me erase" || len(p.optionsOf(&commands[i], "rider")) == 0 { // which asks before it erases
				do(&commands[i])
			}
		}
	}
	p.table("Who may give a command", "command", "is", personas, func(line func(string, string, func(string) string)) {
		each(func(c *command.Command) {
			line("/"+c.Name, kindOf(c), func(who string) string { return p.commands(c, who) })
		})
	})
	// Buttons of answers are for who asked, those of digests for coaches.
	ines := p.club.UserID("Ines")
	for _, kind := range []struct {
		title  string
		owner  func(who string) string
		direct bool
	}{
		{"Buttons of a rider's answer", func(string) string { return ines }, false},
		{"Buttons of a digest", func(string) string { return "" }, false},
		{"Buttons of one's own direct messages", func(who string) string { return p.at[who].User }, true},
	} {
		p.table(kind.title, "gives", "is", personas, func(line func(string, string, func(string) string)) {
			each(func(c *command.Command) {
				if kind.owner("rider") != "" || forNobody(c) {
					line("/"+c.Name, kindOf(c), func(who string) string { return p.buttons(c, who, kind.owner(who), kind.direct) })
				}
			})
		})
	}
	p.table("Offers while an option is typed", "option", "is for", personas, func(line func(string, string, func(string) string)) {
		each(func(c *command.Command) {
			for i := range c.Options {
				if o := &c.Options[i]; o.Complete != command.CompleteNothing {
					line("/"+c.Name+" "+o.Name, offered[o.Complete], func(who string) string { return p.offers(c, o, who) })
				}
			}
		})
	})
	if rounds.Raced {
		notice.Unchecked("%d of %d commands given by everybody, and the page on that, under the race detector (go test checks all)", len(bot.Commands())-len(commands), len(bot.Commands()))
		return
	}
	what, _ := referenceParts(t)
	keepReference(t, what, p.String())
}

const permissionsHead = permissionMark + `
A test gives every command, presses a button of every command and asks for the offers of every option, as everybody. In each table commands of one kind have the same answers, and the test holds that too.

- **rider** and **stranger** are members of the club's server; the bot knows something of the rider and nothing of the stranger. **coach** has the role that the club set; **manager** may manage the server; **other club** asks in the server of another club;
  **direct message** is the rider, there; **left** is a rider who left the server, in direct messages.
- Everybody presses a button where they are: in the club's server, in direct messages, or in the server of the other club, though Discord shows none of this club's buttons there. In one's own direct messages the button is for whoever presses it.
- **yes**: the bot carries the request out, or refuses it for what it says. **no** names who may, or where.
- Nobody ever reads of another club's people and races. The test looks for them in each answer.
`
