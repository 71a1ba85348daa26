package picture

import "image/color"

// The card is unbleached cotton and everything on it ink. Text stands out from
// the card by 4.5:1 at least, lines, bars and marks by 3:1 (WCAG 2.1).
var (
	card   = color.RGBA{0xF8, 0xF3, 0xE7, 0xFF}
	border = color.RGBA{0x8C, 0x81, 0x6D, 0xFF} // told from the card, from white and from near black

	ink  = color.RGBA{0x27, 0x24, 0x1F, 0xFF} // what counts: titles, values, marks
	soft = color.RGBA{0x63, 0x5A, 0x4B, 0xFF} // axes and their words
	rule = color.RGBA{0x8C, 0x81, 0x6D, 0xFF} // dotted lines of the scale

	plain  = color.RGBA{0x2B, 0x4C, 0x6F, 0xFF} // planned rides
	accent = color.RGBA{0x9A, 0x3B, 0x1E, 0xFF} // race
	moss   = color.RGBA{0x3A, 0x5C, 0x2E, 0xFF} // fitness
	umber  = color.RGBA{0x80, 0x4A, 0x0C, 0xFF} // fatigue
	edge   = color.RGBA{0x8A, 0x7C, 0x62, 0xFF} // outline of usual bars and of ranges
	pale   = color.RGBA{0xE6, 0xDB, 0xC2, 0xFF} // inside such an outline, never alone
)

// Sizes of letters in pixels of the picture; a phone shows them at 0.4 of that.
const (
	titleSize = 34
	wordSize  = 27
)
