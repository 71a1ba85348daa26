package main

import (
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/discord/discordtest"
)

// What came with an answer is printed under it, with its words for those who do not see it.
func TestAttachmentsArePrinted(t *testing.T) {
	var out strings.Builder
	p := &play{out: &out}
	p.print("Ines", "Here.\nMore.", &discordtest.Message{Attachments: []discordtest.Attachment{
		{Filename: "plan.png", Size: 31395, Description: "Bars.\nMany."}, {Filename: "answer.txt", Size: 12},
	}}, true, 0)
	want := "== Ines alone sees:\n   Here.\n   More.\n   file plan.png (31395 bytes): Bars.\n   Many.\n   file answer.txt (12 bytes)\n"
	if out.String() != want {
		t.Errorf("printed\n%s\nwant\n%s", out.String(), want)
	}
}

// Each deed has its share of 100 and a command that there is; pictures and seasons are among them.
func TestDeeds(t *testing.T) {
	known, done, sum := map[string]bool{}, map[string]bool{}, 0
	for _, c := range bot.Commands() {
		known[c.Name] = true
	}
	for _, do := range deeds {
		if sum += do.share; !known[do.command] || do.share < 1 {
			t.Errorf("%s has a share of %d", do.command, do.share)
		}
		done[do.command] = true
	}
	if sum != 100 || !done["plan show"] || !done["plan options"] || !done["season check"] {
		t.Errorf("the shares add up to %d; %v", sum, done)
	}
}
