package discord

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"musette/bot/command"
	"musette/bot/discord/api"
	"musette/bot/say"
)

// units is a length in UTF-16, counted by encoding.
func units(s string) int { return len(utf16.Encode([]rune(s))) }

// withinLimits checks a message against the numbers of Discord's documentation,
// each written out here.
func withinLimits(t *testing.T, m *api.Message) {
	t.Helper()
	short := func(what, s string, most int) {
		t.Helper()
		if units(s) > most {
			t.Errorf("%s has %d of %d", what, units(s), most)
		}
	}
	few := func(what string, n, most int) {
		t.Helper()
		if n > most {
			t.Errorf("%d %s, at most %d", n, what, most)
		}
	}
	short("content", m.Content, 2000)
	short("nonce", m.Nonce, 25)
	few("embeds", len(m.Embeds), 10)
	few("rows", len(m.Components), 5)
	few("files", len(m.Files), 10)
	few("attachments", len(m.Attachments), len(m.Files))
	few("users", len(m.AllowedMentions.Users), 100)
	if m.AllowedMentions.Parse == nil || len(m.AllowedMentions.Parse) > 0 {
		t.Errorf("parse is %v", m.AllowedMentions.Parse)
	}
	for _, a := range m.Attachments {
		short("alt text", a.Description, 1024)
	}
	sum := 0
	for _, e := range m.Embeds {
		short("title", e.Title, 256)
		short("description", e.Description, 4096)
		few("fields", len(e.Fields), 25)
		sum += units(e.Title) + units(e.Description)
		for _, f := range e.Fields {
			short("field name", f.Name, 256)
			short("field value", f.Value, 1024)
			sum += units(f.Name) + units(f.Value)
		}
	}
	few("units in all embeds", sum, 6000)
	ids := map[string]bool{}
	for _, row := range m.Components {
		few("buttons in a row", len(row.Components), 5)
		for _, b := range row.Components {
			short("label", b.Label, 80)
			short("custom id", b.CustomID, 100)
			short("placeholder", b.Placeholder, 150)
			few("choices", len(b.Options), 25)
			if b.Label == "" && len(b.Options) == 0 || b.CustomID == "" || ids[b.CustomID] {
				t.Errorf("button %q has no face or no id of its own: %q", b.Label, b.CustomID)
			}
			ids[b.CustomID] = true
		}
	}
}

func TestFitMessage(t *testing.T) {
	for _, unit := range []string{"x", "é", "🚴", "x🚴"} {
		huge := strings.Repeat(unit, 9000)
		m := api.Message{Content: huge, Nonce: huge, AllowedMentions: api.Mentions{Users: make([]string, 200)}}
		for i := range 12 {
			e := api.Embed{Title: huge, Description: huge}
			if i == 0 {
				e.Description = "short"
			}
			for range 30 {
				e.Fields = append(e.Fields, api.EmbedField{Name: "n" + huge, Value: huge})
			}
			m.Embeds = append(m.Embeds, e)
			m.Files = append(m.Files, api.File{Name: fmt.Sprint(i)})
			m.Attachments = append(m.Attachments, api.Attachment{ID: i, Description: huge})
			row := api.Component{Type: api.ComponentRow}
			for j := range 7 {
				row.Components = append(row.Components, api.Component{Type: api.ComponentButton, Style: 1, Label: huge, CustomID: fmt.Sprint(i, j)})
			}
			m.Components = append(m.Components, row)
		}
		m.Components[1].Components[0].CustomID = huge
		m.Components[1].Components[1].Label = " "
		m.Components[1].Components[2].CustomID = m.Components[0].Components[0].CustomID
		fit(&m)
		withinLimits(t, &m)
		lints(t, &m)
		if len(m.Components) != 5 || len(m.Components[0].Components) != 5 || len(m.Components[1].Components) != 4 {
			t.Errorf("buttons got lost: %d rows, %d and %d buttons", len(m.Components), len(m.Components[0].Components), len(m.Components[1].Components))
		}
		if units(m.Content) < 1990 || len(m.Files) != 10 || len(m.Embeds) < 2 || units(m.Components[0].Components[0].Label) < 78 {
			t.Errorf("more than needed was cut: content %d, %d files, %d embeds", units(m.Content), len(m.Files), len(m.Embeds))
		}
	}
}

// What is too large or one too many is left out and told; the rest goes out.
func TestFilesThatAreTooLarge(t *testing.T) {
	const mib = 1 << 20
	file := func(name string, size int) say.File {
		return say.File{Name: name, Type: "image/png", Data: make([]byte, size)}
	}
	var eleven []say.File
	for i := range 11 {
		eleven = append(eleven, file(fmt.Sprintf("ride %d.ics", i), 1))
	}
	for name, test := range map[string]struct {
		files []say.File
		sent  int
		told  string // in the embed
	}{
		"as large as may be": {[]say.File{file("plan.png", 10*mib)}, 1, ""},
		"a byte too many":    {[]say.File{file("plan.png", 10*mib+1), file("season.png", 9)}, 1, "plan.png is too large to send."},
		"all too large":      {[]say.File{file("my_plan.png", 11*mib), file("b.png", 12*mib)}, 0, `my\_plan.png is too large to send.` + "\nb.png is too large to send."},
		"together too large": {[]say.File{file("a.png", 10*mib), file("b.png", 10*mib), file("c.png", 5*mib), file("d.png", mib)}, 3, "c.png is too large to send."},
		"one too many":       {eleven, 10, "ride-10.ics is left out: one message takes 10 files."},
	} {
		m := rendered(t, say.Reply{Lines: said("Your plan.", "The reason."), Files: test.files})[0]
		want := strings.TrimLeft(test.told+"\nThe reason.", "\n")
		if len(m.Files) != test.sent || len(m.Attachments) != test.sent || m.Embeds[0].Description != want {
			t.Errorf("%s: %d files, %d attachments and %q; want %d and %q", name, len(m.Files), len(m.Attachments), m.Embeds[0].Description, test.sent, want)
		}
		sum := 0
		for _, f := range m.Files {
			sum += len(f.Data)
		}
		if sum > 25*mib-128<<10 {
			t.Errorf("%s: %d bytes leave no room for the message", name, sum)
		}
	}
	long := rendered(t, say.Reply{Lines: longLines(300), Files: eleven})[0]
	if len(long.Files) != 10 || long.Files[0].Name != "answer.txt" || !strings.Contains(long.Embeds[0].Description, "ride-9.ics is left out") {
		t.Errorf("a long text with files: %d files, %.200q", len(long.Files), long.Embeds[0].Description)
	}
}

// A menu keeps 25 choices that can be told apart, alone in its row.
func TestFitMenu(t *testing.T) {
	for _, unit := range []string{"x", "🚴"} {
		huge := strings.Repeat(unit, 300)
		menu := api.Component{Type: api.ComponentSelect, CustomID: "menu", Placeholder: huge}
		for i := range 28 {
			menu.Options = append(menu.Options, api.Option{Label: fmt.Sprint(i) + huge, Value: fmt.Sprint(i), Description: huge})
		}
		menu.Options[1].Value, menu.Options[2].Value, menu.Options[3].Label = huge, "0", " "
		button := api.Component{Type: api.ComponentButton, Style: 1, Label: "Undo", CustomID: "undo"}
		row := func(inner ...api.Component) api.Component {
			return api.Component{Type: api.ComponentRow, Components: inner}
		}
		m := api.Message{Content: "x", Components: []api.Component{row(menu, button), row(button, menu), row(menu), row(api.Component{Type: api.ComponentSelect, CustomID: "none"})}}
		fit(&m)
		withinLimits(t, &m)
		lints(t, &m)
		if len(m.Components) != 2 || len(m.Components[0].Components) != 1 || len(m.Components[0].Components[0].Options) != 25 || m.Components[1].Components[0].CustomID != "undo" {
			t.Errorf("got %+v", m.Components)
		}
	}
}

// Each limit alone, one more than it takes.
func TestFitOneTooMany(t *testing.T) {
	m := api.Message{Nonce: strings.Repeat("n", 26), Embeds: []api.Embed{{Description: strings.Repeat("d", 4097)}, {Fields: make([]api.EmbedField, 26)}}}
	for i := range m.Embeds[1].Fields {
		m.Embeds[1].Fields[i] = api.EmbedField{Name: "n", Value: "v"}
	}
	for range 9 {
		m.Embeds = append(m.Embeds, api.Embed{Title: "t"})
	}
	fit(&m)
	withinLimits(t, &m)
	if n := len(m.Embeds[0].Description); n != 4096 || len(m.Embeds[1].Fields) != 25 || len(m.Embeds) != 10 || m.Nonce != "" || m.EnforceNonce {
		t.Errorf("got description of %d, %d fields, %d embeds, nonce %q", n, len(m.Embeds[1].Fields), len(m.Embeds), m.Nonce)
	}
}

func TestFitKeepsWhatIsRight(t *testing.T) {
	m := api.Message{Content: strings.Repeat("x", 2000), Nonce: strings.Repeat("n", 25), Embeds: []api.Embed{{Title: "t", Description: strings.Repeat("d", 4096)}}}
	fit(&m)
	if len(m.Content) != 2000 || len(m.Nonce) != 25 || !m.EnforceNonce || len(m.Embeds[0].Description) != 4096 || m.Embeds[0].Title != "t" {
		t.Errorf("got %+v", m)
	}
	var empty api.Message
	fit(&empty)
	if empty.AllowedMentions.Parse == nil || empty.Embeds == nil || empty.Components == nil || empty.EnforceNonce {
		t.Errorf("got %+v", empty)
	}
}

func TestCut(t *testing.T) {
	for _, tc := range []struct {
		text string
		most int
		want string
	}{
		{"Hill Loop", 9, "Hill Loop"}, {"Hill Loop", 8, "Hill ..."}, {"🚴🚴🚴", 6, "🚴🚴🚴"}, {"🚴🚴🚴", 5, "🚴..."}, {"🚴🚴🚴", 4, "..."}, {"Hill", 2, ".."}, {"Hill", 0, ""},
	} {
		if got := cut(tc.text, tc.most); got != tc.want {
			t.Errorf("%q to %d: got %q, want %q", tc.text, tc.most, got, tc.want)
		}
	}
}

func TestFitChoices(t *testing.T) {
	offers := []command.Offer{{Label: "same", Value: "1"}, {Label: "same", Value: "2"}, {Label: "", Value: "x"}, {Label: "x", Value: ""},
		{Label: "too long a value", Value: strings.Repeat("🚴", 51)}, {Label: strings.Repeat("🚴", 80), Value: strings.Repeat("🚴", 50)}}
	for i := range 40 {
		offers = append(offers, command.Offer{Label: fmt.Sprint("race ", i), Value: fmt.Sprint(i)})
	}
	got := fitChoices(offers)
	if len(got.All) != 25 || got.All[0] != (api.Choice{Name: "same", Value: "1"}) || units(got.All[1].Name) > 100 || got.All[2].Name != "race 0" {
		t.Errorf("got %d choices: %v", len(got.All), got.All)
	}
	if none := fitChoices(nil); none.All == nil {
		t.Error("no choices must be an empty list")
	}
}
