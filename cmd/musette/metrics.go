package main

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"log/slog"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"musette/bot/discord"
	"musette/bot/meter"
	"musette/storage"
)

// metricsTime bounds a request for metrics, from either side.
const metricsTime = 5 * time.Second

// serveMetrics tells at an address how the bot fares, until stop is called. The
// bot does its work all the same where the address cannot be had.
func serveMetrics(address string, m *meter.Meter, db *storage.DB, log *slog.Logger) (stop func()) {
	if address == metricsOff {
		return func() {}
	}
	listener, err := net.Listen("tcp", address)
	if err != nil {
		log.Warn("metrics and health are not served; name another address by the setting metrics, or off", "address", address, "error", err)
		return func() {}
	}
	if host, _, err := net.SplitHostPort(listener.Addr().String()); err != nil || !net.ParseIP(host).IsLoopback() {
		log.Warn("metrics and health can be read by other machines", "address", listener.Addr().String())
	}
	health := func(ctx context.Context) meter.Health { return m.Health(ctx, version(), time.Now(), db.LastTick) }
	server := &http.Server{Handler: m.Handler(health), ReadTimeout: metricsTime, WriteTimeout: metricsTime, MaxHeaderBytes: 1 << 14}
	done := make(chan struct{})
	go func() {
		defer close(done)
		if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			log.Error("metrics and health are not served any more", "error", err)
		}
	}()
	log.Info("metrics and health are served", "address", listener.Addr().String())
	return func() {
		_ = server.Close() // nothing is lost with a request
		<-done
	}
}

// checkRunning asks a bot that runs on this machine how it fares.
func checkRunning(ctx context.Context, address string) []discord.Finding {
	if address == metricsOff {
		return nil
	}
	found := discord.Finding{State: discord.StateNote, What: "running"}
	health, err := askHealth(ctx, address)
	switch {
	case errors.Is(err, syscall.ECONNREFUSED):
		found.Text = "no musette serve answers at " + address + ". It does not run, or has another address for metrics"
	case errors.As(err, new(*net.DNSError)):
		found.State, found.Text = discord.StateFix, "no machine has the name in "+address+". Name another address by "+setting{key: "metrics"}.envName()
	case err != nil:
		found.Text = "what answers at " + address + " is no musette serve (" + err.Error() + "). Name another address by " + setting{key: "metrics"}.envName()
	case !health.OK:
		found.State, found.Text = discord.StateFix, strings.Join(health.Faults, "; ")+". See the log of musette serve"
	case health.Version != version():
		found.Text = "musette serve is well, and another version: " + health.Version + ". Start it anew after an update"
	default:
		found.State, found.Text = discord.StateOK, "musette serve is well, its connections to Discord stand, of "+shardsOf(health)
	}
	return []discord.Finding{found}
}

// shardsOf names the shards of a bot that runs, in the order of their numbers.
func shardsOf(health meter.Health) string {
	numbers := make([]int, len(health.Shards))
	for i, s := range health.Shards {
		numbers[i] = s.Shard
	}
	slices.Sort(numbers)
	names := make([]string, len(numbers))
	for i, n := range numbers {
		names[i] = strconv.Itoa(n)
	}
	if len(names) == 1 {
		return "shard " + names[0]
	}
	return "shards " + strings.Join(names, ", ")
}

func askHealth(ctx context.Context, address string) (health meter.Health, err error) {
	ctx, cancel := context.WithTimeout(ctx, metricsTime)
	defer cancel()
	if host, port, err := net.SplitHostPort(address); err == nil && (host == "" || net.ParseIP(host).IsUnspecified()) {
		address = net.JoinHostPort("127.0.0.1", port)
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+address+"/healthz", nil)
	if err != nil {
		return health, err
	}
	client := http.Client{Transport: &http.Transport{Proxy: nil, DisableKeepAlives: true}}
	response, err := client.Do(request)
	if err != nil {
		return health, err
	}
	defer response.Body.Close()
	err = json.NewDecoder(io.LimitReader(response.Body, maxFile)).Decode(&health)
	if err == nil && health.Version == "" {
		err = errors.New("its answer is another one")
	}
	return health, err
}
