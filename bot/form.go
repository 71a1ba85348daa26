package bot

import (
	"context"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// Form is a text that a person writes or mends instead of typing an option.
type Form struct {
	Option             string // that the text answers
	Title, Label, Hint string
	Text               string // what stands there already
	MaxLen             int    // characters
}

// formOf is the form of /week share: a line for each day, filled
// with what the request gives, else with the week that is known, else with a
// week to write over.
func (b *Base) formOf(ctx context.Context, req Request) (Form, error) {
	who, err := b.rider(ctx, req)
	if err != nil {
		return Form{}, err
	}
	form := Form{Option: "week", Title: "Your typical week", Label: "One line for each day",
		Hint: "Kind, length, and sets of a hard ride: intervals 1h30 5x3min", MaxLen: maxWeekText}
	if form.Text = req.Options["week"]; form.Text != "" {
		return form, nil
	}
	weeks, err := b.db.Weeks(ctx, who.athlete.ID)
	if err != nil {
		return Form{}, err
	}
	week := exampleWeek
	for i, w := range weeks {
		if w.From <= who.today || i == 0 {
			week = w.Week.String()
		}
	}
	parsed, err := typed.Week(week)
	if err != nil {
		return Form{}, err
	}
	var lines []string
	for i, day := range parsed {
		lines = append(lines, strings.ToLower(planner.Weekday(i).Short())+" "+day.String())
	}
	form.Text = strings.Join(lines, "\n")
	return form, nil
}
