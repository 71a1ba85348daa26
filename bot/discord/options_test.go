package discord

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"musette/bot/discord/discordtest"
	"musette/planner"
)

// Pictures go out with words for those who do not see them, and the answer
// shows them; a season's change is pressed and pressed back.
func TestOptionsAndSeasonOnDiscord(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	ines := s.in("Ines")
	s.give(ines, "week share", "week", inesWeek)
	for i := range 5 {
		s.give(ines, "race add", "name", fmt.Sprintf("Hill Loop %d", i+1), "date", planner.NewDate(2026, 7, 12).AddDays(14*i).String(), "priority", "A", "hours", "3")
	}
	for command, file := range map[string]string{"plan show": "plan.png", "plan options": "taper-options.png"} {
		s.pictured(s.give(ines, command, "race", "Hill Loop 1"), file)
	}
	check := s.give(ines, "season check")
	s.pictured(check, "season.png")
	s.shows(check, "One change is worth it: turn Hill Loop 1")
	applied := s.press(ines, check, "Apply it")
	s.shows(applied, "Hill Loop 1 and Hill Loop 2 are B races now")
	again := s.press(ines, check, "Apply it") // from a copy that knows nothing of the first press
	if s.shows(again, "That did not work, and nothing was saved.", "so nothing changes"); again.Kind != 4 || len(again.Buttons()) != 0 {
		t.Errorf("kind %d with %v takes the place of the answer with Undo", again.Kind, again.Buttons())
	}
	s.shows(s.press(ines, applied, "Undo"), "Hill Loop 1 and Hill Loop 2 are A races again")
	numbers := s.press(ines, check, "Show the numbers")
	s.pictured(s.press(ines, numbers, "Taper lengths for Hill Loop 3"), "taper-options.png")
	s.checkPayloads()
}

// pictured asks for an answer with one picture that its embed shows.
func (s *stage) pictured(a discordtest.Answer, name string) {
	s.t.Helper()
	m := a.Message
	if len(m.Attachments) != 1 || m.Attachments[0].Description == "" || len(m.Embeds) != 1 || m.Embeds[0].Image.URL == "" {
		s.t.Errorf("the picture is not shown, or without words: %+v", m.Attachments)
	}
	if len(m.Files) != 1 || m.Files[0].Name != name || !bytes.HasPrefix(m.Files[0].Data, []byte("\x89PNG")) {
		s.t.Fatalf("want the picture %s with\n%s", name, m.Text())
	}
}

// An answer about very many races of very long names keeps every limit.
func TestLongSeasonsFit(t *testing.T) {
	k := newTalker(t)
	k.say(`/week share week:"`+inesWeek+`"`, "/me set taper:28")
	for i := range 14 {
		k.say(fmt.Sprintf(`/race add name:"%d %s" date:%s priority:A hours:3`, i, strings.Repeat("ünder_*the* ", 16), planner.NewDate(2026, 7, 12).AddDays(7*i)))
	}
	for _, line := range []string{"/season check", "/plan options", "/plan show"} {
		reply := k.say(line)
		all := rendered(t, reply)
		sameWords(t, reply, linked)
		if len(all) > maxMessages || len(all[0].Files) > 1 {
			t.Errorf("%s: %d messages, %d files", line, len(all), len(all[0].Files))
		}
	}
	check := k.say("/season check")
	whole := k.who
	whole.Command, whole.Options = check.Buttons[0].Command, check.Buttons[0].Options
	applied, err := k.bot.Handle(t.Context(), whole)
	if err != nil || applied.Err != nil {
		t.Fatalf("%v %s", err, applied.Text())
	}
	rendered(t, applied)
}
