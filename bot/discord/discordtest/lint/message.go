package lint

import (
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// messageUse is where a message goes: which keys and flags it may have.
type messageUse struct {
	keys  []string // besides those of every message
	flags int64
	fresh bool // a new message, which must not be empty
}

var (
	messageCreate = messageUse{
		keys:  []string{"nonce", "enforce_nonce", "tts", "message_reference", "sticker_ids", "poll"},
		flags: flagSuppressEmbeds | flagSuppressNotifications | flagComponentsV2, fresh: true,
	}
	messageEdit   = messageUse{flags: flagSuppressEmbeds | flagComponentsV2}
	messageAnswer = messageUse{
		keys:  []string{"tts", "poll"},
		flags: flagSuppressEmbeds | flagEphemeral | flagSuppressNotifications | flagComponentsV2, fresh: true,
	}
	messageUpdate       = messageUse{flags: messageAnswer.flags}
	messageFollowUp     = messageAnswer
	messageFollowUpEdit = messageUse{keys: []string{"poll"}, flags: messageEdit.flags}
)

// callback checks the first answer to an interaction by its kind.
func (l *linter) callback(o lintObject) {
	l.keys(o, "type", "data")
	data, ok := o.object("data")
	kind := o.integer("type")
	if !ok && kind != callbackDeferred && kind != callbackDeferredUpdate {
		l.fail("/data", ruleBody, "missing")
		return
	}
	switch kind {
	case callbackMessage:
		l.message(data, messageAnswer)
	case callbackUpdate:
		l.message(data, messageUpdate)
	case callbackDeferred:
		l.deferred(data, flagEphemeral)
	case callbackDeferredUpdate:
		l.deferred(data, 0)
	case callbackChoices:
		l.completion(data)
	case callbackModal:
		l.modal(data)
	default:
		l.fail("/type", ruleCallback, "kind %d is not one of 4 to 9", kind)
	}
}

// deferred checks an answer that only promises one: it has flags or nothing.
func (l *linter) deferred(data lintObject, flags int64) {
	for key := range data.members {
		if key != "flags" {
			l.fail(data.at+"/"+key, ruleDeferred, "a deferred answer has flags only")
		}
	}
	if data.integer("flags")&^flags != 0 {
		l.fail(data.at+"/flags", ruleDeferred, "flags beyond %d", flags)
	}
}

func (l *linter) completion(data lintObject) {
	l.keys(data, "choices")
	if _, ok := data.members["choices"].([]any); !ok {
		l.fail(data.at+"/choices", ruleCompletionMissing, "missing; an empty list is fine")
		return
	}
	kind := int64(optionString)
	for _, choice := range data.objects("choices") {
		if _, number := choice.members["value"].(json.Number); number {
			kind = optionNumber
		}
	}
	l.choices(data, kind)
}

func (l *linter) message(o lintObject, use messageUse) {
	keys := []string{"content", "embeds", "components", "flags", "allowed_mentions", "attachments"}
	l.keys(o, append(keys, use.keys...)...)
	l.length(o, "content", ruleContent, 0, limitContent)
	l.marked(o, "content")
	l.embeds(o)
	l.mentions(o)
	l.messageFlags(o, use)
	l.nonce(o)
	l.attachments(o)
	l.messageComponents(o)
	if use.fresh && strings.TrimSpace(o.text("content")) == "" && len(l.files) == 0 &&
		len(o.list("embeds")) == 0 && len(o.list("components")) == 0 && len(o.list("sticker_ids")) == 0 && !o.has("poll") {
		l.fail(o.at, ruleEmpty, "no content, embed, component or file")
	}
}

func (l *linter) messageFlags(o lintObject, use messageUse) {
	flags := o.integer("flags")
	if flags&flagEphemeral != 0 && use.flags&flagEphemeral == 0 {
		l.fail(o.at+"/flags", ruleEphemeral, "only answers to interactions can be private")
	}
	if rest := flags &^ (use.flags | flagEphemeral); rest != 0 {
		l.fail(o.at+"/flags", ruleFlags, "flags %d may not be set here", rest)
	}
}

// nonce checks that a number against duplicates is also enforced.
func (l *linter) nonce(o lintObject) {
	l.length(o, "nonce", ruleNonce, 1, limitNonce)
	if o.has("nonce") != o.flag("enforce_nonce") {
		l.fail(o.at+"/nonce", ruleNonceEnforce, "nonce and enforce_nonce belong together")
	}
}

// mentions checks the bot's promise: only users that are listed are notified.
func (l *linter) mentions(o lintObject) {
	mentions, ok := o.object("allowed_mentions")
	if !ok {
		l.fail(o.at+"/allowed_mentions", ruleMentions, "missing: texts of users could notify people")
		return
	}
	l.keys(mentions, "parse", "users", "roles", "replied_user")
	if parse, ok := mentions.members["parse"].([]any); !ok || len(parse) > 0 {
		l.fail(mentions.at+"/parse", ruleMentionsParse, "want an empty list")
	}
	l.count(mentions, "users", ruleMentionsUsers, 0, limitMentionedUsers)
}

func (l *linter) embeds(o lintObject) {
	l.count(o, "embeds", ruleEmbedCount, 0, limitEmbeds)
	sum := 0
	for _, embed := range o.objects("embeds") {
		sum += l.embed(embed)
	}
	if sum > limitEmbedSum {
		l.fail(o.at+"/embeds", ruleEmbedSum, "%d characters of %d", sum, limitEmbedSum)
	}
}

// embed checks one embed and returns how much of the sum it takes.
func (l *linter) embed(o lintObject) int {
	l.keys(o, "title", "type", "description", "url", "timestamp", "color", "footer", "image", "thumbnail", "author", "fields")
	l.length(o, "title", ruleEmbedTitle, 0, limitEmbedTitle)
	l.length(o, "description", ruleEmbedDescription, 0, limitEmbedDescription)
	l.marked(o, "title", "description")
	l.count(o, "fields", ruleEmbedFields, 0, limitEmbedFields)
	sum := characters(o, "title", "description")
	for _, field := range o.objects("fields") {
		l.keys(field, "name", "value", "inline")
		l.length(field, "name", ruleFieldName, 1, limitFieldName)
		l.length(field, "value", ruleFieldValue, 1, limitFieldValue)
		l.marked(field, "name", "value")
		sum += characters(field, "name", "value")
	}
	if footer, ok := o.object("footer"); ok {
		l.keys(footer, "text", "icon_url")
		l.length(footer, "text", ruleFooter, 1, limitFooter)
		l.plain(footer, "text")
		l.reference(footer, "icon_url", true)
		sum += characters(footer, "text")
	}
	if author, ok := o.object("author"); ok {
		l.keys(author, "name", "url", "icon_url")
		l.length(author, "name", ruleAuthor, 1, limitAuthor)
		l.plain(author, "name")
		l.reference(author, "icon_url", true)
		sum += characters(author, "name")
	}
	for _, key := range []string{"image", "thumbnail"} {
		if picture, ok := o.object(key); ok {
			l.keys(picture, "url")
			l.reference(picture, "url", true)
		}
	}
	return sum
}

func characters(o lintObject, keys ...string) int {
	n := 0
	for _, key := range keys {
		n += utf8.RuneCountInString(o.text(key))
	}
	return n
}

// reference checks that attachment:// names an uploaded file, and a picture
// where only pictures are shown.
func (l *linter) reference(o lintObject, key string, picture bool) {
	name, ok := strings.CutPrefix(o.text(key), "attachment://")
	if !ok {
		return
	}
	if !slices.Contains(l.files, name) {
		l.fail(o.at+"/"+key, ruleReferenceFile, "no such file is uploaded")
	}
	if picture && !slices.Contains(imageExtensions, strings.ToLower(path.Ext(name))) {
		l.fail(o.at+"/"+key, ruleReferenceImage, "want one of %s", strings.Join(imageExtensions, " "))
	}
}

// attachments checks the list against the uploaded files: an entry's id is the
// number of a file, or, when a message is edited, the id of one it has.
func (l *linter) attachments(o lintObject) {
	l.count(o, "attachments", ruleAttachmentCount, 0, limitAttachments)
	listed := make(map[string]bool)
	for _, attachment := range o.objects("attachments") {
		l.keys(attachment, "id", "filename", "description", "is_spoiler")
		l.length(attachment, "description", ruleAttachmentAlt, 0, limitAltText)
		id := fmt.Sprint(attachment.members["id"])
		if listed[id] {
			l.fail(attachment.at+"/id", ruleAttachmentID, "used twice")
		}
		listed[id] = true
		l.attachment(attachment, id)
	}
	for i := range l.files {
		if !listed[strconv.Itoa(i)] {
			l.fail(o.at+"/attachments", ruleAttachmentListed, "file %d is not listed", i)
		}
	}
}

// leastSnowflake parts ids of Discord, which hold a time, from numbers of files.
const leastSnowflake = 1 << 22

func (l *linter) attachment(o lintObject, id string) {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil || n >= uint64(len(l.files)) && n < leastSnowflake {
		l.fail(o.at+"/id", ruleAttachmentID, "no file of this number is uploaded")
		return
	}
	if n < uint64(len(l.files)) && o.has("filename") && o.text("filename") != l.files[n] {
		l.fail(o.at+"/filename", ruleAttachmentName, "not the name of file %d", n)
	}
}
