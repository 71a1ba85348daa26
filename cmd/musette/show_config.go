package main

import "fmt"

// configCommand prints the configuration in force.
type configCommand struct{}

// Run implements the subcommand.
func (c *configCommand) Run(w *world) error {
	conf, err := loadConfig(w.environ, w.configFile, nil)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w.stdout, "db = %q\nclub = %q\nzone = %q\ndiscord.token: %s\n", conf.DB, conf.Club, conf.Zone, conf.Discord.Token)
	return err
}
