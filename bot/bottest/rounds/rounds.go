// Package rounds says how many rounds random tests make, and which cases of long
// lists are tried.
//
// The race detector makes work many times slower, and what one goroutine does alone
// holds no race. Under it such tests make few rounds and say so once a package.
// .ci/run makes all of them without it, and .ci/long many more.
package rounds

import (
	"runtime/debug"
	"strings"
	"testing"

	"musette/bot/bottest/notice"
)

// Of is n, and few of them under the race detector.
func Of(n int) int {
	tell()
	return max(1, n/share)
}

// Every is the step by which a long list is gone through.
func Every(n int) int {
	tell()
	return n * share
}

// Left reports that case i of a long list is left to the run without the race detector.
func Left(i int) bool { return i%Every(1) > 0 }

// Skip skips, under the race detector, a test that does what it names in one goroutine.
func Skip(t testing.TB, what string) {
	t.Helper()
	if Raced {
		notice.Skip(t, "%s, under the race detector (go test checks it without)", what)
	}
}

// Raced reports that the race detector watches.
const Raced = share > 1

// tell says that not all is tried here.
func tell() {
	if !Raced {
		return
	}
	name := "this package"
	if info, ok := debug.ReadBuildInfo(); ok {
		name = strings.TrimSuffix(info.Path, ".test")
	}
	notice.Unchecked("%d of %d random rounds and cases of long lists of %s, under the race detector (go test makes all without)", share-1, share, name)
}
