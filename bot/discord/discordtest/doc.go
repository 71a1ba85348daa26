// Package discordtest is a Discord for tests: gateway websocket and REST on one
// port of 127.0.0.1, with people, servers and faults that a test directs.
//
// It behaves as Discord's public developer documentation says: Gateway,
// Interactions ("Receiving and Responding"), Rate Limits, and the resource pages.
// It shares no code with the bot's client, so that each checks the other.
//
// A test starts it with New, points the bot at URL with Token, adds a Guild and
// then acts as the riders: Command, Press, SubmitForm, Autocomplete, Say. Each
// returns an Interaction whose Answer waits for what the person would see.
package discordtest
