package main

import "musette/planner/response"

// season is the problem as Season.Solve takes it, with the gains that the belief gives.
func (p *Problem) season(b response.Belief) response.Season {
	s := response.Season{Budget: p.Budget, Stops: make([]response.Stop, len(p.Races))}
	out := make([]float64, len(b))
	for i := range p.Races {
		r := &p.Races[i]
		s.Stops[i] = response.Stop{First: r.First, Last: r.Last}
		for k := range r.Candidates {
			c := &r.Candidates[k]
			o := response.Option{Days: len(c.Window), After: -1, Gain: p.gain(b, out, r.First, p.change(r, c))}
			if c.Takes {
				o.After = len(c.Recover)
			}
			s.Stops[i].Options = append(s.Stops[i].Options, o)
		}
	}
	return s
}

// change is by how much a candidate's loads differ from the usual ones.
func (p *Problem) change(r *Race, c *Candidate) response.Change {
	out := response.Change{Before: make([]float64, len(c.Window)), After: make([]float64, r.Last-r.First+len(c.Recover))}
	for i, share := range c.Window {
		back := len(c.Window) - i
		out.Before[back-1] = (share - 1) * p.Usual[r.First-back]
	}
	for i, share := range c.Recover {
		if d := r.Last + 1 + i; d < len(p.Usual) {
			out.After[d-r.First-1] = (share - 1) * p.Usual[d]
		}
	}
	return out
}

// gain is what a change around a day brings to all races: those of the day and
// later, and those inside the window, which see only what comes before them.
func (p *Problem) gain(b response.Belief, out []float64, day int, c response.Change) float64 {
	own, total := 0.0, 0.0
	var later []response.Later
	for i := range p.Races {
		r := &p.Races[i]
		switch ahead := r.First - day; {
		case ahead == 0:
			own += r.Weight
		case ahead > 0:
			later = append(later, response.Later{Days: ahead, Weight: r.Weight})
		case -ahead < len(c.Before):
			b.Effect(out, r.Weight, response.Reach{}, response.Change{Before: c.Before[-ahead:]})
			total += response.Mean(out)
		}
	}
	b.Effect(out, own, b.Reach(later), c)
	return total + response.Mean(out)
}
