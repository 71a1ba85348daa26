package care

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

func TestProbe(t *testing.T) {
	raw, _ := os.ReadFile(os.Getenv("PROBE"))
	for line := range strings.Lines(string(raw)) {
		f := Read(line)
		fmt.Printf("%v %v %v | %s", f.Verdict, f.Level, f.Lang, line)
	}
}
