package plannertest

import "time"

// day counts calendar days; day 0 is 1 January 1970, a Thursday.
type day int

const isoDate = "2006-01-02"

func parseDay(s string) (day, error) {
	t, err := time.Parse(isoDate, s)
	if err != nil {
		return 0, err
	}
	return day(t.Unix() / 86400), nil
}

func (d day) String() string {
	return time.Unix(int64(d)*86400, 0).UTC().Format(isoDate)
}

// weekday is 0 for Monday to 6 for Sunday.
func (d day) weekday() int {
	return ((int(d)+3)%7 + 7) % 7
}

var weekdays = [7]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
