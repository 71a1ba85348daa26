package desk

// MaxOfferText is how long labels and values of offers are, in units of UTF-16.
const MaxOfferText = 100
