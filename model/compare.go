package model

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Difference is one thing in which two projects differ.
type Difference struct {
	Path  string // of the field or item, in either; "run/…" for what happened
	Group string // "Mold", "Wood", "Inserts", "Resin", "Layers", "Mixing", "Shop", "Finish", "Money", "Piece", "What happened"
	Label string // of the field, as its undo step is called
	A, B  string // as each project shows it; "" where it is not given
}

// groups names the parts of a document by the first name of a path.
var groups = map[string]string{
	"mold": "Mold", "slabs": "Slabs", "pieces": "Wood", "inserts": "Inserts", "sheets": "Resin", "layers": "Layers", "lots": "Resin",
	"mixing": "Mixing", "shop": "Shop", "finish": "Finish", "costing": "Money", "instruments": "Instruments",
}

// apartAlways are fields that are never the same and say nothing about a piece,
// and those in which things are kept that are compared in another way.
var apartAlways = []string{"id", "serial", "created", "made", "style", "journal", "drafts"}

// Compare lists in what two projects differ, in the order of the document and
// then what happened: a field that reads the same in both is never listed, and
// one that does not is listed once. Items are matched by ID; one that only one
// of the two has is listed whole. pa and pb are the plans of a and b, ra and rb
// what happened in them, or nil.
func Compare(a, b *Project, ra, rb *Ran) []Difference {
	c := comparer{a: a, b: b}
	va, vb := reflect.ValueOf(a).Elem(), reflect.ValueOf(b).Elem()
	for i := range va.NumField() {
		if name := jsonName(va.Type().Field(i)); !slices.Contains(apartAlways, name) {
			c.walk(name, va.Field(i), vb.Field(i))
		}
	}
	c.runs(ra, rb)
	return c.list
}

type comparer struct {
	a, b *Project
	list []Difference
}

func (c *comparer) say(path, a, b string) {
	first, _, nested := strings.Cut(path, "/")
	group := orWord(groups[first], "Piece")
	p := c.b
	if _, err := locate(p, path); err != nil {
		p = c.a
	}
	label := upperFirst(spacedOut(first))
	if nested {
		label = labelWithin(p, path)
	}
	c.list = append(c.list, Difference{path, group, label, a, b})
}

// walk compares the field at path.
func (c *comparer) walk(path string, a, b reflect.Value) {
	switch ra := a.Interface().(type) {
	case shape.Ring:
		c.rings(path, ra, b.Interface().(shape.Ring))
		return
	case time.Time:
		if !ra.Equal(b.Interface().(time.Time)) {
			c.leaf(path)
		}
		return
	case unit.Money:
		if ra != b.Interface().(unit.Money) {
			c.leaf(path)
		}
		return
	}
	switch a.Kind() {
	case reflect.Struct:
		if isLeaf(a) {
			c.quantity(path, a, b)
			return
		}
		for i := range a.NumField() {
			f := a.Type().Field(i)
			switch {
			case f.Anonymous && f.Tag.Get("json") == "":
				c.walk(path, a.Field(i), b.Field(i))
			case f.Name == "ID": // by which the two were matched
			case f.Name == "Stock", f.Type == reflect.TypeFor[Losses](): // where a thing or a figure is from, and not what it is
			default:
				c.walk(join(path, jsonName(f)), a.Field(i), b.Field(i))
			}
		}
	case reflect.Slice:
		c.items(path, a, b)
	case reflect.Map:
		c.instruments(path, a.Interface().(map[unit.Instrument]unit.Length), b.Interface().(map[unit.Instrument]unit.Length))
	case reflect.Float64:
		if !sameNumber(a.Float(), b.Float()) {
			c.leaf(path)
		}
	default:
		if !a.Equal(b) {
			c.leaf(path)
		}
	}
}

// quantity compares a quantity as taken: two that are the same to a billionth
// and by the same instrument are one, however they were written.
func (c *comparer) quantity(path string, a, b reflect.Value) {
	x, y := a.Field(0).Float(), b.Field(0).Float()
	_, given := number(a)
	_, other := number(b)
	byA, byB := a.FieldByName("By").String(), b.FieldByName("By").String()
	same := given == other && sameNumber(x, y)
	if same && (byA == byB || !given) {
		return
	}
	ta, tb := c.texts(path)
	if same || ta == tb {
		if byA == byB {
			return // they differ by less than either project writes
		}
		ta, tb = ta+by(byA), tb+by(byB)
	}
	c.say(path, ta, tb)
}

// sameNumber tells whether two numbers are the same but for the rounding of a
// reckoning.
func sameNumber(x, y float64) bool { return math.Abs(x-y) <= 1e-9*max(math.Abs(x), math.Abs(y)) }

// by says what a quantity was taken with.
func by(instrument string) string {
	if instrument == "" {
		return ", not said by what"
	}
	return " by " + instrument
}

func (c *comparer) leaf(path string) {
	a, b := c.texts(path)
	c.say(path, a, b)
}

// texts gives what each of the two shows at path.
func (c *comparer) texts(path string) (a, b string) { return shownAt(c.a, path), shownAt(c.b, path) }

// shownAt gives the text of a field; of one that names another item by its ID
// the name of that.
func shownAt(p *Project, path string) string {
	text, _ := Show(p, path)
	switch pattern(path) {
	case "layers/*/sheet", "lots/*/sheet":
		if s := p.Sheet(text); s != nil {
			return s.Name
		}
	case "inserts/*/layer":
		if k := p.LayerIndex(text); k != none {
			return p.Layers[k].Name
		}
	}
	return text
}

// rings compares outlines.
func (c *comparer) rings(path string, a, b shape.Ring) {
	if slices.EqualFunc(a, b, func(p, q shape.Point) bool { return math.Hypot(p.X-q.X, p.Y-q.Y) <= 1e-9*(1+math.Hypot(p.X, p.Y)) }) {
		return
	}
	words := func(p *Project, r shape.Ring) string {
		switch {
		case len(r) == 0:
			return ""
		case strings.HasPrefix(path, "slabs/"): // pixels
			return fmt.Sprintf("%d points", len(r))
		}
		return fmt.Sprintf("%d points, %s", len(r), p.Style.Area(r.Area()))
	}
	ta, tb := words(c.a, a), words(c.b, b)
	if ta == tb {
		tb += ", of another course"
	}
	c.say(path, ta, tb)
}

func (c *comparer) instruments(path string, a, b map[unit.Instrument]unit.Length) {
	keys := map[unit.Instrument]bool{}
	for k := range a {
		keys[k] = true
	}
	for k := range b {
		keys[k] = true
	}
	for _, k := range slices.Sorted(maps.Keys(keys)) {
		if a[k] != b[k] {
			c.say(join(path, string(k)), "± "+c.a.Style.Length(c.a.HalfWidth(k)), "± "+c.b.Style.Length(c.b.HalfWidth(k)))
		}
	}
}

// items compares two lists, those of one order in it.
func (c *comparer) items(path string, a, b reflect.Value) {
	if !hasID(a.Type().Elem()) {
		c.numbered(path, a, b)
		return
	}
	id := func(v reflect.Value, i int) string { return v.Index(i).FieldByName("ID").String() }
	at := func(v reflect.Value, name string) int {
		for i := range v.Len() {
			if id(v, i) == name {
				return i
			}
		}
		return none
	}
	last, turned := none, false
	for i := range a.Len() {
		name := id(a, i)
		k := at(b, name)
		if k == none {
			c.say(join(path, name), c.item(a.Index(i)), "")
			continue
		}
		turned = turned || k < last
		last = max(last, k)
		c.walk(join(path, name), a.Index(i), b.Index(k))
	}
	for i := range b.Len() {
		if at(a, id(b, i)) == none {
			c.say(join(path, id(b, i)), "", c.item(b.Index(i)))
		}
	}
	if turned {
		order := func(v reflect.Value) string {
			var list []string
			for i := range v.Len() {
				list = append(list, c.item(v.Index(i)))
			}
			return strings.Join(list, ", ")
		}
		c.list = append(c.list, Difference{path, orWord(groups[path], "Piece"), "Order", order(a), order(b)})
	}
}

// numbered compares lists whose items have no ID, by their numbers.
func (c *comparer) numbered(path string, a, b reflect.Value) {
	zero := reflect.New(a.Type().Elem()).Elem()
	for i := range max(a.Len(), b.Len()) {
		x, y := zero, zero
		if i < a.Len() {
			x = a.Index(i)
		}
		if i < b.Len() {
			y = b.Index(i)
		}
		c.walk(join(path, itoa(i)), x, y)
	}
}

// item names an item that only one of two projects has.
func (c *comparer) item(v reflect.Value) string {
	if name := v.FieldByName("Name"); name.IsValid() && name.String() != "" {
		return name.String()
	}
	return "without a name"
}
