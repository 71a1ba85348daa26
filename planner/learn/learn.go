package learn

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"musette/planner/response"
)

// Race is a race that was ridden. Change is by how much the load of each day before
// it differed from usual, in usual days, the eve first. Legs are 1 to 10, 0 where
// they were not told; Compared is -1 for worse than expected, 0 for as expected
// and 1 for better, if it was told. Days is its taper, 0 where it had none.
type Race struct {
	Days         int
	Change       []float64
	Legs         int
	Compared     int
	ComparedTold bool
}

// What a rider enters about a race, as the model takes it (our choice, no study gives these
// figures). The rider's form on the day is what the loads make of it and the luck
// of the day, in per cent of performance. Each rider reads the scales in their own way.
const (
	dayLuck = 0.6 // SD of form, per cent

	legsSlope, legsNoise  = 1.0, 0.7 // points a per cent; SD besides luck
	legsHabit, legsHabit2 = 5.0, 2.0 // after usual training: mean and SD over riders

	comparedSlope, comparedNoise = 0.47, 0.40 // of -1, 0 and 1
	comparedHabit                = 1.0        // SD over riders

	mostRaces = 20 // the last ones count
)

// noises are how much more or less than that luck and scales vary for a rider,
// equally likely: who answers at random is found out.
var noises = [...]float64{0.8, 1.2, 1.8, 3}

// Figure is what is believed of a number: Range holds 80 %, Quarter and
// ThreeQuarters the middle half.
type Figure struct {
	Mean, SD float64
	response.Range
	Quarter, ThreeQuarters float64
}

// Learned is what is believed of a rider. Day is how many days before a race
// training turns harmful; Share is what that makes of the table's length of a
// taper, which is right for the middle rider of the prior.
type Learned struct {
	Races      int // that said something
	Day, Share Figure

	grid  *grid
	races []Race
	belief
	meanLegs []float64 // form in the races with legs on average, by each shape of size 1
	legs     int       // how many these are
}

// belief is the weight of each shape, 1 in sum, and the mean of its size and of the
// square of that.
type belief struct{ weights, size, square []float64 }

// grid is shapes of the prior and their sizes, with the days at which training turns
// harmful; order ascends in these, mid is the middle one.
type grid struct {
	response.Grid
	day   []float64
	order []int
	mid   float64
	none  *Learned // without any race
}

// The grids of From and Rough.
const roughShapes = 1024

var (
	fine  = sync.OnceValue(func() *grid { return newGrid(response.Fine()) })
	rough = sync.OnceValue(func() *grid {
		all := response.Fine()
		return newGrid(response.Grid{Shapes: all.Shapes[:roughShapes], Sizes: all.Sizes[:roughShapes]})
	})
)

func newGrid(of response.Grid) *grid {
	g := &grid{Grid: of}
	for i := range of.Shapes {
		g.day, g.order = append(g.day, of.Shapes[i].TurnsHarmful()), append(g.order, i)
	}
	slices.SortFunc(g.order, func(a, b int) int { return cmp.Compare(g.day[a], g.day[b]) })
	g.mid = 1
	g.none = g.learn(nil)
	g.mid = g.none.Day.Mid
	g.none.Share = g.none.Day.times(1 / g.mid)
	return g
}

// told is a number that was told of a race.
type told struct {
	race         int
	value, slope float64
	noise, habit float64 // SDs
	legs         bool

	spread float64 // variance besides habit and luck, for riders of one noise
}

// From weighs the prior by races, of which the last 20 count.
func From(races []Race) *Learned { return fine().learn(races) }

// Rough is From with fewer draws, for many riders at once: its figures differ by a
// few per cent.
func Rough(races []Race) *Learned { return rough().learn(races) }

func (g *grid) learn(races []Race) *Learned {
	races = races[max(0, len(races)-mostRaces):]
	form := make([][]float64, len(races))
	for k, r := range races {
		if r.Legs > 0 || r.ComparedTold {
			form[k] = g.form(r.Change)
		}
	}
	return g.learnFrom(races, form)
}

// learnFrom is learn by the form that each race's loads make, by each shape.
func (g *grid) learnFrom(races []Race, form [][]float64) *Learned {
	var list []told
	l := &Learned{grid: g, races: races, meanLegs: make([]float64, len(g.Shapes))}
	for k, r := range races {
		if r.Legs == 0 && !r.ComparedTold {
			continue
		}
		l.Races++
		if r.Legs > 0 {
			l.legs++
			list = append(list, told{race: k, value: float64(r.Legs) - legsHabit, slope: legsSlope, noise: legsNoise, habit: legsHabit2, legs: true})
			for j, v := range form[k] {
				l.meanLegs[j] += v
			}
		}
		if r.ComparedTold {
			list = append(list, told{race: k, value: float64(r.Compared), slope: comparedSlope, noise: comparedNoise, habit: comparedHabit})
		}
	}
	for j := range l.meanLegs {
		l.meanLegs[j] /= math.Max(1, float64(l.legs))
	}
	l.belief = g.weigh(races, list, form)
	l.Day = l.figure()
	l.Share = l.Day.times(1 / g.mid)
	return l
}

// fit is how well a shape fits what was entered, by its size: the logarithm of the
// likelihood is top - (curve size^2 - 2 slope size) / 2.
type fit struct{ top, slope, curve float64 }

// weigh gives each shape and size the likelihood of what was entered, whatever the
// habit and the noise of the rider.
func (g *grid) weigh(races []Race, list []told, form [][]float64) belief {
	fits, most := make([][len(noises)]fit, len(g.Shapes)), math.Inf(-1)
	ends := g.ends(races, form)
	for s, noise := range noises {
		here, factor := withSpread(list, ends.sites(races, noise), noise)
		root, logDet := choleskyOf(here, noise)
		value, v := make([]float64, len(list)), make([]float64, len(list))
		for i := range here {
			value[i] = here[i].value
		}
		solve(root, value)
		top := factor - logDet - dot(value, value)/2
		for j := range fits {
			for i := range list {
				v[i] = list[i].slope * form[list[i].race][j]
			}
			solve(root, v)
			f := fit{top, dot(value, v), dot(v, v)}
			fits[j][s] = f
			for _, size := range g.Sizes[j] {
				most = max(most, f.at(size.Percent))
			}
		}
	}
	n := len(g.Shapes)
	b, total := belief{make([]float64, n), make([]float64, n), make([]float64, n)}, 0.0
	for j := range fits {
		for _, size := range g.Sizes[j] {
			likely := 0.0
			for _, f := range fits[j] {
				likely += math.Exp(f.at(size.Percent) - most)
			}
			likely *= size.Weight
			b.weights[j], b.size[j], b.square[j] = b.weights[j]+likely, b.size[j]+likely*size.Percent, b.square[j]+likely*size.Percent*size.Percent
		}
		total += b.weights[j]
	}
	for j, w := range b.weights {
		if w > 0 {
			b.weights[j], b.size[j], b.square[j] = w/total, b.size[j]/w, b.square[j]/w
		}
	}
	return b
}

// withSpread is what was entered with its variance for riders of a noise, with sites in
// the place of answers at the ends of the scale, and the logarithm of their factors.
func withSpread(list []told, sites map[int]site, noise float64) (out []told, factor float64) {
	out = slices.Clone(list)
	for i := range out {
		t := &out[i]
		t.spread = noise * noise * t.noise * t.noise
		if s, ok := sites[t.race]; ok && t.legs {
			t.value, t.spread = s.value-legsHabit, s.variance-noise*noise*t.slope*t.slope*dayLuck*dayLuck
			factor += s.log
		}
	}
	return out, factor
}

func (f *fit) at(size float64) float64 { return f.top - (f.curve*size-2*f.slope)*size/2 }

// solve puts in place of values what a lower root makes of them: root times it
// is these.
func solve(root [][]float64, values []float64) {
	for i, row := range root {
		v := values[i]
		for k, c := range row[:i] {
			v -= c * values[k]
		}
		values[i] = v / row[i]
	}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// choleskyOf is the lower root of the covariance of what was entered, given the loads,
// and the logarithm of its determinant. Legs share a habit, and so do comparisons; a
// day's luck is in both that were told of it.
func choleskyOf(list []told, noise float64) (root [][]float64, logDet float64) {
	for i, a := range list {
		row := make([]float64, i+1)
		for k, b := range list[:i+1] {
			if a.legs == b.legs {
				row[k] += a.habit * b.habit
			}
			if a.race == b.race {
				row[k] += noise * noise * a.slope * b.slope * dayLuck * dayLuck
			}
			if i == k {
				row[k] += a.spread
			}
		}
		for k := range row[:i] {
			for m := range k {
				row[k] -= row[m] * root[k][m]
			}
			row[k] /= root[k][k]
			row[i] -= row[k] * row[k]
		}
		row[i] = math.Sqrt(row[i])
		logDet += math.Log(row[i])
		root = append(root, row)
	}
	return root, logDet
}

// figure is what the weights make of the day.
func (l *Learned) figure() (f Figure) {
	for j, v := range l.grid.day {
		f.Mean += l.weights[j] * v
	}
	for j, v := range l.grid.day {
		f.SD += l.weights[j] * (v - f.Mean) * (v - f.Mean)
	}
	f.SD = math.Sqrt(f.SD)
	f.Low, f.Mid, f.High = l.quantile(0.1), l.quantile(0.5), l.quantile(0.9)
	f.Quarter, f.ThreeQuarters = l.quantile(0.25), l.quantile(0.75)
	return f
}

// quantile of the day takes each shape to lie in the middle of its weight.
func (l *Learned) quantile(q float64) float64 {
	day, order := l.grid.day, l.grid.order
	below, last := 0.0, order[0]
	for i, j := range order {
		at := below + l.weights[j]/2
		if at >= q {
			if i == 0 {
				break
			}
			from := below - l.weights[last]/2
			return day[last] + (q-from)/(at-from)*(day[j]-day[last])
		}
		below, last = below+l.weights[j], j
	}
	return day[last]
}

func (f Figure) times(by float64) Figure {
	return Figure{Mean: f.Mean * by, SD: f.SD * by, Range: response.Range{Low: f.Low * by, Mid: f.Mid * by, High: f.High * by}, Quarter: f.Quarter * by, ThreeQuarters: f.ThreeQuarters * by}
}

// form is by how many per cent loads that differ so from usual change the form on
// race morning, by each shape of size 1.
func (g *grid) form(change []float64) []float64 {
	out := make([]float64, len(g.Shapes))
	g.Shapes.Effect(out, 1, response.Reach{}, response.Change{Before: change})
	return out
}
