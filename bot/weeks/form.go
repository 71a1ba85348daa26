package weeks

import (
	"context"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/planner"
	"musette/planner/typed"
)

// Form is the form of /week share: a line for each day, filled
// with what the request gives, else with the week that is known, else with a
// week to write over.
func Form(ctx context.Context, b *desk.Base, req desk.Request) (command.Form, error) {
	who, err := b.Rider(ctx, req)
	if err != nil {
		return command.Form{}, err
	}
	form := command.Form{Option: "week", Title: "Your typical week", Label: "Write your own week over these lines",
		Hint: "For each day the ride and its length, for hard rides the hard parts too: intervals 1h30 5x3min", MaxLen: command.MaxWeekText}
	if form.Text = req.Options["week"]; form.Text != "" {
		return form, nil
	}
	weeks, err := b.DB.Weeks(ctx, who.Athlete.ID)
	if err != nil {
		return command.Form{}, err
	}
	week := desk.ExampleWeek
	for i, w := range weeks {
		if w.From <= who.Today || i == 0 {
			week = w.Week.String()
		}
	}
	parsed, err := typed.Week(week)
	if err != nil {
		return command.Form{}, err
	}
	var lines []string
	for i, day := range parsed {
		lines = append(lines, strings.ToLower(planner.Weekday(i).Short())+" "+day.String())
	}
	form.Text = strings.Join(lines, "\n")
	return form, nil
}
