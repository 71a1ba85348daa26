package discord

import (
	"encoding/json"
	"strings"
	"testing"

	"musette/bot/command"
	"musette/bot/discord/api"
	"musette/bot/discord/discordtest/lint"
)

// lintModal checks a form as the answer to an interaction.
func lintModal(t *testing.T, m api.Modal) {
	t.Helper()
	body, err := json.Marshal(map[string]any{"type": api.AnswerModal, "data": m})
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range lint.Lint("POST", "/api/v10/interactions/1/token/callback", body, nil) {
		t.Errorf("lint: %s", fault)
	}
}

func TestFormOfTheWeek(t *testing.T) {
	k := newTalker(t)
	k.who.Command = "week share"
	form, err := k.bot.Form(t.Context(), k.who)
	if err != nil {
		t.Fatal(err)
	}
	m := modal(form, "1fa.901.week+share")
	lintModal(t, m)
	label := m.Components[0]
	if m.Title != form.Title || m.CustomID != "1fa.901.week+share" || label.Type != api.ComponentLabel || label.Label != form.Label || label.Description != form.Hint {
		t.Errorf("got %+v", m)
	}
	input := label.Component
	if input.Type != api.ComponentTextInput || input.Style != api.InputParagraph || input.CustomID != "week" || input.Value != form.Text ||
		input.MaxLength != form.MaxLen || !*input.Required || input.Label != "" {
		t.Errorf("got %+v", input)
	}
}

func TestFormIsBroughtWithinLimits(t *testing.T) {
	huge := strings.Repeat("x🚴", 3000)
	for most, want := range map[int]int{0: 4000, 5000: 4000, 9: 9} {
		m := modal(command.Form{Option: "week", Title: huge, Label: huge, Hint: huge, Text: huge, MaxLen: most}, "1fa.901.week+share")
		lintModal(t, m)
		label := m.Components[0]
		for text, limit := range map[string]int{m.Title: 45, label.Label: 45, label.Description: 100, label.Component.Value: want} {
			if n := units(text); n > limit || n < limit-2 {
				t.Errorf("got %d of %d", n, limit)
			}
		}
		if label.Component.MaxLength != want {
			t.Errorf("got max_length %d, want %d", label.Component.MaxLength, want)
		}
	}
}

func TestFitModal(t *testing.T) {
	m := api.Modal{CustomID: "x", Title: "x"}
	for _, id := range []string{"a", "b", "c", "d", "e", "f"} {
		m.Components = append(m.Components, api.Component{Type: api.ComponentLabel, Label: "x", Description: strings.Repeat("x", 101),
			Component: &api.Component{Type: api.ComponentTextInput, Style: api.InputParagraph, CustomID: id, Placeholder: strings.Repeat("x", 101)}})
	}
	fitModal(&m)
	lintModal(t, m)
	if n := len(m.Components); n != 5 || len(m.Components[4].Description) != 100 || len(m.Components[4].Component.Placeholder) != 100 {
		t.Errorf("got %d components, the last %+v", n, m.Components[n-1])
	}
}
