package plans

import (
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// ListOffers complete the last race of a list, parted by semicolons, with one that
// the option can change, as far as the whole has room.
func ListOffers(races []storage.Race, option, typed string) []command.Offer {
	races = changeable(races, option)
	before := ""
	if i := strings.LastIndexByte(typed, ';'); i >= 0 {
		before, typed = strings.TrimSpace(typed[:i])+"; ", typed[i+1:]
	}
	for _, named := range splitRaces(before, races) {
		if found := wholeNamed(races, named); len(found) == 1 {
			races = slices.DeleteFunc(races, func(r storage.Race) bool { return r.ID == found[0].ID })
		}
	}
	var out []command.Offer
	for _, o := range command.Fitting(command.RaceOffers(races), typed) {
		whole := command.Offer{Label: before + o.Label, Value: before + o.Value}
		if command.UTF16Len(whole.Label) <= desk.MaxOfferText && command.UTF16Len(whole.Value) <= desk.MaxOfferText {
			out = append(out, whole)
		}
	}
	return out
}

// racesOf reads a list of races, parted by semicolons; it returns their places, each once.
func racesOf(r *desk.Request, option string, races []storage.Race) ([]int, error) {
	if !r.Has(option) {
		return nil, nil
	}
	var places []int
	for _, name := range splitRaces(r.Get(option), races) {
		found, err := listed(r, option, name, races)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(races, func(other storage.Race) bool { return other.ID == found.ID })
		if !slices.Contains(places, i) {
			places = append(places, i)
		}
	}
	if len(places) == 0 {
		return nil, say.Refuse(option, `names no race. For example %s:"Hill Loop; Quarry Crit"`, option)
	}
	return places, nil
}

// listed finds one race of a list. Buttons and offers write the date behind the
// whole name: where a date is written nothing less will do, or what was written
// before a race was taken out would change another one.
func listed(r *desk.Request, option, name string, races []storage.Race) (storage.Race, error) {
	_, on := desk.CutDate(name)
	if on.IsZero() || len(races) == 0 {
		found, err := desk.RaceIn(option, races, name, r.Rider.Today)
		if err == nil && !desk.SureEnough(races, found, name, r.Rider.Today) {
			err = say.Refuse(option, "%s is not enough to be sure. Did you mean %s:%s?", say.Shown(name), option, say.Quote(found.Key()))
		}
		return found, err
	}
	switch found := wholeNamed(races, name); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return storage.Race{}, say.Refuse(option, "no race of yours is %s. %s", say.Shown(name), instead(r, option, name, races))
	default:
		return storage.Race{}, desk.Ambiguous(option, name, found)
	}
}

// instead shows how the race is written that may have been meant.
func instead(r *desk.Request, option, name string, races []storage.Race) string {
	pool := changeable(desk.ToCome(races, r.Rider.Today), option)
	if len(pool) == 0 {
		return "See /season check"
	}
	bare, _ := desk.CutDate(name)
	meant := pool[0]
	for _, text := range []string{name, bare} {
		if found, err := desk.FindRace(pool, text, r.Rider.Today); err == nil {
			meant = found
			break
		}
	}
	return "For example " + option + ":" + say.Quote(meant.Key())
}

// changeable are the races that an option of /season apply can change.
func changeable(races []storage.Race, option string) []storage.Race {
	from := planner.PriorityA
	if option == optionBackToA {
		from = planner.PriorityB
	}
	return slices.DeleteFunc(slices.Clone(races), func(r storage.Race) bool { return r.Priority != from })
}

// wholeNamed are the races whose name a text is, with their date where it has
// one: the whole name, else, of a long one, the beginning that is offered.
func wholeNamed(races []storage.Race, text string) []storage.Race {
	name, on := desk.CutDate(text)
	id, isRef := show.RefID(text)
	var levels [3][]storage.Race
	for _, r := range races {
		switch {
		case isRef && r.Race.ID == id:
			return []storage.Race{r}
		case !on.IsZero() && r.Date != on:
		case show.SameName(name, r.Name):
			levels[0] = append(levels[0], r)
		case show.SameName(text, r.Name): // a name that ends in the race's date
			levels[1] = append(levels[1], r)
		case desk.OfferedName(name, r.Name):
			levels[2] = append(levels[2], r)
		}
	}
	for _, found := range levels {
		if len(found) > 0 {
			return found
		}
	}
	return nil
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
			if n == 1 || len(wholeNamed(races, part)) > 0 {
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
