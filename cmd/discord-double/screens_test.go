package main

import (
	"os"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
)

// The lines of docs/screens still play: each screen has words, and nothing is
// refused but what is there to be refused.
func TestScreensPlay(t *testing.T) {
	rounds.Skip(t, "that the screens of docs/screens play")
	lines, err := os.ReadFile("../../docs/screens/screens.txt")
	if err != nil {
		t.Fatal(err)
	}
	st, err := playScreens(t.Context(), string(lines), t.Output())
	if err != nil {
		t.Fatal(err)
	}
	if len(st.screens) < 20 {
		t.Errorf("%d screens", len(st.screens))
	}
	for _, sc := range st.screens {
		text := sc.Messages[0].Text()
		refused := strings.HasSuffix(sc.Name, "-refused") || strings.HasSuffix(sc.Name, "-typo")
		if text == "" || strings.HasPrefix(text, "**That did not work") != refused {
			t.Errorf("%s: %s %s\n%s", sc.Name, sc.Who, sc.Asked, text)
		}
	}
}

// A line that cannot be played ends the play and is named.
func TestScreensNameWhatFails(t *testing.T) {
	for _, line := range []string{"Otto: /ride", "Ines: /fly", "Ines waits", "now 8 o'clock", "Ines press Undo"} {
		if _, err := playScreens(t.Context(), line, t.Output()); err == nil || !strings.HasPrefix(err.Error(), line+": ") {
			t.Errorf("%s: %v", line, err)
		}
	}
}
