package main

import "fmt"

// configCommand prints the configuration in force.
type configCommand struct{}

// Run implements the subcommand.
func (c *configCommand) Run(w *world) error {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, nil)
	if err != nil {
		return err
	}
	if _, err := conf.share(); err != nil {
		return err // serve refuses it
	}
	_, err = fmt.Fprintf(w.stdout, "db = %q\nclub = %q\nzone = %q\nlog = %q\nlog_format = %q\nmetrics = %q\nshards = %q\nown = %q\ndiscord.token: %s\ndiscord.token_file = %q\ndiscord.url = %q\n",
		conf.DB, conf.Club, conf.Zone, conf.Log, conf.LogFormat, conf.Metrics, conf.Shards, conf.Own, conf.Discord.Token, conf.Discord.shownFile(), conf.Discord.URL)
	return err
}
