package planner

// Reason is why a day differs from the usual week: the rule's id, one plain
// sentence, and where the rule comes from ("common practice" where no study does).
type Reason struct {
	Rule, Text, Source string
}
