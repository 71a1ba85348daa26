package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"golang.org/x/sys/unix"

	"musette/bot/bottest/notice"
)

// asProgram makes this test binary be the program.
const asProgram = "RUN_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	os.Exit(m.Run())
}

// program is the program as a process of its own, in an empty folder.
func program(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	t.Cleanup(cancel)
	cmd := exec.CommandContext(ctx, self, args...)
	cmd.Dir = t.TempDir()
	temp := filepath.Join(cmd.Dir, "temp")
	if err := os.Mkdir(temp, 0o700); err != nil {
		t.Fatal(err)
	}
	cmd.Env = []string{asProgram + "=1", "TZ=UTC", "HOME=" + cmd.Dir, "TMPDIR=" + temp, "TERM=xterm", "GORACE=atexit_sleep_ms=0"} // else each process under the race detector ends a second late
	return cmd
}

// One interrupt ends what waits for input that never comes.
func TestInterruptEndsAWait(t *testing.T) {
	for name, args := range map[string][]string{
		"standard input":      {"plan", "-"},
		"a pipe":              {"plan", "pipe"},
		"configuration":       {"--config", "pipe", "config"},
		"token":               {"serve"},
		"asking for a name":   {"erase", "--rider", "Ines"},
		"chat without a word": {"chat"},
	} {
		cmd := program(t, args...)
		if err := syscall.Mkfifo(filepath.Join(cmd.Dir, "pipe"), 0o600); err != nil {
			t.Fatal(err)
		}
		if args[0] == "erase" {
			dir := cmd.Dir
			runIn(t, dir, "/week share week:\"mon recovery 45min\"\n", "chat", "--as", "Ines")
		}
		if args[0] == "serve" {
			cmd.Env = append(cmd.Env, "MUSETTE_DISCORD__TOKEN_FILE=pipe")
		}
		input, err := cmd.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		var errs bytes.Buffer
		cmd.Stderr = &errs
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		waitAsleep(t, cmd.Process.Pid)
		if err := cmd.Process.Signal(os.Interrupt); err != nil {
			t.Fatal(err)
		}
		cmd.Wait() //nolint:errcheck // the code is looked at below
		code, want, says := cmd.ProcessState.ExitCode(), exitBroke, "musette: interrupted before all of the input was there. Nothing was done\n"
		if args[0] == "chat" {
			want, says = exitDone, ""
		}
		if code != want || errs.String() != says {
			t.Errorf("%s: exit %d, %q", name, code, errs.String())
		}
		input.Close()
	}
}

// waitAsleep waits until all threads of a process sleep and go on sleeping: then
// it waits for input.
func waitAsleep(t *testing.T, pid int) {
	t.Helper()
	const looks = 15
	asleep := 0
	waitFor(t, func() bool {
		states, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/status", pid))
		asleep++
		if err != nil || len(states) == 0 {
			asleep = 0
		}
		for _, name := range states {
			if status, err := os.ReadFile(name); err != nil || !strings.Contains(string(status), "State:\tS") {
				asleep = 0
			}
		}
		return asleep >= looks
	})
}

// Whoever stops reading ends the program without words, and nothing is left behind.
func TestReaderGoesAway(t *testing.T) {
	cmd := program(t, "demo")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	cmd.Stderr = &errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := bufio.NewReaderSize(out, 16).ReadString('\n'); err != nil {
		t.Fatal(err)
	}
	out.Close()
	cmd.Wait() //nolint:errcheck // the code is looked at below
	if code := cmd.ProcessState.ExitCode(); code != exitBroke || errs.Len() > 0 {
		t.Errorf("exit %d, %q", code, errs.String())
	}
	if left, err := os.ReadDir(filepath.Join(cmd.Dir, "temp")); err != nil || len(left) > 0 {
		t.Errorf("left %v, %v", left, err)
	}
}

// A person at a terminal gets a prompt, answers and a history; a history that
// cannot be kept is a line and no failure.
func TestChatAtATerminal(t *testing.T) {
	for name, broken := range map[string]bool{"kept": false, "not kept": true} {
		cmd := program(t, "chat", "--as", "Ines", "--now", "2026-06-01T08:00")
		if broken {
			if err := os.WriteFile(filepath.Join(cmd.Dir, ".local"), nil, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		terminal, far := pseudoTerminal(t)
		cmd.Stdin, cmd.Stdout, cmd.Stderr = far, far, far
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		far.Close()
		var screen shared
		read := make(chan struct{})
		go func() { defer close(read); io.Copy(&screen, terminal) }()
		waitFor(t, func() bool { return strings.Contains(screen.String(), "Ines> ") })
		io.WriteString(terminal, "/race li\t\r")
		// Before the next prompt the terminal takes Ctrl-C for itself.
		waitFor(t, func() bool {
			_, then, _ := strings.Cut(screen.String(), "/race add name:")
			return strings.Contains(then, "Ines> ")
		})
		io.WriteString(terminal, "/help\x03") // Ctrl-C gives the line up, and not the talk
		waitFor(t, func() bool { _, then, _ := strings.Cut(screen.String(), "^C"); return strings.Contains(then, "Ines> ") })
		io.WriteString(terminal, "\x04") // Ctrl-D
		if err := cmd.Wait(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		<-read
		terminal.Close()
		history, err := os.ReadFile(filepath.Join(cmd.Dir, ".local", "state", "musette", "history"))
		if kept := err == nil && string(history) == "/race list \n"; kept == broken {
			t.Errorf("%s: the history is %q, %v", name, history, err)
		}
		if told := strings.Contains(screen.String(), "The lines that you typed are not kept ("); told != broken {
			t.Errorf("%s: the screen is\n%s", name, screen.String())
		}
	}
}

// pseudoTerminal is a terminal and its far end, at which a program sits.
func pseudoTerminal(t *testing.T) (near, far *os.File) {
	t.Helper()
	near, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		notice.Skip(t, "musette chat at a terminal: none can be made here (%v)", err)
	}
	number, err := unix.IoctlGetInt(int(near.Fd()), unix.TIOCGPTN)
	locked := 0
	if err == nil {
		if _, _, no := syscall.Syscall(syscall.SYS_IOCTL, near.Fd(), unix.TIOCSPTLCK, uintptr(unsafe.Pointer(&locked))); no != 0 {
			err = no
		}
	}
	if err == nil {
		err = unix.IoctlSetWinsize(int(near.Fd()), unix.TIOCSWINSZ, &unix.Winsize{Row: 40, Col: 120})
	}
	if err == nil {
		far, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0)
	}
	if err != nil {
		t.Fatal(err)
	}
	return near, far
}
