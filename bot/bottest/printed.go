package bottest

import (
	"regexp"
)

// PrintedCommand is a command in a reply, up to the end of its line or sentence.
var PrintedCommand = regexp.MustCompile(`(?m)(?:^|[ (])/((?:race|week|plan|season|ride|done|tell|me|help)\b(?:"[^"\n]*"|[^"\n])*?)(?:\. |\.?$)`)
