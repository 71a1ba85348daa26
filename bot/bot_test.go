package bot

import (
	"bytes"
	"context"
	"log/slog"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"musette/bot/picture"
	"musette/planner"
	"musette/storage"
)

// inesWeek is a typical week of 10 h 10 with a day off and two hard days.
const inesWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
	"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// talk is a conversation of tests with a real database. Its Monday is 1 June 2026.
type talk struct {
	t    testing.TB
	bot  *Bot
	base *Base // a look behind the bot
	db   *storage.DB
	who  Request
	log  *bytes.Buffer
	draw func(paint) (picture.Picture, error)
	path string // of the database
}

func newTalk(t testing.TB) *talk {
	t.Helper()
	path := filepath.Join(t.TempDir(), "test.db")
	db, err := storage.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	k := &talk{t: t, db: db, log: new(bytes.Buffer), draw: sketch, path: path}
	k.base = &Base{db: db, log: slog.New(slog.NewTextHandler(k.log, nil)), draw: k.painted}
	k.with()
	k.who = Request{Club: "Marrow Vale Wheelers", Athlete: "Ines", Zone: "Europe/Lisbon", Now: at("2026-06-01T08:00:00Z")}
	return k
}

// with has commands beside those of the table.
func (k *talk) with(more ...Command) {
	k.bot = New(Deps{DB: k.db, Log: k.base.log, Draw: k.painted, More: more})
}

func (k *talk) painted(p paint) (picture.Picture, error) { return k.draw(p) }

// sketch stands in for a picture: drawing takes most of a test's time, under the race detector above all.
func sketch(paint) (picture.Picture, error) {
	return picture.Picture{PNG: []byte("\x89PNG"), Alt: "a sketch"}, nil
}

// drawn has pictures drawn.
func (k *talk) drawn() { k.draw = func(p paint) (picture.Picture, error) { return p() } }

func at(text string) time.Time {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	return t
}

// as goes on as another rider.
func (k *talk) as(name string) { k.who.Athlete = name }

// say answers a line as the terminal would.
func (k *talk) say(line string) Reply {
	k.t.Helper()
	req, err := ParseLine(Commands(), line)
	if err != nil {
		fault, ref := userError(err, "", false)
		if ref != "" {
			k.t.Fatalf("%s: %v", line, err)
		}
		return Refusal(fault.field, "%s", fault.line)
	}
	return k.ask(req.Command, req.Options, req.Text)
}

// ask puts a request for who speaks, as any transport would.
func (k *talk) ask(command string, options map[string]string, text string) Reply {
	k.t.Helper()
	req := k.who
	req.Command, req.Options, req.Text = command, options, text
	reply, err := k.bot.Handle(k.t.Context(), req)
	if err != nil {
		k.t.Fatalf("/%s %v: %v", command, options, err)
	}
	return reply
}

// press presses a button of a reply, as its owner.
func (k *talk) press(r Reply, label string) Reply {
	k.t.Helper()
	for _, b := range r.Buttons {
		if b.Label == label && b.Command != "" && !b.Form {
			asks := k.who.Ask
			k.who.Ask = false // the button is the answer
			defer func() { k.who.Ask = asks }()
			return k.ask(b.Command, b.Options, "")
		}
	}
	k.t.Fatalf("no button %q to press in %+v:\n%s", label, r.Buttons, r.Text())
	return Reply{}
}

// ok says lines that must be accepted and returns the last reply.
func (k *talk) ok(lines ...string) (reply Reply) {
	k.t.Helper()
	for _, line := range lines {
		if reply = k.say(line); reply.Err != nil {
			k.t.Fatalf("%s: refused: %s", line, reply.Text())
		}
		if reply.Topic != TopicCommand || !reflect.DeepEqual(reply.Topics, []string{TopicCommand}) {
			k.t.Errorf("%s: topic %q %v, want command", line, reply.Topic, reply.Topics)
		}
	}
	return reply
}

// refused says a line that must be refused for a field and change nothing.
func (k *talk) refused(line, field string) Reply {
	k.t.Helper()
	before := k.stored()
	reply := k.say(line)
	switch {
	case reply.Err == nil:
		k.t.Fatalf("%s: accepted: %s", line, reply.Text())
	case reply.Err.Field != field:
		k.t.Errorf("%s: field %q, want %q (%s)", line, reply.Err.Field, field, reply.Err.Message)
	case strings.Contains(reply.Text(), "\n") || reply.Err.Message == "" || !reply.Private:
		k.t.Errorf("%s: want one private line, got %q (private %v)", line, reply.Text(), reply.Private)
	}
	if after := k.stored(); !reflect.DeepEqual(before, after) {
		k.t.Errorf("%s: changed the database:\n%+v\n%+v", line, before, after)
	}
	return reply
}

// stored is all that the database holds of the rider and the club's races.
func (k *talk) stored() any {
	k.t.Helper()
	who, err := k.base.rider(k.t.Context(), k.who)
	if err != nil {
		k.t.Fatal(err)
	}
	facts, err := k.base.facts(k.t.Context(), who)
	if err != nil {
		k.t.Fatal(err)
	}
	races, err := k.db.ClubRaces(k.t.Context(), who.club.ID)
	if err != nil {
		k.t.Fatal(err)
	}
	return []any{who.club, who.athlete, *facts.now, races, *facts.all}
}

// knownOn is what was known of the rider on a day.
func (k *talk) knownOn(date string) *planner.Facts {
	k.t.Helper()
	d, err := planner.ParseISODate(date)
	if err != nil {
		k.t.Fatal(err)
	}
	all := k.stored().([]any)[4].(planner.Facts)
	return all.KnownOn(d)
}

// facts is what is known of the rider now.
func (k *talk) facts() planner.Facts { return k.stored().([]any)[2].(planner.Facts) }

// wants checks that a reply holds each text.
func wants(t *testing.T, r Reply, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !strings.Contains(r.Text(), text) {
			t.Errorf("reply lacks %q:\n%s", text, r.Text())
		}
	}
}

func firstLine(r Reply) string {
	line, _, _ := strings.Cut(r.Text(), "\n")
	return line
}

func TestPanicBecomesAReference(t *testing.T) {
	k := newTalk(t)
	k.with(Command{Name: "burst", run: func(*Base, context.Context, Request) (Reply, error) {
		panic("no such thing")
	}})
	req := k.who
	req.Command = "burst"
	reply, err := k.bot.Handle(t.Context(), req)
	if err == nil || reply.Err == nil || !reply.Private {
		t.Fatalf("got %+v, %v; want a private refusal and an error", reply, err)
	}
	_, after, ok := strings.Cut(reply.Text(), "the reference ")
	ref := strings.TrimSuffix(after, ".")
	if !ok || len(ref) != 5 || !strings.Contains(k.log.String(), "ref="+ref) {
		t.Errorf("reference of %q is not in the log:\n%s", reply.Text(), k.log)
	}
	if strings.Contains(reply.Text(), "no such thing") {
		t.Errorf("reply shows the inner fault: %s", reply.Text())
	}
}

func TestBrokenDatabaseIsNotTheRidersFault(t *testing.T) {
	k := newTalk(t)
	k.db.Close()
	req := k.who
	req.Command = "ride"
	reply, err := k.bot.Handle(t.Context(), req)
	if err == nil || reply.Err == nil || reply.Err.Field != "" || !strings.Contains(reply.Text(), "reference") {
		t.Errorf("got %+v, %v; want a reference and an error", reply, err)
	}
}

func TestLogHoldsNoTexts(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:"Secret Cup" date:2026-06-20 priority:A`)
	k.say("is my knee all right?")
	k.refused(`/race add name:"Secret Cup" date:soon priority:A`, "date")
	log := k.log.String()
	for _, text := range []string{"Secret", "knee", "soon", "Ines"} {
		if strings.Contains(log, text) {
			t.Errorf("log holds %q:\n%s", text, log)
		}
	}
	if got := strings.Count(log, "\n"); got != 3 {
		t.Errorf("got %d log lines, want one for each of 3 requests:\n%s", got, log)
	}
}

func TestCoachCommandsAreForCoaches(t *testing.T) {
	k := newTalk(t)
	k.with(Command{Name: "whistle", Coach: true,
		run: func(*Base, context.Context, Request) (Reply, error) { return Reply{Lines: []Line{Say("heard")}}, nil }})
	for _, coach := range []bool{false, true} {
		req := k.who
		req.Command, req.Coach = "whistle", coach
		reply, err := k.bot.Handle(t.Context(), req)
		if err != nil || (reply.Err == nil) != coach {
			t.Errorf("coach %v: got %+v, %v", coach, reply, err)
		}
	}
}

func TestPlainQuestionIsNeverGuessed(t *testing.T) {
	k := newTalk(t)
	for _, text := range []string{"what do I ride tomorrow?", "race add", "hello", "ride", "?"} {
		reply := k.say(text)
		if reply.Topic != TopicUnknown || !reply.Private || reply.Err != nil {
			t.Errorf("%q: got topic %q private %v error %v", text, reply.Topic, reply.Private, reply.Err)
		}
		wants(t, reply, "/ride", "/plan show", "/help")
	}
}

func TestHandleChecksOptionsFromAnyTransport(t *testing.T) {
	k := newTalk(t)
	for _, tc := range []struct {
		command string
		options map[string]string
		field   string
	}{
		{"race add", map[string]string{"name": "X", "date": "2026-06-20"}, "priority"},
		{"race add", map[string]string{"name": "X", "date": "2026-06-20", "priority": "D"}, "priority"},
		{"race add", map[string]string{"name": "a\x00b", "date": "2026-06-20", "priority": "A"}, "name"},
		{"race add", map[string]string{"name": "a\xff", "date": "2026-06-20", "priority": "A"}, "name"},
		{"ride", map[string]string{"when": "today"}, "when"},
		{"race list", map[string]string{"all": "yes"}, "all"},
		{"race fly", nil, "command"},
		{"week share", map[string]string{"week": strings.Repeat("mon off;", 300)}, "week"},
	} {
		req := k.who
		req.Command, req.Options = tc.command, tc.options
		reply, err := k.bot.Handle(t.Context(), req)
		if err != nil || reply.Err == nil || reply.Err.Field != tc.field {
			t.Errorf("%s %v: got %+v, %v; want a refusal of %s", tc.command, tc.options, reply.Err, err, tc.field)
		}
	}
}

func TestClubsNeverSeeEachOther(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", `/race add name:"Barley Ring" date:2026-06-14 priority:A hours:3.5`)
	k.who.Club = "Other Club"
	k.as("Ines")
	if got := k.ok("/race list"); strings.Contains(got.Text(), "Barley Ring") {
		t.Errorf("another club's race is listed:\n%s", got.Text())
	}
	k.refused(`/race remove race:"Barley Ring"`, "race")
	wants(t, k.ok("/ride"), "do not know your typical week")
	wants(t, k.ok("/me show"), "Races to come: 0")
	k.who.Club = "Marrow Vale Wheelers"
	k.as("Tomas")
	wants(t, k.ok("/race list"), "Barley Ring: Ines A")
	k.refused(`/race change race:"Barley Ring" start:9:00`, "race")
}

func TestTheRidersOwnDay(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\"" + inesWeek + "\"")
	k.who.Now = at("2026-06-02T23:30:00Z")
	for zone, want := range map[string]string{"Europe/Lisbon": "2026-06-03", "America/New_York": "2026-06-02", "Pacific/Kiritimati": "2026-06-03"} {
		k.ok("/me set zone:" + zone)
		if got := k.ok("/ride").Date.String(); got != want {
			t.Errorf("%s: today is %s, want %s", zone, got, want)
		}
	}
}
