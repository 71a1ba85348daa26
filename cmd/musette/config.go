package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // riders' zones work on machines without zone files, too

	"github.com/knadh/koanf/parsers/toml/v2"
	"github.com/knadh/koanf/providers/confmap"
	"github.com/knadh/koanf/providers/env/v2"
	"github.com/knadh/koanf/providers/file"
	"github.com/knadh/koanf/providers/structs"
	"github.com/knadh/koanf/v2"

	"musette/planner"
)

// Config is what the operator chose. Each value comes from a flag, else the
// environment, else the configuration file, else the default.
type Config struct {
	DB      string  `koanf:"db"`   // database file
	Club    string  `koanf:"club"` // club that the terminal speaks for
	Zone    string  `koanf:"zone"` // IANA name; the machine's zone unless told
	Discord Discord `koanf:"discord"`
}

// Discord is how the bot signs in there.
type Discord struct {
	Token Secret `koanf:"token"`
}

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

// String is the configuration for a log line.
func (c Config) String() string {
	return fmt.Sprintf("db=%q club=%q zone=%q discord.token=(%s)", c.DB, c.Club, c.Zone, c.Discord.Token)
}

const (
	envPrefix         = "MUSETTE_"
	envConfig         = envPrefix + "CONFIG"          // where the configuration file is
	envDiscordOpenAPI = envPrefix + "DISCORD_OPENAPI" // read by a test, not by the program
	defaultConfigFile = "musette.toml"
)

// setting is a key as the file writes it, dots between parts. check names what
// is wrong with a value, or nothing.
type setting struct {
	key, example string
	secret       bool
	check        func(value string) string
}

var settings = []setting{
	{key: "db", example: "musette.db", check: isTold},
	{key: "club", example: "home", check: isTold},
	{key: "zone", example: "Europe/Lisbon", check: isZone},
	{key: "discord.token", example: "the token of your bot", secret: true, check: isTold},
}

func (s setting) envName() string {
	return envPrefix + strings.ToUpper(strings.ReplaceAll(s.key, ".", "__"))
}

func isTold(value string) string {
	if strings.TrimSpace(value) == "" {
		return "is empty"
	}
	return ""
}

func isZone(value string) string {
	if _, err := time.LoadLocation(value); err != nil || value == "" || value == "Local" {
		return fmt.Sprintf("%q is not a time zone", value)
	}
	return ""
}

// loadConfig reads the configuration. environ is as of os.Environ; configFile
// is the value of --config, empty when not given; flags holds the flags that
// were given, by setting. Each fault is a *planner.InputError on its own line;
// an empty variable counts as not set.
func loadConfig(environ []string, configFile string, flags map[string]string) (Config, error) {
	vars := variables(environ)
	l := loader{merged: koanf.New(".")}
	l.add(nil, structs.Provider(Config{DB: "musette.db", Club: "home", Zone: machineZone(vars)}, "koanf"), nil)
	l.addFile(configFile, vars[envConfig])
	l.addEnvironment(environ)
	l.addFlags(flags)
	var c Config
	if len(l.faults) == 0 {
		l.faults = append(l.faults, l.merged.Unmarshal("", &c))
	}
	if err := errors.Join(l.faults...); err != nil {
		return Config{}, err
	}
	return c, nil
}

func variables(environ []string) map[string]string {
	vars := map[string]string{}
	for _, entry := range environ {
		if name, value, ok := strings.Cut(entry, "="); ok && value != "" {
			vars[name] = value
		}
	}
	return vars
}

// loader lays one source of settings over the other and collects what is wrong with them.
type loader struct {
	merged *koanf.Koanf
	faults []error
}

func (l *loader) fault(field, format string, args ...any) {
	l.faults = append(l.faults, &planner.InputError{Field: field, Msg: fmt.Sprintf(format, args...)})
}

// naming is how a source writes a key to people: db in musette.toml, MUSETTE_DB, --db.
type naming func(key string) string

// add checks one source and merges it. Without a naming the source is our own.
func (l *loader) add(name naming, source koanf.Provider, parser koanf.Parser) {
	layer := koanf.New(".")
	if err := layer.Load(source, parser); err != nil {
		l.faults = append(l.faults, err)
		return
	}
	if name != nil {
		l.check(name, layer)
	}
	if err := l.merged.Merge(layer); err != nil {
		l.faults = append(l.faults, err)
	}
}

func (l *loader) check(name naming, layer *koanf.Koanf) {
	for _, key := range layer.Keys() {
		value := layer.Get(key)
		i := slices.IndexFunc(settings, func(s setting) bool { return s.key == key })
		if i < 0 {
			if !isEmptySection(key, value) {
				l.fault(name(key), "is not a setting; %s", suggest(key, name))
			}
			continue
		}
		s := settings[i]
		text, ok := value.(string)
		if !ok {
			l.fault(name(key), "must be text in quotes; for example %q", s.example)
		} else if wrong := s.check(text); wrong != "" {
			l.fault(name(key), "%s; for example %s", wrong, s.example)
		}
	}
}

// isEmptySection allows [discord] with all its lines commented out.
func isEmptySection(key string, value any) bool {
	section, ok := value.(map[string]any)
	return ok && len(section) == 0 &&
		slices.ContainsFunc(settings, func(s setting) bool { return strings.HasPrefix(s.key, key+".") })
}

func suggest(key string, name naming) string {
	keys := make([]string, len(settings))
	for i, s := range settings {
		keys[i] = s.key
	}
	if nearest := planner.Nearest(strings.TrimPrefix(key, envPrefix), keys); nearest != "" {
		return "did you mean " + name(nearest) + "?"
	}
	for i, key := range keys {
		keys[i] = name(key)
	}
	return "there are " + strings.Join(keys, ", ")
}

// addFile reads the file that a flag or the environment names and which must
// then exist, or else the one in the working folder if there is one.
func (l *loader) addFile(fromFlag, fromEnv string) {
	path, field := fromFlag, "--config"
	if path == "" {
		path, field = fromEnv, envConfig
	}
	if path == "" {
		path, field = defaultConfigFile, defaultConfigFile
		if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
			return
		}
	}
	source := fileSource{File: file.Provider(path), path: path, field: field}
	l.add(func(key string) string { return key + " in " + path }, source, tomlParser{path})
}

// fileSource words the errors of reading a file for people.
type fileSource struct {
	*file.File
	path, field string
}

// ReadBytes implements koanf.Provider.
func (f fileSource) ReadBytes() ([]byte, error) {
	data, err := f.File.ReadBytes()
	if err != nil {
		return nil, &planner.InputError{Field: f.field, Msg: fmt.Sprintf("cannot be read (%v); name a TOML file, for example %s", err, defaultConfigFile)}
	}
	return data, nil
}

// tomlParser words the errors of TOML for people. It gives their place only:
// what the parser quotes may be a secret.
type tomlParser struct{ path string }

// Unmarshal implements koanf.Parser.
func (p tomlParser) Unmarshal(data []byte) (map[string]any, error) {
	values, err := toml.Parser().Unmarshal(data)
	if err == nil {
		return values, nil
	}
	field := p.path
	var place interface{ Position() (row, column int) }
	if errors.As(err, &place) {
		row, column := place.Position()
		field = fmt.Sprintf("%s:%d:%d", p.path, row, column)
	}
	return nil, &planner.InputError{Field: field, Msg: `is not valid TOML; write each setting once, its text in quotes, for example db = "musette.db"`}
}

// Marshal implements koanf.Parser.
func (p tomlParser) Marshal(values map[string]any) ([]byte, error) {
	return toml.Parser().Marshal(values)
}

func (l *loader) addEnvironment(environ []string) {
	keyOf := func(variable, value string) (string, any) {
		if value == "" || variable == envConfig || variable == envDiscordOpenAPI {
			return "", nil
		}
		for _, s := range settings {
			if s.envName() == variable {
				return s.key, value
			}
		}
		return variable, value // with its prefix, so that it is no key of ours
	}
	name := func(key string) string {
		if strings.HasPrefix(key, envPrefix) {
			return key
		}
		return setting{key: key}.envName()
	}
	l.add(name, env.Provider(".", env.Opt{
		Prefix:        envPrefix,
		TransformFunc: keyOf,
		EnvironFunc:   func() []string { return environ },
	}), nil)
}

func (l *loader) addFlags(flags map[string]string) {
	name := func(key string) string { return "--" + key }
	values := map[string]any{}
	for _, key := range slices.Sorted(maps.Keys(flags)) {
		i := slices.IndexFunc(settings, func(s setting) bool { return s.key == key })
		if i >= 0 && settings[i].secret {
			l.fault(name(key), "is a secret and no flag, since others could read it; set %s", settings[i].envName())
			continue
		}
		values[key] = flags[key]
	}
	l.add(name, confmap.Provider(values, "."), nil)
}

// machineZone is the IANA name of this machine's zone: of TZ, else of the link
// /etc/localtime, else UTC.
func machineZone(vars map[string]string) string {
	candidates := []string{strings.TrimPrefix(vars["TZ"], ":")}
	if target, err := os.Readlink("/etc/localtime"); err == nil {
		_, zone, _ := strings.Cut(target, "zoneinfo/")
		candidates = append(candidates, zone)
	}
	for _, zone := range candidates {
		if isZone(zone) == "" {
			return zone
		}
	}
	return "UTC"
}
