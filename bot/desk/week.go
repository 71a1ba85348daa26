package desk

import (
	"musette/bot/say"
)

// NeedWeek asks for the typical week without which nothing can be planned.
func (r *Request) NeedWeek() say.Reply {
	return say.Reply{Buttons: r.WeekForm(), Lines: []say.Line{say.Linef("No plan yet: I do not know your typical week."),
		say.Linef("Share it, for example"), say.Linef(`/week share week:"` + ExampleWeek + `"`)}}
}

// WeekForm is the button that opens the form of the typical week, where there are forms.
func (r *Request) WeekForm() []say.Button {
	if !r.Forms {
		return nil
	}
	return []say.Button{{Label: "Share my week", Command: "week share", Form: true}}
}
