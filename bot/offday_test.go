package bot

import (
	"database/sql"
	"strings"
	"testing"
)

// A rider whose week had days off before they were free hears so once, in the
// first private answer that is no refusal.
func TestOffIsToldOnce(t *testing.T) {
	k := newTalk(t)
	k.as("Tomas")
	k.ok("/week share week:\"" + inesWeek + "\"")
	k.as("Ines")
	if reply := k.ok("/week share week:\"" + inesWeek + "\""); strings.Contains(reply.Text(), offNow) {
		t.Errorf("a new rider is told what off was:\n%s", reply.Text())
	}
	raw, err := sql.Open("sqlite3", k.path)
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close()
	if _, err := raw.Exec(`UPDATE athlete SET off_untold = 1`); err != nil {
		t.Fatal(err)
	}
	if reply := k.ok("/race list"); strings.Contains(reply.Text(), offNow) {
		t.Errorf("told in public:\n%s", reply.Text())
	}
	k.refused("/plan why day:someday", "day")
	first, second := k.ok("/ride tomorrow"), k.ok("/ride tomorrow")
	if !strings.HasSuffix(first.Text(), "\n\n"+offNow) || strings.TrimSuffix(first.Text(), "\n\n"+offNow) != second.Text() {
		t.Errorf("first answer\n%s\nsecond answer\n%s", first.Text(), second.Text())
	}
	k.as("Tomas")
	wants(t, k.ok("/me show"), offNow)
}
