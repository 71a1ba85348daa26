package bot

import (
	"context"
	"slices"

	"musette/bot/coach"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/plans"
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
		return coach.RiderOffers(ctx, b.base, who, typed)
	case command.CompleteDay:
		return command.DayOffers(who.Today, typed)
	case command.CompleteDayOver:
		return command.PastDayOffers(who.Today, typed)
	}
	races, err := b.base.DB.Races(ctx, who.Athlete.ID) // none of a rider who is new
	if err != nil {
		return nil
	}
	switch o.Complete {
	case command.CompleteRaceOver:
		races = desk.Begun(races, who.Today)
		slices.Reverse(races)
	case command.CompleteRaces:
		return plans.ListOffers(desk.ToCome(races, who.Today), option, typed)
	default:
		races = desk.ToCome(races, who.Today)
	}
	return command.Fitting(command.RaceOffers(races), typed)
}
