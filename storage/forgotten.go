package storage

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"
)

// What an entry of the list of forgotten people is about.
const (
	kindPerson = "person" // in all clubs
	kindRider  = "rider"  // in one club
	kindDone   = "done"   // all entries before are erased everywhere
)

// forgottenHead begins the first line of the list; the salt follows.
const forgottenHead = "musette forgotten 1 "

// forgotten is the list of those who were erased, so that a database which is put
// back from an older copy forgets them again. It holds salted hashes and instants
// only, and lies beside the database, outside of its copies.
type forgotten struct {
	salt    []byte
	until   map[string]int64 // by kind and hash: rows made up to that instant go
	pending bool             // an erasure was begun and not finished
	size    int              // of what was read, in bytes
}

// erased is one entry to be.
type erased struct {
	kind, club, key string
	at              int64
}

func forgottenName(path string) string { return path + ".forgotten" }

// loadForgotten reads the list; without one nobody was erased.
func loadForgotten(path string) (*forgotten, error) {
	name := forgottenName(path)
	file, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return &forgotten{}, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close() //nolint:errcheck // only read
	if err := syscall.Flock(int(file.Fd()), syscall.LOCK_SH); err != nil {
		return nil, err
	}
	data, err := io.ReadAll(file)
	if err != nil {
		return nil, err
	}
	return parseForgotten(name, data)
}

// parseForgotten reads whole lines; a last one without an end was never finished.
func parseForgotten(name string, data []byte) (*forgotten, error) {
	f := &forgotten{until: map[string]int64{}}
	for number := 1; ; number++ {
		end := bytes.IndexByte(data, '\n')
		if end < 0 {
			return f, nil
		}
		f.size += end + 1
		if err := f.line(number, string(data[:end])); err != nil {
			return nil, fmt.Errorf("%s: line %d cannot be read, so it is not known who was erased. Put back a copy of this file", name, number)
		}
		data = data[end+1:]
	}
}

func (f *forgotten) line(number int, text string) (err error) {
	if number == 1 {
		salt, found := strings.CutPrefix(text, forgottenHead)
		if f.salt, err = hex.DecodeString(salt); err == nil && (!found || len(f.salt) < 16) {
			err = errors.New("no list of this kind")
		}
		return err
	}
	words := strings.Fields(text)
	if len(words) == 1 && words[0] == kindDone {
		f.pending = false
		return nil
	}
	if len(words) != 3 || words[0] != kindPerson && words[0] != kindRider || len(words[1]) != 2*sha256.Size {
		return errors.New("no entry")
	}
	at, err := time.Parse(time.RFC3339Nano, words[2])
	f.until[words[0]+" "+words[1]] = max(f.until[words[0]+" "+words[1]], at.UnixMilli())
	f.pending = true
	return err
}

func (f *forgotten) hash(kind, club, key string) string {
	if kind == kindPerson && (Key{key}).isPlatform() {
		club = "" // the same in all clubs
	}
	sum := hmac.New(sha256.New, f.salt)
	fmt.Fprintf(sum, "%s\x00%s\x00%s", kind, club, key)
	return kind + " " + hex.EncodeToString(sum.Sum(nil))
}

// upTo is the instant up to which rows of a rider are forgotten; 0: none are.
func (f *forgotten) upTo(club, key string) int64 {
	if len(f.until) == 0 {
		return 0
	}
	return max(f.until[f.hash(kindPerson, club, key)], f.until[f.hash(kindRider, club, key)])
}

// hides reports whether a rider who was made at an instant was erased.
func (f *forgotten) hides(club, key string, addedMS int64) bool {
	until := f.upTo(club, key)
	return until > 0 && addedMS <= until
}

// noteForgotten adds entries to the list, on the disk before it returns.
func noteForgotten(path string, entries []erased) error {
	return appendForgotten(path, func(f *forgotten) string {
		var lines strings.Builder
		for _, e := range entries {
			fmt.Fprintln(&lines, f.hash(e.kind, e.club, e.key), time.UnixMilli(e.at).UTC().Format(time.RFC3339Nano))
		}
		return lines.String()
	})
}

// settleForgotten notes that all on a list are erased everywhere, unless it has
// grown meanwhile.
func settleForgotten(path string, list *forgotten) error {
	return appendForgotten(path, func(f *forgotten) string {
		if !f.pending || f.size != list.size {
			return ""
		}
		return kindDone + "\n"
	})
}

// appendForgotten adds what lines makes of the list as it is. The lock keeps two programs apart.
func appendForgotten(path string, lines func(*forgotten) string) (err error) {
	name := forgottenName(path)
	file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	if err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX); err != nil {
		return err
	}
	data, err := io.ReadAll(file)
	if err != nil {
		return err
	}
	f, err := parseForgotten(name, data)
	if err != nil {
		return err
	}
	text := ""
	if f.size == 0 {
		if err := keepOwner(name, path); err != nil {
			return err
		}
		text = newList()
		if f, err = parseForgotten(name, []byte(text)); err != nil {
			return err
		}
		f.size = 0
	}
	if err := file.Truncate(int64(f.size)); err != nil {
		return err
	}
	if _, err := file.WriteAt([]byte(text+lines(f)), int64(f.size)); err != nil {
		return err
	}
	if err := file.Sync(); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}
