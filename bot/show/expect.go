package show

import (
	"fmt"
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
	"musette/planner/season"
)

// Lines about what models expect, each said once in an answer.
const (
	Uncertain     = "These are rough estimates: the ranges in brackets should hold for 8 in 10 riders like you. Health comes first."
	PerCent       = "Per cent are of race time: 1 % is about 36 seconds in a race of an hour."
	SourcePerCent = "Source: Mujika & Padilla 2003."

	// Where the figures come from.
	SourceModel  = "a training model from sports science (Banister, see docs/model.md)"
	SourceModels = "two training models from sports science (Banister for lengths, Busso for cuts, see docs/model.md)"
)

// SecondsAnHour are a per cent of an hour's race.
const SecondsAnHour = 36

// Figure is a range in a table: 3.3 % (1.5 to 5.2).
func Figure(r response.Range) string {
	if season.Tenths(r.Low) == season.Tenths(r.High) {
		return season.Tenths(r.Mid) + " %"
	}
	return fmt.Sprintf("%s %% (%s to %s)", season.Tenths(r.Mid), season.Tenths(r.Low), season.Tenths(r.High))
}

// Faster is a range in a table: 0.4 % faster (from 0.2 % slower to 1.0 % faster).
func Faster(r response.Range) string {
	text := Compared(r, "faster", "slower", "")
	if season.Tenths(r.Mid) == "0" {
		return text
	}
	return strings.TrimPrefix(text, "about ")
}

// FasterBy is a single figure in words: 0.4 % faster.
func FasterBy(v float64) string {
	return Faster(response.Range{Low: v, Mid: v, High: v})
}

// Compared is a range in a sentence, with a word for figures above zero and one
// for those below: about 3.3 % better than that (1.5 to 5.2 %). than may be empty.
func Compared(r response.Range, above, below, than string) string {
	low, high := season.Tenths(r.Low), season.Tenths(r.High)
	word, mid := above, season.Tenths(r.Mid)
	if r.Mid < 0 {
		word, mid = below, season.Tenths(-r.Mid)
	}
	text := "about " + mid + " % " + word
	if mid == "0" {
		text = "about the same"
		if other, ok := strings.CutPrefix(than, "than "); ok {
			than = "as " + other
		}
	}
	if than != "" {
		text += " " + than
	}
	switch {
	case low == high:
		return text
	case r.Low >= 0 || low == "0":
		return text + fmt.Sprintf(" (%s to %s %%)", low, high)
	case r.High <= 0 || high == "0":
		return text + fmt.Sprintf(" (%s to %s %%)", season.Tenths(-r.High), season.Tenths(-r.Low))
	}
	return text + fmt.Sprintf(" (from %s %% %s to %s %% %s)", season.Tenths(-r.Low), below, high, above)
}

// share100 is a share of 0 to 1 in whole per cent.
func share100(v float64) string { return fmt.Sprintf("%.0f %%", 100*v) }

// expectedLines say what a taper is expected to bring and, where its length was
// found automatically, how the nearest other lengths compare.
func expectedLines(plan *engine.Plan, f *planner.Facts, t *engine.Taper) []string {
	e := season.Expect(plan, f, t)
	if e == nil {
		return nil
	}
	lines := []string{fmt.Sprintf("Expected in the race: %s. 1 %% is about 36 seconds in an hour.", Compared(e.Gain, "faster", "slower", "than without a taper")),
		fmt.Sprintf("That counts both what it brings and what it costs: %s of your fatigue goes, and %s of your fitness stays.", share100(e.Shed), share100(e.Kept))}
	for _, inside := range season.InsideOf(plan, f, t) {
		if cost := InsideCost(&inside); cost != "" {
			lines = append(lines, fmt.Sprintf("%s, which is inside this taper, makes you %s. The figures above do not count that.", CutTo(inside.Race.Name, MostName), cost))
		}
	}
	if t.From <= plan.Today { // it keeps its length now
		return lines
	}
	if other := nearestOther(season.RunnersUp(plan, f, t)); other != "" {
		lines = append(lines, other)
	}
	return lines
}

// InsideCost is what a race inside a taper does to the race of that taper, "" where that cannot be told.
func InsideCost(i *season.Inside) string {
	if season.Tenths(i.Cost.Mid) == "0" {
		return ""
	}
	return Compared(i.Cost, "faster", "slower", "in "+CutTo(i.Host.Name, MostName))
}

// nearestOther says how the nearest other length that cuts no more compares, "" where there is none.
func nearestOther(others []season.RunnerUp) string {
	k := slices.IndexFunc(others, func(o season.RunnerUp) bool { return o.Fair })
	if k < 0 {
		return ""
	}
	near := others[k]
	behind := near.Behind
	text := fmt.Sprintf("By a training model, %s instead, with later races counted: %s",
		Count(near.Days, "day"), Compared(response.Range{Low: -behind.High, Mid: -behind.Mid, High: -behind.Low}, "faster", "slower", ""))
	switch {
	case behind.Mid < 0 && behind.High >= 0:
		text += ", too close to call"
	case behind.Mid < 0 && season.Tenths(behind.Mid) != "0":
		text += ", but it is too rough to go by"
	}
	return text + "."
}
