package lint

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
)

// SchemasVariable names the environment variable with the path of Discord's
// OpenAPI document. The document is Discord's and is not part of the project.
const SchemasVariable = "MUSETTE_DISCORD_OPENAPI"

const schemaDocument = "discord:///openapi.json"

// Schemas checks request bodies against Discord's OpenAPI document. It may be
// used by several goroutines.
type Schemas struct {
	mu       sync.Mutex
	compiler *jsonschema.Compiler
	compiled map[string]*jsonschema.Schema
}

// SchemasFromEnv opens the document that SchemasVariable names and returns its
// path too. Where the variable is unset, both are empty and the error is nil.
func SchemasFromEnv() (*Schemas, string, error) {
	path := os.Getenv(SchemasVariable)
	if path == "" {
		return nil, "", nil
	}
	schemas, err := OpenSchemas(path)
	return schemas, path, err
}

// OpenSchemas reads the OpenAPI document at path. Its schemas are compiled when
// they are first needed.
func OpenSchemas(path string) (*Schemas, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("open Discord's OpenAPI document: %w", err)
	}
	defer file.Close()
	document, err := jsonschema.UnmarshalJSON(file)
	if err != nil {
		return nil, fmt.Errorf("read Discord's OpenAPI document: %w", err)
	}
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	compiler.AssertFormat()
	if err := compiler.AddResource(schemaDocument, document); err != nil {
		return nil, fmt.Errorf("read Discord's OpenAPI document: %w", err)
	}
	s := &Schemas{compiler: compiler, compiled: make(map[string]*jsonschema.Schema)}
	if _, err := s.named("MessageCreateRequest"); err != nil {
		return nil, fmt.Errorf("not Discord's OpenAPI document: %w", err)
	}
	return s, nil
}

// named compiles #/components/schemas/name once.
func (s *Schemas) named(name string) (*jsonschema.Schema, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if schema, ok := s.compiled[name]; ok {
		return schema, nil
	}
	schema, err := s.compiler.Compile(schemaDocument + "#/components/schemas/" + name)
	if err != nil {
		return nil, err
	}
	s.compiled[name] = schema
	return schema, nil
}

// Check validates the JSON body of a request that the bot sends. A reading
// request is never wrong; a writing one without a known schema always is. The
// errors name places and rules, never texts of the body.
func (s *Schemas) Check(method, path string, body []byte) error {
	payload := payloadKindOf(method, path)
	if payload == payloadNone {
		return nil
	}
	if payload == payloadUnknown {
		return fmt.Errorf("no schema for %s", payloadName(method, path))
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(body))
	if err != nil {
		return fmt.Errorf("%s: the body is not JSON", payloadName(method, path))
	}
	if payload == payloadCommands {
		err = s.checkCommands(value)
	} else {
		err = s.checkOne(payload, value)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", payloadName(method, path), err)
	}
	return nil
}

func (s *Schemas) checkOne(payload payloadKind, value any) error {
	name, err := schemaName(payload, value)
	if err != nil {
		return err
	}
	return s.validate(name, "", value)
}

// checkCommands checks each command alone, since the document writes the
// array of the bulk request in place and names only its items.
func (s *Schemas) checkCommands(value any) error {
	commands, ok := value.([]any)
	if !ok {
		return errors.New("commands are not an array")
	}
	for i, command := range commands {
		err := s.validate("ApplicationCommandUpdateRequest", "/"+strconv.Itoa(i), withoutPermissions(command))
		if err != nil {
			return err
		}
	}
	return nil
}

// withoutPermissions hides default_member_permissions of a command where it is
// a string: the OpenAPI document asks for an integer, the page "Application
// Commands" for a string. This one field is exempt, and only with the documented
// type; the lint checks its form.
func withoutPermissions(command any) any {
	object, ok := command.(map[string]any)
	if !ok {
		return command
	}
	const field = "default_member_permissions"
	if _, ok := object[field].(string); ok {
		delete(object, field)
	}
	return object
}

// schemaName picks the schema by the request and, for a callback, by its kind.
func schemaName(payload payloadKind, value any) (string, error) {
	switch payload {
	case payloadMessage:
		return "MessageCreateRequest", nil
	case payloadMessageEdit:
		return "MessageEditRequestPartial", nil
	case payloadFollowUp:
		return "IncomingWebhookRequestPartial", nil
	case payloadFollowUpEdit:
		return "IncomingWebhookUpdateRequestPartial", nil
	case payloadDM:
		return "CreatePrivateChannelRequest", nil
	case payloadThread:
		return "CreateTextThreadWithoutMessageRequest", nil
	}
	object, _ := value.(map[string]any)
	number, ok := object["type"].(json.Number)
	if !ok {
		return "", errors.New("a callback without a numeric type")
	}
	switch number.String() {
	case "4", "5":
		return "CreateMessageInteractionCallbackRequest", nil
	case "6", "7":
		return "UpdateMessageInteractionCallbackRequest", nil
	case "8":
		return "ApplicationCommandAutocompleteCallbackRequest", nil
	case "9":
		return "ModalInteractionCallbackRequest", nil
	}
	return "", fmt.Errorf("no schema for callbacks of type %s", number)
}

func (s *Schemas) validate(name, at string, value any) error {
	schema, err := s.named(name)
	if err != nil {
		return err
	}
	err = schema.Validate(value)
	var invalid *jsonschema.ValidationError
	if errors.As(err, &invalid) {
		lines := schemaFaults(invalid)
		slices.Sort(lines)
		for i := range lines {
			lines[i] = at + lines[i]
		}
		return errors.New(strings.Join(slices.Compact(lines), "; "))
	}
	return err
}

// schemaFaults words the ends of an error's tree. Of a failed choice between
// schemas it follows those whose "type" fits, since the others say nothing.
func schemaFaults(e *jsonschema.ValidationError) []string {
	if len(e.Causes) == 0 {
		return []string{"/" + strings.Join(e.InstanceLocation, "/") + ": " + schemaFault(e)}
	}
	causes := e.Causes
	switch e.ErrorKind.(type) {
	case *kind.OneOf, *kind.AnyOf:
		causes = slices.DeleteFunc(slices.Clone(causes), func(c *jsonschema.ValidationError) bool {
			return wrongBranch(c, len(e.InstanceLocation))
		})
		if len(causes) == 0 {
			return []string{"/" + strings.Join(e.InstanceLocation, "/") + ": fits none of the allowed kinds"}
		}
	}
	var lines []string
	for _, cause := range causes {
		lines = append(lines, schemaFaults(cause)...)
	}
	return lines
}

// wrongBranch tells whether e is about another kind of object than the value
// at this depth: null, or a type field of another value.
func wrongBranch(e *jsonschema.ValidationError, depth int) bool {
	at := e.InstanceLocation
	switch k := e.ErrorKind.(type) {
	case *kind.Enum, *kind.Const:
		return len(at) == depth+1 && at[depth] == "type"
	case *kind.Type:
		return len(at) == depth && slices.Equal(k.Want, []string{"null"})
	}
	return slices.ContainsFunc(e.Causes, func(c *jsonschema.ValidationError) bool { return wrongBranch(c, depth) })
}

// schemaFault words one fault without the value that has it.
func schemaFault(e *jsonschema.ValidationError) string {
	switch k := e.ErrorKind.(type) {
	case *kind.Type:
		return "is " + k.Got + ", want " + strings.Join(k.Want, " or ")
	case *kind.Required:
		return "lacks " + strings.Join(k.Missing, ", ")
	case *kind.MaxLength:
		return fmt.Sprintf("has %d characters of %d", k.Got, k.Want)
	case *kind.MaxItems:
		return fmt.Sprintf("has %d items of %d", k.Got, k.Want)
	case *kind.Format:
		return "is no valid " + k.Want
	}
	return "breaks " + strings.Join(e.ErrorKind.KeywordPath(), "/")
}
