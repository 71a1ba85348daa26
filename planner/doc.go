// Package planner is what is known of a rider: typical weeks, races, settings and
// what happens (Facts), each fact with the days on which it was told and taken
// back. It holds these types and what follows from them alone; its rooms plan.
//
//	typed     reads what people type: days, lengths, sessions, weeks
//	engine    derives a plan from facts and a date, by rules in their order
//	words     says in plain English what the engine has decided
//	season    says what tapers bring and cost, by the models of response
//	planfile  reads and writes plan files
//
// All of it is pure: no clock, no file, no database. docs/rules.md has the rules in
// prose, docs/model.md the models.
package planner
