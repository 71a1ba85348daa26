package say

// None takes back what was told before.
const None = "none"

// TakeBack is the label of the way back from what had been told before already.
const TakeBack = "Take it back"
