package plans_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// promised is how many random seasons are changed by the button. docs/performance.md has what 500 gave.
var promised = flag.Int("promised", 4, "how many random seasons are changed by the button")

var (
	saidRace    = regexp.MustCompile(`(?m)^(Race \d+)(?: \([BC]\))?: (?:([\d.]+) % (faster|slower)|about the same)`)
	saidAverage = regexp.MustCompile(`On average over all your races, the (?:whole )?change makes you about ([\d.]+) % faster`)
	saidStep    = regexp.MustCompile(`On average over all your races: about ([\d.]+) % less race time`)
	saidEnd     = regexp.MustCompile(`If you made all the changes \(Show the numbers\): .*, and about ([\d.]+) % less race time on average, this step included\.`)
)

// oneOf is one of some values.
func oneOf[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// randomSeason is a talk of a rider with two to nine A races, and B and C races before, inside and over their days.
func randomSeason(t *testing.T, r *rand.Rand) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + oneOf(r, bottest.InesWeek,
		"mon rest; tue intervals 75min 5x3min; wed endurance 90min; thu intervals 80min 3x10min; fri off; sat long 180min; sun endurance 120min",
		"mon off; tue endurance 60min; wed intervals 70min 5x3min; thu off; fri endurance 60min; sat long 120min; sun endurance 60min") + "\"")
	day, n := planner.NewDate(2026, 6, 15), 0
	add := func(on planner.Date, priority string, hours, days int) {
		n++
		k.OK(fmt.Sprintf(`/race add name:"Race %d" date:%s priority:%s hours:%d days:%d`, n, on, priority, hours, days))
	}
	for range 2 + r.IntN(8) {
		days := oneOf(r, 1, 1, 1, 1, 3)
		add(day, "A", 1+r.IntN(5), days)
		switch r.IntN(5) {
		case 0: // inside the next taper, or on its own
			add(day.AddDays(4+r.IntN(12)), oneOf(r, "B", "C"), 1+r.IntN(3), 1)
		case 1: // over the same days
			add(day.AddDays(r.IntN(days)), oneOf(r, "A", "B", "C"), 2, 1+r.IntN(2))
		}
		day = day.AddDays(oneOf(r, 5, 7, 10, 14, 14, 21, 28, 42) + days - 1)
	}
	add(day.AddDays(4), "C", 1, 1)
	if length := oneOf(r, 0, 0, 0, 10, 21, 28); length > 0 {
		k.OK(fmt.Sprint("/me set taper:", length))
	}
	k.Who.Now = bottest.At("2026-06-01T08:00:00Z").AddDate(0, 0, oneOf(r, 0, 3, 9, 12, 25, 40))
	return k
}

// recomputed is what a change did to each race to come, day by day of both plans, with the linear model's published
// form (Morton et al. 1990): per cent of performance, one value a set of parameters.
func recomputed(today planner.Date, before, after *planner.Facts) (byRace map[string]float64, average float64) {
	was, is := engine.Derive(today, before), engine.Derive(today, after)
	load := func(p *engine.Plan, d planner.Date) (sum float64) {
		if day := p.Known(d); day != nil {
			for _, s := range day.Sessions {
				sum += s.Load()
			}
		}
		return sum
	}
	unit := 0.0
	for _, d := range before.Weeks[0].Week {
		for _, s := range d.Sessions {
			unit += s.Load() / 7
		}
	}
	byRace = map[string]float64{}
	sum, weight := make([]float64, len(response.Prior())), 0.0
	for _, role := range was.Races {
		r := role.Race
		if r.Date <= today || role.Role == planner.Outranked {
			continue
		}
		counts := map[planner.Priority]float64{planner.PriorityA: 1, planner.PriorityB: 0.4, planner.PriorityC: 0.1}[r.Priority]
		weight += counts
		values := make([]float64, len(response.Prior()))
		for j, draw := range response.Prior() {
			for u := 1; r.Date.AddDays(-u) >= today; u++ {
				d := r.Date.AddDays(-u)
				values[j] += (load(is, d) - load(was, d)) / unit * draw.Percent * (draw.K1*math.Exp(-float64(u)/draw.Tau1) - draw.K2*math.Exp(-float64(u)/draw.Tau2))
			}
			sum[j] += counts * values[j]
		}
		byRace[r.Name] = middle(values)
	}
	return byRace, middle(sum) / weight
}

// changes is the button of a reply that changes the season, "" where it has none.
func changes(reply say.Reply) string {
	for _, b := range reply.Buttons {
		if b.Command == "season apply" {
			return b.Label
		}
	}
	return ""
}

func middle(values []float64) float64 {
	s := slices.Sorted(slices.Values(values))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

// What /season check says of a change is what its button brings, to rounding: in each race that is named and on
// average. Nothing that is worse has a button.
func TestButtonBringsWhatIsSaid(t *testing.T) {
	pressed, named, races := 0, 0, 0
	for i := range *promised {
		k := randomSeason(t, rand.New(rand.NewPCG(uint64(i), 307)))
		reply := k.OK("/season check numbers:all")
		said := saidAverage.FindStringSubmatch(reply.Text())
		if said == nil {
			if changes(reply) != "" {
				t.Errorf("season %d: a button without a promise:\n%s", i, reply.Text())
			}
			continue
		}
		before := k.Stored().([]any)[4].(planner.Facts) // with all versions
		check, _, _ := strings.Cut(reply.Text(), "\nExpected for your A races now")
		if applied := k.Press(reply, changes(reply)); applied.Err != nil {
			t.Fatalf("season %d: %s", i, applied.Text())
		}
		after := k.Stored().([]any)[4].(planner.Facts)
		byRace, average := recomputed(planner.DateOf(k.Who.Now), &before, &after)
		if v, _ := strconv.ParseFloat(said[1], 64); math.Abs(v-average) > 0.0501 || average <= 0 {
			t.Errorf("season %d: said %.1f %% on average, recomputed %.3f", i, v, average)
		}
		for _, row := range saidRace.FindAllStringSubmatch(check, -1) {
			v, _ := strconv.ParseFloat(row[2], 64)
			if row[3] == "slower" {
				v = -v
			}
			named++
			if math.Abs(v-byRace[row[1]]) > 0.0501 {
				t.Errorf("season %d: said %.1f in %s, recomputed %.3f", i, v, row[1], byRace[row[1]])
			}
		}
		for _, r := range before.Races {
			if r.Priority == planner.PriorityA && r.Withdrawn.IsZero() && !slices.ContainsFunc(after.Races, func(o planner.Race) bool { return o.Is(&r) && o.Priority == r.Priority && o.Withdrawn.IsZero() }) {
				races++
			}
		}
		pressed++
	}
	t.Logf("%d seasons, %d buttons pressed, %d races made B races, %d figures of races", *promised, pressed, races, named)
	if pressed < *promised/4 || named < 2*pressed {
		t.Errorf("%d of %d seasons have a change, with %d figures", pressed, *promised, named)
	}
}

// In a crowded season the first step brings what is said of it, and step by step the season becomes the whole change,
// or a part of it where the rest is not worth it by then.
func TestStepsLeadToTheWhole(t *testing.T) {
	led, atEnd, elsewhere := 0, 0, 0
	for i := range *promised {
		k := randomSeason(t, rand.New(rand.NewPCG(uint64(i+11), 308)))
		reply := k.OK("/season check")
		end := saidEnd.FindStringSubmatch(reply.Text())
		if end == nil {
			continue
		}
		numbers := k.OK("/season check numbers:all")
		if changes(reply) != "Make it a B race" || saidAverage.FindStringSubmatch(numbers.Text())[1] != end[1] {
			t.Errorf("season %d: %q, %s\n%s", i, changes(reply), reply.Text(), numbers.Text())
		}
		begin := k.Stored().([]any)[4].(planner.Facts)
		whole := begin
		for _, step := range []string{changes(reply), changes(numbers)} {
			from := k.Stored().([]any)[4].(planner.Facts)
			applied := k.Press(map[bool]say.Reply{true: reply, false: numbers}[step == changes(reply)], step)
			after := k.Stored().([]any)[4].(planner.Facts)
			if step == changes(reply) {
				said, _ := strconv.ParseFloat(saidStep.FindStringSubmatch(reply.Text())[1], 64)
				if _, average := recomputed(planner.DateOf(k.Who.Now), &from, &after); math.Abs(said-average) > 0.0501 || average <= 0 {
					t.Errorf("season %d: said %.1f %% of the first step, recomputed %.3f", i, said, average)
				}
			} else {
				whole = after
			}
			k.Undo(applied)
		}
		for range 14 {
			if saidEnd.FindStringSubmatch(reply.Text()) == nil && !strings.HasPrefix(reply.Text(), "One change is worth it") {
				break
			}
			k.Press(reply, changes(reply))
			reply = k.OK("/season check")
		}
		now := k.Stored().([]any)[4].(planner.Facts)
		is, said := bRaces(&now), bRaces(&whole)
		if len(is) == len(said) {
			atEnd++
		}
		if slices.ContainsFunc(is, func(day string) bool { return !slices.Contains(said, day) }) {
			t.Logf("season %d: the steps make B races of %v, said %v", i, is, said)
			elsewhere++
		}
		led++
	}
	if led == 0 || elsewhere*50 > led {
		t.Errorf("of %d crowded seasons %d lead elsewhere", led, elsewhere)
	}
	t.Logf("%d of %d crowded seasons led to the whole change, %d elsewhere", atEnd, led, elsewhere)
}

// bRaces are the days of the B races that count.
func bRaces(f *planner.Facts) (days []string) {
	for _, r := range f.Races {
		if r.Priority == planner.PriorityB && r.Withdrawn.IsZero() {
			days = append(days, r.Date.String())
		}
	}
	return days
}
