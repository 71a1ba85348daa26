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
		"with mark":    {"\ufeffabc.def\n", "abc.def", ""},
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

// madeUpToken has the form of a token; nobody has it.
const madeUpToken = "MTIzNDU2Nzg5MDEyMzQ1Njc4OQ.GAbCdE.made-up_0123456789abcdefghijklmnopqrst"

// A token that was written in the place of something else is not printed either.
func TestTokenInTheWrongPlace(t *testing.T) {
	t.Chdir(t.TempDir())
	secret := strings.Split(madeUpToken, ".")[2]
	try := func(where string, environ []string, want string, args ...string) {
		t.Helper()
		var out, errs strings.Builder
		run(t.Context(), args, append(environ, "TZ=UTC", "MUSETTE_DISCORD__URL=http://127.0.0.1:1"), strings.NewReader(""), &out, &errs)
		if said := out.String() + errs.String(); strings.Contains(said, secret) || !strings.Contains(said, want) {
			t.Errorf("%s, %v: want %q in\n%s", where, args, want, said)
		}
	}
	const belongs = ": holds what looks like a token, so it is not shown. Tell the token as "
	for _, command := range []string{"config", "check", "serve", "chat"} {
		for _, s := range settings {
			if !s.secret && s.key != "discord.url" {
				try(s.key, []string{s.envName() + "=" + madeUpToken}, s.envName()+belongs+"MUSETTE_DISCORD__TOKEN", command)
			}
		}
		try("--config", nil, "--config: cannot be read", "--config", madeUpToken, command)
	}
	file := writeConfig(t, "zone = '"+madeUpToken+"'")
	try("file", nil, "zone in "+file+belongs+"discord.token in "+file+". For example Europe/Lisbon", "config", "--config", file)
	for flag, command := range map[string]string{"--db": "check", "--zone": "chat", "--club": "chat", "--as": "chat", "--now": "chat", "--to": "backup", "--own": "serve", "--shards": "serve", "--rider": "export"} {
		try(flag, nil, flag+belongs+"MUSETTE_DISCORD__TOKEN. For example ", command, flag, madeUpToken)
	}
	try("argument", nil, "unexpected argument "+hidden, "serve", madeUpToken)
	try("command", nil, hidden, madeUpToken)
	// A part of a token, as it is when it was not copied whole.
	part := []string{"MUSETTE_DISCORD__TOKEN_FILE=GAbCdE." + secret}
	try("part", part, `discord.token_file = "`+hidden+`"`, "config")
	try("part", part, "cannot be read (open "+hidden, "check")
	try("part", []string{"MUSETTE_ZONE=GAbCdE." + secret}, `"`+hidden+`" is not a time zone`, "check")
	long := "Token-2026-of-our-Bot-and-no-Secret"
	if err := os.WriteFile(long, []byte("two words"), 0o600); err != nil {
		t.Fatal(err)
	}
	try("a file with a long name", []string{"MUSETTE_DISCORD__TOKEN_FILE=" + long}, long+" has blanks", "check")
	if rest := shown("backups/Musette-2026-05-28-of-the-Club.db"); rest != "backups/Musette-2026-05-28-of-the-Club.db" {
		t.Errorf("got %s", rest)
	}
}
