package asked_test

import (
	"flag"
	"os"
	"testing"

	"musette/planner/asked"
)

var update = flag.Bool("update", false, "train the weights anew")

// The weights are those that the training lines give.
func TestWeightsAreTrained(t *testing.T) {
	train, _ := corpus(t)
	want := asked.Train(train)
	if *update {
		if err := os.WriteFile("weights.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	have, err := os.ReadFile("weights.txt")
	if err != nil {
		t.Fatal(err)
	}
	if string(have) != want {
		t.Error("weights.txt is not what the lines give. Run: go test ./planner/asked -run Weights -update")
	}
}
