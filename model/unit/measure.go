package unit

import "strings"

// system is a family of units that can stand together in one quantity, as feet
// and inches do.
type system uint8

const (
	metric system = iota
	customary
	imperial
	clock
)

// measure is a unit that can be written behind a number. One of it is num/den
// in SI; both are whole numbers that a float64 holds exactly, so that a value
// is rounded only once. A temperature's measure is known by its name.
type measure struct {
	name     string
	num, den float64
	of       system
}

// si gives v of the measure in SI.
func (m measure) si(v float64) float64 { return v * m.num / m.den }

// kind is what the reader knows about one sort of quantity.
type kind struct {
	noun      string             // with its article: "a length"
	units     map[string]measure // by folded name, see fold
	want      string             // a good example
	signed    bool               // can be below zero
	compound  bool               // can have several units, as in 2 lb 3 oz
	thousands bool               // 1,234 is certainly a thousand and more
}

// spellings makes a kind's table: every key lists the spellings of one unit,
// already folded, with a bar between them.
func spellings(list map[string]measure) map[string]measure {
	units := make(map[string]measure, 4*len(list))
	for names, m := range list {
		for name := range strings.SplitSeq(names, "|") {
			units[name] = m
		}
	}
	return units
}

// kinds lists every kind that has units, to tell which one a text gives when
// another is wanted.
var kinds = []*kind{&lengths, &areas, &volumes, &masses, &temperatures, &densities, &shares, &angles, &spans, &energies, &heats, &viscosities}

var lengths = kind{noun: "a length", want: "263.5 mm", signed: true, compound: true, units: spellings(map[string]measure{
	"µm|μm|um|micron|microns":                          {"µm", 1, 1e6, metric},
	"mm|millimetre|millimetres|millimeter|millimeters": {"mm", 1, 1000, metric},
	"cm|centimetre|centimetres|centimeter|centimeters": {"cm", 1, 100, metric},
	"dm|decimetre|decimetres|decimeter|decimeters":     {"dm", 1, 10, metric},
	"m|metre|metres|meter|meters":                      {"m", 1, 1, metric},
	"in|inch|inches|\"":                                {"in", 254, 10000, customary},
	"ft|foot|feet|'":                                   {"ft", 3048, 10000, customary},
	"yd|yds|yard|yards":                                {"yd", 9144, 10000, customary},
})}

var areas = kind{noun: "an area", want: "450 mm²", units: spellings(map[string]measure{
	"mm2|sqmm": {"mm²", 1, 1e6, metric},
	"cm2|sqcm": {"cm²", 1, 1e4, metric},
	"m2|sqm":   {"m²", 1, 1, metric},
	"in2|sqin|sqinch|squareinch|squareinches": {"sq in", 64516, 1e8, customary},
	"ft2|sqft|squarefoot|squarefeet":          {"sq ft", 9290304, 1e8, customary},
})}

var volumes = kind{noun: "a volume", want: "450 ml", compound: true, units: spellings(map[string]measure{
	"ml|cc|ccm|cm3|cucm|millilitre|millilitres|milliliter|milliliters": {"ml", 1, 1e6, metric},
	"cl|centilitre|centilitres|centiliter|centiliters":                 {"cl", 1, 1e5, metric},
	"dl|decilitre|decilitres|deciliter|deciliters":                     {"dl", 1, 1e4, metric},
	"l|litre|litres|liter|liters|dm3":                                  {"L", 1, 1000, metric},
	"mm3":                                                              {"mm³", 1, 1e9, metric},
	"m3":                                                               {"m³", 1, 1, metric},
	"in3|cuin|cuinch|cubicin|cubicinch|cubicinches":                    {"cu in", 16387064, 1e12, customary},
	"ft3|cuft|cubicft|cubicfoot|cubicfeet":                             {"cu ft", 28316846592, 1e12, customary},
	"bdft|boardfoot|boardfeet":                                         {"bd ft", 2359737216, 1e12, customary},
	"floz|usfloz|fluidounce|fluidounces|usfluidounce|usfluidounces":    {"fl oz", 295735295625, 1e16, customary},
	"pt|uspt|pint|pints|uspint|uspints":                                {"pt", 473176473, 1e12, customary},
	"qt|usqt|quart|quarts|usquart|usquarts":                            {"qt", 946352946, 1e12, customary},
	"gal|usgal|gallon|gallons|usgallon|usgallons":                      {"gal", 3785411784, 1e12, customary},
	"impfloz|imperialfloz|imperialfluidounce|imperialfluidounces":      {"imp fl oz", 284130625, 1e13, imperial},
	"imppt|imperialpint|imperialpints":                                 {"imp pt", 56826125, 1e11, imperial},
	"impqt|imperialquart|imperialquarts":                               {"imp qt", 11365225, 1e10, imperial},
	"impgal|imperialgallon|imperialgallons":                            {"imp gal", 454609, 1e8, imperial},
})}

var masses = kind{noun: "a mass", want: "450 g", compound: true, units: spellings(map[string]measure{
	"mg|milligram|milligrams":          {"mg", 1, 1e6, metric},
	"g|gram|grams|gramme|grammes":      {"g", 1, 1000, metric},
	"kg|kilo|kilos|kilogram|kilograms": {"kg", 1, 1, metric},
	"oz|ounce|ounces":                  {"oz", 45359237, 16e8, customary},
	"lb|lbs|pound|pounds":              {"lb", 45359237, 1e8, customary},
})}

var temperatures = kind{noun: "a temperature", want: "22 °C", signed: true, units: spellings(map[string]measure{
	"°c|c|degc|degreec|degreesc|celsius|degreescelsius":       {name: "C"},
	"°f|f|degf|degreef|degreesf|fahrenheit|degreesfahrenheit": {name: "F"},
	"k|kelvin":             {name: "K"},
	"°|deg|degree|degrees": {name: "°"},
})}

var densities = kind{noun: "a density", want: "1.10 g/ml", units: spellings(map[string]measure{
	"g/ml|g/cm3|g/cc|kg/l|kg/dm3":         {"g/ml", 1000, 1, metric},
	"kg/m3|g/l":                           {"kg/m³", 1, 1, metric},
	"lb/ft3|lb/cuft|lbs/ft3|lbs/cuft|pcf": {"lb/ft³", 45359237e4, 28316846592, customary},
	"lb/gal|lbs/gal|lb/usgal":             {"lb/gal", 45359237e4, 3785411784, customary},
})}

var shares = kind{noun: "a share", want: "4.5 %", signed: true, units: spellings(map[string]measure{
	"%|percent|pct": {"%", 1, 100, metric},
})}

var angles = kind{noun: "an angle", want: "3°", signed: true, units: spellings(map[string]measure{
	"°|deg|degree|degrees": {"°", float64(Degree), 1, metric},
	"rad|radian|radians":   {"rad", 1, 1, metric},
})}

var spans = kind{noun: "a time", want: "2 h 30 min", compound: true, units: spellings(map[string]measure{
	"s|sec|secs|second|seconds": {"s", 1, 1, clock},
	"min|mins|minute|minutes|m": {"min", 60, 1, clock},
	"h|hr|hrs|hour|hours":       {"h", 3600, 1, clock},
	"d|day|days":                {"d", 86400, 1, clock},
	"wk|wks|week|weeks":         {"wk", 604800, 1, clock},
})}

var energies = kind{noun: "an energy per mole", want: "55 kJ/mol", units: spellings(map[string]measure{
	"kj/mol":   {"kJ/mol", 1000, 1, metric},
	"j/mol":    {"J/mol", 1, 1, metric},
	"kcal/mol": {"kcal/mol", 4184, 1, metric},
})}

// One Btu per pound is exactly 2,326 J/kg (NIST SP 811, appendix B).
var heats = kind{noun: "a heat per mass", want: "290 J/g", units: spellings(map[string]measure{
	"j/g|kj/kg": {"J/g", 1000, 1, metric},
	"j/kg":      {"J/kg", 1, 1, metric},
	"kj/g":      {"kJ/g", 1e6, 1, metric},
	"cal/g":     {"cal/g", 4184, 1, metric},
	"btu/lb":    {"Btu/lb", 2326, 1, customary},
})}

var viscosities = kind{noun: "a viscosity", want: "450 mPa·s", units: spellings(map[string]measure{
	"mpas":              {"mPa·s", 1, 1000, metric},
	"cp|cps|centipoise": {"cP", 1, 1000, metric},
	"pas":               {"Pa·s", 1, 1, metric},
	"p|poise":           {"P", 1, 10, metric},
})}

var numbers = kind{noun: "a plain number", want: "2.5", signed: true}
