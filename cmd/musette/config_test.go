package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
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
	ofFile := Config{"file.db", "file", "Europe/Paris", Discord{"file"}}
	ofEnv := Config{"env.db", "env", "Europe/Rome", Discord{"env"}}
	for name, test := range map[string]struct {
		file  string
		env   []string
		flags map[string]string
		want  Config
	}{
		"default":               {"", nil, nil, Config{"musette.db", "home", "Asia/Tokyo", Discord{}}},
		"file":                  {inFile, nil, nil, ofFile},
		"environment":           {"", inEnv, nil, ofEnv},
		"flag":                  {"", nil, inFlags, Config{"flag.db", "flag", "Europe/Oslo", Discord{}}},
		"environment over file": {inFile, inEnv, nil, ofEnv},
		"flag over file":        {inFile, nil, inFlags, Config{"flag.db", "flag", "Europe/Oslo", Discord{"file"}}},
		"flag over all":         {inFile, inEnv, inFlags, Config{"flag.db", "flag", "Europe/Oslo", Discord{"env"}}},
		"each from its own": {
			"zone = 'Europe/Paris'", inEnv[1:2], map[string]string{"db": "flag.db"},
			Config{"flag.db", "env", "Europe/Paris", Discord{}},
		},
		"empty variables are not set": {inFile, []string{"MUSETTE_DB=", "MUSETTE_DISCORD__TOKEN="}, nil, ofFile},
		"section without lines":       {"[discord]\n# token = ''\n", nil, nil, Config{"musette.db", "home", "Asia/Tokyo", Discord{}}},
		"variable of a test":          {inFile, []string{"MUSETTE_DISCORD_OPENAPI=/tmp/api.json", "HOME=/root", "MUSETTE"}, nil, ofFile},
	} {
		t.Run(name, func(t *testing.T) {
			path := ""
			if test.file != "" {
				path = writeConfig(t, test.file)
			}
			t.Chdir(t.TempDir())
			got, err := loadConfig(slices.Concat(test.env, []string{"TZ=Asia/Tokyo"}), path, test.flags)
			if err != nil {
				t.Fatal(err)
			}
			if got != test.want {
				t.Errorf("got %v with token %s, want %v with token %s", got, string(got.Discord.Token), test.want, string(test.want.Discord.Token))
			}
		})
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
		got, err := loadConfig([]string{"MUSETTE_CONFIG=" + test.env}, test.flag, nil)
		if err != nil || got.Club != test.want {
			t.Errorf("got club %q and error %v, want %q", got.Club, err, test.want)
		}
	}
}

func TestConfigRefuses(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "none.toml")
	const all = "there are %s, %s, %s, %s"
	for name, test := range map[string]struct {
		file       string // contents
		configFlag string
		env        []string
		flags      map[string]string
		want       []string // lines; FILE stands for the file's path
	}{
		"unknown in file": {file: "dbb = 'x.db'", want: []string{"dbb in FILE: is not a setting; did you mean db in FILE?"}},
		"capitals in file": {
			file: "Zone = 'UTC'", want: []string{"Zone in FILE: is not a setting; did you mean zone in FILE?"},
		},
		"unknown in section": {
			file: "[discord]\ntokn = 'x'", want: []string{"discord.tokn in FILE: is not a setting; did you mean discord.token in FILE?"},
		},
		"far from all in file": {
			file: "gearbox = 11", want: []string{"gearbox in FILE: is not a setting; " + fmt.Sprintf(all, "db in FILE", "club in FILE", "zone in FILE", "discord.token in FILE")},
		},
		"empty unknown section": {file: "[bakery]", want: []string{"bakery in FILE: is not a setting; " + fmt.Sprintf(all, "db in FILE", "club in FILE", "zone in FILE", "discord.token in FILE")}},
		"setting for a section": {
			file: "discord = 'x'", want: []string{"discord in FILE: is not a setting; did you mean discord.token in FILE?"},
		},
		"unknown in environment": {
			env: []string{"MUSETTE_CLBU=x"}, want: []string{"MUSETTE_CLBU: is not a setting; did you mean MUSETTE_CLUB?"},
		},
		"one underscore": {
			env:  []string{"MUSETTE_DISCORD_TOKEN=" + hiddenToken},
			want: []string{"MUSETTE_DISCORD_TOKEN: is not a setting; did you mean MUSETTE_DISCORD__TOKEN?"},
		},
		"small letters in environment": {
			env: []string{"MUSETTE_db=x"}, want: []string{"MUSETTE_db: is not a setting; did you mean MUSETTE_DB?"},
		},
		"dot in environment": {
			env:  []string{"MUSETTE_discord.token=" + hiddenToken},
			want: []string{"MUSETTE_discord.token: is not a setting; did you mean MUSETTE_DISCORD__TOKEN?"},
		},
		"far from all in environment": {
			env: []string{"MUSETTE_WEATHER=rain"},
			want: []string{"MUSETTE_WEATHER: is not a setting; " +
				fmt.Sprintf(all, "MUSETTE_DB", "MUSETTE_CLUB", "MUSETTE_ZONE", "MUSETTE_DISCORD__TOKEN")},
		},
		"unknown flag": {flags: map[string]string{"zoen": "UTC"}, want: []string{"--zoen: is not a setting; did you mean --zone?"}},
		"token as a flag": {
			flags: map[string]string{"discord.token": hiddenToken},
			want:  []string{"--discord.token: is a secret and no flag, since others could read it; set MUSETTE_DISCORD__TOKEN"},
		},
		"zone in file":        {file: "zone = 'Mars/Base'", want: []string{`zone in FILE: "Mars/Base" is not a time zone; for example Europe/Lisbon`}},
		"zone in environment": {env: []string{"MUSETTE_ZONE=Local"}, want: []string{`MUSETTE_ZONE: "Local" is not a time zone; for example Europe/Lisbon`}},
		"zone flag":           {flags: map[string]string{"zone": ""}, want: []string{`--zone: "" is not a time zone; for example Europe/Lisbon`}},
		"empty in file":       {file: "db = ''", want: []string{"db in FILE: is empty; for example musette.db"}},
		"empty flag":          {flags: map[string]string{"club": " "}, want: []string{"--club: is empty; for example home"}},
		"number in file":      {file: "club = 7", want: []string{`club in FILE: must be text in quotes; for example "home"`}},
		"number for a secret": {
			file: "[discord]\ntoken = 12345", want: []string{`discord.token in FILE: must be text in quotes; for example "the token of your bot"`},
		},
		"not TOML": {
			file: "db = 'x.db'\n[discord]\ntoken = " + hiddenToken,
			want: []string{`FILE:3:9: is not valid TOML; write each setting once, its text in quotes, for example db = "musette.db"`},
		},
		"missing file": {
			configFlag: missing,
			want:       []string{"--config: cannot be read (open " + missing + ": no such file or directory); name a TOML file, for example musette.toml"},
		},
		"missing file of the environment": {
			env:  []string{"MUSETTE_CONFIG=" + missing},
			want: []string{"MUSETTE_CONFIG: cannot be read (open " + missing + ": no such file or directory); name a TOML file, for example musette.toml"},
		},
		"a line for each": {
			file: "dbb = 'x.db'", env: []string{"MUSETTE_ZONE=Mars"}, flags: map[string]string{"club": ""},
			want: []string{
				"dbb in FILE: is not a setting; did you mean db in FILE?",
				`MUSETTE_ZONE: "Mars" is not a time zone; for example Europe/Lisbon`,
				"--club: is empty; for example home",
			},
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := test.configFlag
			if test.file != "" {
				path = writeConfig(t, test.file)
			}
			t.Chdir(t.TempDir())
			_, err := loadConfig(test.env, path, test.flags)
			var input *planner.InputError
			if !errors.As(err, &input) {
				t.Fatalf("got error %v, want an input error", err)
			}
			want := strings.ReplaceAll(strings.Join(test.want, "\n"), "FILE", path)
			if got := err.Error(); got != want {
				t.Errorf("got:\n%s\nwant:\n%s", got, want)
			}
			if strings.Contains(err.Error(), hiddenToken) {
				t.Errorf("the error gives the token away: %v", err)
			}
		})
	}
}

func TestSecretIsNeverPrinted(t *testing.T) {
	t.Chdir(t.TempDir())
	full, err := loadConfig([]string{"MUSETTE_DISCORD__TOKEN=" + hiddenToken}, "", nil)
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
