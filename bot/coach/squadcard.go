package coach

import (
	"slices"

	"musette/bot/picture"
	"musette/planner"
	"musette/storage"
)

const (
	squadWeeks  = 12                   // that the picture of a club looks ahead
	bandsBefore = planner.MaxTaperDays // days before it on which what is shown may have begun
)

// cardBands are the phases that the picture shows.
var cardBands = map[planner.Phase]picture.BandKind{
	planner.Tapering: picture.TaperBand, planner.Recovering: picture.RecoveryBand, planner.Overload: picture.BlockBand,
}

// squadCard is what the picture of a club shows: of those with a plan, in the order
// of the squad.
func squadCard(club *storage.Club, squad []standing) picture.Squad {
	card := picture.Squad{Title: "Who tapers when: " + club.Name}
	for i := range squad {
		s := &squad[i]
		switch {
		case s.plan == nil:
			continue
		case len(card.Rows) == picture.MostSquadRows:
			card.Others++
			continue
		case card.From.IsZero():
			card.From = s.Today.AddDays(-(int(s.Today.Weekday()) - int(planner.Monday)))
			card.To = card.From.AddDays(7*squadWeeks - 1)
		}
		card.Rows = append(card.Rows, s.cardRow(card.From, card.To))
	}
	return card
}

// cardRow is a rider's row from one day to another.
func (s *standing) cardRow(from, to planner.Date) picture.SquadRow {
	row := picture.SquadRow{Name: s.Name}
	for _, role := range s.plan.Races {
		if r := role.Race; r.Last() >= from && r.Date <= to && role.Role != planner.Outranked {
			row.Flags = append(row.Flags, picture.Flag{Name: r.Name, Letter: r.Priority.String(), From: r.Date, To: r.Last()})
		}
	}
	slices.SortStableFunc(row.Flags, func(a, b picture.Flag) int { return int(a.From - b.From) })
	grow := func(list []picture.Band, kind picture.BandKind, day planner.Date) []picture.Band {
		if n := len(list); n > 0 && list[n-1].Kind == kind && list[n-1].To == day-1 {
			list[n-1].To = day
			return list
		}
		return append(list, picture.Band{Kind: kind, From: day, To: day})
	}
	for d := from.AddDays(-bandsBefore); d <= to; d++ {
		day := s.plan.Known(d)
		if day == nil {
			continue
		}
		if kind, ok := cardBands[day.Phase]; ok {
			row.Bands = grow(row.Bands, kind, d)
		}
		if day.Phase == planner.Health && d >= from {
			row.Gaps = grow(row.Gaps, 0, d)
		}
	}
	row.Bands = slices.DeleteFunc(row.Bands, func(b picture.Band) bool { return b.To < from })
	if n := len(row.Gaps); n > 0 && row.Gaps[n-1].To >= min(to, s.plan.Days[len(s.plan.Days)-1].Date) {
		row.Gaps[n-1].To = max(row.Gaps[n-1].To, min(to, s.healthEnds(to)))
	}
	return row
}

// healthEnds is the day on which what keeps a rider from training ends, as far as that is
// known: until then it goes on, also where the plan is over.
func (s *standing) healthEnds(unknown planner.Date) planner.Date {
	last := s.Today
	for _, ill := range s.Facts.Now.Troubles() {
		end := max(ill.To, ill.Cleared)
		if end.IsZero() {
			return unknown
		}
		last = max(last, end)
	}
	if s.plan.Held {
		return unknown
	}
	return last
}
