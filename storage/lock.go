package storage

import (
	"context"
	"errors"
	"fmt"
	"os"
	"syscall"
)

// ErrServed is the refusal of a database that a bot answers with already.
var ErrServed = errors.New("another musette serve answers with this database already. Stop it first, or name another file with --db")

// Lock keeps other bots from a database, where both would answer everything. It
// is on the file itself, whatever names lead to it.
type Lock struct{ file *os.File }

// LockServing takes the lock, and makes the file when it is missing. Take it
// before the database is opened and release it after it is closed: to close the
// file drops SQLite's own locks of this process. The lock goes with the process.
func LockServing(ctx context.Context, path string) (*Lock, error) {
	for {
		file, current, err := lockFile(path)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		if current {
			return &Lock{file}, nil
		}
		// A backup was put in its place meanwhile.
		if err := errors.Join(file.Close(), ctx.Err()); err != nil {
			return nil, err
		}
	}
}

// lockFile locks what the path names; current tells whether it still names it afterwards.
func lockFile(path string) (file *os.File, current bool, err error) {
	if err := makePrivate(path); err != nil {
		return nil, false, err
	}
	if file, err = os.OpenFile(path, os.O_RDONLY, 0); err != nil {
		return nil, false, noAccess(path, err)
	}
	if err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		err = ErrServed
	}
	if err != nil {
		return nil, false, errors.Join(err, file.Close())
	}
	mine, err := file.Stat()
	if err != nil {
		return nil, false, errors.Join(err, file.Close())
	}
	now, err := os.Stat(path)
	return file, err == nil && os.SameFile(mine, now), nil
}

// Release lets the next bot in.
func (l *Lock) Release() error { return l.file.Close() }
