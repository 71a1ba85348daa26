package plans

import (
	"context"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/season"
	"musette/storage"
)

// Options of /season apply.
const (
	optionMakeB   = "make-b"
	optionBackToA = "back-to-a"

	maxRacesText = 4000 // characters of a list of races
)

// naming is how options name a race: by show.RaceKey to people, by show.RaceRef in buttons.
type naming func(*planner.Race) string

// offerSeason adds a button of /season apply, and its line to type.
func offerSeason(p *say.Page, reply *say.Reply, label string, options func(naming) map[string]string) {
	reply.Offer(p, label, "season apply", options(show.RaceKey))
	reply.Buttons[len(reply.Buttons)-1].Options = options(show.RaceRef)
}

// applying are the options of /season apply that make a change.
func applying(c *season.Change, f *planner.Facts, name naming) map[string]string {
	options := map[string]string{}
	var names []string
	for _, r := range c.ToB {
		if told := f.RaceOf(r); told != nil {
			names = append(names, name(told))
		}
	}
	if len(names) > 0 {
		options[optionMakeB] = strings.Join(names, "; ")
	}
	if c.Automatic {
		options[desk.OptionTaper] = desk.AutoTaper
	}
	return options
}

// seasonDone is what /season apply changed, and what it left as it was.
type seasonDone struct {
	told       *planner.Facts // the rider's races: those of one name are told apart
	toB, toA   []storage.Race // changed
	wasB, wasA []storage.Race // so already
	over       []storage.Race // too late to be changed
	taper      bool           // told, from was to is
	was, is    string
}

func (d *seasonDone) nothing() bool {
	return len(d.toB)+len(d.toA) == 0 && (!d.taper || d.was == d.is)
}

func seasonApply(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if len(req.Options) == 0 {
		return say.Reply{}, say.Refuse(optionMakeB, `nothing to change. Name races or a length, for example make-b:"Hill Loop" or taper:auto. See /season check`)
	}
	known, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	taper := req.Rider.Athlete.Settings.Taper
	if _, err := applySeason(&req, known, &taper); err != nil {
		return say.Reply{}, err
	}
	var done seasonDone
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.ChangeSeason(ctx, req.Rider.Athlete.ID, req.Rider.Today, func(races []storage.Race, taper *planner.Taper) (err error) {
			done, err = applySeason(&req, races, taper)
			return err
		})
	})
	if err != nil {
		return say.Reply{}, err
	}
	reply := say.Reply{Date: req.Rider.Today}
	var p say.Page
	p.Addf("%s", done.text())
	if desk.Planned(e.Facts) {
		p.Add(e.News()...)
	}
	p.Addf("%s", desk.WayBack)
	offerSeason(&p, &reply, "Undo", done.undo)
	reply.Lines = p.Done()
	return reply, nil
}

// applySeason lays the options over races and taper setting. The day on which a
// race was registered stays: making it a B race and an A race again changes no
// plan. Where nothing is left to change it refuses: the answer that came before
// keeps its place, and its Undo.
func applySeason(r *desk.Request, races []storage.Race, taper *planner.Taper) (done seasonDone, err error) {
	done.told = &planner.Facts{}
	for i := range races {
		done.told.Races = append(done.told.Races, races[i].Race)
	}
	toB, err := racesOf(r, optionMakeB, races)
	if err != nil {
		return done, err
	}
	toA, err := racesOf(r, optionBackToA, races)
	if err != nil {
		return done, err
	}
	for _, i := range toA {
		if slices.Contains(toB, i) {
			return done, say.Refuse(optionBackToA, "%s is in %s too. Name it in one of them", done.name(&races[i]), optionMakeB)
		}
	}
	if done.toB, done.wasB, err = rerank(r, &done, races, toB, optionMakeB, planner.PriorityB); err != nil {
		return done, err
	}
	if done.toA, done.wasA, err = rerank(r, &done, races, toA, optionBackToA, planner.PriorityA); err != nil {
		return done, err
	}
	if done.taper = r.Has(desk.OptionTaper); done.taper {
		done.was = desk.TaperLength(taper)
		if err = desk.ReadTaperLength(taper, r.Get(desk.OptionTaper)); err != nil {
			return done, say.InField(desk.OptionTaper, err)
		}
		done.is = desk.TaperLength(taper)
	}
	if done.nothing() {
		return done, say.Refuse(firstOf(r, optionMakeB, optionBackToA, desk.OptionTaper), "%s, so nothing changes. See /season check", say.AndList(done.left()))
	}
	return done, nil
}

// firstOf is the first of these options that was given.
func firstOf(r *desk.Request, options ...string) string {
	return options[max(0, slices.IndexFunc(options, r.Has))]
}

// rerank gives races of the list another priority and returns those that it
// changed and those that had it. Only A and B races change places; what is over
// goes to done.
func rerank(r *desk.Request, done *seasonDone, races []storage.Race, list []int, option string, to planner.Priority) (changed, same []storage.Race, err error) {
	for _, i := range list {
		switch race := &races[i]; {
		case race.Last() < r.Rider.Today:
			done.over = append(done.over, *race)
		case race.Priority == to:
			same = append(same, *race)
		case race.Priority == planner.PriorityC:
			return nil, nil, say.Refuse(option, "%s is a C race, and a season's change is about A races alone. See /race priority race:%s priority:%s",
				done.name(race), say.Quote(race.Key()), to)
		default:
			race.Priority = to
			changed = append(changed, *race)
		}
	}
	return changed, same, nil
}

// taperText is the taper setting in words.
func taperText(length string) string {
	switch length {
	case desk.AutoTaper:
		return "your taper lengths are automatic"
	case desk.UsualTaper:
		return "your tapers have the usual length for your hours"
	}
	return "your tapers take " + length + " days"
}

// name is a race's name, with its day where another one is called the same.
func (d *seasonDone) name(r *storage.Race) string { return shortRace(d.told, &r.Race) }

// say is a list of races with a sentence about it, "" for an empty list.
func (d *seasonDone) say(races []storage.Race, one, many string) []string {
	names := make([]string, len(races))
	for i := range races {
		names[i] = d.name(&races[i])
	}
	switch len(names) {
	case 0:
		return nil
	case 1:
		return []string{names[0] + " " + one}
	}
	return []string{say.AndList(names) + " " + many}
}

// text is what changed, in one line.
func (d *seasonDone) text() string {
	parts := slices.Concat(d.say(d.toB, "is a B race now", "are B races now"), d.say(d.toA, "is an A race again", "are A races again"))
	if d.taper && d.was != d.is {
		parts = append(parts, taperText(d.is))
	}
	parts = append(parts, d.left()...)
	for i, part := range parts {
		parts[i] = say.UpperFirst(part) + "."
	}
	return strings.Join(parts, " ")
}

// left is what stays as it is.
func (d *seasonDone) left() []string {
	parts := slices.Concat(d.say(d.wasB, "is a B race already", "are B races already"), d.say(d.wasA, "is an A race already", "are A races already"))
	if d.taper && d.was == d.is {
		parts = append(parts, taperText(d.is)+" already")
	}
	return append(parts, d.say(d.over, "is over and stays as it is", "are over and stay as they are")...)
}

// undo are the options that bring everything back.
func (d *seasonDone) undo(name naming) map[string]string {
	options := map[string]string{}
	for option, races := range map[string][]storage.Race{optionMakeB: d.toA, optionBackToA: d.toB} {
		var names []string
		for i := range races {
			names = append(names, name(&races[i].Race))
		}
		if len(names) > 0 {
			options[option] = strings.Join(names, "; ")
		}
	}
	if d.taper && d.was != d.is {
		options[desk.OptionTaper] = d.was
	}
	return options
}
