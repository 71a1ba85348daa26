package asked_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner/asked"
)

var update = flag.Bool("update", false, "train the weights anew")

// The weights are those that the lines of the hands give.
func TestWeightsAreTrained(t *testing.T) {
	if !*update {
		rounds.Skip(t, "that weights.bin of planner/asked is what the lines give")
	}
	want := asked.Train(samples(append(hands(t, "hand-*.tsv"), hands(t, "more-*.tsv")...)))
	if *update {
		if err := os.WriteFile("weights.bin", want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	have, err := os.ReadFile("weights.bin")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, want) {
		t.Error("weights.bin is not what the lines give. Run: go test ./planner/asked -run Weights -update")
	}
}
