package main

import (
	"cmp"
	"context"
	"fmt"
	"time"

	"musette/bot/discord"
	"musette/storage"
)

const (
	failedSince = 7 * 24 * time.Hour // how far back failed reminders are counted
	tickLate    = 5 * time.Minute    // musette serve looks each minute
)

// checkPosts tells how reminders and digests fare, from the database alone.
func checkPosts(ctx context.Context, db *storage.DB) []discord.Finding {
	found := []discord.Finding{checkTick(ctx, db)}
	clubs, err := db.Clubs(ctx, "discord")
	if err != nil {
		return append(found, discord.Finding{State: discord.StateFix, What: "reminders", Text: err.Error()})
	}
	for _, club := range clubs {
		what := "club " + club.Name
		posts, err := db.ClubPosts(ctx, club.ID, db.Now().Add(-failedSince))
		if err != nil {
			return append(found, discord.Finding{State: discord.StateFix, What: what, Text: err.Error()})
		}
		if text := failures(posts); text != "" {
			found = append(found, discord.Finding{State: discord.StateNote, What: what, Text: text})
		}
		if club.Setup.DigestDay != "off" && club.Setup.Coaches == "" {
			found = append(found, discord.Finding{State: discord.StateNote, What: what,
				Text: fmt.Sprintf("a digest is wanted on %s and has no channel; run /club setup coaches-channel:#coaches there, or digest-day:off", club.Setup.DigestDay)})
		}
	}
	return found
}

// checkTick tells when musette serve looked last for what is owed.
func checkTick(ctx context.Context, db *storage.DB) discord.Finding {
	found := discord.Finding{State: discord.StateNote, What: "reminders"}
	at, err := db.LastTick(ctx)
	ago := db.Now().Sub(at).Round(time.Second)
	switch {
	case err != nil:
		found.State, found.Text = discord.StateFix, err.Error()
	case at.IsZero():
		found.Text = "none were looked for yet; musette serve does that each minute while it runs"
	case ago > tickLate:
		found.Text = fmt.Sprintf("last looked for on %s, %s ago; musette serve does not run, or cannot reach Discord", at.UTC().Format("2006-01-02 15:04 MST"), ago)
	case ago < -tickLate:
		found.Text = fmt.Sprintf("last looked for on %s, which is to come: a clock was wrong; musette serve goes on by the clock that it has", at.UTC().Format("2006-01-02 15:04 MST"))
	default:
		found.State, found.Text = discord.StateOK, fmt.Sprintf("last looked for %s ago", max(ago, 0))
	}
	return found
}

// failures counts the reminders that did not arrive, with the reason of most.
func failures(posts []storage.Post) string {
	n, most, reasons := 0, "", map[string]int{}
	for _, p := range posts {
		if p.Kind != storage.PostReminder || p.State != storage.PostFailed {
			continue
		}
		n++
		if reasons[p.Reason]++; most == "" || reasons[p.Reason] > reasons[most] {
			most = p.Reason
		}
	}
	switch {
	case n == 0:
		return ""
	case n == 1:
		return "1 reminder failed in the last 7 days: " + cmp.Or(most, "no reason is kept")
	}
	return fmt.Sprintf("%d reminders failed in the last 7 days, most often: %s", n, cmp.Or(most, "no reason is kept"))
}
