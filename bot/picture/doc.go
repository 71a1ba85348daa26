// Package picture draws planned days and taper lengths as PNG pictures, each
// with a text that says the same. Pictures bring their own card, so that one
// file reads well on dark and on light backgrounds, and letters large enough
// for a phone that shows them 400 pixels wide. Equal input gives equal bytes;
// every function may be called from several goroutines at once.
package picture

// Picture is a PNG and what it shows in words: plain sentences of at most
// 900 characters.
type Picture struct {
	PNG []byte
	Alt string
}
