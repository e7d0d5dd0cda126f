package model

import (
	"math"

	"meniscus/model/unit"
)

// fibreSaturation is the moisture at which the walls of wood's cells hold all
// the water that they can: below it wood shrinks as it dries, above it the
// water only fills its hollows (Forest Products Laboratory, Wood Handbook,
// FPL-GTR-282, chapter 4).
const fibreSaturation = unit.Share(0.30)

// The temperatures that the handbook's table of equilibrium moisture covers, 30
// to 210 °F; beyond them the nearer end counts.
var moistureColdest, moistureHottest = unit.Fahrenheit(30), unit.Fahrenheit(210)

// Equilibrium gives the moisture, as a share of its dry mass, that wood comes to
// in air of a temperature and a relative humidity from 0 to 1, by the model of
// Hailwood and Horrobin with two hydrates (Wood Handbook, FPL-GTR-282, equation
// 4-5, with the constants for °C):
//
//	M = 1800/W (K h/(1 - K h) + (K1 K h + 2 K1 K2 K² h²)/(1 + K1 K h + K1 K2 K² h²)) %
//
// It is within 0.06 points of the handbook's table from 30 to 140 °F, and no
// piece of wood keeps to that table better than to about a point. In nearly
// saturated air it comes to 24 to 30 %, and at most to fibre saturation. False
// without a temperature, or with a humidity that air cannot have.
func Equilibrium(t unit.Temperature, humidity unit.Share) (unit.Share, bool) {
	if !(t > 0) || !(humidity >= 0 && humidity <= 1) {
		return 0, false
	}
	c, h := max(moistureColdest, min(t, moistureHottest)).Celsius(), float64(humidity)
	w := 349 + 1.29*c + 0.0135*c*c
	k := 0.805 + 0.000736*c - 0.00000273*c*c
	k1 := 6.27 - 0.00938*c - 0.000303*c*c
	k2 := 1.91 + 0.0407*c - 0.000293*c*c
	x := k * h
	percent := 1800 / w * (x/(1-x) + (k1*x+2*k1*k2*x*x)/(1+k1*x+k1*k2*x*x))
	return min(fibreSaturation, unit.Share(percent)*unit.Percent), true
}

// HumidityFor gives the relative humidity at which wood of a moisture neither
// dries nor takes up water, at a temperature: the inverse of Equilibrium, by
// halving. False without a temperature, and for wood wetter than saturated air
// makes it.
func HumidityFor(t unit.Temperature, moisture unit.Share) (unit.Share, bool) {
	most, ok := Equilibrium(t, 1)
	if !ok || !(moisture >= 0 && moisture <= most) {
		return 0, false
	}
	low, high := 0.0, 1.0
	for range 60 {
		mid := (low + high) / 2
		if m, _ := Equilibrium(t, unit.Share(mid)); m < moisture {
			low = mid
		} else {
			high = mid
		}
	}
	return unit.Share(math.Min(1, (low+high)/2)), true
}

// moistureLaw names the law of wood and air as a source.
const moistureLaw = "Wood Handbook, equation 4-5"

// equilibriumOf gives what wood comes to in a room, with the band of a cheap
// hygrometer.
func equilibriumOf(t unit.Temperature, humidity unit.Share) Known[unit.Share] {
	m, ok := Equilibrium(t, humidity)
	if !ok {
		return Known[unit.Share]{Absent: true, Source: "read the room's humidity"}
	}
	low, _ := Equilibrium(t, max(0, humidity-hygrometer))
	high, _ := Equilibrium(t, min(1, humidity+hygrometer))
	return Known[unit.Share]{Value: m, Low: low, High: high, Source: moistureLaw}
}

// MoisturePoint is what wood comes to in air of one humidity.
type MoisturePoint struct {
	Humidity unit.Share
	Moisture unit.Share
}

// MoistureCurve gives what wood comes to at a temperature, from dry air to 90 %:
// beyond that it rises so steeply that no reading means anything.
func MoistureCurve(t unit.Temperature) []MoisturePoint {
	var list []MoisturePoint
	for h := unit.Share(0); h <= 0.9001; h += 0.025 {
		if m, ok := Equilibrium(t, h); ok {
			list = append(list, MoisturePoint{h, m})
		}
	}
	return list
}
