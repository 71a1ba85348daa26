package desk

import (
	"context"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// RaceOf finds the rider's race that the option race means.
func (b *Base) RaceOf(ctx context.Context, req Request) (storage.Race, error) {
	races, err := b.Db.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return storage.Race{}, err
	}
	return FindRace(races, req.Get("race"), req.Rider.Today)
}

// NamedExactly reports whether the text is the race's whole name or its date:
// nothing is removed on less, such as a weekday.
func NamedExactly(r storage.Race, text string, today planner.Date) bool {
	name, on := CutDate(text)
	if show.SameName(text, r.Name) || on == r.Date && (show.SameName(name, r.Name) || OfferedName(name, r.Name)) {
		return true
	}
	date, err := typed.Date(text, today)
	return err == nil && date == r.Date && strings.ContainsAny(text, "0123456789") && !strings.Contains(strings.ToLower(text), "day")
}

// OfferedName reports a long name as raceOffers cuts it.
func OfferedName(text, name string) bool {
	return text != "" && text == say.Clip16(name, MaxOfferText-len(" 2026-06-28"))
}
