package response

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
)

// The optimum of 200 seasons is that which independent solvers of mixed-integer
// programmes found (cmd/season-proof wrote the file, and repeats the check with them).
func TestSolveAgreesWithSolvers(t *testing.T) {
	raw, err := os.ReadFile("testdata/season-optima.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		About struct {
			Solvers []string
		}
		Seasons []struct {
			Budget int
			Stops  []struct {
				First, Last int
				Options     [][3]float64 // days, after, gain
			}
			Highs, Glpsol float64
		}
	}
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Seasons) < 200 || len(file.About.Solvers) != 2 {
		t.Fatalf("%d seasons by %q", len(file.Seasons), file.About.Solvers)
	}
	for i, f := range file.Seasons {
		s := Season{Budget: f.Budget}
		for _, from := range f.Stops {
			stop := Stop{First: from.First, Last: from.Last}
			for _, o := range from.Options {
				stop.Options = append(stop.Options, Option{Days: int(o[0]), After: int(o[1]), Gain: o[2]})
			}
			s.Stops = append(s.Stops, stop)
		}
		gain := solveAllowed(t, s)
		for k, want := range []float64{f.Highs, f.Glpsol} {
			if math.Abs(gain-want) > 1e-6*math.Max(1, math.Abs(want)) {
				t.Errorf("season %d: %.9f, by %s %.9f", i, gain, file.About.Solvers[k], want)
			}
		}
	}
}

// solveAllowed solves a season that has a solution and checks the choice.
func solveAllowed(t *testing.T, s Season) float64 {
	t.Helper()
	choice, gain, ok := s.Solve()
	if !ok {
		t.Fatalf("no choice for %+v", s)
	}
	total := 0.0
	for i := range choice {
		if !allowed(s, choice[:i+1]) {
			t.Fatalf("%v is not allowed in %+v", choice, s)
		}
		total += s.Stops[i].Options[choice[i]].Gain
	}
	if total != gain {
		t.Fatalf("choice %v brings %v, not %v", choice, total, gain)
	}
	return gain
}

// allowed tells whether the last race's option goes with those before it, day
// by day, and with the budget.
func allowed(s Season, choice []int) bool {
	spent, last := 0, len(choice)-1
	taper, taken := days(s, choice, last)
	for i := range choice {
		spent += s.Stops[i].Options[choice[i]].Days
		if i == last {
			continue
		}
		otherTaper, otherTaken := days(s, choice, i)
		if meet(taper, otherTaper) || meet(taper, otherTaken) || meet(taken, otherTaper) {
			return false
		}
	}
	return spent <= s.Budget
}

// days are the first day and the day after the last of a race's taper, and
// likewise of the days that no other taper may touch.
func days(s Season, choice []int, race int) (taper, taken [2]int) {
	stop := &s.Stops[race]
	o := stop.Options[choice[race]]
	taper = [2]int{stop.First - o.Days, stop.First}
	if o.After >= 0 {
		taken = [2]int{stop.First, stop.Last + o.After + 1}
	}
	return taper, taken
}

func meet(a, b [2]int) bool { return max(a[0], b[0]) < min(a[1], b[1]) }

// exhaustive tries all choices in the order of the options; of equal sums the first stays.
func exhaustive(s Season) (best []int, gain float64, ok bool) {
	choice := make([]int, 0, len(s.Stops))
	var try func(sum float64)
	try = func(sum float64) {
		race := len(choice)
		if race == len(s.Stops) {
			if !ok || sum > gain {
				best, gain, ok = slices.Clone(choice), sum, true
			}
			return
		}
		for o := range s.Stops[race].Options {
			choice = append(choice, o)
			if allowed(s, choice) {
				try(sum + s.Stops[race].Options[o].Gain)
			}
			choice = choice[:race]
		}
	}
	try(0)
	return best, gain, ok
}

// compareExhaustive tells what Solve and trying all choices differ in.
func compareExhaustive(t *testing.T, s Season) (ok bool) {
	t.Helper()
	choice, gain, ok := s.Solve()
	wantChoice, wantGain, wantOK := exhaustive(s)
	if ok != wantOK || gain != wantGain || ok && !slices.Equal(choice, wantChoice) {
		t.Fatalf("%+v\ngot  %v %v %v\nwant %v %v %v", s, choice, gain, ok, wantChoice, wantGain, wantOK)
	}
	return ok
}

// randomSeason has races of one to some days within so many days, sorted by
// their first; with whole gains many sums are equal.
func randomSeason(rng *rand.Rand, races, span int, whole bool) Season {
	s := Season{Budget: rng.IntN(30)}
	for range races {
		stop := Stop{First: rng.IntN(span)}
		stop.Last = stop.First
		if rng.IntN(4) == 0 {
			stop.Last += rng.IntN(6)
		}
		for range 1 + rng.IntN(5) {
			o := Option{Days: max(0, rng.IntN(16)-4), After: rng.IntN(6) - 1, Gain: rng.Float64()*4 - 1}
			if whole {
				o.Gain = math.Round(o.Gain)
			}
			stop.Options = append(stop.Options, o)
		}
		s.Stops = append(s.Stops, stop)
	}
	slices.SortFunc(s.Stops, func(a, b Stop) int { return a.First - b.First })
	return s
}

// On small seasons the choice is that of trying all, to the last bit and in
// ties; some have no solution, some races on one day.
func TestSolveAgreesWithExhaustion(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 7))
	solved, impossible := 0, 0
	for i := range 3000 {
		if compareExhaustive(t, randomSeason(rng, rng.IntN(8), []int{3, 30, 90}[i%3], i%2 == 0)) {
			solved++
		} else {
			impossible++
		}
	}
	if solved < 1000 || impossible < 100 {
		t.Errorf("%d seasons with a solution, %d without: the check says little", solved, impossible)
	}
}

func TestSolveTies(t *testing.T) {
	same := []Option{{Days: 7, After: 2, Gain: 1}, {Days: 0, After: 0, Gain: 1}, {Days: 3, After: 2, Gain: 1}}
	for _, test := range []struct {
		name string
		s    Season
		want []int
	}{
		{"the earlier option, though it spends more", Season{Budget: 20, Stops: []Stop{{Options: same}, {First: 30, Last: 30, Options: same}}}, []int{0, 0}},
		{"the first race's option counts first", Season{Budget: 10, Stops: []Stop{{Options: same}, {First: 30, Last: 30, Options: same}}}, []int{0, 1}},
		{"a greater sum comes before all", Season{Budget: 20, Stops: []Stop{{Options: append(slices.Clone(same), Option{Gain: 1.5})}}}, []int{3}},
		{"as good later, once the days are free", Season{Budget: 20, Stops: []Stop{{Options: same}, {First: 3, Last: 3, Options: []Option{{Days: 3, Gain: 2}, {Gain: 1}}}}}, []int{0, 1}},
	} {
		if choice, _, ok := test.s.Solve(); !ok || !slices.Equal(choice, test.want) {
			t.Errorf("%s: %v %v, want %v", test.name, choice, ok, test.want)
		}
		compareExhaustive(t, test.s)
	}
}

// More budget or one more option never lowers the gain, and the order of the
// options does not change it.
func TestSolveProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	for range 300 {
		s := randomSeason(rng, 1+rng.IntN(20), 200, false)
		for i := range s.Stops { // so that there is a solution
			s.Stops[i].Options = append(s.Stops[i].Options, Option{After: -1})
		}
		gain := solveAllowed(t, s)
		more := s
		more.Budget += 1 + rng.IntN(10)
		if g := solveAllowed(t, more); g < gain {
			t.Fatalf("budget %d instead of %d: %v instead of %v", more.Budget, s.Budget, g, gain)
		}
		more.Budget = math.MaxInt
		if g := solveAllowed(t, more); g < gain {
			t.Fatalf("without a budget %v instead of %v", g, gain)
		}
		for i := range s.Stops {
			options := s.Stops[i].Options
			rng.Shuffle(len(options), func(a, b int) { options[a], options[b] = options[b], options[a] })
		}
		if g := solveAllowed(t, s); g != gain {
			t.Fatalf("%v, in another order of options %v", gain, g)
		}
		stop := &s.Stops[rng.IntN(len(s.Stops))]
		stop.Options = append(stop.Options, Option{Days: rng.IntN(10), After: rng.IntN(5), Gain: rng.Float64()})
		if g := solveAllowed(t, s); g < gain {
			t.Fatalf("with one more option %v instead of %v", g, gain)
		}
	}
}

func TestSolveDegenerate(t *testing.T) {
	week := []Option{{After: 0}, {Days: 7, After: 3, Gain: 2}}
	must := []Option{{Days: 7, After: 3, Gain: 2}}
	for _, test := range []struct {
		name  string
		s     Season
		want  []int
		gain  float64
		fails bool
	}{
		{name: "no races", s: Season{Budget: 5}, want: []int{}},
		{name: "all on one day: one tapers", s: Season{Budget: 50, Stops: []Stop{{Options: week}, {Options: week}, {Options: week}}}, want: []int{0, 0, 1}, gain: 2},
		{name: "all on one day must taper", s: Season{Budget: 50, Stops: []Stop{{Options: must}, {Options: must}}}, fails: true},
		{name: "stage races that overlap", s: Season{Budget: 50, Stops: []Stop{{First: 0, Last: 20, Options: week}, {First: 5, Last: 9, Options: week}, {First: 31, Last: 33, Options: week}}}, want: []int{1, 0, 1}, gain: 4},
		{name: "recovery days meet races but no taper", s: Season{Budget: 50, Stops: []Stop{{Options: must}, {First: 2, Last: 2, Options: []Option{{After: 4}}}, {First: 14, Last: 14, Options: week}}}, want: []int{0, 0, 1}, gain: 4},
		{name: "a race that takes no day lies in a taper", s: Season{Budget: 7, Stops: []Stop{{Options: []Option{{After: -1}}}, {First: 3, Last: 3, Options: must}}}, want: []int{0, 0}, gain: 2},
		{name: "one that takes its day does not", s: Season{Budget: 7, Stops: []Stop{{Options: []Option{{}}}, {First: 3, Last: 3, Options: must}}}, fails: true},
		{name: "a taper before a race left free is still one", s: Season{Budget: 20, Stops: []Stop{{Options: []Option{{Days: 4, After: -1, Gain: 1}}}, {First: 3, Last: 3, Options: []Option{{}, {Days: 3, Gain: 1}, {Days: 4, Gain: 5}}}}}, want: []int{0, 1}, gain: 2},
		{name: "only losses", s: Season{Budget: 50, Stops: []Stop{{Options: []Option{{Gain: -3}, {Days: 4, Gain: -1}}}}}, want: []int{1}, gain: -1},
		{name: "budget 0", s: Season{Stops: []Stop{{Options: week}, {First: 90, Last: 90, Options: week}}}, want: []int{0, 0}},
		{name: "budget 0 and a taper that must be", s: Season{Stops: []Stop{{Options: must}}}, fails: true},
		{name: "an option that can never fit", s: Season{Budget: 50, Stops: []Stop{{Options: []Option{{Days: 51, Gain: 9}, {Days: 50, Gain: 1}}}}}, want: []int{1}, gain: 1},
		{name: "a race without options", s: Season{Budget: 50, Stops: []Stop{{Options: week}, {First: 9, Last: 9}}}, fails: true},
	} {
		choice, gain, ok := test.s.Solve()
		if ok == test.fails || gain != test.gain || !slices.Equal(choice, test.want) {
			t.Errorf("%s: %v %v %v", test.name, choice, gain, ok)
		}
		compareExhaustive(t, test.s)
	}
}

// FuzzSolve reads a season from bytes: a budget, then races with up to three
// options, each so many days after the one before.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{20, 3, 0, 2, 0, 0, 1, 7, 3, 9, 14, 0, 1, 7, 3, 9, 10, 2, 2, 4, 0, 3, 0, 255, 3})
	f.Add([]byte{9, 0, 0, 2, 0, 1, 4, 4, 1, 4, 0, 0, 2, 0, 1, 4, 4, 1, 4})
	f.Fuzz(func(t *testing.T, data []byte) {
		next := func() int {
			if len(data) == 0 {
				return 0
			}
			b := data[0]
			data = data[1:]
			return int(b)
		}
		s, day := Season{Budget: next() % 64}, 0
		for len(data) > 0 && len(s.Stops) < 7 {
			day += next() % 32
			stop := Stop{First: day, Last: day + next()%8}
			for range 1 + next()%3 {
				stop.Options = append(stop.Options, Option{Days: next() % 24, After: next()%12 - 1, Gain: float64(int8(next())) / 4})
			}
			s.Stops = append(s.Stops, stop)
		}
		compareExhaustive(t, s)
	})
}

// A year with races evenly over it, each with six options, and a budget that binds.
func BenchmarkSolve(b *testing.B) {
	for _, races := range []int{12, 48} {
		b.Run(fmt.Sprintf("races=%d", races), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(uint64(races), 5))
			s := Season{Budget: 365 * 3 / 10}
			for i := range races {
				first := (i + 1) * 365 / (races + 1)
				stop := Stop{First: first, Last: first, Options: []Option{{After: -1}}}
				for _, days := range []int{4, 7, 10, 14, 21} {
					stop.Options = append(stop.Options, Option{Days: days, After: 1 + rng.IntN(7), Gain: rng.Float64() * float64(days)})
				}
				s.Stops = append(s.Stops, stop)
			}
			b.ReportAllocs()
			for b.Loop() {
				s.Solve()
			}
		})
	}
}
