package lint

import "unicode/utf8"

// modal checks a form.
func (l *linter) modal(data lintObject) {
	l.keys(data, "custom_id", "title", "components")
	l.length(data, "custom_id", ruleCustomID, 1, limitCustomID)
	l.length(data, "title", ruleModalTitle, 1, limitModalTitle)
	l.plain(data, "title")
	if n := len(data.list("components")); n < 1 || n > limitModalComponents {
		l.fail(data.at+"/components", ruleModalCount, "%d components, want 1 to %d", n, limitModalComponents)
	}
	for _, component := range data.objects("components") {
		switch kind := component.integer("type"); kind {
		case componentRow:
			l.inputRow(component)
		case componentLabel:
			l.label(component)
		case componentText:
			l.layout(component, kind)
		default:
			l.fail(component.at+"/type", ruleComponentType, "type %d does not stand in a form", kind)
		}
	}
}

// inputRow checks the older way to put a text input into a form: alone in a
// row, with its label on itself.
func (l *linter) inputRow(o lintObject) {
	l.keys(o, "type", "id", "components")
	inner := o.objects("components")
	if len(inner) != 1 || inner[0].integer("type") != componentTextInput {
		l.fail(o.at+"/components", ruleInputStandalone, "a row of a form holds one text input")
		return
	}
	l.input(inner[0], "label")
	if !inner[0].has("label") {
		l.fail(inner[0].at+"/label", ruleLabel, "missing")
	}
	l.length(inner[0], "label", ruleLabel, 1, limitLabel)
	l.plain(inner[0], "label")
}

func (l *linter) label(o lintObject) {
	l.keys(o, "type", "id", "label", "description", "component")
	l.length(o, "label", ruleLabel, 1, limitLabel)
	l.length(o, "description", ruleLabelText, 1, limitLabelDescription)
	l.plain(o, "label", "description")
	child, _ := o.object("component")
	switch kind := child.integer("type"); kind {
	case componentTextInput:
		l.input(child)
	case componentStringSelect, componentUserSelect, componentRoleSelect, componentMention, componentChannelSelect:
		l.selection(child, kind, true)
	case componentUpload:
		l.keys(child, "type", "id", "custom_id", "min_values", "max_values", "required", "file_types")
		l.customID(child)
		l.howMany(child, limitAttachments, true)
	case componentRadioGroup:
		l.keys(child, "type", "id", "custom_id", "options", "required")
		l.customID(child)
		l.selectOptions(child, 2, limitGroupOptions)
	case componentCheckboxGroup:
		l.keys(child, "type", "id", "custom_id", "options", "min_values", "max_values", "required")
		l.customID(child)
		l.selectOptions(child, 1, limitGroupOptions)
		l.howMany(child, limitGroupOptions, true)
	case componentCheckbox:
		l.keys(child, "type", "id", "custom_id", "default")
		l.customID(child)
	default:
		l.fail(o.at+"/component", ruleLabelChild, "type %d does not stand under a label", kind)
	}
}

// input checks a text input. That what is filled in may not be longer than the
// longest answer is from memory.
func (l *linter) input(o lintObject, more ...string) {
	l.keys(o, append(more, "type", "id", "custom_id", "style", "min_length", "max_length", "required", "value", "placeholder")...)
	l.customID(o)
	l.length(o, "placeholder", ruleInputHint, 0, limitInputPlaceholder)
	l.plain(o, "placeholder", "value")
	l.between(o, "min_length", "max_length", ruleInputLength, 0, 1, limitInputText)
	most := int64(limitInputText)
	if n, ok := o.number("max_length"); ok {
		most = min(most, n)
	}
	if n := utf8.RuneCountInString(o.text("value")); int64(n) > most {
		l.fail(o.at+"/value", ruleInputValue, "%d characters of %d", n, most)
	}
}
