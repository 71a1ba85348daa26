package desk

// OptionTaper sets the length of tapers, which autoTaper leaves to the planner.
const (
	OptionTaper = "taper"
	AutoTaper   = "auto"
)
