package touch

// Kind is what sort of value a Field takes; it decides the keys of the Keypad.
type Kind int

// The kinds of value.
const (
	Number Kind = iota
	Length
	Volume
	Mass
	Temperature
	Percent
	Time
	Angle
	Density
	Ratio
	Clock // a time of day
)

// units are the units that the keypad offers for the kind.
func (k Kind) units() []string {
	switch k {
	case Length:
		return []string{"mm", "cm", "in", "ft"}
	case Volume:
		return []string{"ml", "L", "fl oz", "cu in"}
	case Mass:
		return []string{"g", "kg", "oz", "lb"}
	case Temperature:
		return []string{"°C", "°F"}
	case Percent:
		return []string{"%"}
	case Time:
		return []string{"min", "h", "d"}
	case Angle:
		return []string{"°"}
	case Density:
		return []string{"g/ml", "kg/m³", "lb/gal"}
	}
	return nil
}

// fraction is a part of one that has a key of its own.
type fraction struct {
	num, den int
	sign     string // on its key
}

// fractions are the ones that the keypad offers for the kind.
func (k Kind) fractions() []fraction {
	switch k {
	case Length, Volume, Mass:
		return []fraction{
			{3, 4, "¾"}, {1, 2, "½"}, {1, 4, "¼"}, {1, 8, "⅛"},
			{3, 8, "⅜"}, {1, 16, "1⁄16"}, {1, 32, "1⁄32"}, {1, 64, "1⁄64"},
		}
	}
	return nil
}

// mark is the sign between two numbers that the kind may need.
func (k Kind) mark() string {
	switch k {
	case Ratio, Time, Clock:
		return ":"
	}
	return "/"
}
