package discord

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/bot/discord/discordtest"
	"musette/bot/say"
	"musette/storage"
	"musette/storage/storagetest"
)

// shelf is a store of buttons in memory.
type shelf struct {
	kept  map[string]storage.Button
	fault error
}

func (s *shelf) SaveButton(_ context.Context, id string, b storage.Button) error {
	if s.kept == nil {
		s.kept = map[string]storage.Button{}
	}
	s.kept[id] = b
	return s.fault
}

func (s *shelf) FindButton(_ context.Context, id string) (storage.Button, error) {
	if b, ok := s.kept[id]; ok || s.fault != nil {
		return b, s.fault
	}
	return storage.Button{}, fmt.Errorf("shelf: %w", storage.ErrNotFound)
}

const (
	owner  = "12345678901234567890"
	server = "11111111111111111111"
)

func TestButtonsComeBackAsTheyWere(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	store := &shelf{}
	b := buttons{store: store}
	commands := bot.Commands()
	inline := 0
	for range 200 {
		var list []say.Button
		for range 1 + r.IntN(30) {
			c := commands[r.IntN(len(commands))]
			button := say.Button{Label: "x", Command: c.Name, Form: r.IntN(4) == 0, Options: map[string]string{}}
			for range r.IntN(4) {
				button.Options[nastyText(r, 1)] = nastyText(r, 1+r.IntN(20)) + strings.Repeat("\n~|=+ %", r.IntN(3))
			}
			if r.IntN(8) == 0 {
				button = say.Button{Label: "Keep it"}
			}
			list = append(list, button)
		}
		kept := len(store.kept)
		rows, err := b.rows(t.Context(), owner, server, list)
		if err != nil {
			t.Fatal(err)
		}
		inline += min(len(list), 25) - (len(store.kept) - kept)
		m := api.Message{Content: "x", Components: rows}
		withinLimits(t, &api.Message{Components: rows, AllowedMentions: api.Mentions{Parse: []string{}}})
		fit(&m)
		lints(t, &m)
		i := 0
		for _, row := range m.Components {
			for _, c := range row.Components {
				if strings.ContainsFunc(c.CustomID, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }) {
					t.Fatalf("%q may come back changed", c.CustomID)
				}
				sameButton(t, b, c.CustomID, list[i])
				i++
			}
		}
		if i != min(len(list), 25) {
			t.Fatalf("%d buttons of %d are shown", i, len(list))
		}
	}
	if inline < 200 || len(store.kept) < 200 {
		t.Errorf("%d ids hold everything, %d buttons are in the store; want many of both", inline, len(store.kept))
	}
}

func sameButton(t *testing.T, b buttons, id string, want say.Button) {
	t.Helper()
	got, err := b.parse(t.Context(), id)
	if err != nil {
		t.Fatalf("%q: %v", id, err)
	}
	action := map[bool]string{false: actionCommand, true: actionForm}[want.Form]
	if want.Command == "" {
		action = actionKeep
	}
	if got.Action != action || got.Owner != owner || got.Guild != server || got.Command != want.Command || !maps.Equal(got.Options, want.Options) {
		t.Fatalf("%q: got %+v, want %+v", id, got, want)
	}
}

func TestButtonIDs(t *testing.T) {
	b := buttons{store: &shelf{}}
	rows, err := b.rows(t.Context(), "901", "902", []say.Button{
		{Label: "Remove it", Danger: true, Command: "race remove", Options: map[string]string{"race": "Hill Loop 2026-06-28"}},
		{Label: "Keep it"}, {Label: "Form", Command: "week share", Form: true}})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct {
		id    string
		style int
	}{
		{"1ca.p1.p2.race+remove|race=Hill+Loop+2026-06-28", api.StyleDanger}, {"1kb.p1.p2.", api.StylePrimary}, {"1fc.p1.p2.week+share", api.StyleSecondary},
	} {
		if got := rows[0].Components[i]; got.CustomID != want.id || got.Style != want.style {
			t.Errorf("button %d: got %q in style %d, want %q in %d", i, got.CustomID, got.Style, want.id, want.style)
		}
	}
}

func TestButtonsSurviveARestart(t *testing.T) {
	file := filepath.Join(t.TempDir(), "test.db")
	long := say.Button{Label: "x", Command: "week share", Form: true, Options: map[string]string{"week": strings.Repeat("mon off; ", 20)}}
	var id string
	for i := range 2 {
		db := storagetest.Open(t, file)
		b := buttons{store: db}
		if i == 0 {
			rows, err := b.rows(t.Context(), owner, server, []say.Button{long})
			if err != nil {
				t.Fatal(err)
			}
			id = rows[0].Components[0].CustomID
		} else {
			sameButton(t, b, id, long)
		}
		if _, err := b.parse(t.Context(), id[:len(id)-1]+"0"); !errors.Is(err, errStale) {
			t.Errorf("a key that is not in the database: got %v, want errStale", err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestStaleButtons(t *testing.T) {
	b := buttons{store: &shelf{}}
	for _, id := range []string{"", "x", "1ca", "1ca.p1", "1ca.p1.p2.", "1ca.901.race+remove|race=Hill", "2ca.p1.p2.ride", "1xa.p1.p2.ride", "1ca.-1.p2.ride", "1ca.P1.p2.ride", "1ca..p2.ride",
		"1ca.p1.??.ride", "1c.p1.p2.ride", "1caa.p1.p2.ride", "1Ca.p1.p2.GONE", "1ka.p1.p2.x", "1Ka.p1.p2.", "1ma.p1..", "1ma.p1..x", "1ma.p1..-1", "1Ma.p1..1", "1ca.p1.p2.ride|day",
		"1ca.p1.p2.ride|day=a|day=b", "1ca.p1.p2.|day=a", "1ca.zzzzzzzzzzzzzz.p2.ride", "1ca.p1.p2." + strings.Repeat("x", 100), "\xff\xfe.1.\x00"} {
		if got, err := b.parse(t.Context(), id); !errors.Is(err, errStale) {
			t.Errorf("%q: got %+v, %v; want errStale", id, got, err)
		}
	}
}

func TestFaultsOfTheStoreAreNotStale(t *testing.T) {
	broken := errors.New("disk")
	b := buttons{store: &shelf{fault: broken}}
	if _, err := b.parse(t.Context(), "1Ca.p1.p2.KEY"); !errors.Is(err, broken) || errors.Is(err, errStale) {
		t.Errorf("got %v", err)
	}
	long := say.Button{Label: "x", Command: "ride", Options: map[string]string{"day": strings.Repeat("x", 100)}}
	if _, err := b.rows(t.Context(), owner, server, []say.Button{long}); !errors.Is(err, broken) {
		t.Errorf("got %v", err)
	}
	if _, err := b.rows(t.Context(), "ines", server, []say.Button{{Label: "x", Command: "ride"}}); err == nil {
		t.Error("an owner who is no user of Discord's was taken")
	}
}

func TestFormIDLeavesOutWhatTheFormAsks(t *testing.T) {
	b := buttons{store: &shelf{}}
	id, err := b.formID(t.Context(), owner, server, "week share", map[string]string{"week": "mon off", "from": "2026-06-01"})
	if err != nil {
		t.Fatal(err)
	}
	sameButton(t, b, id, say.Button{Command: "week share", Form: true, Options: map[string]string{"from": "2026-06-01"}})
}

func TestClubButtons(t *testing.T) {
	b := buttons{store: &shelf{}}
	var clubs []storage.Club
	for i := range 30 {
		clubs = append(clubs, storage.Club{ID: storage.ClubID(i + 1), Name: strings.Repeat("Marrow Vale Wheelers ", i)})
	}
	clubs[0].Name = "Marrow Vale Wheelers"
	m := api.Message{Content: "x", Components: b.clubRows(owner, clubs)}
	fit(&m)
	withinLimits(t, &m)
	lints(t, &m)
	n := 0
	for _, row := range m.Components {
		for _, c := range row.Components {
			n++
			got, err := b.parse(t.Context(), c.CustomID)
			if err != nil || got.Action != actionClub || got.Owner != owner || got.Club != storage.ClubID(n) {
				t.Errorf("%q: got %+v, %v", c.CustomID, got, err)
			}
		}
	}
	if n != 25 {
		t.Errorf("got %d buttons, want 25", n)
	}
}

func FuzzParseButton(f *testing.F) {
	for _, id := range []string{"", "1ca.p1.p2.race+remove|race=Hill+Loop", "1Fa.p1.p2.KEY", "1kb.p1.p2.", "1ma.p1..7", "1ca.p1.p2.a~0~1~2~3~4|~=~|=", "1ca.1...|=.="} {
		f.Add(id)
	}
	b := buttons{store: &shelf{}}
	f.Fuzz(func(t *testing.T, id string) {
		p, err := b.parse(t.Context(), id)
		if err != nil {
			if !errors.Is(err, errStale) {
				t.Fatalf("%q: %v", id, err)
			}
			return
		}
		if p.Action == actionClub {
			return
		}
		p.Owner, p.Guild = owner, server
		again, err := b.id(t.Context(), p, 0)
		if err != nil {
			t.Fatalf("%q: %v", id, err)
		}
		sameButton(t, b, again, say.Button{Command: p.Command, Options: p.Options, Form: p.Action == actionForm})
	})
}

// Buttons of a post carry its mark; those without an owner are for commands that
// look for a coach themselves.
func TestButtonsOfPosts(t *testing.T) {
	b := buttons{store: &shelf{}}
	p := storage.Post{Kind: storage.PostReminder, Key: personKey("901"), Day: 20000}
	mark := markOf(p)
	if next := p; len(mark) != markLength {
		t.Errorf("mark %q", mark)
	} else if next.Day++; markOf(next) == mark {
		t.Error("two days have one mark")
	}
	athlete := map[string]string{"athlete": "Ines"}
	long := map[string]string{"athlete": strings.Repeat("Ines ", 20)}
	rows, err := b.marked(t.Context(), press{Guild: "902", Mark: mark}, []say.Button{{Label: "a", Command: "coach athlete", Options: athlete}, {Label: "b", Command: "coach athlete", Options: long}})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []map[string]string{athlete, long} {
		id := rows[0].Components[i].CustomID
		got, err := b.parse(t.Context(), id)
		if err != nil || got.Owner != "" || got.Guild != "902" || got.Mark != mark || got.Command != "coach athlete" || !maps.Equal(got.Options, want) || markIn(id) != mark {
			t.Errorf("%q: %+v, %v", id, got, err)
		}
	}
	for _, button := range []say.Button{{Label: "x", Command: "ride"}, {Label: "x", Command: "coach athlete", Form: true}, {Label: "x"}} {
		if rows, err := b.marked(t.Context(), press{Guild: "902"}, []say.Button{button}); err == nil {
			t.Errorf("%+v needs no owner: %v", button, rows)
		}
	}
	key := "KEPT"
	b.store.(*shelf).kept[key] = storage.Button{Command: "me set", Options: map[string]string{"remind": "off"}}
	for _, id := range []string{"1ca..p2.ride", "1ka..p2.", "1ma...7", "1fa..p2.coach+athlete", "1Ca..p2." + key, "1caABCDEFGH.p1.p2.ride", "1ca1234567.p1.p2.ride"} {
		if got, err := b.parse(t.Context(), id); !errors.Is(err, errStale) {
			t.Errorf("%q: got %+v, %v; want errStale", id, got, err)
		}
	}
	for id, want := range map[string]string{"1ca00000abc.p1.p2.ride": "00000abc", "1ca.p1.p2.ride": "", "x": "", "": ""} {
		if got := markIn(id); got != want {
			t.Errorf("mark of %q: %q", id, got)
		}
	}
}

// The topics of /help are one menu. Whoever asked chooses from it, nobody else.
func TestTopicsAreAMenu(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"))
	for who, coach := range map[string]bool{"Tomas": false, "Mira": true} {
		help := s.give(s.in(who), "help")
		rows := help.Message.Components
		if len(rows) != 1 || len(rows[0].Components) != 1 || rows[0].Components[0].Placeholder != "Choose a topic to see its commands" {
			t.Fatalf("%s sees no menu: %+v", who, rows)
		}
		topics := help.Buttons()
		if !slices.Contains(topics, "race") || slices.Contains(topics, "coach") != coach {
			t.Errorf("%s chooses from %q", who, topics)
		}
		for _, topic := range topics {
			s.shows(s.press(s.in(who), help, topic), "/"+topic)
		}
	}
	reply := say.Reply{Lines: said("Topics."), Menu: "Choose", Buttons: []say.Button{{Label: "week", Command: "help", Options: map[string]string{"topic": "week"}}}}
	rows, err := s.app.buttons.below(t.Context(), s.club.UserID("Tomas"), s.club.ID, reply)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.app.api.Send(s.within(), s.club.ChannelID("general"), s.app.renderer().messages(reply, rows)[0]); err != nil {
		t.Fatal(err)
	}
	for who, want := range map[string]string{"Tomas": "/week share", "Ines": "This button is for the rider who asked"} {
		i, err := s.double.Press(s.in(who), s.double.Sent(s.club.ChannelID("general"))[0], "week")
		s.shows(s.await(i, err), want)
	}
}
