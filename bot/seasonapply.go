package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/storage"
)

// Options of /season apply.
const (
	optionMakeB   = "make-b"
	optionBackToA = "back-to-a"
	optionTaper   = "taper"

	maxRacesText = 4000 // characters of a list of races
	autoTaper    = "auto"
)

// applying are the options of /season apply that make a change.
func applying(c *planner.SeasonChange, f *planner.Facts) map[string]string {
	options := map[string]string{}
	var names []string
	for _, r := range c.ToB {
		if told := toldAs(f, r); told != nil {
			names = append(names, raceNamed(told)["race"])
		}
	}
	if len(names) > 0 {
		options[optionMakeB] = strings.Join(names, "; ")
	}
	if c.Automatic {
		options[optionTaper] = autoTaper
	}
	return options
}

// seasonDone is what /season apply changed, and what was so already.
type seasonDone struct {
	toB, toA []storage.Race
	taper    bool // changed, from was to is
	was, is  int
	already  []string
}

func (d *seasonDone) nothing() bool { return len(d.toB)+len(d.toA) == 0 && !d.taper }

func (b *Bot) seasonApply(ctx context.Context, req Request) (Reply, error) {
	if len(req.Options) == 0 {
		return Reply{}, refuse(optionMakeB, `nothing to change; name races or a length, for example make-b:"Hill Loop" or taper:auto; see /season check`)
	}
	known, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	taper := req.rider.athlete.Settings.Taper
	if _, err := req.applySeason(known, &taper); err != nil {
		return Reply{}, err
	}
	var done seasonDone
	e, err := b.change(ctx, req, func() error {
		return b.db.ChangeSeason(ctx, req.rider.athlete.ID, func(races []storage.Race, taper *planner.Taper) (err error) {
			done, err = req.applySeason(races, taper)
			return err
		})
	})
	if err != nil {
		return Reply{}, err
	}
	reply := Reply{Date: req.rider.today}
	if done.nothing() {
		reply.Text = "Nothing to change: " + andList(done.already) + ". See /season check"
		return reply, nil
	}
	var p page
	p.add(done.text())
	if planned(e.facts) {
		p.add(e.news()...)
	}
	reply.offer(&p, "Undo", "season apply", done.undo())
	reply.Text = p.String()
	return reply, nil
}

// applySeason lays the options over races and taper setting. The day on which a
// race was registered stays: making it a B race and an A race again changes no plan.
func (r *Request) applySeason(races []storage.Race, taper *planner.Taper) (done seasonDone, err error) {
	toB, err := r.racesOf(optionMakeB, races)
	if err != nil {
		return done, err
	}
	toA, err := r.racesOf(optionBackToA, races)
	if err != nil {
		return done, err
	}
	for _, i := range toA {
		if slices.Contains(toB, i) {
			return done, refuse(optionBackToA, "%s stands in %s too; name it in one of them", races[i].Name, optionMakeB)
		}
	}
	if done.toB, err = rerank(races, toB, optionMakeB, planner.PriorityB, &done.already); err != nil {
		return done, err
	}
	if done.toA, err = rerank(races, toA, optionBackToA, planner.PriorityA, &done.already); err != nil {
		return done, err
	}
	if r.has(optionTaper) {
		if done.is, err = readTaperDays(r.get(optionTaper)); err != nil {
			return done, inField(optionTaper, err)
		}
		done.was, taper.Days = taper.Days, done.is
		if done.taper = done.was != done.is; !done.taper {
			done.already = append(done.already, taperText(done.is)+" already")
		}
	}
	return done, nil
}

// rerank gives races of the list another priority and returns those that it
// changed; already names the others. Only A and B races change places.
func rerank(races []storage.Race, list []int, option string, to planner.Priority, already *[]string) (changed []storage.Race, err error) {
	for _, i := range list {
		switch r := &races[i]; r.Priority {
		case to:
			*already = append(*already, fmt.Sprintf("%s is %s race already", raceName(&r.Race), aPriority(to)))
		case planner.PriorityC:
			return nil, refuse(option, "%s is a C race, and a season's change is about A races alone; see /race priority race:%s priority:%s",
				r.Name, Quote(raceNamed(&r.Race)["race"]), to)
		default:
			r.Priority = to
			changed = append(changed, *r)
		}
	}
	return changed, nil
}

func aPriority(p planner.Priority) string {
	if p == planner.PriorityA {
		return "an A"
	}
	return "a " + p.String()
}

// racesOf reads a list of races, parted by semicolons; it returns their places, each once.
func (r *Request) racesOf(option string, races []storage.Race) ([]int, error) {
	if !r.has(option) {
		return nil, nil
	}
	var places []int
	for _, name := range splitRaces(r.get(option), races) {
		found, err := r.listed(option, name, races)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(races, func(other storage.Race) bool { return other.ID == found.ID })
		if !slices.Contains(places, i) {
			places = append(places, i)
		}
	}
	if len(places) == 0 {
		return nil, refuse(option, `names no race; for example %s:"Hill Loop; Quarry Crit"`, option)
	}
	return places, nil
}

// listed finds one race of a list. A date that is written with a name holds.
func (r *Request) listed(option, name string, races []storage.Race) (storage.Race, error) {
	var found storage.Race
	exact := slices.IndexFunc(races, func(other storage.Race) bool { return raceNamedSo(&other.Race, name) })
	if _, on := cutDate(name); exact >= 0 && !on.IsZero() {
		found = races[exact]
	} else {
		var err error
		if found, err = findRace(races, name, r.rider.today); err != nil {
			return found, inOption(option, err)
		}
		if !on.IsZero() && found.Date != on {
			return found, refuse(option, "no race of yours is %s; for example %s:%s", Shown(name), option, Quote(raceNamed(&found.Race)["race"]))
		}
	}
	if found.Last() < r.rider.today {
		return found, refuse(option, "%s on %s is over; name races to come, see /season check", found.Name, found.Date.Long())
	}
	return found, nil
}

// inOption is the fault of a race that was written in another option than race.
func inOption(option string, err error) error {
	var in *planner.InputError
	if !errors.As(err, &in) {
		return err
	}
	return refuse(option, "%s", strings.ReplaceAll(in.Msg, " race:", " "+option+":"))
}

// raceNamedSo reports whether a text is a race's whole name with its date, or
// as it is offered, or the name alone.
func raceNamedSo(r *planner.Race, text string) bool {
	name, on := cutDate(text)
	return sameName(text, r.Name) || on == r.Date && (sameName(name, r.Name) || offeredName(name, r.Name))
}

// splitRaces parts a list at its semicolons, but for those of a name.
func splitRaces(text string, races []storage.Race) []string {
	most := 1
	for i := range races {
		most = max(most, strings.Count(races[i].Name, ";")+1)
	}
	pieces := strings.Split(text, ";")
	var out []string
	for len(pieces) > 0 {
		n := min(most, len(pieces))
		part := ""
		for ; n > 0; n-- {
			part = strings.TrimSpace(strings.Join(pieces[:n], ";"))
			if n == 1 || slices.ContainsFunc(races, func(r storage.Race) bool { return raceNamedSo(&r.Race, part) }) {
				break
			}
		}
		if part != "" {
			out = append(out, part)
		}
		pieces = pieces[n:]
	}
	return out
}

// taperText is the taper setting in words.
func taperText(days int) string {
	if days == 0 {
		return "taper lengths are automatic"
	}
	return "tapers take " + count(days, "day")
}

// text is what changed, in one line.
func (d *seasonDone) text() string {
	var parts []string
	for _, change := range []struct {
		races     []storage.Race
		one, many string
	}{{d.toB, "is a B race now", "are B races now"}, {d.toA, "is an A race again", "are A races again"}} {
		names := make([]string, len(change.races))
		for i, r := range change.races {
			names[i] = raceName(&r.Race)
		}
		switch len(names) {
		case 0:
		case 1:
			parts = append(parts, names[0]+" "+change.one)
		default:
			parts = append(parts, andList(names)+" "+change.many)
		}
	}
	if d.taper {
		parts = append(parts, taperText(d.is))
	}
	text := strings.Join(append(parts, d.already...), "; ") + "."
	return strings.ToUpper(text[:1]) + text[1:]
}

// undo are the options that bring everything back.
func (d *seasonDone) undo() map[string]string {
	options := map[string]string{}
	for option, races := range map[string][]storage.Race{optionMakeB: d.toA, optionBackToA: d.toB} {
		var names []string
		for _, r := range races {
			names = append(names, raceNamed(&r.Race)["race"])
		}
		if len(names) > 0 {
			options[option] = strings.Join(names, "; ")
		}
	}
	if d.taper {
		options[optionTaper] = autoTaper
		if d.was != 0 {
			options[optionTaper] = strconv.Itoa(d.was)
		}
	}
	return options
}
