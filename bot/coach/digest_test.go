package coach_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

const coachGolden = "testdata/coach"

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join(coachGolden, name)
	if *bottest.Update {
		if err := os.MkdirAll(coachGolden, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is not as stored. See go test ./bot -run CoachGolden -update\n%s", file, got)
	}
}

// whole is a reply with its buttons and files, to be read.
func whole(r say.Reply) string {
	lines := []string{r.Text(), ""}
	for _, b := range r.Buttons {
		lines = append(lines, fmt.Sprintf("[%s] /%s %v", b.Label, b.Command, b.Options))
	}
	for _, f := range r.Files {
		data := string(f.Data)
		if f.Alt != "" {
			data = f.Alt
		}
		lines = append(lines, fmt.Sprintf("--- %s (%s)\n%s", f.Name, f.Type, data))
	}
	return strings.TrimRight(strings.Join(lines, "\n"), "\n") + "\n"
}

func TestCoachGolden(t *testing.T) {
	for _, riders := range []int{8, 40} {
		k := bottest.Wheelers(t, riders)
		golden(t, fmt.Sprintf("digest%d.txt", riders), whole(k.OK("/coach digest")))
		golden(t, fmt.Sprintf("roster%d.txt", riders), whole(k.OK("/coach roster")))
		if riders == 8 {
			for _, name := range []string{"Ines", "Bruno", "Cleo", "Farid", "Hugo"} {
				screen := k.OK("/coach athlete " + name)
				if n := strings.Count(screen.Text(), "\n") + 1; n > 25 {
					t.Errorf("%s has %d lines:\n%s", name, n, screen.Text())
				}
				golden(t, strings.ToLower(name)+".txt", whole(screen))
				golden(t, strings.ToLower(name)+"-all.txt", whole(k.Press(screen, "Everything")))
			}
		}
	}
}

// BenchmarkDigest is the digest of a club of 40.
func BenchmarkDigest(b *testing.B) {
	k := bottest.Wheelers(b, 40)
	club := k.Club()
	for b.Loop() {
		if _, err := k.Bot.Digest(b.Context(), club, k.Who.Now); err != nil {
			b.Fatal(err)
		}
	}
}
