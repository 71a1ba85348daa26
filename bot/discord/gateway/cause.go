package gateway

import (
	"fmt"
	"strconv"
)

// cause tells why a connection ended and what that means for the session.
type cause struct {
	text   string // for the log
	resume bool   // the session lives on
	slow   bool   // Discord asks for 1 to 5 s before the next IDENTIFY
	fatal  int    // a close code that no further try will change
}

// lost is any end that leaves the session alive.
func lost(format string, args ...any) *cause {
	return &cause{text: fmt.Sprintf(format, args...), resume: true}
}

var stopped = &cause{text: "stopped"}

// closedWith judges a close frame of the server. Going away (1001) is how servers
// restart; the session stays.
// Source: https://discord.com/developers/docs/topics/opcodes-and-status-codes#gateway-gateway-close-event-codes
func closedWith(code int) *cause {
	c := &cause{text: "closed by Discord with code " + strconv.Itoa(code)}
	switch code {
	case 4004, 4010, 4011, 4012, 4013, 4014:
		c.fatal = code
	case 1000, 4003, 4005:
	case 4007, 4009:
		c.slow = true
	default:
		c.resume = true
	}
	return c
}

// FatalError is a refusal that trying again would not change.
type FatalError struct {
	Code int // the gateway's close code: 4004 or 4010 to 4014
}

// Error says what to put right.
func (e *FatalError) Error() string {
	fix := "look the code up in Discord's documentation of the gateway"
	switch e.Code {
	case 4004:
		fix = "the bot's token is wrong. Copy it anew from the developer portal into MUSETTE_DISCORD__TOKEN, or into the file that discord.token_file names"
	case 4010:
		fix = "the number of the shard does not fit the count of shards. Look at the settings shards and own"
	case 4011:
		fix = "the bot is in too many servers for so few connections. It must be run with more shards, best with --shards auto"
	case 4012:
		fix = "Discord no longer speaks this version of the gateway. Update musette"
	case 4013:
		fix = "the intents are not valid. Update musette"
	case 4014:
		fix = "an intent is asked for that Discord does not grant. musette needs none that must be allowed, so update it"
	}
	return fmt.Sprintf("Discord refused the bot (code %d): %s", e.Code, fix)
}
