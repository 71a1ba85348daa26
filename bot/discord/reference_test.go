package discord

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/command"
)

const (
	referenceFile  = "../../docs/commands.md"
	permissionMark = "\n## Who may do what\n" // parts the page in what commands do and who may give them
)

// TestReferenceIsFresh compares the first part of docs/commands.md with the command table.
func TestReferenceIsFresh(t *testing.T) {
	_, who := referenceParts(t)
	keepReference(t, reference(bot.Commands()), who)
}

func referenceParts(t *testing.T) (what, who string) {
	page, err := os.ReadFile(referenceFile)
	if err != nil {
		t.Fatal(err)
	}
	what, who, found := strings.Cut(string(page), permissionMark)
	if !found {
		t.Fatalf("%s has no line %q", referenceFile, strings.TrimSpace(permissionMark))
	}
	return what, permissionMark + who
}

// keepReference compares docs/commands.md with both its parts, or writes it.
func keepReference(t *testing.T, what, who string) {
	if *bottest.Update {
		if err := os.WriteFile(referenceFile, []byte(what+who), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if oldWhat, oldWho := referenceParts(t); oldWhat != what || oldWho != who {
		t.Errorf("%s is stale. Run go test ./bot/discord -run 'Reference|Permissions' -update and read what changed", referenceFile)
	}
}

// reference is the command table as a page.
func reference(commands []command.Command) string {
	var b strings.Builder
	b.WriteString("# Commands\n\nTests make this page from the command table in bot/commands.go. Do not edit it.\n" +
		"[Who may do what](#who-may-do-what) is below. Options in brackets may be left out. Text before the first option belongs to the first one: `/ride tomorrow`.\n")
	task := ""
	for _, c := range commands {
		if c.Task != task {
			task = c.Task
			fmt.Fprintf(&b, "\n## %s\n", task)
		}
		fmt.Fprintf(&b, "\n### `%s`\n\n%s. %s\n\n    /%s\n", c.Usage(), c.Description, audience(&c), c.Example)
		if len(c.Options) == 0 {
			continue
		}
		b.WriteString("\n| option | type | needed | what |\n|---|---|---|---|\n")
		for _, o := range c.Options {
			needed := ""
			if o.Required {
				needed = "yes"
			}
			fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", o.Name, o.Type, needed, strings.ReplaceAll(o.Help(), "|", "\\|"))
		}
	}
	return b.String()
}

func audience(c *command.Command) string {
	who, reply := "Every member of the club may use it.", " The answer is private."
	switch {
	case c.Coach:
		who = "Only the club's coaches may use it."
	case c.Admin:
		who = "Only the club's coaches and those who run its server may use it."
	case c.Anywhere:
		who = "Everybody may use it, also who is in no club."
	}
	if c.Public {
		reply = " The whole club may read the answer."
	}
	if c.Club {
		reply += " It does not work in direct messages."
	}
	return who + reply
}
