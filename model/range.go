package model

import (
	"fmt"
	"math"
	"reflect"
	"regexp"

	"meniscus/model/unit"
)

// span is what a quantity may be, in SI, and the same in words.
type span struct {
	low, high float64
	words     string
}

// The ranges of kinds of field, by type; wide enough for any bench, narrow
// enough to catch a slip of the finger. Lengths of a mold below 20 mm or above
// 4 m are taken but give a finding.
var (
	anyLength   = span{0, 20, "a length from 0 to 20 m"}
	someLength  = span{1e-5, 20, "more than nothing and at most 20 m"}
	anyPlace    = span{-20, 20, "within 20 m of the middle"}
	someMass    = span{0, 2000, "from 0 to 2,000 kg"}
	someVolume  = span{0, 5, "from 0 to 5,000 L"}
	someDensity = span{50, 20000, "from 0.05 to 20 g/ml"}
	anyTemp     = span{223.15, 473.15, "from -50 to 200 °C"}
	roomTemp    = span{253.15, 333.15, "from -20 to 60 °C"}
	anyShare    = span{0, 1, "from 0 to 100 %"}
	scaleStep   = span{1e-6, 1, "from 1 mg to 1 kg"}
	filmRange   = span{0, 0.5, "from 0 to 50 %"}
	confidence  = span{0.5, 0.999, "from 50 to 99.9 %"}
	anySpan     = span{0, 3.2e7, "from 0 to 365 days"}
	leanAngle   = span{-0.2618, 0.7854, "from -15° to 45° from upright"}
	anyAngle    = span{-1e4, 1e4, "an angle in degrees"}
	lotRange    = span{0.5, 2, "from half to twice that of the sheet"}
	ratioPart   = span{1e-3, 1e4, "more than 0 and at most 10,000 parts"}
	equivalent  = span{10, 5000, "from 10 to 5,000 g/eq"}
	activation  = span{10e3, 200e3, "from 10 to 200 kJ/mol"}
	heatRange   = span{50e3, 600e3, "from 50 to 600 J/g"}
	partTemp    = span{253.15, 523.15, "from -20 to 250 °C"}
	peakTemp    = span{283.15, 573.15, "from 10 to 300 °C"}
	peakMost    = span{283.15, 473.15, "from 10 to 200 °C"}
	seamGap     = span{1e-6, 0.01, "from 0.001 to 10 mm"}
	floorThick  = span{1e-4, 0.5, "from 0.1 to 500 mm"}
	anyVisc     = span{1e-4, 1e4, "from 0.1 mPa·s to 10,000 Pa·s"}
	cupMass     = span{1e-3, 100, "from 1 g to 100 kg"}
	cupRest     = span{0, 4 * 3600, "from 0 to 4 hours"}
	grainSize   = span{1e-8, 5e-3, "from 0.01 µm to 5 mm, with its unit: 40 µm"}
	anyCount    = span{0, 10000, "a whole number up to 10,000"}
	woodShrink  = span{0.001, 0.3, "from 0.1 to 30 %"}
	inPicture   = span{-farPixel, farPixel, "a place in the photo, in pixels"}
	pictureSide = span{0, 50000, "from 0 to 50,000 pixels"}
	touchWidth  = span{0, 200, "from 0 to 200 pixels"}
	sides       = span{3, 24, "from 3 to 24 sides"}
	shelfMonths = span{0, 240, "from 0 to 240 months"}
	heaterPower = span{0, 20000, "from 0 to 20,000 W"}
	overheadTop = span{0, 10, "from 0 to 1,000 %"}
	failShare   = span{0, mostFails, "from 0 to 95 %"}
	gainShare   = span{0, mostMarkup, "from 0 to 10,000 %"}
	batchSize   = span{1, mostBatch, "from 1 to 10,000 casts"}
	lineCount   = span{0, 1e5, "from 0 to 100,000"}
	taskTime    = span{0, 3.6e6, "from 0 to 1,000 hours"}
	cavityCount = span{0, 100, "a whole number up to 100"}
	passDepth   = span{1e-5, 0.02, "from 0.01 to 20 mm"}
	sawKerf     = span{2e-4, 0.02, "from 0.2 to 20 mm"}
	discWidth   = span{0.01, 1, "from 10 mm to 1 m"}
	turnsMost   = span{0, 60000, "a whole number up to 60,000"}
	sandPace    = span{1, 3600, "from 1 s to 1 h"}
	discLasts   = span{10, 24 * 3600, "from 10 s to 24 h"}
	layRoom     = span{0, 0.1, "from 0 to 100 mm"}
	screwLong   = span{0.002, 0.3, "from 2 to 300 mm"}
	coatCount   = span{0, 50, "a whole number up to 50"}
	coatSpread  = span{1e-6, 2e-3, "from 1 ml to 2 L"}
	coatWeighs  = span{1e-3, 2, "from 1 g to 2 kg"}
)

// ranges names the fields whose range differs from that of their type.
var ranges = map[string]span{
	"mold/length": someLength, "mold/width": someLength, "mold/diameter": someLength, "mold/span": someLength, "mold/depth": someLength,
	"mold/sides": sides, "mold/count": cavityCount, "mold/draft/angle": leanAngle,
	"mold/draft/length": someLength, "mold/draft/width": someLength, "mold/draft/diameter": someLength, "mold/draft/span": someLength,
	"pieces/*/length": someLength, "pieces/*/width": someLength, "pieces/*/thickness": someLength, "pieces/*/spacing": someLength, "pieces/*/cavity": cavityCount,
	"inserts/*/diameter": someLength, "inserts/*/length": someLength, "inserts/*/width": someLength, "inserts/*/tall": someLength, "inserts/*/cavity": cavityCount,
	"layers/*/to": someLength, "mixing/confidence": confidence, "mixing/scaleStep": scaleStep, "mixing/cupFilm": filmRange, "mixing/cupHolds": cupMass, "mixing/cupRest": cupRest, "shop/room": roomTemp, "shop/night": roomTemp, "shop/resin": roomTemp, "shop/bottles": roomTemp, "shop/wood": roomTemp, "shop/tiltOver": someLength,
	"cut": anyPlace, "journal/*/room": roomTemp, "journal/*/part": partTemp, "lots/*/pace": lotRange, "lots/*/heat": lotRange, "journal/*/thick": someLength,
	"layers/*/tint/grain": grainSize, "layers/*/additives/*/grain": grainSize,
	"pieces/*/nature/width": someLength, "pieces/*/nature/radial": woodShrink, "pieces/*/nature/tangential": woodShrink, "shop/theirs/temperature": roomTemp,
	"mold/hold/seams/*/gap": seamGap, "mold/hold/seams/*/long": someLength, "mold/hold/seams/*/way": someLength, "mold/hold/spacing": someLength,
	"slabs/*/thickness": someLength, "slabs/*/upper/long": someLength, "slabs/*/upper/broad": someLength, "slabs/*/under/long": someLength, "slabs/*/under/broad": someLength,
	"slabs/*/upper/rise": anyPlace, "slabs/*/under/rise": anyPlace, "slabs/*/upper/camera": someLength, "slabs/*/under/camera": someLength,
	"slabs/*/upper/wide": pictureSide, "slabs/*/upper/high": pictureSide, "slabs/*/under/wide": pictureSide, "slabs/*/under/high": pictureSide,
	"slabs/*/upper/touch": touchWidth, "slabs/*/under/touch": touchWidth,
	"slabs/*/upper/marks/*/x": inPicture, "slabs/*/upper/marks/*/y": inPicture, "slabs/*/under/marks/*/x": inPicture, "slabs/*/under/marks/*/y": inPicture,
	"slabs/*/upper/marks/*/at": anyPlace, "slabs/*/upper/marks/*/up": anyPlace, "slabs/*/under/marks/*/at": anyPlace, "slabs/*/under/marks/*/up": anyPlace,
	"slabs/*/layups/*/cavity": cavityCount, "slabs/*/layups/*/gap": layRoom, "slabs/*/layups/*/kerf": layRoom, "slabs/*/layups/*/trim": layRoom,
	"finish/thickness": someLength, "finish/trim/kerf": sawKerf, "finish/flatten/wood": passDepth, "finish/flatten/resin": passDepth, "finish/flatten/points/*": someLength,
	"finish/sand/disc": discWidth, "finish/sand/turns": turnsMost, "finish/sand/pace": sandPace, "finish/sand/lasts": discLasts,
	"finish/mounts/*/long": screwLong, "finish/coat/count": coatCount, "finish/coat/spread": coatSpread, "finish/coat/weighs": coatWeighs,
	"shelf/products/*/monthsClosed": shelfMonths, "shelf/products/*/monthsOpened": shelfMonths, "shelf/tints/*/grain": grainSize,
	"costing/heater": heaterPower, "costing/overhead": overheadTop, "costing/fails": failShare, "costing/gain": gainShare, "costing/batches/*": batchSize, "costing/lines/*/count": lineCount,
	"costing/tasks/*/planned": taskTime, "costing/tasks/*/logged": taskTime,
	"mold/thick": floorThick, "sheets/*/eew": equivalent, "sheets/*/ahew": equivalent, "sheets/*/peak": peakTemp, "sheets/*/peakLimit": peakMost,
}

// rangeOf gives the range of the field at path, by its pattern or its type.
func rangeOf(path string, v reflect.Value) (span, bool) {
	if s, ok := ranges[pattern(path)]; ok {
		return s, true
	}
	switch v.Addr().Interface().(type) {
	case *unit.Dim:
		return anyLength, true
	case *unit.Length:
		return anyPlace, true
	case *unit.Angle, *unit.Taken[unit.Angle]:
		return anyAngle, true
	case *unit.Taken[unit.Mass], *unit.Mass:
		return someMass, true
	case *unit.Taken[unit.Volume]:
		return someVolume, true
	case *unit.Taken[unit.Density]:
		return someDensity, true
	case *unit.Taken[unit.Temperature]:
		return anyTemp, true
	case *unit.Taken[unit.Share], *float64:
		return anyShare, true
	case *unit.Taken[unit.Span]:
		return anySpan, true
	case *unit.Taken[unit.MolarEnergy]:
		return activation, true
	case *unit.Taken[unit.SpecificEnergy]:
		return heatRange, true
	case *unit.Taken[unit.Viscosity]:
		return anyVisc, true
	case *unit.Taken[unit.Number]:
		return ratioPart, true
	case *int:
		return anyCount, true
	}
	return span{}, false
}

// colours names the fields that hold a colour.
var colours = map[string]bool{"layers/*/tint/colour": true, "shelf/tints/*/colour": true}

// isColour matches a colour as #rrggbb.
var isColour = regexp.MustCompile(`^#[0-9a-fA-F]{6}$`)

// outOfRange tells in words what is wrong with the value in v, or nothing.
func outOfRange(path string, v reflect.Value) string {
	if text := v.String(); v.Kind() == reflect.String && text != "" && colours[pattern(path)] && !isColour.MatchString(text) {
		return "write a colour as #rrggbb, such as #6f7378, or choose one"
	}
	s, ok := rangeOf(path, v)
	if !ok {
		return ""
	}
	n, given := number(v)
	switch {
	case !given:
		return ""
	case math.IsNaN(n) || math.IsInf(n, 0):
		return "this is not a number"
	case n < s.low || n > s.high:
		return fmt.Sprintf("this should be %s", s.words)
	}
	return ""
}

// number gives the number in a field, and whether one was given. The zero of
// an optional quantity is "not given".
func number(v reflect.Value) (float64, bool) {
	switch v.Kind() {
	case reflect.Struct:
		value := v.FieldByName("Value")
		if !value.IsValid() {
			return 0, false
		}
		return value.Float(), value.Float() != 0 || v.FieldByName("Written").String() != ""
	case reflect.Float64:
		return v.Float(), true
	case reflect.Int:
		return float64(v.Int()), v.Int() != 0
	}
	return 0, false
}
