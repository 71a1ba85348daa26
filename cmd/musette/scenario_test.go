package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Each file of testdata/scenarios is a plan file, a line of dashes, and what
// musette plan makes of it; the name says what it shows.
func TestScenarios(t *testing.T) {
	files, err := filepath.Glob("../../testdata/scenarios/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no scenarios: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			input, want, ok := strings.Cut(string(data), "\n-----\n")
			if !ok {
				t.Fatal("no line of dashes")
			}
			var out, faults bytes.Buffer
			if code := run(context.Background(), []string{"plan", "-"}, nil, strings.NewReader(input), &out, &faults); code != exitDone {
				t.Fatalf("exit %d: %s", code, faults.String())
			}
			if *update {
				if err := os.WriteFile(file, []byte(input+"\n-----\n"+out.String()), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if got := out.String(); got != want {
				t.Errorf("run go test ./cmd/musette -run TestScenarios -update and look at the change.\ngot:\n%s\nwant:\n%s", got, want)
			}
		})
	}
}
