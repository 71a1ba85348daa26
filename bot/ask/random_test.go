package ask_test

import (
	"flag"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/planner/asked"
)

var messages = flag.Int("messages", rounds.Of(400), "how many random messages are answered")

// Whatever is written is answered kindly: no failure of the bot, no panic, at most three
// buttons where it asks what is meant, and a topic.
func TestRandomMessages(t *testing.T) {
	k := bottest.WithRaces(t)
	r := rand.New(rand.NewPCG(13, 7))
	words := corpusWords(t)
	for range *messages {
		text := randomText(r, words)
		reply := k.Ask("ask", map[string]string{"question": text}, text)
		if reply.Err != nil && reply.Err.Field == "question" {
			continue // nothing at all, or far too long
		}
		if reply.Err != nil || len(reply.Lines) == 0 || reply.Topic == "" {
			t.Fatalf("%q: topic %q, error %v: %s", text, reply.Topic, reply.Err, reply.Text())
		}
		for _, topic := range reply.Topics {
			if !slices.Contains(asked.Topics, asked.Topic(topic)) && topic != "command" {
				t.Fatalf("%q: topic %q", text, topic)
			}
		}
		again := 0
		for _, b := range reply.Buttons {
			if b.Command == "ask" {
				again++
			}
		}
		if again > 3 {
			t.Fatalf("%q: %d buttons ask again", text, again)
		}
		if len(reply.Buttons) > 0 && r.IntN(20) == 0 {
			if b := reply.Buttons[r.IntN(len(reply.Buttons))]; b.Command == "ask" {
				k.Press(reply, b.Label)
			}
		}
	}
}

// corpusWords are the words that writers used.
func corpusWords(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/asked/hand-*.tsv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines: %v", err)
	}
	var words []string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		words = append(words, strings.Fields(string(text))...)
	}
	return words
}

var oddities = []string{"", " ", "\x00", "\xff\xfe", "🚴", "\u202e", "\x1b[2J", "13/6", "6/7", "99/99", "0", "-1", "1e9", "2026-13-40", "5x3min", "1h30", "25h", "999%", "rpe 11", "\n", "'", `"`, ";", "{{.}}", "%s%d", "/ride", "ride:",
	"plan: ", "<@123>", "in 9999999 days", "from 30 to 2 june", "32nd", "the 0", "31 february", "a a a", "and and", "?,?,?", "before the day after the race", "race week week race", strings.Repeat("x", 300), "ÀÉ", "жим", "明日"}

// randomText is a message of random words, some of them odd, some of them broken.
func randomText(r *rand.Rand, words []string) string {
	var b strings.Builder
	for range 1 + r.IntN(14) {
		w := words[r.IntN(len(words))]
		switch r.IntN(12) {
		case 0:
			w = oddities[r.IntN(len(oddities))]
		case 1:
			if n := len(w); n > 2 {
				i := r.IntN(n - 1)
				w = w[:i] + w[i+1:]
			}
		case 2:
			w = strings.ToUpper(w)
		}
		b.WriteString(w)
		b.WriteString([]string{" ", " ", " ", ", ", ". ", "? ", "\n", ""}[r.IntN(8)])
	}
	if r.IntN(200) == 0 {
		return strings.Repeat(b.String(), 40)
	}
	return b.String()
}
