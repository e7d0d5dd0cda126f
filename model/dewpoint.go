package model

import (
	"math"

	"meniscus/model/unit"
)

// The constants of the Magnus formula over water, for -45 to 60 °C (Sonntag
// 1990, as recommended by the WMO's guide to instruments; from memory).
const (
	magnusB = 17.62
	magnusC = 243.12 // °C
)

// DewPoint gives the temperature at which air of a temperature and a relative
// humidity begins to wet what it touches, by the Magnus formula:
// c g/(b - g) with g = ln(humidity) + b t/(c + t) and t in °C. It is good to
// 0.1 °C in any shop. False without a temperature or with air that holds no
// water.
func DewPoint(air unit.Temperature, humidity unit.Share) (unit.Temperature, bool) {
	t, h := air.Celsius(), min(1, float64(humidity))
	if air <= 0 || !(h > 0) || !(t > -magnusC) {
		return 0, false
	}
	g := math.Log(h) + magnusB*t/(magnusC+t)
	if g >= magnusB {
		return 0, false
	}
	return unit.Celsius(magnusC * g / (magnusB - g)), true
}
