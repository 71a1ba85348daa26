package gateway

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/api"
)

// identifyBurst is how many IDENTIFYs may follow each other at the shortest pace. With one more
// every Pace.IdentifyEvery a day has 964, below the 1000 after which Discord resets the token.
const identifyBurst = 100

// reserve is how many IDENTIFYs of the daily budget are left alone: beyond it Discord resets
// the token.
const reserve = 5

// Starts lets shards of one bot IDENTIFY: at the pace and within the budget that Discord sets
// for all of them together.
// Source: https://discord.com/developers/docs/events/gateway#sharding-max-concurrency
type Starts struct {
	ask  func(context.Context) (api.GatewayInfo, error)
	pace Pace
	log  *slog.Logger

	daily *rate.Limiter
	turn  chan struct{} // held by whoever asks Discord, so that the others do not

	mu    sync.Mutex
	lanes map[int]*lane // by shard modulo max_concurrency
	info  api.GatewayInfo
	asked time.Time // when info came; zero: never
	out   int       // passes neither used nor dropped
}

// lane has the shards that may not IDENTIFY within one gap.
type lane struct {
	busy chan struct{} // held from admission to the IDENTIFY
	next time.Time     // not earlier; by who holds busy
}

// NewStarts makes what the shards of a bot share. info is GET /gateway/bot; a nil log is none.
func NewStarts(info func(context.Context) (api.GatewayInfo, error), pace Pace, log *slog.Logger) *Starts {
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	pace = pace.Filled()
	return &Starts{ask: info, pace: pace, log: log, turn: make(chan struct{}, 1), lanes: map[int]*lane{},
		daily: rate.NewLimiter(rate.Every(pace.IdentifyEvery), identifyBurst)}
}

// Recommended is how many shards Discord wants the bot to have, 1 at least. It waits until
// Discord tells, or ctx ends, and returns a *FatalError where the token is wrong.
func (s *Starts) Recommended(ctx context.Context) (int, error) {
	info, err := s.known(ctx, false, func() {})
	return max(1, info.Shards), err
}

// pass is the right to one IDENTIFY. It must be used or dropped.
type pass struct {
	starts *Starts
	lane   *lane
	home   string // the address of the gateway
	once   sync.Once
}

// admit waits until a shard may IDENTIFY: by the pace, by the budgets, and by Discord
// answering at all. failed is called for each answer that is of no use. The pass is nil where
// there is an error or ctx ended.
func (s *Starts) admit(ctx context.Context, shard int, failed func()) (*pass, error) {
	info, err := s.known(ctx, false, failed)
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	l := s.lane(shard, info)
	if !take(ctx, l.busy) {
		return nil, nil
	}
	if wait(ctx, time.Until(l.next)) && s.daily.Wait(ctx) == nil {
		if info, err = s.known(ctx, true, failed); info.URL != "" {
			return &pass{starts: s, lane: l, home: info.URL}, nil
		}
	}
	<-l.busy
	return nil, err
}

// used notes that the IDENTIFY goes out now.
func (p *pass) used() {
	p.once.Do(func() {
		p.lane.next = time.Now().Add(p.starts.pace.IdentifyGap)
		p.back(1)
	})
}

// dropped gives a pass back for which there was no IDENTIFY.
func (p *pass) dropped() { p.once.Do(func() { p.back(0) }) }

func (p *pass) back(identifies int) {
	p.starts.mu.Lock()
	p.starts.out--
	p.starts.info.SessionStartLimit.Remaining -= identifies
	p.starts.mu.Unlock()
	<-p.lane.busy
}

func (s *Starts) lane(shard int, info api.GatewayInfo) *lane {
	key := shard % max(1, info.SessionStartLimit.MaxConcurrency)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.lanes[key] == nil {
		s.lanes[key] = &lane{busy: make(chan struct{}, 1)}
	}
	return s.lanes[key]
}

// known is what Discord told last, or tells now; for a pass once the budget has room for it. One
// shard asks, and waits for room, for all. It returns nothing and no error when ctx ends.
func (s *Starts) known(ctx context.Context, forPass bool, failed func()) (api.GatewayInfo, error) {
	if !take(ctx, s.turn) {
		return api.GatewayInfo{}, nil
	}
	defer func() { <-s.turn }()
	for failures := 1; ; failures++ {
		info, err := s.told(ctx)
		pause := time.Duration(0)
		switch limit := info.SessionStartLimit; {
		case ctx.Err() != nil:
			return api.GatewayInfo{}, nil
		case api.Status(err) == http.StatusUnauthorized:
			return api.GatewayInfo{}, &FatalError{Code: 4004}
		case err != nil:
			failed()
			pause = s.pace.retry(failures)
			s.log.Warn("gateway address not known", "error", err, "wait", pause)
		case forPass && !s.book():
			pause = limit.ResetAfter + s.pace.retry(1)
			s.log.Warn("Discord allows no new connection for now: those of today are used up", "left", limit.Remaining, "of", limit.Total, "wait", pause)
			s.forget()
		default:
			return info, nil
		}
		if !wait(ctx, pause) {
			return api.GatewayInfo{}, nil
		}
	}
}

// told is what Discord told within the last gap, since other processes may use the budget too;
// else it asks.
func (s *Starts) told(ctx context.Context) (api.GatewayInfo, error) {
	s.mu.Lock()
	info, fresh := s.info, !s.asked.IsZero() && time.Since(s.asked) < s.pace.IdentifyGap
	s.mu.Unlock()
	if fresh {
		return info, nil
	}
	info, err := s.once(ctx)
	if err == nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.info, s.asked = info, time.Now()
	}
	return info, err
}

// book counts one more pass as out, if the budget has room. The reserve is left alone, of a small
// budget a tenth. A total of 0 says nothing.
func (s *Starts) book() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if limit := s.info.SessionStartLimit; limit.Total > 0 && limit.Remaining-s.out <= min(reserve, limit.Total/10) {
		return false
	}
	s.out++
	return true
}

func (s *Starts) forget() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.asked = time.Time{}
}

func (s *Starts) once(ctx context.Context) (api.GatewayInfo, error) {
	ctx, cancel := context.WithTimeout(ctx, s.pace.Info)
	defer cancel()
	info, err := s.ask(ctx)
	if err == nil && !usable(info.URL) {
		err = fmt.Errorf("the address of the gateway is not usable")
	}
	return info, err
}

// take waits for a place in a channel; false when ctx ended before.
func take(ctx context.Context, c chan struct{}) bool {
	select {
	case c <- struct{}{}:
		return true
	case <-ctx.Done():
		return false
	}
}
