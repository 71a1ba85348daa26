package plans_test

import (
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// A swap is judged by what holds when it is stored: a day that becomes impossible, or
// the same swap made meanwhile, counts.
func TestSwapsAreJudgedWhenTheyAreStored(t *testing.T) {
	k := bottest.WithRaces(t)
	id := k.Stored().([]any)[1].(storage.Athlete).ID
	const line = "/plan move from:2026-06-16 to:2026-06-17"
	today, day := planner.DateOf(k.Who.Now), planner.NewDate(2026, 6, 17)
	swapped := k.Meanwhile(line, func(tx *storage.DB) error {
		_, err := tx.AddMove(t.Context(), id, today, planner.Move{From: day.AddDays(-1), To: day})
		return err
	})
	if swapped.Err != nil || len(k.Facts().Moves) != 0 {
		t.Errorf("the swap made meanwhile is not taken back:\n%s", swapped.Text())
	}
	reply := k.Meanwhile(line, func(tx *storage.DB) error {
		_, err := tx.AddAbsence(t.Context(), id, today, planner.Absence{From: day, To: day})
		return err
	})
	if reply.Err == nil || len(k.Facts().Moves) != 0 {
		t.Errorf("swapped with a day away:\n%s", reply.Text())
	}
	k.OK("/tell away from:2026-06-17 to:2026-06-17 kind:none")
	if reply := k.Say(line); reply.Topic != say.TopicCommand || reply.Err != nil {
		t.Errorf("without the day away: %s", reply.Text())
	}
}
