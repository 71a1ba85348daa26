//go:build !race

package planner_test

const plans = 20000
