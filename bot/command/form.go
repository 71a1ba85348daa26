package command

// Form is a text that a person writes or mends instead of typing an option.
type Form struct {
	Option             string // that the text answers
	Title, Label, Hint string
	Text               string // what stands there already
	MaxLen             int    // characters
}
