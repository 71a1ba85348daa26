//go:build race

package rounds

const share = 8
