package storage

import (
	"context"
	"fmt"
	"slices"
)

// Whose tells whose data is meant: somebody on a platform in all clubs, or who is
// known by name alone in the one club. Club counts for names only.
type Whose struct {
	Key  Key
	Club ClubID
}

// Whose is the person whom the rider is.
func (a *Athlete) Whose() Whose {
	if a.Key.isPlatform() {
		return Whose{Key: a.Key}
	}
	return Whose{a.Key, a.Club}
}

// keyText is by what rows that go by a person's key are found.
func (w Whose) keyText() string { return (&Athlete{Key: w.Key, Club: w.Club}).PostKey().text }

// Riders lists all riders that a person is, those who left their club and those
// of clubs that removed the bot too.
func (db *DB) Riders(ctx context.Context, w Whose) ([]Athlete, error) {
	riders, err := ridersOf(ctx, db.reader, w)
	if err != nil {
		return nil, fmt.Errorf("riders of a person: %w", explain(err))
	}
	return riders, nil
}

func ridersOf(ctx context.Context, q queryer, w Whose) ([]Athlete, error) {
	return list(ctx, q, scanAthleteRow, selectAthlete+`WHERE a.key = ?1 AND (?2 OR a.club_id = ?3) ORDER BY a.id`, w.Key.text, w.Key.isPlatform(), w.Club)
}

// RidersNamed lists the riders whose name and whose club's name are these, in
// capitals or not. On a platform there may be several.
func (db *DB) RidersNamed(ctx context.Context, club, rider string) ([]Athlete, error) {
	type named struct {
		club  string
		rider Athlete
	}
	all, err := list(ctx, db.reader, func(n *named, scan func(...any) error) error {
		return scan(&n.club, &n.rider.Name, &n.rider.ID, &n.rider.Club, &n.rider.Key.text)
	}, `SELECT c.name, a.name, a.id, a.club_id, a.key FROM athlete a JOIN club c ON c.id = a.club_id ORDER BY a.id`)
	if err != nil {
		return nil, fmt.Errorf("riders by name: %w", explain(err))
	}
	all = slices.DeleteFunc(all, func(n named) bool { return Fold(n.club) != Fold(club) || Fold(n.rider.Name) != Fold(rider) })
	var riders []Athlete
	for _, n := range all {
		riders = append(riders, n.rider)
	}
	return riders, nil
}
