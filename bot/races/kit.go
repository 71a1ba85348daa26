package races

import (
	"context"
	"slices"
	"strings"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/storage"
)

// What a rider may change of the kit list.
const (
	mostKit     = 20 // things
	mostKitItem = 40 // characters of one
)

// keepKit keeps what was entered about the kit, for all races, and returns what the rider
// packs otherwise than most.
func keepKit(ctx context.Context, b *desk.Base, req desk.Request) ([]storage.KitItem, error) {
	var kept []storage.KitItem
	if req.Rider.Known() {
		var err error
		if kept, err = b.DB.Kit(ctx, req.Rider.Athlete.ID); err != nil {
			return nil, err
		}
	}
	text := req.Get(optionKit)
	if text == "" {
		return kept, nil
	}
	items, err := readKit(text, kept)
	if err != nil {
		return nil, err
	}
	_, err = b.Change(ctx, req, func(tx *storage.DB) error { return tx.SetKit(ctx, req.Rider.Athlete.ID, items) })
	return items, err
}

// readKit lays "lights; no gloves" over what was kept; none is the usual list.
func readKit(text string, kept []storage.KitItem) ([]storage.KitItem, error) {
	if slices.ContainsFunc([]string{say.None, "usual", "reset", "default", desk.AutoTaper}, func(word string) bool { return strings.EqualFold(strings.TrimSpace(text), word) }) {
		return nil, nil
	}
	out := slices.Clone(kept)
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == ',' || r == '\n' }) {
		item := strings.Join(strings.Fields(part), " ")
		item, leave := kitItem(item)
		if item == "" {
			continue
		}
		if utf8.RuneCountInString(item) > mostKitItem {
			return nil, say.Refuse(optionKit, "%s is longer than %d characters. For example lights; no gloves", say.Shown(item), mostKitItem)
		}
		out = slices.DeleteFunc(out, func(k storage.KitItem) bool { return show.SameName(k.Item, item) })
		out = append(out, storage.KitItem{Item: item, Leave: leave})
	}
	if len(out) > mostKit {
		return nil, say.Refuse(optionKit, "these are %d changes with those that I keep, and %d are the most. Write none for the usual list, then for example lights; no gloves", len(out), mostKit)
	}
	slices.SortFunc(out, func(a, b storage.KitItem) int { return strings.Compare(a.Item, b.Item) }) // as they are kept
	return out, nil
}

// kitItem is a thing and whether it is left at home, by what stands before it: no gloves, - gloves, + lights.
func kitItem(text string) (item string, leave bool) {
	for _, begin := range [...]string{"no ", "without ", "-", "\u2212", "\u2013"} {
		if rest, ok := cutFold(text, begin); ok {
			return rest, true
		}
	}
	for _, begin := range [...]string{"+", "add "} {
		text, _ = cutFold(text, begin)
	}
	return text, false
}

// cutFold cuts a beginning off, in capitals or not.
func cutFold(s, begin string) (string, bool) {
	if len(s) > len(begin) && strings.EqualFold(s[:len(begin)], begin) {
		return strings.TrimSpace(s[len(begin):]), true
	}
	return s, false
}

// kit is what to pack: the usual list for the race, without what the rider leaves at
// home, with what they take besides.
func (m *morning) kit() []string {
	list := slices.DeleteFunc(m.usualKit(), func(item string) bool {
		return slices.ContainsFunc(m.packs, func(k storage.KitItem) bool { return k.Leave && namesKit(item, k.Item) })
	})
	for _, k := range m.packs {
		if !k.Leave && !slices.ContainsFunc(list, func(item string) bool { return show.SameName(item, k.Item) }) {
			list = append(list, k.Item)
		}
	}
	return list
}

// kitLines are the list, and how to change it or to take the changes back.
func (m *morning) kitLines(p *say.Page) {
	list := m.kit()
	if len(list) == 0 {
		list = []string{"nothing"}
	}
	p.Addf("Kit: %s.", say.AndList(list))
	more := "lights"
	if slices.Contains(list, more) {
		more = "sunscreen"
	}
	switch {
	case len(m.packs) > 0:
		p.Addf("That is your own list, for all races. Back to the usual one: /race morning kit:none")
	case slices.Contains(list, "gloves"):
		p.Addf("To pack %s too and leave gloves at home, for example: /race morning kit:%s", more, say.Quote(more+"; no gloves"))
	}
}

// namesKit reports a thing of the list that is meant by its name or its first word.
func namesKit(item, named string) bool {
	first, _, _ := strings.Cut(strings.ReplaceAll(item, ",", " "), " ")
	return show.SameName(item, named) || show.SameName(first, named)
}

// usualKit is what most riders pack.
func (m *morning) usualKit() []string {
	kind := strings.ToLower(m.race.Kind)
	list := []string{"licence or ID", "race number", "pins", "helmet", "shoes", "gloves", "glasses", "clothes for cold and rain", "bottles", "food", "pump", "spare tube", "tools", "money", "phone", "dry clothes for after"}
	switch {
	case strings.Contains(kind, "time trial"):
		list = append(list, "skinsuit", "turbo trainer for the warm-up")
	case strings.Contains(kind, "gravel"):
		list = append(list, "second spare tube", "tyre plugs", "chain link")
	}
	if m.race.Minutes() >= 8*60 || strings.Contains(kind, "endurance") {
		list = append(list, "lights", "power bank", "chamois cream")
	}
	if m.race.Days > 1 {
		list = append(list, "fresh kit for each day", "chargers")
	}
	return list
}
