//go:build race

package post

const raceDetector = true
