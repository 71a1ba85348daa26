package bot_test

import (
	"database/sql"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
)

// A rider whose week had days off before they were free hears so once, in the
// first private answer that is no refusal.
func TestOffIsToldOnce(t *testing.T) {
	k := bottest.NewTalk(t)
	k.As("Tomas")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	k.As("Ines")
	if reply := k.OK("/week share week:\"" + bottest.InesWeek + "\""); strings.Contains(reply.Text(), bot.OffNow) {
		t.Errorf("a new rider is told what off was:\n%s", reply.Text())
	}
	raw, err := sql.Open("sqlite3", k.Path)
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close()
	if _, err := raw.Exec(`UPDATE athlete SET off_untold = 1`); err != nil {
		t.Fatal(err)
	}
	if reply := k.OK("/race list"); strings.Contains(reply.Text(), bot.OffNow) {
		t.Errorf("told in public:\n%s", reply.Text())
	}
	k.Refused("/plan why day:someday", "day")
	first, second := k.OK("/ride tomorrow"), k.OK("/ride tomorrow")
	if !strings.HasSuffix(first.Text(), "\n\n"+bot.OffNow) || strings.TrimSuffix(first.Text(), "\n\n"+bot.OffNow) != second.Text() {
		t.Errorf("first answer\n%s\nsecond answer\n%s", first.Text(), second.Text())
	}
	k.As("Tomas")
	bottest.Wants(t, k.OK("/me show"), bot.OffNow)
}
