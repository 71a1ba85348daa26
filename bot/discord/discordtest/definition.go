package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"regexp"
	"slices"
	"strings"
)

// Types of command options.
const (
	argSub     = 1
	argGroup   = 2
	argString  = 3
	argInteger = 4
	argBool    = 5
	argUser    = 6
	argChannel = 7
	argRole    = 8
	argNumber  = 10
)

// definition is a command as the bot registered it.
type definition struct {
	ID          string             `json:"-"`
	Version     string             `json:"-"`
	Name        string             `json:"name"`
	Description string             `json:"description"`
	Type        int                `json:"type"`
	Options     []optionDefinition `json:"options"`
	Permissions *string            `json:"default_member_permissions"`
	Contexts    []int              `json:"contexts"`
	raw         map[string]any
	open        bool // an administrator lets all members use it
}

// OpenToAll lets all members use a command, as an administrator does in the
// server's settings, whatever its default permissions are.
func (s *Server) OpenToAll(command string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, d := range s.commands {
		d.open = d.open || d.Name == command
	}
}

type optionDefinition struct {
	Type         int                `json:"type"`
	Name         string             `json:"name"`
	Description  string             `json:"description"`
	Required     bool               `json:"required"`
	Autocomplete bool               `json:"autocomplete"`
	Choices      []Choice           `json:"choices"`
	Options      []optionDefinition `json:"options"`
	ChannelTypes []int              `json:"channel_types"`
	MinLength    int                `json:"min_length"`
	MaxLength    int                `json:"max_length"`
	MinValue     *float64           `json:"min_value"`
	MaxValue     *float64           `json:"max_value"`
}

// Option is an option of a registered command, for those who type by hand.
type Option struct {
	Name     string
	Required bool
}

// Commands lists what can be typed, "race add" for subcommands, with options.
func (s *Server) Commands() map[string][]Option {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := map[string][]Option{}
	var add func(name string, options []optionDefinition)
	add = func(name string, options []optionDefinition) {
		list := []Option{}
		for _, o := range options {
			if o.Type <= argGroup {
				add(name+" "+o.Name, o.Options)
				continue
			}
			list = append(list, Option{o.Name, o.Required})
		}
		if len(list) > 0 || len(options) == 0 {
			out[name] = list
		}
	}
	for _, d := range s.commands {
		add(d.Name, d.Options)
	}
	return out
}

func (s *Server) getCommands(c *call) reply {
	if c.r.PathValue("app") != s.AppID {
		return failure(50001)
	}
	out := []jsonMap{}
	for _, d := range s.commands {
		out = append(out, s.definitionJSON(d))
	}
	return ok(out)
}

// putCommands replaces all commands; those whose name stays keep their id.
func (s *Server) putCommands(c *call) reply {
	if c.r.PathValue("app") != s.AppID {
		return failure(50001)
	}
	var all []*definition
	var raws []map[string]any
	if json.Unmarshal(c.body, &all) != nil || json.Unmarshal(c.body, &raws) != nil {
		return formFault("_misc", "LIST_TYPE_CONVERT", "Only lists of commands may be used here")
	}
	names := map[string]bool{}
	for n, d := range all {
		d.raw = raws[n]
		def(&d.Type, 1)
		if fault := d.fault(); fault != "" {
			return formFault(fmt.Sprintf("%d.%s", n, fault), "APPLICATION_COMMAND_INVALID", "This is not a valid command")
		}
		key := fmt.Sprint(d.Type, d.Name)
		if names[key] || len(all) > 130 {
			return formFault(fmt.Sprintf("%d.name", n), "APPLICATION_COMMANDS_DUPLICATE_NAME", "Application command names must be unique")
		}
		names[key] = true
	}
	for _, d := range all {
		d.ID, d.Version = s.newID(), s.newID()
		for _, old := range s.commands {
			if old.Name == d.Name && old.Type == d.Type {
				d.ID = old.ID
			}
		}
	}
	s.commands = all
	answer := s.getCommands(c)
	return reply{status: http.StatusOK, body: answer.body}
}

var definitionName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// fault is the path to what Discord refuses in a definition, or "". It looks
// only at what makes commands unusable; the lint knows the limits.
func (d *definition) fault() string {
	if d.Type == 1 {
		if !definitionName.MatchString(d.Name) || d.Name != strings.ToLower(d.Name) {
			return "name"
		}
		if n := len([]rune(d.Description)); n < 1 || n > 100 {
			return "description"
		}
	}
	return optionFault(d.Options, 0)
}

func optionFault(options []optionDefinition, depth int) string {
	if len(options) > 25 || depth > 2 {
		return "options"
	}
	optional := false
	for n, o := range options {
		at := fmt.Sprintf("options.%d.", n)
		switch length := len([]rune(o.Description)); {
		case !definitionName.MatchString(o.Name) || o.Name != strings.ToLower(o.Name):
			return at + "name"
		case length < 1 || length > 100:
			return at + "description"
		case o.Type < argSub || o.Type > 11 || (o.Type <= argGroup) != (options[0].Type <= argGroup):
			return at + "type"
		case o.Required && optional:
			return at + "required"
		case len(o.Choices) > 25 || len(o.Choices) > 0 && o.Autocomplete:
			return at + "choices"
		case slices.ContainsFunc(options[:n], func(p optionDefinition) bool { return p.Name == o.Name }):
			return at + "name"
		}
		optional = optional || !o.Required
		if inner := optionFault(o.Options, depth+1); inner != "" {
			return at + inner
		}
	}
	return ""
}

// definitionJSON is a command as Discord gives it back: with what it adds, and
// without what only repeats a default.
func (s *Server) definitionJSON(d *definition) jsonMap {
	out := jsonMap{"default_member_permissions": nil, "nsfw": false, "contexts": nil, "integration_types": []int{0},
		"name_localizations": nil, "description_localizations": nil, "dm_permission": true}
	for key, value := range d.raw {
		out[key] = value
	}
	out["id"], out["application_id"], out["version"], out["type"] = d.ID, s.AppID, d.Version, d.Type
	delete(out, "options")
	if options, ok := d.raw["options"].([]any); ok && len(options) > 0 {
		out["options"] = plainOptions(options)
	}
	return out
}

func plainOptions(options []any) []any {
	out := make([]any, 0, len(options))
	for _, o := range options {
		option, ok := o.(map[string]any)
		if !ok {
			continue
		}
		plain := map[string]any{}
		for key, value := range option {
			list, isList := value.([]any)
			if value == false || value == nil || isList && len(list) == 0 {
				continue
			}
			if key == "options" {
				value = plainOptions(list)
			}
			plain[key] = value
		}
		out = append(out, plain)
	}
	return out
}
