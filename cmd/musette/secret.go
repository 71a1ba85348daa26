package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"unicode"

	"musette/planner"
)

// Secret is text that is never printed. string(secret) gives it away.
type Secret string

// String tells only whether there is a secret.
func (s Secret) String() string {
	if s == "" {
		return "not set"
	}
	return "set, hidden"
}

// Format implements fmt.Formatter for every verb, %#v and %x among them.
func (s Secret) Format(f fmt.State, _ rune) { io.WriteString(f, s.String()) }

// MarshalText hides the secret from JSON, logs and every other writer of text.
func (s Secret) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// A token of Discord is three parts with dots between them, the last one the longest.
var tokenLike = regexp.MustCompile(`[\w-]{20,}\.[\w-]{5,}\.[\w-]{20,}`)

// hidden stands where a token was written.
const hidden = "(hidden, it may be a token)"

// hideTokens takes out of a text what looks like a token, wherever it was written by mistake.
func hideTokens(text string) string { return tokenLike.ReplaceAllLiteralString(text, hidden) }

// tokenThere says that a token stands where it does not belong, and where it does.
func tokenThere(belongs string) string {
	return "holds what looks like a token, so it is not shown. Tell the token as " + belongs
}

// leastPart is the length from which on letters and digits may be part of a token.
const leastPart = 24

// shown is a value that is not meant to be secret, unless a token or a part of one may
// have been written in its place.
func shown(value string) string {
	has := func(of func(rune) bool) bool { return strings.ContainsFunc(value, of) }
	part := len(value) >= leastPart && !strings.ContainsAny(value, "/ ") && has(unicode.IsUpper) && has(unicode.IsLower) && has(unicode.IsDigit)
	if part {
		return hidden
	}
	return hideTokens(value)
}

// cleanToken drops what is easily copied along with a token: blanks, quotes and
// the word that requests have in front of it.
func cleanToken(text string) Secret {
	text = strings.Trim(text, " \t\r\n\"'`\ufeff")
	if word, rest, ok := strings.Cut(text, " "); ok && strings.EqualFold(word, "bot") {
		text = strings.Trim(rest, " \t\"'`")
	}
	return Secret(text)
}

// isToken never quotes the value. A token has to fit into a line of a request.
func isToken(value string) string {
	token := string(cleanToken(value))
	if token == "" {
		return "is empty"
	}
	if strings.ContainsFunc(token, func(r rune) bool { return r <= ' ' || r > '~' }) {
		return "has blanks or odd characters inside, copy it again"
	}
	return ""
}

// maxTokenFile is the largest file of a token that is read, in bytes.
const maxTokenFile = 4096

// shownFile is the name of the token's file, unless the token stands there instead.
func (d Discord) shownFile() string {
	if _, err := os.Stat(d.TokenFile); err == nil {
		return hideTokens(d.TokenFile)
	}
	return shown(d.TokenFile)
}

// token is the bot's token, read from its file where that is told. A fault is a
// *planner.InputError that does not hold it.
func (d Discord) token(ctx context.Context) (Secret, error) {
	if d.TokenFile == "" {
		if d.Token == "" {
			return "", &planner.InputError{Field: keyToken, Msg: "is missing. Set " + setting{key: keyToken}.envName() + " to your bot's token, see docs/admin.md"}
		}
		return d.Token, nil
	}
	wrong := func(what string) error {
		return &planner.InputError{Field: keyTokenFile, Msg: d.shownFile() + " " + what + ". Write the bot's token into it and nothing else"}
	}
	data, err := readFile(ctx, d.TokenFile)
	switch {
	case errors.Is(err, errInterrupted):
		return "", err
	case errors.Is(err, errTooLarge):
		return "", wrong("is too large for a token")
	case err != nil:
		return "", &planner.InputError{Field: keyTokenFile, Msg: fmt.Sprintf("cannot be read (%s). Name a file that holds the bot's token", strings.ReplaceAll(err.Error(), d.TokenFile, d.shownFile()))}
	case len(data) > maxTokenFile:
		return "", wrong("is too large for a token")
	}
	if fault := isToken(string(data)); fault != "" {
		return "", wrong(fault)
	}
	return cleanToken(string(data)), nil
}
