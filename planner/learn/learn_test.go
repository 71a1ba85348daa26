package learn

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner/response"
)

func even(days int, cut float64) []float64 {
	out := make([]float64, days)
	for i := range out {
		out[i] = -cut
	}
	return out
}

func within(t *testing.T, what string, got, want, most float64) {
	t.Helper()
	if !(math.Abs(got-want) <= most) {
		t.Errorf("%s: %v, want %v (+- %v)", what, got, want, most)
	}
}

// testdata/learned.py works the same out with scipy, from other draws of the prior and another likelihood.
func TestAgreesWithScipy(t *testing.T) {
	data, err := os.ReadFile("testdata/learned.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		Name  string
		Races []struct {
			Change   []float64
			Legs     int
			Compared *int
		}
		Mean, SD, Low, Mid, High float64
	}
	if err := json.Unmarshal(data, &cases); err != nil || len(cases) < 7 {
		t.Fatalf("%d cases: %v", len(cases), err)
	}
	for _, c := range cases {
		var races []Race
		for _, r := range c.Races {
			race := Race{Change: r.Change, Legs: r.Legs}
			if r.Compared != nil {
				race.Compared, race.ComparedTold = *r.Compared, true
			}
			races = append(races, race)
		}
		l := From(races)
		within(t, c.Name+": mean", l.Day.Mean, c.Mean, 0.01*c.Mean)
		within(t, c.Name+": SD", l.Day.SD, c.SD, 0.01*c.SD)
		for what, pair := range map[string][2]float64{"10 %": {l.Day.Low, c.Low}, "50 %": {l.Day.Mid, c.Mid}, "90 %": {l.Day.High, c.High}} {
			within(t, c.Name+": "+what, pair[0], pair[1], 0.015*pair[1])
		}
		rough := Rough(races)
		within(t, c.Name+": rough mean", rough.Day.Mean, c.Mean, 0.04*c.Mean)
		within(t, c.Name+": rough SD", rough.Day.SD, c.SD, 0.1*c.SD)
	}
}

// Without a race, or of races of which nothing was entered, nothing is learned.
func TestNothingToldTeachesNothing(t *testing.T) {
	silent := From([]Race{{Change: even(9, 0.4)}, {Change: even(12, 0.4)}})
	if none := From(nil); silent.Day != none.Day || silent.Races != 0 || none.Sure() != 0 {
		t.Errorf("silent races: %+v, none: %+v", silent.Day, none.Day)
	}
	within(t, "the middle rider's share", From(nil).Share.Mid, 1, 1e-3)
	for table := 6; table <= 12; table++ {
		if n := From(nil).Length(table); n.Decides || n.Days != table || n.Low >= table || n.High <= table {
			t.Errorf("table %d: %+v", table, n)
		}
	}
}

// Better legs after short tapers than after long ones make the day earlier, and the other way round.
func TestLegsTell(t *testing.T) {
	races := func(n, short, long int) (out []Race) {
		for range n {
			out = append(out, Race{Change: even(6, 0.4), Legs: short}, Race{Change: even(14, 0.4), Legs: long})
		}
		return out
	}
	early, late, prior := From(races(3, 8, 6)), From(races(3, 6, 8)), From(nil)
	if !(early.Day.Mean < prior.Day.Mean && prior.Day.Mean < late.Day.Mean) {
		t.Errorf("early %.2f, prior %.2f, late %.2f", early.Day.Mean, prior.Day.Mean, late.Day.Mean)
	}
	if n := From(races(1, 10, 1)).Length(9); n.Decides {
		t.Errorf("two races decide: %+v", n)
	}
	if n := From(races(6, 8, 5)).Length(9); !n.Decides || n.Days >= 9 || n.High >= 9 {
		t.Errorf("twelve races do not decide: %+v", n)
	}
	var more []Race
	for range 9 {
		more = append(more, Race{Change: even(9, 0.4), Legs: 1})
	}
	more = append(more, races(10, 8, 6)...)
	if got, want := From(more).Day, From(races(10, 8, 6)).Day; got != want {
		t.Errorf("races before the last 20 count: %+v, want %+v", got, want)
	}
}

// What a race is expected to teach is what it teaches on average: the mean of the variance that is
// left, over legs as the rider's draws would bring them; as closely as so many draws allow.
func TestTeachesWhatItSays(t *testing.T) {
	rounds.Skip(t, "that a race teaches what it is expected to")
	past := []Race{{Change: even(6, 0.4), Legs: 7}, {Change: even(10, 0.4), Legs: 7}, {Change: even(8, 0.4), Legs: 6}}
	for days, n := range map[int]int{6: 240, 10: 240, 14: 1000} { // the longest one teaches something
		r := rand.New(rand.NewPCG(7, uint64(days)))
		l := Rough(past)
		left := 0.0
		n = max(n, 40*(*riders))
		for range n {
			rider := l.draw(r)
			// The habit as the past has it for this draw, with the noise of an ordinary rider.
			noise := ordinary * math.Hypot(dayLuck, legsNoise)
			sum := 0.0
			for _, p := range past {
				sum += float64(p.Legs) - legsHabit - drawForm(&rider, p.Change)
			}
			precision := 1/(legsHabit2*legsHabit2) + float64(len(past))/(noise*noise)
			habit := legsHabit + sum/(noise*noise)/precision + r.NormFloat64()/math.Sqrt(precision)
			legs := math.Round(habit + drawForm(&rider, even(days, 0.4)) + noise*r.NormFloat64())
			next := Rough(append(past[:3:3], Race{Change: even(days, 0.4), Legs: int(max(1, min(10, legs)))}))
			left += next.Day.SD * next.Day.SD / float64(n)
		}
		within(t, "share of the variance", 1-left/(l.Day.SD*l.Day.SD), l.teaches(l.grid.form(even(days, 0.4))), 0.035*math.Sqrt(1000/float64(n)))
	}
	l := From(past)
	if taper := l.grid.form(even(9, 0.4)); l.expects(taper, taper) != 0 || l.expects(taper, l.grid.form(nil)) <= 0 {
		t.Error("a taper is expected to bring nothing")
	}
}

// draw is a rider as the weights have them. The likelihood of a size is taken from its mean and SD.
func (l *Learned) draw(r *rand.Rand) response.Draw {
	at, j := r.Float64(), 0
	for at -= l.weights[0]; at >= 0 && j < len(l.weights)-1; at -= l.weights[j] {
		j++
	}
	d := l.grid.Shapes[j]
	d.Percent = l.size[j] + math.Sqrt(max(0, l.square[j]-l.size[j]*l.size[j]))*r.NormFloat64()
	return d
}

// drawForm is the form that loads make, by the influence of each day.
func drawForm(d *response.Draw, change []float64) float64 {
	sum := 0.0
	for i, v := range change {
		sum += v * d.Percent * d.Influence(float64(i+1))
	}
	return sum
}

func BenchmarkFrom(b *testing.B) {
	var races []Race
	for i := range 12 {
		races = append(races, Race{Change: even(42, 0.3), Legs: 5 + i%4, ComparedTold: true})
	}
	for b.Loop() {
		From(races)
	}
}
