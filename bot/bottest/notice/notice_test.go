package notice

import (
	"bytes"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// A plain go test of tests that skip says what they did not check.
func TestGoTestSaysWhatIsUnchecked(t *testing.T) {
	cmd := exec.Command("go", "test", "-count=1", "-run", "Payloads", "musette/bot/discord/discordtest/lint")
	cmd.Env = slices.DeleteFunc(os.Environ(), func(v string) bool { return strings.HasPrefix(v, "MUSETTE_DISCORD_OPENAPI=") })
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s%s", err, out, errs.String())
	}
	const want = "NOT CHECKED: payloads against Discord's API description: MUSETTE_DISCORD_OPENAPI is not set"
	if strings.Count(errs.String(), want) != 1 || !strings.HasPrefix(string(out), "ok") {
		t.Errorf("go test says\n%s%s", out, errs.String())
	}
}
