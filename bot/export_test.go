package bot

// What the tests of this room look at.
const OffNow = offNow
