package coach

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
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
	Name    string // as findAthlete finds it
	Today   planner.Date
	Facts   desk.Ledger
	plan    *engine.Plan  // nil without a typical week
	Next    *planner.Race // nil: none to come
	starts  []planner.Race
	taper   *taperNow // nil: not in one
	Health  bool
	Needs   []string // what a coach should look at
	Clashes []string // of races, in short
	Choices []string // what has to be decided
	back    int      // days since the last digest
	results []string // of the last days
	untold  []string // races of the last days of which nothing was entered
}

// taperNow is where a rider is in the days before an A race. Cut is what the
// days gone by took off the usual minutes, in per cent; known is false on the first.
type taperNow struct {
	race    *planner.Race
	day, of int
	cut     int
	planned float64 // of the whole taper, per cent
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
	since  time.Time                    // when it was sent
}

// squadOf is the standing of each rider of a club: those who taper first, by the
// days to go, then by the next race, then the others by name.
func squadOf(ctx context.Context, b *desk.Base, club *storage.Club, now time.Time) ([]standing, *clubNews, error) {
	athletes, err := b.DB.Athletes(ctx, club.ID)
	if err != nil {
		return nil, nil, err
	}
	news, err := newsOf(ctx, b, club.ID, athletes, now)
	if err != nil {
		return nil, nil, err
	}
	all := make([]standing, 0, len(athletes))
	for i := range athletes {
		s, err := standingOf(ctx, b, &athletes[i], news)
		if errors.Is(err, storage.ErrNotFound) || err == nil && !desk.Planned(s.Facts.Now) && len(s.Facts.Now.Races) == 0 {
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
		return s.Today.DaysUntil(s.taper.race.Date)
	case s.Next != nil:
		return never + s.Today.DaysUntil(s.Next.Date)
	}
	return 2 * never
}

func newsOf(ctx context.Context, b *desk.Base, club storage.ClubID, athletes []storage.Athlete, now time.Time) (*clubNews, error) {
	news := &clubNews{now: now, names: tellApart(athletes), races: map[storage.AthleteID][]storage.Race{}, failed: map[storage.AthleteID]string{}}
	races, err := b.DB.ClubRaces(ctx, club)
	if err != nil {
		return nil, err
	}
	for _, r := range races {
		news.races[r.AthleteID] = append(news.races[r.AthleteID], r.Race)
	}
	posts, err := b.DB.ClubPosts(ctx, club, now.AddDate(0, 0, -2*lookBack))
	if err != nil {
		return nil, err
	}
	for _, p := range posts { // the oldest first: what arrived later mends it
		if p.Kind == storage.PostDigest && p.State == storage.PostSent {
			news.since = p.Changed
			news.back = int((now.Sub(p.Changed)-time.Hour).Hours())/24 + 1 // nothing is lost when one came late
		}
		if p.Changed.Before(now.AddDate(0, 0, -lookBack)) {
			continue
		}
		why := ""
		switch p.State {
		case storage.PostFailed:
			why = show.CutTo(p.Reason, mostReason)
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
func standingOf(ctx context.Context, b *desk.Base, a *storage.Athlete, news *clubNews) (*standing, error) {
	zone, err := desk.LoadZone(a.Zone)
	if err != nil {
		return nil, fmt.Errorf("zone of rider %d: %w", a.ID, err)
	}
	s := &standing{Name: news.names[a.ID], Today: planner.DateOf(news.now.In(zone)), back: news.back}
	all, err := b.DB.Facts(ctx, a.ID)
	if err != nil {
		return nil, err
	}
	s.Facts = desk.Ledger{Now: all.KnownOn(s.Today), All: all}
	results := map[storage.RaceID]storage.Result{}
	if len(s.Facts.Now.Results) > 0 {
		if results, err = b.DB.Results(ctx, a.ID); err != nil {
			return nil, err
		}
	}
	s.raced(news.races[a.ID], results, news)
	s.Next = s.Facts.Now.NextRace(s.Today)
	for _, r := range s.Facts.Now.Races {
		if d := s.Today.DaysUntil(r.Date); 0 <= d && d <= lookAhead {
			s.starts = append(s.starts, r)
		}
	}
	heavy, err := b.DB.HeavyLegs(ctx, a.ID, s.Today.AddDays(-s.last()))
	if err != nil {
		return nil, err
	}
	s.PlanDays()
	s.heavyLegs(heavy)
	if why, ok := news.failed[a.ID]; ok {
		s.Needs = append(s.Needs, "reminders fail: "+why)
	}
	return s, nil
}

// PlanDays plans the rider's days to come; of a taper that runs the plan knows the
// days gone by too.
func (s *standing) PlanDays() {
	if _, held := desk.Held(s.Facts.Now); held || desk.OpenIllness(s.Facts.Now) != nil {
		s.Health = true
		s.Needs = append(s.Needs, show.NotTraining)
	}
	if !desk.Planned(s.Facts.Now) {
		s.Needs = append(s.Needs, noWeek)
		s.SeasonNeeds()
		return
	}
	s.plan = engine.DeriveUntil(s.Today, s.Today.AddDays(lookAhead), s.Facts.All)
	if d, ok := s.plan.Day(s.Today); ok && d.Phase == planner.Health && !s.Health {
		s.Health = true
		s.Needs = append(s.Needs, show.NotTraining)
	}
	for i := range s.plan.Tapers {
		if t := &s.plan.Tapers[i]; t.From <= s.Today && s.Today < t.Race.Date {
			s.taper = s.taperNow(t)
			break
		}
	}
	s.Needs = append(s.Needs, s.fallen()...)
	if missed := s.missed(); missed != "" {
		s.Needs = append(s.Needs, missed)
	}
	s.SeasonNeeds()
}

// heavyLegs are two days or more of the last ones, near each other.
func (s *standing) heavyLegs(days []planner.Date) {
	const near = 4 // days between the first and the last
	for i := 1; i < len(days) && !s.Health; i++ {
		if days[i-1].DaysUntil(days[i]) <= near {
			var names []string
			for _, d := range days {
				names = append(names, d.Short())
			}
			s.Needs = append(s.Needs, "heavy legs on "+say.AndList(names))
			return
		}
	}
}

// fallen are the days that a coach set and that no longer fit. That a rider does
// not train for health is told once.
func (s *standing) fallen() []string {
	var out []string
	for _, w := range s.plan.Warnings {
		if w.Code != engine.WarnPinDropped || w.Day < s.Today {
			continue
		}
		if d, ok := s.plan.Day(w.Day); ok && d.Phase == planner.Health {
			if !s.Health && !slices.Contains(out, show.NotTraining) {
				out = append(out, show.NotTraining)
			}
			continue
		}
		out = append(out, "what you set for "+w.Day.Short()+" no longer fits")
	}
	return out
}

const (
	noWeek = "no typical week"
)

func (s *standing) taperNow(t *engine.Taper) *taperNow {
	now := &taperNow{race: t.Race, day: t.From.DaysUntil(s.Today) + 1, of: t.Days, planned: t.CutPercent}
	usual, done := 0, 0
	for date := t.From; date < s.Today; date++ {
		if d := s.plan.Known(date); d != nil {
			usual += usualMinutes(s.Facts.Now, d)
			if d.Phase == planner.RaceDay || !desk.LaidLow(s.Facts.Now, date) {
				done += d.Minutes()
			}
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
	if limit, ok := desk.LimitOn(f, d.Date); ok && limit.Minutes == 0 {
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
	for _, r := range s.Facts.Now.Done {
		if r.Minutes == 0 && s.Today.AddDays(-s.last()) <= r.Date && r.Date <= s.Today {
			days = append(days, r.Date)
		}
	}
	if len(days) == 0 {
		return ""
	}
	var keys []string
	for _, date := range days {
		for _, session := range desk.Unlogged(s.Facts, date).Sessions {
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
	return "missed " + say.AndList(keys)
}

// raced gathers what the rider told of races that ended in the last days, or
// told in them of races before, and those without a result. Today is no
// day of those of which something should have been told.
func (s *standing) raced(races []storage.Race, results map[storage.RaceID]storage.Result, news *clubNews) {
	since := news.now.AddDate(0, 0, -lookBack)
	if !news.since.IsZero() && news.since.Before(since) {
		since = news.since
	}
	for _, r := range races {
		ended := r.Last().DaysUntil(s.Today)
		result, told := results[r.ID]
		switch {
		case r.Status == planner.Cancelled, ended < 0 && !told:
		case told && (0 <= ended && ended < s.last() || result.Added.After(since) && ended >= 0 || ended < 0 && r.Status != planner.Planned):
			s.results = append(s.results, resultText(&r.Race, &result))
		case !told && r.Status.Counts() && 0 < ended && ended <= s.last():
			s.untold = append(s.untold, show.RaceName(&r.Race))
		}
	}
}

// resultText is how a race went, without the rider's note and without what speaks
// of the rider's health.
func resultText(r *planner.Race, result *storage.Result) string {
	text := fmt.Sprintf("%s (%s)", show.RaceName(r), r.Priority)
	if result.Feeling > 0 {
		text += fmt.Sprintf(", legs %d of 10", result.Feeling)
	}
	if result.Place != "" && !show.AboutHealth(result.Place, r.Name) {
		text += ", " + show.CutTo(result.Place, show.MostName)
	}
	for _, words := range []string{show.OutcomeWords(result.Outcome), show.ComparedWords(result.Compared)} {
		if words != "" {
			text += ", " + words
		}
	}
	return text
}
