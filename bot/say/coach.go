package say

import (
	"strings"
)

func UpperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
