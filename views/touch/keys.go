package touch

import "meniscus/views/look"

// eraseSign is the label of the key that erases.
const eraseSign = "⌫"

// column is one column of keys.
type column struct {
	keys []*key
	ends bool // the last column of its block; a wider gap follows
}

// width is the width of the column's keys, for its longest label.
func (c column) width() float32 {
	for _, b := range c.keys {
		if len([]rune(b.Label)) > 5 {
			return keyWide + 12
		}
	}
	return keyWide
}

// gap is the gap right of the column.
func (c column) gap() float32 {
	if c.ends {
		return blockGap
	}
	return look.Gap
}

// build makes the columns of keys for the pad's kind: the digits, the
// fractions, the units. The steps stand beside the field.
func (k *Keypad) build() {
	k.columns = append(k.digits(), k.fractions()...)
	if units := k.units(); len(units) > 0 {
		k.columns = append(k.columns, column{keys: units, ends: true})
	}
	for _, c := range k.columns {
		for _, b := range c.keys {
			b.off = k.field == nil
		}
	}
}

// digits are the columns with what every number needs.
func (k *Keypad) digits() []column {
	sign := func(s string) *key { return newKey(s, func() { k.typeIn(s) }) }
	return []column{
		{keys: []*key{sign("7"), sign("4"), sign("1"), sign("0")}},
		{keys: []*key{sign("8"), sign("5"), sign("2"), sign(".")}},
		{keys: []*key{sign("9"), sign("6"), sign("3"), newKey("space", func() { k.typeIn(" ") })}},
		{ends: true, keys: []*key{
			newKey(eraseSign, k.erase),
			newKey("clear", func() { k.change(func(string) string { return "" }) }),
			newKey("±", func() { k.change(flipSign) }),
			sign(k.kind.mark()),
		}},
	}
}

// fractions are the columns that add parts of one to the number.
func (k *Keypad) fractions() []column {
	var columns []column
	parts := k.kind.fractions()
	for len(parts) > 0 {
		var c column
		for _, f := range parts[:min(keyRows, len(parts))] {
			c.keys = append(c.keys, newKey(f.sign, func() {
				k.change(func(text string) string { return addFraction(k.kept(text), f.num, f.den) })
			}))
		}
		parts = parts[len(c.keys):]
		c.ends = len(parts) == 0
		columns = append(columns, c)
	}
	return columns
}

// units are the keys that write a unit behind the number.
func (k *Keypad) units() []*key {
	var keys []*key
	for _, u := range k.kind.units() {
		keys = append(keys, newKey(u, func() {
			k.change(func(text string) string { return setUnit(text, u) })
		}))
	}
	return keys
}

// kept is what a key with a number leaves of the text: all of it, or nothing
// where all of it is selected.
func (k *Keypad) kept(text string) string {
	if k.field.entry.SelectedText() == text {
		return ""
	}
	return text
}
