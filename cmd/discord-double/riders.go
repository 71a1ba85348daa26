package main

import (
	"context"
	"errors"
	"math/rand/v2"
	"time"

	"musette/bot/discord/discordtest"
)

// followUp is what a rider does with an answer.
type followUp func(d *drill, at discordtest.At, a discordtest.Answer) (*discordtest.Interaction, error)

// press presses a button of the answer.
func press(label string) followUp {
	return func(d *drill, at discordtest.At, a discordtest.Answer) (*discordtest.Interaction, error) {
		return d.double.Press(at, a.Message, label)
	}
}

// sendForm sends the form of the answer as it came.
func sendForm(d *drill, at discordtest.At, a discordtest.Answer) (*discordtest.Interaction, error) {
	return d.double.SubmitForm(at, a.Modal, nil)
}

// deed is something that a rider does.
type deed struct {
	share   int // of 100
	command string
	options map[string]any
	focused string   // the option that is being typed, where offers are wanted
	then    followUp // nil: nothing
}

var deeds = []deed{
	{12, "ride", map[string]any{"day": "tomorrow"}, "", nil},
	{9, "ride", map[string]any{"day": "tomorrow"}, "", press("Why")},
	{9, "ride", map[string]any{"day": "tomorrow"}, "", press("Next day")},
	{14, "plan show", nil, "", nil},
	{3, "plan options", nil, "", nil},
	{3, "season check", nil, "", press("Show the numbers")},
	{10, "plan why", map[string]any{"day": "friday"}, "", nil},
	{10, "race list", nil, "", nil},
	{10, "plan show", map[string]any{"race": "hil"}, "race", nil},
	{5, "me set", map[string]any{"taper": "10"}, "", nil},
	{5, "tell limit", map[string]any{"day": "tomorrow", "minutes": "45"}, "", nil},
	{5, "week share", nil, "", sendForm},
	{5, "help", nil, "", nil},
}

// act lets a rider do something. then is nil where nothing follows the answer.
func (d *drill) act() (i *discordtest.Interaction, then func(discordtest.Answer) (*discordtest.Interaction, error), err error) {
	at := discordtest.At{Guild: d.club.ID, User: d.club.Members[rand.IntN(drillRiders)].UserID}
	n := rand.IntN(100)
	for _, do := range deeds {
		if n -= do.share; n >= 0 {
			continue
		}
		if do.focused != "" {
			i, err = d.double.Autocomplete(at, do.command, do.options, do.focused)
			return i, nil, err
		}
		if do.then != nil {
			then = func(a discordtest.Answer) (*discordtest.Interaction, error) { return do.then(d, at, a) }
		}
		i, err = d.double.Command(at, do.command, do.options)
		return i, then, err
	}
	return nil, nil, errors.New("the shares do not add up to 100")
}

// write lets a rider write a message, mentioning the bot in the server or as a
// direct message, and waits for the bot's direct message: the time that took.
func (d *drill) write(ctx context.Context, rider int, mention bool) (time.Duration, error) {
	at := discordtest.At{User: d.club.Members[rider].UserID}
	if mention {
		at.Guild = d.club.ID
	}
	channel := d.double.DM(at.User)
	before := len(d.double.Sent(channel))
	began := time.Now()
	if _, err := d.double.Say(at, "/ride day:tomorrow", mention); err != nil {
		return 0, err
	}
	_, err := d.double.WaitSent(ctx, channel, before+1)
	return time.Since(began), err
}
