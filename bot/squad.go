package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

// How far coaches look: back to what was ridden and raced, ahead to who starts,
// and when a season holds too many A races.
const (
	lookBack   = 7
	lookAhead  = 7
	mostARaces = 3
	seasonDays = 182 // 26 weeks
	mostReason = 120 // units of UTF-16 of why something was not sent
)

// standing is one rider as the coaches of the club see them. Of health it holds
// no more than that it keeps them from training, and it holds no notes.
type standing struct {
	name    string // as findAthlete finds it
	today   planner.Date
	facts   ledger
	plan    *engine.Plan  // nil without a typical week
	next    *planner.Race // nil: none to come
	starts  []planner.Race
	taper   *taperNow // nil: not in one
	health  bool
	needs   []string // what a coach should look at
	clashes []string // of races, in short
	choices []string // what has to be decided
	back    int      // days since the last digest
	results []string // of the last days
	untold  []string // races of the last days of which nothing was told
}

// taperNow is where a rider is in the days before an A race. Cut is what the
// days gone by took off the usual minutes, in per cent; known is false on the first.
type taperNow struct {
	race    *planner.Race
	day, of int
	cut     int
	known   bool
}

// clubNews is what the riders' standings need besides their own facts.
type clubNews struct {
	now    time.Time
	names  map[storage.AthleteID]string
	races  map[storage.AthleteID][]storage.Race
	failed map[storage.AthleteID]string // why reminders do not arrive
	digest string                       // why the last digest did not
	back   int                          // days since the last digest, where that is known
}

// squadOf is the standing of each rider of a club: those who taper first, by the
// days to go, then by the next race, then the others by name.
func (b *Base) squadOf(ctx context.Context, club *storage.Club, now time.Time) ([]standing, *clubNews, error) {
	athletes, err := b.db.Athletes(ctx, club.ID)
	if err != nil {
		return nil, nil, err
	}
	news, err := b.newsOf(ctx, club.ID, athletes, now)
	if err != nil {
		return nil, nil, err
	}
	all := make([]standing, 0, len(athletes))
	for i := range athletes {
		s, err := b.standingOf(ctx, &athletes[i], news)
		if errors.Is(err, storage.ErrNotFound) || err == nil && !planned(s.facts.now) && len(s.facts.now.Races) == 0 {
			continue // erased since the list was read, or no rider: a coach with settings of their own
		}
		if err != nil {
			return nil, nil, err
		}
		all = append(all, *s)
	}
	slices.SortStableFunc(all, func(a, b standing) int { return a.turn() - b.turn() })
	return all, news, nil
}

// last is how many days count as the last ones.
func (s *standing) last() int { return max(s.back, lookBack) }

// turn is the place of a rider in a list, the smallest first.
func (s *standing) turn() int {
	const never = 100000
	switch {
	case s.taper != nil:
		return s.today.DaysUntil(s.taper.race.Date)
	case s.next != nil:
		return never + s.today.DaysUntil(s.next.Date)
	}
	return 2 * never
}

func (b *Base) newsOf(ctx context.Context, club storage.ClubID, athletes []storage.Athlete, now time.Time) (*clubNews, error) {
	news := &clubNews{now: now, names: tellApart(athletes), races: map[storage.AthleteID][]storage.Race{}, failed: map[storage.AthleteID]string{}}
	races, err := b.db.ClubRaces(ctx, club)
	if err != nil {
		return nil, err
	}
	for _, r := range races {
		news.races[r.AthleteID] = append(news.races[r.AthleteID], r.Race)
	}
	posts, err := b.db.ClubPosts(ctx, club, now.AddDate(0, 0, -2*lookBack))
	if err != nil {
		return nil, err
	}
	for _, p := range posts { // the oldest first: what arrived later mends it
		if p.Kind == storage.PostDigest && p.State == storage.PostSent {
			news.back = int(now.Sub(p.Changed).Hours())/24 + 1 // nothing is lost when one came late
		}
		if p.Changed.Before(now.AddDate(0, 0, -lookBack)) {
			continue
		}
		why := ""
		switch p.State {
		case storage.PostFailed:
			why = cutTo(p.Reason, mostReason)
		case storage.PostSent:
		default:
			continue
		}
		switch {
		case p.Kind == storage.PostDigest:
			news.digest = why
		case p.State == storage.PostSent:
			delete(news.failed, p.Athlete)
		default:
			news.failed[p.Athlete] = why
		}
	}
	return news, nil
}

// standing reads and plans one rider, by the rider's own day.
func (b *Base) standingOf(ctx context.Context, a *storage.Athlete, news *clubNews) (*standing, error) {
	zone, err := time.LoadLocation(a.Zone)
	if err != nil {
		return nil, fmt.Errorf("zone of rider %d: %w", a.ID, err)
	}
	s := &standing{name: news.names[a.ID], today: planner.DateOf(news.now.In(zone)), back: news.back}
	all, err := b.db.Facts(ctx, a.ID)
	if err != nil {
		return nil, err
	}
	s.facts = ledger{all.KnownOn(s.today), all}
	results := map[storage.RaceID]storage.Result{}
	if len(s.facts.now.Results) > 0 {
		if results, err = b.db.Results(ctx, a.ID); err != nil {
			return nil, err
		}
	}
	s.raced(news.races[a.ID], results, news.now)
	s.next = nextRace(s.facts.now, s.today)
	for _, r := range s.facts.now.Races {
		if d := s.today.DaysUntil(r.Date); 0 <= d && d <= lookAhead {
			s.starts = append(s.starts, r)
		}
	}
	s.planDays()
	if why, ok := news.failed[a.ID]; ok {
		s.needs = append(s.needs, "reminders fail: "+why)
	}
	return s, nil
}

// planDays plans the rider's days to come; of a taper that runs the plan knows the
// days gone by too.
func (s *standing) planDays() {
	if !planned(s.facts.now) {
		s.needs = append(s.needs, noWeek)
		s.seasonNeeds()
		return
	}
	s.plan = engine.DeriveUntil(s.today, s.today.AddDays(lookAhead), s.facts.all)
	if d, ok := s.plan.Day(s.today); ok && d.Phase == planner.Health {
		s.health = true
		s.needs = append(s.needs, notTraining)
	}
	for i := range s.plan.Tapers {
		if t := &s.plan.Tapers[i]; t.From <= s.today && s.today < t.Race.Date {
			s.taper = s.taperNow(t)
			break
		}
	}
	if missed := s.missed(); missed != "" {
		s.needs = append(s.needs, missed)
	}
	s.seasonNeeds()
}

const (
	noWeek      = "no typical week"
	notTraining = "not training: health"
)

func (s *standing) taperNow(t *engine.Taper) *taperNow {
	now := &taperNow{race: t.Race, day: t.From.DaysUntil(s.today) + 1, of: t.Days}
	usual, done := 0, 0
	for date := t.From; date < s.today; date++ {
		if d := s.plan.Known(date); d != nil {
			usual += usualMinutes(s.facts.now, d)
			done += d.Minutes()
		}
	}
	if usual > 0 {
		now.known = true
		now.cut = (100*(usual-done) + signed(usual-done)*usual/2) / usual
	}
	return now
}

func signed(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

// usualMinutes are the usual minutes of a day as a taper counts them: none on a
// day that the rider cannot train.
func usualMinutes(f *planner.Facts, d *engine.Day) int {
	for _, a := range f.Absences {
		if !a.Travel && a.From <= d.Date && d.Date <= a.To {
			return 0
		}
	}
	if minutes, ok := limitOn(f, d.Date); ok && minutes == 0 {
		return 0
	}
	total := 0
	for _, u := range d.Usual {
		if u.Kind.IsRide() {
			total += int(u.Minutes)
		}
	}
	return total
}

// missed names the key sessions of the last days that the rider told as missed.
func (s *standing) missed() string {
	var days []planner.Date
	for _, r := range s.facts.now.Done {
		if r.Minutes == 0 && s.today.AddDays(-s.last()) <= r.Date && r.Date <= s.today {
			days = append(days, r.Date)
		}
	}
	if len(days) == 0 {
		return ""
	}
	var keys []string
	for _, date := range days {
		for _, session := range unlogged(s.facts, date).Sessions {
			if session.IsHard() || session.Kind == planner.Openers {
				keys = append(keys, session.Kind.String()+" on "+date.Short())
				break
			}
		}
	}
	const most = 3
	switch {
	case len(keys) == 0:
		return ""
	case len(keys) > most:
		return fmt.Sprintf("missed %d key sessions in the last %d days", len(keys), s.last())
	}
	return "missed " + andList(keys)
}

// raced gathers what the rider told of races that ended in the last days, or
// told in them of races before, and those of which nothing is told.
func (s *standing) raced(races []storage.Race, results map[storage.RaceID]storage.Result, now time.Time) {
	for _, r := range races {
		ended := r.Last().DaysUntil(s.today)
		result, told := results[r.ID]
		lately := 0 <= ended && ended <= s.last()
		switch {
		case told && (lately || ended > 0 && now.Sub(result.Added) <= time.Duration(s.last())*24*time.Hour):
			s.results = append(s.results, resultText(&r.Race, &result))
		case !told && lately && ended > 0:
			s.untold = append(s.untold, raceName(&r.Race))
		}
	}
}

// resultText is how a race went, without the rider's note.
func resultText(r *planner.Race, result *storage.Result) string {
	text := fmt.Sprintf("%s (%s), legs %d of 10", raceName(r), r.Priority, result.Feeling)
	if result.Place != "" {
		text += ", " + cutTo(result.Place, mostName)
	}
	return text
}
