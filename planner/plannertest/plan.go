package plannertest

import (
	"fmt"
	"math"
	"strings"
)

// plan is input and output side by side, with what follows from the input.
type plan struct {
	in          inputFile
	out         outFile
	today       day
	races       []*race
	week        [7][]usualSession
	off         [7]bool
	weekly      int
	days        map[day]*outDay
	first, last day
	windows     []*window
	rule        string
	found       []Violation
}

// window is an A race's taper as the output tells it, with its days in k:
// day k is D-k.
type window struct {
	*race
	n     int
	from  day
	entry outTaper
}

func (w *window) at(k int) day       { return w.date - day(k) }
func (w *window) has(d day) bool     { return w.from <= d && d < w.date }
func (w *window) number(d day) int   { return int(w.date - d) }
func (p *plan) whole(w *window) bool { return w.from >= p.first && w.date-1 <= p.last }

func newPlan(input, output []byte) (*plan, error) {
	p := &plan{days: map[day]*outDay{}}
	var err error
	if p.in, p.races, err = parseInput(input); err != nil {
		return nil, err
	}
	if p.today, err = parseDay(p.in.Today); err != nil {
		return nil, err
	}
	if p.out, err = parseOutput(output); err != nil {
		return nil, err
	}
	for i := range p.out.Days {
		d, err := parseDay(p.out.Days[i].Date)
		if err != nil {
			return nil, fmt.Errorf("output: %w", err)
		}
		if i == 0 {
			p.first = d
		}
		p.days[d], p.last = &p.out.Days[i], d
	}
	if err := p.readWeek(); err != nil {
		return nil, err
	}
	return p, p.readWindows()
}

func (p *plan) readWeek() error {
	for i, name := range weekdays {
		sessions, off, err := parseWeekday(p.in.Week[name])
		if err != nil {
			return err
		}
		for j := range sessions {
			p.fillMinutes(i, j, &sessions[j])
			if sessions[j].isRide() {
				p.weekly += sessions[j].minutes
			}
		}
		p.week[i], p.off[i] = sessions, off
	}
	return nil
}

// fillMinutes takes the length of a ride told by its set alone from the
// output, where that lies in the range of the rule.
func (p *plan) fillMinutes(weekday, j int, s *usualSession) {
	if s.told || s.set == nil {
		return
	}
	low, high := s.set.least()
	s.minutes = int(math.Ceil(high/5) * 5)
	for _, d := range p.out.Days {
		date, err := parseDay(d.Date)
		if err != nil || date.weekday() != weekday || j >= len(d.Usual) {
			continue
		}
		if m := float64(d.Usual[j].Minutes); m >= low-1 && m <= math.Ceil(high/5)*5 {
			s.minutes = d.Usual[j].Minutes
			return
		}
	}
}

func (p *plan) readWindows() error {
	for _, t := range p.out.Tapers {
		from, err := parseDay(t.From)
		if err != nil {
			return fmt.Errorf("output: tapers: %w", err)
		}
		for _, r := range p.races {
			if r.Name == t.Race && r.Priority == "A" {
				p.windows = append(p.windows, &window{race: r, n: t.Days, from: from, entry: t})
				break
			}
		}
	}
	return nil
}

func (p *plan) usual(d day) []usualSession { return p.week[d.weekday()] }

func (p *plan) usualMinutes(d day) int {
	total := 0
	for _, s := range p.usual(d) {
		if s.isRide() {
			total += s.minutes
		}
	}
	return total
}

func (p *plan) usualRides(d day) int {
	n := 0
	for _, s := range p.usual(d) {
		if s.isRide() {
			n++
		}
	}
	return n
}

func (p *plan) usualHard(d day) bool {
	for _, s := range p.usual(d) {
		if s.isHard() {
			return true
		}
	}
	return false
}

func (p *plan) usualKind(d day, kind string) bool {
	for _, s := range p.usual(d) {
		if s.kind == kind {
			return true
		}
	}
	return false
}

// usualRest is a weekday without a ride by choice.
func (p *plan) usualRest(d day) bool {
	return !p.off[d.weekday()] && p.usualRides(d) == 0
}

func (p *plan) hardDaysAWeek() int {
	n := 0
	for d := day(0); d < 7; d++ {
		if p.usualHard(d) {
			n++
		}
	}
	return n
}

func (p *plan) away(d day, kind string) bool {
	for _, a := range p.in.Away {
		k := a.Kind
		if k == "" {
			k = "off"
		}
		if k == kind && a.has(d) {
			return true
		}
	}
	return false
}

// limit gives the minutes a day is limited to.
func (p *plan) limit(d day) (int, bool) {
	least, ok := 0, false
	for _, l := range p.in.Limits {
		if l.Date == d.String() && (!ok || l.Minutes < least) {
			least, ok = l.Minutes, true
		}
	}
	return least, ok
}

// isOff is a day on which nobody may be sent out: a weekday off, a day away,
// or a limit of 0 minutes.
func (p *plan) isOff(d day) bool {
	if m, ok := p.limit(d); ok && m == 0 {
		return true
	}
	return p.off[d.weekday()] || p.away(d, "off")
}

func (p *plan) block(d day) *span {
	for i := range p.in.Blocks {
		if p.in.Blocks[i].has(d) {
			return &p.in.Blocks[i]
		}
	}
	return nil
}

// sick tells whether d lies in an illness or the return days after it.
func (p *plan) sick(d day, back int) bool {
	for _, s := range p.in.Sick {
		end := s.to
		if end != openEnd {
			end += day(back)
		}
		if s.from <= d && d <= end {
			return true
		}
	}
	return false
}

func (p *plan) loggedOn(d day) bool {
	for _, l := range p.in.Done {
		if l.Date == d.String() {
			return true
		}
	}
	return false
}

const returnDays = 10

// event tells whether a fact of the rider's life touches the day.
func (p *plan) event(d day) bool {
	_, limited := p.limit(d)
	return limited || p.away(d, "off") || p.away(d, "travel") || p.block(d) != nil ||
		p.sick(d, returnDays) || p.loggedOn(d)
}

func (p *plan) eventIn(from, to day) bool {
	for d := from; d <= to; d++ {
		if p.event(d) {
			return true
		}
	}
	return false
}

// raceOn gives the races of a day, those of the highest priority first.
func (p *plan) raceOn(d day) []*race {
	var list []*race
	for _, rank := range []int{2, 1, 0} {
		for _, r := range p.races {
			if r.rank() == rank && r.on(d) {
				list = append(list, r)
			}
		}
	}
	return list
}

// otherRaceIn tells whether a race but r stands on from..to.
func (p *plan) otherRaceIn(r *race, from, to day) bool {
	for _, o := range p.races {
		if o != r && o.date <= to && o.last >= from {
			return true
		}
	}
	return false
}

func (p *plan) inWindow(d day) *window {
	for _, w := range p.windows {
		if w.has(d) {
			return w
		}
	}
	return nil
}

func (p *plan) inRecovery(d day) *race {
	for _, r := range p.races {
		if r.Priority == "A" && d > r.last && d <= r.last+day(r.recovery()) && p.raceOn(r.date)[0] == r {
			return r
		}
	}
	return nil
}

// warned tells whether a warning with one of the codes names the race.
func (p *plan) warned(name string, codes ...string) bool {
	for _, w := range p.out.Warnings {
		if !strings.Contains(w.Text, name) {
			continue
		}
		for _, c := range codes {
			if w.Code == c || c == "" || strings.HasSuffix(c, ".") && strings.HasPrefix(w.Code, c) {
				return true
			}
		}
	}
	return false
}

// excused is warned, or a warning on a life event where one lies in the window.
func (p *plan) excused(w *window, codes ...string) bool {
	if p.warned(w.Name, codes...) {
		return true
	}
	if !p.eventIn(w.from, w.date-1) {
		return false
	}
	for _, o := range p.out.Warnings {
		if strings.HasPrefix(o.Code, "day.") || strings.HasPrefix(o.Code, "health.") {
			return true
		}
	}
	return false
}

// calm is a window without events or other races in it or close around it.
func (p *plan) calm(w *window) bool {
	return !p.eventIn(w.from-1, w.last) && !p.otherRaceIn(w.race, w.from-3, w.last)
}

// cut is the share of usual minutes, in per cent, that tapers take away.
func (p *plan) cut() float64 {
	if c, ok := p.in.Taper["cut"].(float64); ok {
		return c
	}
	return 50
}

func (p *plan) setting(key, fallback string) string {
	if s, ok := p.in.Taper[key].(string); ok {
		return s
	}
	return fallback
}

func (p *plan) stopped() bool {
	for _, s := range p.in.Sick {
		for _, x := range s.Symptoms {
			if redFlags[x] {
				return true
			}
		}
	}
	return false
}

var redFlags = map[string]bool{
	"chest pain": true, "fainting": true, "breathlessness at rest": true, "palpitations": true,
}
