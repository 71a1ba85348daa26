package discord

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/bot/discord/api"
	"musette/bot/say"
	"musette/storage"
)

// What a press asks for.
const (
	actionCommand = "command" // give the command
	actionForm    = "form"    // show the command's form; of a form: what it was made for
	actionKeep    = "keep"    // leave everything as it is
	actionClub    = "club"    // direct messages are about this club
)

// errStale is a custom id that says nothing any more: of another version,
// garbage, or of a button that is kept no longer.
var errStale = errors.New("this button is too old")

// press is what a custom id says. None of it is trusted: who may press and
// what the options mean is checked by those who act on it.
type press struct {
	Action  string
	Owner   string // id of the user whom the button was made for; empty: each coach
	Guild   string // id of the server whose club it is about; empty: of none
	Command string
	Options map[string]string
	Club    storage.ClubID
	Mark    string // of the post that the button is on; empty: of none
}

// buttonStore keeps what custom ids have no room for.
type buttonStore interface {
	SaveButton(ctx context.Context, id string, b storage.Button) error
	FindButton(ctx context.Context, id string) (storage.Button, error)
}

// buttons writes and reads custom ids. An id is a head, owner and server (each a
// number to the base 36), and a body, parted by full stops. The head is the version, the action and a letter that
// makes it the only one of its message, and of a post its mark; the body is the command with its
// options, or the key under which the store has them.
type buttons struct{ store buttonStore }

const idVersion = "1"

// Letters of the actions in a head; a capital one says that the body is a key.
var actionLetters = map[string]byte{actionCommand: 'c', actionForm: 'f', actionKeep: 'k', actionClub: 'm'}

// below is what a person may press below a reply: its menu or its buttons.
func (b buttons) below(ctx context.Context, owner, guild string, reply say.Reply) ([]api.Component, error) {
	if reply.Menu == "" {
		return b.rows(ctx, owner, guild, reply.Buttons)
	}
	menu := api.Component{Type: api.ComponentSelect, CustomID: menuID, Placeholder: cut(reply.Menu, maxSelectHint)}
	for i, choice := range reply.Buttons[:min(len(reply.Buttons), maxOptions)] {
		id, err := b.id(ctx, press{Action: actionCommand, Owner: owner, Guild: guild, Command: choice.Command, Options: choice.Options}, i)
		if err != nil {
			return nil, err
		}
		menu.Options = append(menu.Options, api.Option{Label: cut(choice.Label, maxOptionText), Value: id, Description: cut(choice.Detail, maxOptionText)})
	}
	return []api.Component{{Type: api.ComponentRow, Components: []api.Component{menu}}}, nil
}

// menuID is the custom id of a menu. It says nothing: each choice has an id of its own.
const menuID = "menu"

// rows are the buttons of a reply, five in a row and at most five rows.
func (b buttons) rows(ctx context.Context, owner, guild string, list []say.Button) ([]api.Component, error) {
	return b.marked(ctx, press{Owner: owner, Guild: guild}, list)
}

// marked are the buttons of a post, or of an answer, with what all have in common.
func (b buttons) marked(ctx context.Context, common press, list []say.Button) ([]api.Component, error) {
	var out []api.Component
	primary := false
	for i, button := range list[:min(len(list), maxRows*maxRowButtons)] {
		action := actionCommand
		switch {
		case button.Command == "":
			action = actionKeep
		case button.Form:
			action = actionForm
		}
		p := common
		if button.Anybody {
			p.Owner = ""
		}
		p.Action, p.Command, p.Options = action, button.Command, button.Options
		id, err := b.id(ctx, p, i)
		if err != nil {
			return nil, err
		}
		c := api.Component{Type: api.ComponentButton, Label: cut(button.Label, maxButtonLabel), CustomID: id, Style: api.StyleSecondary}
		switch {
		case button.Danger:
			c.Style = api.StyleDanger
		case !primary:
			primary, c.Style = true, api.StylePrimary
		}
		out = append(out, c)
	}
	return inRows(out), nil
}

// inRows puts buttons into rows.
func inRows(list []api.Component) []api.Component {
	var rows []api.Component
	for five := range slices.Chunk(list, maxRowButtons) {
		rows = append(rows, api.Component{Type: api.ComponentRow, Components: five})
	}
	return rows
}

// formID is the custom id of the form of a command, with what else was given.
func (b buttons) formID(ctx context.Context, owner, guild, command string, options map[string]string) (string, error) {
	rest := maps.Clone(options)
	cmd, _ := commandNamed(command)
	delete(rest, cmd.Form)
	return b.id(ctx, press{Action: actionForm, Owner: owner, Guild: guild, Command: command, Options: rest}, 0)
}

// clubRows are the clubs of which direct messages can speak, a button each.
func (b buttons) clubRows(owner string, choice []storage.Club) []api.Component {
	var out []api.Component
	times := map[string]int{}
	for _, club := range choice {
		times[storage.Fold(club.Name)]++
	}
	for _, club := range choice[:min(len(choice), maxRows*maxRowButtons)] {
		label := club.Name
		if times[storage.Fold(label)] > 1 {
			label = head(label, 40) + ", here since " + club.Added.Format("2 Jan 2006, 15:04")
		}
		out = append(out, clubButton(owner, &club, label))
	}
	return inRows(out)
}

// clubButton chooses of which club direct messages speak.
func clubButton(owner string, club *storage.Club, label string) api.Component {
	guildID, _ := club.Key.ID(platform)
	id := idHead(actionClub, 0) + "." + short(owner) + "." + short(guildID) + "." + strconv.FormatInt(int64(club.ID), 10)
	return api.Component{Type: api.ComponentButton, Style: api.StyleSecondary, Label: cut(label, maxButtonLabel), CustomID: id}
}

// idHead is the head of the id of the button at a place in its message.
func idHead(action string, place int) string {
	return idVersion + string(actionLetters[action]) + string(rune('a'+place))
}

// id writes a custom id; what has no room in it goes to the store.
func (b buttons) id(ctx context.Context, p press, place int) (string, error) {
	if !isID(p.Owner) && !p.forCoaches() {
		return "", errors.New("a button needs an owner")
	}
	who := "." + short(p.Owner) + "." + short(p.Guild) + "."
	head, body := idHead(p.Action, place)+p.Mark, pack(p.Command, p.Options)
	if p.Action == actionKeep {
		body = ""
	}
	if id := head + who + body; length(id) <= maxCustomID && plainID(id) {
		return id, nil
	}
	key, kept := rand.Text(), storage.Button{Command: p.Command, Options: p.Options}
	if p.Owner != "" {
		kept.Owner = personKey(p.Owner) // it goes when they are erased
	}
	if err := b.store.SaveButton(ctx, key, kept); err != nil {
		return "", fmt.Errorf("keep a button: %w", err)
	}
	return strings.ToUpper(head[:2]) + head[2:] + who + key, nil
}

// isFormID reports, without the store, whether a press opens a form.
func isFormID(customID string) bool {
	return len(customID) > 1 && (customID[1]|0x20) == actionLetters[actionForm]
}

// plainID reports a text that comes back from Discord as it was.
func plainID(id string) bool {
	return utf8.ValidString(id) && !strings.ContainsFunc(id, func(r rune) bool { return !unicode.IsPrint(r) || r == ' ' })
}

// parse reads a custom id. Its errors are errStale and those of the store.
func (b buttons) parse(ctx context.Context, customID string) (press, error) {
	parts := strings.SplitN(customID, ".", 4)
	if len(parts) != 4 || len(parts[0]) != headLength && len(parts[0]) != headLength+markLength || parts[0][:1] != idVersion || length(customID) > maxCustomID {
		return press{}, errStale
	}
	p := press{Owner: long(parts[1]), Guild: long(parts[2]), Mark: parts[0][headLength:]}
	if p.Owner == "" && parts[1] != "" || p.Guild == "" && parts[2] != "" || strings.Trim(p.Mark, markLetters) != "" {
		return press{}, errStale
	}
	letter := parts[0][1]
	kept := letter >= 'A' && letter <= 'Z'
	if kept {
		letter += 'a' - 'A'
	}
	for action, l := range actionLetters {
		if l == letter {
			p.Action = action
		}
	}
	var err error
	switch body := parts[3]; {
	case p.Action == actionCommand || p.Action == actionForm:
		p.Command, p.Options, err = b.body(ctx, body, kept)
	case p.Action == actionKeep && body == "" && !kept:
	case p.Action == actionClub && !kept:
		var club int64
		if club, err = strconv.ParseInt(body, 10, 64); err != nil || club <= 0 {
			err = errStale
		}
		p.Club = storage.ClubID(club)
	default:
		err = errStale
	}
	if err == nil && p.Owner == "" && !p.forCoaches() {
		err = errStale
	}
	if err != nil {
		return press{}, err
	}
	return p, nil
}

// Of a head: its length without a mark, that of a mark, and what this is made of.
const (
	headLength  = 3
	markLength  = 8
	markLetters = "0123456789abcdefghijklmnopqrstuvwxyz"
)

// markIn is the mark in a custom id, "" where it has none.
func markIn(customID string) string {
	head, _, _ := strings.Cut(customID, ".")
	if len(head) < headLength {
		return ""
	}
	return head[headLength:]
}

// serverIn is the server that a custom id is about, "" where it is about none or is not ours.
func serverIn(customID string) string {
	parts := strings.SplitN(customID, ".", 4)
	if len(parts) != 4 {
		return ""
	}
	return long(parts[2])
}

// body reads the command and its options, from the store where they are kept there.
func (b buttons) body(ctx context.Context, body string, kept bool) (string, map[string]string, error) {
	if !kept {
		return unpack(body)
	}
	found, err := b.store.FindButton(ctx, body)
	if errors.Is(err, storage.ErrNotFound) {
		return "", nil, errStale
	}
	if err != nil {
		return "", nil, fmt.Errorf("find a button: %w", err)
	}
	if found.Options == nil {
		found.Options = map[string]string{}
	}
	return found.Command, found.Options, nil
}

// short writes one of Discord's numbers to the base 36; "" stays.
func short(id string) string {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil {
		return ""
	}
	return strconv.FormatUint(n, 36)
}

// long reads what short wrote; "" where it is no such number.
func long(text string) string {
	n, err := strconv.ParseUint(text, 36, 64)
	if err != nil || strconv.FormatUint(n, 36) != text {
		return ""
	}
	return strconv.FormatUint(n, 10)
}

// The separators of a body and its blank, which is written +.
var (
	packing   = strings.NewReplacer("~", "~0", "|", "~1", "=", "~2", "+", "~3", " ", "+")
	unpacking = strings.NewReplacer("~0", "~", "~1", "|", "~2", "=", "~3", "+", "+", " ")
)

// pack writes a command and its options in one word: race+remove|race=Hill+Loop.
func pack(command string, options map[string]string) string {
	parts := []string{packing.Replace(command)}
	for name, value := range options {
		parts = append(parts, packing.Replace(name)+"="+packing.Replace(value))
	}
	slices.Sort(parts[1:])
	return strings.Join(parts, "|")
}

// unpack reads what pack wrote.
func unpack(body string) (string, map[string]string, error) {
	parts := strings.Split(body, "|")
	options := make(map[string]string, len(parts)-1)
	for _, part := range parts[1:] {
		name, value, ok := strings.Cut(part, "=")
		name = unpacking.Replace(name)
		if _, twice := options[name]; !ok || twice {
			return "", nil, errStale
		}
		options[name] = unpacking.Replace(value)
	}
	if body == "" || parts[0] == "" {
		return "", nil, errStale
	}
	return unpacking.Replace(parts[0]), options, nil
}
