package model

import (
	"errors"
	"fmt"
	"time"
)

// The fields of an entry that can be corrected.
const (
	AmendAt    = "journal/entry/at"
	AmendGross = "journal/entry/gross"
)

// Amendable gives the text of what can be corrected of an entry that stands:
// when it was and, of a weighing, what the scale read; empty where there is no
// such thing.
func (p *Project) Amendable(e *Entry) (at, gross string) {
	at = e.At.In(p.Shop.Place()).Format(instantForm)
	if e.weighed() {
		gross = e.Gross.Written
	}
	return at, gross
}

// Amended gives an entry as it is corrected by what was typed: when it was, as
// ParseLately reads it, and what the scale read. Text that Amendable gave leaves
// that as it is. Errors are a *Problem that names AmendAt or AmendGross.
func (p *Project) Amended(id, at, gross string, now time.Time) (Entry, error) {
	e, stands := p.Entry(id)
	if !stands {
		return e, &Problem{AmendAt, "this has been taken back already, or was never there"}
	}
	wasAt, wasGross := p.Amendable(&e)
	if at == wasAt && gross == wasGross {
		return e, &Problem{AmendAt, "nothing is changed yet"}
	}
	if at != wasAt {
		t, err := time.Time{}, errors.New("say when it was")
		if at != "" {
			t, err = ParseLately(at, p.Shop.Place(), now)
		}
		if err != nil {
			return e, &Problem{AmendAt, err.Error()}
		}
		e.At = t.Round(time.Millisecond)
	}
	if !e.weighed() || gross == wasGross {
		return e, nil
	}
	read, err := p.Style.TakeMass(gross)
	switch g := float64(read.Value); {
	case err != nil:
		return e, &Problem{AmendGross, words(err)}
	case !read.Given():
		return e, &Problem{AmendGross, "say what the scale read"}
	case g < someMass.low || g > someMass.high:
		return e, &Problem{AmendGross, "this should be " + someMass.words}
	case e.Cup.Given() && read.Value < e.Cup.Value:
		return e, &Problem{AmendGross, fmt.Sprintf("that is less than the empty cup, %s: type what the scale read, cup and all", p.Style.Mass(e.Cup.Value))}
	}
	e.Gross = read
	return e, nil
}
