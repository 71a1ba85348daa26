package bottest

import (
	"slices"
	"unicode/utf8"

	"musette/bot/command"
	"musette/bot/desk"
)

// Offers are the values offered for an option, after a check of all that holds for any.
func (k *Talk) Offers(name, option, typed string) []string {
	k.T.Helper()
	var values []string
	for _, o := range k.Bot.Offer(k.T.Context(), k.Who, name, option, typed) {
		for _, text := range []string{o.Label, o.Value} {
			if n := utf8.RuneCountInString(text); n < 1 || n > desk.MaxOfferText {
				k.T.Errorf("/%s %s:%.40s offers a text of %d characters: %q", name, option, typed, n, text)
			}
		}
		if slices.Contains(values, o.Value) {
			k.T.Errorf("/%s %s:%.40s offers %q twice", name, option, typed, o.Value)
		}
		values = append(values, o.Value)
	}
	if len(values) > command.MaxOffers {
		k.T.Errorf("/%s %s:%.40s offers %d values", name, option, typed, len(values))
	}
	return values
}
