package response

import (
	"math"
	"sync"
)

// Option is one way to prepare for a race: so many days of taper before its
// first day (at least 0), so many days after its last one that no later taper
// may touch, and what that brings to the weighted sum of performance, in any
// unit. After below 0 leaves the race and what follows to later tapers, which
// may span it: with 0 days such an option takes no day at all.
type Option struct {
	Days, After int
	Gain        float64
}

// Stop is a race of a season: its first and last day, counted from any day on,
// and its options, at least one.
type Stop struct {
	First, Last int
	Options     []Option
}

// Season is the choice of one option a race, races ascending by First, with
// Budget days of taper at most in all, at least 0.
type Season struct {
	Budget int
	Stops  []Stop
}

// label is a partial choice: the taper days spent, the first day on which the
// taper of a race of the same day may begin, and that of a later day.
type label struct {
	used, start, free int
	gain              float64
	from              int32 // label of the race before
	option            int32
}

// need is the most that races from one on can ask for: taper days in all, and
// the first of them.
type need struct {
	days, first int
}

// search is a dynamic programme on its way. The labels of each race stand in a
// row, by used; those of the race in hand come last.
type search struct {
	Season
	needs  []need
	labels []label
	first  []int32 // of each race: its first label; the start counts as a race
	heads  []int32 // of each option: the label that it continues next
	front  []int32 // labels of the race in hand that no other is as good as, but for used
}

// searches are used again, for their memory.
var searches = sync.Pool{New: func() any { return new(search) }}

// Solve finds the choice with the greatest sum of gains (added in the order of
// the races) in which no taper day is a taper, race or recovery day of another
// race and the budget holds. Of equal sums the first race's earliest option
// wins, then the second's, and so on. It is exact: a dynamic programme that
// drops a partial choice only for one that is no worse in days spent, days
// taken and gain. ok is false where no choice is allowed.
func (s Season) Solve() (choice []int, gain float64, ok bool) {
	p := searches.Get().(*search)
	defer func() {
		p.Season = Season{} // the caller's
		searches.Put(p)
	}()
	p.Season = s
	p.measure()
	p.Budget = min(p.Budget, p.needs[0].days)
	p.first = append(p.first[:0], 0)
	p.labels = append(p.labels[:0], label{start: math.MinInt, free: math.MinInt})
	for i := range s.Stops {
		if !p.extend(i) {
			return nil, 0, false
		}
	}
	l := &p.labels[len(p.labels)-1] // the only one of the last race: no race is left to tell two apart
	gain = l.gain
	choice = make([]int, len(s.Stops))
	for i := len(s.Stops) - 1; i >= 0; i-- {
		choice[i] = int(l.option)
		l = &p.labels[l.from]
	}
	return choice, gain, true
}

// measure works out the need from each race on, and that of none.
func (p *search) measure() {
	p.needs = p.needs[:0]
	for range len(p.Stops) + 1 {
		p.needs = append(p.needs, need{first: math.MaxInt})
	}
	for i := len(p.Stops) - 1; i >= 0; i-- {
		most := 0
		for k := range p.Stops[i].Options {
			most = max(most, p.Stops[i].Options[k].Days)
		}
		after := &p.needs[i+1]
		p.needs[i] = need{days: after.days + most, first: min(after.first, p.Stops[i].First-most)}
	}
}

// extend continues every partial choice with every option of a race that fits,
// those with fewer days spent first, and keeps what may still become the best.
// It is false where nothing fits.
func (p *search) extend(race int) bool {
	stop := &p.Stops[race]
	sameDay := race+1 < len(p.Stops) && p.Stops[race+1].First == stop.First
	end := int32(len(p.labels))
	p.heads, p.front = p.heads[:0], p.front[:0]
	for range stop.Options {
		p.heads = append(p.heads, p.first[race])
	}
	p.first = append(p.first, end)
	for {
		next := label{used: math.MaxInt}
		for o := range stop.Options {
			days, head := stop.Options[o].Days, p.heads[o]
			for days > 0 && head < end && stop.First-days < p.labels[head].start {
				head++
			}
			if p.heads[o] = head; head < end && p.labels[head].used+days < next.used {
				next.used, next.from, next.option = p.labels[head].used+days, head, int32(o)
			}
		}
		if next.used > p.Budget {
			return p.compact(end)
		}
		p.heads[next.option]++
		p.complete(&next, race, sameDay)
		p.keep(&next)
	}
}

// complete fills in what a label's option takes. Where the races left cannot
// tell two numbers apart, they become one.
func (p *search) complete(l *label, race int, sameDay bool) {
	stop, from, left := &p.Stops[race], &p.labels[l.from], &p.needs[race+1]
	option := &stop.Options[l.option]
	l.gain, l.start, l.free = from.gain+option.Gain, from.start, from.free
	if option.Days > 0 {
		l.start, l.free = stop.First, max(l.free, stop.First)
	}
	if option.After >= 0 {
		l.free = max(l.free, stop.Last+option.After+1)
	}
	l.used, l.free = max(l.used, p.Budget-left.days), max(l.free, left.first)
	if !sameDay {
		l.start = l.free
	}
}

// keep adds a label to those of no more days spent, unless one of them is as
// good, and drops those of as many days that are no better.
func (p *search) keep(l *label) {
	for _, k := range p.front {
		if f := &p.labels[k]; f.start <= l.start && f.free <= l.free && p.better(f, l) {
			return
		}
	}
	kept := p.front[:0]
	for _, k := range p.front {
		f := &p.labels[k]
		if l.start > f.start || l.free > f.free || p.better(f, l) {
			kept = append(kept, k)
		} else if f.used == l.used {
			f.used = dropped
		}
	}
	p.front = append(kept, int32(len(p.labels)))
	p.labels = append(p.labels, *l)
}

// dropped marks a label that is no longer one.
const dropped = -1

// compact closes the gaps among the labels from one on and tells whether any is left.
func (p *search) compact(from int32) bool {
	to := from
	for i := from; i < int32(len(p.labels)); i++ {
		if p.labels[i].used != dropped {
			if to < i {
				p.labels[to] = p.labels[i]
			}
			to++
		}
	}
	p.labels = p.labels[:to]
	return to > from
}

// better tells whether a label of the race in hand has the greater gain, or the
// same by earlier options.
func (p *search) better(a, b *label) bool {
	if a.gain != b.gain {
		return a.gain > b.gain
	}
	for a.from != b.from {
		a, b = &p.labels[a.from], &p.labels[b.from]
	}
	return a.option < b.option
}
