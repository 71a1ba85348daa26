package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/planner"
)

const hiddenToken = "s3cr3t-t0k3n"

func writeConfig(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "club.toml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestConfigPrecedence(t *testing.T) {
	const inFile = "db = 'file.db'\nclub = 'file'\nzone = 'Europe/Paris'\n[discord]\ntoken = 'file'\n"
	inEnv := []string{"MUSETTE_DB=env.db", "MUSETTE_CLUB=env", "MUSETTE_ZONE=Europe/Rome", "MUSETTE_DISCORD__TOKEN=env"}
	inFlags := map[string]string{"db": "flag.db", "club": "flag", "zone": "Europe/Oslo"}
	withToken := func(db, club, zone string, token Secret) Config {
		return Config{DB: db, Club: club, Zone: zone, Log: "info", Discord: Discord{Token: token}}
	}
	ofFile := withToken("file.db", "file", "Europe/Paris", "file")
	ofEnv := withToken("env.db", "env", "Europe/Rome", "env")
	ofDiscord := func(d Discord) Config {
		return Config{DB: "musette.db", Club: "home", Zone: "Asia/Tokyo", Log: "info", Discord: d}
	}
	const double = "http://127.0.0.1:8585"
	for name, test := range map[string]struct {
		file  string
		env   []string
		flags map[string]string
		want  Config
	}{
		"default":               {"", nil, nil, ofDiscord(Discord{})},
		"file":                  {inFile, nil, nil, ofFile},
		"environment":           {"", inEnv, nil, ofEnv},
		"flag":                  {"", nil, inFlags, withToken("flag.db", "flag", "Europe/Oslo", "")},
		"environment over file": {inFile, inEnv, nil, ofEnv},
		"flag over file":        {inFile, nil, inFlags, withToken("flag.db", "flag", "Europe/Oslo", "file")},
		"flag over all":         {inFile, inEnv, inFlags, withToken("flag.db", "flag", "Europe/Oslo", "env")},
		"each from its own": {
			"zone = 'Europe/Paris'", inEnv[1:2], map[string]string{"db": "flag.db"},
			withToken("flag.db", "env", "Europe/Paris", ""),
		},
		"empty variables are not set": {inFile, []string{"MUSETTE_DB=", "MUSETTE_DISCORD__TOKEN="}, nil, ofFile},
		"section without lines":       {"[discord]\n# token = ''\n", nil, nil, ofDiscord(Discord{})},
		"all of discord": {
			"log = 'debug'\n[discord]\ntoken = '" + hiddenToken + "'\nurl = '" + double + "'", []string{"MUSETTE_LOG=warn"}, nil,
			Config{DB: "musette.db", Club: "home", Zone: "Asia/Tokyo", Log: "warn", Discord: Discord{hiddenToken, "", double}},
		},
		"no url is discord itself": {"[discord]\nurl = ''", nil, nil, ofDiscord(Discord{})},
		"url of the environment":   {"", []string{"MUSETTE_DISCORD__URL=https://chat.example/api/v10"}, nil, ofDiscord(Discord{URL: "https://chat.example/api/v10"})},
		"file of a token":          {"[discord]\ntoken_file = '/run/token'", nil, nil, ofDiscord(Discord{TokenFile: "/run/token"})},
		"token outranks a file":    {"[discord]\ntoken_file = '/run/token'", []string{"MUSETTE_DISCORD__TOKEN=env"}, nil, ofDiscord(Discord{Token: "env"})},
		"file outranks a token":    {"[discord]\ntoken = 'file'", []string{"MUSETTE_DISCORD__TOKEN_FILE=/run/token"}, nil, ofDiscord(Discord{TokenFile: "/run/token"})},
		"token copied with more":   {"[discord]\ntoken = ' Bot abc.def '", nil, nil, ofDiscord(Discord{Token: "abc.def"})},
		"variable of a test":       {inFile, []string{"MUSETTE_DISCORD_OPENAPI=/tmp/api.json", "HOME=/root", "MUSETTE"}, nil, ofFile},
	} {
		t.Run(name, func(t *testing.T) {
			path := ""
			if test.file != "" {
				path = writeConfig(t, test.file)
			}
			t.Chdir(t.TempDir())
			got, err := loadConfig(t.Context(), slices.Concat(test.env, []string{"TZ=Asia/Tokyo"}), path, test.flags)
			if err != nil {
				t.Fatal(err)
			}
			got.secretFile = "" // depends on the folder
			test.want.LogFormat, test.want.Metrics = "text", "127.0.0.1:9464"
			test.want.Shards, test.want.Own = "auto", "all"
			if got != test.want {
				t.Errorf("got %v with token %s, want %v with token %s", got, string(got.Discord.Token), test.want, string(test.want.Discord.Token))
			}
		})
	}
}

// A mark of the encoding, as some editors write it, does no harm.
func TestConfigFileWithAMark(t *testing.T) {
	got, err := loadConfig(t.Context(), nil, writeConfig(t, "\ufeffclub = 'valley'"), nil)
	if err != nil || got.Club != "valley" {
		t.Errorf("got club %q and error %v", got.Club, err)
	}
}

// A musette.toml that leads nowhere is not as if there were none: somebody meant it.
func TestConfigFileThatIsGone(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Symlink("gone.toml", "musette.toml"); err != nil {
		t.Fatal(err)
	}
	_, err := loadConfig(t.Context(), nil, "", nil)
	if want := "musette.toml: cannot be read (open musette.toml: no such file or directory). Name a TOML file, for example musette.toml"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestConfigFileIsFound(t *testing.T) {
	inFlag, inEnv := writeConfig(t, "club = 'by flag'"), writeConfig(t, "club = 'by environment'")
	t.Chdir(t.TempDir())
	if err := os.WriteFile("musette.toml", []byte("club = 'by name'"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ flag, env, want string }{
		{"", "", "by name"}, {"", inEnv, "by environment"}, {inFlag, "", "by flag"}, {inFlag, inEnv, "by flag"},
	} {
		got, err := loadConfig(t.Context(), []string{"MUSETTE_CONFIG=" + test.env}, test.flag, nil)
		if err != nil || got.Club != test.want {
			t.Errorf("got club %q and error %v, want %q", got.Club, err, test.want)
		}
	}
}

// refusedConfig is a wrong configuration and the lines that say so; FILE stands
// for the file's path.
type refusedConfig struct {
	file       string // contents
	configFlag string
	env        []string
	flags      map[string]string
	want       []string
}

func TestConfigRefusesWhatIsNoSetting(t *testing.T) {
	const allInFile = "Settings: db in FILE, club in FILE, zone in FILE, log in FILE, log_format in FILE, metrics in FILE, shards in FILE, own in FILE, discord.token in FILE, discord.token_file in FILE, discord.url in FILE"
	inFile := func(text, want string) refusedConfig { return refusedConfig{file: text, want: []string{want}} }
	inEnv := func(variable, want string) refusedConfig {
		return refusedConfig{env: []string{variable}, want: []string{want}}
	}
	for name, test := range map[string]refusedConfig{
		"unknown in file":              inFile("dbb = 'x.db'", "dbb in FILE: is not a setting. Did you mean db in FILE?"),
		"capitals in file":             inFile("Zone = 'UTC'", "Zone in FILE: is not a setting. Did you mean zone in FILE?"),
		"unknown in section":           inFile("[discord]\ntokn = 'x'", "discord.tokn in FILE: is not a setting. Did you mean discord.token in FILE?"),
		"token for a key":              inFile("[discord]\n'Mz.a1B2-Secret.t0k3n' = ''", "a key that is not shown, since it may be a secret: is not a setting. "+allInFile),
		"long key":                     inFile(strings.Repeat("a", 41)+" = 1", "a key that is not shown, since it may be a secret: is not a setting. "+allInFile),
		"far from all in file":         inFile("gearbox = 11", "gearbox in FILE: is not a setting. "+allInFile),
		"empty unknown section":        inFile("[bakery]", "bakery in FILE: is not a setting. "+allInFile),
		"setting for a section":        inFile("discord = 'x'", "discord in FILE: is not a setting. Did you mean discord.token in FILE?"),
		"unknown in environment":       inEnv("MUSETTE_CLBU=x", "MUSETTE_CLBU: is not a setting. Did you mean MUSETTE_CLUB?"),
		"one underscore":               inEnv("MUSETTE_DISCORD_TOKEN="+hiddenToken, "MUSETTE_DISCORD_TOKEN: is not a setting. Did you mean MUSETTE_DISCORD__TOKEN?"),
		"small letters in environment": inEnv("MUSETTE_db=x", "MUSETTE_db: is not a setting. Did you mean MUSETTE_DB?"),
		"dot in environment":           inEnv("MUSETTE_discord.token="+hiddenToken, "MUSETTE_discord.token: is not a setting. Did you mean MUSETTE_DISCORD__TOKEN?"),
		"far from all in environment": inEnv("MUSETTE_WEATHER=rain", "MUSETTE_WEATHER: is not a setting. "+
			"Settings: MUSETTE_DB, MUSETTE_CLUB, MUSETTE_ZONE, MUSETTE_LOG, MUSETTE_LOG_FORMAT, MUSETTE_METRICS, MUSETTE_SHARDS, MUSETTE_OWN, MUSETTE_DISCORD__TOKEN, MUSETTE_DISCORD__TOKEN_FILE, MUSETTE_DISCORD__URL"),
		"unknown flag": {flags: map[string]string{"zoen": "UTC"}, want: []string{"--zoen: is not a setting. Did you mean --zone?"}},
		"token as a flag": {flags: map[string]string{"discord.token": hiddenToken},
			want: []string{"--discord.token: is a secret and no flag, since others could read it. Set MUSETTE_DISCORD__TOKEN"}},
		"a line for each": {file: "dbb = 'x.db'", env: []string{"MUSETTE_ZONE=Mars"}, flags: map[string]string{"club": ""}, want: []string{
			"dbb in FILE: is not a setting. Did you mean db in FILE?",
			`MUSETTE_ZONE: "Mars" is not a time zone. For example Europe/Lisbon`,
			"--club: is empty. For example home"}},
	} {
		t.Run(name, test.check)
	}
}

func TestConfigRefusesValues(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "none.toml")
	unreadable := "cannot be read (open " + missing + ": no such file or directory). Name a TOML file, for example musette.toml"
	inFile := func(text, want string) refusedConfig { return refusedConfig{file: text, want: []string{want}} }
	inEnv := func(want string, variables ...string) refusedConfig {
		return refusedConfig{env: variables, want: []string{want}}
	}
	for name, test := range map[string]refusedConfig{
		"zone in file":        inFile("zone = 'Mars/Base'", `zone in FILE: "Mars/Base" is not a time zone. For example Europe/Lisbon`),
		"zone in environment": inEnv(`MUSETTE_ZONE: "Local" is not a time zone. For example Europe/Lisbon`, "MUSETTE_ZONE=Local"),
		"zone flag":           {flags: map[string]string{"zone": ""}, want: []string{`--zone: "" is not a time zone. For example Europe/Lisbon`}},
		"empty in file":       inFile("db = ''", "db in FILE: is empty. For example musette.db"),
		"byte of zero":        inFile(`db = "a\u0000b"`, "db in FILE: holds a character that cannot be seen. For example musette.db"),
		"line in a club":      inEnv("MUSETTE_CLUB: holds a character that cannot be seen. For example home", "MUSETTE_CLUB=a\nb"),
		"UTF-16":              {file: "\xff\xfed\x00", configFlag: "", want: []string{"--config: is UTF-16 text. Save it as UTF-8, for example in musette.toml"}},
		"port of an address":  inEnv("MUSETTE_DISCORD__URL: its port is none from 1 to 65535. For example http://127.0.0.1:8585", "MUSETTE_DISCORD__URL=http://127.0.0.1:99999"),
		"port of zero":        inEnv("MUSETTE_DISCORD__URL: its port is none from 1 to 65535. For example http://127.0.0.1:8585", "MUSETTE_DISCORD__URL=http://127.0.0.1:0"),
		"empty flag":          {flags: map[string]string{"club": " "}, want: []string{"--club: is empty. For example home"}},
		"number in file":      inFile("club = 7", `club in FILE: must be text in quotes. For example "home"`),
		"number for a secret": inFile("[discord]\ntoken = 12345", `discord.token in FILE: must be text in quotes. For example "the token of your bot"`),
		"level":               inEnv(`MUSETTE_LOG: "loud" is none of debug, info and warn. For example info`, "MUSETTE_LOG=loud"),
		"shards":              inFile("shards = 'many'", `shards in FILE: "many" is neither auto nor a number from 1 to 1000. For example 6`),
		"no shards":           {flags: map[string]string{"shards": "0"}, want: []string{`--shards: "0" is neither auto nor a number from 1 to 1000. For example 6`}},
		"own shards":          inEnv(`MUSETTE_OWN: "2-1" is neither all nor numbers of shards, which begin at 0. For example 0-1`, "MUSETTE_OWN=2-1"),
		"no port":             inEnv(`MUSETTE_METRICS: "127.0.0.1" is no address with a port, and not off. For example 127.0.0.1:9464`, "MUSETTE_METRICS=127.0.0.1"),
		"port too high":       inFile("metrics = '127.0.0.1:99999'", `metrics in FILE: "127.0.0.1:99999" has a port that is none from 1 to 65535. For example 127.0.0.1:9464`),
		"port below all":      inFile("metrics = ':-1'", `metrics in FILE: ":-1" has a port that is none from 1 to 65535. For example 127.0.0.1:9464`),
		"blanks in a token": inEnv("MUSETTE_DISCORD__TOKEN: has blanks or odd characters inside, copy it again. For example the token of your bot",
			"MUSETTE_DISCORD__TOKEN="+hiddenToken+" "+hiddenToken),
		"token of quotes": inFile(`discord.token = " '' "`, "discord.token in FILE: is empty. For example the token of your bot"),
		"two tokens in a file": inFile("[discord]\ntoken = '"+hiddenToken+"'\ntoken_file = '/run/token'",
			"discord.token_file in FILE: tells the token a second time. Keep it or discord.token in FILE, not both"),
		"two tokens in the environment": inEnv("MUSETTE_DISCORD__TOKEN_FILE: tells the token a second time. Keep it or MUSETTE_DISCORD__TOKEN, not both",
			"MUSETTE_DISCORD__TOKEN="+hiddenToken, "MUSETTE_DISCORD__TOKEN_FILE=/run/token"),
		"address over the open network": inEnv("MUSETTE_DISCORD__URL: http:// would send the bot's token in clear text over the network, use https://. For example http://127.0.0.1:8585",
			"MUSETTE_DISCORD__URL=http://chat.example"),
		"no address": inFile("[discord]\nurl = 'discord'", "discord.url in FILE: this is not an address of the web. For example http://127.0.0.1:8585"),
		"not TOML": inFile("db = 'x.db'\n[discord]\ntoken = "+hiddenToken,
			`FILE:3:9: is not valid TOML. Write each setting once, its text in quotes, for example db = "musette.db"`),
		"missing file":                    {configFlag: missing, want: []string{"--config: " + unreadable}},
		"missing file of the environment": inEnv("MUSETTE_CONFIG: "+unreadable, "MUSETTE_CONFIG="+missing),
	} {
		t.Run(name, test.check)
	}
}

func (c refusedConfig) check(t *testing.T) {
	path := c.configFlag
	if c.file != "" {
		path = writeConfig(t, c.file)
	}
	t.Chdir(t.TempDir())
	_, err := loadConfig(t.Context(), c.env, path, c.flags)
	var input *planner.InputError
	if !errors.As(err, &input) {
		t.Fatalf("got error %v, want an input error", err)
	}
	want := regexp.MustCompile(`\bFILE\b`).ReplaceAllLiteralString(strings.Join(c.want, "\n"), path)
	if got := err.Error(); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	if strings.Contains(err.Error(), hiddenToken) {
		t.Errorf("the error gives the token away: %v", err)
	}
}

func TestMachineZone(t *testing.T) {
	for tz, want := range map[string]string{"Asia/Tokyo": "Asia/Tokyo", ":Europe/Lisbon": "Europe/Lisbon"} {
		if got := machineZone(map[string]string{"TZ": tz}); got != want {
			t.Errorf("TZ=%s: got %s, want %s", tz, got, want)
		}
	}
	if got := machineZone(map[string]string{"TZ": "Mars/Base"}); isZone(got) != "" {
		t.Errorf("got %q, want a zone that loads", got)
	}
}

func TestSettingsAreDocumented(t *testing.T) {
	page, err := os.ReadFile("../../docs/contract.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range settings {
		if row := fmt.Sprintf("\n| `%s` | `%s` |", s.key, s.envName()); !strings.Contains(string(page), row) {
			t.Errorf("docs/contract.md lacks the row %q", row)
		}
	}
}
