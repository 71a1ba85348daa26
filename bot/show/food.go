package show

import (
	"fmt"

	"musette/planner/raceday"
)

// EatInRace is what to eat in a race of so many minutes.
func EatInRace(minutes int) string {
	switch fuel := raceday.FuelOf(minutes); {
	case fuel.Rinse:
		return "small sips of a sugary drink are enough, or a rinse of the mouth with it"
	case fuel.Mixed:
		return fmt.Sprintf("%d to %d g of carbohydrate an hour (a gel or a banana holds about 25 g), up to %d g of mixed sugars (glucose and fructose) if you have tried that in training", fuel.Low, raceday.OneSugar, fuel.High)
	case fuel.High > 0:
		return fmt.Sprintf("%d to %d g of carbohydrate an hour (a gel or a banana holds about 25 g), as you have tried it in training", fuel.Low, fuel.High)
	}
	return "you need no food, water is enough"
}

// Weights of riders, in kg: what figures are for where the rider gave none, and what is taken.
const (
	lightKilos, heavyKilos = 60, 80

	LeastKilos, MostKilos = 30, 200
)

// Grams is an amount for each kg of weight as grams for a rider, and for whom these are; of
// 0 kilos a range of riders. per is what they are had in, as " a day".
func Grams(low, high, kilos int, per string) string {
	from, to, whom := kilos, kilos, fmt.Sprintf("at your %d kg", kilos)
	if kilos == 0 {
		from, to, whom = lightKilos, heavyKilos, fmt.Sprintf("for riders of %d to %d kg", lightKilos, heavyKilos)
	}
	return fmt.Sprintf("%d to %d g of carbohydrate%s %s", tens(low*from), tens(high*to), per, whom)
}

// tens rounds grams as no kitchen scale has to.
func tens(grams int) int { return (grams + 5) / 10 * 10 }

// bowl are the grams of carbohydrate in a bowl of porridge with a banana.
const bowl = 75

// Bowls is how much food an amount for each kg is at breakfast.
func Bowls(low, high, kilos int) string {
	from, to := kilos, kilos
	if kilos == 0 {
		from, to = lightKilos, heavyKilos
	}
	least, most := max(1, (low*from+bowl/2)/bowl), max(1, (high*to+bowl/2)/bowl)
	switch {
	case most == 1:
		return "about what a bowl of porridge with a banana holds"
	case least == most:
		return fmt.Sprintf("about what %d bowls of porridge with a banana hold", most)
	}
	return fmt.Sprintf("about what %d to %d bowls of porridge with a banana hold", least, most)
}

// EatBefore is how much carbohydrate belongs to the days before a race that wants more, and
// what food that is. Amounts of foods are those of food tables, rounded.
func EatBefore(kilos int) string {
	return "eat more rice, pasta, bread, potatoes, fruit and juice than usual. The published advice is " + Grams(raceday.LoadLow, raceday.LoadHigh, kilos, " a day") +
		". About 600 g are in 3 plates of pasta (100 g dry each), 8 slices of bread with jam, 3 bananas and a litre of juice. It is a lot of food: eat no more than sits well with you"
}
