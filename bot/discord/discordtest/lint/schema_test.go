package lint

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"musette/bot/bottest/notice"
)

var openedSchemas = sync.OnceValues(func() (*Schemas, error) {
	schemas, _, err := SchemasFromEnv()
	return schemas, err
})

// needSchemas opens Discord's document, or skips where the variable is unset:
// the document is Discord's and not part of the project.
func needSchemas(t *testing.T) *Schemas {
	t.Helper()
	schemas, err := openedSchemas()
	if err != nil {
		t.Fatal(err)
	}
	if schemas == nil {
		notice.Skip(t, "payloads against Discord's API description: %s is not set", SchemasVariable)
	}
	return schemas
}

func TestValidPayloadsPassTheSchema(t *testing.T) {
	schemas := needSchemas(t)
	for name, p := range validPayloads(t) {
		if err := schemas.Check(p.Method, p.Path, p.Body); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := CheckRequest(schemas, p.Method, p.Path, p.Body, p.Files); err != nil {
			t.Errorf("%s: both: %v", name, err)
		}
	}
}

// Only default_member_permissions is exempt, only in a command and only as text.
func TestTheExemptionIsNarrow(t *testing.T) {
	schemas := needSchemas(t)
	commands := validPayloads(t)["commands"]
	for at, wants := range map[string]map[string]bool{
		"/1/default_member_permissions":           {`"32"`: true, `32`: true, `null`: true, `true`: false, `[]`: false, `-1`: false},
		"/1/dm_permission":                        {`"true"`: false, `true`: true},
		"/1/options/0/options/0/name":             {`7`: false},
		"/0/options/0/options/4/max_value":        {`"28"`: false, `28`: true},
		"/1/options/0/default_member_permissions": {`"32"`: true}, // no field of options: the lint refuses it
	} {
		for raw, want := range wants {
			p := changed(t, commands, at, raw)
			if err := schemas.Check(p.Method, p.Path, p.Body); (err == nil) != want {
				t.Errorf("%s = %s: %v", at, raw, err)
			}
		}
	}
	p := changed(t, commands, "/1/options/0/default_member_permissions", `"32"`)
	if faults := lintOf(p); len(faults) != 1 || faults[0].Rule != ruleKeys {
		t.Errorf("lint: %v", faults)
	}
}

func TestUnknownRequestsHaveNoSchema(t *testing.T) {
	schemas := needSchemas(t)
	for _, c := range [][2]string{
		{"POST", "/api/v10/guilds/1/roles"}, {"DELETE", "/api/v10/channels/1/messages/2"}, {"PUT", "/api/v10/applications/1/commands/2"},
		{"POST", "/api/v10/interactions/1/secret/other"}, {"POST", ""},
	} {
		err := schemas.Check(c[0], c[1], []byte(`{}`))
		if err == nil || !strings.HasPrefix(err.Error(), "no schema for "+c[0]) || strings.Contains(err.Error(), "secret") {
			t.Errorf("%s %s: %v", c[0], c[1], err)
		}
	}
	if err := schemas.Check("GET", "/api/v10/guilds/1/roles", nil); err != nil {
		t.Errorf("a GET: %v", err)
	}
}

// Errors name the place and the rule of the branch that was meant, and nothing
// that the payload says.
func TestSchemaErrorsAreShort(t *testing.T) {
	schemas := needSchemas(t)
	p := changed(t, validPayloads(t)["answer"], "/data/components/0/components/0/style", "")
	p = changed(t, p, "/data/embeds/0/timestamp", `"secret words"`)
	err := schemas.Check(p.Method, p.Path, p.Body)
	want := "POST /interactions/*/*/callback: /data/components/0/components/0: lacks style; /data/embeds/0/timestamp: is no valid date-time"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestSchemasAreSharedSafely(t *testing.T) {
	schemas := needSchemas(t)
	payloads := validPayloads(t)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for name, p := range payloads {
				if err := schemas.Check(p.Method, p.Path, p.Body); err != nil {
					t.Errorf("%s: %v", name, err)
				}
			}
		})
	}
	group.Wait()
}

func TestOpenSchemasRefusesOtherFiles(t *testing.T) {
	for name, content := range map[string]string{"empty": "", "list": "[]", "other": `{"openapi":"3.1.0","components":{"schemas":{}}}`} {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := OpenSchemas(path); err == nil {
			t.Errorf("%s was taken for Discord's document", name)
		}
	}
	if _, err := OpenSchemas(filepath.Join(t.TempDir(), "none")); err == nil {
		t.Error("a missing file was opened")
	}
	t.Setenv(SchemasVariable, "")
	if schemas, path, err := SchemasFromEnv(); schemas != nil || path != "" || err != nil {
		t.Errorf("unset: %v %q %v", schemas, path, err)
	}
}
