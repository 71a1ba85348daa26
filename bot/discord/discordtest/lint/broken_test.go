package lint

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"testing"
)

// A broken payload differs from a valid one in one place. The checker that it
// names must refuse it: the lint with this rule and no other, the schema with
// an error that says this.
type broken struct {
	checker  string // "lint" or "schema"
	base     string
	at, to   string // see changed
	expected string
}

const (
	byLint   = "lint"
	bySchema = "schema"
	// A row of buttons of a message.
	rowAt    = "/data/components/0"
	buttonAt = rowAt + "/components/0"
	selectAt = "/data/components/1/components/0"
	// Options of the first command's first subcommand: name, date, priority, hours, days.
	optionAt = "/0/options/0/options"
)

var brokenRequests = []broken{
	{byLint, "open-dm", "", `{"recipient_id":`, ruleBody},
	{byLint, "open-dm", "", `{"recipient_id":"1"}{}`, ruleBody},
	{byLint, "open-dm", "", `[]`, ruleBody},
	{byLint, "commands", "", `{}`, ruleBody},
	{byLint, "answer", "/data", ``, ruleBody},
	{byLint, "open-dm", "path", "/api/v10/guilds/1/roles", ruleRoute},
	{byLint, "open-dm", "/recipient_id", ``, ruleRecipient},
	{byLint, "open-dm", "/recipient", `"1"`, ruleKeys},
	{byLint, "thread", "/name", ``, ruleThreadName},
	{byLint, "thread", "/type", `11`, ruleThreadKind},
	{byLint, "thread", "/type", ``, ruleThreadKind},
	{byLint, "thread", "/content", `"1"`, ruleKeys},
	{byLint, "message", "/text", `"x"`, ruleKeys},
	{byLint, "message-edit", "/tts", `true`, ruleKeys},
	{byLint, "answer", "/data/embeds/0/colour", `1`, ruleKeys},
	{byLint, "answer", "/data/embeds/0/image/width", `100`, ruleKeys},
	{byLint, "answer", "/data/embeds/0/fields/0/title", `"x"`, ruleKeys},
	{byLint, "answer", buttonAt + "/placeholder", `"x"`, ruleKeys},
	{byLint, "answer", selectAt + "/options/0/id", `"x"`, ruleKeys},
	{byLint, "answer", "/data/allowed_mentions/everyone", `false`, ruleKeys},
	{byLint, "answer", "/data/attachments/0/size", `7`, ruleKeys},
	{byLint, "answer", "/token", `"x"`, ruleKeys},
	{byLint, "choices", "/data/choices/0/description", `"x"`, ruleKeys},
	{byLint, "form", "/data/text", `"x"`, ruleKeys},
	{byLint, "form", "/data/components/0/component/label", `"x"`, ruleKeys},
	{byLint, "form", "/data/components/1/component/disabled", `true`, ruleKeys},
	{byLint, "commands", "/0/permission", `true`, ruleKeys},
	{byLint, "second-system", "/components/1/name", `"x"`, ruleKeys},
}

// A key that is not documented, in each object that has none of these above.
var brokenKeys = []broken{
	{byLint, "commands", "/3", `{"name":"Ride","type":2,"options":[]}`, ruleKeys},
	{byLint, "commands", optionAt + "/0/default", `true`, ruleKeys},
	{byLint, "choices", "/data/content", `""`, ruleKeys},
	{byLint, "answer", "/data/embeds/0/footer/url", `"x"`, ruleKeys},
	{byLint, "answer", "/data/embeds/0/author/text", `"x"`, ruleKeys},
	{byLint, "answer", rowAt + "/label", `"x"`, ruleKeys},
	{byLint, "original-edit", "/components/0/components/0/emoji/url", `"x"`, ruleKeys},
	{byLint, "answer", selectAt + "/options/0/emoji", `{"name":"x","url":"x"}`, ruleKeys},
	{byLint, "second-system", "/components/0/spacing", `1`, ruleKeys},
	{byLint, "second-system", "/components/0/components/0/label", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/0/components/1/label", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/0/components/1/components/0/label", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/0/components/1/accessory/value", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/0/components/2/label", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/0/components/3/label", `"x"`, ruleKeys},
	{byLint, "second-system", "/components/1/file/width", `1`, ruleKeys},
	{byLint, "second-system", "/components/2/accessory/label", `"x"`, ruleKeys},
	{byLint, "form", "/data/components/0/style", `1`, ruleKeys},
	{byLint, "form", "/data/components/2/label", `"x"`, ruleKeys},
	{byLint, "form", "/data/components/3/label", `"x"`, ruleKeys},
	{byLint, "form", "/data/components/1/component", `{"type":19,"custom_id":"f","x":1}`, ruleKeys},
	{byLint, "form", "/data/components/1/component", `{"type":21,"custom_id":"f","options":` + numbered(2, `{"label":"l","value":"#"}`) + `,"x":1}`, ruleKeys},
	{byLint, "form", "/data/components/1/component", `{"type":22,"custom_id":"f","options":` + numbered(2, `{"label":"l","value":"#"}`) + `,"x":1}`, ruleKeys},
	{byLint, "form", "/data/components/1/component", `{"type":23,"custom_id":"f","x":1}`, ruleKeys},
}

var brokenCommands = []broken{
	{byLint, "commands", "/3", `{"name":"Ride","type":2,"description":"d"}`, ruleDescription},
	{byLint, "commands", "/3", `{"name":` + letters(33) + `,"type":3}`, ruleNameForm},
	{byLint, "commands", optionAt + "/2/choices/0/name_localizations", `{"de":""}`, ruleChoiceName},
	{byLint, "commands", "", numbered(101, `{"name":"c#","description":"d"}`), ruleCommandCount},
	{byLint, "commands", "", numbered(16, `{"name":"c#","type":3}`), ruleCommandCount},
	{byLint, "commands", "/3/name", `"race"`, ruleCommandUnique},
	{byLint, "commands", "/3/name", `"Help"`, ruleNameCase},
	{byLint, "commands", "/3/name", `"help me"`, ruleNameForm},
	{byLint, "commands", "/3/name", letters(33), ruleNameForm},
	{byLint, "commands", optionAt + "/0/name", `"Name"`, ruleNameCase},
	{byLint, "commands", "/0/name_localizations/de", `"Rennen"`, ruleNameCase},
	{byLint, "commands", "/0/name_localizations/xx", `"rennen"`, ruleLocale},
	{byLint, "commands", "/3/description", `""`, ruleDescription},
	{byLint, "commands", "/3/description", ``, ruleDescription},
	{byLint, "commands", "/3/description", letters(101), ruleDescription},
	{byLint, "commands", "/0/description_localizations/de", `""`, ruleDescription},
	{byLint, "commands", optionAt + "/0/description", letters(101), ruleDescription},
	{byLint, "commands", "/3/description", `"at <t:1:t>"`, ruleTimestampPlace},
	{byLint, "commands", "/3/options", numbered(20, `{"type":3,"name":"o#","description":"d","choices":[{"name":`+letters(99)+`,"value":`+letters(99)+`},{"name":`+letters(100)+`,"value":`+letters(100)+`}]}`), ruleCommandSize},
	{byLint, "commands", "/1/default_member_permissions", `"MANAGE_GUILD"`, rulePermissions},
	{byLint, "commands", "/1/default_member_permissions", `32`, rulePermissions},
	{byLint, "commands", "/1/default_member_permissions", `"0x20"`, rulePermissions},
	{byLint, "commands", "/1/contexts", `[3]`, ruleContexts},
	{byLint, "commands", "/1/contexts", `[]`, ruleContexts},
	{byLint, "commands", "/1/contexts", `[0,0]`, ruleContexts},
	{byLint, "commands", "/0/integration_types", `[2]`, ruleIntegration},
	{byLint, "commands", "/3/options", numbered(26, `{"type":5,"name":"o#","description":"d"}`), ruleOptionCount},
	{byLint, "commands", optionAt + "/1/name", `"name"`, ruleOptionUnique},
	{byLint, "commands", "/0/options/1/name", `"add"`, ruleOptionUnique},
	{byLint, "commands", optionAt + "/3/required", `true`, ruleOptionOrder},
	{byLint, "commands", "/3/options", `[{"type":12,"name":"o","description":"d"}]`, ruleOptionType},
	{byLint, "commands", "/3/options", `[{"name":"o","description":"d"}]`, ruleOptionType},
	{byLint, "commands", optionAt + "/-", `{"type":1,"name":"deep","description":"d"}`, ruleOptionNesting},
	{byLint, "commands", "/0/options/1/options", `[{"type":2,"name":"deep","description":"d","options":[{"type":1,"name":"s","description":"d"}]}]`, ruleOptionNesting},
	{byLint, "commands", "/0/options/-", `{"type":5,"name":"plain","description":"d"}`, ruleOptionNesting},
	{byLint, "commands", "/1/options/0/options/0", `{"type":5,"name":"plain","description":"d"}`, ruleOptionNesting},
	{byLint, "commands", "/1/options/0/options", `[]`, ruleOptionNesting},
	{byLint, "commands", optionAt + "/0/max_value", `3`, ruleOptionPlace},
	{byLint, "commands", optionAt + "/3/min_length", `3`, ruleOptionPlace},
	{byLint, "commands", "/0/options/1/required", `true`, ruleOptionPlace},
	{byLint, "commands", "/2/options/1/channel_types", `[0]`, ruleOptionPlace},
	{byLint, "commands", "/2/options/1/choices", `[{"name":"a","value":"b"}]`, ruleOptionPlace},
	{byLint, "commands", optionAt + "/0/min_length", `-1`, ruleOptionLength},
	{byLint, "commands", optionAt + "/0/max_length", `0`, ruleOptionLength},
	{byLint, "commands", optionAt + "/0/max_length", `6001`, ruleOptionLength},
	{byLint, "commands", optionAt + "/0/min_length", `61`, ruleOptionLength},
	{byLint, "commands", optionAt + "/4/max_value", `9007199254740992`, ruleOptionRange},
	{byLint, "commands", optionAt + "/4/min_value", `1.5`, ruleOptionRange},
	{byLint, "commands", optionAt + "/3/min_value", `49`, ruleOptionRange},
	{byLint, "commands", optionAt + "/2/choices", numbered(26, `{"name":"n#","value":"v#"}`), ruleChoiceCount},
	{byLint, "commands", optionAt + "/2/choices/0/name", letters(101), ruleChoiceName},
	{byLint, "commands", optionAt + "/2/choices/0/name", `""`, ruleChoiceName},
	{byLint, "commands", optionAt + "/2/choices/0/value", letters(101), ruleChoiceValue},
	{byLint, "commands", optionAt + "/2/choices/0/value", `1`, ruleChoiceType},
	{byLint, "commands", optionAt + "/2/choices/1/name", `"A: the goal"`, ruleChoiceUnique},
	{byLint, "commands", optionAt + "/2/autocomplete", `true`, ruleChoiceCompletion},
}

var brokenMessages = []broken{
	{byLint, "message", "/content", letters(2001), ruleContent},
	{byLint, "follow-up", "/content", letters(2001), ruleContent},
	{byLint, "original-edit", "/content", letters(2001), ruleContent},
	{byLint, "message-edit", "/content", `"<t:1781418600:x>"`, ruleTimestampForm},
	{byLint, "answer", "/data/embeds/0/description", `"<t:June>"`, ruleTimestampForm},
	{byLint, "answer", "/data/embeds/0/fields/1/value", `"<t:1:FF>"`, ruleTimestampForm},
	{byLint, "answer", "/data/embeds/0/footer/text", `"<t:1>"`, ruleTimestampPlace},
	{byLint, "answer", "/data/embeds/0/author/name", `"<t:1>"`, ruleTimestampPlace},
	{byLint, "answer", buttonAt + "/label", `"<t:1:R>"`, ruleTimestampPlace},
	{byLint, "answer", selectAt + "/options/0/label", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "answer", selectAt + "/placeholder", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "form", "/data/title", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "form", "/data/components/0/description", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "form", "/data/components/0/component/placeholder", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "form", "/data/components/2/components/0/label", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "choices", "/data/choices/0/name", `"<t:1:D>"`, ruleTimestampPlace},
	{byLint, "library-message", "/content", `" \n"`, ruleEmpty},
	{byLint, "library-message", "/content", ``, ruleEmpty},
	{byLint, "answer", "/data/embeds", numbered(11, `{"title":"t"}`), ruleEmbedCount},
	{byLint, "answer", "/data/embeds", numbered(2, `{"description":`+letters(3001)+`}`), ruleEmbedSum},
	{byLint, "answer", "/data/embeds/0/title", letters(257), ruleEmbedTitle},
	{byLint, "answer", "/data/embeds/0/description", letters(4097), ruleEmbedDescription},
	{byLint, "answer", "/data/embeds/0/fields", numbered(26, `{"name":"n","value":"v"}`), ruleEmbedFields},
	{byLint, "answer", "/data/embeds/0/fields/0/name", `""`, ruleFieldName},
	{byLint, "answer", "/data/embeds/0/fields/0/value", letters(1025), ruleFieldValue},
	{byLint, "answer", "/data/embeds/0/fields/0/value", `""`, ruleFieldValue},
	{byLint, "answer", "/data/embeds/0/footer/text", letters(2049), ruleFooter},
	{byLint, "answer", "/data/embeds/0/author/name", letters(257), ruleAuthor},
	{byLint, "answer", "/data/allowed_mentions", ``, ruleMentions},
	{byLint, "update", "/data/allowed_mentions", `null`, ruleMentions},
	{byLint, "message", "/allowed_mentions", ``, ruleMentions},
	{byLint, "message-edit", "/allowed_mentions", ``, ruleMentions},
	{byLint, "follow-up", "/allowed_mentions", ``, ruleMentions},
	{byLint, "original-edit", "/allowed_mentions", ``, ruleMentions},
	{byLint, "answer", "/data/allowed_mentions/parse", ``, ruleMentionsParse},
	{byLint, "answer", "/data/allowed_mentions/parse", `null`, ruleMentionsParse},
	{byLint, "answer", "/data/allowed_mentions/parse", `["users"]`, ruleMentionsParse},
	{byLint, "message", "/allowed_mentions/users", numbered(101, `"#"`), ruleMentionsUsers},
	{byLint, "message", "/nonce", letters(26), ruleNonce},
	{byLint, "message", "/enforce_nonce", ``, ruleNonceEnforce},
	{byLint, "message", "/enforce_nonce", `false`, ruleNonceEnforce},
	{byLint, "message", "/nonce", ``, ruleNonceEnforce},
	{byLint, "message", "/flags", `64`, ruleEphemeral},
	{byLint, "message-edit", "/flags", `64`, ruleEphemeral},
	{byLint, "original-edit", "/flags", `64`, ruleEphemeral},
	{byLint, "message", "/flags", `2`, ruleFlags},
	{byLint, "message-edit", "/flags", `4096`, ruleFlags},
	{byLint, "deferred", "/data/flags", `4160`, ruleDeferred},
	{byLint, "deferred", "/data/content", `"Wait"`, ruleDeferred},
	{byLint, "deferred-update", "/data", `{"flags":64}`, ruleDeferred},
	{byLint, "update", "/type", `10`, ruleCallback},
	{byLint, "choices", "/data/choices", ``, ruleCompletionMissing},
	{byLint, "choices", "/data/choices", `null`, ruleCompletionMissing},
	{byLint, "choices", "/data/choices", numbered(26, `{"name":"n#","value":"v#"}`), ruleChoiceCount},
	{byLint, "choices", "/data/choices/1/value", letters(101), ruleChoiceValue},
	{byLint, "choices", "/data/choices/1/value", `1`, ruleChoiceType},
}

var brokenFiles = []broken{
	{byLint, "library-message", "/attachments", numbered(11, `{"id":"60000000000000000#"}`), ruleAttachmentCount},
	{byLint, "original-edit", "/attachments/0/id", `"2"`, ruleAttachmentID},
	{byLint, "original-edit", "/attachments/0/id", `"plan"`, ruleAttachmentID},
	{byLint, "original-edit", "/attachments/0/id", ``, ruleAttachmentID},
	{byLint, "original-edit", "/attachments/-", `{"id":"0","filename":"new.png"}`, ruleAttachmentID},
	{byLint, "message-edit", "/attachments", `[{"id":"0","filename":"gone.png"}]`, ruleAttachmentID},
	{byLint, "message", "/attachments/0/filename", `"other.png"`, ruleAttachmentName},
	{byLint, "message", "/attachments/0/description", letters(1025), ruleAttachmentAlt},
	{byLint, "second-system", "/components/0/components/2/items/0/description", letters(1025), ruleAttachmentAlt},
	{byLint, "message", "/attachments", ``, ruleAttachmentListed},
	{byLint, "message", "files", `["plan.png","more.png"]`, ruleAttachmentListed},
	{byLint, "answer", "/data/embeds/0/image/url", `"attachment://other.png"`, ruleReferenceFile},
	{byLint, "answer", "/data/embeds/0/thumbnail", `{"url":"attachment://Plan.png"}`, ruleReferenceFile},
	{byLint, "answer", "/data/embeds/0/footer/icon_url", `"attachment://other.png"`, ruleReferenceFile},
	{byLint, "second-system", "/components/1/file/url", `"attachment://other.ics"`, ruleReferenceFile},
	{byLint, "answer", "/data/embeds/0/image/url", `"attachment://plan.ics"`, ruleReferenceImage},
	{byLint, "answer", "/data/embeds/0/author/icon_url", `"attachment://plan.ics"`, ruleReferenceImage},
}

var brokenComponents = []broken{
	{byLint, "answer", rowAt + "/type", `2`, ruleComponentType},
	{byLint, "answer", buttonAt + "/type", `4`, ruleComponentType},
	{byLint, "answer", "/data/components/-", `{"type":18,"label":"l"}`, ruleComponentType},
	{byLint, "form", "/data/components/3", `{"type":2,"style":1,"label":"l","custom_id":"b"}`, ruleComponentType},
	{byLint, "second-system", "/components/0/components/-", `{"type":17,"components":[{"type":14}]}`, ruleComponentType},
	{byLint, "second-system", "/components/2/accessory", ``, ruleComponentType},
	{byLint, "second-system", "/components/2/components/0/type", `14`, ruleComponentType},
	{byLint, "message-edit", "/components", `[{"type":10,"content":"x"}]`, ruleComponentFlag},
	{byLint, "second-system", "/content", `"x"`, ruleComponentAlone},
	{byLint, "second-system", "/embeds", `[{"title":"x"}]`, ruleComponentAlone},
	{byLint, "second-system", "/components/0/components", numbered(40, `{"type":14}`), ruleComponentCount},
	{byLint, "second-system", "/components/0/components/0/content", letters(3965), ruleTextDisplays},
	{byLint, "second-system", "/components/0/components/0/content", `"<t:now>"`, ruleTimestampForm},
	{byLint, "message-edit", "/components", numbered(6, `{"type":1,"components":[{"type":2,"style":1,"label":"l","custom_id":"#"}]}`), ruleRowCount},
	{byLint, "answer", rowAt + "/components", numbered(6, `{"type":2,"style":1,"label":"l","custom_id":"#"}`), ruleRowButtons},
	{byLint, "answer", "/data/components/1/components/-", `{"type":2,"style":1,"label":"l","custom_id":"b"}`, ruleRowMixed},
	{byLint, "answer", "/data/components/1/components/-", `{"type":5,"custom_id":"b"}`, ruleRowMixed},
	{byLint, "answer", rowAt + "/components", `[]`, ruleRowEmpty},
	{byLint, "answer", buttonAt + "/custom_id", `""`, ruleCustomID},
	{byLint, "answer", buttonAt + "/custom_id", letters(101), ruleCustomID},
	{byLint, "answer", selectAt + "/custom_id", letters(101), ruleCustomID},
	{byLint, "form", "/data/custom_id", letters(101), ruleCustomID},
	{byLint, "answer", buttonAt + "/custom_id", `"v1:move:17"`, ruleCustomIDUnique},
	{byLint, "answer", selectAt + "/custom_id", `"v1:move:17"`, ruleCustomIDUnique},
	{byLint, "form", "/data/components/0/component/custom_id", `"note"`, ruleCustomIDUnique},
	{byLint, "answer", buttonAt + "/label", letters(81), ruleButtonLabel},
	{byLint, "answer", buttonAt + "/label", `""`, ruleButtonFace},
	{byLint, "answer", buttonAt + "/label", ``, ruleButtonFace},
	{byLint, "answer", buttonAt + "/custom_id", ``, ruleButtonLink},
	{byLint, "answer", buttonAt + "/url", `"https://example.org"`, ruleButtonLink},
	{byLint, "answer", rowAt + "/components/2/url", ``, ruleButtonLink},
	{byLint, "answer", rowAt + "/components/2/custom_id", `"x"`, ruleButtonLink},
	{byLint, "answer", buttonAt + "/style", `6`, ruleButtonLink},
	{byLint, "answer", rowAt + "/components/2/url", letters(513), ruleButtonURL},
	{byLint, "answer", selectAt + "/options", numbered(26, `{"label":"l","value":"#"}`), ruleSelectCount},
	{byLint, "answer", selectAt + "/options/0/label", `""`, ruleSelectText},
	{byLint, "answer", selectAt + "/options/0/value", letters(101), ruleSelectText},
	{byLint, "answer", selectAt + "/options/0/description", letters(101), ruleSelectText},
	{byLint, "answer", selectAt + "/options/0/value", `"2"`, ruleSelectUnique},
	{byLint, "answer", selectAt + "/placeholder", letters(151), ruleSelectHint},
	{byLint, "answer", selectAt + "/max_values", `3`, ruleSelectRange},
	{byLint, "answer", selectAt + "/min_values", `2`, ruleSelectRange},
	{byLint, "answer", selectAt + "/max_values", `0`, ruleSelectRange},
	{byLint, "form", "/data/components/1/component/min_values", `0`, ruleSelectRange},
	{byLint, "form", "/data/components/1/component", `{"type":19,"custom_id":"f","max_values":11}`, ruleSelectRange},
	{byLint, "form", "/data/components/1/component", `{"type":21,"custom_id":"f","options":[{"label":"l","value":"v"}]}`, ruleSelectCount},
	{byLint, "form", "/data/components/1/component", `{"type":22,"custom_id":"f","options":` + numbered(11, `{"label":"l","value":"#"}`) + `}`, ruleSelectCount},
	{byLint, "form", "/data/components/1/component", `{"type":23,"custom_id":"note"}`, ruleCustomIDUnique},
	{byLint, "form", "/data/components/1/component", `{"type":19,"custom_id":"note"}`, ruleCustomIDUnique},
	{byLint, "form", "/data/components/1/component", `{"type":21,"custom_id":"note","options":` + numbered(2, `{"label":"l","value":"#"}`) + `}`, ruleCustomIDUnique},
	{byLint, "form", "/data/components/1/component", `{"type":22,"custom_id":"note","options":` + numbered(2, `{"label":"l","value":"#"}`) + `}`, ruleCustomIDUnique},
	{byLint, "form", "/data/components/1/component", `{"type":22,"custom_id":"f","max_values":11,"options":` + numbered(2, `{"label":"l","value":"#"}`) + `}`, ruleSelectRange},
	{byLint, "form", "/data/title", letters(46), ruleModalTitle},
	{byLint, "form", "/data/title", `""`, ruleModalTitle},
	{byLint, "form", "/data/components", `[]`, ruleModalCount},
	{byLint, "form", "/data/components", numbered(6, `{"type":10,"content":"c"}`), ruleModalCount},
	{byLint, "form", "/data/components/0/label", letters(46), ruleLabel},
	{byLint, "form", "/data/components/2/components/0/label", ``, ruleLabel},
	{byLint, "form", "/data/components/2/components/0/label", letters(46), ruleLabel},
	{byLint, "form", "/data/components/0/description", letters(101), ruleLabelText},
	{byLint, "form", "/data/components/1/component", `{"type":2,"style":1,"label":"l","custom_id":"b"}`, ruleLabelChild},
	{byLint, "form", "/data/components/1/component", ``, ruleLabelChild},
	{byLint, "form", "/data/components/0/component/value", letters(1001), ruleInputValue},
	{byLint, "form", "/data/components/2/components/0/max_length", `4001`, ruleInputLength},
	{byLint, "form", "/data/components/0/component/min_length", `1001`, ruleInputLength},
	{byLint, "form", "/data/components/0/component/placeholder", letters(101), ruleInputHint},
	{byLint, "form", "/data/components/2/components/-", `{"type":4,"custom_id":"x","style":1,"label":"l"}`, ruleInputStandalone},
	{byLint, "form", "/data/components/2/components/0/type", `2`, ruleInputStandalone},
}

var brokenForSchema = []broken{
	{bySchema, "commands", "", `{"name":"race"}`, "not an array"},
	{bySchema, "commands", "", `[`, "not JSON"},
	{bySchema, "commands", "/0/name", ``, "/0/: lacks name"},
	{bySchema, "commands", "/0/name", `7`, "/0/name: is number, want string"},
	{bySchema, "commands", "/0/type", `9`, "/0/type"},
	{bySchema, "commands", "/0/contexts", `[7]`, "/0/contexts/0"},
	{bySchema, "commands", "/0/integration_types", `"0"`, "/0/integration_types: is string"},
	{bySchema, "commands", optionAt + "/0/type", ``, "/0/options/0"},
	{bySchema, "commands", optionAt + "/0/type", `"3"`, "/0/options/0"},
	{bySchema, "commands", optionAt + "/0/type", `12`, "/0/options/0"},
	{bySchema, "commands", "/2/options/0/type", `12`, "/2/options/0: fits none of the allowed kinds"},
	{bySchema, "commands", "/2/options/0/description", ``, "/2/options/0: lacks description"},
	{bySchema, "commands", "/2/options/0/required", `"yes"`, "/2/options/0/required: is string"},
	{bySchema, "commands", "/2/options/0/channel_types", `[99]`, "/2/options/0/channel_types/0"},
	{bySchema, "commands", optionAt + "/2/choices/0/value", `true`, "choices/0/value: is boolean"},
	{bySchema, "answer", "/type", ``, "without a numeric type"},
	{bySchema, "answer", "/type", `"4"`, "without a numeric type"},
	{bySchema, "answer", "/type", `99`, "no schema for callbacks of type 99"},
	{bySchema, "answer", "/data/content", `["x"]`, "/data/content: is array"},
	{bySchema, "answer", "/data/content", letters(2001), "/data/content: has 2001 characters of 2000"},
	{bySchema, "answer", "/data/flags", `"64"`, "/data/flags: is string"},
	{bySchema, "answer", "/data/embeds", `{"title":"x"}`, "/data/embeds: is object"},
	{bySchema, "answer", "/data/embeds/0/color", `16777216`, "/data/embeds/0/color: breaks maximum"},
	{bySchema, "answer", "/data/embeds/0/timestamp", `"next Sunday"`, "/data/embeds/0/timestamp: is no valid date-time"},
	{bySchema, "answer", "/data/embeds/0/url", `"not a url"`, "/data/embeds/0/url: is no valid uri"},
	{bySchema, "answer", "/data/embeds/0/fields/0/value", ``, "/data/embeds/0/fields/0: lacks value"},
	{bySchema, "answer", "/data/embeds/0/fields/0/inline", `1`, "/data/embeds/0/fields/0/inline: is number"},
	{bySchema, "answer", "/data/allowed_mentions/parse", `["all"]`, "/data/allowed_mentions/parse/0"},
	{bySchema, "answer", "/data/attachments/0/id", ``, "/data/attachments/0: lacks id"},
	{bySchema, "answer", "/data/attachments/0/id", `0`, "/data/attachments/0/id: is number, want string"},
	{bySchema, "answer", rowAt + "/type", ``, "/data/components/0"},
	{bySchema, "answer", rowAt + "/type", `99`, "/data/components/0: fits none of the allowed kinds"},
	{bySchema, "answer", rowAt + "/components", ``, "/data/components/0: lacks components"},
	{bySchema, "answer", rowAt + "/components", `[]`, "/data/components/0/components: breaks minItems"},
	{bySchema, "answer", buttonAt + "/style", ``, buttonAt + ": lacks style"},
	{bySchema, "answer", buttonAt + "/style", `7`, buttonAt + "/style"},
	{bySchema, "answer", buttonAt + "/type", `4`, buttonAt + ": fits none of the allowed kinds"},
	{bySchema, "answer", buttonAt + "/disabled", `"no"`, buttonAt + "/disabled: is string"},
	{bySchema, "answer", buttonAt + "/emoji", `"x"`, buttonAt + "/emoji: is string"},
	{bySchema, "answer", selectAt + "/options", ``, selectAt + ": lacks options"},
	{bySchema, "answer", selectAt + "/options/0/value", ``, selectAt + "/options/0: lacks value"},
	{bySchema, "choices", "/data", ``, "lacks data"},
	{bySchema, "choices", "/data/choices/0/value", ``, "/data/choices/0: lacks value"},
	{bySchema, "choices", "/data/choices/0/name", `7`, "/data/choices/0/name: is number"},
	{bySchema, "form", "/data/title", ``, "/data: lacks title"},
	{bySchema, "form", "/data/components/0/component/style", `3`, "/data/components/0/component/style"},
	{bySchema, "form", "/data/components/0/component/required", `1`, "/data/components/0/component/required: is number"},
	{bySchema, "form", "/data/components/0/label", ``, "/data/components/0: lacks label"},
	{bySchema, "form", "/data/components/0/component", `{"type":2,"style":1,"label":"l","custom_id":"b"}`, "/data/components/0/component: fits none"},
	{bySchema, "message", "/nonce", `1.5`, "/nonce"},
	{bySchema, "message", "/nonce", letters(26), "/nonce: has 26 characters of 25"},
	{bySchema, "message", "/enforce_nonce", `"true"`, "/enforce_nonce: is string"},
	{bySchema, "message", "/allowed_mentions/users", `[400000000000000001]`, "/allowed_mentions/users/0: is number"},
	{bySchema, "message-edit", "/content", `1`, "/content: is number"},
	{bySchema, "message-edit", "/components", `{}`, "/components: is object"},
	{bySchema, "follow-up", "/content", letters(2001), "/content: has 2001 characters of 2000"},
	{bySchema, "original-edit", "/attachments/0/description", `5`, "/attachments/0/description: is number"},
	{bySchema, "original-edit", "/embeds", numbered(11, `{"title":"t"}`), "/embeds: has 11 items of 10"},
	{bySchema, "open-dm", "/recipient_id", `"rider"`, "/recipient_id: breaks pattern"},
	{bySchema, "thread", "/name", ``, "/: lacks name"},
	{bySchema, "open-dm", "", `"1"`, "is string, want object"},
	{bySchema, "second-system", "/components/0/components/0/content", ``, "/components/0/components/0: lacks content"},
	{bySchema, "open-dm", "path", "/api/v10/users/@me/guilds", "no schema for POST /users/@me/guilds"},
}

func TestBrokenPayloadsFailTheLint(t *testing.T) {
	payloads := validPayloads(t)
	broke := make(map[string]bool)
	for _, rows := range [][]broken{brokenRequests, brokenKeys, brokenCommands, brokenMessages, brokenFiles, brokenComponents} {
		for _, row := range rows {
			faults := lintOf(changed(t, payloads[row.base], row.at, row.to))
			if len(faults) == 0 {
				t.Errorf("%s%s: passed, want %s", row.base, row.at, row.expected)
			}
			for _, fault := range faults {
				broke[fault.Rule] = true
				if fault.Rule != row.expected {
					t.Errorf("%s%s: %v, want %s", row.base, row.at, fault, row.expected)
				}
			}
		}
	}
	for _, rule := range lintRuleNames(t) {
		if !broke[rule] {
			t.Errorf("no payload breaks %s", rule)
		}
	}
}

// lintRuleNames reads the names from the source, so that no rule is forgotten.
func lintRuleNames(t *testing.T) []string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "rules.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	ast.Inspect(file, func(n ast.Node) bool {
		if literal, ok := n.(*ast.BasicLit); ok {
			name, err := strconv.Unquote(literal.Value)
			if err != nil {
				t.Fatal(err)
			}
			names = append(names, name)
		}
		return true
	})
	if len(names) < 60 {
		t.Fatalf("%d rules found", len(names))
	}
	return names
}

func TestBrokenPayloadsFailTheSchema(t *testing.T) {
	schemas := needSchemas(t)
	payloads := validPayloads(t)
	for _, row := range brokenForSchema {
		p := changed(t, payloads[row.base], row.at, row.to)
		err := schemas.Check(p.Method, p.Path, p.Body)
		if err == nil {
			t.Errorf("%s%s = %.20s: passed, want %s", row.base, row.at, row.to, row.expected)
		} else if !strings.Contains(err.Error(), row.expected) {
			t.Errorf("%s%s = %.20s: %v, want %s", row.base, row.at, row.to, err, row.expected)
		}
	}
}
