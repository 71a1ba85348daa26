package discord

import (
	"context"
	"errors"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// How many riders are looked up before a list and before a digest, and how long
// that may take; the others wait for the next one, or for the daily look-up.
const (
	lookList   = 20
	lookDigest = 200
	digestTime = 30 * time.Second
	lookAtOnce = 4
	lookRested = 30 * time.Second       // after one that failed, before answers wait for others
	lookPause  = 200 * time.Millisecond // between two of the daily look-up
)

func memberID(guildID, userID string) string { return guildID + " " + userID }

// noteHere remembers that a person is in a server just now. One who had left is
// back. Without a server it does nothing.
func (a *App) noteHere(ctx context.Context, guildID, userID string) {
	id := memberID(guildID, userID)
	if guildID == "" || a.riders.lately(id, a.Stopwatch()) {
		return
	}
	a.riders.note(id, a.Stopwatch())
	a.keepLeft(ctx, guildID, userID, false)
}

// errLookRests tells that nobody is looked up for an answer just now.
var errLookRests = errors.New("members are not looked up: Discord did not answer a short while ago")

// lookRest is since when look-ups for answers rest, since one of them failed.
type lookRest struct{ since atomic.Pointer[time.Time] }

// lookSoon looks people up for an answer that waits, no longer than it may and
// without its seat. Where Discord does not answer in time, the next answers do not wait.
func (a *App) lookSoon(ctx context.Context, look func(context.Context) error) (err error) {
	if since := a.looks.since.Load(); since != nil && a.Stopwatch().Sub(*since) < lookRested {
		return errLookRests
	}
	bounded, cancel := context.WithTimeout(ctx, a.patience.look)
	defer cancel()
	stand(ctx, func() { err = look(bounded) })
	if err != nil && ctx.Err() == nil {
		now := a.Stopwatch()
		a.looks.since.Store(&now)
	}
	return err
}

// hasLeft reports that a look-up has found out before that a rider left.
func (a *App) hasLeft(ctx context.Context, guildID, userID string) bool {
	club, err := a.DB.FindClub(ctx, clubKey(guildID))
	if err != nil {
		return false
	}
	rider, err := a.DB.FindAthlete(ctx, club.ID, personKey(userID))
	return err == nil && !rider.Left.IsZero()
}

// keepLeft stores that a rider left their club's server, or is back.
func (a *App) keepLeft(ctx context.Context, guildID, userID string, left bool) {
	club, err := a.DB.FindClub(ctx, clubKey(guildID))
	var rider storage.Athlete
	if err == nil {
		rider, err = a.DB.FindAthlete(ctx, club.ID, personKey(userID))
	}
	switch {
	case err != nil || left != rider.Left.IsZero():
	case left:
		err = a.DB.MarkLeft(ctx, rider.ID, planner.DateOf(a.Now().UTC()))
	default:
		err = a.DB.MarkBack(ctx, rider.ID)
	}
	if err != nil && !errors.Is(err, storage.ErrNotFound) {
		a.Log.Error("who left a server", "error", err)
	}
}

// lookBefore looks up who left, before an answer that names the club's riders.
func (a *App) lookBefore(ctx context.Context, cmd *command.Command, req *desk.Request) {
	if !cmd.Coach && !cmd.Public {
		return
	}
	club, err := a.DB.FindClub(ctx, req.ClubKey)
	if err == nil {
		err = a.lookSoon(ctx, func(ctx context.Context) error { return a.lookUp(ctx, &club, lookList, a.patience.look) })
	}
	if err != nil && !errors.Is(err, storage.ErrNotFound) && !errors.Is(err, errLookRests) {
		a.Log.Warn("riders cannot be looked up", "ref", req.Ref, "error", err)
	}
}

// lookedUp words posts, after a look at who left.
type lookedUp struct{ app *App }

// Reminder implements post.Words.
func (l lookedUp) Reminder(ctx context.Context, who *storage.Known, day planner.Date, now time.Time) (reply say.Reply, due bool, err error) {
	return l.app.Bot.Reminder(ctx, who, day, now)
}

// Digest implements post.Words.
func (l lookedUp) Digest(ctx context.Context, club storage.Club, now time.Time) (say.Reply, error) {
	if err := l.app.lookUp(ctx, &club, lookDigest, digestTime); err != nil {
		l.app.Log.Warn("riders cannot be looked up", "error", err)
	}
	return l.app.Bot.Digest(ctx, club, now)
}

// lookUp looks up those of a club's riders who were not seen for longest, so many
// at most.
func (a *App) lookUp(ctx context.Context, club *storage.Club, most int, within time.Duration) error {
	guildID, ok := club.Key.ID(platform)
	if !ok {
		return nil
	}
	riders, err := a.DB.Athletes(ctx, club.ID)
	if err != nil {
		return err
	}
	var ids []string
	now := a.Stopwatch()
	for _, r := range riders {
		if id, ok := r.Key.ID(platform); ok && !a.riders.lately(memberID(guildID, id), now) {
			ids = append(ids, id)
		}
	}
	slices.SortStableFunc(ids, func(x, y string) int {
		return a.riders.since(memberID(guildID, x)).Compare(a.riders.since(memberID(guildID, y)))
	})
	ctx, cancel := context.WithTimeout(ctx, within)
	defer cancel()
	return a.lookAt(ctx, guildID, ids[:min(len(ids), most)])
}

// lookAt looks people up, several at once, until one cannot be.
func (a *App) lookAt(ctx context.Context, guildID string, ids []string) error {
	ctx, fail := context.WithCancelCause(ctx)
	defer fail(nil)
	next := make(chan string, len(ids))
	for _, id := range ids {
		next <- id
	}
	close(next)
	var work sync.WaitGroup
	for range min(lookAtOnce, len(ids)) {
		work.Go(func() {
			for id := range next {
				if ctx.Err() != nil {
					return
				}
				if _, err := a.member(ctx, guildID, id); err != nil {
					fail(err)
				}
			}
		})
	}
	work.Wait()
	return context.Cause(ctx)
}

// lookUpAll looks up all riders of all clubs, those who left too, without haste.
func (a *App) lookUpAll(ctx context.Context) error {
	clubs, err := a.DB.Clubs(ctx, platform)
	if err != nil {
		return err
	}
	for _, club := range clubs {
		guildID, ok := club.Key.ID(platform)
		riders, err := a.DB.AllAthletes(ctx, club.ID)
		if err != nil {
			return err
		}
		for _, r := range riders {
			id, is := r.Key.ID(platform)
			if !ok || !is || a.riders.lately(memberID(guildID, id), a.Stopwatch()) {
				continue
			}
			if _, err := a.member(ctx, guildID, id); err != nil && !isFinal(err) {
				return err
			}
			if !pause(ctx, lookPause) {
				return ctx.Err()
			}
		}
	}
	return nil
}

// clubFault is what is wrong with a club's channel or role, in a word by which it is
// known again, and in a line with the way out.
type clubFault struct {
	word string
	line say.Line
}

// faultsNow looks whether the coaches' channel and the coach role of a club are
// there. The fault of the races' channel is stored.
func (a *App) faultsNow(ctx context.Context, club *storage.Club) (faults []clubFault, err error) {
	err = a.lookSoon(ctx, func(ctx context.Context) error {
		if id := channelID(club.Setup.Coaches); id != "" {
			_, err := a.api.Channel(ctx, id)
			if fault := channelFault(err); fault != "" {
				faults = append(faults, clubFault{"coaches-channel", say.Linef("The coaches-channel cannot be written to: %s. Mend that, or set another: /club setup coaches-channel:#coaches", fault)})
			} else if err != nil {
				return err
			}
		}
		gone, err := a.roleGone(ctx, club)
		if gone {
			faults = append(faults, clubFault{"coach-role", say.Linef("The coach role was deleted, so that nobody is a coach. Who runs the server sets another: /club setup coach-role:@Coach")})
		}
		return err
	})
	if err != nil && !errors.Is(err, errLookRests) {
		a.Log.Warn("a club's channel and role cannot be looked at", "error", err)
	}
	return faults, err
}

// roleGone tells whether the role that makes coaches of a club was deleted.
func (a *App) roleGone(ctx context.Context, club *storage.Club) (bool, error) {
	guildID, ok := club.Key.ID(platform)
	if club.Setup.CoachRole == "" || !ok {
		return false, nil
	}
	roles, err := a.api.Roles(ctx, guildID)
	return err == nil && !slices.ContainsFunc(roles, func(r api.Role) bool { return roleReference(r.ID) == club.Setup.CoachRole }), err
}

// lackOfCoaches refuses a coach's command where nobody can be a coach, and says who mends
// that; nil where there may be coaches to ask.
func (a *App) lackOfCoaches(ctx context.Context, cmd *command.Command, req *desk.Request) *say.Reply {
	if !cmd.Coach || req.Rider == nil || cmd.Allow(req) == nil {
		return nil
	}
	why := say.Linef("the club has no coach role")
	if club := &req.Rider.Club; club.Setup.CoachRole != "" {
		gone := false
		err := a.lookSoon(ctx, func(ctx context.Context) (err error) {
			gone, err = a.roleGone(ctx, club)
			return err
		})
		if err != nil || !gone {
			return nil
		}
		why = say.Linef("the coach role was deleted")
	}
	reply := say.Refusal("command", "%s is for the club's coaches, and %s, so that nobody is one. Who runs the server sets one: /club setup coach-role:@Coach", cmd.Link(), why)
	return &reply
}

// timeTold is for how long the time that Discord told is good enough.
const timeTold = time.Minute

// elsewhere is the time by Discord's clock, where it tells it.
func (a *App) elsewhere(ctx context.Context) (at time.Time, known bool) {
	at, ago, known := a.api.Time()
	if !known || ago > timeTold {
		ctx, cancel := context.WithTimeout(ctx, a.patience.look)
		defer cancel()
		if _, err := a.api.GatewayInfo(ctx); err != nil {
			return time.Time{}, false
		}
		at, ago, known = a.api.Time()
	}
	return at.Add(ago), known
}
