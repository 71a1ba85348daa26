package bot

import (
	"slices"

	"musette/planner"
)

// maxWeekText is how long a typed week may be, in characters: as typed.Week has it.
const maxWeekText = 7*(planner.MaxText+6) + 100

// Tasks under which /help lists the commands, in this order.
const (
	taskRaces = "Races"
	taskWeek  = "Your usual week"
	taskPlan  = "Your plan"
	taskLife  = "When life happens"
	taskClub  = "Your club"
	taskCoach = "For coaches"
	taskMe    = "Settings and help"
)

var (
	choiceDays     = []string{"week", daysAll}
	choicePriority = []string{"A", "B", "C"}
	choiceEmphasis = []string{"important", "train-through"}
	choicePattern  = []string{"usual", "second", "third"}
	choiceOpeners  = []string{"D-1", "D-2"}
	choiceOnOff    = []string{"on", "off"}
	choiceAway     = []string{"off", "travel", "none"}
	choiceDigest   = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "off"}
	choiceRemindBy = []string{"direct", "thread", "ride"}
	choiceForget   = []string{"channel", "coaches-channel", "coach-role"}
	choiceHelp     = []string{"race", "week", "plan", "ride", "done", "tell", "season", "me", "coach", "club", "help"}
)

// Commands is the command table: terminal, completion, help and the generated
// reference are all made from it.
func Commands() []Command {
	return slices.Concat(raceCommands(), planCommands(), lifeCommands(), coachCommands(), clubCommands(), meCommands())
}

func raceCommands() []Command {
	needRace := raceOption()
	needRace.Required = true
	details := raceDetails()
	add := append([]Option(nil), details...)
	for i := range add[:3] {
		add[i].Required = true
	}
	priority := details[2]
	priority.Required = true
	return []Command{
		{Name: "race add", Task: taskRaces, run: (*Bot).raceAdd, Writes: true, Options: add,
			Description: "Register a race. The answer has your taper dates and conflicts",
			Example:     `race add name:"Hill Loop" date:"13 June" priority:A hours:3h30`},
		{Name: "race list", Task: taskRaces, run: (*Bot).raceList, Public: true,
			Description: "The club's race calendar",
			Example:     "race list"},
		{Name: "race change", Task: taskRaces, run: (*Bot).raceChange, Writes: true, Options: append([]Option{needRace}, clearable(details)...),
			Description: "Change the details of a race",
			Example:     `race change race:"Hill Loop" start:10:30`},
		{Name: "race priority", Task: taskRaces, run: (*Bot).racePriority, Writes: true, Options: []Option{needRace, priority},
			Description: "Make a race an A, B or C race",
			Example:     `race priority race:"Hill Loop" priority:B`},
		{Name: "race remove", Task: taskRaces, run: (*Bot).raceRemove, Writes: true, Options: []Option{needRace},
			Description: "Take a race out of the calendar",
			Example:     `race remove race:"Hill Loop"`},
		{Name: "race result", Task: taskRaces, run: (*Bot).raceResult, Writes: true, Options: []Option{raceOverOption(),
			{Name: "feeling", Type: "number", Required: true, Example: "8",
				Description: "How your legs were: 1 (empty) to 10 (never better). none deletes the entry"},
			{Name: "result", Type: "text", Example: "12th", Description: "Placing or time, as you like to write it"},
			noteOption("windy, good legs at the end")},
			Description: "How a race went: your legs, and the result if you like",
			Example:     `race result race:"Hill Loop" feeling:8 result:12th`},
	}
}

func planCommands() []Command {
	return []Command{
		{Name: "week share", Task: taskWeek, run: (*Bot).weekShare, Writes: true, Form: "week", Options: []Option{
			{Name: "week", Type: typeWeek, Required: true, MaxLen: maxWeekText,
				Description: "Your typical week, days separated by semicolons. Days left out are rest, busy days are never ridden",
				Example:     exampleWeek},
			{Name: "from", Type: "day", Complete: CompleteDay, Example: "1 June",
				Description: "The first day of this week. Leave out for today"}},
			Description: "Share your typical week, from which every plan is made",
			Example:     `week share week:"` + exampleWeek + `"`},
		{Name: "week show", Task: taskWeek, run: (*Bot).weekShow,
			Description: "Show the typical week that your plans are made from",
			Example:     "week show"},
		{Name: "plan show", Task: taskPlan, run: (*Bot).planShow, Options: []Option{raceOption(),
			{Name: "days", Type: "choice", Choices: choiceDays, Example: daysAll,
				Description: "week is the first seven days, all is the whole plan with its reasons"}},
			Description: "Your schedule up to a race and the days after it",
			Example:     `plan show race:"Hill Loop"`},
		{Name: "plan why", Task: taskPlan, run: (*Bot).planWhy, Options: []Option{anyDayOption()},
			Description: "Why a day is planned the way it is, with sources",
			Example:     "plan why day:friday"},
		{Name: "plan move", Task: taskPlan, run: (*Bot).planMove, Writes: true, Options: []Option{
			{Name: "from", Type: "day", Required: true, Complete: CompleteDay, Example: "tuesday",
				Description: "The day whose session you want to ride on another day"},
			{Name: "to", Type: "day", Required: true, Complete: CompleteDay, Example: "wednesday",
				Description: "The day that it swaps with"}},
			Description: "Swap two planned days, if the rules allow it",
			Example:     "plan move from:tuesday to:wednesday"},
		{Name: "plan options", Task: taskPlan, run: (*Bot).planOptions, Options: []Option{raceOption()},
			Description: "Taper lengths and cuts compared: what each brings and costs, with a picture",
			Example:     `plan options race:"Hill Loop"`},
		{Name: "season check", Task: taskPlan, run: (*Bot).seasonCheck,
			Description: "What your tapers cost over the season, races too close together, a better choice",
			Example:     "season check"},
		{Name: "season apply", Task: taskPlan, run: (*Bot).seasonApply, Writes: true, Options: seasonOptions(),
			Description: "Make A races B races or back, and set the taper length, all at once",
			Example:     `season apply make-b:"Hill Loop 2026-06-14" taper:auto`},
		{Name: "ride", Task: taskPlan, run: (*Bot).ride, Options: []Option{anyDayOption()},
			Description: "What to ride today or on another day, or what was ridden",
			Example:     "ride day:tomorrow"},
	}
}

func lifeCommands() []Command {
	return []Command{
		{Name: "done", Task: taskLife, run: (*Bot).done, Writes: true, Options: []Option{
			{Name: "minutes", Type: "minutes", Example: "55",
				Description: "Minutes, e.g. 55 or 1h30. Leave out if you rode as planned. none deletes the entry"},
			{Name: "rpe", Type: "rating", Example: "7.5",
				Description: "How hard it was as a whole: 1 (very easy) to 10 (all that you have), halves too"},
			dayOverOption(), noteOption("legs came good late")},
			Description: "You rode: how long, and how hard it felt",
			Example:     "done minutes:55 rpe:8 day:yesterday"},
		{Name: "tell missed", Task: taskLife, run: (*Bot).tellMissed, Writes: true, Options: []Option{
			dayOverOption(), noteOption("stuck at work")},
			Description: "You did not ride on a day, and what to do about it",
			Example:     "tell missed day:yesterday"},
		{Name: "tell away", Task: taskLife, run: (*Bot).tellAway, Writes: true, Options: []Option{
			{Name: "from", Type: "day", Required: true, Complete: CompleteDay, Example: "4 June",
				Description: "The first day away"},
			{Name: "to", Type: "day", Complete: CompleteDay, Example: "6 June",
				Description: "The last day away. Leave out for a single day"},
			{Name: "kind", Type: "choice", Choices: choiceAway, Example: "travel",
				Description: "off (no training), travel (no ride unless you give a day minutes), none (not away after all)"}},
			Description: "You are away: off or travelling",
			Example:     "tell away from:\"4 June\" to:\"6 June\" kind:travel"},
		{Name: "tell limit", Task: taskLife, run: (*Bot).tellLimit, Writes: true, Options: []Option{dayOption(),
			{Name: "minutes", Type: "minutes", Required: true, Example: "45",
				Description: "The most that fits that day: 45, 1h30. 0 is a day off, none lifts the limit"}},
			Description: "A day on which time is short",
			Example:     "tell limit day:friday minutes:45"},
		{Name: "tell block", Task: taskLife, run: (*Bot).tellBlock, Writes: true, Options: []Option{
			{Name: "from", Type: "day", Required: true, Complete: CompleteDay, Example: "18 May",
				Description: "The first day of the block"},
			{Name: "to", Type: "day", Required: true, Complete: CompleteDay, Example: "31 May",
				Description: "The last day of the block"},
			{Name: "percent", Type: "number", Example: "20",
				Description: "Per cent more than usual, 1 to 100. Leave out for 20, none takes the block back"}},
			Description: "A training block with more minutes than usual",
			Example:     "tell block from:\"18 May\" to:\"31 May\" percent:20"},
	}
}

func meCommands() []Command {
	return []Command{
		{Name: "me show", Task: taskMe, run: (*Bot).meShow,
			Description: "Your settings and what you entered",
			Example:     "me show"},
		{Name: "me set", Task: taskMe, run: (*Bot).meSet, Writes: true, Options: settings(),
			Description: "Change your settings",
			Example:     "me set zone:Europe/Lisbon taper:10"},
		{Name: "help", Task: taskMe, run: (*Bot).help, Options: []Option{
			{Name: "topic", Type: "text", Choices: choiceHelp, Example: "race",
				Description: "A group of commands"}},
			Description: "What this bot can do",
			Example:     "help topic:race"},
	}
}

// seasonOptions are those of /season apply.
func seasonOptions() []Option {
	return []Option{
		{Name: optionMakeB, Type: "races", Complete: CompleteRaces, MaxLen: maxRacesText, Example: "Hill Loop 2026-06-14; Quarry Crit",
			Description: "A races that become B races, separated by semicolons: name, or name and date"},
		{Name: optionBackToA, Type: "races", Complete: CompleteRaces, MaxLen: maxRacesText, Example: "Hill Loop 2026-06-14",
			Description: "B races to make A races again, separated by semicolons. They keep their first day of entry"},
		{Name: optionTaper, Type: "number", Example: "10",
			Description: "Days of a taper for A races, 4 to 28, or auto"},
	}
}

func raceOption() Option {
	return Option{Name: "race", Type: "race", Description: "Which race: its name, part of it, or its date",
		Complete: CompleteRace, MaxLen: planner.MaxText + len(" 2006-01-02"), Example: "Hill Loop"}
}

// raceOverOption is a race that has begun.
func raceOverOption() Option {
	o := raceOption()
	o.Complete, o.Required = CompleteRaceOver, true
	return o
}

// exampleWeek is a right typical week, for hints.
const exampleWeek = "mon recovery 40min; tue intervals 1h30 5x3min; thu off; sat long 3h"

// raceDetails are the options that describe a race, none of them required.
func raceDetails() []Option {
	return []Option{
		{Name: "name", Type: "text", Example: "Hill Loop", Description: "The race's name"},
		{Name: "date", Type: "day", Complete: CompleteDay, Example: "13 June",
			Description: "Race day, or the first day of a stage race: 2026-06-13, 13 June"},
		{Name: "priority", Type: "choice", Choices: choicePriority, Example: "A",
			Description: "A: taper for it, B: a few easier days, C: ridden as training"},
		{Name: "hours", Type: "hours", Example: "3h30",
			Description: "How long it takes you, per day: 3.5, 3h30, 210min. Over a day: 30h"},
		{Name: "kind", Type: "text", Example: "road race",
			Description: "Road race, criterium, time trial, gravel, stage race, endurance..."},
		{Name: "start", Type: "time", Example: "10:30", Description: "Start time, 24 hours: 10:30"},
		{Name: "days", Type: "number", Example: "3", Description: "Race days of a stage race, 1 to 28"},
		{Name: "emphasis", Type: "choice", Choices: choiceEmphasis, Example: "important",
			Description: "For a B race: important eases more days before it, train-through fewer"},
		{Name: "place", Type: "text", Example: "Market Square", Description: "Where it starts"},
		{Name: optionTaper, Type: "number", Example: "10",
			Description: "Days of the taper for this race, 4 to 28, or auto"},
	}
}

// clearable says of the details that can be left out how to forget them.
func clearable(details []Option) []Option {
	out := slices.Clone(details)
	for i := range out {
		switch o := &out[i]; o.Name {
		case "hours", "kind", "start", "place":
			o.Description += ". none deletes it"
		case "days":
			o.Description += ". none means one day"
		case "emphasis":
			o.Choices = append(slices.Clone(o.Choices), none)
			o.Description = "For a B race: important eases more days before it, train-through fewer. none: as usual for a B race"
		}
	}
	return out
}

// dayOption is a day to come.
func dayOption() Option {
	return Option{Name: "day", Type: "day", Required: true, Complete: CompleteDay, Example: "tomorrow",
		Description: "Which day: today, tomorrow, friday, 13 June, 2026-06-13"}
}

// anyDayOption is a day to come or one that is over, today where it is left out.
func anyDayOption() Option {
	o := dayOption()
	o.Required, o.Description = false, "Which day: today, tomorrow, friday, 13 June, yesterday, 2026-06-13"
	return o
}

// dayOverOption is today or a day before it.
func dayOverOption() Option {
	return Option{Name: "day", Type: "day", Complete: CompleteDayOver, Example: "yesterday",
		Description: "Which day: today where left out, yesterday, monday, 30 May, 2026-05-30"}
}

func noteOption(example string) Option {
	return Option{Name: "note", Type: "text", Example: example, Description: "Anything that you want to remember"}
}

// settings are the options of /me set, shared with the reply of /me show.
func settings() []Option {
	return []Option{
		{Name: "zone", Type: "zone", Complete: CompleteZone, Example: "Europe/Lisbon",
			Description: "Your time zone, by city: Europe/Lisbon"},
		{Name: "taper", Type: "number", Example: "10",
			Description: "Days of a taper for A races, 4 to 28, or auto"},
		{Name: "cut", Type: "number", Example: "50",
			Description: "How much of your usual time a taper takes off, 20 to 80 per cent, or auto: by your weekly hours"},
		{Name: "pattern", Type: "choice", Choices: choicePattern, Example: "usual",
			Description: "Hard days of a taper: those of your usual week, every second day, or every third"},
		{Name: "openers", Type: "choice", Choices: choiceOpeners, Example: "D-1",
			Description: "Openers on the eve (D-1) or two days before (D-2) with rest on the eve"},
		{Name: "announce", Type: "choice", Choices: choiceOnOff, Example: "on",
			Description: "Tell the club's channel when you add a race"},
		{Name: "remind", Type: "time", Example: "06:30",
			Description: "Daily reminders near races: 06:30, changed 06:30, always 06:30 (every day) or off"},
		{Name: "remind-by", Type: "choice", Choices: choiceRemindBy, Example: "direct",
			Description: "Reminders as a direct message, in a private thread of the club, or only when you ask /ride"},
		{Name: "pause", Type: "days", Example: "3",
			Description: "Days without reminders, 1 to 60. 0 ends a pause"},
	}
}
