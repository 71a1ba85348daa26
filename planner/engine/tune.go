package engine

import (
	"os"
	"strconv"
)

func env(n string, d float64) float64 {
	if v, err := strconv.ParseFloat(os.Getenv(n), 64); err == nil {
		return v
	}
	return d
}

var (
	Slope  = env("SLOPE", 6)
	HiPct  = int(env("HI", 75))
	LoPct  = int(env("LO", 40))
	CutPct = int(env("CUT", 41))
)

var Hi8 = int(env("HI8", 80))
var Hi11 = int(env("HI11", 100))
var FLong = env("FLONG", 1)

var HiLong = int(env("HILONG", 10))

func hiAt(t int) int {
	switch {
	case t >= 11:
		return Hi11
	case t >= 8:
		return Hi8
	}
	return HiPct
}

var OP = env("OP", 25)

var WholeT = int(env("WHOLE", 8))
var LongQ = int(env("LONGQ", 8))
var AddQ = int(env("ADDQ", 8))
var BlockFirst = int(env("BF", 0))

var CutAdd = int(env("CUTADD", 0))
