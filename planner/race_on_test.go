//go:build race

package planner_test

// Under the race detector fewer plans do: it finds no more in many than in some.
const plans = 3000
