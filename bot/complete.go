package bot

import (
	"context"
	"slices"

	"musette/bot/coach"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/plans"
	"musette/bot/races"
)

// Offer lists values that fit what has been typed of an option: its choices,
// the rider's races, days or zones. Offers help; Handle checks every value anyway.
func (b *Bot) Offer(ctx context.Context, req desk.Request, name, option, typed string) []command.Offer {
	cmd, err := command.Find(b.commands, name)
	if err != nil {
		return nil
	}
	o, ok := cmd.Option(option)
	if !ok {
		return nil
	}
	switch {
	case len(o.Choices) > 0:
		return command.Fitting(command.Plain(o.Choices), typed)
	case o.Complete == command.CompleteZone:
		return command.Fitting(command.Plain(desk.Zones()), typed)
	case o.Complete == command.CompleteOffers:
		return command.ListedOffers(o.Offers, typed)
	case o.Complete == command.CompleteNothing:
		return nil
	}
	who, err := b.base.Rider(ctx, req)
	if err != nil {
		return nil
	}
	if req.Rider = who; cmd.Allow(&req) != nil {
		return nil
	}
	switch o.Complete {
	case command.CompleteRider:
		if !req.IsCoach() { // who rides for the club is for its coaches
			return ownName(who, typed)
		}
		return coach.RiderOffers(ctx, b.base, who, typed)
	case command.CompleteRaceJoin:
		return races.JoinOffers(ctx, b.base, who, typed)
	case command.CompleteDay:
		return command.DayOffers(who.Today, typed)
	case command.CompleteDayOver:
		return command.PastDayOffers(who.Today, typed)
	}
	all, err := b.base.DB.Races(ctx, who.Athlete.ID) // none of a rider who is new
	if err != nil {
		return nil
	}
	switch o.Complete {
	case command.CompleteRaceOver:
		all = desk.Begun(all, who.Today)
		slices.Reverse(all)
	case command.CompleteRaces:
		return plans.ListOffers(desk.ToCome(all, who.Today), option, typed)
	default:
		all = desk.ToCome(all, who.Today)
	}
	return command.Fitting(command.RaceOffers(all), typed)
}

// ownName offers riders themselves.
func ownName(who *desk.Rider, typed string) []command.Offer {
	if !who.Known() {
		return nil
	}
	return command.Fitting(command.Plain([]string{who.Athlete.Name}), typed)
}
