package plans

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"time"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/ics"
	"musette/planner/raceday"
	"musette/planner/words"
)

// entry is an event of a race: the race itself, or a day that belongs to it.
type entry struct {
	race        int64
	date, until planner.Date // first and last day
	event       ics.Event
}

// same reports two states of an entry that a calendar shows alike.
func (e *entry) same(other *entry) bool {
	a, b := e.event, other.event
	if !a.From.Equal(b.From) || !a.To.Equal(b.To) || a.From.Location().String() != b.From.Location().String() {
		return false
	}
	a.From, a.To, a.Sequence = b.From, b.To, b.Sequence
	return a == b
}

// state is a checksum of all that a calendar shows of an entry, one for all that are cancelled.
func (e *entry) state() string {
	if e.event.Cancelled {
		return cancelled
	}
	shown := e.event
	shown.Sequence = 0
	sum := sha256.Sum256(fmt.Appendf(nil, "%+v %s", shown, shown.From.Location()))
	return hex.EncodeToString(sum[:12])
}

// calendar makes entries. Zones are looked up once.
type calendar struct {
	rider *time.Location
	zones map[string]*time.Location
}

func newCalendar(rider *time.Location) *calendar {
	return &calendar{rider: rider, zones: map[string]*time.Location{}}
}

func (c *calendar) zoneOf(r *planner.Race) *time.Location {
	if c.zones[r.Zone] == nil {
		c.zones[r.Zone] = show.ZoneOf(r, c.rider)
	}
	return c.zones[r.Zone]
}

// track is an entry as it was last planned.
type track struct {
	entry
	there bool // in the plan that was made last
}

// entries are all that is to come, and what was planned once but fell away, as
// cancelled. No plan is stored: each is made once more as it was on the days on
// which something was entered.
func (c *calendar) entries(today planner.Date, all *planner.Facts) []entry {
	tracks := map[string]*track{}
	for _, e := range plannedOn(today, all) {
		c.follow(tracks, e, all)
	}
	var out []entry
	for _, t := range tracks {
		if t.until >= today {
			t.event.Cancelled = !t.there
			out = append(out, t.entry)
		}
	}
	sortEntries(out)
	return out
}

func sortEntries(all []entry) {
	slices.SortFunc(all, func(a, b entry) int { return cmp.Or(int(a.date-b.date), strings.Compare(a.event.UID, b.event.UID)) })
}

// follow brings the tracks to the plan of day e. The sequence of an entry grows
// by how many of the day's news matter to it, by one at least where it is another.
func (c *calendar) follow(tracks map[string]*track, e planner.Date, all *planner.Facts) {
	is := c.planned(engine.Derive(e, all))
	matter := map[string]int{}
	if news := all.Omitting(e); len(news) > 1 {
		for _, less := range news {
			for uid := range differing(is, c.planned(engine.Derive(e, less))) {
				matter[uid]++
			}
		}
	}
	for uid, now := range is {
		was := tracks[uid]
		switch {
		case was == nil:
			now.event.Sequence = max(0, matter[uid]-1) // the first is what it is from
		case !was.there || !now.same(&was.entry):
			now.event.Sequence = was.event.Sequence + max(1, matter[uid])
		default:
			now.event.Sequence = was.event.Sequence + matter[uid]
		}
		tracks[uid] = &track{now, true}
	}
	for uid, was := range tracks {
		if _, planned := is[uid]; was.there && !planned && was.until >= e {
			was.event.Sequence += max(1, matter[uid])
			was.there = false
		}
	}
}

// differing are the entries that are not the same in two plans.
func differing(a, b map[string]entry) map[string]bool {
	out := map[string]bool{}
	for uid, one := range a {
		if other, ok := b[uid]; !ok || !one.same(&other) {
			out[uid] = true
		}
	}
	for uid := range b {
		if _, ok := a[uid]; !ok {
			out[uid] = true
		}
	}
	return out
}

// plannedOn are the days on which plans may have become others, from the first
// on which a race was registered, and today.
func plannedOn(today planner.Date, all *planner.Facts) []planner.Date {
	first := today
	for i := range all.Races {
		if r := &all.Races[i]; r.Last().AddDays(show.AfterDays) >= today {
			first = min(first, r.Registered)
		}
	}
	dates := slices.DeleteFunc(all.ToldDates(today), func(e planner.Date) bool { return e < first })
	if len(dates) == 0 || dates[len(dates)-1] != today {
		dates = append(dates, today)
	}
	return dates
}

// planned are the entries of a plan: its races, and the days that each of them
// shapes. A day has one entry, of the race that it belongs to.
func (c *calendar) planned(plan *engine.Plan) map[string]entry {
	out := map[string]entry{}
	seen := map[planner.Date]bool{}
	for i := range plan.Races {
		told := &plan.Facts.Races[i]
		if told.Last() >= plan.Today {
			for _, e := range c.ofRace(plan, told) {
				if role := plan.Races[i]; role.Role == planner.Outranked && role.Host != nil {
					e.event.Description = fmt.Sprintf("Your plan is for %s on that day.", role.Host.Name)
				}
				out[e.event.UID] = e
			}
		}
		if len(plan.Facts.Weeks) == 0 {
			continue
		}
		for _, d := range show.RaceDays(plan, plan.Races[i], told) {
			owner := told
			if d.Race != nil {
				owner = show.ToldRace(plan, plan.Facts, d.Race)
			}
			if d.Phase == planner.RaceDay || seen[d.Date] || owner == nil {
				continue
			}
			if seen[d.Date] = true; d.Changed() || !restDay(&d) {
				e := ofDay(&d, owner)
				out[e.event.UID] = e
			}
		}
	}
	return out
}

// restDay reports a day without anything to do.
func restDay(d *engine.Day) bool {
	return !slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return s.Kind != planner.Rest })
}

// ofRace are the days of a race; one that runs past midnight is a single entry.
func (c *calendar) ofRace(plan *engine.Plan, r *planner.Race) []entry {
	var out []entry
	for n := range r.Days {
		day := r.Date.AddDays(n)
		e := entry{race: r.ID, date: day, until: day, event: ics.Event{UID: uid(r, fmt.Sprintf("race-%d", n+1)), AllDay: true, Busy: true,
			Summary: fmt.Sprintf("%s (%s race)", r.Name, r.Priority), Location: r.Place, Category: "Race", Description: aboutRace(r)}}
		if r.Days == 1 {
			e.until = r.Last()
		} else {
			e.event.Summary = fmt.Sprintf("%s, day %d of %d (%s race)", r.Name, n+1, r.Days, r.Priority)
		}
		e.event.From, e.event.To = midnight(e.date), midnight(e.until.AddDays(1))
		if start, ok := raceday.StartIn(r, c.zoneOf(r)); ok && n == 0 {
			e.event.AllDay, e.event.From, e.event.To = false, start, start.Add(time.Duration(r.Minutes())*time.Minute)
		}
		if e.until >= plan.Today {
			out = append(out, e)
		}
	}
	return out
}

// aboutRace is what a calendar says of a race.
func aboutRace(r *planner.Race) string {
	lines := []string{fmt.Sprintf("Warm up %d min easy with a few short efforts.", raceday.WarmUpMinutes(r.Minutes(), r.Kind))}
	if r.Kind != "" {
		lines = append([]string{r.Kind + "."}, lines...)
	}
	if r.Hours <= 0 {
		lines = append(lines, fmt.Sprintf("Its length is not known: %s are assumed.", planner.Duration(r.Minutes())))
	}
	return strings.Join(lines, "\n")
}

// ofDay is a day of training. Calendars are read over shoulders: of an illness
// they say "no training" at most, and no reasons.
func ofDay(d *engine.Day, owner *planner.Race) entry {
	e := entry{race: owner.ID, date: d.Date, until: d.Date, event: ics.Event{UID: uid(owner, fmt.Sprintf("day%+d", owner.Date.DaysUntil(d.Date))), AllDay: true,
		From: midnight(d.Date), To: midnight(d.Date.AddDays(1)), Category: "Training"}}
	switch {
	case d.Phase == planner.Health && restDay(d):
		e.event.Summary = "No training"
		return e
	case restDay(d):
		e.event.Summary = "Rest day"
	default:
		e.event.Summary = say.UpperFirst(show.Headline(d))
	}
	var lines []string
	for i, s := range d.Sessions {
		if s.Kind != planner.Rest {
			lines = append(lines, words.Session(d, i), "How hard: "+words.HowHard(s))
		}
	}
	if n := d.Date.DaysUntil(owner.Date); n > 0 {
		lines = append(lines, fmt.Sprintf("%s to %s.", show.Count(n, "day"), owner.Name))
	}
	e.event.Description = strings.Join(lines, "\n")
	return e
}

// uid names an entry for good: by the number of its race and the day on which
// that was registered, as another database may have the same number. Days count
// from the race: where that moves, so do they.
func uid(r *planner.Race, what string) string {
	return fmt.Sprintf("%d-%s-%s@musette", r.ID, strings.ReplaceAll(r.Registered.String(), "-", ""), what)
}

func midnight(d planner.Date) time.Time {
	year, month, day := d.Civil()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// ofRace are the entries of one race.
func ofRace(all []entry, id int64) []entry {
	return slices.DeleteFunc(all, func(e entry) bool { return e.race != id })
}
