package desk

import (
	"fmt"
	"runtime"
)

// PanicText is what a log may hold of a panic: of one that is not the runtime's
// own its kind alone, since it may quote what people wrote.
func PanicText(p any) string {
	if err, ok := p.(runtime.Error); ok {
		return err.Error()
	}
	return fmt.Sprintf("%T", p)
}
