package bot

// planCommands are the rows about plans and seasons.
func planCommands() []Command {
	return []Command{
		{Name: "plan show", Task: taskPlan, run: (*Base).planShow, Options: []Option{raceOption(),
			{Name: "days", Type: "choice", Choices: choiceDays, Example: daysAll,
				Description: "week is the first seven days, all is the whole plan with its reasons"}},
			Description: "Your schedule up to a race and the days after it",
			Example:     `plan show race:"Hill Loop"`},
		{Name: "plan why", Task: taskPlan, run: (*Base).planWhy, Options: []Option{anyDayOption()},
			Description: "Why a day is planned the way it is, with sources",
			Example:     "plan why day:friday"},
		{Name: "plan move", Task: taskPlan, run: (*Base).planMove, Writes: true, Options: []Option{
			{Name: "from", Type: "day", Required: true, Complete: CompleteDay, Example: "tuesday",
				Description: "The day whose session you want to ride on another day"},
			{Name: "to", Type: "day", Required: true, Complete: CompleteDay, Example: "wednesday",
				Description: "The day that it swaps with"}},
			Description: "Swap two planned days, if the rules allow it",
			Example:     "plan move from:tuesday to:wednesday"},
		{Name: "plan options", Task: taskPlan, run: (*Base).planOptions, Options: []Option{raceOption()},
			Description: "Taper lengths and cuts compared: what each brings and costs, with a picture",
			Example:     `plan options race:"Hill Loop"`},
		{Name: "season check", Task: taskPlan, run: (*Base).seasonCheck,
			Description: "What your tapers cost over the season, races too close together, a better choice",
			Example:     "season check"},
		{Name: "season apply", Task: taskPlan, run: (*Base).seasonApply, Writes: true, Options: seasonOptions(),
			Description: "Make A races B races or back, and set the taper length, all at once",
			Example:     `season apply make-b:"Hill Loop 2026-06-14" taper:auto`},
		{Name: "ride", Task: taskPlan, run: (*Base).ride, Options: []Option{anyDayOption()},
			Description: "What to ride today or on another day, or what was ridden",
			Example:     "ride day:tomorrow"},
	}
}

var choiceDays = []string{"week", daysAll}

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
