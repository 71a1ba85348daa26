package desk

import (
	_ "embed"
	"strings"
	"sync"
	"time"
	_ "time/tzdata"

	"musette/bot/say"
	"musette/planner/typed"
)

// zonesText are the zones of the IANA time zone database (public domain), a line each.
//
//go:embed zones.txt
var zonesText string

// Zones are the names of all time zones.
func Zones() []string { return strings.Fields(zonesText) }

// loaded are the zones that LoadZone has read: stored names are all of Zones.
var loaded sync.Map

// LoadZone is the zone of a stored name, read once.
func LoadZone(name string) (*time.Location, error) {
	if zone, ok := loaded.Load(name); ok {
		return zone.(*time.Location), nil
	}
	zone, err := time.LoadLocation(name)
	if err == nil {
		loaded.Store(name, zone)
	}
	return zone, err
}

// FindZone spells an IANA zone that was typed in any case, or by its city alone.
func FindZone(text string) (string, error) {
	want := strings.ReplaceAll(text, " ", "_")
	for _, z := range Zones() {
		_, city, _ := strings.Cut(z, "/")
		switch {
		case strings.EqualFold(z, want):
			return z, nil
		case strings.EqualFold(city[strings.LastIndexByte(city, '/')+1:], want):
			return z, nil
		}
	}
	if _, err := time.LoadLocation(want); err == nil && want != "" && !strings.EqualFold(want, "local") {
		return want, nil
	}
	if near := NearZone(text); near != "" {
		return "", say.Refuse("zone", "%s is not a time zone. Did you mean %s?", say.Shown(text), near)
	}
	return "", say.Refuse("zone", "%s is not a time zone. For example Europe/Lisbon", say.Shown(text))
}

// NearZone is the zone that a slip of the pen was to be, by its whole name or its
// city; "" where none is near.
func NearZone(text string) string {
	if strings.EqualFold(text, say.None) {
		return ""
	}
	want := strings.ToLower(strings.ReplaceAll(text, " ", "_"))
	zones := map[string]string{}
	var names, cities []string
	for _, z := range Zones() {
		low := strings.ToLower(z)
		city := low[strings.LastIndexByte(low, '/')+1:]
		if zones[low] = z; city != low && zones[city] == "" {
			zones[city] = z
		}
		names, cities = append(names, low), append(cities, city)
	}
	if near := typed.Nearest(want, names); near != "" {
		return zones[near]
	}
	return zones[typed.Nearest(want, cities)]
}
