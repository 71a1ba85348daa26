package discord

import (
	"musette/bot/command"
	"musette/bot/discord/api"
)

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
