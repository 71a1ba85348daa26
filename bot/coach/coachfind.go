package coach

import (
	"context"
	"fmt"
	"regexp"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// numbered is a name that ends like one that tellApart makes.
var numbered = regexp.MustCompile(`#\d+$`)

// tellApart gives each rider of a club a name of their own, short enough for a
// button: the rider's, with the number in the database where another has it too
// or it could be taken for such a one.
func tellApart(athletes []storage.Athlete) map[storage.AthleteID]string {
	shared := map[string]int{}
	for _, a := range athletes {
		shared[storage.Fold(a.Name)]++
	}
	names := make(map[storage.AthleteID]string, len(athletes))
	for _, a := range athletes {
		name := show.CutTo(a.Name, show.MostName)
		if name != a.Name || shared[storage.Fold(a.Name)] > 1 || numbered.MatchString(name) {
			name = fmt.Sprintf("%s #%d", name, a.ID)
		}
		names[a.ID] = name
	}
	return names
}

// findAthlete finds the riders that a text can mean: by the name of their own,
// their name, its words, the beginnings of its words, or a name that is close.
func findAthlete(athletes []storage.Athlete, text string) []storage.Athlete {
	names := tellApart(athletes)
	want := desk.WordsOf(text)
	var levels [4][]storage.Athlete
	for _, a := range athletes {
		have := desk.WordsOf(a.Name)
		switch {
		case show.SameName(names[a.ID], text):
			return []storage.Athlete{a}
		case show.SameName(a.Name, text):
			levels[0] = append(levels[0], a)
		case len(want) == 0:
		case strings.Join(have, " ") == strings.Join(want, " "):
			levels[1] = append(levels[1], a)
		case desk.EachBegins(want, have):
			levels[2] = append(levels[2], a)
		case command.Each(want, have, command.Near):
			levels[3] = append(levels[3], a)
		}
	}
	for _, found := range levels {
		if len(found) > 0 {
			return found
		}
	}
	return closeNames(athletes, text)
}

// closeNames are the riders with the name that a slip of the pen is nearest to,
// as a whole or one of its words.
func closeNames(athletes []storage.Athlete, text string) []storage.Athlete {
	low := strings.Join(desk.WordsOf(text), " ")
	var all []string
	for _, a := range athletes {
		have := desk.WordsOf(a.Name)
		all = append(append(all, strings.Join(have, " ")), have...)
	}
	nearest := typed.Nearest(low, all)
	if nearest == "" {
		return nil
	}
	var out []storage.Athlete
	for _, a := range athletes {
		have := desk.WordsOf(a.Name)
		for _, n := range append(have, strings.Join(have, " ")) {
			if n == nearest {
				out = append(out, a)
				break
			}
		}
	}
	return out
}

// athleteOf reads the option athlete: exactly one rider of the club.
func athleteOf(ctx context.Context, b *desk.Base, req desk.Request) (storage.Athlete, error) {
	athletes, err := b.DB.Athletes(ctx, req.Rider.Club.ID)
	if err != nil {
		return storage.Athlete{}, err
	}
	if len(athletes) == 0 {
		return storage.Athlete{}, say.Refuse("athlete", "the club has no rider yet. They are here once they share a week: /week share")
	}
	text := req.Get("athlete")
	switch found := findAthlete(athletes, text); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return storage.Athlete{}, say.Refuse("athlete", "no rider of the club is called %s. Who is new is here after one command that stores something, such as /me set remind:06:30. Riders: %s", say.Shown(text), athleteList(ctx, b, athletes, athletes, req.Rider.Today))
	default:
		return storage.Athlete{}, say.Refuse("athlete", "%s can be %s. For example athlete:%s", say.Shown(text),
			athleteList(ctx, b, athletes, found, req.Rider.Today), say.Quote(tellApart(athletes)[found[0].ID]))
	}
}

// athleteList names up to five riders; those with a number also by their next
// race, or the day on which they came.
func athleteList(ctx context.Context, b *desk.Base, all, some []storage.Athlete, today planner.Date) string {
	const most = 5
	names := tellApart(all)
	var parts []string
	for i, a := range some {
		if i == most {
			parts = append(parts, fmt.Sprintf("%d more", len(some)-most))
			break
		}
		name := names[a.ID]
		if numbered.MatchString(name) {
			name += " (" + knownBy(ctx, b, &a, today) + ")"
		}
		parts = append(parts, name)
	}
	return say.OrList(parts)
}

// knownBy tells a rider from another of the same name.
func knownBy(ctx context.Context, b *desk.Base, a *storage.Athlete, today planner.Date) string {
	races, err := b.DB.Races(ctx, a.ID)
	if ahead := desk.ToCome(races, today); err == nil && len(ahead) > 0 {
		return "races " + show.RaceName(&ahead[0].Race) + " on " + show.Dated(ahead[0].Date, today)
	}
	return "no race, here since " + show.Dated(planner.DateOf(a.Added), today)
}

// RiderOffers are the riders of a club for coaches, who may read them.
func RiderOffers(ctx context.Context, b *desk.Base, who *desk.Rider, typed string) []command.Offer {
	athletes, err := b.DB.Athletes(ctx, who.Club.ID)
	if err != nil {
		return nil
	}
	names := tellApart(athletes)
	all := make([]command.Offer, len(athletes))
	for i, a := range athletes {
		all[i] = command.Offer{Label: names[a.ID], Value: names[a.ID]}
	}
	out := command.Fitting(all, typed)
	for i := range out {
		for _, a := range athletes {
			if names[a.ID] == out[i].Value && numbered.MatchString(out[i].Value) {
				out[i].Label = say.Clip16(out[i].Label+", "+knownBy(ctx, b, &a, who.Today), desk.MaxOfferText)
			}
		}
	}
	return out
}
