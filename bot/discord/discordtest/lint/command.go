package lint

import (
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Page "Application Commands", section naming. Devanagari and Thai are there
// for their combining signs.
var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]+$`)

var decimalNumber = regexp.MustCompile(`^(0|[1-9]\d{0,18})$`)

// commands checks the bulk request, which replaces all commands.
func (l *linter) commands(value any) {
	items, ok := value.([]any)
	if !ok {
		l.fail("", ruleBody, "not an array")
		return
	}
	kinds := make(map[int64]int)
	seen := make(map[string]bool)
	for _, o := range lintObjects("", items) {
		kind, ok := o.number("type")
		if !ok {
			kind = 1
		}
		kinds[kind]++
		key := string(rune('0'+kind)) + o.text("name")
		if seen[key] {
			l.fail(o.at+"/name", ruleCommandUnique, "used twice")
		}
		seen[key] = true
		l.command(o, kind)
	}
	if n := kinds[1]; n > limitChatCommands {
		l.fail("", ruleCommandCount, "%d commands of %d", n, limitChatCommands)
	}
	for _, kind := range []int64{2, 3} {
		if n := kinds[kind]; n > limitMenuCommands {
			l.fail("", ruleCommandCount, "%d commands of type %d of %d", n, kind, limitMenuCommands)
		}
	}
}

func (l *linter) command(o lintObject, kind int64) {
	keys := []string{"id", "type", "name", "name_localizations", "default_member_permissions", "dm_permission", "nsfw",
		"contexts", "integration_types"}
	if kind == 1 {
		l.keys(o, append(keys, "description", "description_localizations", "options")...)
		l.named(o)
		l.described(o)
		l.options(o, 0)
		l.commandSize(o)
	} else {
		l.keys(o, append(keys, "description", "handler")...)
		l.length(o, "name", ruleNameForm, 1, limitName)
		l.length(o, "description", ruleDescription, 0, 0)
	}
	if o.has("default_member_permissions") && !decimalNumber.MatchString(o.text("default_member_permissions")) {
		l.fail(o.at+"/default_member_permissions", rulePermissions, "not a decimal number in a string")
	}
	l.numbers(o, "contexts", ruleContexts, 2)
	l.numbers(o, "integration_types", ruleIntegration, 1)
}

// numbers checks a list of distinct numbers from 0 to most, not empty.
func (l *linter) numbers(o lintObject, key, rule string, most int64) {
	if !o.has(key) {
		return
	}
	seen := make(map[int64]bool)
	for _, item := range o.list(key) {
		number, _ := item.(json.Number)
		n, err := number.Int64()
		if err != nil || n < 0 || n > most || seen[n] {
			l.fail(o.at+"/"+key, rule, "want distinct numbers from 0 to %d", most)
			return
		}
		seen[n] = true
	}
	if len(seen) == 0 {
		l.fail(o.at+"/"+key, rule, "empty")
	}
}

// named checks a name and its translations.
func (l *linter) named(o lintObject) {
	l.nameForm(o, "name")
	if locales, ok := l.locales(o, "name_localizations"); ok {
		for locale := range locales.members {
			l.nameForm(locales, locale)
		}
	}
}

func (l *linter) nameForm(o lintObject, key string) {
	name := o.text(key)
	if n := utf8.RuneCountInString(name); n < 1 || n > limitName || !commandName.MatchString(name) {
		l.fail(o.at+"/"+key, ruleNameForm, "want 1 to %d letters, digits, - _ or '", limitName)
	}
	if name != strings.ToLower(name) {
		l.fail(o.at+"/"+key, ruleNameCase, "not in lower case")
	}
}

func (l *linter) described(o lintObject) {
	if !o.has("description") {
		l.fail(o.at+"/description", ruleDescription, "missing")
	}
	l.length(o, "description", ruleDescription, 1, limitDescription)
	l.plain(o, "description")
	if locales, ok := l.locales(o, "description_localizations"); ok {
		for locale := range locales.members {
			l.length(locales, locale, ruleDescription, 1, limitDescription)
		}
	}
}

func (l *linter) locales(o lintObject, key string) (lintObject, bool) {
	locales, ok := o.object(key)
	for locale := range locales.members {
		if !slices.Contains(localeNames, locale) {
			l.fail(locales.at+"/"+locale, ruleLocale, "unknown language")
		}
	}
	return locales, ok
}

// options checks one level of options. Depth 0 is the command, 1 a group or
// subcommand in it, 2 a subcommand in a group.
func (l *linter) options(o lintObject, depth int) {
	l.count(o, "options", ruleOptionCount, 0, limitOptions)
	options := o.objects("options")
	seen := make(map[string]bool)
	optional, commands := false, 0
	for _, option := range options {
		kind := option.integer("type")
		if name := option.text("name"); seen[name] {
			l.fail(option.at+"/name", ruleOptionUnique, "used twice")
		} else {
			seen[name] = true
		}
		l.optionMembers(option, kind)
		l.named(option)
		l.described(option)
		if kind == optionSubcommand || kind == optionGroup {
			commands++
			l.subcommand(o, option, depth)
			continue
		}
		required := option.flag("required")
		if required && optional {
			l.fail(option.at, ruleOptionOrder, "required after an optional one")
		}
		optional = optional || !required
		l.option(option, kind)
	}
	if commands > 0 && commands < len(options) {
		l.fail(o.at+"/options", ruleOptionNesting, "subcommands beside plain options")
	}
}

// subcommand checks a group or subcommand and what lies in it: a command holds
// groups and subcommands, a group subcommands only, a subcommand neither.
func (l *linter) subcommand(parent, o lintObject, depth int) {
	group := o.integer("type") == optionGroup
	inGroup := depth > 0 && parent.integer("type") == optionGroup
	if depth > 0 && (group || !inGroup) {
		l.fail(o.at, ruleOptionNesting, "deeper than command, group, subcommand")
		return
	}
	for _, child := range o.objects("options") {
		if group && child.integer("type") != optionSubcommand {
			l.fail(child.at, ruleOptionNesting, "a group holds subcommands only")
		}
	}
	if group && len(o.list("options")) == 0 {
		l.fail(o.at, ruleOptionNesting, "an empty group")
	}
	l.options(o, depth+1)
}

// optionKeys are all keys of options; those of optionPlaces are for some types
// only, and elsewhere may at most say nothing (null, false, an empty list).
var (
	optionKeys = []string{"type", "name", "name_localizations", "description", "description_localizations", "required", "options",
		"choices", "autocomplete", "min_length", "max_length", "min_value", "max_value", "channel_types"}
	optionPlaces = map[string][]int64{
		"required":      {3, 4, 5, 6, 7, 8, 9, 10, 11},
		"options":       {optionSubcommand, optionGroup},
		"choices":       {optionString, optionInteger, optionNumber},
		"autocomplete":  {optionString, optionInteger, optionNumber},
		"min_length":    {optionString},
		"max_length":    {optionString},
		"min_value":     {optionInteger, optionNumber},
		"max_value":     {optionInteger, optionNumber},
		"channel_types": {optionChannel},
	}
)

func (l *linter) optionMembers(o lintObject, kind int64) {
	l.keys(o, optionKeys...)
	for key, kinds := range optionPlaces {
		empty := !o.has(key) || o.members[key] == false
		if items, ok := o.members[key].([]any); ok {
			empty = len(items) == 0
		}
		if !empty && !slices.Contains(kinds, kind) {
			l.fail(o.at+"/"+key, ruleOptionPlace, "not for options of type %d", kind)
		}
	}
}

func (l *linter) option(o lintObject, kind int64) {
	switch kind {
	case optionString:
		l.between(o, "min_length", "max_length", ruleOptionLength, 0, 1, limitOptionLength)
	case optionInteger, optionNumber:
		l.valueRange(o, kind)
	}
	if kind < optionSubcommand || kind > optionLast {
		l.fail(o.at+"/type", ruleOptionType, "unknown type %d", kind)
	}
	if !slices.Contains(optionPlaces["choices"], kind) {
		return
	}
	if o.flag("autocomplete") && len(o.list("choices")) > 0 {
		l.fail(o.at, ruleChoiceCompletion, "choices and autocompletion exclude each other")
	}
	l.choices(o, kind)
}

// between checks two whole numbers: low in [least, most], high in
// [leastHigh, most], low not above high.
func (l *linter) between(o lintObject, low, high, rule string, least, leastHigh, most int64) {
	a, hasLow := o.number(low)
	b, hasHigh := o.number(high)
	if hasLow && (a < least || a > most) {
		l.fail(o.at+"/"+low, rule, "%d, want %d to %d", a, least, most)
	}
	if hasHigh && (b < leastHigh || b > most) {
		l.fail(o.at+"/"+high, rule, "%d, want %d to %d", b, leastHigh, most)
	}
	if hasLow && hasHigh && a > b {
		l.fail(o.at+"/"+low, rule, "the least is above the most")
	}
}

func (l *linter) valueRange(o lintObject, kind int64) {
	bounds := [2]float64{math.Inf(-1), math.Inf(1)}
	for i, key := range []string{"min_value", "max_value"} {
		number, ok := o.members[key].(json.Number)
		if !ok {
			continue
		}
		value, err := number.Float64()
		whole := value == math.Trunc(value)
		if err != nil || math.Abs(value) > limitOptionMagnitude || kind == optionInteger && !whole {
			l.fail(o.at+"/"+key, ruleOptionRange, "want at most 2^53-1, and whole for an integer")
		}
		bounds[i] = value
	}
	if bounds[0] > bounds[1] {
		l.fail(o.at+"/min_value", ruleOptionRange, "the least is above the most")
	}
}

// choices checks the choices of an option or of an autocompletion. That names
// must differ is from memory.
func (l *linter) choices(o lintObject, kind int64) {
	l.count(o, "choices", ruleChoiceCount, 0, limitChoices)
	seen := make(map[string]bool)
	for _, choice := range o.objects("choices") {
		l.keys(choice, "name", "name_localizations", "value")
		l.length(choice, "name", ruleChoiceName, 1, limitChoiceName)
		l.plain(choice, "name")
		if locales, ok := l.locales(choice, "name_localizations"); ok {
			for locale := range locales.members {
				l.length(locales, locale, ruleChoiceName, 1, limitChoiceName)
			}
		}
		l.length(choice, "value", ruleChoiceValue, 1, limitChoiceValue)
		if name := choice.text("name"); seen[name] {
			l.fail(choice.at+"/name", ruleChoiceUnique, "used twice")
		} else {
			seen[name] = true
		}
		_, text := choice.members["value"].(string)
		if text != (kind == optionString) {
			l.fail(choice.at+"/value", ruleChoiceType, "not of the option's type")
		}
	}
}

// commandSize sums names, descriptions and choice values in each language and
// takes the longest.
func (l *linter) commandSize(o lintObject) {
	longest := 0
	for _, locale := range append([]string{""}, localeNames...) {
		longest = max(longest, sizeOf(o, locale))
	}
	if longest > limitCommandSize {
		l.fail(o.at, ruleCommandSize, "%d characters of %d", longest, limitCommandSize)
	}
}

func sizeOf(o lintObject, locale string) int {
	size := utf8.RuneCountInString(o.text("value"))
	for _, key := range []string{"name", "description"} {
		text := o.text(key)
		if locales, ok := o.object(key + "_localizations"); ok && locales.text(locale) != "" {
			text = locales.text(locale)
		}
		size += utf8.RuneCountInString(text)
	}
	for _, key := range []string{"options", "choices"} {
		for _, inner := range o.objects(key) {
			size += sizeOf(inner, locale)
		}
	}
	return size
}
