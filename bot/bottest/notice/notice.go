// Package notice lets a test say in the output of go test what it did not check.
// A plain go test shows nothing of tests that pass or skip.
package notice

import (
	"fmt"
	"os"
	"strings"
	"sync"
	"testing"

	"golang.org/x/sys/unix"
)

var said sync.Map

// Unchecked says once what is not checked here, and what is missing for it. It
// writes to standard error of the go command that runs the test, which keeps that
// of the test to itself; where there is none, to its own.
func Unchecked(format string, args ...any) {
	line := "NOT CHECKED: " + fmt.Sprintf(format, args...)
	if _, before := said.LoadOrStore(line, true); before {
		return
	}
	out, err := parents(2)
	if err != nil { // a socket cannot be opened again, for one
		out, err = parents(1)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, line)
		return
	}
	defer out.Close()
	fmt.Fprintln(out, line)
}

// Skip ends a test that cannot or should not run here, and says so as Unchecked does.
func Skip(t testing.TB, format string, args ...any) {
	t.Helper()
	Unchecked(format, args...)
	t.Skipf("not checked: "+format, args...)
}

// parents opens an output of the go command: 1 or 2, by the number of its descriptor.
func parents(descriptor int) (*os.File, error) {
	parent := fmt.Sprintf("/proc/%d", os.Getppid())
	name, err := os.ReadFile(parent + "/comm")
	if err == nil && strings.TrimSpace(string(name)) != "go" {
		err = os.ErrNotExist
	}
	if err != nil {
		return nil, err
	}
	// The descriptor itself goes on where the go command is in a file; opened anew it would be written over.
	if pid, err := unix.PidfdOpen(os.Getppid(), 0); err == nil {
		defer unix.Close(pid)
		if same, err := unix.PidfdGetfd(pid, descriptor, 0); err == nil {
			return os.NewFile(uintptr(same), "output of go test"), nil
		}
	}
	return os.OpenFile(fmt.Sprintf("%s/fd/%d", parent, descriptor), os.O_WRONLY|os.O_APPEND, 0)
}
