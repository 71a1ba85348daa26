package terminal

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// prompted types lines at the prompt of a new talk and returns what is on the screen.
func prompted(t *testing.T, history string, lines ...string) string {
	t.Helper()
	s, err := Open(t.Context(), Config{Bot: newBot(t), Club: "home", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-06-01T08:00", History: history})
	if err != nil {
		t.Fatal(err)
	}
	in, typed, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	before := os.Stdin
	os.Stdin = in
	defer func() { os.Stdin = before }()
	go func() {
		defer typed.Close()
		_, _ = io.WriteString(typed, strings.Join(lines, "\n")+"\n") // a talk that ended reads no more
	}()
	var out strings.Builder
	if err := s.RunInteractive(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// What was typed at the prompt before an erasure is not written down when the talk ends, what
// is typed afterwards is.
func TestErasureForgetsThePrompt(t *testing.T) {
	history := filepath.Join(t.TempDir(), "musette", "history")
	const after = "/help topic:me"
	screen := prompted(t, history, week, "/me erase", ":press Erase everything", after)
	kept, err := os.ReadFile(history)
	if err != nil || string(kept) != after+"\n" || !strings.Contains(screen, "is erased") {
		t.Errorf("the history holds %q, %v; the talk was\n%s", kept, err, screen)
	}
}

// What is typed comes behind what was typed in talks before, also where a talk is ended by a
// command, for its owner to read alone.
func TestPromptKeepsItsHistory(t *testing.T) {
	history := filepath.Join(t.TempDir(), "musette", "history")
	prompted(t, history, "/help topic:me", "", "  ", ":quit", "/help topic:race")
	prompted(t, history, "/help topic:week")
	kept, err := os.ReadFile(history)
	if err != nil || string(kept) != "/help topic:me\n:quit\n/help topic:week\n" {
		t.Errorf("the history holds %q, %v", kept, err)
	}
	if info, err := os.Stat(history); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the history is %v, %v", info.Mode(), err)
	}
	if folder, err := os.Stat(filepath.Dir(history)); err != nil || folder.Mode().Perm() != 0o700 {
		t.Errorf("its folder is %v, %v", folder.Mode(), err)
	}
}
