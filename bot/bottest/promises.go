package bottest

import (
	"reflect"

	"musette/planner"
)

func SameFacts(a, b planner.Facts) bool { return reflect.DeepEqual(a, b) }
