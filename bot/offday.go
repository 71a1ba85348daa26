package bot

import (
	"context"
	"log/slog"

	"musette/bot/desk"
	"musette/bot/say"
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
