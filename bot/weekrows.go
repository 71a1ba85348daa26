package bot

// weekCommands are the rows about the usual week.
func weekCommands() []Command {
	return []Command{
		{Name: "week share", Task: taskWeek, run: (*Base).weekShare, Writes: true, Form: "week", Options: []Option{
			{Name: "week", Type: typeWeek, Required: true, MaxLen: maxWeekText,
				Description: "Your typical week, days separated by semicolons. Days left out are rest, busy days are never ridden",
				Example:     exampleWeek},
			{Name: "from", Type: "day", Complete: CompleteDay, Example: "1 June",
				Description: "The first day of this week. Leave out for today"}},
			Description: "Share your typical week, from which every plan is made",
			Example:     `week share week:"` + exampleWeek + `"`},
		{Name: "week show", Task: taskWeek, run: (*Base).weekShow,
			Description: "Show the typical week that your plans are made from",
			Example:     "week show"},
	}
}
