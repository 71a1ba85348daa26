// Package api speaks Discord's HTTP interface through discordgo's request core
// and works around what that core does badly: it waits without a context, locks a
// bucket during a call, keeps one for every interaction, and repeats too much or too little.
package api

import (
	"log/slog"
	"math"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
	"golang.org/x/time/rate"

	"musette/planner"
)

// version is Discord's version of the interface; discordgo's own is 9.
const version = "10"

// userAgent has the form that Discord asks for, then our own name.
// Source: https://discord.com/developers/docs/reference#user-agent
const userAgent = "DiscordBot (https://github.com/bwmarrin/discordgo, v" + discordgo.VERSION + ") musette"

// A second lets through at most perSecond+burst = 50 calls, Discord's limit for a bot.
// Source: https://discord.com/developers/docs/topics/rate-limits#global-rate-limit
const (
	perSecond = 45
	burst     = 5
)

// firstPause is the mean wait before a failed call is repeated the first time; it doubles from there.
const firstPause = 250 * time.Millisecond

// setVersion sets discordgo's version for the whole program, since discordgo has no
// other place for it. The version enters the address of the gateway when a session
// is opened. It is set once, before the first session is made: later would be a race.
var setVersion = sync.OnceFunc(func() { discordgo.APIVersion = version })

// Config says which platform is spoken to and as whom.
type Config struct {
	Token string // of the bot, without "Bot " in front
	Base  string // "" for Discord itself, else for example http://127.0.0.1:8585
	Log   *slog.Logger
}

// Client makes calls; it is safe for concurrent use and needs no closing.
type Client struct {
	token   string
	log     *slog.Logger
	http    *http.Client
	clock   *otherClock
	session *discordgo.Session // never opened
	rate    *rate.Limiter
	limits  *limits
	pause   time.Duration
}

// New fails with a *planner.InputError of field discord.url when Base is not
// a usable address. It sends nothing, and an empty token is no error here.
func New(cfg Config) (*Client, error) {
	base, err := parseBase(cfg.Base)
	if err != nil {
		return nil, err
	}
	log := cfg.Log
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	told := new(otherClock)
	c := &Client{
		token:  strings.TrimPrefix(strings.TrimSpace(cfg.Token), "Bot "),
		log:    log,
		http:   newHTTP(base, told),
		clock:  told,
		rate:   rate.NewLimiter(perSecond, burst),
		limits: newLimits(),
		pause:  firstPause,
	}
	c.session, err = c.NewSession()
	return c, err
}

// Time is what time the platform said it is with its last answer, and how long ago that came;
// known is false where no answer has told.
func (c *Client) Time() (at time.Time, ago time.Duration, known bool) {
	told := c.clock.told.Load()
	if told == nil {
		return at, 0, false
	}
	return told.at, time.Since(told.came), true
}

// NewSession makes a session for one connection to the gateway: it keeps no state, does not
// reconnect by itself, hands on events in order and logs nothing. Its Dialer is the caller's to set.
func (c *Client) NewSession() (*discordgo.Session, error) {
	setVersion()
	token := ""
	if c.token != "" {
		token = "Bot " + c.token
	}
	s, err := discordgo.New(token)
	if err != nil {
		return nil, err
	}
	s.Client = c.http
	s.UserAgent = userAgent
	s.LogLevel = -1
	s.StateEnabled = false
	s.SyncEvents = true
	s.Compress = false
	s.Identify.Compress = false
	s.ShouldReconnectOnError = false
	s.ShouldReconnectVoiceOnSessionError = false
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0
	return s, nil
}

// parseBase accepts an address with nothing, /api or /api/v10 behind the host; nil means Discord itself.
func parseBase(base string) (*url.URL, error) {
	if base == "" {
		return nil, nil
	}
	bad := func(why string) (*url.URL, error) {
		return nil, &planner.InputError{Field: "discord.url", Msg: why + ". Write an address, for example http://127.0.0.1:8585"}
	}
	u, err := url.Parse(base)
	if err != nil || u.Hostname() == "" || u.Scheme != "http" && u.Scheme != "https" {
		return bad("this is not an address of the web")
	}
	if port := u.Port(); port != "" {
		if n, err := strconv.Atoi(port); err != nil || n < 1 || n > math.MaxUint16 {
			return bad("its port is none from 1 to 65535")
		}
	}
	if u.User != nil || u.RawQuery != "" || u.Fragment != "" {
		return bad("only a host and a port belong here")
	}
	switch strings.TrimRight(u.Path, "/") {
	case "", "/api", "/api/v" + version:
	default:
		return bad("only /api/v" + version + " may follow the host")
	}
	if u.Scheme == "http" && !loopback(u.Hostname()) {
		return bad("http:// would send the bot's token in clear text over the network, use https://")
	}
	return &url.URL{Scheme: u.Scheme, Host: u.Host}, nil
}

func loopback(host string) bool {
	if strings.EqualFold(host, "localhost") {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
