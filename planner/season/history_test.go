package season

import (
	"math"
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/learn"
)

// lookingBack is a rider with races that are over, each with its taper and what was entered about it.
func lookingBack(t *testing.T) *planner.Facts {
	t.Helper()
	f := facts(t, mixedWeek, raceOn(60, planner.PriorityA), raceOn(110, planner.PriorityA), raceOn(135, planner.PriorityB), raceOn(170, planner.PriorityA), raceOn(230, planner.PriorityA))
	f.Races[0].TaperDays, f.Races[1].TaperDays = 6, 13
	f.Results = []planner.Result{{Race: "Race 60", Feeling: 8, Compared: planner.ComparedBetter}, {Race: "Race 110", Feeling: 5},
		{Race: "Race 135", Compared: planner.ComparedSame}, {Race: "Race 230", Feeling: 9}}
	return f
}

// History has the races that are over and of which something was entered, with their tapers, and learns
// from the loads that the plans of then left out.
func TestHistoryLearnsFromWhatWasRidden(t *testing.T) {
	f := lookingBack(t)
	h := NewHistory(firstDay.AddDays(180), f)
	if len(h.Tried) != 3 || h.Learned.Races != 3 {
		t.Fatalf("tried %+v, %d races taught", h.Tried, h.Learned.Races)
	}
	for i, want := range []Tried{{Days: 6, Legs: 8, Compared: planner.ComparedBetter}, {Days: 13, Legs: 5}, {Compared: planner.ComparedSame}} {
		got := h.Tried[i]
		if got.Days != want.Days || got.Legs != want.Legs || got.Compared != want.Compared || got.Ill || (got.Days > 0) != (got.Cut > 20) {
			t.Errorf("race %d: %+v, want %+v", i, got, want)
		}
	}
	var races []learn.Race
	for i, tried := range h.Tried {
		race := tried.Race.Date
		p := engine.Derive(race, f)
		change := make([]float64, 42)
		for u := 1; u <= len(change); u++ {
			if day := p.Known(race.AddDays(-u)); day != nil {
				load := 0.0
				for _, s := range day.Sessions {
					load += s.Load()
				}
				change[u-1] = (load - asUsual(f, race.AddDays(-u))) / unitOf(f, race)
			}
		}
		// Days around the race before this one are those that were planned then.
		if i > 0 {
			before := h.Tried[i-1].Race.Date
			was := engine.Derive(before, f)
			for d := before - 42; d < race; d++ {
				if u := d.DaysUntil(race); u <= len(change) && p.Known(d) == nil && was.Known(d) != nil {
					load := 0.0
					for _, s := range was.Known(d).Sessions {
						load += s.Load()
					}
					change[u-1] = (load - asUsual(f, d)) / unitOf(f, race)
				}
			}
		}
		r := learn.Race{Change: change, Legs: tried.Legs}
		if tried.Compared != planner.ComparedNot {
			r.ComparedTold, r.Compared = true, int(tried.Compared)-int(planner.ComparedSame)
		}
		races = append(races, r)
	}
	if want := learn.From(races); math.Abs(want.Day.Mean-h.Learned.Day.Mean) > 1e-9 || math.Abs(want.Day.SD-h.Learned.Day.SD) > 1e-9 {
		t.Errorf("learned %+v, want %+v", h.Learned.Day, want.Day)
	}
}

// A race of today counts as soon as its result is entered, as it does tomorrow; one without a result does not.
func TestHistoryOfRaceDay(t *testing.T) {
	f := lookingBack(t)
	on := f.Races[1].Date
	before := *f
	before.Results = slices.DeleteFunc(slices.Clone(f.Results), func(r planner.Result) bool { return r.Race == f.Races[1].Name })
	if h := NewHistory(on, &before); len(h.Tried) != 1 || h.Learned.Races != 1 {
		t.Errorf("a race without a result counts: %+v", h.Tried)
	}
	if len((&rider{Facts: &before}).over(on)) != 1 {
		t.Error("a race of today without a result is over")
	}
	if TeachAlike(on, &before, f) {
		t.Error("the result of today teaches nothing")
	}
	h, later := NewHistory(on, f), NewHistory(on+1, f)
	if len(h.Tried) != 2 || h.Tried[1].Days != 13 || h.Tried[1].Legs != 5 || h.Learned.Races != 2 {
		t.Fatalf("tried %+v, %d races taught", h.Tried, h.Learned.Races)
	}
	if h.Learned.Day != later.Learned.Day {
		t.Errorf("learned %+v today, %+v tomorrow", h.Learned.Day, later.Learned.Day)
	}
	if p, q := h.Proposal, later.Proposal; p == nil || q == nil || !p.Race.Is(q.Race) || p.Days != q.Days {
		t.Errorf("proposes %+v today, %+v tomorrow", p, q)
	}
	if h := NewHistory(on-1, f); len(h.Tried) != 1 {
		t.Errorf("a race to come counts: %+v", h.Tried)
	}
	f.Races[1].Status = planner.NotStarted
	if h := NewHistory(on, f); len(h.Tried) != 1 {
		t.Errorf("a race that was not started counts: %+v", h.Tried)
	}
}

// What was logged counts, and what an illness hides does not.
func TestHistoryOfLogsAndIllness(t *testing.T) {
	f := lookingBack(t)
	today := firstDay.AddDays(180)
	plain := NewHistory(today, f)
	for day := 98; day < 110; day++ { // rode on as usual and more
		f.Done = append(f.Done, rode(firstDay.AddDays(day), 150, 5))
	}
	logged := NewHistory(today, f)
	if logged.Learned.Day == plain.Learned.Day || len(logged.Tried) != 3 {
		t.Errorf("logs change nothing: %+v", logged.Learned.Day)
	}
	f.Done = nil
	f.Ill = []planner.Illness{{From: firstDay.AddDays(100), To: firstDay.AddDays(101), Symptoms: []string{"runny nose"}}}
	ill := NewHistory(today, f)
	if !ill.Tried[1].Ill || ill.Tried[0].Ill || ill.Tried[2].Ill || ill.Learned.Races != 2 {
		t.Errorf("an illness hides %+v, %d races taught", ill.Tried, ill.Learned.Races)
	}
	f.Ill, f.Holds = nil, []planner.Hold{{Date: firstDay.AddDays(40), Cleared: firstDay.AddDays(50)}}
	if held := NewHistory(today, f); !held.Tried[0].Ill || held.Tried[1].Ill {
		t.Errorf("a hold that was cleared hides %+v", held.Tried)
	}
	f.Holds, f.Races[1].Status = nil, planner.NotStarted
	if h := NewHistory(today, f); len(h.Tried) != 2 {
		t.Errorf("a race that was not started counts: %+v", h.Tried)
	}
}

// A proposal lies within the range that the rider reads and says what it costs and teaches.
func TestHistoryProposes(t *testing.T) {
	f := lookingBack(t)
	for _, back := range []int{165, 180, 200, 219} {
		h := NewHistory(firstDay.AddDays(back), f)
		p := h.Proposal
		if back == 165 { // the taper of Race 170 has begun
			if p != nil {
				t.Errorf("day %d: %+v", back, p)
			}
			continue
		}
		if p == nil || p.Race.Name != "Race 230" || p.Own || p.Told || p.Table != p.Planned {
			t.Fatalf("day %d: %+v", back, p)
		}
		if step := math.Abs(float64(p.Days - p.Planned)); step != 0 && step < 2 || p.Days < p.Length.Low || p.Days > p.Length.High || p.Costs > 0.3 {
			t.Errorf("day %d: %+v", back, *p)
		}
		if p.Days != p.Planned && p.Teaches <= 0 {
			t.Errorf("day %d teaches nothing: %+v", back, *p)
		}
	}
	f.Races[4].TaperDays = 11
	if p := NewHistory(firstDay.AddDays(180), f).Proposal; p == nil || !p.Told || p.Days != 11 {
		t.Errorf("a told length: %+v", p)
	}
	f.Races = f.Races[:4]
	if p := NewHistory(firstDay.AddDays(180), f).Proposal; p != nil {
		t.Errorf("no race to come: %+v", p)
	}
}

// manyTold is a rider of whom 20 races have said clearly that short tapers suit, with one more to come,
// and a day before its taper.
func manyTold(t *testing.T) (*planner.Facts, planner.Date) {
	t.Helper()
	f := facts(t, mixedWeek)
	for i := range 20 {
		r := raceOn(60+50*i, planner.PriorityA)
		r.TaperDays = []int{5, 14}[i%2]
		f.Races = append(f.Races, r)
		f.Results = append(f.Results, planner.Result{Race: r.Name, Feeling: []int{8, 5}[i%2], Compared: []planner.Compared{planner.ComparedBetter, planner.ComparedWorse}[i%2]})
	}
	f.Races = append(f.Races, raceOn(60+50*20, planner.PriorityA))
	return f, firstDay.AddDays(60 + 50*19 + 20)
}

// Where many races agree, the rider's own length takes the place of the table's, unless the rider says no.
func TestHistoryDecides(t *testing.T) {
	rounds.Skip(t, "that races decide a taper's length, as planner/season tells it")
	f, today := manyTold(t)
	taught := Taught(today, f)
	if p := NewHistory(today, f).Proposal; taught == nil || p.Own || !p.Length.Decides {
		t.Fatalf("taught %+v, proposes %+v", taught, p)
	}
	taught.On = today
	f.Taught = []planner.Taught{*taught}
	h := NewHistory(today, f)
	p := h.Proposal
	if p == nil || !p.Own || p.Planned >= p.Table || p.Length.High >= p.Table || p.Planned != p.Length.Days || p.Days != p.Planned {
		t.Fatalf("learned %+v, planned %+v", h.Learned.Share, p)
	}
	f.Taper.Usual = true
	if no := NewHistory(today, f).Proposal; no.Own || !no.Refused || no.Planned != p.Table || no.Days != no.Planned {
		t.Errorf("refused: %+v", no)
	}
	f.Taper = planner.Taper{Days: 12}
	if told := NewHistory(today, f).Proposal; told.Own || told.Refused || !told.Told || told.Here || told.Planned != 12 {
		t.Errorf("told for all: %+v", told)
	}
}

// What races teach is worked out anew only where something has changed from which they teach.
func TestTeachAlike(t *testing.T) {
	f, today := manyTold(t)
	last := f.Races[19].Date
	for what, change := range map[string]func(f *planner.Facts){
		"result":           func(f *planner.Facts) { f.Results[3].Feeling = 2 },
		"illness":          func(f *planner.Facts) { f.Ill = []planner.Illness{{From: last - 20, To: last - 19}} },
		"ride before":      func(f *planner.Facts) { f.Done = []planner.Ride{{Date: last - 1, Minutes: 30}} },
		"no start":         func(f *planner.Facts) { f.Races[19].Status = planner.NotStarted },
		"- ride today":     func(f *planner.Facts) { f.Done = []planner.Ride{{Date: today, Minutes: 30}} },
		"- race to come":   func(f *planner.Facts) { f.Races = f.Races[:20] },
		"- other week":     func(f *planner.Facts) { f.Weeks = nil },
		"- told length":    func(f *planner.Facts) { f.Taper.Days = 9 },
		"- nothing at all": func(*planner.Facts) {},
	} {
		other := *f
		other.Results, other.Races = slices.Clone(f.Results), slices.Clone(f.Races)
		change(&other)
		if got, want := TeachAlike(today, f, &other), what[0] == '-'; got != want {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	f.Results = f.Results[:2]
	if taught := Taught(today, f); taught != nil {
		t.Errorf("two races have taught %+v", taught)
	}
}
