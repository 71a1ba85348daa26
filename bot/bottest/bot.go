package bottest

import (
	"bytes"
	"log/slog"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// InesWeek is a typical week of 10 h 10 with a day off and two hard days.
const InesWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
	"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// Talk is a conversation of tests with a real database. Its Monday is 1 June 2026.
type Talk struct {
	T    testing.TB
	Bot  *bot.Bot
	Base *desk.Base // a look behind the bot
	Db   *storage.DB
	Who  desk.Request
	Log  *bytes.Buffer
	Draw func(desk.Paint) (picture.Picture, error)
	Path string // of the database
}

func NewTalk(t testing.TB) *Talk {
	t.Helper()
	path := filepath.Join(t.TempDir(), "test.db")
	db, err := storage.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	k := &Talk{T: t, Db: db, Log: new(bytes.Buffer), Draw: Sketch, Path: path}
	k.Base = &desk.Base{Db: db, Log: slog.New(slog.NewTextHandler(k.Log, nil)), Draw: k.painted}
	k.With()
	k.Who = desk.Request{Club: "Marrow Vale Wheelers", Athlete: "Ines", Zone: "Europe/Lisbon", Now: At("2026-06-01T08:00:00Z")}
	return k
}

// With has commands beside those of the table.
func (k *Talk) With(more ...command.Command) {
	k.Bot = bot.New(bot.Deps{DB: k.Db, Log: k.Base.Log, Draw: k.painted, More: more})
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
	req, err := command.ParseLine(bot.Commands(), line)
	if err != nil {
		fault, ref := say.UserError(err, "", false)
		if ref != "" {
			k.T.Fatalf("%s: %v", line, err)
		}
		return say.Refusal(fault.Field, "%s", fault.Line)
	}
	return k.Ask(req.Command, req.Options, req.Text)
}

// Ask puts a request for who speaks, as any transport would.
func (k *Talk) Ask(command string, options map[string]string, text string) say.Reply {
	k.T.Helper()
	req := k.Who
	req.Command, req.Options, req.Text = command, options, text
	reply, err := k.Bot.Handle(k.T.Context(), req)
	if err != nil {
		k.T.Fatalf("/%s %v: %v", command, options, err)
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

// Refused says a line that must be refused for a field and change nothing.
func (k *Talk) Refused(line, field string) say.Reply {
	k.T.Helper()
	before := k.Stored()
	reply := k.Say(line)
	switch {
	case reply.Err == nil:
		k.T.Fatalf("%s: accepted: %s", line, reply.Text())
	case reply.Err.Field != field:
		k.T.Errorf("%s: field %q, want %q (%s)", line, reply.Err.Field, field, reply.Err.Message)
	case strings.Contains(reply.Text(), "\n") || reply.Err.Message == "" || !reply.Private:
		k.T.Errorf("%s: want one private line, got %q (private %v)", line, reply.Text(), reply.Private)
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
	races, err := k.Db.ClubRaces(k.T.Context(), who.Club.ID)
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
