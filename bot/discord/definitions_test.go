package discord

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest/notice"
	"musette/bot/command"
	"musette/bot/discord/discordtest/lint"
	"musette/planner"
)

// TestCommandsPassDiscordsRules runs the lint, and the schema where it is there.
func TestCommandsPassDiscordsRules(t *testing.T) {
	body, err := json.Marshal(definitions(bot.Commands()))
	if err != nil {
		t.Fatal(err)
	}
	schemas, path, err := lint.SchemasFromEnv()
	if err != nil {
		t.Fatal(err)
	}
	if path == "" {
		notice.Unchecked("definitions of commands against Discord's API description: %s is not set", lint.SchemasVariable)
	}
	if err := lint.CheckRequest(schemas, "PUT", "/applications/1/commands", body, nil); err != nil {
		t.Error(err)
	}
}

// Limits are read off Discord's documentation a second time here.
var nameForm = regexp.MustCompile(`^[-_\p{Ll}\p{N}]{1,32}$`)

func TestDefinitionsKeepTheLimits(t *testing.T) {
	all := definitions(bot.Commands())
	if len(all) == 0 || len(all) > 100 {
		t.Errorf("%d commands", len(all))
	}
	for _, d := range all {
		checkTexts(t, d.Name, d.Name, d.Description)
		size := utf8.RuneCountInString(d.Name+d.Description) + checkOptions(t, d.Name, d.Options, 0)
		if size > 8000 {
			t.Errorf("/%s has %d characters", d.Name, size)
		}
	}
}

func checkTexts(t *testing.T, at, name, description string) {
	t.Helper()
	if !nameForm.MatchString(name) {
		t.Errorf("/%s: name %q", at, name)
	}
	if n := utf8.RuneCountInString(description); n < 1 || n > 100 || strings.TrimSpace(description) != description {
		t.Errorf("/%s: description of %d characters: %q", at, n, description)
	}
}

// checkOptions returns the characters that count towards a command's size.
func checkOptions(t *testing.T, at string, options []definitionOption, depth int) (size int) {
	t.Helper()
	if len(options) > 25 || depth > 1 {
		t.Errorf("/%s: %d options at depth %d", at, len(options), depth)
	}
	optional := false
	for _, o := range options {
		here := at + " " + o.Name
		checkTexts(t, here, o.Name, o.Description)
		size += utf8.RuneCountInString(o.Name + o.Description)
		if o.Type == optionSubcommand {
			size += checkOptions(t, here, o.Options, depth+1)
			continue
		}
		if o.Required && optional {
			t.Errorf("/%s: required behind an optional one", here)
		}
		optional = optional || !o.Required
		if len(o.Choices) > 25 || len(o.Choices) > 0 && o.Autocomplete || len(o.Options) > 0 {
			t.Errorf("/%s: %d choices, autocomplete %v, %d options below", here, len(o.Choices), o.Autocomplete, len(o.Options))
		}
		for _, c := range o.Choices {
			if n := utf8.RuneCountInString(c.Value); n < 1 || n > 100 || c.Name != c.Value {
				t.Errorf("/%s: choice %q shown as %q", here, c.Value, c.Name)
			}
			size += utf8.RuneCountInString(c.Name + c.Value)
		}
		if o.MaxLength < 0 || o.MaxLength > 6000 || o.MaxLength > 0 && o.Type != optionText {
			t.Errorf("/%s: at most %d characters of type %d", here, o.MaxLength, o.Type)
		}
	}
	return size
}

// TestEveryCommandIsDefined finds each row of the table and each of its options.
func TestEveryCommandIsDefined(t *testing.T) {
	all := definitions(bot.Commands())
	for _, c := range bot.Commands() {
		var options []definitionOption
		i := slices.IndexFunc(all, func(d definition) bool { return d.Name == c.Group() })
		if i < 0 {
			t.Errorf("/%s is missing", c.Name)
			continue
		}
		if options = all[i].Options; c.Name != c.Group() {
			sub := strings.TrimPrefix(c.Name, c.Group()+" ")
			j := slices.IndexFunc(options, func(o definitionOption) bool { return o.Name == sub })
			if j < 0 {
				t.Errorf("/%s is missing", c.Name)
				continue
			}
			options = options[j].Options
		}
		if len(options) != len(c.Options) {
			t.Errorf("/%s has %d options of %d", c.Name, len(options), len(c.Options))
		}
		for _, o := range options {
			row, ok := c.Option(o.Name)
			if !ok || o.Required != (row.Required && row.Or == "" && c.Form != o.Name) {
				t.Errorf("/%s: option %s is required: %v", c.Name, o.Name, o.Required)
			}
			if o.Type == optionText && len(o.Choices) == 0 && o.MaxLength < planner.MaxText {
				t.Errorf("/%s: option %s takes only %d characters", c.Name, o.Name, o.MaxLength)
			}
		}
		if direct := slices.Contains(all[i].Contexts, contextDirect); c.Club && direct && onlyClub(c.Group()) || !c.Club && !direct {
			t.Errorf("/%s in direct messages: %v", c.Name, direct)
		}
		if !c.Admin && all[i].Permissions != nil {
			t.Errorf("/%s is hidden from riders", c.Name)
		}
	}
}

func onlyClub(group string) bool {
	return !slices.ContainsFunc(bot.Commands(), func(c command.Command) bool { return c.Group() == group && !c.Club })
}

// TestGroupTextsAreOfGroups finds texts of groups that are gone.
func TestGroupTextsAreOfGroups(t *testing.T) {
	groups := make(map[string]bool)
	for _, c := range bot.Commands() {
		if c.Name != c.Group() {
			groups[c.Group()] = true
		}
	}
	for group := range groupTexts {
		if !groups[group] {
			t.Errorf("there is no group /%s any more", group)
		}
	}
}

func TestDefinitionOfEachKindOfOption(t *testing.T) {
	everybody := definitions([]command.Command{
		{Name: "lamp", Description: "Look at the lamp", Form: "text", Options: []command.Option{
			{Name: "text", Description: "d", Required: true, MaxLen: 1500},
			{Name: "kind", Description: "d", Choices: []string{"on", "off"}, Complete: command.CompleteDay},
			{Name: "day", Description: "d", Required: true, Complete: command.CompleteDay},
			{Name: "count", Type: "number", Description: "d", Required: true},
			{Name: "channel", Type: command.TypeChannel, Description: "d"},
			{Name: "role", Type: command.TypeRole, Description: "d", MaxLen: 20},
		}},
	})
	manage := "32"
	wantEqual(t, everybody, []definition{{Name: "lamp", Description: "Look at the lamp", Type: 1, Contexts: []int{0, 1}, Installs: []int{0},
		Options: []definitionOption{
			{Type: 3, Name: "day", Description: "d", Required: true, Autocomplete: true, MaxLength: planner.MaxText},
			{Type: 3, Name: "count", Description: "d", Required: true, MaxLength: planner.MaxText},
			{Type: 3, Name: "text", Description: "d", MaxLength: 1500},
			{Type: 3, Name: "kind", Description: "d", Choices: []definitionChoice{{"on", "on"}, {"off", "off"}}},
			{Type: 7, Name: "channel", Description: "d", ChannelTypes: []int{0, 5}},
			{Type: 8, Name: "role", Description: "d"},
		}}})
	club := definitions([]command.Command{
		{Name: "shed open", Description: "Open it", Task: "The shed", Club: true, Admin: true},
		{Name: "shed show", Description: "Show it", Club: true},
	})
	wantEqual(t, club, []definition{{Name: "shed", Description: "The shed", Type: 1, Contexts: []int{0}, Installs: []int{0},
		Options: []definitionOption{{Type: 1, Name: "open", Description: "Open it"}, {Type: 1, Name: "show", Description: "Show it"}}}})
	admins := definitions([]command.Command{{Name: "shed open", Club: true, Admin: true}})
	wantEqual(t, admins[0].Permissions, &manage)
	mixed := definitions([]command.Command{{Name: "shed open", Club: true}, {Name: "shed show"}})
	wantEqual(t, mixed[0].Contexts, []int{0, 1})
}

func TestTablesThatDiscordCannotHold(t *testing.T) {
	for name, commands := range map[string][]command.Command{
		"a command with subcommands": {{Name: "shed"}, {Name: "shed open"}},
		"the same the other way":     {{Name: "shed open"}, {Name: "shed"}},
		"twice the same":             {{Name: "shed"}, {Name: "shed"}},
		"three words":                {{Name: "shed door open"}},
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("accepted")
				}
			}()
			definitions(commands)
		})
	}
}
