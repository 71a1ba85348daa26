package remind

import (
	"context"
	"fmt"
	"strings"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// maxPause is the longest pause of reminders, in days.
const maxPause = 60

// exampleRemind shows what the setting remind takes.
const exampleRemind = "06:30, changed 06:30, always 06:30 or off"

// RemindText is the setting remind as /me set takes it.
func RemindText(r storage.Reminders) string {
	if r.Mode == storage.RemindOff {
		return r.Mode.String()
	}
	return r.Mode.String() + " " + r.At
}

// ReadRemind reads a word, a time of day or both. A time alone turns reminders
// on, a word alone keeps the time.
func ReadRemind(r *storage.Reminders, text string) error {
	bad := say.Refuse("", "%s is not known. Write %s", say.Shown(text), exampleRemind)
	said, clock := false, ""
	for _, word := range strings.Fields(strings.ToLower(strings.ReplaceAll(text, ",", " "))) {
		if word == "on" && r.Mode == storage.RemindOff {
			word = storage.RemindChanged.String()
		} else if word == "on" {
			word = r.Mode.String()
		}
		mode, known := map[string]storage.Remind{"off": storage.RemindOff, "changed": storage.RemindChanged, "always": storage.RemindAlways}[word]
		switch {
		case known && !said:
			said, r.Mode = true, mode
		case known:
			return bad
		default:
			clock = strings.TrimSpace(clock + " " + word)
		}
	}
	switch {
	case clock == "":
		return nil
	case said && r.Mode == storage.RemindOff:
		return bad
	}
	at, err := typed.Start(clock)
	if err != nil {
		return bad
	}
	if r.At = at; !said && r.Mode == storage.RemindOff {
		r.Mode = storage.RemindChanged
	}
	return nil
}

// HasPlace refuses a private thread where the club has no channel to open it in.
func HasPlace(r *desk.Request, by storage.RemindBy) error {
	if by == storage.RemindThread && !r.Rider.HasChannel() {
		return say.Refuse("", "thread needs a channel, and %s has set none. Ask a coach for /club setup, or write direct or ride", r.Rider.Club.Name)
	}
	return nil
}

// ReadPause reads how many of the coming reminders' days are left out: from today
// on, or from tomorrow where today's time has gone by. 0 ends a pause.
func ReadPause(r *desk.Request, s *storage.Settings, text string) error {
	days, err := desk.WholeNumber(text, 0, maxPause, "3, or 0 to end a pause")
	if err != nil {
		return err
	}
	if s.Remind.Pause = 0; days == 0 {
		return nil
	}
	zone, err := reminderZone(s, &r.Rider.Club)
	if err != nil {
		return err
	}
	today := planner.DateOf(r.Now.In(zone))
	s.Remind.Pause = today.AddDays(days)
	if due, ok := DueAt(today, s.Remind.At, zone); ok && due.After(r.Now) {
		s.Remind.Pause--
	}
	return nil
}

// reminderZone is the zone by which a rider is reminded: their own, else the club's.
func reminderZone(s *storage.Settings, club *storage.Club) (*time.Location, error) {
	name := club.Zone
	if s.Zone != "" {
		name = s.Zone
	}
	zone, err := time.LoadLocation(name)
	if err != nil {
		return nil, fmt.Errorf("zone of reminders: %w", err)
	}
	return zone, nil
}

// SetsReminders reports whether an option changes when reminders come.
func SetsReminders(r *desk.Request) bool {
	return r.Has("remind") || r.Has("remind-by") || r.Has("pause") || r.Has("zone")
}

// NextReminder says when and how the next reminder comes, and how to stop.
func NextReminder(ctx context.Context, b *desk.Base, req *desk.Request, a *storage.Athlete, e *desk.Effect) (lines []say.Line, buttons []say.Button, err error) {
	r := a.Settings.Remind
	on := map[string]string{"remind": r.At}
	switch {
	case r.Mode == storage.RemindOff && (req.Has("remind") || req.Has("remind-by") || req.Has("pause")):
		return []say.Line{say.Linef("You get no reminders from %s.", req.Rider.Club.Name), say.Offeredf("Turn them on: /me set remind:%s", r.At)},
			[]say.Button{{Label: "Remind me", Command: "me set", Options: on}}, nil
	case r.Mode == storage.RemindOff:
		return nil, nil, nil
	}
	buttons = []say.Button{stopButton()}
	stop := say.Offeredf("Stop: /me set remind:off")
	if r.By == storage.RemindRide {
		return []say.Line{say.Linef("I will send nothing. Ask when you want to know: /ride"), stop}, buttons, nil
	}
	zone, err := reminderZone(&a.Settings, &req.Rider.Club)
	if err != nil {
		return nil, nil, err
	}
	next, err := nextDue(ctx, b, req, a, e, zone)
	if err != nil {
		return nil, nil, err
	}
	return append(next, stop), buttons, nil
}
