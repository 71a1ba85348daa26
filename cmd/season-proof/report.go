package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"musette/planner/response"
)

// What must hold.
const (
	tolerance   = 1e-6 // of max(1, |value|)
	leastFaster = 100
)

// report is the comparison over all seasons.
type report struct {
	seasons, races, candidates int
	conflicts, short           int // seasons in which the best of each race alone is not allowed; in which the budget costs gain
	ours                       timing
	gains, worth               float64 // largest differences: of a candidate's gain, of our choice simulated as a whole
	highs, glpsol              rival
	refused                    []int // seasons whose choices are not allowed
}

// rival is a solver beside ours.
type rival struct {
	name       string
	difference float64
	timing
	least    float64 // times as long as ours in the season where that is least
	reported float64 // seconds in all
}

// timing is in seconds.
type timing struct{ mean, most float64 }

func (t *timing) add(seconds float64, of int) {
	t.mean += seconds / float64(of)
	t.most = max(t.most, seconds)
}

// off is by how much two values differ, of max(1, |wanted|).
func off(got, wanted float64) float64 {
	d := math.Abs(got-wanted) / math.Max(1, math.Abs(wanted))
	if math.IsNaN(d) {
		return math.Inf(1)
	}
	return d
}

func compare(cases []solved, a answers) report {
	r := report{seasons: len(cases), highs: rival{name: a.Highs, least: math.Inf(1)}, glpsol: rival{name: a.Glpsol, least: math.Inf(1)}}
	for i := range cases {
		c, answer := &cases[i], &a.Answers[i]
		r.races += len(c.season.Stops)
		r.ours.add(c.seconds, len(cases))
		r.highs.add(c, &answer.Highs, len(cases))
		r.glpsol.add(c, &answer.Glpsol, len(cases))
		r.worth = max(r.worth, off(c.gain, answer.Worth))
		if !answer.Allowed || !answer.Highs.Allowed || !answer.Glpsol.Allowed {
			r.refused = append(r.refused, i)
		}
		for k := range c.season.Stops {
			r.candidates += len(c.season.Stops[k].Options)
			for j, o := range c.season.Stops[k].Options {
				r.gains = max(r.gains, off(o.Gain, answer.Gains[k][j]))
			}
		}
		if c.gain < alone(c.season.Stops)-tolerance {
			r.conflicts++
		}
		free := response.Season{Budget: math.MaxInt, Stops: c.season.Stops}
		if _, gain, _ := free.Solve(); c.gain < gain-tolerance {
			r.short++
		}
	}
	return r
}

func (r *rival) add(c *solved, f *found, of int) {
	r.difference = max(r.difference, off(c.gain, f.Value))
	r.timing.add(f.Seconds, of)
	r.least = min(r.least, f.Seconds/c.seconds)
	r.reported += f.Reported
}

// alone is what the races would gain if none stood in another's way.
func alone(stops []response.Stop) float64 {
	total := 0.0
	for i := range stops {
		best := math.Inf(-1)
		for _, o := range stops[i].Options {
			best = max(best, o.Gain)
		}
		total += best
	}
	return total
}

// faster is how many times as long as ours the quicker solver takes, on average.
func (r *report) faster() float64 { return min(r.highs.mean, r.glpsol.mean) / r.ours.mean }

func (r *report) table() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d seasons, %d races, %d candidates; in %d seasons the best of each race alone is not allowed, in %d the budget costs gain\n\n", r.seasons, r.races, r.candidates, r.conflicts, r.short)
	fmt.Fprintf(&b, "%-34s %12s %12s %12s %12s %12s\n", "", "difference", "mean time", "longest", "times ours", "at least")
	fmt.Fprintf(&b, "%-34s %12s %9.4f ms %9.4f ms\n", "season optimum", "", r.ours.mean*1e3, r.ours.most*1e3)
	for _, v := range []*rival{&r.highs, &r.glpsol} {
		fmt.Fprintf(&b, "%-34s %12.1e %9.4f ms %9.4f ms %12.0f %12.0f\n", v.name, v.difference, v.mean*1e3, v.most*1e3, v.mean/r.ours.mean, v.least)
	}
	fmt.Fprintf(&b, "\ngains of single candidates differ by %.1e at most, our choices simulated as a whole by %.1e\n", r.gains, r.worth)
	fmt.Fprintf(&b, "times: ours with the gains given; HiGHS within the running Python, the best of 3; glpsol as a whole process, the best of 3\n(by its own report, in steps of 0.1 s, %.1f s for all seasons together)\n", r.glpsol.reported)
	return b.String()
}

// verdict is an error for each thing that does not hold.
func (r *report) verdict() error {
	var faults []error
	for _, d := range []struct {
		what string
		by   float64
	}{
		{"the optimum from HiGHS's", r.highs.difference}, {"the optimum from glpsol's", r.glpsol.difference},
		{"a gain from the script's", r.gains}, {"the optimum from its choice simulated", r.worth},
	} {
		if d.by > tolerance {
			faults = append(faults, fmt.Errorf("%s differs by %.3g, more than %g", d.what, d.by, tolerance))
		}
	}
	if len(r.refused) > 0 {
		faults = append(faults, fmt.Errorf("choices that are not allowed in seasons %v", r.refused))
	}
	if f := r.faster(); !(f >= leastFaster) {
		faults = append(faults, fmt.Errorf("only %.3g times as fast as the quickest solver, not %d times", f, leastFaster))
	}
	return errors.Join(faults...)
}
