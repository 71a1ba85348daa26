package api

// Flags of messages: FlagEphemeral hides an answer to an interaction from all
// but who asked, FlagSilent lets no device ring.
const (
	FlagEphemeral = 1 << 6
	FlagSilent    = 1 << 12
)

// Component types and button styles of Discord's message components.
const (
	ComponentRow       = 1
	ComponentButton    = 2
	ComponentSelect    = 3
	ComponentTextInput = 4
	ComponentLabel     = 18

	StylePrimary   = 1
	StyleSecondary = 2
	StyleDanger    = 4

	InputParagraph = 2
)

// Message is what the bot writes: to a channel, as an answer or as an edit.
// The limits of its fields are Discord's; package discord keeps them.
type Message struct {
	Content         string       `json:"content"`
	Embeds          []Embed      `json:"embeds"`
	Components      []Component  `json:"components"` // rows; empty takes the old ones away on an edit
	Flags           int          `json:"flags,omitempty"`
	AllowedMentions Mentions     `json:"allowed_mentions"`
	Attachments     []Attachment `json:"attachments,omitempty"`
	Nonce           string       `json:"nonce,omitempty"` // at most 25 characters
	EnforceNonce    bool         `json:"enforce_nonce,omitempty"`

	Files []File `json:"-"` // in the order of Attachments
}

// Mentions names who may be notified: nobody, unless Users are listed.
// Parse is never nil, since Discord takes a missing list for everybody.
type Mentions struct {
	Parse []string `json:"parse"`
	Users []string `json:"users,omitempty"`
}

// Embed is a framed part of a message.
type Embed struct {
	Title       string       `json:"title,omitempty"`
	Description string       `json:"description,omitempty"`
	Fields      []EmbedField `json:"fields,omitempty"`
	Image       *EmbedImage  `json:"image,omitempty"`
}

// EmbedField is a titled line of an embed.
type EmbedField struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Inline bool   `json:"inline,omitempty"`
}

// EmbedImage points at a file of the same message: attachment://plan.png.
type EmbedImage struct {
	URL string `json:"url"`
}

// Component is a row, button, select menu, label or text input; unused fields are left out.
type Component struct {
	Type        int         `json:"type"`
	Components  []Component `json:"components,omitempty"` // of a row
	Component   *Component  `json:"component,omitempty"`  // of a label
	CustomID    string      `json:"custom_id,omitempty"`
	Label       string      `json:"label,omitempty"`
	Description string      `json:"description,omitempty"` // of a label
	Style       int         `json:"style,omitempty"`
	Disabled    bool        `json:"disabled,omitempty"`
	Value       string      `json:"value,omitempty"`
	Placeholder string      `json:"placeholder,omitempty"`
	MinLength   int         `json:"min_length,omitempty"`
	MaxLength   int         `json:"max_length,omitempty"`
	Required    *bool       `json:"required,omitempty"`
	Options     []Option    `json:"options,omitempty"` // of a select menu
}

// Option is a choice of a select menu; Value comes back when it is chosen.
type Option struct {
	Label       string `json:"label"`
	Value       string `json:"value"`
	Description string `json:"description,omitempty"`
}

// Attachment describes the file with the same number; Description is its alt text.
type Attachment struct {
	ID          int    `json:"id,string"` // as text, as all of Discord's ids
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"`
}

// File is the content of an attachment. Type is a media type.
type File struct {
	Name, Type string
	Data       []byte
}

// Modal is a form; CustomID comes back with what was typed.
type Modal struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"` // at most 45 characters
	Components []Component `json:"components"`
}

// Choice is an offer of autocompletion; each at most 100 characters.
type Choice struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Choices is the answer to a request for offers. All is never nil.
type Choices struct {
	All []Choice `json:"choices"`
}

// Kinds of first answers to an interaction.
const (
	AnswerMessage        = 4
	AnswerDeferred       = 5
	AnswerDeferredUpdate = 6
	AnswerUpdate         = 7
	AnswerChoices        = 8
	AnswerModal          = 9
)
