package lint

// messageComponents checks the components of a message in either system: rows
// of buttons or a select, or, with the flag, the freer second one.
func (l *linter) messageComponents(o lintObject) {
	second := o.integer("flags")&flagComponentsV2 != 0
	components := o.objects("components")
	if !second {
		l.count(o, "components", ruleRowCount, 0, limitRows)
	} else {
		if o.text("content") != "" || len(o.list("embeds")) > 0 || o.has("poll") || len(o.list("sticker_ids")) > 0 {
			l.fail(o.at+"/flags", ruleComponentAlone, "components of the second system stand alone")
		}
		number, text := 0, 0
		for _, component := range components {
			n, characters := weigh(component)
			number, text = number+n, text+characters
		}
		if number > limitComponents {
			l.fail(o.at+"/components", ruleComponentCount, "%d components of %d", number, limitComponents)
		}
		if text > limitTextDisplays {
			l.fail(o.at+"/components", ruleTextDisplays, "%d characters of %d", text, limitTextDisplays)
		}
	}
	for _, component := range components {
		l.component(component, second)
	}
}

// weigh counts a component with all in it, and the characters of their texts.
func weigh(o lintObject) (number, text int) {
	number = 1
	if o.integer("type") == componentText {
		text = characters(o, "content")
	}
	inner := o.objects("components")
	if accessory, ok := o.object("accessory"); ok {
		inner = append(inner, accessory)
	}
	for _, component := range inner {
		n, t := weigh(component)
		number, text = number+n, text+t
	}
	return number, text
}

// component checks a component of a message or a container.
func (l *linter) component(o lintObject, second bool) {
	kind := o.integer("type")
	switch kind {
	case componentRow:
		l.row(o)
	case componentSection, componentText, componentGallery, componentFile, componentSeparator, componentContainer:
		if !second {
			l.fail(o.at, ruleComponentFlag, "type %d needs flag %d", kind, flagComponentsV2)
			return
		}
		l.layout(o, kind)
	default:
		l.fail(o.at+"/type", ruleComponentType, "type %d does not stand here", kind)
	}
}

// layout checks the components of the second system.
func (l *linter) layout(o lintObject, kind int64) {
	switch kind {
	case componentText:
		l.keys(o, "type", "id", "content")
		l.marked(o, "content")
	case componentSection:
		l.keys(o, "type", "id", "components", "accessory")
		for _, inner := range o.objects("components") {
			if inner.integer("type") != componentText {
				l.fail(inner.at+"/type", ruleComponentType, "a section holds texts")
				continue
			}
			l.layout(inner, componentText)
		}
		l.accessory(o)
	case componentGallery:
		l.keys(o, "type", "id", "items")
		for _, item := range o.objects("items") {
			l.media(item, "media", "media", "description", "spoiler")
		}
	case componentFile:
		l.media(o, "file", "type", "id", "file", "spoiler")
	case componentSeparator:
		l.keys(o, "type", "id", "divider", "spacing")
	case componentContainer:
		l.keys(o, "type", "id", "components", "accent_color", "spoiler")
		for _, inner := range o.objects("components") {
			if inner.integer("type") == componentContainer {
				l.fail(inner.at+"/type", ruleComponentType, "containers do not nest")
				continue
			}
			l.component(inner, true)
		}
	}
}

func (l *linter) accessory(o lintObject) {
	accessory, ok := o.object("accessory")
	switch kind := accessory.integer("type"); {
	case ok && kind == componentButton:
		l.button(accessory)
	case ok && kind == componentThumbnail:
		l.media(accessory, "media", "type", "id", "media", "description", "spoiler")
	default:
		l.fail(o.at+"/accessory", ruleComponentType, "want a button or a thumbnail")
	}
}

// media checks an object that shows a file under one key.
func (l *linter) media(o lintObject, key string, keys ...string) {
	l.keys(o, keys...)
	l.length(o, "description", ruleAttachmentAlt, 1, limitAltText)
	if shown, ok := o.object(key); ok {
		l.keys(shown, "url")
		l.reference(shown, "url", false)
	}
}

// row checks a row of a message: up to five buttons or one select.
func (l *linter) row(o lintObject) {
	l.keys(o, "type", "id", "components")
	buttons, selects := 0, 0
	for _, inner := range o.objects("components") {
		switch kind := inner.integer("type"); kind {
		case componentButton:
			buttons++
			l.button(inner)
		case componentStringSelect, componentUserSelect, componentRoleSelect, componentMention, componentChannelSelect:
			selects++
			l.selection(inner, kind, false)
		default:
			l.fail(inner.at+"/type", ruleComponentType, "type %d does not stand in a row", kind)
		}
	}
	if len(o.list("components")) == 0 {
		l.fail(o.at+"/components", ruleRowEmpty, "a row without components")
	}
	if buttons > limitButtons {
		l.fail(o.at+"/components", ruleRowButtons, "%d buttons of %d", buttons, limitButtons)
	}
	if selects > 1 || selects > 0 && buttons > 0 {
		l.fail(o.at+"/components", ruleRowMixed, "a select stands alone in its row")
	}
}

// button checks a button. That one must show a label or an emoji is from memory.
func (l *linter) button(o lintObject) {
	l.keys(o, "type", "id", "style", "label", "emoji", "custom_id", "sku_id", "url", "disabled")
	l.length(o, "label", ruleButtonLabel, 0, limitButtonLabel)
	l.length(o, "url", ruleButtonURL, 0, limitButtonURL)
	l.plain(o, "label")
	l.emoji(o)
	if o.has("custom_id") {
		l.customID(o)
	}
	id, url, sku := o.has("custom_id"), o.text("url") != "", o.has("sku_id")
	face := o.text("label") != "" || o.has("emoji")
	switch style := o.integer("style"); style {
	case buttonLink:
		if !url || id || sku {
			l.fail(o.at, ruleButtonLink, "a link button has a url and no custom_id")
		}
	case buttonPremium:
		if !sku || id || url || face {
			l.fail(o.at, ruleButtonLink, "a premium button has a sku_id alone")
		}
		return
	default:
		if !id || o.has("url") || sku {
			l.fail(o.at, ruleButtonLink, "a button has a custom_id and no url")
		}
	}
	if !face {
		l.fail(o.at+"/label", ruleButtonFace, "neither label nor emoji")
	}
}

func (l *linter) emoji(o lintObject) {
	if emoji, ok := o.object("emoji"); ok {
		l.keys(emoji, "id", "name", "animated")
	}
}

// selection checks a select menu of a message or of a form.
func (l *linter) selection(o lintObject, kind int64, form bool) {
	keys := []string{"type", "id", "custom_id", "placeholder", "min_values", "max_values", "required"}
	if !form {
		keys = append(keys, "disabled")
	}
	most := int64(limitSelectOptions)
	switch kind {
	case componentStringSelect:
		keys = append(keys, "options")
		l.selectOptions(o, 1, limitSelectOptions, "emoji")
		// That more than the options cannot be asked for is from memory.
		most = min(most, int64(len(o.list("options"))))
	case componentChannelSelect:
		keys = append(keys, "default_values", "channel_types")
	default:
		keys = append(keys, "default_values")
	}
	l.keys(o, keys...)
	l.customID(o)
	l.length(o, "placeholder", ruleSelectHint, 0, limitSelectPlaceholder)
	l.plain(o, "placeholder")
	l.howMany(o, most, form)
}

// howMany checks how many values a select or upload asks for.
func (l *linter) howMany(o lintObject, most int64, form bool) {
	l.between(o, "min_values", "max_values", ruleSelectRange, 0, 1, most)
	required, said := o.members["required"].(bool)
	if least, ok := o.number("min_values"); ok && least == 0 && form && (required || !said) {
		l.fail(o.at+"/min_values", ruleSelectRange, "0 of a required value")
	}
}

// selectOptions checks the options of a select or group. That values must
// differ is from memory.
func (l *linter) selectOptions(o lintObject, least, most int, more ...string) {
	l.count(o, "options", ruleSelectCount, least, most)
	seen := make(map[string]bool)
	for _, option := range o.objects("options") {
		l.keys(option, append(more, "label", "value", "description", "default")...)
		l.length(option, "label", ruleSelectText, 1, limitSelectText)
		l.length(option, "value", ruleSelectText, 1, limitSelectText)
		l.length(option, "description", ruleSelectText, 0, limitSelectText)
		l.plain(option, "label", "description")
		l.emoji(option)
		if value := option.text("value"); seen[value] {
			l.fail(option.at+"/value", ruleSelectUnique, "used twice")
		} else {
			seen[value] = true
		}
	}
}
