package show

import (
	"fmt"

	"musette/planner/raceday"
)

// EatInRace is what to eat in a race of so many minutes.
func EatInRace(minutes int) string {
	switch fuel := raceday.FuelOf(minutes); {
	case fuel.Rinse:
		return "small sips of a sugary drink do, or a rinse of the mouth"
	case fuel.Mixed:
		return fmt.Sprintf("%d to %d g of carbohydrate an hour, up to %d g of mixed sugars (glucose and fructose) if you have tried that in training", fuel.Low, raceday.OneSugar, fuel.High)
	case fuel.High > 0:
		return fmt.Sprintf("%d to %d g of carbohydrate an hour, as you have tried it in training", fuel.Low, fuel.High)
	}
	return "nothing is needed, water does"
}

// ExampleKilos is the weight that examples are for.
const ExampleKilos = 70

// ofPasta are the grams of carbohydrate in 100 g of dry pasta.
const ofPasta = 70

// AsFood is what EatBefore comes to for an example of a rider, as food.
func AsFood() string {
	low, high := ExampleKilos*raceday.LoadLow, ExampleKilos*raceday.LoadHigh
	return fmt.Sprintf("if you can eat that much. For %d kg that is %d to %d g a day, as much as %d g of dry pasta hold: spread it over bread, rice, pasta, potatoes, fruit and juice",
		ExampleKilos, low, high, 100*low/ofPasta)
}

// EatBefore is how much carbohydrate a day belongs before a race that wants more.
func EatBefore() string {
	return fmt.Sprintf("%d to %d g of carbohydrate a day for each kg of your weight", raceday.LoadLow, raceday.LoadHigh)
}
