package lint

// The limits of Discord's public documentation, each written once. The page of
// the developer documentation that states it stands above each group.
//
// Lengths count Unicode code points: so Discord answered when asked (issue 1315
// of its documentation), and the schema's maxLength means the same. White space
// at the ends of embed texts is trimmed before Discord counts; here it counts,
// the stricter way.

// Page "Application Commands".
const (
	limitChatCommands    = 100 // in one scope
	limitMenuCommands    = 15  // user commands, and again message commands
	limitName            = 32
	limitDescription     = 100
	limitOptions         = 25 // on one level
	limitChoices         = 25 // also of one autocompletion
	limitChoiceName      = 100
	limitChoiceValue     = 100
	limitCommandSize     = 8000 // names, descriptions and values, in the longest language
	limitOptionLength    = 6000 // of min_length and max_length
	limitOptionMagnitude = 1<<53 - 1
)

// Page "Message Resource": create message, embed limits, allowed mentions.
const (
	limitContent          = 2000
	limitEmbeds           = 10
	limitEmbedTitle       = 256
	limitEmbedDescription = 4096
	limitEmbedFields      = 25
	limitFieldName        = 256
	limitFieldValue       = 1024
	limitFooter           = 2048
	limitAuthor           = 256
	limitEmbedSum         = 6000 // over all embeds of a message
	limitMentionedUsers   = 100
	limitNonce            = 25
	limitAttachments      = 10
	limitAltText          = 1024
)

// Page "Channels Resource": threads.
const (
	limitThreadName = 100
)

// Page "Component Reference".
const (
	limitRows              = 5 // without the flag of the second component system
	limitButtons           = 5 // in one row
	limitComponents        = 40
	limitTextDisplays      = 4000 // summed over a message; that it is the sum is from memory
	limitCustomID          = 100
	limitButtonLabel       = 80
	limitButtonURL         = 512
	limitSelectOptions     = 25
	limitSelectText        = 100 // label, value, description
	limitSelectPlaceholder = 150
	limitLabel             = 45
	limitLabelDescription  = 100
	limitInputText         = 4000
	limitInputPlaceholder  = 100
	limitGroupOptions      = 10 // of radio buttons and of checkboxes
)

// Page "Interactions": modals.
const (
	limitModalTitle      = 45
	limitModalComponents = 5
)

// Message flags of page "Message Resource".
const (
	flagSuppressEmbeds        = 1 << 2
	flagEphemeral             = 1 << 6
	flagSuppressNotifications = 1 << 12
	flagComponentsV2          = 1 << 15
)

// Component types of page "Component Reference".
const (
	componentRow           = 1
	componentButton        = 2
	componentStringSelect  = 3
	componentTextInput     = 4
	componentUserSelect    = 5
	componentRoleSelect    = 6
	componentMention       = 7
	componentChannelSelect = 8
	componentSection       = 9
	componentText          = 10
	componentThumbnail     = 11
	componentGallery       = 12
	componentFile          = 13
	componentSeparator     = 14
	componentContainer     = 17
	componentLabel         = 18
	componentUpload        = 19
	componentRadioGroup    = 21
	componentCheckboxGroup = 22
	componentCheckbox      = 23
)

// Button styles of page "Component Reference".
const (
	buttonLink    = 5
	buttonPremium = 6
)

// Option types of page "Application Commands".
const (
	optionSubcommand = 1
	optionGroup      = 2
	optionString     = 3
	optionInteger    = 4
	optionChannel    = 7
	optionNumber     = 10
	optionLast       = 11
)

// Kinds of interaction callbacks of page "Interactions".
const (
	callbackMessage        = 4
	callbackDeferred       = 5
	callbackDeferredUpdate = 6
	callbackUpdate         = 7
	callbackChoices        = 8
	callbackModal          = 9
)

// localeNames are the languages of page "API Reference", section Locales.
var localeNames = []string{
	"id", "da", "de", "en-GB", "en-US", "es-ES", "es-419", "fr", "hr", "it", "lt", "hu", "nl", "no", "pl", "pt-BR",
	"ro", "fi", "sv-SE", "vi", "tr", "cs", "el", "bg", "ru", "uk", "hi", "th", "zh-CN", "ja", "zh-TW", "ko",
}

// imageExtensions may be shown by attachment:// in embeds: page "API
// Reference", section Uploading Files.
var imageExtensions = []string{".jpg", ".jpeg", ".png", ".webp", ".gif"}
