package plans

import (
	"slices"

	"musette/bot/picture"
	"musette/planner"
	"musette/planner/engine"
)

// A season's picture shows at most a year, from shortly before what comes first.
const (
	mostCardDays = 371
	cardLead     = 14
)

// cardBands are the phases that the picture shows.
var cardBands = map[planner.Phase]picture.BandKind{
	planner.Tapering: picture.TaperBand, planner.Recovering: picture.RecoveryBand, planner.Overload: picture.BlockBand,
}

// seasonFlags are the races that are still to be ridden within a year.
func seasonFlags(plan *engine.Plan) []picture.Flag {
	var out []picture.Flag
	for _, role := range plan.Races {
		r := role.Race
		if r.Last() < plan.Today || r.Date >= plan.Today+mostCardDays || role.Role == planner.Outranked {
			continue
		}
		out = append(out, picture.Flag{Name: r.Name, Letter: r.Priority.String(), From: r.Date, To: r.Last()})
	}
	slices.SortStableFunc(out, func(a, b picture.Flag) int { return int(a.From - b.From) })
	return out
}

// seasonCard is what a picture of the season shows of a plan.
func seasonCard(plan *engine.Plan) picture.Calendar {
	card := picture.Calendar{Title: "Your season", Today: plan.Today, Flags: seasonFlags(plan)}
	first, last := card.Flags[0].From, plan.Today
	for _, f := range card.Flags {
		last = max(last, f.To)
	}
	for i := range plan.Days {
		d := &plan.Days[i]
		kind, ok := cardBands[d.Phase]
		if !ok {
			continue
		}
		first = min(first, d.Date)
		if n := len(card.Bands); n > 0 && card.Bands[n-1].Kind == kind && card.Bands[n-1].To == d.Date-1 {
			card.Bands[n-1].To = d.Date
		} else {
			card.Bands = append(card.Bands, picture.Band{Kind: kind, From: d.Date, To: d.Date})
		}
		if kind == picture.RecoveryBand {
			last = max(last, d.Date)
		}
	}
	from := max(plan.Today, first.AddDays(-cardLead))
	card.From = from.AddDays(-(int(from.Weekday()) - int(planner.Monday)))
	last = min(last, card.From+mostCardDays-7)
	card.To = last.AddDays(int(planner.Sunday) - int(last.Weekday()))
	return card
}
