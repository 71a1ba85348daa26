package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"musette/bot/discord"
	"musette/storage"
)

const (
	failedSince = 7 * 24 * time.Hour // how far back posts that failed are counted
	tickLate    = 5 * time.Minute    // musette serve looks each minute
	openLate    = time.Hour          // most are sent or settled in a minute
)

// checkPosts tells how reminders and digests fare, from the database alone.
func checkPosts(ctx context.Context, db *storage.DB) []discord.Finding {
	found := []discord.Finding{checkTick(ctx, db)}
	clubs, err := db.Clubs(ctx, "discord")
	if err != nil {
		return append(found, discord.Finding{State: discord.StateFix, What: "reminders", Text: err.Error()})
	}
	open, err := db.OpenPosts(ctx)
	if err != nil {
		return append(found, discord.Finding{State: discord.StateFix, What: "reminders", Text: err.Error()})
	}
	for _, club := range clubs {
		what := "club " + club.Name
		posts, err := db.ClubPosts(ctx, club.ID, db.Now().Add(-failedSince))
		if err != nil {
			return append(found, discord.Finding{State: discord.StateFix, What: what, Text: err.Error()})
		}
		late := slices.DeleteFunc(slices.Clone(open), func(p storage.Post) bool {
			return p.Club != club.ID || db.Now().Sub(p.Claimed) <= openLate
		})
		for _, text := range []string{failures("reminder", posts, storage.PostReminder), failures("digest", posts, storage.PostDigest), waiting(late)} {
			if text != "" {
				found = append(found, discord.Finding{State: discord.StateNote, What: what, Text: text})
			}
		}
		if club.Setup.DigestDay != "off" && club.Setup.Coaches == "" {
			found = append(found, discord.Finding{State: discord.StateNote, What: what,
				Text: fmt.Sprintf("a digest is wanted on %s and has no channel. Run /club setup coaches-channel:#coaches there, or digest-day:off", club.Setup.DigestDay)})
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
		found.Text = "none were looked for yet. musette serve does that each minute while it runs"
	case ago > tickLate:
		found.Text = fmt.Sprintf("last looked for on %s, %s ago. musette serve does not run, or cannot reach Discord", at.UTC().Format("2006-01-02 15:04 MST"), ago)
	case ago < -tickLate:
		found.Text = fmt.Sprintf("last looked for on %s, which is to come: a clock was wrong. musette serve goes on by the clock that it has", at.UTC().Format("2006-01-02 15:04 MST"))
	default:
		found.State, found.Text = discord.StateOK, fmt.Sprintf("last looked for %s ago", max(ago, 0))
	}
	return found
}

// failures counts the posts of a kind that did not arrive, with the reason of most.
func failures(name string, posts []storage.Post, kind storage.PostKind) string {
	failed := slices.DeleteFunc(slices.Clone(posts), func(p storage.Post) bool { return p.Kind != kind || p.State != storage.PostFailed })
	switch n := len(failed); n {
	case 0:
		return ""
	case 1:
		return "1 " + name + " failed in the last 7 days: " + mostly(failed)
	default:
		return fmt.Sprintf("%d %ss failed in the last 7 days, most often: %s", n, name, mostly(failed))
	}
}

// waiting counts posts that are long on their way.
func waiting(open []storage.Post) string {
	switch n := len(open); n {
	case 0:
		return ""
	case 1:
		return "1 message waits for more than an hour: " + mostly(open)
	default:
		return fmt.Sprintf("%d messages wait for more than an hour, most often: %s", n, mostly(open))
	}
}

// mostly is the reason that most posts have.
func mostly(posts []storage.Post) (most string) {
	reasons := map[string]int{}
	for _, p := range posts {
		reason := cmp.Or(p.Reason, "no reason is kept")
		if reasons[reason]++; most == "" || reasons[reason] > reasons[most] {
			most = reason
		}
	}
	return most
}
