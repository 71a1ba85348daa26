package season

import (
	"cmp"
	"reflect"
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/learn"
)

const (
	taughtDays = 42 // before a race, whose loads count for what it teaches
	illDays    = 14 // so long before a race illness hides what its taper did
	askedRaces = 30 // the last ones are looked at
)

// Tried is a race that was ridden and of which legs or a comparison were told.
// Days is its taper, 0 where it had none, Cut the per cent of riding that it left out.
type Tried struct {
	Race     *planner.Race
	Days     int
	Cut      float64
	Legs     int
	Compared planner.Compared
	Ill      bool // not counted: health kept from training shortly before
}

// poorLegs are legs that nobody wants again, of 10 (our choice).
const poorLegs = 4

// Badly reports a race of which the rider said that it went worse than expected, or had
// poor legs in it and did not say that it went better. Ill ones are not counted.
func (t *Tried) Badly() bool {
	switch {
	case t.Ill:
		return false
	case t.Compared == planner.ComparedWorse || t.Compared == planner.ComparedBetter:
		return t.Compared == planner.ComparedWorse
	}
	return 0 < t.Legs && t.Legs <= poorLegs
}

// badly reports a length at which a race went badly, from the planned one up to about another one.
func (h *History) badly(planned, n int) bool {
	return slices.ContainsFunc(h.Tried, func(t Tried) bool {
		return t.Days > 0 && t.Badly() && (planned < t.Days && t.Days <= n+1 || n-1 <= t.Days && t.Days < planned)
	})
}

// History is what a rider's races have taught. Proposal is what to try in the next
// A race, nil where there is nothing to choose.
type History struct {
	Tried    []Tried // by date
	Usual    int     // days of the usual taper for the last of them, 0 where none was tried
	Learned  *learn.Learned
	Proposal *Proposal
}

// Proposal is a length for the race Race: Days instead of Planned. It is the length
// of Length's range from which most is expected to be learned, Teaches the share of what is unknown, and
// Costs what it is expected to cost in this race, per cent. Table is the usual length for
// Hours of riding a week, Length what the rider's results say of it. There is nothing to propose where Own says that they have
// settled the length, or Told that the rider has set it, for this race (Here) or for
// all. Where another A race is close no longer taper is proposed. Refused means that they would settle it, but the rider wants the usual length.
type Proposal struct {
	Race          *planner.Race
	Days, Planned int
	Table         int
	Hours         float64
	Length        planner.OwnLength
	Own, Refused  bool
	Told, Here    bool
	Teaches       float64
	Costs         float64
}

// Tries reports a length to try that is not the planned one.
func (p *Proposal) Tries() bool { return p.Days != p.Planned && !p.Here && !p.Own && !p.Refused }

// NewHistory looks back at a rider's races and weighs what they teach.
func NewHistory(today planner.Date, f *planner.Facts) *History {
	l := newLookBack(today, f)
	tried, taught := l.races(today)
	h := &History{Tried: tried, Learned: learn.From(taught)}
	if n := len(tried); n > 0 {
		h.Usual, _ = engine.TableLength(f.KnownOn(today), tried[n-1].Race, nil, nil)
	}
	h.propose(today, f, l)
	return h
}

// Roughly is what a rider's races teach with coarser sums, for many riders at once.
func Roughly(today planner.Date, f *planner.Facts) *learn.Learned {
	_, taught := newLookBack(today, f).races(today)
	return learn.Rough(taught)
}

// Taught is what a rider's races have taught, nil where it settles no length.
func Taught(today planner.Date, f *planner.Facts) *planner.Taught {
	if known := f.KnownOn(today); len(known.Results) < planner.MinTaughtRaces || len(known.Weeks) == 0 {
		return nil
	}
	_, races := newLookBack(today, f).races(today)
	taught := learn.From(races).Taught()
	for usual := engine.LeastAuto; usual <= engine.MostAuto; usual++ {
		if taught.Length(usual).Decides {
			return &taught
		}
	}
	return nil
}

// TeachAlike reports that nothing has changed between two states of facts from which
// races teach: results, illness, races that are over, and the rides before them.
func TeachAlike(today planner.Date, was, is *planner.Facts) bool {
	return reflect.DeepEqual(teaching(today, was), teaching(today, is))
}

// teaching is what races teach from.
func teaching(today planner.Date, f *planner.Facts) *planner.Facts {
	out := &planner.Facts{Results: f.Results, Ill: f.Ill, Holds: f.Holds}
	last := planner.Date(0)
	for _, r := range (&rider{Facts: f}).over(today) {
		out.Races = append(out.Races, *r)
		last = max(last, r.Date)
	}
	for _, ride := range f.Done {
		if ride.Date < last {
			out.Done = append(out.Done, ride)
		}
	}
	return out
}

// Hours are the rider's usual riding hours a week on a day.
func Hours(today planner.Date, f *planner.Facts) float64 {
	return float64(f.KnownOn(today).WeekOn(today).RideMinutes()) / 60
}

// over are the last races that have begun and count, by date. A race of today has
// begun once a result of it was entered.
func (r *rider) over(today planner.Date) []*planner.Race {
	var out []*planner.Race
	for i := range r.Races {
		race := &r.Races[i]
		begun := race.Date < today || race.Date == today && r.ResultOf(race) != nil
		if begun && race.Status != planner.NotStarted && race.Status != planner.Cancelled {
			out = append(out, race)
		}
	}
	slices.SortStableFunc(out, func(a, b *planner.Race) int { return cmp.Compare(a.Date, b.Date) })
	return out[max(0, len(out)-askedRaces):]
}

// lookBack gathers days as they were known on the morning of each race.
type lookBack struct {
	rider
	told *planner.Facts
	days map[planner.Date]*engine.Day
}

func newLookBack(today planner.Date, f *planner.Facts) *lookBack {
	return &lookBack{rider: newRider(f.KnownOn(today)), told: f, days: map[planner.Date]*engine.Day{}}
}

// races are those that are over, and what they teach.
func (l *lookBack) races(today planner.Date) (all []Tried, taught []learn.Race) {
	for _, race := range l.over(today) {
		tried, ok := l.tried(race)
		if !ok {
			continue
		}
		all = append(all, tried)
		if unit := l.unit(race.Date); unit > 0 && !tried.Ill {
			taught = append(taught, learn.Race{Days: tried.Days, Change: l.change(race.Date, unit), Legs: tried.Legs,
				Compared: int(tried.Compared) - int(planner.ComparedSame), ComparedTold: tried.Compared != planner.ComparedNot})
		}
	}
	return all, taught
}

// tried is what was planned before a race and told after it, false where nothing was entered.
func (l *lookBack) tried(race *planner.Race) (Tried, bool) {
	plan := engine.DeriveUntil(race.Date, race.Date, l.told)
	l.keep(plan, race.Date.AddDays(-taughtDays), race.Last().AddDays(taughtDays))
	out := Tried{Race: race}
	told := l.ResultOf(race)
	if told == nil {
		return out, false
	}
	out.Legs, out.Compared = told.Feeling, told.Compared
	for i := range plan.Tapers {
		if t := &plan.Tapers[i]; t.Race.Is(race) {
			out.Days, out.Cut = t.Days, t.CutPercent
		}
	}
	for _, ill := range l.Troubles() {
		end := max(ill.To, ill.Cleared)
		out.Ill = out.Ill || ill.From <= race.Last() && (end.IsZero() || end.AddDays(illDays) >= race.Date)
	}
	return out, true
}

// keep takes the days that a plan knows; a later plan knows better.
func (l *lookBack) keep(plan *engine.Plan, from, to planner.Date) {
	for d := from; d <= to; d++ {
		if day := plan.Known(d); day != nil {
			l.days[d] = day
		}
	}
}

// change is by how much each day before a date differed from usual, in usual days.
func (l *lookBack) change(end planner.Date, unit float64) []float64 {
	out := make([]float64, taughtDays)
	for i := range out {
		d := end.AddDays(-1 - i)
		switch rode, ok := l.logged[d]; {
		case l.days[d] != nil:
			out[i] = (l.ridden(l.days[d]) - l.usual(d)) / unit
		case ok:
			out[i] = (rode.rated + float64(rode.minutes)*l.RatingOf(planner.Ride{Date: d}) - l.usual(d)) / unit
		case l.lay(d):
			out[i] = -l.usual(d) / unit
		}
	}
	return out
}

// propose finds what to try before the next A race whose taper is to come and can
// be chosen.
func (h *History) propose(today planner.Date, f *planner.Facts, l *lookBack) {
	base := engine.Derive(today, f)
	var g *goal
	for _, role := range base.Races {
		if other, ok := newGoal(f, l.rider, base, role.Race); ok && (g == nil || other.taper.Race.Date < g.taper.Race.Date) {
			g = other
		}
	}
	if g == nil || base.Held || g.taper.From <= today {
		return
	}
	switch g.taper.Length {
	case planner.LengthTable, planner.LengthTold, planner.LengthClose, planner.LengthOwn:
	default:
		return
	}
	race := g.taper.Race
	p := &Proposal{Race: race, Days: g.taper.Days, Planned: g.taper.Days, Hours: g.taper.WeekHours,
		Told: g.taper.Length == planner.LengthTold, Here: race.TaperDays != 0, Own: g.taper.Length == planner.LengthOwn}
	p.Table, _ = engine.TableLength(g.Facts, race, nil, nil)
	p.Length = h.Learned.Length(p.Table)
	if p.Own {
		p.Table, p.Length = g.taper.Own.Usual, g.taper.Own.OwnLength
	}
	p.Refused = p.Length.Decides && g.Facts.Taper.Usual && !p.Told
	if h.Proposal = p; p.Here || p.Own || p.Refused {
		return
	}
	l.keep(base, race.Date.AddDays(-taughtDays), race.Date)
	planned := l.change(race.Date, g.unit)
	next := h.Learned.Next(p.Planned, p.Length, func(n int) ([]float64, bool) {
		if n == p.Planned {
			return planned, true
		}
		if h.badly(p.Planned, n) || !g.fits(n) || n > p.Planned && g.taper.Length == planner.LengthClose {
			return nil, false
		}
		l.keep(g.plan(n, g.taper.Cut), race.Date.AddDays(-taughtDays), race.Date)
		return l.change(race.Date, g.unit), true
	})
	p.Days, p.Teaches, p.Costs = next.Days, next.Teaches, next.Costs
}
