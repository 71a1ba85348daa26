module musette

go 1.26.0

require (
	github.com/VictoriaMetrics/metrics v1.44.0
	github.com/alecthomas/kong v1.17.0
	github.com/bwmarrin/discordgo v0.29.0
	github.com/cenkalti/backoff/v5 v5.0.3
	github.com/go-analyze/charts v0.6.4
	github.com/google/go-cmp v0.7.0
	github.com/gorilla/websocket v1.5.3
	github.com/hbollon/go-edlib v1.7.0
	github.com/knadh/koanf/parsers/toml/v2 v2.1.0
	github.com/knadh/koanf/providers/confmap v1.0.1
	github.com/knadh/koanf/providers/env/v2 v2.0.2
	github.com/knadh/koanf/providers/structs v1.0.0
	github.com/knadh/koanf/v2 v2.4.1
	github.com/mattn/go-sqlite3 v1.14.53
	github.com/peterh/liner v1.2.3
	github.com/pressly/goose/v3 v3.29.0
	github.com/robfig/cron/v3 v3.0.1
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	go.uber.org/goleak v1.3.0
	golang.org/x/sys v0.50.0
	golang.org/x/text v0.44.0
	golang.org/x/time v0.16.0
)

require (
	github.com/clipperhouse/uax29/v2 v2.7.0 // indirect
	github.com/fatih/structs v1.1.0 // indirect
	github.com/go-viper/mapstructure/v2 v2.4.0 // indirect
	github.com/golang/freetype v0.0.0-20170609003504-e2365dfdc4a0 // indirect
	github.com/knadh/koanf/maps v0.1.2 // indirect
	github.com/mattn/go-runewidth v0.0.31 // indirect
	github.com/mfridman/interpolate v0.0.2 // indirect
	github.com/mitchellh/copystructure v1.2.0 // indirect
	github.com/mitchellh/reflectwalk v1.0.2 // indirect
	github.com/pelletier/go-toml/v2 v2.2.2 // indirect
	github.com/sethvargo/go-retry v0.5.0 // indirect
	github.com/valyala/fastrand v1.1.0 // indirect
	github.com/valyala/histogram v1.2.0 // indirect
	go.uber.org/multierr v1.11.0 // indirect
	golang.org/x/crypto v0.59.0 // indirect
	golang.org/x/image v0.45.0 // indirect
	golang.org/x/sync v0.25.0 // indirect
)
