// Package rounds says how many rounds random tests make.
package rounds

// Of is n, and a fourth of it under the race detector, which makes the planner's
// work many times slower and finds its races in few rounds. .ci/run makes all of
// them without it, and .ci/long many more.
func Of(n int) int { return max(1, n/share) }

// Every is the step by which a long list is gone through.
func Every(n int) int { return n * share }

// Raced reports that the race detector watches.
const Raced = share > 1
