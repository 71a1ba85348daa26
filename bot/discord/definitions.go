package discord

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/discord/api"
	"musette/planner"
)

// Numbers of Discord's documentation of application commands.
// Source: https://discord.com/developers/docs/interactions/application-commands
const (
	commandSlash = 1

	optionSubcommand = 1
	optionText       = 3
	optionUser       = 6
	optionChannel    = 7
	optionRole       = 8

	channelTypeText = 0
	channelTypeNews = 5

	contextServer = 0
	contextDirect = 1

	installServer = 0
)

// manageServer is the right Manage Server as Discord writes it. It only decides who
// sees a command: an administrator can open it to a role under Server Settings,
// Integrations, so the bot checks rights at each call anyway.
const manageServer = "32"

// definition is an application command as Discord is told it.
type definition struct {
	Name        string             `json:"name"`
	Description string             `json:"description"`
	Type        int                `json:"type"`
	Options     []definitionOption `json:"options,omitempty"`
	Permissions *string            `json:"default_member_permissions"` // null: everybody
	Contexts    []int              `json:"contexts"`
	Installs    []int              `json:"integration_types"`
}

// definitionOption is an option, or a subcommand with its options.
type definitionOption struct {
	Type         int                `json:"type"`
	Name         string             `json:"name"`
	Description  string             `json:"description"`
	Required     bool               `json:"required,omitempty"`
	Choices      []definitionChoice `json:"choices,omitempty"`
	Autocomplete bool               `json:"autocomplete,omitempty"`
	MaxLength    int                `json:"max_length,omitempty"` // characters
	ChannelTypes []int              `json:"channel_types,omitempty"`
	Options      []definitionOption `json:"options,omitempty"`
}

type definitionChoice struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// groupTexts describe the groups, where the heading of their commands does not say
// enough. Discord wants such texts but hardly shows them.
var groupTexts = map[string]string{
	"race":   "Your races: add, change or remove them, and see the club's calendar",
	"week":   "The usual week that your plans are made from",
	"plan":   "Your plan up to a race: see it, ask why, swap two days",
	"season": "Your tapers over the whole season: what they cost, and a better choice",
	"taper":  "What your tapers have taught",
	"tell":   "Tell what changes your days: away, short of time, a training block",
	"coach":  "Your riders at a glance, for the club's coaches",
	"me":     "What the bot knows about you, and your settings",
	"club":   "How the club is set up on this server",
}

// definitions are the commands of the table as Discord's: one for each group, the
// group's commands below it. A table that Discord cannot hold is a fault of the
// program and panics.
func definitions(commands []command.Command) []definition {
	var names []string
	groups := make(map[string][]command.Command)
	for _, c := range commands {
		group := c.Group()
		if groups[group] == nil {
			names = append(names, group)
		}
		groups[group] = append(groups[group], c)
	}
	out := make([]definition, len(names))
	for i, name := range names {
		out[i] = groupDefinition(name, groups[name])
	}
	return out
}

func groupDefinition(name string, commands []command.Command) definition {
	d := definition{Name: name, Type: commandSlash, Contexts: []int{contextServer}, Installs: []int{installServer}}
	if !allOf(commands, func(c command.Command) bool { return c.Club }) {
		d.Contexts = append(d.Contexts, contextDirect)
	}
	if allOf(commands, func(c command.Command) bool { return c.Admin }) { // else it would hide what is for everybody
		permissions := manageServer
		d.Permissions = &permissions
	}
	if len(commands) == 1 && commands[0].Name == name {
		d.Description = commands[0].Description
		d.Options = definitionOptions(&commands[0])
		return d
	}
	if d.Description = groupTexts[name]; d.Description == "" {
		d.Description = commands[0].Task
	}
	for _, c := range commands {
		_, sub, _ := strings.Cut(c.Name, " ")
		if sub == "" || strings.Contains(sub, " ") {
			panic("command /" + c.Name + " has no place in the group /" + name)
		}
		d.Options = append(d.Options, definitionOption{Type: optionSubcommand, Name: sub,
			Description: c.Description, Options: definitionOptions(&c)})
	}
	return d
}

// definitionOptions are a command's options, required ones first. What a form
// asks for is not required: without it the form opens.
func definitionOptions(c *command.Command) []definitionOption {
	var required, optional []definitionOption
	for _, o := range c.Options {
		d := definitionOption{Name: o.Name, Description: o.Description, Required: o.Required && o.Or == "" && o.Name != c.Form}
		d.setType(&o)
		if d.Required {
			required = append(required, d)
		} else {
			optional = append(optional, d)
		}
	}
	return append(required, optional...)
}

// setType makes everything but channels, roles and members a text, numbers too: the bot
// reads what people write, such as 3h30, 13 June or none.
func (d *definitionOption) setType(o *command.Option) {
	switch {
	case o.Type == command.TypeChannel:
		d.Type, d.ChannelTypes = optionChannel, []int{channelTypeText, channelTypeNews}
		return
	case o.Type == command.TypeRole:
		d.Type = optionRole
		return
	case o.Type == command.TypeMember:
		d.Type = optionUser
		return
	}
	d.Type = optionText
	for _, choice := range o.Choices {
		d.Choices = append(d.Choices, definitionChoice{choice, choice})
	}
	if d.Choices != nil {
		return
	}
	d.Autocomplete = o.Complete != command.CompleteNothing
	if d.MaxLength = o.MaxLen; d.MaxLength == 0 {
		d.MaxLength = planner.MaxText
	}
}

func allOf(commands []command.Command, is func(command.Command) bool) bool {
	return !slices.ContainsFunc(commands, func(c command.Command) bool { return !is(c) })
}

// commandIDs are the numbers that Discord gave the top-level commands, by name.
type commandIDs map[string]string

// mention is a command ("race add") in the form that can be clicked; "" where its
// number is not known.
func (ids commandIDs) mention(command string) string {
	top, _, _ := strings.Cut(command, " ")
	id := ids[top]
	if id == "" {
		return ""
	}
	return "</" + command + ":" + id + ">"
}

// syncCommands compares the commands that Discord has with want and replaces all
// of them where they differ. Changed tells that they were replaced, even when
// reading their numbers afterwards failed.
func syncCommands(ctx context.Context, c *api.Client, appID string, want []definition) (ids commandIDs, changed bool, err error) {
	stored, err := c.Commands(ctx, appID)
	if err != nil {
		return nil, false, fmt.Errorf("read commands: %w", err)
	}
	if sameCommands(stored, want) {
		return idsOf(stored), false, nil
	}
	if err := c.PutCommands(ctx, appID, want); err != nil {
		return nil, false, fmt.Errorf("replace commands: %w", err)
	}
	stored, err = c.Commands(ctx, appID)
	if err != nil {
		return nil, true, fmt.Errorf("read replaced commands: %w", err)
	}
	return idsOf(stored), true, nil
}

// sameCommands compares all that we send; what Discord adds does not count, nor
// does the order of the commands.
func sameCommands(stored []json.RawMessage, want []definition) bool {
	have := make([]string, len(stored))
	for i, raw := range stored {
		var d definition
		if err := json.Unmarshal(raw, &d); err != nil {
			return false // not of the kind that we send
		}
		have[i] = d.canonical()
	}
	wanted := make([]string, len(want))
	for i, d := range want {
		wanted[i] = d.canonical()
	}
	slices.Sort(have)
	slices.Sort(wanted)
	return slices.Equal(have, wanted)
}

// canonical is the same text for definitions that mean the same: lists without
// an order are sorted, defaults filled in, empty and missing made one.
func (d definition) canonical() string {
	d.Type = cmp.Or(d.Type, commandSlash)
	d.Contexts = slices.Sorted(slices.Values(d.Contexts))
	d.Installs = slices.Sorted(slices.Values(d.Installs))
	d.Options = canonicalOptions(d.Options)
	text, _ := json.Marshal(d) // texts, numbers and lists of them always marshal
	return string(text)
}

func canonicalOptions(options []definitionOption) []definitionOption {
	out := slices.Clone(options)
	for i := range out {
		out[i].ChannelTypes = slices.Sorted(slices.Values(out[i].ChannelTypes))
		out[i].Options = canonicalOptions(out[i].Options)
	}
	return out
}

func idsOf(stored []json.RawMessage) commandIDs {
	ids := make(commandIDs, len(stored))
	for _, raw := range stored {
		var c struct {
			ID   string `json:"id"`
			Name string `json:"name"`
			Type int    `json:"type"`
		}
		if err := json.Unmarshal(raw, &c); err == nil && cmp.Or(c.Type, commandSlash) == commandSlash {
			ids[c.Name] = c.ID
		}
	}
	return ids
}

// isPublic reports whether the whole club may read the answer to a command.
func isPublic(name string) bool {
	cmd, ok := commandNamed(name)
	return ok && cmd.Public
}

// isAnywhere reports whether a command works for people who are in no club.
func isAnywhere(name string) bool {
	cmd, ok := commandNamed(name)
	return ok && cmd.Anywhere
}

func commandNamed(name string) (command.Command, bool) {
	for _, cmd := range bot.Commands() {
		if cmd.Name == name {
			return cmd, true
		}
	}
	return command.Command{}, false
}

func isForCoaches(command string) bool {
	cmd, ok := commandNamed(command)
	return ok && cmd.Coach
}
