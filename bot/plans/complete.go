package plans

import (
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
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
		if command.Utf16Len(whole.Label) <= desk.MaxOfferText && command.Utf16Len(whole.Value) <= desk.MaxOfferText {
			out = append(out, whole)
		}
	}
	return out
}
