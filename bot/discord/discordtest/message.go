package discordtest

import (
	"encoding/json"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

const maxContent = 2000 // characters

// Message flags.
const (
	FlagEphemeral  = 1 << 6
	flagLoading    = 1 << 7
	flagComponents = 1 << 15
)

// Message is a message as people see it.
type Message struct {
	ID, ChannelID, AuthorID string
	Content                 string
	Embeds                  []Embed
	Components              []Component
	Flags                   int
	Attachments             []Attachment
	Files                   []File // those that came with it, in order
	Nonce                   string
	Created, Edited         time.Time // Edited is zero before the first edit

	rawEmbeds, rawComponents json.RawMessage
	call                     *Interaction // whose answer it is, or nil
	deleted                  bool
}

// Embed is a framed part of a message.
type Embed struct {
	Title       string       `json:"title"`
	Description string       `json:"description"`
	Fields      []EmbedField `json:"fields"`
	Image       struct {
		URL string `json:"url"`
	} `json:"image"`
	Footer struct {
		Text string `json:"text"`
	} `json:"footer"`
}

// EmbedField is a titled line of an embed.
type EmbedField struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Inline bool   `json:"inline"`
}

// Component is a part of a message or form, whatever its Type.
type Component struct {
	Type        int         `json:"type"`
	ID          int         `json:"id"`
	CustomID    string      `json:"custom_id"`
	Label       string      `json:"label"`
	Description string      `json:"description"`
	Content     string      `json:"content"`
	Style       int         `json:"style"`
	Disabled    bool        `json:"disabled"`
	URL         string      `json:"url"`
	Value       string      `json:"value"`
	Placeholder string      `json:"placeholder"`
	MinLength   int         `json:"min_length"`
	MaxLength   int         `json:"max_length"`
	Required    *bool       `json:"required"` // nil is true for text inputs
	Components  []Component `json:"components"`
	Component   *Component  `json:"component"`
	Options     []struct {
		Label       string `json:"label"`
		Value       string `json:"value"`
		Description string `json:"description"`
	} `json:"options"` // of a menu
}

// Component types that the double looks into.
const (
	partRow    = 1
	partButton = 2
	partMenu   = 3
	partInput  = 4
	partText   = 10
	partLabel  = 18
	linkStyle  = 5
)

// Attachment is a file of a message as it is shown.
type Attachment struct {
	ID          string
	Filename    string
	Description string // the alternative text
	ContentType string
	Size        int
}

// Text gathers what there is to read: content, embeds, texts of components.
func (m Message) Text() string {
	var lines []string
	add := func(parts ...string) {
		for _, p := range parts {
			if p != "" {
				lines = append(lines, p)
			}
		}
	}
	add(m.Content)
	for _, e := range m.Embeds {
		add(e.Title, e.Description)
		for _, f := range e.Fields {
			add(f.Name, f.Value)
		}
		add(e.Footer.Text)
	}
	for c := range walk(m.Components) {
		if c.Type == partText {
			add(c.Content)
		}
	}
	return strings.Join(lines, "\n")
}

// Buttons are the labels of the buttons and of the choices of menus, in order.
func (m Message) Buttons() []string {
	var labels []string
	for c := range walk(m.Components) {
		if c.Type == partButton {
			labels = append(labels, c.Label)
		}
		for _, o := range c.Options {
			labels = append(labels, o.Label)
		}
	}
	return labels
}

// walk goes through components and what they hold.
func walk(all []Component) func(yield func(Component) bool) {
	return func(yield func(Component) bool) {
		for _, c := range all {
			if !yield(c) {
				return
			}
			inner := c.Components
			if c.Component != nil {
				inner = append(slices.Clone(inner), *c.Component)
			}
			for d := range walk(inner) {
				if !yield(d) {
					return
				}
			}
		}
	}
}

// messageStore holds messages. The server's lock guards it.
type messageStore struct {
	byID      map[string]*Message
	inChannel map[string][]*Message // those that all may see, oldest first
	sent      map[string][]*Message // those the bot posted into the channel
	nonces    map[string]nonceUse
}

type nonceUse struct {
	message *Message
	at      time.Time
}

// nonceLife is Discord's "a few minutes" of enforce_nonce.
const nonceLife = 5 * time.Minute

func (m *messageStore) init() {
	m.byID, m.inChannel = map[string]*Message{}, map[string][]*Message{}
	m.sent, m.nonces = map[string][]*Message{}, map[string]nonceUse{}
}

// add gives a message its id and puts it where it may be seen.
func (s *Server) add(m *Message) {
	m.ID, m.Created = s.newID(), time.Now()
	s.messages.byID[m.ID] = m
	if m.Flags&FlagEphemeral == 0 {
		s.messages.inChannel[m.ChannelID] = append(s.messages.inChannel[m.ChannelID], m)
	}
}

// remove deletes a message.
func (s *Server) remove(m *Message) {
	m.deleted = true
	delete(s.messages.byID, m.ID)
	s.messages.inChannel[m.ChannelID] = slices.DeleteFunc(s.messages.inChannel[m.ChannelID], func(o *Message) bool { return o == m })
}

// fill writes a body over a message. Fields that the body lacks stay, and so do
// attachments where it names none. A refusal leaves the message as it was.
func (s *Server) fill(m *Message, raw []byte, files []File) *reply {
	var body struct {
		Content     *json.RawMessage `json:"content"`
		Embeds      *json.RawMessage `json:"embeds"`
		Components  *json.RawMessage `json:"components"`
		Attachments *json.RawMessage `json:"attachments"`
		Flags       int              `json:"flags"`
	}
	if len(raw) > 0 {
		if err := json.Unmarshal(raw, &body); err != nil {
			return ptr(formFault("_misc", "DICT_TYPE_CONVERT", "Only dictionaries may be used in a DictType"))
		}
	}
	next := *m
	var refused *reply
	set := func(field string, from *json.RawMessage, to any) {
		if from != nil && json.Unmarshal(*from, to) != nil {
			refused = ptr(formFault(field, "BASE_TYPE_BAD", "Value of this field has the wrong type"))
		}
	}
	if body.Content != nil {
		next.Content = "" // null clears it, too
	}
	set("content", body.Content, &next.Content)
	if body.Embeds != nil {
		next.Embeds, next.rawEmbeds = nil, *body.Embeds
	}
	set("embeds", body.Embeds, &next.Embeds)
	if body.Components != nil {
		next.Components, next.rawComponents = nil, *body.Components
	}
	set("components", body.Components, &next.Components)
	if refused == nil {
		refused = s.attach(&next, body.Attachments, files)
	}
	next.Flags |= body.Flags &^ (FlagEphemeral | flagLoading)
	switch {
	case refused != nil:
		return refused
	case utf8.RuneCountInString(next.Content) > maxContent:
		return ptr(formFault("content", "BASE_TYPE_MAX_LENGTH", "Must be 2000 or fewer in length."))
	case next.Flags&flagComponents != 0 && (next.Content != "" || len(next.Embeds) > 0):
		return ptr(formFault("content", "MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2", "The 'content' field cannot be used when using MessageFlags.IS_COMPONENTS_V2"))
	case next.Content == "" && len(next.Embeds)+len(next.Components)+len(next.Attachments) == 0:
		return ptr(failure(50006))
	}
	*m = next
	return nil
}

// attach keeps the listed attachments and adds the files that came along.
func (s *Server) attach(m *Message, listed *json.RawMessage, files []File) *reply {
	var list []struct {
		ID          any    `json:"id"`
		Filename    string `json:"filename"`
		Description string `json:"description"`
	}
	if listed != nil && json.Unmarshal(*listed, &list) != nil {
		return ptr(formFault("attachments", "BASE_TYPE_BAD", "Value of this field has the wrong type"))
	}
	described := map[string]string{}
	var kept []Attachment
	var keptFiles []File
	for _, a := range list {
		id := idText(a.ID)
		described[id] = a.Description
		for i, old := range m.Attachments {
			if old.ID == id {
				kept, keptFiles = append(kept, old), append(keptFiles, m.Files[i])
			}
		}
	}
	if listed == nil {
		kept, keptFiles = slices.Clone(m.Attachments), slices.Clone(m.Files)
	}
	for i, f := range files {
		kept = append(kept, Attachment{ID: s.newID(), Filename: f.Name, Description: described[idText(i)], ContentType: f.Type, Size: len(f.Data)})
		keptFiles = append(keptFiles, f)
	}
	m.Attachments, m.Files = kept, keptFiles
	return nil
}

// idText is an id that JSON has as a text or as a number.
func idText(id any) string {
	if text, ok := id.(string); ok {
		return text
	}
	return string(encode(id))
}
