package planner

import "math"

// An overload that the log shows: two weeks, each so much above the usual load.
const (
	overloadDays    = 14
	overloadPercent = 20
)

// LoggedOverload is the stretch up to the last day in the log, of two weeks or more, each
// week of which had a load of a fifth and more above the usual one (minutes times session
// RPE, Foster 1998). Percent is by how much the whole was above, in fives.
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
	ridden, usual := 0.0, 0.0
	from := last + 1
	for from-7 >= first {
		done, asUsual := 0.0, 0.0
		for d := from - 7; d < from; d++ {
			done, asUsual = done+load[d], asUsual+f.UsualLoad(d)
		}
		if asUsual == 0 || done < asUsual*(100+overloadPercent)/100 {
			break
		}
		from, ridden, usual = from-7, ridden+done, usual+asUsual
	}
	if from.DaysUntil(last)+1 < overloadDays {
		return Block{}, false
	}
	percent := int(math.Round((ridden/usual-1)*20)) * 5
	return Block{From: from, To: last, Percent: min(percent, MaxBlockPercent)}, true
}
