// Package rounds says how many rounds random tests make.
package rounds

// Of is n, and a third of it under the race detector, which makes the planner's
// work many times slower and finds its races in few rounds. .ci/long makes many more.
func Of(n int) int { return max(1, n/share) }
