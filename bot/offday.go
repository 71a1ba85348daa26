package bot

import (
	"context"
	"log/slog"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
)

// offNow is what changed for riders whose week had days off before they were free.
const offNow = "New: in your week off now means a free day by habit. Openers or a moved session may land there. Write busy for a day on which you can never ride: /week share"

// tellOff says once in a private answer what a day off is now.
func tellOff(ctx context.Context, b *desk.Base, who *desk.Rider, reply *say.Reply) {
	if !who.Athlete.OffUntold {
		return
	}
	if err := b.DB.OffTold(ctx, who.Athlete.ID); err != nil { // the answer stands all the same
		b.Log.ErrorContext(ctx, "days off are not told", slog.Any("error", err))
		return
	}
	reply.Gap()
	reply.Addf(offNow)
}

// tellEntered says once, in the first private answer to a rider whom a coach entered,
// what is stored of them and how to erase it.
func tellEntered(ctx context.Context, b *desk.Base, who *desk.Rider, reply *say.Reply) {
	if !who.Athlete.Entered {
		return
	}
	facts, err := b.Facts(ctx, who)
	if err == nil {
		err = b.DB.MarkEntered(ctx, who.Athlete.ID, false)
	}
	if err != nil { // the answer stands all the same, and the next one tells it
		b.Log.ErrorContext(ctx, "what a coach entered is not told", slog.Any("error", err))
		return
	}
	var has []string
	if len(facts.Now.Weeks) > 0 {
		has = append(has, "your typical week")
	}
	for i := range facts.Now.Races {
		has = append(has, facts.Now.Races[i].Name+" on "+facts.Now.Races[i].Date.Short())
	}
	const most = 5
	if len(has) > most {
		has = append(has[:most], show.Count(len(has)-most, "more race"))
	}
	reply.Gap()
	if len(has) > 0 {
		reply.Addf("Before you wrote to me, your coach entered for you: %s.", say.AndList(has))
	} else {
		reply.Addf("Before you wrote to me, your coach entered something for you.")
	}
	reply.Addf("I store that and your name, for you and your coaches. See it: /me show. Erase it all: /me erase")
}
