//go:build cgo

package storage

import (
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/mattn/go-sqlite3"
)

// What befalls the file while it is brought up to date says what mends it, as elsewhere.
func TestFaultsOfMigration(t *testing.T) {
	other := errors.New("no step of this number")
	for _, tc := range []struct{ err, want error }{
		{sqlite3.Error{Code: sqlite3.ErrFull}, ErrFull},
		{sqlite3.Error{Code: sqlite3.ErrBusy}, ErrBusy},
		{&os.PathError{Op: "sync", Path: "x", Err: syscall.ENOSPC}, ErrFull},
		{sqlite3.Error{Code: sqlite3.ErrConstraint, ExtendedCode: sqlite3.ErrConstraintForeignKey}, nil},
		{other, other},
	} {
		got := fileFaultOf(fmt.Errorf("step 3: %w", tc.err))
		if tc.want != nil && !errors.Is(got, tc.want) || errors.Is(got, ErrNotFound) {
			t.Errorf("%v is told as %v", tc.err, got)
		}
	}
}

// A copy for which there is no room is said to be that, once, and not to be held up.
func TestCopyWithoutRoom(t *testing.T) {
	db, _, _, _ := backedUp(t)
	defer db.Close()
	small, err := sql.Open("sqlite3", copyDSN(filepath.Join(t.TempDir(), "small.db"), url.Values{"mode": {"rwc"}}))
	if err != nil {
		t.Fatal(err)
	}
	defer small.Close()
	from, to := must(db.reader.Conn(t.Context())), must(small.Conn(t.Context()))
	defer from.Close()
	defer to.Close()
	if _, err := to.ExecContext(t.Context(), `PRAGMA max_page_count = 2`); err != nil {
		t.Fatal(err)
	}
	err = from.Raw(func(s any) error { return to.Raw(func(g any) error { return copyPages(t.Context(), g, s) }) })
	if got := explain(err); !errors.Is(got, ErrFull) || errors.Is(got, ErrBusy) || strings.Contains(got.Error(), "\n") {
		t.Errorf("got %v", got)
	}
}
