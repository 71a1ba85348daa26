package discord

import (
	"bytes"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/terminal"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// named is a club of riders with a race each, whose names change from round to round.
// The same database is seen by a terminal and by what is sent to Discord.
type named struct {
	*talker
	raw     *sql.DB
	session *terminal.Session
	riders  int
	ids     []storage.AthleteID
}

func newNamed(t *testing.T, riders int) *named {
	path := filepath.Join(t.TempDir(), "names.db")
	db := storagetest.Open(t, path)
	k := &talker{t: t, bot: bot.New(bot.Deps{DB: db, Draw: bottest.Sketch}), db: db, who: desk.Request{Club: "home", ClubKey: storage.NameKey("home"),
		Zone: "Europe/Lisbon", Now: time.Date(2026, 6, 12, 8, 0, 0, 0, time.UTC), Coach: true}}
	n := &named{talker: k, riders: riders}
	for i := range riders {
		n.as(i)
		k.say(`/week share week:"`+inesWeek+`"`, fmt.Sprintf("/race add name:Race%d date:2026-06-21 priority:A hours:3h start:10:00", i), `/me set remind:"always 06:30"`)
		_, rider := k.posted()
		n.ids = append(n.ids, rider.ID)
	}
	k.who.Now = time.Date(2026, 6, 15, 7, 0, 0, 0, time.UTC) // a Monday, six days before
	var err error
	if n.session, err = terminal.Open(t.Context(), terminal.Config{Bot: k.bot, DB: db, Club: "home", Athlete: "rider0", Coach: true, Zone: "Europe/Lisbon", Now: "2026-06-15T08:00"}); err != nil {
		t.Fatal(err)
	}
	if n.raw, err = sql.Open("sqlite3", path); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { n.raw.Close() })
	return n
}

func (n *named) as(i int) {
	n.who.Athlete = fmt.Sprintf("rider%d", i)
	n.who.AthleteKey = storage.NameKey(n.who.Athlete)
}

// call gives rider i and their race the i-th name, as if they had chosen it.
func (n *named) call(names []string) {
	n.t.Helper()
	for i, name := range names {
		for _, change := range []string{"UPDATE athlete SET name = ?1 WHERE id = ?2", "UPDATE race SET name = ?1, folded = lower(?1) WHERE athlete_id = ?2"} {
			if _, err := n.raw.ExecContext(n.t.Context(), change, name, n.ids[i]); err != nil {
				n.t.Fatalf("%q: %v", name, err)
			}
		}
	}
	for _, table := range []string{"post", "clock"} { // so that all of it is owed again
		if _, err := n.raw.ExecContext(n.t.Context(), "DELETE FROM "+table); err != nil {
			n.t.Fatal(err)
		}
	}
}

// typed is what a terminal prints for lines.
func (n *named) typed(lines ...string) string {
	n.t.Helper()
	var out bytes.Buffer
	if err := n.session.Run(n.t.Context(), strings.NewReader(strings.Join(lines, "\n")+"\n"), &out); err != nil {
		n.t.Fatal(err)
	}
	return out.String()
}

// replies are the markup of whole replies on Discord and what a terminal prints: the
// race list, the digest, and each rider's plan and reminder.
func (n *named) replies() (discord []string, printed []string) {
	n.t.Helper()
	note := func(r say.Reply) {
		sameWords(n.t, r, linked)
		discord = append(discord, markupOf(r.Lines))
	}
	club, err := n.db.FindClub(n.t.Context(), n.who.ClubKey)
	if err != nil {
		n.t.Fatal(err)
	}
	digest, err := n.bot.Digest(n.t.Context(), club, n.who.Now)
	if err != nil {
		n.t.Fatal(err)
	}
	note(digest)
	note(n.say("/race list"))
	printed = append(printed, n.typed("/race list"), n.typed(":tick"))
	for i := range n.riders {
		n.as(i)
		note(n.say("/plan show"))
		note(n.reminder(planner.NewDate(2026, 6, 15)))
		printed = append(printed, n.typed(":as rider"+fmt.Sprint(i), "/plan show"))
	}
	n.as(0)
	n.typed(":as rider0")
	return discord, printed
}

// codeNote is how often there is code: a command that holds a backtick is written without.
var codeNote = regexp.MustCompile(` ?code:\d+`)

// Names of riders and races become no command, mention or markup in whole replies, as
// a terminal prints them and as Discord gets them.
func TestNamesInWholeReplies(t *testing.T) {
	const riders = 25
	n := newNamed(t, riders)
	plain := make([]string, riders)
	for i := range plain {
		plain[i] = fmt.Sprintf("Qxzv%02d", i)
	}
	n.call(plain)
	want, printed := n.replies()
	r := rand.New(rand.NewPCG(9, 10))
	most := *names
	if most == usualNames {
		most = rounds.Of(4 * riders) // these take longer than lines alone
	}
	for tried := 0; tried < most; {
		var batch []string
		taken := map[string]bool{} // races of one name and day are one in lists
		for len(batch) < riders {
			if name := asName(nastyText(r, 5)); !taken[storage.Fold(name)] && storage.CheckName("name", name, "Hill Loop") == nil {
				batch, taken[storage.Fold(name)] = append(batch, name), true
			}
		}
		n.call(batch)
		got, now := n.replies()
		for i := range got {
			if codeNote.ReplaceAllString(got[i], "") != codeNote.ReplaceAllString(want[i], "") {
				t.Fatalf("reply %d holds %s, want %s; names %q", i, got[i], want[i], batch)
			}
		}
		for i, text := range now {
			n.printsAs(printed[i], text, plain, batch, i-2)
		}
		tried += riders
	}
}

// printsAs asks that a terminal prints what it printed for plain names, line by line; where
// one rider's reply holds one short name, word by word.
func (n *named) printsAs(was, is string, plain, names []string, rider int) {
	n.t.Helper()
	const message = "\n-> " // digests have fewer lines where names are long
	ends := map[bool]string{true: message, false: "\n"}[strings.Contains(was, message)]
	if strings.Count(was, ends) != strings.Count(is, ends) || strings.ContainsFunc(is, func(r rune) bool { return unicode.IsControl(r) && r != '\n' }) {
		n.t.Fatalf("a terminal prints\n%s\nand for plain names\n%s\nnames %q", is, was, names)
	}
	if rider < 0 || len([]rune(names[rider])) > 20 {
		return
	}
	want := strings.NewReplacer(`"`+plain[rider]+`"`, say.Quote(names[rider]), "race:"+plain[rider], "race:"+say.Quote(names[rider]), plain[rider], names[rider]).Replace(was)
	if is != want {
		n.t.Fatalf("a terminal prints\n%s\nwant\n%s", is, want)
	}
}
