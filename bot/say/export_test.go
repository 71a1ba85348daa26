package say

// What the tests of this room look at.
var Verb = verb
