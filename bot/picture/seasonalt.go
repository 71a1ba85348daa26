package picture

import (
	"fmt"

	"musette/planner"
)

// alt says a season by date: each race with its taper and the days after it, and blocks.
func (s *Calendar) alt() string {
	var a speech
	a.say(fmt.Sprintf("%s. The picture shows %s to %s. All days that are not named are usual training.", capital(sayable(s.Title)), s.From.Long(), s.To.Long()))
	blocks := s.blocks()
	for i, f := range s.Flags {
		for len(blocks) > 0 && blocks[0].From < f.From && blocks[0].tell(&a) {
			blocks = blocks[1:]
		}
		text := fmt.Sprintf("%s (%s race) on %s", capital(sayable(f.Name)), f.Letter, daySpan(f.From, f.To))
		if taper := s.bandOf(TaperBand, i); taper != nil {
			word := "taper"
			if f.Letter != planner.PriorityA.String() {
				word = "easier days"
				if taper.From == taper.To {
					word = "an easier day on"
				}
			}
			text += fmt.Sprintf(", %s %s", word, daySpan(taper.From, taper.To))
		}
		if after := s.bandOf(RecoveryBand, i); after != nil {
			text += fmt.Sprintf(", recovery %s", daySpan(after.From, after.To))
		}
		if !a.say(text + ".") {
			a.say(fmt.Sprintf("And %d more races.", len(s.Flags)-i))
			break
		}
	}
	for len(blocks) > 0 && blocks[0].tell(&a) {
		blocks = blocks[1:]
	}
	return a.String()
}

// blocks are the training blocks, each with its pauses.
func (s *Calendar) blocks() []Band {
	var out []Band
	for _, b := range s.Bands {
		switch n := len(out) - 1; {
		case b.Kind != BlockBand:
		case n >= 0 && out[n].To.DaysUntil(b.From) <= mostPause:
			out[n].To = b.To
		default:
			out = append(out, b)
		}
	}
	return out
}

// mostPause is how many days on a block at most parts of one block lie apart.
const mostPause = 4

func (b *Band) tell(a *speech) bool {
	return a.say(fmt.Sprintf("%s %s.", capital(bands[b.Kind].word), daySpan(b.From, b.To)))
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
