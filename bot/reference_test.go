package bot_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/command"
)

const referenceFile = "../docs/commands.md"

// TestReferenceIsFresh compares docs/commands.md with the command table.
func TestReferenceIsFresh(t *testing.T) {
	want := reference(bot.Commands())
	if *bottest.Update {
		if err := os.WriteFile(referenceFile, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(referenceFile)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("docs/commands.md is stale. Run go test ./bot -run TestReferenceIsFresh -update")
	}
}

// reference is the command table as a page.
func reference(commands []command.Command) string {
	var b strings.Builder
	b.WriteString("# Commands\n\nMade from the command table in bot/commands.go; do not edit.\n" +
		"Options in brackets may be left out. Text before the first option belongs to the first one: `/ride tomorrow`.\n")
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
