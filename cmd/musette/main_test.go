package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"musette/bot/bottest/notice"
	"musette/bot/bottest/rounds"
)

// result is what a run of the program left behind.
type result struct {
	code        int
	out, errors string
}

// runIn runs the program in an empty folder of its own.
func runIn(t *testing.T, dir, stdin string, args ...string) result {
	t.Helper()
	t.Chdir(dir)
	var out, errs bytes.Buffer
	code := run(t.Context(), args, []string{"TZ=UTC"}, strings.NewReader(stdin), &out, &errs)
	return result{code, out.String(), errs.String()}
}

const planFile = `{"today":"2026-05-31",
 "week":{"mon":"recovery 40min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45","thu":"off","fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"},
 "races":[{"name":"Hill Loop","date":"2026-06-14","priority":"A","hours":3.5,"start":"10:30"}]}`

func TestUsage(t *testing.T) {
	for _, tc := range []struct {
		args []string
		code int
		says string // on standard error, or on standard output when done
	}{
		{nil, exitInput, "musette --help"},
		{[]string{"fly"}, exitInput, "fly"},
		{[]string{"chat", "--speed", "9"}, exitInput, "--speed"},
		{[]string{"plan"}, exitInput, "<file>"},
		{[]string{"plan", "missing.json"}, exitInput, "FILE: cannot be read"},
		{[]string{"chat", "--zone", "Nowhere"}, exitInput, "--zone"},
		{[]string{"chat", "--now", "soon"}, exitInput, "now: "},
		{[]string{"chat", "--as", ""}, exitInput, "musette: --as: is empty"},
		{[]string{"chat", "--now", ""}, exitInput, "musette: --now: is empty"},
		{[]string{"chat", "--as", "Ann\u200b"}, exitInput, "musette: rider: "},
		{[]string{"help"}, exitDone, "Exit codes"},
		{[]string{"help", "chat"}, exitDone, "--now"},
		{[]string{"chat", "--club", ""}, exitInput, "--club"},
		{[]string{"--config", "missing.toml", "config"}, exitInput, "--config"},
		{[]string{"chat", "--db", "."}, exitBroke, "musette: "},
		{[]string{"--help"}, exitDone, "Exit codes"},
		{[]string{"chat", "--help"}, exitDone, "--now"},
		{[]string{"config"}, exitDone, `club = "home"`},
	} {
		got := runIn(t, t.TempDir(), "", tc.args...)
		text, silent := got.errors, got.out
		if tc.code == exitDone {
			text, silent = got.out, got.errors
		}
		if got.code != tc.code || !strings.Contains(text, tc.says) || silent != "" {
			t.Errorf("%q: got %+v; want code %d and %q", tc.args, got, tc.code, tc.says)
		}
	}
}

func TestConfigHidesTheToken(t *testing.T) {
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{"config"}, []string{"MUSETTE_DISCORD__TOKEN=s3cret", "MUSETTE_ZONE=Asia/Tokyo"}, nil, &out, &errs)
	if code != exitDone || strings.Contains(out.String(), "s3cret") || !strings.Contains(out.String(), "set, hidden") || !strings.Contains(out.String(), "Asia/Tokyo") {
		t.Errorf("code %d:\n%s%s", code, out.String(), errs.String())
	}
}

func TestPlan(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "season.json")
	if err := os.WriteFile(file, []byte(planFile), 0o600); err != nil {
		t.Fatal(err)
	}
	fromFile, fromInput := runIn(t, dir, "", "plan", file, "--json"), runIn(t, dir, planFile, "plan", "-", "--json")
	if fromFile != fromInput || fromFile.code != exitDone || fromFile.errors != "" {
		t.Fatalf("file and standard input differ:\n%+v\n%+v", fromFile, fromInput)
	}
	var plan struct {
		Days   []struct{ Date, Phase string }
		Tapers []struct{ Race, From string }
	}
	if err := json.Unmarshal([]byte(fromFile.out), &plan); err != nil {
		t.Fatal(err)
	}
	if len(plan.Days) == 0 || plan.Days[0].Date != "2026-05-31" || len(plan.Tapers) != 1 || plan.Tapers[0].From <= "2026-05-31" || plan.Tapers[0].From > "2026-06-08" {
		t.Errorf("plan of %d days, tapers %+v", len(plan.Days), plan.Tapers)
	}
	people := runIn(t, dir, planFile, "plan", "-")
	for _, want := range []string{"Plan from Sunday 31 May 2026", "Taper for Hill Loop (A, Sun 14 Jun): ", "\nSun 14 Jun RACE Hill Loop 3h30"} {
		if people.code != exitDone || !strings.Contains(people.out, want) {
			t.Errorf("plan for people lacks %q:\n%s%s", want, people.out, people.errors)
		}
	}
}

func TestPlanRefuses(t *testing.T) {
	for _, tc := range []struct {
		stdin  string
		faults []string // one a line
	}{
		{"", []string{"musette: plan file: "}},
		{"{}", []string{"musette: today: ", "musette: week: ", "musette: races: "}},
		{strings.Replace(planFile, `"A"`, `"D"`, 1), []string{"musette: races[0].priority: "}},
		{strings.Replace(planFile, `"off"`, `"of"`, 1), []string{"musette: week.thu: "}},
		{strings.Replace(planFile, "10:30", "25:30", 1), []string{"musette: races[0].start: "}},
	} {
		for _, args := range [][]string{{"plan", "-"}, {"plan", "-", "--json"}} {
			got := runIn(t, t.TempDir(), tc.stdin, args...)
			lines := strings.Split(strings.TrimSuffix(got.errors, "\n"), "\n")
			if got.code != exitInput || got.out != "" || len(lines) != len(tc.faults) {
				t.Errorf("%.40s: got %+v", tc.stdin, got)
				continue
			}
			for i, want := range tc.faults {
				if !strings.HasPrefix(lines[i], want) {
					t.Errorf("%.40s: fault %q, want %q", tc.stdin, lines[i], want)
				}
			}
		}
	}
}

// TestChatKeepsWhatItWasTold: register a race, share a week, see the plan, and
// find all of it again in the next run.
func TestChatKeepsWhatItWasTold(t *testing.T) {
	dir := t.TempDir()
	chat := func(lines ...string) []map[string]any {
		t.Helper()
		got := runIn(t, dir, strings.Join(lines, "\n"), "chat", "--as", "Ines", "--club", "Marrow Vale Wheelers", "--now", "2026-06-01T08:00", "--json")
		if got.code != exitDone || got.errors != "" {
			t.Fatalf("chat: %+v", got)
		}
		var replies []map[string]any
		for line := range strings.Lines(got.out) {
			var reply map[string]any
			if err := json.Unmarshal([]byte(line), &reply); err != nil {
				t.Fatalf("%s: %v", line, err)
			}
			replies = append(replies, reply)
		}
		return replies
	}
	first := chat(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`,
		`/week share week:"tue intervals 1h30 5x3min; wed endurance 1h45; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"`,
		`/race add name:"Hill Loop" date:28-06 priority:A`, `/race remove race:Mountain`)
	if len(first) != 4 {
		t.Fatalf("%d replies, want 4", len(first))
	}
	for i, want := range []bool{true, true, false, false} {
		if first[i]["ok"] != want {
			t.Errorf("reply %d is %v", i, first[i])
		}
	}
	second := chat("/plan show", ":press Nothing", "/ride 2026-06-27", ":quit", "/ride")
	if len(second) != 4 {
		t.Fatalf("%d replies, want 4: %v", len(second), second)
	}
	if text := second[0]["text"].(string); !strings.HasPrefix(text, "Taper for Hill Loop (A, Sun 28 Jun): ") {
		t.Errorf("plan of the next run: %s", text)
	}
	if text := second[2]["text"].(string); !strings.HasPrefix(text, "Sat 27 Jun: openers") || second[2]["race"] != "Hill Loop" || second[2]["date"] != "2026-06-27" {
		t.Errorf("the eve: %v", second[2])
	}
	if _, err := os.Stat(filepath.Join(dir, "musette.db")); err != nil {
		t.Errorf("default database: %v", err)
	}
}

func TestDemo(t *testing.T) {
	dir := t.TempDir()
	got := runIn(t, dir, "", "demo")
	if got.code != exitDone || got.errors != "" {
		t.Fatalf("demo: %+v", got)
	}
	for _, want := range []string{"C race on", "B race on", "A race on", "> /ride\nToday, ", "Taper for Hill Loop (A, Sun 28 Jun): ",
		"You asked for hard days every 2 days", "Otherwise you would ride intervals 1h30 5x3min, as usual.", "You ride on 7 of the 8 days, as many as usual. You ride the hard parts as hard as usual, but fewer or shorter ones.", "\nYesterday, Tue 23 Jun: you rode ", "RACE Hill Loop 3h30", "Races of Marrow Vale Wheelers: 3 to come"} {
		if !strings.Contains(got.out, want) {
			t.Errorf("demo lacks %q", want)
		}
	}
	if n := strings.Count(got.out, "That did not work"); n != 1 {
		t.Errorf("%d lines of the demo are refused, want the unsafe swap alone:\n%s", n, got.out)
	}
	if rounds.Raced {
		notice.Unchecked("that two demos are the same, under the race detector (go test checks it without)")
	} else if again := runIn(t, dir, "", "demo"); again != got {
		t.Error("two demos differ")
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
		t.Errorf("demo left %v, %v", left, err)
	}
}

// An interrupt ends the demo and a waiting chat cleanly.
func TestInterrupt(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	temp := filepath.Join(dir, "temp")
	if err := os.Mkdir(temp, 0o700); err != nil {
		t.Fatal(err)
	}
	t.Setenv("TMPDIR", temp)
	input, typing := io.Pipe()
	defer typing.Close()
	for _, args := range [][]string{{"demo"}, {"chat"}} {
		ctx, cancel := context.WithCancel(t.Context())
		out := &interrupting{cancel: cancel}
		go io.WriteString(typing, "/help\n") // only the chat reads it
		var errs bytes.Buffer
		if code := run(ctx, args, []string{"TZ=UTC"}, input, out, &errs); code != exitDone || errs.Len() > 0 || out.got.Len() == 0 {
			t.Errorf("%s: exit %d, %q, errors %q", args, code, out.got.String(), errs.String())
		}
		if strings.Contains(out.got.String(), "Hill Loop is in your calendar") {
			t.Errorf("%s went on after the interrupt", args)
		}
		if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
			t.Errorf("%s left %v, %v", args, left, err)
		}
	}
}

// interrupting ends its context with the first write.
type interrupting struct {
	got    bytes.Buffer
	cancel context.CancelFunc
}

func (w *interrupting) Write(p []byte) (int, error) {
	w.cancel()
	return w.got.Write(p)
}

// Of very many faults the first are told, and how many follow.
func TestPlanTellsTheFirstFaults(t *testing.T) {
	races := strings.Repeat(`{"name":"Hill Loop"},`, 500)
	got := runIn(t, t.TempDir(), `{"today":"2026-05-31","week":{},"races":[`+strings.TrimSuffix(races, ",")+`]}`, "plan", "-")
	lines := strings.Split(strings.TrimSuffix(got.errors, "\n"), "\n")
	if got.code != exitInput || len(lines) != maxPlanFaults+1 || !strings.HasPrefix(lines[maxPlanFaults], "musette: FILE: has 980 faults more. ") {
		t.Errorf("exit %d, %d lines, the last one %q", got.code, len(lines), lines[len(lines)-1])
	}
}

// A file of settings that never ends is refused.
func TestConfigFileIsBounded(t *testing.T) {
	got := runIn(t, t.TempDir(), "", "--config", "/dev/zero", "config")
	if got.code != exitInput || !strings.HasPrefix(got.errors, "musette: --config: is larger than 1 MiB. ") {
		t.Errorf("%+v", got)
	}
}

func TestPlanFileIsBounded(t *testing.T) {
	dir := t.TempDir()
	for extra, code := range map[int]int{0: exitDone, 1: exitInput} {
		text := planFile + strings.Repeat(" ", 1<<20-len(planFile)+extra)
		if err := os.WriteFile(filepath.Join(dir, "big.json"), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"plan", "-"}, {"plan", "big.json"}} {
			got := runIn(t, dir, text, args...)
			if got.code != code || code == exitInput && (got.out != "" || !strings.HasPrefix(got.errors, "musette: FILE: is larger than 1 MiB") || strings.Count(got.errors, "\n") != 1) {
				t.Errorf("%d bytes, %s: exit %d, %.100s", len(text), args, got.code, got.errors)
			}
		}
	}
}

// A race's name may hold joiners and tags where emoji and scripts have them or type them, as in chat.
func TestPlanFileJoiners(t *testing.T) {
	refused := regexp.MustCompile(`^musette: races\[1\]\.name: holds a character that cannot be seen and changes nothing: U\+\w+ (behind ".+"|at the beginning)\. Leave it out\. For example "name": "Hill Loop"\n$`)
	for name, code := range map[string]int{`\ud83d\udeb4\u200d\u2640\ufe0f Tour`: exitDone, `\u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645`: exitDone,
		`\u09b0\u200d\u09cd\u09af\u09be\u09b2\u09bf`: exitDone, `\u0cb0\u200d\u0ccd\u0caf\u0cbe\u0cb2\u0cbf`: exitDone, `\ud83c\udff4\udb40\udc67\udb40\udc62\udb40\udc65\udb40\udc6e\udb40\udc67\udb40\udc7f Cup`: exitDone,
		`\ud83c\udff4\udb40\udc67\udb40\udc62`: exitInput, `A\udb40\udc67\udb40\udc7f`: exitInput, `\u09b0\u200d\u09cd`: exitDone,
		`A\u200dB`: exitInput, `x\u200cy`: exitInput, `\u200dlead`: exitInput, `end\u200d`: exitInput, `\ud83d\udeb4\u200d\u200d\u2640`: exitInput} {
		text := `{"today":"2026-05-31","week":{},"races":[{"name":"Hill Loop","date":"2026-06-01","priority":"C"},{"name":"` + name + `","date":"2026-06-13","priority":"C"}]}`
		got := runIn(t, t.TempDir(), text, "plan", "-")
		if got.code != code || code == exitInput && (got.out != "" || !refused.MatchString(got.errors)) {
			t.Errorf("%s: exit %d, %s", name, got.code, got.errors)
		}
	}
}
