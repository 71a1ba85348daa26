package engine

import (
	"musette/planner"
	"musette/planner/care"
)

type severity uint8

const (
	headCold severity = iota
	noTraining
	redFlag
)

// severities are what each level of care means for a plan.
var severities = map[care.Level]severity{
	care.Easy: headCold, care.Rest: noTraining, care.Talk: noTraining, care.Doctor: redFlag, care.Head: redFlag, care.Emergency: redFlag,
}

// levels are the levels that were told with an illness or a hold.
var levels = map[planner.Level]care.Level{
	planner.LevelEasy: care.Easy, planner.LevelRest: care.Rest, planner.LevelDoctor: care.Doctor, planner.LevelHead: care.Head, planner.LevelEmergency: care.Emergency,
}

// told is what the symptoms of an illness say.
type told struct {
	severity severity
	level    care.Level // the gravest
	head     bool       // one of them tells of a knock to the head
	known    bool       // each was understood
}

// gravity is the gravest reading of the symptoms. What is not understood is
// treated like fever: cautiously.
func gravity(symptoms []string) told {
	if len(symptoms) == 0 {
		return told{severity: noTraining}
	}
	out := told{known: true}
	for _, symptom := range symptoms {
		f := care.Symptom(symptom)
		s, ok := severities[f.Level]
		if !ok {
			s, out.known = noTraining, false
		}
		out.severity, out.level = max(out.severity, s), max(out.level, f.Level)
		out.head = out.head || f.Level == care.Head
	}
	return out
}
