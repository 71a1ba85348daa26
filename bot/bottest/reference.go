package bottest

import (
	"flag"
)

var Update = flag.Bool("update", false, "write generated files anew")
