package ask

import (
	"regexp"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
)

// notYet is what every proposal says, until a button is pressed or somebody says yes.
const notYet = "Not saved yet."

var (
	saysYes  = regexp.MustCompile(`^(?:(?:ok|okay|oh|well|fine) )?(?:yes|yep|yeah|yup|ya|aye|do it|do that|go ahead|go on|go for it|please do|store it|save it|keep it|add it|note it|make it so|sure|of course|definitely|ok do it|yes do it|confirm|confirmed|correct|thats right|that is right)(?: (?:please|pls|plz|thanks|thank you|thx|ta|do it|do that|add it|go ahead|then|that is right|mate))*$`)
	saysNo   = regexp.MustCompile(`^(?:(?:ok|oh|sorry|actually) )?(?:no|nope|nah|naw|never mind|nevermind|forget it|leave it|dont|do not|cancel that|stop|not that one|not that|wrong)(?: (?:thanks|thank you|thx|please|mate|leave it|never mind|dont|do not|forget it|not that one|sorry|wrong))*$`)
	saysOk   = regexp.MustCompile(`^(?:ok|okay|fine|k|right|good|cool|alright|all right)$`)
	saysUndo = regexp.MustCompile(`^(?:(?:ok|oh|no|sorry|actually|please) )*(?:undo|take (?:it|that) back|undo (?:it|that))(?: (?:please|pls))?$`)
	saysOne  = regexp.MustCompile(`^(?:(?:the|number|option|as|its|it is|make it|an?|ok|call it) )*(first|second|third|last|1|2|3|[abc])(?: (?:one|race|please|pls|then))*$`)
)

// bareWords is a text in small letters, without signs.
func bareWords(text string) string {
	text = strings.NewReplacer("'", "", "\u2019", "").Replace(strings.ToLower(text))
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return !('a' <= r && r <= 'z' || '0' <= r && r <= '9') }), " ")
}

// Chosen is the button of the last reply that a plain line presses: by a yes to what was proposed,
// by its words, by its place or its letter.
func Chosen(b *desk.Base, req *desk.Request) (button say.Button, ok bool) {
	buttons, proposes := b.Talks.Buttons(req.Rider, req.Now)
	text := bareWords(req.Text)
	if len(buttons) == 0 || text == "" {
		return button, false
	}
	if i := slices.IndexFunc(buttons, func(b say.Button) bool { return bareWords(b.Label) == text }); i >= 0 {
		return buttons[i], true
	}
	if saysUndo.MatchString(text) {
		i := slices.IndexFunc(buttons, func(b say.Button) bool { return b.Label == "Undo" })
		return at(buttons, i)
	}
	if stored := changing(buttons); proposes && saysYes.MatchString(text) && len(stored) == 1 {
		return stored[0], true
	}
	if m := saysOne.FindStringSubmatch(text); m != nil && len(buttons) > 1 {
		return at(buttons, placeOf(m[1], buttons))
	}
	return button, false
}

// Waiting are the proposals beside the one of the last reply that a plain line presses.
func Waiting(b *desk.Base, req *desk.Request, pressed say.Button) []say.Button {
	buttons, proposes := b.Talks.Buttons(req.Rider, req.Now)
	if !proposes || !changes[pressed.Command] {
		return nil
	}
	return slices.DeleteFunc(changing(buttons), func(b say.Button) bool { return !besides(b.Command, pressed.Command) })
}

// besides reports whether two proposals are made side by side, as a week and a race are. Most others are two ways
// to store one thing.
func besides(a, b string) bool {
	roomA, _, _ := strings.Cut(a, " ")
	roomB, _, _ := strings.Cut(b, " ")
	return roomA != roomB && (a == "race add" || a == "week share" || b == "race add" || b == "week share")
}

// StillWaits adds proposals that are not stored yet to a reply.
func StillWaits(reply *say.Reply, waiting []say.Button) {
	var names []string
	for _, button := range waiting {
		names = append(names, button.Label)
	}
	reply.Addf("%s Still to answer: %s.", notYet, strings.Join(names, ", "))
	reply.Buttons = append(waiting[:len(waiting):len(waiting)], reply.Buttons...)
}

func at(buttons []say.Button, i int) (say.Button, bool) {
	if i < 0 || i >= len(buttons) {
		return say.Button{}, false
	}
	return buttons[i], true
}

// placeOf is which of several buttons a word means, -1 for none. Places count where it was asked which is meant.
func placeOf(word string, buttons []say.Button) int {
	if len(word) == 1 && word >= "a" {
		return slices.IndexFunc(buttons, func(b say.Button) bool { return strings.HasSuffix(bareWords(b.Label), " as "+word) })
	}
	if slices.ContainsFunc(buttons, func(b say.Button) bool { return b.Command != Name }) {
		return -1
	}
	if word == "last" {
		return len(buttons) - 1
	}
	return map[string]int{"first": 0, "1": 0, "second": 1, "2": 1, "third": 2, "3": 2}[word]
}

// changing are the buttons that store something.
func changing(buttons []say.Button) (out []say.Button) {
	for _, b := range buttons {
		if changes[b.Command] && b.Label != "Undo" {
			out = append(out, b)
		}
	}
	return out
}

// changes are the commands that are proposed.
var changes = map[string]bool{"tell away": true, "tell limit": true, "tell missed": true, "tell block": true, "tell sick": true, "tell injured": true, "tell well": true, "done": true,
	"race add": true, "race change": true, "race remove": true, "race priority": true, "week share": true, "plan move": true}

// Proposes reports a reply that proposes to store something.
func Proposes(r say.Reply) bool {
	return len(changing(r.Buttons)) > 0 && strings.Contains(r.Text(), notYet)
}

// barely answers a yes, a no or an ok that presses no button.
func (t *talk) barely(text string) (say.Reply, bool) {
	text = bareWords(text)
	buttons, proposed := t.base.Talks.Buttons(t.req.Rider, t.req.Now)
	yes, no := saysYes.MatchString(text), saysNo.MatchString(text)
	switch {
	case proposed && (yes || saysOk.MatchString(text)):
		reply := say.Reply{Topic: topicUnknown, Buttons: buttons}
		if len(changing(buttons)) > 1 {
			reply.Addf("%s Which of them do you mean? Press it, or say its name.", notYet)
		} else {
			reply.Addf("%s Say yes, or press the button, and I store it.", notYet)
		}
		return reply, true
	case no && (proposed || text == "no" || text == "nope" || t.last == nil || t.last.Race == nil):
		return t.plainly("All right: I store nothing and change nothing."), true
	case yes && text != "correct" && text != "sure":
		return t.plainly("I have proposed nothing that waits for a yes."), true
	case saysUndo.MatchString(text):
		return t.plainly("There is nothing here that I can take back. Each answer that stores something has a button Undo."), true
	}
	return say.Reply{}, false
}
