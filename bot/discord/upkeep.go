package discord

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"musette/bot/desk"
	"musette/bot/discord/gateway"
	"musette/bot/meter"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// How long things are kept that nobody may ask for any more.
const (
	keepDays    = 30 // of clubs that removed the bot
	keepGone    = keepDays * 24 * time.Hour
	keepButtons = 30 * 24 * time.Hour

	settleTime = time.Second // for what the first READYs tell to be stored
)

// eraseOld erases what has been kept for long enough.
// A club that came back while the bot was away must not be erased: Discord tells
// at the first READY of its shard.
func (a *App) eraseOld(ctx context.Context) {
	select {
	case <-ctx.Done():
		return
	case <-a.arrived.All:
	}
	if !pause(ctx, settleTime) {
		return
	}
	select { // a clock that runs ahead must erase nothing
	case <-ctx.Done():
		return
	case <-a.posts.Believed():
	}
	var looked planner.Date // when all riders were looked up last
	for {
		now := a.DB.Now()
		clubs, err := a.DB.EraseClubs(ctx, now.Add(-keepGone))
		err = errors.Join(err, a.DB.EraseButtons(ctx, now.Add(-keepButtons)))
		switch {
		case ctx.Err() != nil:
			return
		case err != nil:
			a.Log.Error("erasing old data", "error", err)
		case clubs > 0:
			a.Log.Info(fmt.Sprintf("erased clubs that removed the bot %d days ago", keepDays), "clubs", clubs)
		}
		a.eraseLeft(ctx, planner.DateOf(now.UTC()), &looked)
		if !pause(ctx, time.Hour) {
			return
		}
	}
}

// eraseLeft looks all riders up once a day, and erases those who left 30 days ago. Nobody
// is erased on a day on which Discord does not tell whether they came back.
func (a *App) eraseLeft(ctx context.Context, today planner.Date, looked *planner.Date) {
	if *looked != today {
		if err := a.lookUpAll(ctx); err != nil {
			if ctx.Err() == nil {
				a.Log.Warn("riders cannot be looked up yet", "error", err)
			}
			return
		}
		*looked = today
	}
	switch riders, err := a.DB.EraseLeft(ctx, today); {
	case ctx.Err() != nil:
	case err != nil:
		a.Log.Error("erasing riders who left", "error", err)
	case riders > 0:
		a.Log.Info(fmt.Sprintf("erased riders who left their club's server %d days ago", storage.KeepLeft), "riders", riders)
	}
}

// tellRefusal adds to a private answer that a direct message did not get through, to one of
// those that are under way. told is to be called once the answer is out, or could not be sent.
func (a *App) tellRefusal(ctx context.Context, req *desk.Request, from *asked, reply say.Reply) (_ say.Reply, told func(context.Context, bool)) {
	told = func(context.Context, bool) {}
	if !reply.Private || reply.Err != nil {
		return reply, told
	}
	free, claimed := a.telling.claim("refusal "+from.userID, a.Stopwatch())
	if !claimed {
		return reply, told
	}
	person, err := a.DB.FindPerson(ctx, personKey(from.userID))
	if err != nil || person.Refused.IsZero() {
		free()
		return reply, told
	}
	return withRefusal(reply, person), func(ctx context.Context, sent bool) {
		defer free()
		if !sent {
			return
		}
		if err := a.DB.ForgetRefusal(ctx, personKey(from.userID)); err != nil {
			a.Log.Error("refusal that was told", "ref", req.Ref, "error", err)
		}
	}
}

// tellFaults adds to a private answer to a coach, or to who runs the server, what is
// amiss with the club's channels and role: to each of them once, and again after it was well. The
// club is looked at once in a while for each. told is to be called once the answer is out, or
// could not be sent.
func (a *App) tellFaults(ctx context.Context, req *desk.Request, from *asked, reply say.Reply) (_ say.Reply, told func(context.Context, bool)) {
	told = func(context.Context, bool) {}
	who := memberID(from.guildID, from.userID)
	if from.guildID == "" || !reply.Private || reply.Err != nil || a.looked.lately(who, a.Stopwatch()) {
		return reply, told
	}
	club, err := a.DB.FindClub(ctx, req.ClubKey)
	if err != nil || !req.Admin && !slices.Contains(req.Roles, cmp.Or(club.Setup.CoachRole, "none")) {
		return reply, told
	}
	free, claimed := a.telling.claim("faults "+who, a.Stopwatch())
	if !claimed {
		return reply, told
	}
	var faults []clubFault
	if !a.looked.lately(who, a.Stopwatch()) { // by the one that has just told
		faults = a.faultNews(ctx, req, &club, who, personKey(from.userID))
	}
	if len(faults) == 0 {
		free()
		return reply, told
	}
	words := make([]string, len(faults))
	for i, fault := range faults {
		words[i] = fault.word
		reply.Gap()
		reply.Addf("! %s", fault.line)
	}
	return reply, func(ctx context.Context, sent bool) {
		defer free()
		if !sent {
			return
		}
		if err := a.DB.NoteFaultsTold(ctx, club.ID, personKey(from.userID), words); err != nil {
			a.Log.Error("what a person was told of a club", "ref", req.Ref, "error", err)
		}
	}
}

// faultNews are the faults of a club that a person was not told yet.
func (a *App) faultNews(ctx context.Context, req *desk.Request, club *storage.Club, who string, key storage.Key) []clubFault {
	faults, err := a.faultsNow(ctx, club)
	if err != nil {
		return nil
	}
	a.looked.note(who, a.Stopwatch())
	if club.Fault != "" {
		faults = append(faults, clubFault{"channel", say.Linef("The channel for races cannot be written to: %s. Mend that, or set another: /club setup channel:#races", club.Fault)})
	}
	words := make([]string, len(faults))
	for i, fault := range faults {
		words[i] = fault.word
	}
	before, err := a.DB.FaultsTold(ctx, club.ID, key)
	if err = errors.Join(err, a.DB.EndFaults(ctx, club.ID, words)); err != nil {
		a.Log.Error("what a person was told of a club", "ref", req.Ref, "error", err)
		return nil
	}
	return slices.DeleteFunc(faults, func(fault clubFault) bool { return slices.Contains(before, fault.word) })
}

// keepPosting sends reminders and digests, from the first READY on, until ctx
// ends; what has begun is finished.
func (a *App) keepPosting(ctx context.Context) {
	select {
	case <-ctx.Done():
		return
	case <-a.arrived.First:
	}
	if err := a.posts.Run(ctx); err != nil {
		a.Log.Error("reminders and digests are not sent", "error", err)
	}
}

// pause waits; false when ctx ended meanwhile.
func pause(ctx context.Context, d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
		return true
	}
}

// finished waits for the group, at most so long.
func finished(group *sync.WaitGroup, most time.Duration) bool {
	done := make(chan struct{})
	go func() { group.Wait(); close(done) }()
	select {
	case <-done:
		return true
	case <-time.After(most):
		return false
	}
}

// single is the one server that has the bot, "" where it is none or several, or not known yet.
func (a *App) single() string {
	if !a.Share.Whole() || !a.arrived.Complete() {
		return ""
	}
	return a.names.single()
}

// sessions are those of this process, a shard each. Where another process runs shard 0, there is one
// more, to hear direct messages: Discord sends those to shard 0, and to each session of it.
// Source: https://discord.com/developers/docs/events/gateway#sharding
func (a *App) sessions(ctx context.Context) ([]*gateway.Gateway, error) {
	starts := gateway.NewStarts(a.api.GatewayInfo, a.Pace, a.Log)
	if a.Share.Shards == 0 {
		shards, err := starts.Recommended(ctx)
		if err != nil {
			return nil, err
		}
		a.Share.Shards = shards
	}
	numbers := a.Share.Numbers()
	a.arrived.Expect(numbers)
	c := gateway.Config{NewSession: a.api.NewSession, Starts: starts, Shards: a.Share.Shards, Intents: intents, Handle: a.take, Pace: a.Pace}
	var all []*gateway.Gateway
	for _, c.Shard = range numbers {
		all = append(all, a.session(c))
	}
	if !slices.Contains(numbers, 0) {
		c.Shard, c.Intents, c.Handle = 0, directIntents, a.hear
		all = append(all, a.session(c))
	}
	return all, nil
}

func (a *App) session(c gateway.Config) *gateway.Gateway {
	c.Log = a.Log
	if c.Shards > 1 {
		c.Log = a.Log.With("shard", c.Shard)
	}
	session := gateway.New(c)
	a.Meter.Watch(meter.Gateway{Shard: c.Shard, Status: func() (bool, time.Time, int, int, int) {
		s := session.Status()
		return s.Connected, s.Since, s.Identifies, s.Resumes, s.Failures
	}})
	return session
}

// watch says in the log which sessions are down, as long as they are.
func (a *App) watch(ctx context.Context, sessions []*gateway.Gateway) {
	for pause(ctx, time.Minute) {
		for _, session := range sessions {
			if s := session.Status(); !s.Connected {
				a.Log.Error("not connected to Discord's gateway", "shard", session.Shard(), "for", a.Stopwatch().Sub(s.Since).Round(time.Second), "failures", s.Failures)
			}
		}
	}
}

// partClubs treats the clubs of other processes' shards as clubs that removed the bot: they get
// nothing from here, and are erased in 30 days unless their shard comes back. So a copy of
// the database can be what another process begins with.
func (a *App) partClubs(ctx context.Context) error {
	if a.Share.Whole() {
		return nil
	}
	clubs, err := a.DB.Clubs(ctx, platform)
	if err != nil {
		return err
	}
	parted := 0
	for _, club := range clubs {
		if id, ok := club.Key.ID(platform); !ok || a.Share.Has(id) {
			continue
		}
		if err := a.DB.LeaveClub(ctx, club.Key); err != nil {
			return err
		}
		parted++
	}
	if parted > 0 {
		a.Log.Warn(fmt.Sprintf("clubs of shards that this process does not own are silent here, and are erased from this database after %d days", keepDays), "clubs", parted)
	}
	return nil
}

// connected tells the operator how many servers a shard brings.
func (a *App) connected(shard, servers int) {
	if a.Share.Shards > 1 {
		fmt.Fprintf(a.Out, "Connected with shard %d of 0 to %d. Its servers that have the bot: %d.\n", shard, a.Share.Shards-1, servers)
		return
	}
	fmt.Fprintf(a.Out, "Connected. Servers that have the bot: %d.\n", servers)
}

// leaveAbsent notes which clubs of a shard have removed the bot while it was away, and which have it again.
func (a *App) leaveAbsent(ctx context.Context, mine func(guildID string) bool, there map[storage.Key]bool) error {
	clubs, err := a.DB.Clubs(ctx, platform)
	if err != nil {
		return err
	}
	for _, club := range clubs {
		if id, ok := club.Key.ID(platform); ok && mine(id) && !there[club.Key] {
			if err := a.DB.LeaveClub(ctx, club.Key); err != nil {
				return err
			}
		}
	}
	for key := range there {
		if err := a.DB.RejoinClub(ctx, key); err != nil {
			return err
		}
	}
	return nil
}
