package asked_test

import (
	"slices"
	"testing"

	"musette/planner/asked"
)

// Several things in one message are all read, in their order; what leans on them is none.
func TestSeveralParts(t *testing.T) {
	k := hands(t, "hand-9.tsv")[0].known
	for text, want := range map[string][]asked.Topic{
		"When is my next race, how long is the taper and what do I ride tomorrow?":          {asked.NextRace, asked.TaperLength, asked.Ride},
		"my legs are dead and I can't ride friday":                                          {asked.FlatLegs, asked.Away},
		"when does the taper for hill loop start and how many days does it last":            {asked.TaperStart, asked.TaperLength},
		"I missed Tuesday. What do I ride today? And how do I sleep better?":                {asked.Missed, asked.Ride, asked.Sleep},
		"when does my taper start":                                                          {asked.TaperStart},
		"Signed up for Moor Top Classic on 28 June, B. Is it too near everything else?":     {asked.AddRace, asked.Season},
		"What am I to ride on Tuesday, and at what effort should it be done?":               {asked.Ride, asked.HowHard},
		"are my races too close together":                                                   {asked.Season},
		"what do I ride on Tuesday":                                                         {asked.Ride},
		"coach ines":                                                                        {asked.Rider},
		"when is next race and from when I taper for it":                                    {asked.NextRace, asked.TaperStart},
		"yesterday 75 min easy done, thank you for the plan":                                {asked.TellRide, asked.Thanks},
		"Can you list all my races and put them in my calendar too please":                  {asked.Races, asked.Calendar},
		"I enter Slate Road Race 28.06 as B. Not too much after Hill Loop?":                 {asked.AddRace, asked.Season},
		"evening before hill loop: what do I eat and what time do I go to bed":              {asked.Food, asked.Sleep},
		"is the climb an a or b race":                                                       {asked.Races},
		"wots tmrw an how many hrs left this wk":                                            {asked.Ride, asked.Hours},
		"Hill Loop taper: start, length?":                                                   {asked.TaperStart, asked.TaperLength},
		"got the sniffles so skipping today, thx for the plan tho":                          {asked.Sick, asked.Thanks},
		"sore knee since sunday, can i take ibuprofen for it":                               {asked.Injury, asked.Medicine},
		"can't ride friday so redo the week for me":                                         {asked.Away, asked.Plan},
		"Racing Fen Edge Ten on 21 June (A). Week: Tue 1h intervals, Thu 1h, Sun 3h long.":  {asked.AddRace, asked.Week},
		"how much time on the bike next week, and can I do most of it on Saturday?":         {asked.Hours, asked.MayI},
		"how many hours this week and please give me each day":                              {asked.Hours, asked.Plan},
		"Priya Saturday? And who is tapering besides her?":                                  {asked.Rider, asked.WhoTapers},
		"after the crit do I rest, and when do I go back to the weights":                    {asked.AfterRace, asked.Strength},
		"missed tuesday's intervals, can i go to the spinning class instead":                {asked.Missed, asked.MayI},
		"I have a little cold. May I all the same ride with the club on Sunday?":            {asked.Sick, asked.MayI},
		"my knee hurts since sunday and can I take ibuprofen?":                              {asked.Injury, asked.Medicine},
		"new race: Moor Top Classic, 28 June. Should I make it a B or a C?":                 {asked.AddRace, asked.Season},
		"when do I get up on the morning of Hill Loop, and what if I have not slept?":       {asked.RaceMorning, asked.Sleep},
		"thanks for that. And tomorrow, what do I ride?":                                    {asked.Thanks, asked.Ride},
		"how many hours next week, and put them in my calendar":                             {asked.Hours, asked.Calendar},
		"which letter did we give Hill Loop":                                                {asked.Races, asked.Season},
		"is Hill Loop an A or a B, it slipped my mind":                                      {asked.Races, asked.Season},
		"tuesday fell through, the boiler burst. could I do it on saturday instead":         {asked.Missed, asked.MayI},
		"missed tuesday, trains were off, so whats on tomorrow":                             {asked.Missed, asked.Ride},
		"whats saturdays ride and what shud i have for breakfast before":                    {asked.Ride, asked.Food},
		"I am away from 15 to 17 June. Arrange the rest of that week round it.":             {asked.Away, asked.Plan},
		"is it only Ines who is tapering for Hill Loop or all of them":                      {asked.WhoTapers, asked.Rider},
		"the friends ride on Sunday, forty miles. May I go, and what do I eat on the way?":  {asked.MayI, asked.Food},
		"what's on fri and sat and how hard should it be":                                   {asked.Ride, asked.HowHard},
		"no bike on tuesday the 16th, what does the rest of that week look like":            {asked.Away, asked.Plan},
		"if I sleep badly before the crit, should I still do the full warm up":              {asked.Sleep, asked.RaceMorning},
		"missed yesterday sorry, and what's tomorrow":                                       {asked.Missed, asked.Ride},
		"How do I warm up on the morning of Hill Loop, and what do I eat the night before?": {asked.RaceMorning, asked.Food},
	} {
		var have []asked.Topic
		for _, p := range asked.Read(text, k).Parts {
			have = append(have, p.Topic)
		}
		if !slices.Equal(have, want) {
			t.Errorf("%s: %v, want %v", text, have, want)
		}
	}
}
