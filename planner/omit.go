package planner

import "slices"

// Omitting are copies of the facts, each as if one thing had not been told or not
// been taken back on day e.
func (f *Facts) Omitting(e Date) []*Facts {
	var out []*Facts
	if f.Taper.On == e {
		less := *f
		less.Taper = f.taperOn(e - 1)
		less.Taper.Withdrawn = 0
		out = append(out, &less)
	}
	out = append(out, omitting(f, e, f.Weeks, func(w *DatedWeek) *Told { return &w.Told }, func(g *Facts, all []DatedWeek) { g.Weeks = all })...)
	out = append(out, omitting(f, e, f.Races, func(r *Race) *Told { return &r.Told }, func(g *Facts, all []Race) { g.Races = all })...)
	out = append(out, omitting(f, e, f.Blocks, func(b *Block) *Told { return &b.Told }, func(g *Facts, all []Block) { g.Blocks = all })...)
	out = append(out, omitting(f, e, f.Absences, func(a *Absence) *Told { return &a.Told }, func(g *Facts, all []Absence) { g.Absences = all })...)
	out = append(out, omitting(f, e, f.Limits, func(l *Limit) *Told { return &l.Told }, func(g *Facts, all []Limit) { g.Limits = all })...)
	out = append(out, omitting(f, e, f.Ill, func(i *Illness) *Told { return &i.Told }, func(g *Facts, all []Illness) { g.Ill = all })...)
	out = append(out, omitting(f, e, f.Holds, func(h *Hold) *Told { return &h.Told }, func(g *Facts, all []Hold) { g.Holds = all })...)
	out = append(out, omitting(f, e, f.Done, func(r *Ride) *Told { return &r.Told }, func(g *Facts, all []Ride) { g.Done = all })...)
	out = append(out, omitting(f, e, f.Moves, func(m *Move) *Told { return &m.Told }, func(g *Facts, all []Move) { g.Moves = all })...)
	out = append(out, omitting(f, e, f.Pins, func(p *Pin) *Told { return &p.Told }, func(g *Facts, all []Pin) { g.Pins = all })...)
	return append(out, omitting(f, e, f.Taught, func(t *Taught) *Told { return &t.Told }, func(g *Facts, all []Taught) { g.Taught = all })...)
}

// omitting does it for one kind of fact.
func omitting[T any](f *Facts, e Date, all []T, told func(*T) *Told, put func(*Facts, []T)) []*Facts {
	var out []*Facts
	for i := range all {
		t := *told(&all[i])
		if t.On != e && t.Withdrawn != e {
			continue
		}
		less, some := *f, slices.Clone(all)
		if t.On == e {
			some = slices.Delete(some, i, i+1)
		} else {
			told(&some[i]).Withdrawn = 0
		}
		put(&less, some)
		out = append(out, &less)
	}
	return out
}
