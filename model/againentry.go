package model

import (
	"meniscus/model/unit"
)

// Emptied makes the entry of a cup that was weighed once it was poured out: what
// the scale read, cup and all. cup is the empty cup, as typed; empty text is the
// cup that was weighed in last. Errors are a *Problem.
func (p *Project) Emptied(layer, gross, cup string) (Entry, error) {
	e := Entry{Kind: EntryEmptied, Layer: layer}
	var err error
	if e.Gross, err = p.grams("journal/e/gross", gross); err != nil {
		return Entry{}, err
	}
	in := p.InCup(layer)
	if cup != "" {
		if e.Cup, err = p.grams("journal/e/cup", cup); err != nil {
			return Entry{}, err
		}
	} else if !in.Begun {
		return Entry{}, &Problem{"journal/e/cup", "no cup was weighed for this pour: say what the empty cup weighs"}
	}
	switch least := e.Cup.Or(in.Cup); {
	case e.Gross.Value < least:
		return Entry{}, &Problem{"journal/e/gross", "that is less than the clean cup, " + p.Style.Mass(least) + ": type what the scale reads, cup and all"}
	case in.Begun && e.Gross.Value > least+in.A+in.B:
		return Entry{}, &Problem{"journal/e/gross", "that is more than went in: pour it out first"}
	}
	return e, nil
}

// LeftOver makes the entry of mixed resin that went elsewhere than into a layer,
// without its cup, and where it went. Errors are a *Problem.
func (p *Project) LeftOver(layer, mass, where string) (Entry, error) {
	m, err := p.grams("journal/e/gross", mass)
	if err == nil && m.Value <= 0 {
		err = &Problem{"journal/e/gross", "type how much was left over"}
	}
	return Entry{Kind: EntryLeftOver, Layer: layer, Gross: m, Text: where}, err
}

// Measured makes the entry of the finished piece's thickness at one place.
// Errors are a *Problem.
func (p *Project) Measured(thick, where string) (Entry, error) {
	const at = "journal/e/thick"
	t, err := p.Style.TakeLength(thick, unit.Caliper)
	if err != nil {
		return Entry{}, &Problem{at, words(err)}
	}
	if float64(t.Value) < someLength.low || float64(t.Value) > someLength.high {
		return Entry{}, &Problem{at, "this should be " + someLength.words}
	}
	return Entry{Kind: EntryMeasured, Thick: t, Text: where}, nil
}

// grams reads a mass for the entry's field at path.
func (p *Project) grams(path, text string) (unit.Taken[unit.Mass], error) {
	m, err := p.Style.TakeMass(text)
	if err != nil {
		return m, &Problem{path, words(err)}
	}
	if g := float64(m.Value); g < someMass.low || g > someMass.high {
		return m, &Problem{path, "this should be " + someMass.words}
	}
	return m, nil
}
