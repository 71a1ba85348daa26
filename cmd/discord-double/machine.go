package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

//go:embed machine.sh
var machineScript string

// machineBoots is how long systemd may take to start.
const machineBoots = time.Minute

// machine is a Linux of its own with systemd, made of namespaces and a copy of this machine's files.
type machine struct {
	folder string
	group  string // the control group of all that runs there
	unit   *exec.Cmd
	pid    int // of systemd, as this machine counts
}

// errNoMachine tells that this machine allows none.
var errNoMachine = errors.New("no machine with systemd can be made here")

// newMachine boots one; what lies in folder/shared is at /drill there. Ends with end.
func newMachine(ctx context.Context, folder string) (m *machine, err error) {
	for _, tool := range []string{"unshare", "nsenter", "systemctl", "dpkg"} {
		if _, err := exec.LookPath(tool); err != nil {
			return nil, fmt.Errorf("%w: %s is not installed", errNoMachine, tool)
		}
	}
	if os.Geteuid() != 0 {
		return nil, fmt.Errorf("%w: that takes root", errNoMachine)
	}
	m = &machine{folder: folder, group: "/sys/fs/cgroup/systemd"}
	if _, err := os.Stat(m.group); err != nil {
		m.group = "/sys/fs/cgroup" // version 2
	}
	m.group = filepath.Join(m.group, "musette-drill-"+strconv.Itoa(os.Getpid()))
	script := filepath.Join(folder, "machine.sh")
	if err := errors.Join(os.WriteFile(script, []byte(machineScript), 0o700), os.Mkdir(m.group, 0o755)); err != nil {
		return nil, fmt.Errorf("%w: %w", errNoMachine, err)
	}
	log, err := os.Create(filepath.Join(folder, "machine.log"))
	if err != nil {
		return nil, err
	}
	defer log.Close()
	m.unit = exec.Command("bash", "-c", `echo $$ >"$1/cgroup.procs" && exec unshare --mount --pid --uts --ipc --cgroup --fork --kill-child bash "$2" "$3"`,
		"machine", m.group, script, folder)
	m.unit.Stdout, m.unit.Stderr = log, log
	if err := m.unit.Start(); err != nil {
		return nil, fmt.Errorf("%w: %w", errNoMachine, err)
	}
	if err := m.waitBooted(ctx); err != nil {
		said, _ := os.ReadFile(log.Name()) // what there is of it
		return nil, errors.Join(fmt.Errorf("%w: %w\n%s", errNoMachine, err, said), m.end())
	}
	return m, nil
}

func (m *machine) waitBooted(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, machineBoots)
	defer cancel()
	for {
		if m.pid == 0 {
			children, _ := os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", m.unit.Process.Pid, m.unit.Process.Pid)) // none yet
			m.pid, _ = strconv.Atoi(strings.TrimSpace(string(children)))
		}
		if m.pid != 0 {
			if state, _ := m.run(ctx, "systemctl", "is-system-running"); state == "running" || state == "degraded" {
				return nil
			}
		}
		if err := sleep(ctx, 200*time.Millisecond); err != nil {
			return errors.New("systemd does not start")
		}
	}
}

// run gives a command there; what it says, without blanks around.
func (m *machine) run(ctx context.Context, args ...string) (string, error) {
	enter := []string{"--target", strconv.Itoa(m.pid), "--mount", "--pid", "--uts", "--ipc", "--cgroup", "--root", "--wd"}
	out, err := exec.CommandContext(ctx, "nsenter", append(enter, args...)...).CombinedOutput()
	said := strings.TrimSpace(string(out))
	if err != nil {
		return said, fmt.Errorf("%s: %w: %s", strings.Join(args, " "), err, said)
	}
	return said, nil
}

// end stops all that runs there, at once.
func (m *machine) end() error {
	err := ignoreExit(errors.Join(m.unit.Process.Kill(), m.unit.Wait()))
	for range 50 { // the control groups are free when all processes are gone
		if removeGroups(m.group) == nil {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	return err
}

// removeGroups removes a control group and those in it.
func removeGroups(path string) error {
	within, err := os.ReadDir(path)
	for _, entry := range within {
		if entry.IsDir() {
			err = errors.Join(err, removeGroups(filepath.Join(path, entry.Name())))
		}
	}
	return errors.Join(err, os.Remove(path))
}
