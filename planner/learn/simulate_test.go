package learn

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sync"

	"musette/planner"
	"musette/planner/response"
)

// person is a made-up rider: a model with its day, what the table says, and how they answer.
type person struct {
	draw         response.Draw
	table        int
	habit, slope float64 // of legs
	noise        float64
	expects      float64 // per cent of form that they compare with
}

// seasonRaces is how many races a person rides.
const seasonRaces = 12

// ofPrior is a rider of the prior, drawn anew by chance as docs/model.md has it.
func ofPrior(r *rand.Rand) person {
	for {
		tau1, tau2 := 45*math.Exp(math.Log(59.0/17)/3.92*r.NormFloat64()), 15*math.Exp(math.Log(32.0/6)/3.92*r.NormFloat64())
		turn := 22.5 * math.Ln2 * math.Exp(math.Log(35.0/7)/3.92*r.NormFloat64())
		gain, share := min(6, max(0.5, 3+1.4*r.NormFloat64())), 0.3*math.Exp(0.3*r.NormFloat64())
		if tau1 < 1.3*tau2 {
			continue
		}
		m := withTurn(tau1, tau2, turn)
		trained := 1/math.Expm1(1/tau1) - m.K2/math.Expm1(1/tau2)
		byTaper, byTraining := gain/bestHalf(&m), 100*share/(1+share)/trained
		if trained > 0 && math.Abs(math.Log(byTaper/byTraining)) <= 0.3 {
			return person{draw: response.Draw{Linear: m, Percent: math.Sqrt(byTaper * byTraining)},
				habit: 5 + 2*r.NormFloat64(), slope: 1, noise: noises[r.IntN(len(noises))], expects: 2 + 1.5*r.NormFloat64()}
		}
	}
}

// ofElsewhere is a rider as the prior does not have them: all days, sizes and ways to answer alike.
func ofElsewhere(r *rand.Rand) person {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	tau1 := between(25, 80)
	m := withTurn(tau1, tau1*between(0.15, 0.7), between(6, 26))
	return person{draw: response.Draw{Linear: m, Percent: between(0.5, 6) / bestHalf(&m)},
		habit: between(2, 8), slope: between(0.5, 1.5), noise: between(0.7, 2.5), expects: between(0, 4)}
}

func withTurn(tau1, tau2, turn float64) response.Linear {
	return response.Linear{Tau1: tau1, Tau2: tau2, K1: 1, K2: math.Exp(turn * (tau1 - tau2) / (tau1 * tau2))}
}

// bestHalf is what an even cut by half brings that takes in each day on which load harms.
func bestHalf(m *response.Linear) float64 {
	sum := -m.Influence(1)
	for u := 2.0; u <= m.TurnsHarmful(); u++ {
		sum -= m.Influence(u)
	}
	return sum / 2
}

// race is a race with a taper of so many days that cuts about 40 per cent, more towards the race, and
// days that are never quite as planned; the legs are rounded and held to 1..10.
func (p *person) race(r *rand.Rand, days int) Race {
	change := append(planned(days), make([]float64, 30-days)...)
	for i := range change {
		change[i] += 0.15 * r.NormFloat64()
	}
	form := drawForm(&p.draw, change) + p.noise*dayLuck*r.NormFloat64()
	legs := math.Round(p.habit + p.slope*form + p.noise*legsNoise*r.NormFloat64())
	out := Race{Days: days, Change: change, Legs: int(max(1, min(10, legs)))}
	if out.ComparedTold = r.IntN(3) > 0; out.ComparedTold {
		if than := form + p.noise*dayLuck*r.NormFloat64() - p.expects; math.Abs(than) > 1 {
			out.Compared = int(math.Copysign(1, than))
		}
	}
	return out
}

// planned is by how much the loads of a taper of so many days differ from usual.
func planned(days int) []float64 {
	change := make([]float64, days)
	for i := range change {
		change[i] = -0.25 - 0.3*float64(days-i)/float64(days)
	}
	return change
}

// plannedForms are what tapers as planned make, by their days and by shapes.
var plannedForms = sync.OnceValue(func() (out [planner.MostOwnDays + 1][]float64) {
	for n := range out {
		out[n] = rough().form(planned(n))
	}
	return out
})

// follows is the length that a person races with who says yes to each proposal.
func (p *person) follows(l *Learned) int {
	return l.next(p.table, l.Length(p.table), func(days int) ([]float64, bool) { return plannedForms()[days], true }).Days
}

// keeps is the length of a person who always takes the table's.
func (p *person) keeps(*Learned) int { return p.table }

// always are all looks, atEnds the first and the last.
func always(int) bool    { return true }
func atEnds(k int) bool  { return k == 0 || k == seasonRaces }
func atFirst(k int) bool { return k <= 1 }

// asRaced are the answers of a race, atRandom some that have nothing to do with it.
func asRaced(race Race, _ *rand.Rand) Race { return race }

func atRandom(race Race, r *rand.Rand) Race {
	race.Legs, race.Compared = 1+r.IntN(10), r.IntN(3)-1
	return race
}

// followed is what was learned of one person after so many races.
type followed [seasonRaces + 1]struct {
	error   float64 // days of taper
	covered bool
	inside  bool // the middle of the range lies in the prior's middle half
	decides bool
}

// kind is how persons are made, which lengths they take and how they answer.
type kind struct {
	seed    uint64
	draw    func(*rand.Rand) person
	length  func(*person, *Learned) int
	answers func(Race, *rand.Rand) Race
	looks   func(races int) bool
	races   int // that are ridden
}

// follow makes n persons of a kind and learns of them.
func follow(n int, of kind) []followed {
	out := make([]followed, n)
	var wait sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				out[i] = of.follow(rand.New(rand.NewPCG(of.seed, uint64(i))))
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	return out
}

// follow makes one person of a kind and learns of each of their races.
func (of kind) follow(r *rand.Rand) (f followed) {
	g := rough()
	p := of.draw(r)
	p.table = 6 + r.IntN(7)
	day := p.draw.TurnsHarmful()
	var races []Race
	var forms [][]float64
	var l *Learned
	for k := range f {
		if of.looks(k) {
			l = g.learnFrom(races, forms)
			f[k].error = float64(p.table) * math.Abs(l.Share.Mid-day/g.mid)
			f[k].covered = l.Day.Low <= day && day <= l.Day.High
			f[k].inside = g.none.Day.Quarter <= l.Day.Mid && l.Day.Mid <= g.none.Day.ThreeQuarters
			f[k].decides = l.Length(p.table).Decides
		}
		if k < of.races {
			races = append(races, of.answers(p.race(r, of.length(&p, l)), r))
			forms = append(forms, g.form(races[k].Change))
		}
	}
	return f
}
