package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
	_ "time/tzdata" // riders' zones work on machines without zone files, too
	"unicode"

	"github.com/knadh/koanf/parsers/toml/v2"
	"github.com/knadh/koanf/providers/confmap"
	"github.com/knadh/koanf/providers/env/v2"
	"github.com/knadh/koanf/providers/structs"
	"github.com/knadh/koanf/v2"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// Config is what the operator chose. Each value comes from a flag, else the
// environment, else the configuration file, else the default.
type Config struct {
	DB        string  `koanf:"db"`         // database file
	Club      string  `koanf:"club"`       // club that the terminal speaks for
	Zone      string  `koanf:"zone"`       // IANA name; the machine's zone unless told
	Log       string  `koanf:"log"`        // debug, info or warn: what musette serve writes to its log
	LogFormat string  `koanf:"log_format"` // text or json
	Metrics   string  `koanf:"metrics"`    // address at which musette serve tells how it fares, or off
	Shards    string  `koanf:"shards"`     // of the bot, or auto
	Own       string  `koanf:"own"`        // those that this process runs, or all
	Discord   Discord `koanf:"discord"`

	secretFile string // the configuration file, where it holds the token
	ownName    string // how people wrote own, where they did: --own, MUSETTE_OWN, own in musette.toml
}

// Discord is how the bot signs in there. At most one of Token and TokenFile is told.
type Discord struct {
	Token     Secret `koanf:"token"`
	TokenFile string `koanf:"token_file"` // holds the token alone
	URL       string `koanf:"url"`        // empty: Discord itself
}

// String is the configuration for a log line.
func (c Config) String() string {
	return fmt.Sprintf("db=%q club=%q zone=%q log=%q log_format=%q metrics=%q shards=%q own=%q discord.token=(%s) discord.token_file=%q discord.url=%q",
		c.DB, c.Club, c.Zone, c.Log, c.LogFormat, c.Metrics, c.Shards, c.Own, c.Discord.Token, c.Discord.shownFile(), c.Discord.URL)
}

// maxShownKey is the length of the longest unknown key that is shown. From
// minSecret on one with digits or with capitals within may be a secret.
const (
	maxShownKey = 40
	minSecret   = 16
)

const (
	envPrefix         = "MUSETTE_"
	envConfig         = envPrefix + "CONFIG"          // where the configuration file is
	envDiscordOpenAPI = envPrefix + "DISCORD_OPENAPI" // read by a test, not by the program
	defaultConfigFile = "musette.toml"
)

// loadConfig reads the configuration. environ is as of os.Environ; configFile
// is the value of --config, empty when not given; flags holds the flags that
// were given, by setting. Each fault is a *planner.InputError on its own line;
// an empty variable counts as not set.
func loadConfig(ctx context.Context, environ []string, configFile string, flags map[string]string) (Config, error) {
	vars := variables(environ)
	l := loader{ctx: ctx, merged: koanf.New(".")}
	l.add(nil, structs.Provider(Config{DB: "musette.db", Club: "home", Zone: machineZone(vars), Log: "info", LogFormat: "text", Metrics: "127.0.0.1:9464", Shards: shardsAuto, Own: ownAll}, "koanf"), nil)
	l.addFile(configPath(configFile, vars[envConfig]))
	l.addEnvironment(environ)
	l.addFlags(flags)
	var c Config
	if len(l.faults) == 0 {
		l.faults = append(l.faults, l.merged.Unmarshal("", &c))
	}
	if err := errors.Join(l.faults...); err != nil {
		return Config{}, err
	}
	c.secretFile, c.ownName = l.secretFile, l.ownName
	c.Discord.Token = cleanToken(string(c.Discord.Token))
	c.DB = storage.Real(c.DB)
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
	ctx    context.Context
	merged *koanf.Koanf
	faults []error

	secretFile, ownName string
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
		l.oneToken(name, layer)
		if layer.Exists(keyOwn) {
			l.ownName = name(keyOwn)
		}
	}
	if file, ok := source.(fileSource); ok && layer.Exists(keyToken) {
		l.secretFile = file.path
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
				l.fault(shownField(name, key), "is not a setting. %s", suggest(key, name))
			}
			continue
		}
		s := settings[i]
		text, ok := value.(string)
		if !ok {
			l.fault(name(key), "must be text in quotes. For example %q", s.example)
		} else if !s.secret && tokenLike.MatchString(text) {
			l.fault(name(key), "%s. For example %s", tokenThere(name(keyToken)), s.example)
		} else if wrong := s.check(text); wrong != "" {
			l.fault(name(key), "%s. For example %s", strings.ReplaceAll(wrong, text, shown(text)), s.example)
		}
	}
}

// shownField names an unknown key, unless a secret may stand in its place.
func shownField(name naming, key string) string {
	own := strings.TrimPrefix(key, envPrefix)
	odd := strings.ContainsFunc(own, func(r rune) bool { return r != '_' && r != '-' && r != '.' && !unicode.IsLetter(r) })
	mixed := own != strings.ToLower(own) && own != strings.ToUpper(own)
	if len(key) > maxShownKey || len(own) >= minSecret && (odd || mixed) {
		return "a key that is not shown, since it may be a secret"
	}
	return name(key)
}

// oneToken lets a token or a file of one outrank either of the sources below.
func (l *loader) oneToken(name naming, layer *koanf.Koanf) {
	switch token, file := layer.Exists(keyToken), layer.Exists(keyTokenFile); {
	case token && file:
		l.fault(name(keyTokenFile), "tells the token a second time. Keep it or %s, not both", name(keyToken))
	case token:
		l.merged.Delete(keyTokenFile)
	case file:
		l.merged.Delete(keyToken)
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
	if nearest := typed.Nearest(strings.TrimPrefix(key, envPrefix), keys); nearest != "" {
		return "Did you mean " + name(nearest) + "?"
	}
	for i, key := range keys {
		keys[i] = name(key)
	}
	return "Settings: " + strings.Join(keys, ", ")
}

// configPath is the file that a flag or the environment names and which must
// then exist, or else the one in the working folder, or "" where that is missing.
// Field names to people who chose it.
func configPath(fromFlag, fromEnv string) (path, field string) {
	switch {
	case fromFlag != "":
		return fromFlag, "--config"
	case fromEnv != "":
		return fromEnv, envConfig
	}
	if _, err := os.Lstat(defaultConfigFile); errors.Is(err, fs.ErrNotExist) { // a link to a file that is gone is meant to be read
		return "", ""
	}
	return defaultConfigFile, defaultConfigFile
}

func (l *loader) addFile(path, field string) {
	if path == "" {
		return
	}
	source := fileSource{ctx: l.ctx, path: path, field: field}
	l.add(func(key string) string { return key + " in " + path }, source, tomlParser{path})
}

// fileSource words the errors of reading a file for people.
type fileSource struct {
	ctx         context.Context
	path, field string
}

// ReadBytes implements koanf.Provider.
func (f fileSource) ReadBytes() ([]byte, error) {
	data, err := readFile(f.ctx, f.path)
	switch {
	case errors.Is(err, errInterrupted):
		return nil, err
	case errors.Is(err, errTooLarge):
		return nil, &planner.InputError{Field: f.field, Msg: fmt.Sprintf("is larger than 1 MiB. Settings take a few lines. Name a TOML file, for example %s", defaultConfigFile)}
	case err != nil:
		return nil, &planner.InputError{Field: f.field, Msg: fmt.Sprintf("cannot be read (%v). Name a TOML file, for example %s", err, defaultConfigFile)}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return nil, &planner.InputError{Field: f.field, Msg: "is UTF-16 text. Save it as UTF-8, for example in " + defaultConfigFile}
	}
	return data, nil
}

// Read implements koanf.Provider; files are read as bytes.
func (f fileSource) Read() (map[string]any, error) {
	return nil, errors.New("a file is read as bytes")
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
	return nil, &planner.InputError{Field: field, Msg: `is not valid TOML. Write each setting once, its text in quotes, for example db = "musette.db"`}
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
	name := func(key string) string {
		if key == keyToken { // is no flag, since others could read it
			return setting{key: key}.envName()
		}
		return "--" + key
	}
	values := map[string]any{}
	for _, key := range slices.Sorted(maps.Keys(flags)) {
		i := slices.IndexFunc(settings, func(s setting) bool { return s.key == key })
		if i >= 0 && settings[i].secret {
			l.fault("--"+key, "is a secret and no flag, since others could read it. Set %s", settings[i].envName())
			continue
		}
		values[key] = flags[key]
	}
	l.add(name, confmap.Provider(values, "."), nil)
}
