package coach

// What the tests of this room look at.
const MostButtons = mostButtons

const MostDigest = mostDigest

const RidersFile = ridersFile

type Standing = standing

var FindAthlete = findAthlete

var One = one

var RiderList = riderList

var TellApart = tellApart

var Units = units
