package bot

import (
	_ "embed"
	"strings"
	"time"
	_ "time/tzdata" // zones work on machines without zone files, too

	"musette/planner/typed"
)

// zonesText are the zones of the IANA time zone database (public domain), a line each.
//
//go:embed zones.txt
var zonesText string

func zones() []string { return strings.Fields(zonesText) }

// FindZone spells an IANA zone that was typed in any case, or by its city alone.
func FindZone(text string) (string, error) {
	want := strings.ReplaceAll(text, " ", "_")
	var cities []string
	for _, z := range zones() {
		_, city, _ := strings.Cut(z, "/")
		switch {
		case strings.EqualFold(z, want):
			return z, nil
		case strings.EqualFold(city[strings.LastIndexByte(city, '/')+1:], want):
			return z, nil
		}
		cities = append(cities, z)
	}
	if _, err := time.LoadLocation(want); err == nil && want != "" && !strings.EqualFold(want, "local") {
		return want, nil
	}
	if near := typed.Nearest(want, cities); near != "" {
		return "", refuse("zone", "%s is not a time zone. Did you mean %s?", Shown(text), near)
	}
	return "", refuse("zone", "%s is not a time zone. For example Europe/Lisbon", Shown(text))
}
