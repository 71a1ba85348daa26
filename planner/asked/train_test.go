package asked_test

import (
	"bytes"
	"flag"
	"os"
	"runtime"
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

// The weights stay in the program's file: what is made of them for the first question stays small.
func TestWeightsAreReadInPlace(t *testing.T) {
	const most = 2 << 20
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	of := asked.ReadWeights()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(of)
	if made := after.TotalAlloc - before.TotalAlloc; made > most {
		t.Errorf("reading the weights makes %d bytes, want at most %d", made, most)
	}
}
