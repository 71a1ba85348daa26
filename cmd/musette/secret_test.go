package main

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestSecretIsNeverPrinted(t *testing.T) {
	t.Chdir(t.TempDir())
	full, err := loadConfig(t.Context(), []string{"MUSETTE_DISCORD__TOKEN=" + hiddenToken}, "", nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := string(full.Discord.Token); got != hiddenToken {
		t.Fatalf("got token %q, want %q", got, hiddenToken)
	}
	for _, test := range []struct {
		config Config
		want   string
	}{{full, "set, hidden"}, {Config{}, "not set"}} {
		var log strings.Builder
		slog.New(slog.NewTextHandler(&log, nil)).Info("start", "config", test.config, "token", test.config.Discord.Token)
		printed := map[string]string{"log": log.String()}
		for _, value := range []any{test.config, &test.config, test.config.Discord, test.config.Discord.Token} {
			for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%d"} {
				printed[fmt.Sprintf("%s of %T", verb, value)] = fmt.Sprintf(verb, value)
			}
			data, err := json.Marshal(value)
			if err != nil {
				t.Fatal(err)
			}
			printed[fmt.Sprintf("JSON of %T", value)] = string(data)
		}
		for how, got := range printed {
			if strings.Contains(got, hiddenToken) || strings.Contains(got, fmt.Sprintf("%x", hiddenToken)) {
				t.Errorf("%s gives the token away: %s", how, got)
			}
		}
		for _, how := range []string{"log", "%v of main.Config", "%+v of main.Config", "%#v of main.Config", "%v of main.Secret", "JSON of main.Config"} {
			if got := printed[how]; !strings.Contains(got, test.want) {
				t.Errorf("%s: got %s, want %q in it", how, got, test.want)
			}
		}
	}
}

func TestTokenOfFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "token")
	for name, test := range map[string]struct{ content, token, fault string }{
		"plain":        {"abc.def", "abc.def", ""},
		"with newline": {"abc.def\r\n", "abc.def", ""},
		"with bot":     {"Bot 'abc.def'\n", "abc.def", ""},
		"empty":        {"\n", "", path + " is empty. Write the bot's token into it and nothing else"},
		"two lines":    {hiddenToken + "\n" + hiddenToken + "\n", "", path + " has blanks or odd characters inside, copy it again. Write the bot's token into it and nothing else"},
		"large":        {strings.Repeat(hiddenToken, 1000), "", path + " is too large for a token. Write the bot's token into it and nothing else"},
	} {
		if err := os.WriteFile(path, []byte(test.content), 0o600); err != nil {
			t.Fatal(err)
		}
		got, err := Discord{TokenFile: path}.token(t.Context())
		fault := ""
		if err != nil {
			fault = err.Error()
		}
		if test.fault != "" {
			test.fault = "discord.token_file: " + test.fault
		}
		if string(got) != test.token || fault != test.fault {
			t.Errorf("%s: got %q, %q; want %q, %q", name, string(got), fault, test.token, test.fault)
		}
	}
	for name, test := range map[string]struct {
		discord Discord
		want    string
	}{
		"missing file": {Discord{TokenFile: filepath.Join(dir, "none")}, "discord.token_file: cannot be read (open " + filepath.Join(dir, "none") + ": no such file or directory). Name a file that holds the bot's token"},
		"folder":       {Discord{TokenFile: dir}, "discord.token_file: cannot be read (read " + dir + ": is a directory). Name a file that holds the bot's token"},
		"neither":      {Discord{}, "discord.token: is missing. Set MUSETTE_DISCORD__TOKEN to your bot's token, see docs/admin.md"},
	} {
		if got, err := test.discord.token(t.Context()); err == nil || err.Error() != test.want || got != "" {
			t.Errorf("%s: got %q, %v; want %s", name, string(got), err, test.want)
		}
	}
}
