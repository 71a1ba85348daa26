package plans_test

import (
	"math/rand/v2"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/picture"
	"musette/bot/plans"
	"musette/planner"
	"musette/planner/engine"
)

// Whatever a rider has entered, the picture of the season shows whole weeks with the next race in them, bands on
// the days that the plan has them for, and can be drawn.
func TestSeasonCards(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 3))
	drawn := 0
	for range rounds.Of(120) {
		today, f := bottest.AnyFacts(t, r)
		plan := engine.Derive(today, f)
		if len(plans.SeasonFlags(plan)) == 0 {
			continue
		}
		card := plans.SeasonCard(plan)
		if card.From.Weekday() != planner.Monday || card.To.Weekday() != planner.Sunday || card.From.DaysUntil(card.To) > 371 {
			t.Errorf("from %s to %s", card.From, card.To)
		}
		if first := card.Flags[0]; first.To < card.From || first.From > card.To {
			t.Errorf("%s on %s is not in %s to %s", first.Name, first.From, card.From, card.To)
		}
		phases := map[picture.BandKind]planner.Phase{picture.TaperBand: planner.Tapering, picture.RecoveryBand: planner.Recovering, picture.BlockBand: planner.Overload}
		for _, b := range card.Bands {
			for d := b.From; d <= b.To; d++ {
				if day, ok := plan.Day(d); !ok || day.Phase != phases[b.Kind] {
					t.Errorf("a band of kind %d on %s", b.Kind, d)
				}
			}
		}
		if drawn++; drawn%10 == 0 {
			if _, err := picture.Season(card); err != nil {
				t.Errorf("%v: %+v", err, card)
			}
		}
	}
	if drawn < rounds.Of(50) {
		t.Errorf("only %d seasons", drawn)
	}
}
