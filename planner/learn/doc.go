// Package learn weighs what is believed of a rider's linear model by how the
// rider's races went: after each race it says at which day before a race
// training turns harmful for this rider, what that makes of the table's length of
// a taper, and how sure it is. It knows numbers only: no calendar and no clock.
//
// The prior is that of package response, laid out finely; a race gives each of its
// riders the weight with which that rider expects what was entered about it. Nothing is
// drawn by chance, so the same races always teach the same. What riders read of
// it is in docs/model.md, how well it does in docs/learning.md.
package learn
