package bot

import (
	"context"
	"log/slog"
)

// offNow is what changed for riders whose week had days off before they were free.
const offNow = "New: in your week off now means a free day by habit. Openers or a moved session may land there. Write busy for a day on which you can never ride: /week share"

// tellOff says once in a private answer what a day off is now.
func (b *Base) tellOff(ctx context.Context, who *rider, reply *Reply) {
	if !who.athlete.OffUntold {
		return
	}
	if err := b.db.OffTold(ctx, who.athlete.ID); err != nil { // the answer stands all the same
		b.log.ErrorContext(ctx, "days off are not told", slog.Any("error", err))
		return
	}
	reply.Gap()
	reply.Addf(offNow)
}
