//go:build !race

package asked_test

const raceDetector = false
