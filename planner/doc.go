// Package planner derives race tapers from what is known of a rider: typical
// weeks, races, settings and life events (Facts). Derive is a pure function of
// those facts and a date; it reads no clock, file or database.
//
// The road of one derivation, in files: derive.go lays out the calendar
// (calendar.go), season.go gives races their days and sizes the A windows,
// pattern.go and chain.go place hard days, minutes.go and round.go share out
// minutes, write.go turns them into sessions with reasons; half.go, through.go
// and after.go plan B races, C races and the days after; dayfacts.go, move.go
// and health.go lay single days over the plan; audit.go measures what came out
// and warns.
//
// What tapers buy and cost (docs/model.md): load.go counts load, gain.go says what
// a planned taper is expected to bring; lengths.go chooses lengths, over the season
// that seasonrun.go lays out for the optimum of response and that seasonreal.go plans days for;
// options.go compares other tapers for one race (compare.go plans and weighs them);
// seasoncheck.go weighs the whole season, seasontrial.go other choices for it, of
// which seasonadvice.go picks one.
//
// docs/rules.md has the rules in prose, one heading a rule id.
package planner
