package desk

// ExampleWeek is a right typical week, for hints.
const ExampleWeek = "mon recovery 40min; tue intervals 1h30 5x3min; thu off; sat long 3h"
