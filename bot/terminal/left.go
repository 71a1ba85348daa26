package terminal

import (
	"context"
	"errors"

	"musette/bot"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// left plays that a rider of the session's club leaves the club's server.
func (s *Session) left(ctx context.Context, name string) (say.Reply, error) {
	who := s.who
	who.Athlete, who.Now = name, s.clock.Now()
	person, err := s.bot.Enter(ctx, who)
	if err != nil {
		return say.Reply{}, err
	}
	rider, err := s.rider(ctx, &who)
	if errors.Is(err, storage.ErrNotFound) {
		return say.Reply{}, &planner.InputError{Msg: "nothing is stored of " + say.Shown(person.Athlete) + " in " + person.Club + ". Name one of its riders, for example :left Ines"}
	}
	if err != nil {
		return say.Reply{}, err
	}
	today := planner.DateOf(s.clock.Now().In(person.Zone))
	if err := s.db.MarkLeft(ctx, rider.ID, today); err != nil {
		return say.Reply{}, err
	}
	if !rider.Left.IsZero() {
		today = rider.Left
	}
	reply := said("%s has left %s and is in none of its lists now.", rider.Name, person.Club)
	reply.Addf("A :tick on %s or later erases what is stored, unless %s is back before.", today.AddDays(storage.KeepLeft).Long(), rider.Name)
	return reply, nil
}

// rider is the rider for whom a request speaks; storage.ErrNotFound when nothing is stored.
func (s *Session) rider(ctx context.Context, who *desk.Request) (storage.Athlete, error) {
	if s.db == nil {
		return storage.Athlete{}, storage.ErrNotFound
	}
	club, err := s.db.FindClub(ctx, storage.NameKey(desk.Tidy(who.Club)))
	if err != nil {
		return storage.Athlete{}, err
	}
	return s.db.FindAthlete(ctx, club.ID, storage.NameKey(desk.Tidy(who.Athlete)))
}

// comeBack makes somebody who left a member again by what they ask in the club. What
// needs no club is asked from outside.
func (s *Session) comeBack(ctx context.Context, req *desk.Request) error {
	for _, cmd := range bot.Commands() {
		if cmd.Name == req.Command && cmd.Anywhere {
			return nil
		}
	}
	rider, err := s.rider(ctx, req)
	if errors.Is(err, storage.ErrNotFound) || err == nil && rider.Left.IsZero() {
		return nil
	}
	if err != nil {
		return err
	}
	return s.db.MarkBack(ctx, rider.ID)
}
