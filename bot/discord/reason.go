package discord

import (
	"context"
	"errors"
	"net/http"

	"musette/bot/discord/api"
	"musette/bot/post"
	"musette/bot/say"
)

// plainError says in words for coaches what went wrong; what wrapped it is known by it still.
type plainError struct {
	line say.Line
	err  error
}

func (e *plainError) Error() string { return e.line.String() }

func (e *plainError) Unwrap() error { return e.err }

// settled is what became of a post in plain words, and as one of the errors of
// package post where trying again is of no use or has to wait.
func settled(err error) error {
	if err == nil {
		return nil
	}
	kind := err
	switch code := api.Code(err); {
	case errors.Is(err, post.ErrRefused), errors.Is(err, post.ErrNoPlace):
	case errors.Is(err, errOpeningRests), code == api.CodeOpeningTooFast:
		kind = errors.Join(post.ErrLater, err)
	case isFinal(err):
		kind = errors.Join(post.ErrNoPlace, err)
	}
	return &plainError{say.Linef("%s", plainWords(err)), kind}
}

// isFinal reports that Discord gave a reason for which it will refuse again. A
// refusal without a code comes from what stands before Discord, and passes.
func isFinal(err error) bool {
	switch status := api.Status(err); status {
	case http.StatusUnauthorized, http.StatusRequestTimeout, http.StatusTooManyRequests:
		return false
	default:
		return status >= 400 && status < 500 && api.Code(err) != 0
	}
}

// plainWords are what is wrong in words for coaches and admins, without routes,
// numbers and what Discord says itself.
func plainWords(err error) string {
	if plain, ok := errors.AsType[*plainError](err); ok {
		return plain.Error()
	}
	switch {
	case errors.Is(err, post.ErrRefused):
		return post.ErrRefused.Error()
	case errors.Is(err, errOpeningRests):
		return "Discord lets me open no new direct messages for a while"
	}
	switch api.Code(err) {
	case api.CodeOpeningTooFast:
		return "Discord lets me open no new direct messages for a while"
	case api.CodeClosedDM, api.CodeNoMutualGuild:
		return post.ErrRefused.Error()
	case api.CodeThreadsFull:
		return "the server has as many threads as Discord allows; close some"
	case api.CodeChannelKind:
		return "that kind of channel does not take it"
	case api.CodeBlocked, api.CodeBlockedTitle, api.CodeBlockedLink:
		return "the server's own filter blocked the message"
	case api.CodeMissingAccess, api.CodeMissingPermission:
		return "Discord did not let me write there"
	}
	_, fromDiscord := errors.AsType[*api.Error](err)
	switch status := api.Status(err); {
	case status == http.StatusUnauthorized:
		return "Discord does not know my token"
	case status == http.StatusTooManyRequests:
		return "Discord asked me to wait"
	case status >= 400 && status < 500:
		return "Discord refused it"
	case fromDiscord, errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return "Discord did not answer"
	}
	return "something broke here; the log says what"
}
