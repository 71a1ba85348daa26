package bot_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// All fields that are wrong are said at once, in the order of the options, each in a
// line of its own with a right example. Riders need not mend them one by one.
func TestAllWrongFieldsAreSaidAtOnce(t *testing.T) {
	k := bottest.WithRaces(t)
	for line, fields := range map[string]string{
		`/race add name:"Lake Day" date:"35 June" priority:Z hours:abc`: "date priority hours",
		`/race add name:"Lake Day" date:2020-01-01 priority:Z`:          "date priority",
		`/race add`: "name date priority",
		`/race add name:"Lake Day" date:"9 August" days:99 end:soon`:                 "priority days end",
		`/race add name:"Lake Day" date:"9 August" priority:C repeat:daily start:99`: "start repeat",
		`/race change race:"Hill Loop" start:99 status:burnt days:x`:                 "start days status",
		`/race change race:"Hill Loop" date:2020-01-01 start:99 status:burnt`:        "date start status",
		`/race result race:"Hill Loop" feeling:70 day:someday`:                       "feeling day",
		`/done minutes:abc rpe:99 day:someday`:                                       "minutes rpe day",
		`/tell limit day:someday minutes:abc`:                                        "day minutes",
		`/week change day:someday session:"???" from:whenever`:                       "day session from",
		`/plan move from:someday to:whenever`:                                        "from to",
		`/me set zone:Nowhere taper:99 cut:3 remind:25:99 openers:D-9`:               "openers",
		`/me set zone:Nowhere taper:99 cut:3 remind:25:99`:                           "zone taper cut remind",
		`/tell limit`: "day minutes",
	} {
		want := strings.Fields(fields)
		reply := k.Refused(line, want...)
		for _, l := range strings.Split(reply.Text(), "\n") {
			if !strings.Contains(l, "For example ") && !strings.Contains(l, "Write ") {
				t.Errorf("%s: no example in %q", line, l)
			}
		}
	}
}

// One fault that can mean several days offers them as buttons. Beside another fault
// they would only be refused again.
func TestReadingsNeedNoOtherFault(t *testing.T) {
	k := bottest.WithRaces(t)
	if r := k.Refused(`/race add name:"Lake Day" date:08/09 priority:C`, "date"); len(r.Buttons) != 2 {
		t.Errorf("want both days as buttons, got %+v", r.Buttons)
	}
	if r := k.Refused(`/race add name:"Lake Day" date:08/09 priority:Z`, "date", "priority"); len(r.Buttons) != 0 {
		t.Errorf("buttons that would be refused: %+v", r.Buttons)
	}
}
