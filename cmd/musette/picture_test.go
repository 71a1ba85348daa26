package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// :save writes the picture of the last reply.
func TestPicturesAreSaved(t *testing.T) {
	dir := t.TempDir()
	for line, name := range map[string]string{"/plan show": "plan.png", "/plan options": "taper-options.png"} {
		lines := strings.Join(append(readmeLines[:2:2], line, ":save "+filepath.Join(dir, "out")), "\n")
		var out, faults bytes.Buffer
		args := []string{"chat", "--db", filepath.Join(dir, "test.db"), "--club", "Marrow Vale Wheelers", "--as", name, "--now", "2026-06-12T08:00"}
		if code := run(context.Background(), args, nil, strings.NewReader(lines), &out, &faults); code != exitDone || faults.Len() > 0 {
			t.Fatalf("exit %d, %s", code, faults.String())
		}
		if saved := filepath.Join(dir, "out", name); !strings.Contains(out.String(), "Saved: "+saved) {
			t.Errorf("%s is not saved:\n%s", saved, out.String())
		} else if data, err := os.ReadFile(saved); err != nil || !bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")) {
			t.Errorf("%s: %v, begins %q", saved, err, data[:min(8, len(data))])
		}
	}
}
