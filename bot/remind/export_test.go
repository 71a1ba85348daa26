package remind

// What the tests of this room look at.
var InBuildUp = inBuildUp
var RaceNear = raceNear
