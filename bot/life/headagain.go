package life

import (
	"context"
	"log/slog"
	"slices"

	"musette/bot/desk"
	"musette/planner"
	"musette/planner/care"
	"musette/storage"
)

// headWatch is for how many days after a doctor's word a symptom may be of the knock to the head (our choice).
const headWatch = 14

// ofAnIllness are symptoms that a knock to the head does not bring.
var ofAnIllness = []string{"fever", "cough", "sore throat", "head cold", "aches all over"}

// afterHead reports a rider whom a doctor has cleared after a knock to the head not long ago.
func afterHead(f *planner.Facts, today planner.Date) bool {
	return slices.ContainsFunc(f.Holds, func(h planner.Hold) bool {
		return h.Level == planner.LevelHead && !h.Cleared.IsZero() && watched(h.Cleared, today)
	})
}

// watched reports a day on which symptoms may still be of a knock that a doctor cleared.
func watched(cleared, today planner.Date) bool { return today <= cleared.AddDays(headWatch) }

// headAgain reports symptoms that are back after a knock to the head: a doctor must see them. Of an
// injury and a mere cold or flu none of this is true.
func (h *Heard) headAgain(ctx context.Context, b *desk.Base, req *desk.Request, what *trouble, symptoms []string) bool {
	if h.Level != care.Rest && h.Level != care.Doctor || h.Verdict != care.Stop || what.injury || req.Nowhere || !req.Rider.Known() {
		return false
	}
	if h.Level == care.Rest && len(symptoms) > 0 && !slices.ContainsFunc(symptoms, func(s string) bool { return !slices.Contains(ofAnIllness, s) }) {
		return false
	}
	holds, err := b.DB.Holds(ctx, req.Rider.Athlete.ID)
	if err != nil {
		b.Log.ErrorContext(ctx, "holds", slog.String("ref", req.Ref), slog.Any("error", err))
	}
	return slices.ContainsFunc(holds, func(h storage.Hold) bool {
		return h.Level == planner.LevelHead && h.End == storage.HoldCleared && watched(h.Ended, req.Rider.Today)
	})
}
