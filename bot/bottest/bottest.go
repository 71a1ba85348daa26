// Package bottest lets tests talk to the bot, with a real database.
package bottest

import (
	"bytes"
	"errors"
	"flag"
	"log/slog"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// Offers are the values offered for an option, after a check of all that holds for any.
func (k *Talk) Offers(name, option, typed string) []string {
	k.T.Helper()
	var values []string
	for _, o := range k.Bot.Offer(k.T.Context(), k.Who, name, option, typed) {
		for _, text := range []string{o.Label, o.Value} {
			if n := utf8.RuneCountInString(text); n < 1 || n > desk.MaxOfferText {
				k.T.Errorf("/%s %s:%.40s offers a text of %d characters: %q", name, option, typed, n, text)
			}
		}
		if slices.Contains(values, o.Value) {
			k.T.Errorf("/%s %s:%.40s offers %q twice", name, option, typed, o.Value)
		}
		values = append(values, o.Value)
	}
	if len(values) > command.MaxOffers {
		k.T.Errorf("/%s %s:%.40s offers %d values", name, option, typed, len(values))
	}
	return values
}

// Undo presses the button Undo of a reply.
func (k *Talk) Undo(r say.Reply) say.Reply {
	k.T.Helper()
	reply := k.Press(r, "Undo")
	if reply.Err != nil {
		k.T.Fatalf("undo of %s: %s", r.Text(), reply.Text())
	}
	return reply
}

// InesWeek is a typical week of 10 h 10 with a day off and two hard days.
const InesWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
	"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// Talk is a conversation of tests with a real database. Its Monday is 1 June 2026.
type Talk struct {
	T    testing.TB
	Bot  *bot.Bot
	Base *desk.Base // a look behind the bot
	DB   *storage.DB
	Who  desk.Request
	Log  *bytes.Buffer
	Draw func(desk.Paint) (picture.Picture, error)
	Path string // of the database
}

func NewTalk(t testing.TB) *Talk {
	t.Helper()
	return talkAt(t, filepath.Join(t.TempDir(), "test.db"))
}

func talkAt(t testing.TB, path string) *Talk {
	t.Helper()
	db := storagetest.Open(t, path)
	k := &Talk{T: t, DB: db, Log: new(bytes.Buffer), Draw: Sketch, Path: path}
	k.Base = &desk.Base{DB: db, Log: slog.New(slog.NewTextHandler(k.Log, nil)), Draw: k.painted}
	k.With()
	k.Who = desk.Request{Club: "Marrow Vale Wheelers", Athlete: "Ines", Zone: "Europe/Lisbon", Now: At("2026-06-01T08:00:00Z")}
	return k
}

// With has commands beside those of the table.
func (k *Talk) With(more ...command.Command) {
	k.Bot = bot.New(bot.Deps{DB: k.DB, Log: k.Base.Log, Draw: k.painted, More: more})
}

func (k *Talk) painted(p desk.Paint) (picture.Picture, error) { return k.Draw(p) }

// Sketch stands in for a picture: drawing takes most of a test's time, under the race detector above all.
func Sketch(desk.Paint) (picture.Picture, error) {
	return picture.Picture{PNG: []byte("\x89PNG"), Alt: "a sketch"}, nil
}

// Drawn has pictures drawn.
func (k *Talk) Drawn() { k.Draw = func(p desk.Paint) (picture.Picture, error) { return p() } }

func At(text string) time.Time {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	return t
}

// As goes on as another rider.
func (k *Talk) As(name string) { k.Who.Athlete = name }

// Say answers a line as the terminal would.
func (k *Talk) Say(line string) say.Reply {
	k.T.Helper()
	req, _ := command.ParseLine(bot.Commands(), line)
	return k.put(req)
}

// Ask puts a request for who speaks, as any transport would.
func (k *Talk) Ask(command string, options map[string]string, text string) say.Reply {
	k.T.Helper()
	return k.put(desk.Request{Command: command, Options: options, Text: text})
}

func (k *Talk) put(asked desk.Request) say.Reply {
	k.T.Helper()
	req := k.Who
	req.Command, req.Options, req.Text, req.Fault = asked.Command, asked.Options, asked.Text, asked.Fault
	reply, err := k.Bot.Handle(k.T.Context(), req)
	if err != nil {
		k.T.Fatalf("/%s %v: %v", req.Command, req.Options, err)
	}
	return reply
}

// Press presses a button of a reply, as its owner.
func (k *Talk) Press(r say.Reply, label string) say.Reply {
	k.T.Helper()
	for _, b := range r.Buttons {
		if b.Label == label && b.Command != "" && !b.Form {
			asks := k.Who.Ask
			k.Who.Ask = false // the button is the answer
			defer func() { k.Who.Ask = asks }()
			return k.Ask(b.Command, b.Options, "")
		}
	}
	k.T.Fatalf("no button %q to press in %+v:\n%s", label, r.Buttons, r.Text())
	return say.Reply{}
}

// OK says lines that must be accepted and returns the last reply.
func (k *Talk) OK(lines ...string) (reply say.Reply) {
	k.T.Helper()
	for _, line := range lines {
		if reply = k.Say(line); reply.Err != nil {
			k.T.Fatalf("%s: refused: %s", line, reply.Text())
		}
		if reply.Topic != say.TopicCommand || !reflect.DeepEqual(reply.Topics, []string{say.TopicCommand}) {
			k.T.Errorf("%s: topic %q %v, want command", line, reply.Topic, reply.Topics)
		}
	}
	return reply
}

// Refused says a line that must be refused for a field, or several, and change nothing.
func (k *Talk) Refused(line string, fields ...string) say.Reply {
	k.T.Helper()
	before := k.Stored()
	reply := k.Say(line)
	switch {
	case reply.Err == nil:
		k.T.Fatalf("%s: accepted: %s", line, reply.Text())
	case !slices.Equal(reply.Err.Fields(), fields):
		k.T.Errorf("%s: fields %q, want %q (%s)", line, reply.Err.Fields(), fields, reply.Text())
	case strings.Count(reply.Text(), "\n") != len(reply.Err.More) || reply.Err.Message == "" || !reply.Private:
		k.T.Errorf("%s: want a private line for each fault, got %q (private %v)", line, reply.Text(), reply.Private)
	}
	if after := k.Stored(); !reflect.DeepEqual(before, after) {
		k.T.Errorf("%s: changed the database:\n%+v\n%+v", line, before, after)
	}
	return reply
}

// Stored is all that the database holds of the rider and the club's races.
func (k *Talk) Stored() any {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	facts, err := k.Base.Facts(k.T.Context(), who)
	if err != nil {
		k.T.Fatal(err)
	}
	races, err := k.DB.ClubRaces(k.T.Context(), who.Club.ID)
	if err != nil {
		k.T.Fatal(err)
	}
	return []any{who.Club, who.Athlete, *facts.Now, races, *facts.All}
}

// KnownOn is what was known of the rider on a day.
func (k *Talk) KnownOn(date string) *planner.Facts {
	k.T.Helper()
	d, err := planner.ParseISODate(date)
	if err != nil {
		k.T.Fatal(err)
	}
	all := k.Stored().([]any)[4].(planner.Facts)
	return all.KnownOn(d)
}

// Facts is what is known of the rider now.
func (k *Talk) Facts() planner.Facts { return k.Stored().([]any)[2].(planner.Facts) }

// Wants checks that a reply holds each text.
func Wants(t *testing.T, r say.Reply, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !strings.Contains(r.Text(), text) {
			t.Errorf("reply lacks %q:\n%s", text, r.Text())
		}
	}
}

func FirstLine(r say.Reply) string {
	line, _, _ := strings.Cut(r.Text(), "\n")
	return line
}

// PrintedCommand is a command in a reply, up to the end of its line or sentence.
var PrintedCommand = regexp.MustCompile(`(?m)(?:^|[ (])/((?:race|week|plan|season|ride|done|tell|me|help)\b(?:"[^"\n]*"|[^"\n])*?)(?:\. |\.?$)`)

// OnPlatform goes on in a club and as a rider that have numbers of a platform.
func (k *Talk) OnPlatform(club, rider string) {
	k.Who.ClubKey, k.Who.AthleteKey = storage.PlatformKey("discord", club), storage.PlatformKey("discord", rider)
}

// Club is the club as it is stored.
func (k *Talk) Club() storage.Club {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	return who.Club
}

// Reminder is what who speaks is told on a day by themselves; due is false where that is nothing.
func (k *Talk) Reminder(day planner.Date, now time.Time) (reply say.Reply, due bool) {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	known, err := k.DB.KnownOf(k.T.Context(), day, who.Athlete.ID)
	if err == nil {
		reply, due, err = k.Bot.Reminder(k.T.Context(), known, day, now)
	}
	if err != nil {
		k.T.Fatalf("reminder of %s: %v", day, err)
	}
	return reply, due
}

func SameFacts(a, b planner.Facts) bool { return reflect.DeepEqual(a, b) }

var Update = flag.Bool("update", false, "write generated files anew")

// WithRaces is a talk of a rider with a typical week, an A, a B and a C race.
func WithRaces(t *testing.T) *Talk {
	t.Helper()
	withRaces.Do(func() {
		k := NewTalk(t)
		k.OK("/week share week:\""+InesWeek+"\"", `/race add name:"Quarry Crit" date:2026-06-07 priority:C hours:1`,
			`/race add name:"Heron Valley" date:2026-06-14 priority:B hours:2`, `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5 start:10:30 taper:14`)
		if err := k.DB.Close(); err != nil {
			t.Fatal(err)
		}
		file, err := os.ReadFile(k.Path)
		if err != nil {
			t.Fatal(err)
		}
		withRaces.file = file
	})
	path := filepath.Join(t.TempDir(), "test.db")
	if err := os.WriteFile(path, withRaces.file, 0o600); err != nil {
		t.Fatal(err)
	}
	return talkAt(t, path)
}

// withRaces is the database of WithRaces, which is made once and then copied.
var withRaces struct {
	sync.Once
	file []byte
}

// Meanwhile gives a line while somebody changes the database: the line has read what it
// reads beforehand and waits to write when the change is done.
func (k *Talk) Meanwhile(line string, change func(tx *storage.DB) error) (reply say.Reply) {
	k.T.Helper()
	done := make(chan struct{})
	err := k.DB.Change(k.T.Context(), func(tx *storage.DB) error {
		go func() {
			defer close(done)
			reply = k.Say(line)
		}()
		for writers() < 2 { // this one and the line
			select {
			case <-done:
				return errors.New("the line wrote nothing")
			default:
				runtime.Gosched()
			}
		}
		return change(tx)
	})
	if err != nil {
		k.T.Fatalf("%s: %v", line, err)
	}
	<-done
	return reply
}

// writers counts the goroutines that write or wait to.
func writers() int {
	stacks := make([]byte, 1<<20)
	return strings.Count(string(stacks[:runtime.Stack(stacks, true)]), "storage.(*DB).write(")
}
