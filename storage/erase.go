package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Erasure tells what an erasure did: when, and in which clubs. Missed are folders of
// backups into which the list of those who were erased could not be written.
type Erasure struct {
	At     time.Time
	Clubs  []string
	Missed []string
}

// Erase deletes all that is stored of a person, in all clubs: rows, free pages,
// the write-ahead log, the copies that migrations left. A database that is put
// back from an older copy forgets the person again when it is opened; who comes
// back after the erasure stays. ErrNotFound when nothing is stored. An error after
// the rows are gone is made up for at the next opening.
func (db *DB) Erase(ctx context.Context, w Whose) (Erasure, error) {
	defer forgetWeeks()
	done, err := db.erasePerson(ctx, w)
	if err != nil {
		return Erasure{}, fmt.Errorf("erase a person: %w", explain(err))
	}
	return done, nil
}

func (db *DB) erasePerson(ctx context.Context, w Whose) (Erasure, error) {
	var riders []Athlete
	err := db.read(ctx, func(tx *sql.Tx) error {
		tables, err := personal(ctx, tx)
		if err != nil {
			return err
		}
		if riders, err = ridersOf(ctx, tx, w); err != nil || len(riders) > 0 {
			return err
		}
		return known(ctx, tx, tables, w)
	})
	if err != nil {
		return Erasure{}, err
	}
	return db.erase(ctx, kindPerson, w, riders)
}

// known is ErrNotFound where no row goes by the person's key.
func known(ctx context.Context, q queryer, tables []*table, w Whose) error {
	for _, t := range tables {
		if !t.byKey() {
			continue
		}
		var there bool
		err := q.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM `+t.name+` WHERE `+t.link+` = ?)`, w.keyText()).Scan(&there)
		if err != nil || there {
			return err
		}
	}
	return ErrNotFound
}

// erase puts riders on the list of those who are forgotten, and forgets all on it.
// Of a person it does so where there are no riders, too.
func (db *DB) erase(ctx context.Context, kind string, w Whose, riders []Athlete) (Erasure, error) {
	db.erasing.Lock()
	defer db.erasing.Unlock()
	done := Erasure{At: db.Now().UTC()}
	var entries []erased
	for _, r := range riders {
		club, err := clubByID(ctx, db.reader, r.Club)
		if err != nil {
			return Erasure{}, err
		}
		done.Clubs = append(done.Clubs, club.Name)
		// No row may be newer than its erasure, even if the clock went back.
		entries = append(entries, erased{kind, club.Key.text, r.Key.text, max(done.At.UnixMilli(), r.Added.UnixMilli())})
	}
	if len(entries) == 0 {
		entries = []erased{{kind, "", w.Key.text, done.At.UnixMilli()}}
	}
	if err := noteForgotten(db.path, entries); err != nil {
		return Erasure{}, fmt.Errorf("note whom to forget: %w", err)
	}
	_, err := db.forget(ctx)
	done.Missed = spreadList(db.path)
	return done, err
}

// ForgottenAgain is how many riders who had been erased were in the database when
// it was opened, as after an older copy was put back. They are erased again.
func (db *DB) ForgottenAgain() int { return db.again }

// forgetAgain is for opening: nothing may be read before it.
func (db *DB) forgetAgain(ctx context.Context) (err error) {
	db.again, err = db.forget(ctx)
	if err != nil {
		return fmt.Errorf("forget who was erased: %w", explain(err))
	}
	return nil
}

// forget erases everybody on the list, everywhere. It returns how many riders were in the database.
func (db *DB) forget(ctx context.Context) (riders int, err error) {
	who, err := loadForgotten(db.path)
	if err != nil || len(who.until) == 0 {
		return 0, err
	}
	changed := false
	err = db.write(ctx, func(tx *sql.Tx) error {
		gone, err := find(ctx, tx, who)
		if err != nil {
			return err
		}
		riders, changed = len(gone.riders), gone.any()
		return gone.remove(ctx, tx)
	})
	if err != nil {
		return 0, err
	}
	if changed || who.pending {
		if err := db.scrub(ctx); err != nil {
			return riders, err
		}
	}
	if err := cleanCopies(ctx, db.path, who); err != nil || !who.pending {
		return riders, err
	}
	return riders, settleForgotten(db.path, who)
}

// doomed is what is to be removed: numbers of riders, keys of people of whom no
// rider is left, names.
type doomed struct {
	tables      []*table
	riders      []int64
	keys, names []string
}

func (d *doomed) any() bool { return len(d.riders)+len(d.keys) > 0 }

// find looks for those on the list, in a database of whatever schema.
func find(ctx context.Context, q queryer, who *forgotten) (*doomed, error) {
	d := new(doomed)
	var err error
	if d.tables, err = personal(ctx, q); err != nil {
		return nil, err
	}
	athlete := tableNamed(d.tables, "athlete")
	if athlete == nil {
		return d, nil
	}
	key := "key"
	if !athlete.has(key) {
		key = "folded" // as schema 1 had it
	}
	type row struct {
		id, club, added         int64
		name, clubKey, ownerKey string
	}
	all, err := list(ctx, q, func(r *row, scan func(...any) error) error {
		return scan(&r.id, &r.club, &r.added, &r.name, &r.ownerKey, &r.clubKey)
	}, `SELECT a.id, a.club_id, a.added_ms, a.name, a.`+key+`, c.`+key+` FROM athlete a JOIN club c ON c.id = a.club_id`)
	if err != nil {
		return nil, err
	}
	left, going := map[string]bool{}, map[string]bool{}
	for _, r := range all {
		text := Whose{Key{r.ownerKey}, ClubID(r.club)}.keyText()
		if !who.hides(r.clubKey, r.ownerKey, r.added) {
			left[text] = true
			continue
		}
		going[text] = true
		d.riders, d.names = append(d.riders, r.id), append(d.names, r.name)
	}
	if err := addKeys(ctx, q, d.tables, who, going); err != nil {
		return nil, err
	}
	for text := range going {
		if !left[text] {
			d.keys = append(d.keys, text)
		}
	}
	slices.Sort(d.keys)
	return d, nil
}

// addKeys finds the people of a platform on the list who ride for no club.
func addKeys(ctx context.Context, q queryer, tables []*table, who *forgotten, going map[string]bool) error {
	for _, t := range tables {
		if !t.byKey() {
			continue
		}
		keys, err := list(ctx, q, func(s *string, scan func(...any) error) error { return scan(s) },
			`SELECT DISTINCT `+t.link+` FROM `+t.name+` WHERE `+t.link+` IS NOT NULL`)
		if err != nil {
			return err
		}
		for _, text := range keys {
			if (Key{text}).isPlatform() && who.upTo("", text) > 0 {
				going[text] = true
			}
		}
	}
	return nil
}

// remove deletes the rows, children first, so that it does not lean on what the schema cascades.
func (d *doomed) remove(ctx context.Context, tx *sql.Tx) error {
	if !d.any() {
		return nil
	}
	riders, keys := jsonList(d.riders), jsonList(d.keys)
	for _, t := range slices.Backward(d.tables) {
		if _, err := tx.ExecContext(ctx, `DELETE FROM `+t.name+` WHERE (?1 <> '' AND ?2 <> '') AND `+t.owned(), riders, keys); err != nil {
			return err
		}
	}
	return d.removeButtons(ctx, tx)
}

// removeButtons deletes the buttons that may hold words of those who go: those of
// nobody known, and those of others that name them.
func (d *doomed) removeButtons(ctx context.Context, tx *sql.Tx) error {
	var there bool
	err := tx.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE name = 'button')`).Scan(&there)
	if err != nil || !there {
		return err
	}
	if tableNamed(d.tables, "button") == nil { // of before buttons had owners
		_, err := tx.ExecContext(ctx, `DELETE FROM button`)
		return err
	}
	if _, err := tx.ExecContext(ctx, `DELETE FROM button WHERE owner IS NULL`); err != nil {
		return err
	}
	type kept struct{ id, options string }
	others, err := list(ctx, tx, func(k *kept, scan func(...any) error) error { return scan(&k.id, &k.options) }, `SELECT id, options FROM button`)
	if err != nil {
		return err
	}
	for _, k := range others {
		if !mentions(k.options, d.names) {
			continue
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM button WHERE id = ?`, k.id); err != nil {
			return err
		}
	}
	return nil
}

// mentions reports whether an option of a button holds one of the names.
func mentions(options string, names []string) bool {
	var values map[string]string
	if json.Unmarshal([]byte(options), &values) != nil {
		return true // nobody can press it
	}
	for _, value := range values {
		if slices.ContainsFunc(names, func(name string) bool { return strings.Contains(Fold(value), Fold(name)) }) {
			return true
		}
	}
	return false
}

// Until other programs let the log be cut, in tries.
const (
	scrubTries = 20
	scrubPause = 250 * time.Millisecond
)

var errLogBusy = errors.New("the write-ahead log still holds old pages, since another program reads the database. Stop that program and open the database again: what is left is erased then")

// scrub writes the file anew without its free pages and empties the write-ahead log.
func (db *DB) scrub(ctx context.Context) error {
	if _, err := db.writer.ExecContext(ctx, `VACUUM`); err != nil {
		return fmt.Errorf("clear free pages: %w", err)
	}
	for range scrubTries {
		var busy, pages, moved int
		err := db.writer.QueryRowContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`).Scan(&busy, &pages, &moved)
		if err != nil && !isBusy(err) {
			return fmt.Errorf("empty the log: %w", err)
		}
		if err == nil && busy == 0 {
			return nil
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(scrubPause):
		}
	}
	return errLogBusy
}
