package planner

import "math"

// An overload that the log shows: two weeks, each so much above the usual load, or one
// that is far above it (our choice).
const (
	overloadDays    = 14
	overloadPercent = 20
	hugePercent     = 50
)

// LoggedOverload is the stretch up to the last day in the log, of two weeks or more, each
// week of which had a load of a fifth and more above the usual one (minutes times session
// RPE, Foster 1998), else the last seven days with half more and above. Percent is by how
// much the whole was above, in fives.
func (f *Facts) LoggedOverload() (b Block, ok bool) {
	load := map[Date]float64{}
	var first, last Date
	for i, r := range f.Done {
		load[r.Date] += float64(r.Minutes) * f.RatingOf(r)
		if i == 0 {
			first = r.Date
		}
		first, last = min(first, r.Date), max(last, r.Date)
	}
	week := func(from Date) (done, usual float64) {
		for d := from; d < from+7; d++ {
			done, usual = done+load[d], usual+f.UsualLoad(d)
		}
		return done, usual
	}
	ridden, usual := 0.0, 0.0
	from := last + 1
	for from-7 >= first {
		done, asUsual := week(from - 7)
		if asUsual == 0 || done < asUsual*(100+overloadPercent)/100 {
			break
		}
		from, ridden, usual = from-7, ridden+done, usual+asUsual
	}
	if from.DaysUntil(last)+1 < overloadDays {
		from = last - 6 // what was not logged counts as not ridden
		if ridden, usual = week(from); usual == 0 || ridden < usual*(100+hugePercent)/100 {
			return Block{}, false
		}
	}
	percent := int(math.Round((ridden/usual-1)*20)) * 5
	return Block{From: from, To: last, Percent: min(percent, MaxBlockPercent)}, true
}
