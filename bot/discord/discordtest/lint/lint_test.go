package lint

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// validPayloads reads testdata/payloads: requests as the bot sends them, and,
// named library-*, as the types of the client library marshal.
func validPayloads(t *testing.T) map[string]Payload {
	t.Helper()
	names, err := filepath.Glob("testdata/payloads/*.json")
	if err != nil || len(names) < 16 {
		t.Fatalf("%d payloads: %v", len(names), err)
	}
	payloads := make(map[string]Payload)
	for _, name := range names {
		var file struct {
			Method, Path string
			Files        []string
			Body         json.RawMessage
		}
		content, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(content, &file); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		key := strings.TrimSuffix(filepath.Base(name), ".json")
		payloads[key] = Payload{file.Method, file.Path, file.Body, file.Files}
	}
	return payloads
}

// changed replaces one place of a payload: a JSON pointer into the body, "files"
// or "path". The new value is JSON; "" takes a member away, a pointer that ends
// in "/-" appends to an array.
func changed(t *testing.T, p Payload, pointer, raw string) Payload {
	t.Helper()
	switch pointer {
	case "files":
		if err := json.Unmarshal([]byte(raw), &p.Files); err != nil {
			t.Fatal(err)
		}
		return p
	case "path":
		p.Path = raw
		return p
	case "":
		p.Body = []byte(raw)
		return p
	}
	var body, to any
	if err := json.Unmarshal(p.Body, &body); err != nil {
		t.Fatal(err)
	}
	if raw != "" {
		if err := json.Unmarshal([]byte(raw), &to); err != nil {
			t.Fatalf("%s: %v", raw, err)
		}
	}
	changed, err := json.Marshal(replaced(t, body, strings.Split(pointer[1:], "/"), to, raw == ""))
	if err != nil {
		t.Fatal(err)
	}
	p.Body = changed
	return p
}

func replaced(t *testing.T, value any, steps []string, to any, drop bool) any {
	t.Helper()
	if len(steps) == 0 {
		return to
	}
	switch v := value.(type) {
	case map[string]any:
		if len(steps) == 1 && drop {
			delete(v, steps[0])
			return v
		}
		v[steps[0]] = replaced(t, v[steps[0]], steps[1:], to, drop)
		return v
	case []any:
		if steps[0] == "-" {
			return append(v, to)
		}
		i, err := strconv.Atoi(steps[0])
		if err != nil || i >= len(v) {
			t.Fatalf("no element %s", steps[0])
		}
		v[i] = replaced(t, v[i], steps[1:], to, drop)
		return v
	}
	t.Fatalf("no way down at %v", steps)
	return nil
}

// letters is a JSON string of n lower-case letters.
func letters(n int) string { return `"` + strings.Repeat("x", n) + `"` }

// numbered is a JSON array of n copies of item, with # as their number.
func numbered(n int, item string) string {
	items := make([]string, n)
	for i := range items {
		items[i] = strings.ReplaceAll(item, "#", strconv.Itoa(i))
	}
	return "[" + strings.Join(items, ",") + "]"
}

func lintOf(p Payload) []Fault { return Lint(p.Method, p.Path, p.Body, p.Files) }

func TestValidPayloadsPassTheLint(t *testing.T) {
	for name, p := range validPayloads(t) {
		for _, fault := range lintOf(p) {
			t.Errorf("%s: %s", name, fault)
		}
	}
}

// limitCases name a place, the rule that bounds it and the literal bound.
var limitCases = []struct {
	base, at, rule string
	limit          int
	make           func(int) string
}{
	{"commands", "/3/name", ruleNameForm, 32, letters},
	{"commands", "/3/description", ruleDescription, 100, letters},
	{"commands", "/0/options/0/options/0/name", ruleNameForm, 32, letters},
	{"commands", "/0/options/0/options/2/choices/0/name", ruleChoiceName, 100, letters},
	{"commands", "/0/options/0/options/2/choices/0/value", ruleChoiceValue, 100, letters},
	{"commands", "/0/options/0/options/0/max_length", ruleOptionLength, 6000, strconv.Itoa},
	{"commands", "/0/options/0/options/4/max_value", ruleOptionRange, 1<<53 - 1, strconv.Itoa},
	{"commands", "", ruleCommandCount, 100, func(n int) string { return numbered(n, `{"name":"c#","description":"d"}`) }},
	{"commands", "", ruleCommandCount, 15, func(n int) string { return numbered(n, `{"name":"Menu #","type":2}`) }},
	{"commands", "/3/options", ruleOptionCount, 25, func(n int) string { return numbered(n, `{"type":5,"name":"o#","description":"d"}`) }},
	{"choices", "/data/choices", ruleChoiceCount, 25, func(n int) string { return numbered(n, `{"name":"n#","value":"v#"}`) }},
	{"answer", "/data/content", ruleContent, 2000, letters},
	{"answer", "/data/embeds/0/title", ruleEmbedTitle, 256, letters},
	{"answer", "/data/embeds/0/description", ruleEmbedDescription, 4096, letters},
	{"answer", "/data/embeds/0/fields/0/name", ruleFieldName, 256, letters},
	{"answer", "/data/embeds/0/fields/0/value", ruleFieldValue, 1024, letters},
	{"answer", "/data/embeds/0/footer/text", ruleFooter, 2048, letters},
	{"answer", "/data/embeds/0/author/name", ruleAuthor, 256, letters},
	{"answer", "/data/embeds/0/fields", ruleEmbedFields, 25, func(n int) string { return numbered(n, `{"name":"n","value":"v"}`) }},
	{"follow-up", "/embeds", ruleEmbedCount, 10, func(n int) string { return numbered(n, `{"title":"t"}`) }},
	{"answer", "/data/attachments/0/description", ruleAttachmentAlt, 1024, letters},
	{"library-message", "/attachments", ruleAttachmentCount, 10, func(n int) string { return numbered(n, `{"id":"6000000000000000#"}`) }},
	{"form", "/data/components/1/component", ruleSelectCount, 10, func(n int) string {
		return `{"type":22,"custom_id":"f","options":` + numbered(n, `{"label":"l","value":"v#"}`) + `}`
	}},
	{"message", "/allowed_mentions/users", ruleMentionsUsers, 100, func(n int) string { return numbered(n, `"#"`) }},
	{"message", "/nonce", ruleNonce, 25, letters},
	{"answer", "/data/components/0/components/0/custom_id", ruleCustomID, 100, letters},
	{"answer", "/data/components/0/components/0/label", ruleButtonLabel, 80, letters},
	{"answer", "/data/components/0/components/2/url", ruleButtonURL, 512, letters},
	{"answer", "/data/components", ruleRowCount, 5, func(n int) string {
		return numbered(n, `{"type":1,"components":[{"type":2,"style":2,"label":"l","custom_id":"c#"}]}`)
	}},
	{"answer", "/data/components/0/components", ruleRowButtons, 5, func(n int) string {
		return numbered(n, `{"type":2,"style":2,"label":"l","custom_id":"c#"}`)
	}},
	{"answer", "/data/components/1/components/0/placeholder", ruleSelectHint, 150, letters},
	{"answer", "/data/components/1/components/0/options/0/label", ruleSelectText, 100, letters},
	{"answer", "/data/components/1/components/0/options/0/value", ruleSelectText, 100, letters},
	{"answer", "/data/components/1/components/0/options/0/description", ruleSelectText, 100, letters},
	{"answer", "/data/components/1/components/0/options", ruleSelectCount, 25, func(n int) string {
		return numbered(n, `{"label":"l","value":"v#"}`)
	}},
	{"form", "/data/title", ruleModalTitle, 45, letters},
	{"form", "/data/components/0/label", ruleLabel, 45, letters},
	{"form", "/data/components/0/description", ruleLabelText, 100, letters},
	{"form", "/data/components/2/components/0/label", ruleLabel, 45, letters},
	{"form", "/data/components/0/component/placeholder", ruleInputHint, 100, letters},
	{"form", "/data/components/0/component/value", ruleInputValue, 1000, letters},
	{"form", "/data/components/2/components/0/max_length", ruleInputLength, 4000, strconv.Itoa},
	{"form", "/data/components", ruleModalCount, 5, func(n int) string { return numbered(n, `{"type":10,"content":"c"}`) }},
	{"second-system", "/components", ruleComponentCount, 40, func(n int) string { return numbered(n, `{"type":10,"content":"c"}`) }},
	{"second-system", "/components/0/components/0/content", ruleTextDisplays, 4000 - 36, letters},
}

// Each limit holds what it names and not one more.
func TestLimitsAreInclusive(t *testing.T) {
	payloads := validPayloads(t)
	for _, c := range limitCases {
		name := fmt.Sprintf("%s%s %d", c.base, c.at, c.limit)
		if faults := lintOf(changed(t, payloads[c.base], c.at, c.make(c.limit))); len(faults) > 0 {
			t.Errorf("%s: at the limit: %v", name, faults)
		}
		faults := lintOf(changed(t, payloads[c.base], c.at, c.make(c.limit+1)))
		if len(faults) != 1 || faults[0].Rule != c.rule {
			t.Errorf("%s: above the limit: %v, want %s", name, faults, c.rule)
		}
	}
}

// Sums over many places, at the limit and one above.
func TestSums(t *testing.T) {
	payloads := validPayloads(t)
	embeds := func(title int) Payload {
		return changed(t, payloads["follow-up"], "/embeds", `[{"description":`+letters(2000)+`,"footer":{"text":`+letters(1000)+`}},
			{"description":`+letters(2000)+`,"fields":[{"name":`+letters(100)+`,"value":`+letters(650)+`}],"author":{"name":`+letters(150)+`}},
			{"title":`+letters(title)+`}]`)
	}
	if faults := lintOf(embeds(100)); len(faults) > 0 {
		t.Errorf("6000 characters of embeds: %v", faults)
	}
	if faults := lintOf(embeds(101)); len(faults) != 1 || faults[0].Rule != ruleEmbedSum {
		t.Errorf("6001 characters of embeds: %v", faults)
	}
	// 24 options of 312 characters and one of 500 leave 8 for the description.
	command := func(description int) Payload {
		return changed(t, payloads["commands"], "", `[{"name":"abcd","description":`+letters(description)+`,"options":`+
			numbered(24, `{"type":3,"name":"option`+strings.Repeat("y", 10)+`","description":`+letters(100)+`,"choices":[{"name":`+letters(98)+`,"value":`+letters(98)+`}]}`)+`}]`)
	}
	size := 4 + 24*(16+100+98+98)
	for i, want := range []int{0, 1} {
		p := distinctOptions(t, command(8000-size-500+i))
		p = changed(t, p, "/0/options/-", `{"type":3,"name":"last","description":`+letters(100)+`,"choices":[{"name":`+letters(100)+`,"value":`+letters(100)+`},{"name":"`+strings.Repeat("z", 96)+`","value":`+letters(100)+`}]}`)
		if faults := lintOf(p); len(faults) != want || want == 1 && faults[0].Rule != ruleCommandSize {
			t.Errorf("%d over 8000 characters of a command: %v", i, faults)
		}
	}
}

// distinctOptions gives the options of the first command different names of the
// same length.
func distinctOptions(t *testing.T, p Payload) Payload {
	t.Helper()
	var body []map[string]any
	if err := json.Unmarshal(p.Body, &body); err != nil {
		t.Fatal(err)
	}
	for i, option := range body[0]["options"].([]any) {
		option.(map[string]any)["name"] = fmt.Sprintf("option%010d", i)
	}
	var err error
	if p.Body, err = json.Marshal(body); err != nil {
		t.Fatal(err)
	}
	return p
}

// Of a command's languages the longest counts.
func TestCommandSizeTakesTheLongestLanguage(t *testing.T) {
	short := lintObject{"", map[string]any{
		"name": "abc", "description": "defg",
		"description_localizations": map[string]any{"de": "hijklmnop"},
		"options":                   []any{map[string]any{"name": "q", "name_localizations": map[string]any{"fr": "rst"}}},
	}}
	for locale, want := range map[string]int{"": 8, "de": 13, "fr": 10, "ja": 8} {
		if got := sizeOf(short, locale); got != want {
			t.Errorf("%q: %d characters, want %d", locale, got, want)
		}
	}
}

func TestLengthsCountCodePoints(t *testing.T) {
	p := validPayloads(t)["message-edit"]
	for text, want := range map[string]int{strings.Repeat("🚴", 2000): 0, strings.Repeat("é", 2001): 1} {
		quoted, _ := json.Marshal(text)
		if faults := lintOf(changed(t, p, "/content", string(quoted))); len(faults) != want {
			t.Errorf("%d bytes: %v", len(text), faults)
		}
	}
}

func TestCommandNames(t *testing.T) {
	p := validPayloads(t)["commands"]
	for name, want := range map[string]bool{
		"rider": true, "race-day": true, "o'clock": true, "_x": true, "été": true, "रेस": true, "การแข่ง": true, "競走": true, "2nd": true,
		"Race": false, "ÉTÉ": false, "race day": false, "race!": false, "": false, "a.b": false,
	} {
		quoted, _ := json.Marshal(name)
		if faults := lintOf(changed(t, p, "/3/name", string(quoted))); (len(faults) == 0) != want {
			t.Errorf("%q: %v", name, faults)
		}
	}
}

func TestTimestamps(t *testing.T) {
	p := validPayloads(t)["message-edit"]
	for text, want := range map[string]bool{
		"<t:1781418600>": true, "<t:1781418600:R>": true, "<t:0:t> to <t:-5:T>": true, "<t:1:d><t:1:D><t:1:f><t:1:F><t:1:s><t:1:S>": true, "a<t b": true,
		"<t:1781418600:r>": false, "<t:1781418600:>": false, "<t:tomorrow>": false, "<t:1781418600.5:f>": false, "<t:1781418600": false, "<t:>": false,
	} {
		quoted, _ := json.Marshal(text)
		faults := lintOf(changed(t, p, "/content", string(quoted)))
		if (len(faults) == 0) != want {
			t.Errorf("%s: %v", text, faults)
		}
	}
}

func TestRoutes(t *testing.T) {
	for _, prefix := range []string{"", "/api", "/api/v9", "/api/v10"} {
		for path, want := range map[string]payloadKind{
			"/channels/1/messages":               payloadMessage,
			"/channels/1/messages?with=query":    payloadMessage,
			"/webhooks/1/t":                      payloadFollowUp,
			"/users/@me/channels":                payloadDM,
			"/channels//messages":                payloadUnknown,
			"/channels/1/messages/2/crosspost":   payloadUnknown,
			"/applications/1/guilds/2/commands":  payloadUnknown,
			"/interactions/1/t/callback":         payloadCallback,
			"/webhooks/1/t/messages/@original":   payloadUnknown, // to be written by PATCH
			"/applications/1/commands":           payloadUnknown, // by PUT
			"/channels/1/messages/2/reactions/a": payloadUnknown,
		} {
			if got := payloadKindOf("POST", prefix+path); got != want {
				t.Errorf("POST %s%s: kind %d, want %d", prefix, path, got, want)
			}
		}
	}
	if got := payloadKindOf("GET", "/anything"); got != payloadNone {
		t.Errorf("a GET has kind %d", got)
	}
	if faults := Lint("GET", "/anything", nil, nil); len(faults) > 0 {
		t.Errorf("a GET: %v", faults)
	}
}

// Paths of interactions hold tokens and bodies hold what people said: errors
// show neither.
func TestErrorsKeepSecrets(t *testing.T) {
	secret := "aW50ZXJhY3Rpb24"
	for name, p := range validPayloads(t) {
		for _, method := range []string{p.Method, "DELETE"} {
			p := changed(t, p, "", `{"content":"`+secret+`","title":"`+secret+`","type":"`+secret+`","flags":"`+secret+`"}`)
			err := CheckRequest(nil, method, strings.Replace(p.Path, "dG9rZW4", secret, 1), p.Body, p.Files)
			if err != nil && strings.Contains(err.Error(), secret) {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	if got := payloadName("POST", "/api/v10/webhooks/123/token/slack"); got != "POST /webhooks/*/*/slack" {
		t.Errorf("shown as %s", got)
	}
}

// recorder is a Reporter that remembers.
type recorder struct{ lines []string }

func (r *recorder) Helper() {}
func (r *recorder) Errorf(format string, args ...any) {
	r.lines = append(r.lines, fmt.Sprintf(format, args...))
}

func TestCheckAll(t *testing.T) {
	payloads := validPayloads(t)
	var r recorder
	CheckAll(&r, nil, payloads["answer"], changed(t, payloads["message"], "/content", letters(2001)), payloads["open-dm"])
	want := "request 1: lint: POST /channels/*/messages: /content: content.length: 2001 characters, want 0 to 2000"
	if len(r.lines) != 1 || r.lines[0] != want {
		t.Errorf("reported %q, want %q", r.lines, want)
	}
}
