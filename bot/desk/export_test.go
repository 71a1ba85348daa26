package desk

// What the tests of this room look at.
