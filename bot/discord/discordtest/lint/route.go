package lint

import (
	"net/http"
	"strings"
)

// payloadKind tells the writing requests of the bot apart.
type payloadKind int

const (
	payloadUnknown payloadKind = iota
	payloadNone                // without a body: nothing to check
	payloadCommands
	payloadCallback
	payloadMessage
	payloadMessageEdit
	payloadFollowUp
	payloadFollowUpEdit
	payloadDM
	payloadThread
)

// payloadRoutes are the known writing requests; * is any one segment.
var payloadRoutes = []struct {
	method, path string
	kind         payloadKind
}{
	{http.MethodPut, "applications/*/commands", payloadCommands},
	{http.MethodPost, "interactions/*/*/callback", payloadCallback},
	{http.MethodPost, "channels/*/messages", payloadMessage},
	{http.MethodPatch, "channels/*/messages/*", payloadMessageEdit},
	{http.MethodPost, "webhooks/*/*", payloadFollowUp},
	{http.MethodPatch, "webhooks/*/*/messages/*", payloadFollowUpEdit},
	{http.MethodPost, "users/@me/channels", payloadDM},
	{http.MethodPost, "channels/*/threads", payloadThread},
}

// payloadKindOf reads method and path; the prefix /api, with or without a
// version, and a query may be there.
func payloadKindOf(method, path string) payloadKind {
	segments := payloadSegments(path)
	bodiless := method == http.MethodPut && matchSegments([]string{"channels", "*", "thread-members", "*"}, segments)
	if method == http.MethodGet || method == http.MethodHead || bodiless {
		return payloadNone
	}
	for _, route := range payloadRoutes {
		if route.method == method && matchSegments(strings.Split(route.path, "/"), segments) {
			return route.kind
		}
	}
	return payloadUnknown
}

func matchSegments(pattern, segments []string) bool {
	if len(pattern) != len(segments) {
		return false
	}
	for i, want := range pattern {
		if segments[i] == "" || want != "*" && want != segments[i] {
			return false
		}
	}
	return true
}

func payloadSegments(path string) []string {
	path, _, _ = strings.Cut(path, "?")
	segments := strings.Split(strings.Trim(path, "/"), "/")
	if segments[0] != "api" {
		return segments
	}
	segments = segments[1:]
	if len(segments) > 0 && (segments[0] == "v9" || segments[0] == "v10") {
		segments = segments[1:]
	}
	return segments
}

// payloadName is a request as errors may show it. The paths of interactions and
// webhooks hold tokens, so only words of the interface itself are kept.
func payloadName(method, path string) string {
	segments := payloadSegments(path)
	shown := make([]string, len(segments))
	for i, segment := range segments {
		secret := (segments[0] == "interactions" || segments[0] == "webhooks") && (i == 1 || i == 2)
		if secret || strings.Trim(segment, "abcdefghijklmnopqrstuvwxyz@-") != "" {
			segment = "*"
		}
		shown[i] = segment
	}
	return method + " /" + strings.Join(shown, "/")
}
