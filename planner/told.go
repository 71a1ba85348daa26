package planner

import "slices"

// Told says when a fact became known and when it was taken back or changed, as
// dates of the rider. A zero On means before everything, a zero Withdrawn that it still counts.
type Told struct{ On, Withdrawn Date }

// KnownOn reports whether the fact counts for what is planned on day e: told by
// then, and not withdrawn by then.
func (t Told) KnownOn(e Date) bool {
	return t.On <= e && (t.Withdrawn.IsZero() || e < t.Withdrawn)
}

func (t Told) dates() Told { return t }

// KnownOn is what was known on day e: a copy with the versions of facts that were
// told by then and not withdrawn, one of each race that counts, and the taper settings that
// were in force. Once a week was entered, one is always known: before, the rider is
// taken to have ridden as in the first that was entered.
func (f *Facts) KnownOn(e Date) *Facts {
	known := *f
	known.Weeks = knownFacts(f.Weeks, e)
	if len(known.Weeks) == 0 && len(f.Weeks) > 0 {
		known.Weeks = []DatedWeek{slices.MinFunc(f.Weeks, func(a, b DatedWeek) int { return int(a.On - b.On) })}
	}
	known.Races = thatCount(lastVersions(knownFacts(f.Races, e)))
	known.Taper, known.OldTaper = f.taperOn(e), nil
	known.Blocks = knownFacts(f.Blocks, e)
	known.Absences = knownFacts(f.Absences, e)
	known.Limits = knownFacts(f.Limits, e)
	known.Ill = knownFacts(f.Ill, e)
	known.Holds = knownFacts(f.Holds, e)
	known.Done = knownFacts(f.Done, e)
	known.Moves = knownFacts(f.Moves, e)
	known.Pins = knownFacts(f.Pins, e)
	known.Taught = knownFacts(f.Taught, e)
	return &known
}

// knownFacts are the facts that count on day e, the list itself where all do.
func knownFacts[T interface{ KnownOn(Date) bool }](all []T, e Date) []T {
	unknown := func(fact T) bool { return !fact.KnownOn(e) }
	if !slices.ContainsFunc(all, unknown) {
		return all
	}
	return slices.DeleteFunc(slices.Clone(all), unknown)
}

// lastVersions keeps of each race the version that was entered last.
func lastVersions(races []Race) []Race {
	last := make(map[int64]Date, len(races))
	twice := false
	for i := range races {
		r := &races[i]
		on, seen := last[r.ID]
		twice = twice || seen && r.ID != 0
		last[r.ID] = max(on, r.On)
	}
	if !twice {
		return races
	}
	kept := make([]Race, 0, len(races))
	taken := map[int64]bool{}
	for _, r := range races {
		if r.ID != 0 && (taken[r.ID] || r.On < last[r.ID]) {
			continue
		}
		taken[r.ID] = true
		kept = append(kept, r)
	}
	return kept
}

// taperOn are the settings in force on day e; before the first were told, the defaults.
func (f *Facts) taperOn(e Date) Taper {
	if f.Taper.KnownOn(e) {
		return f.Taper
	}
	for _, old := range f.OldTaper {
		if old.KnownOn(e) {
			return old
		}
	}
	return Taper{}
}

// Undated is a copy of the facts as if each had been told before everything and
// stood: to look at days gone by with what is known now.
func (f *Facts) Undated() *Facts {
	bare := *f
	bare.Weeks = undated(f.Weeks, func(w *DatedWeek) *Told { return &w.Told })
	bare.Races = undated(f.Races, func(r *Race) *Told { return &r.Told })
	bare.Taper.Told, bare.OldTaper = Told{}, nil
	bare.Blocks = undated(f.Blocks, func(b *Block) *Told { return &b.Told })
	bare.Absences = undated(f.Absences, func(a *Absence) *Told { return &a.Told })
	bare.Limits = undated(f.Limits, func(l *Limit) *Told { return &l.Told })
	bare.Ill = undated(f.Ill, func(i *Illness) *Told { return &i.Told })
	bare.Holds = undated(f.Holds, func(h *Hold) *Told { return &h.Told })
	bare.Done = undated(f.Done, func(r *Ride) *Told { return &r.Told })
	bare.Moves = undated(f.Moves, func(m *Move) *Told { return &m.Told })
	bare.Pins = undated(f.Pins, func(p *Pin) *Told { return &p.Told })
	bare.Taught = undated(f.Taught, func(t *Taught) *Told { return &t.Told })
	return &bare
}

func undated[T any](facts []T, told func(*T) *Told) []T {
	facts = slices.Clone(facts)
	for i := range facts {
		*told(&facts[i]) = Told{}
	}
	return facts
}

// ToldDates are the dates up to a day on which something was entered or taken back, ascending.
func (f *Facts) ToldDates(until Date) []Date {
	seen := map[Date]bool{}
	note := func(t Told) {
		for _, d := range [2]Date{t.On, t.Withdrawn} {
			if d > 0 && d <= until {
				seen[d] = true
			}
		}
	}
	note(f.Taper.Told)
	noteAll(f.OldTaper, note)
	noteAll(f.Weeks, note)
	noteAll(f.Races, note)
	noteAll(f.Blocks, note)
	noteAll(f.Absences, note)
	noteAll(f.Limits, note)
	noteAll(f.Ill, note)
	for i := range f.Ill {
		note(Told{On: f.Ill[i].Cleared})
	}
	noteAll(f.Holds, note)
	noteAll(f.Done, note)
	noteAll(f.Moves, note)
	noteAll(f.Pins, note)
	noteAll(f.Taught, note)
	out := make([]Date, 0, len(seen))
	for d := range seen {
		out = append(out, d)
	}
	slices.Sort(out)
	return out
}

// noteAll notes when each of some facts was entered and taken back.
func noteAll[T interface{ dates() Told }](facts []T, note func(Told)) {
	for _, f := range facts {
		note(f.dates())
	}
}
