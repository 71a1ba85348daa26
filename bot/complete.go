package bot

import (
	"context"
	"strings"

	"musette/planner"
	"musette/storage"
)

// maxOffers is how many values are offered at once.
const maxOffers = 25

// Offer lists values that fit what has been typed of an option: its choices,
// the rider's races, days or zones. Offers help; Handle checks every value anyway.
func (b *Bot) Offer(ctx context.Context, req Request, command, option, typed string) []string {
	cmd, err := b.command(command)
	if err != nil {
		return nil
	}
	o, ok := cmd.Option(option)
	if !ok {
		return nil
	}
	var all []string
	switch {
	case len(o.Choices) > 0:
		all = o.Choices
	case o.Complete == CompleteZone:
		all = zones()
	default:
		who, err := b.rider(ctx, req)
		if err != nil {
			return nil
		}
		if o.Complete == CompleteDay {
			all = dayOffers(who.today)
		}
		if o.Complete == CompleteRace {
			races, err := b.db.Races(ctx, who.athlete.ID) // none of a rider who is new
			if err != nil {
				return nil
			}
			all = raceOffers(toCome(races, who.today))
		}
	}
	return fitting(all, typed)
}

// fitting keeps the values that begin like the typed text, then those that hold it.
func fitting(all []string, typed string) []string {
	typed = strings.ToLower(typed)
	var begin, hold []string
	for _, v := range all {
		switch low := strings.ToLower(v); {
		case strings.HasPrefix(low, typed):
			begin = append(begin, v)
		case strings.Contains(low, typed):
			hold = append(hold, v)
		}
	}
	out := append(begin, hold...)
	return out[:min(len(out), maxOffers)]
}

// dayOffers are today, tomorrow, the weekdays and the dates of two weeks.
func dayOffers(today planner.Date) []string {
	out := []string{"today", "tomorrow"}
	for i := 2; i < 7; i++ {
		out = append(out, strings.ToLower(today.AddDays(i).Weekday().String()))
	}
	for i := range 14 {
		out = append(out, today.AddDays(i).String())
	}
	return out
}

// raceOffers are the names of races, with the date where a name comes twice.
func raceOffers(races []storage.Race) []string {
	times := map[string]int{}
	for _, r := range races {
		times[storage.Fold(r.Name)]++
	}
	out := make([]string, len(races))
	for i, r := range races {
		out[i] = r.Name
		if times[storage.Fold(r.Name)] > 1 {
			out[i] += " " + r.Date.String()
		}
	}
	return out
}
