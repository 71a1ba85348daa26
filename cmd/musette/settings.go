package main

import (
	"errors"
	"fmt"
	"log/slog"
	"math"
	"net"
	"os"
	"strings"
	"time"
	"unicode"

	"musette/bot/discord/api"
	"musette/planner"
)

// Either of two settings tells the token.
const (
	keyToken     = "discord.token"
	keyTokenFile = "discord.token_file"
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
	{key: "log", example: "info", check: isLevel},
	{key: "log_format", example: "text", check: isLogFormat},
	{key: "metrics", example: "127.0.0.1:9464", check: isAddress},
	{key: keyShards, example: "6", check: isShards},
	{key: keyOwn, example: "0-1", check: isOwn},
	{key: keyToken, example: "the token of your bot", secret: true, check: isToken},
	{key: keyTokenFile, example: "/etc/musette/token", check: isTold},
	{key: "discord.url", example: "http://127.0.0.1:8585", check: isURL},
}

func (s setting) envName() string {
	return envPrefix + strings.ToUpper(strings.ReplaceAll(s.key, ".", "__"))
}

func isTold(value string) string {
	if strings.TrimSpace(value) == "" {
		return "is empty"
	}
	if strings.ContainsFunc(value, unicode.IsControl) {
		return "holds a character that cannot be seen"
	}
	return ""
}

func isZone(value string) string {
	if _, err := time.LoadLocation(value); err != nil || value == "" || value == "Local" {
		return fmt.Sprintf("%q is not a time zone", value)
	}
	return ""
}

// levels are the values of log.
var levels = map[string]slog.Level{"debug": slog.LevelDebug, "info": slog.LevelInfo, "warn": slog.LevelWarn}

func isLevel(value string) string {
	if _, ok := levels[value]; !ok {
		return fmt.Sprintf("%q is none of debug, info and warn", value)
	}
	return ""
}

func isLogFormat(value string) string {
	if value != "text" && value != "json" {
		return fmt.Sprintf("%q is neither text nor json", value)
	}
	return ""
}

// metricsOff is the address of no metrics.
const metricsOff = "off"

func isAddress(value string) string {
	if value == metricsOff {
		return ""
	}
	host, port, err := net.SplitHostPort(value)
	if err != nil || port == "" || strings.ContainsAny(host, " /") {
		return fmt.Sprintf("%q is no address with a port, and not off", value)
	}
	if _, err := net.LookupPort("tcp", port); err != nil {
		return fmt.Sprintf("%q has a port that is none from 1 to %d", value, math.MaxUint16)
	}
	return ""
}

// isURL asks the client that will use the address.
func isURL(value string) string {
	_, err := api.New(api.Config{Base: value})
	in, ok := errors.AsType[*planner.InputError](err)
	if !ok {
		return ""
	}
	wrong, _, _ := strings.Cut(in.Msg, ". ")
	return wrong
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
