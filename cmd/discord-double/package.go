package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"musette/bot/discord/discordtest"
)

// packageCommand installs a Debian package in a machine of its own, upgrades it while the service
// sends reminders, and removes it.
type packageCommand struct {
	First  string `arg:"" type:"existingfile" help:"The package to install (.ci/package FOLDER 0.1)."`
	Second string `arg:"" type:"existingfile" help:"The package to upgrade to (.ci/package FOLDER 0.2)."`
	Riders int    `default:"1500" help:"Riders with a reminder that is due."`
}

// stateFile is the database of the service, for whose user systemd makes the folder.
const stateFile = "/var/lib/private/musette/musette.db"

// Run implements the subcommand.
func (c *packageCommand) Run(w *world) (err error) {
	k, err := newKillDrill(w, "none", discordtest.Options{})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, k.end()) }()
	if err := k.fill(w.ctx, c.Riders); err != nil {
		return err
	}
	shared := filepath.Join(k.folder, "shared")
	if err := errors.Join(os.Mkdir(shared, 0o755), os.Rename(k.database(), filepath.Join(shared, "musette.db")),
		copyFile(c.First, filepath.Join(shared, "first.deb")), copyFile(c.Second, filepath.Join(shared, "second.deb"))); err != nil {
		return err
	}
	m, err := newMachine(w.ctx, k.folder)
	if errors.Is(err, errNoMachine) {
		fmt.Fprintf(w.stdout, "NOT CHECKED: installing, upgrading and removing the package: %v\n", err)
		return nil
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, m.end()) }()
	d := packageDrill{world: w, machine: m, kill: k}
	began := time.Now()
	for _, step := range []func(context.Context) error{d.install, d.serve, d.upgrade, d.finish, d.operate, d.remove} {
		if err := step(w.ctx); err != nil {
			journal, _ := m.run(w.ctx, "journalctl", "--unit", "musette", "--no-pager", "--lines", "30") // what there is of it
			return fmt.Errorf("%w\n%s", err, journal)
		}
	}
	return k.report(w.stdout, d.before, time.Since(began))
}

// packageDrill is the package on its machine.
type packageDrill struct {
	*world
	*machine
	kill   *killDrill
	before int // riders who had their message at the upgrade
}

func (d *packageDrill) say(format string, args ...any) {
	fmt.Fprintf(d.stdout, format+"\n", args...)
}

// script runs a piece of shell there, which ends at its first fault.
func (d *packageDrill) script(ctx context.Context, text string) (string, error) {
	return d.run(ctx, "bash", "-euc", text)
}

// install installs the first package. A service without a token does not run.
func (d *packageDrill) install(ctx context.Context) error {
	_, err := d.script(ctx, `dpkg --install /drill/first.deb
if systemctl is-active --quiet musette || systemctl is-enabled --quiet musette; then exit 1; fi
[ "$(stat -c %a:%U /etc/musette)" = 700:root ]
musette --version
musette demo >/dev/null
systemd-analyze verify /lib/systemd/system/musette.service
systemd-analyze security --threshold=20 musette.service >/dev/null`)
	if err == nil {
		d.say("installed the unit is valid and off, the program plays its demo, the exposure that systemd sees is 2.0 of 10 at most")
	}
	return err
}

// serve starts the service as the guide says, with the database of the drill.
func (d *packageDrill) serve(ctx context.Context) error {
	if _, err := d.script(ctx, fmt.Sprintf(`(umask 077; echo '%s' >/etc/musette/token)
echo MUSETTE_DISCORD__URL=%s >/etc/musette/environment
echo MUSETTE_METRICS=off >>/etc/musette/environment
install -d -m 700 /drill/private /var/lib/private
mount --bind /drill/private /var/lib/private # so that the drill reads the database
install -D -m 600 /drill/musette.db `+stateFile+`
systemctl enable --now musette`, d.kill.double.Token, d.kill.double.URL)); err != nil {
		return err
	}
	if err := d.kill.waitPosts(ctx, 0, killPatience); err != nil {
		return err
	}
	d.kill.file = filepath.Join(d.kill.folder, "shared/private/musette/musette.db")
	state, err := d.script(ctx, `systemctl is-active musette
stat -c %a:%U `+stateFile)
	if err == nil && (!strings.HasPrefix(state, "active") || !strings.HasSuffix(state, "600:musette")) {
		err = fmt.Errorf("the service and its database are %q", state)
	}
	if err != nil {
		return err
	}
	d.say("started   the service runs as a user of its own, who alone can read the database")
	return d.check(ctx)
}

// check runs the program's check and its demo as the user of the service, beside the service.
func (d *packageDrill) check(ctx context.Context) error {
	said, err := d.script(ctx, fmt.Sprintf(`as="systemd-run --quiet --pipe --wait --property=DynamicUser=yes --property=User=musette --property=StateDirectory=musette --working-directory=/var/lib/musette"
$as /usr/bin/musette demo >/dev/null
$as --setenv=MUSETTE_DISCORD__TOKEN=%s --setenv=MUSETTE_DISCORD__URL=%s --setenv=MUSETTE_METRICS=off /usr/bin/musette check 2>&1 || true`, d.kill.double.Token, d.kill.double.URL))
	for _, want := range []string{"ok    database: musette.db can be written and is whole", "ok    token: Discord knows it", "ok    clock: "} {
		if err == nil && !strings.Contains(said, want) {
			err = fmt.Errorf("check does not say %q as the user of the service, but\n%s", want, said)
		}
	}
	if err == nil {
		d.say("checked   check and demo run as the user of the service")
	}
	return err
}

// upgrade installs the second package while reminders go out.
func (d *packageDrill) upgrade(ctx context.Context) error {
	before, err := d.run(ctx, "systemctl", "show", "--property", "MainPID", "--value", "musette")
	if err != nil {
		return err
	}
	d.before = d.kill.arrived()
	if _, err := d.run(ctx, "dpkg", "--install", "/drill/second.deb"); err != nil {
		return err
	}
	after, err := d.script(ctx, `systemctl is-active --quiet musette
systemctl show --property MainPID --value musette`)
	if err == nil && (after == before || d.before == len(d.kill.riders)) {
		err = fmt.Errorf("the service was not started anew (%s, %s), or too late (%d)", before, after, d.before)
	}
	version, versionErr := d.run(ctx, "dpkg-query", "--show", "--showformat", "${Version}", "musette")
	d.say("upgraded  to %s while it sent: %d of %d riders had their message", version, d.before, len(d.kill.riders))
	return errors.Join(err, versionErr)
}

// finish waits for all messages and stops the service as a shutdown does.
func (d *packageDrill) finish(ctx context.Context) error {
	if err := d.kill.settle(ctx); err != nil {
		return err
	}
	said, err := d.script(ctx, `systemctl stop musette
systemctl show --property Result,ExecMainStatus musette`)
	if err == nil && (!strings.Contains(said, "Result=success") || !strings.Contains(said, "ExecMainStatus=0")) {
		err = fmt.Errorf("the service ended with %s", said)
	}
	d.say("stopped   the service ended with exit 0")
	return err
}

// operate does what the guide lets root do: a backup beside the service, an erasure, the
// backup put back. The service can read all of it, and the rider stays erased.
func (d *packageDrill) operate(ctx context.Context) error {
	_, err := d.script(ctx, fmt.Sprintf(`systemctl start musette
musette backup --db /var/lib/musette/musette.db --to /var/backups/musette
musette erase --yes --db /var/lib/musette/musette.db --discord %[1]s
systemctl stop musette
musette restore --yes --db /var/lib/musette/musette.db /var/backups/musette/musette-*.db
if musette export --db /var/lib/musette/musette.db --discord %[1]s >/dev/null; then exit 1; fi
systemctl start musette
sleep 3
systemctl is-active --quiet musette
[ "$(systemctl show --property NRestarts --value musette)" = 0 ]
foreign=$(find /var/lib/private/musette ! -user musette)
[ -z "$foreign" ] || { echo "not the service's: $foreign"; exit 1; }
systemctl stop musette`, d.kill.riders[0].UserID))
	if err == nil {
		d.say("operated  root made a backup, erased a rider and put the backup back: the rider stays erased, the service reads its files")
	}
	return err
}

// remove takes the package away, which leaves what is the operator's.
func (d *packageDrill) remove(ctx context.Context) error {
	said, err := d.script(ctx, `systemctl start musette
dpkg --remove musette
if systemctl is-active --quiet musette; then exit 1; fi
[ ! -e /lib/systemd/system/musette.service ] && [ ! -e /usr/bin/musette ]
dpkg --purge musette
[ -s `+stateFile+` ] && [ -s /etc/musette/token ]`)
	if err == nil && !strings.Contains(said, "the database stays in "+filepath.Dir(stateFile)) {
		err = fmt.Errorf("it is not said where the database stays, but\n%s", said)
	}
	if err == nil {
		d.say("removed   the service was stopped first; database and token are still there, and it is said where")
	}
	return err
}

func copyFile(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return os.WriteFile(to, data, 0o644)
}
