package storage

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// A build without cgo must stop with a sentence, not die at the first query.
func TestBuildWithoutCgoSaysWhatToInstall(t *testing.T) {
	build := exec.Command("go", "build", ".")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	out, err := build.CombinedOutput()
	if err == nil {
		t.Fatal("built without cgo")
	}
	got := string(out)
	for _, want := range []string{"musette needs cgo", "install gcc and libc6-dev", "set CGO_ENABLED=1"} {
		if !strings.Contains(got, want) {
			t.Errorf("got %q, want %q in it", got, want)
		}
	}
	if got := strings.Count(got, ".go:"); got != 1 {
		t.Errorf("got %d complaints, want only the sentence:\n%s", got, out)
	}
}
