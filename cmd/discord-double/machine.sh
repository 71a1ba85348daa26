#!/bin/bash
# Boots systemd in a machine of its own: namespaces, and a copy of this machine's files that is
# forgotten at the end. The network is this machine's. Runs under unshare --mount --pid --uts --ipc --cgroup.
#   machine.sh FOLDER   what lies in FOLDER/shared is at /drill there
set -e
folder=$1 root=$1/machine/root
mount --make-rprivate /
mkdir -p "$folder/machine" "$folder/shared"
mount -t tmpfs tmpfs "$folder/machine"
mkdir "$folder/machine/upper" "$folder/machine/work" "$root"
mount -t overlay overlay -o "lowerdir=/,upperdir=$folder/machine/upper,workdir=$folder/machine/work" "$root"
mount -t proc proc "$root/proc"
mount -t sysfs sysfs "$root/sys"
mount --rbind /dev "$root/dev"
mount -t tmpfs tmpfs "$root/run"
mount -t tmpfs tmpfs "$root/tmp"
if [ "$(stat -fc %T /sys/fs/cgroup)" = cgroup2fs ]; then
  mount -t cgroup2 cgroup2 "$root/sys/fs/cgroup"
else
  mount -t tmpfs tmpfs "$root/sys/fs/cgroup"
  mkdir "$root/sys/fs/cgroup/systemd"
  mount -t cgroup -o none,name=systemd,xattr cgroup "$root/sys/fs/cgroup/systemd"
fi
mkdir -p "$root/drill" "$root/old"
mount --bind "$folder/shared" "$root/drill"
cd "$root"
pivot_root . old
umount -l old
mount --make-rshared / # or credentials of services do not reach them
container=drill exec /lib/systemd/systemd --system --unit=basic.target
