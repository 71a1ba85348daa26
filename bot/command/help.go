package command

import (
	"strings"

	"musette/bot/say"
)

// Help is the description with the choices, where it does not name them itself.
func (o *Option) Help() string {
	text := o.Description
	for _, c := range o.Choices {
		if !strings.Contains(text, c) {
			return text + " (" + say.OrList(o.Choices) + ")"
		}
	}
	return text
}
