package command_test

import (
	"reflect"
	"testing"
)

// Values may stand one behind the other without the names of their options.
func TestValuesInARow(t *testing.T) {
	for line, want := range map[string]map[string]string{
		"/done 55 rpe 8": {"minutes": "55", "rpe": "8"}, "/done 1h 30 RPE 7,5 note legs came good": {"minutes": "1h 30", "rpe": "7,5", "note": "legs came good"},
		"/done 55 rpe 8 day:yesterday": {"minutes": "55", "rpe": "8", "day": "yesterday"}, "/done 55": {"minutes": "55"}, "/done 55 rpe": {"minutes": "55 rpe"},
		"/tell limit fri 30": {"day": "fri", "minutes": "30"}, "/tell limit 13 June 1h 30": {"day": "13 June", "minutes": "1h 30"}, "/tell limit next fri 45min": {"day": "next fri", "minutes": "45min"},
		"/tell away fri to mon": {"from": "fri", "to": "mon"}, "/tell away 4 June to 6 June kind travel": {"from": "4 June", "to": "6 June", "kind": "travel"},
		"/race add Hill Race 14/6 A": {"name": "Hill Race", "date": "14/6", "priority": "A"}, "/race add Hill Race next sat b hours:2": {"name": "Hill Race", "date": "next sat", "priority": "B", "hours": "2"},
		"/race add Race 2 on 14 June C": {"name": "Race 2", "date": "on 14 June", "priority": "C"}, "/race add 100 climbs 6/7 A race": {"name": "100 climbs", "date": "6/7", "priority": "A"},
		"/week change tue 1h": {"day": "tue", "session": "1h"}, "/week change sat 60 km": {"day": "sat", "session": "60 km"}, "/week change tue intervals 1h 5x3min": {"day": "tue", "session": "intervals 1h 5x3min"}, "/plan move tue next wed": {"from": "tue", "to": "next wed"},
		"/race priority Hill Loop B": {"race": "Hill Loop", "priority": "B"}, "/ride sat 13": {"day": "sat 13"}, "/week share mon 1h from tue 2h": {"week": "mon 1h from tue 2h"},
	} {
		req, err := read(line)
		if err != nil || !reflect.DeepEqual(req.Options, want) {
			t.Errorf("%s: %v, %v\nwant %v", line, req.Options, err, want)
		}
	}
	for _, line := range []string{"/tell limit fri", "/race add Hill Race", "/race add Hill Race A", "/tell limit fri soon", `/race add "Hill Race 14/6 A"`, "/tell block mon", "/week change tue"} {
		if req, err := read(line); err == nil {
			t.Errorf("%s is read as %v", line, req.Options)
		}
	}
}
