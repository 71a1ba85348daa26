package api

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Codes of Discord's errors that the bot answers to.
// Source: https://discord.com/developers/docs/topics/opcodes-and-status-codes#json
const (
	CodeUnknownChannel     = 10003
	CodeUnknownGuild       = 10004
	CodeUnknownMember      = 10007
	CodeUnknownUser        = 10013
	CodeUnknownInteraction = 10062
	CodeOpeningTooFast     = 40003
	CodeAlreadyAnswered    = 40060
	CodeMissingAccess      = 50001
	CodeClosedDM           = 50007
	CodeMissingPermission  = 50013
	CodeChannelKind        = 50024 // not in this type of channel
	CodeNoMutualGuild      = 50278
	CodeThreadsFull        = 160006 // as many active ones as there may be
	CodeBlocked            = 200000 // by the server's filter
	CodeBlockedTitle       = 200001
	CodeBlockedLink        = 240000
)

// Error is a request that Discord refused or did not answer. It holds neither
// the address, which may contain an interaction's token, nor what was sent.
type Error struct {
	Status  int    // of HTTP; 0 when there was no answer or nothing was sent
	Code    int    // Discord's own, 0 if it gave none
	Message string // Discord's words in English, or ours
	Route   string // method and pattern: POST /channels/{id}/messages
	Unsure  bool   // it may have been done all the same
}

// Error is one line for logs.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Route + ":")
	if e.Status != 0 {
		fmt.Fprintf(&b, " %d", e.Status)
	}
	b.WriteString(" " + e.Message)
	if e.Code != 0 {
		fmt.Fprintf(&b, " (code %d)", e.Code)
	}
	return b.String()
}

// Code is Discord's error code of err, 0 if it has none.
func Code(err error) int {
	if e, ok := errors.AsType[*Error](err); ok {
		return e.Code
	}
	return 0
}

// Status is the HTTP status of err, 0 if Discord did not answer or err is not of this package.
func Status(err error) int {
	if e, ok := errors.AsType[*Error](err); ok {
		return e.Status
	}
	return 0
}

// Unsent tells that a call certainly was not done.
func Unsent(err error) bool {
	e, ok := errors.AsType[*Error](err)
	return ok && !e.Unsure
}

// maxFaults and maxWords bound what an error repeats of Discord's answer.
const (
	maxFaults = 5
	maxWords  = 200
)

// words shortens Discord's message to a piece of a line.
func words(message string) string {
	r := []rune(strings.Join(strings.Fields(message), " "))
	if len(r) > maxWords {
		r = r[:maxWords]
	}
	return string(r)
}

// faults lists the fields that Discord refused with its code for each, for
// example "embeds.0.title BASE_TYPE_MAX_LENGTH". Its sentences are left out,
// since they can repeat what a person wrote.
func faults(tree json.RawMessage) []string {
	var found []string
	var walk func(path string, node json.RawMessage)
	walk = func(path string, node json.RawMessage) {
		var fields map[string]json.RawMessage
		if json.Unmarshal(node, &fields) != nil {
			return
		}
		for name, below := range fields {
			if name != "_errors" {
				walk(strings.TrimPrefix(path+"."+name, "."), below)
				continue
			}
			var list []struct {
				Code string `json:"code"`
			}
			if json.Unmarshal(below, &list) == nil && len(list) > 0 {
				found = append(found, words(path+" "+list[0].Code))
			}
		}
	}
	walk("", tree)
	slices.Sort(found)
	return found[:min(len(found), maxFaults)]
}
