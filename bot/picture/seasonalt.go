package picture

import (
	"fmt"

	"musette/planner"
)

// alt says a season: each race with its taper and the days after it, the nearest
// first, then blocks.
func (s *Calendar) alt() string {
	var a speech
	a.say(fmt.Sprintf("%s, from %s to %s.", capital(sayable(s.Title)), s.From.Long(), s.To.Long()))
	for i, f := range s.Flags {
		text := fmt.Sprintf("%s (%s) on %s", capital(sayable(f.Name)), f.Letter, daySpan(f.From, f.To))
		if taper := s.bandOf(TaperBand, i); taper != nil {
			text += fmt.Sprintf(", taper %s", daySpan(taper.From, taper.To))
		}
		if after := s.bandOf(RecoveryBand, i); after != nil {
			text += fmt.Sprintf(", recovery %s", daySpan(after.From, after.To))
		}
		if !a.say(text + ".") {
			a.say(fmt.Sprintf("And %d more races.", len(s.Flags)-i))
			break
		}
	}
	var block *Band
	for i := range s.Bands {
		switch b := &s.Bands[i]; {
		case b.Kind != BlockBand:
		case block != nil && block.To.DaysUntil(b.From) <= mostPause:
			block.To = b.To
		default:
			block.tell(&a)
			block = &Band{Kind: b.Kind, From: b.From, To: b.To}
		}
	}
	block.tell(&a)
	return a.String()
}

// mostPause is how many days on a block at most parts of one block lie apart.
const mostPause = 4

func (b *Band) tell(a *speech) {
	if b != nil {
		a.say(fmt.Sprintf("%s %s.", capital(bands[b.Kind].word), daySpan(b.From, b.To)))
	}
}

// bandOf is the taper that leads to a race, or the recovery after it, from its first
// day to its last; nil where there is none.
func (s *Calendar) bandOf(kind BandKind, race int) *Band {
	var from, to planner.Date // between the races beside it
	switch f := s.Flags[race]; kind {
	case TaperBand:
		to = f.From
		for _, other := range s.Flags[:race] {
			from = max(from, other.To)
		}
	default:
		from, to = f.To, planner.Date(1<<30)
		for _, other := range s.Flags[race+1:] {
			to = min(to, other.From)
		}
	}
	var out *Band
	for _, b := range s.Bands {
		switch {
		case b.Kind != kind || b.To <= from || b.From >= to:
		case out == nil:
			out = &Band{Kind: kind, From: b.From, To: b.To}
		default:
			out.To = b.To
		}
	}
	return out
}

// daySpan is a run of days in short.
func daySpan(from, to planner.Date) string {
	if from == to {
		return dayMonth(from)
	}
	return dayMonth(from) + " to " + dayMonth(to)
}
