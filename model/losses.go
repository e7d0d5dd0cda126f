package model

import (
	"meniscus/model/unit"
)

// Losses are the maker's own losses in mixing, as far as runs have told of them.
// They stand on the shelf for new pieces, and in a piece as they were taken over,
// so that it can say where its figures come from.
type Losses struct {
	CupFilm  unit.Taken[unit.Share] `json:"cupFilm,omitzero"`  // of the mix, left in the cup
	CupLeast unit.Taken[unit.Mass]  `json:"cupLeast,omitzero"` // but never less than this
	Soak     unit.Dim               `json:"soak,omitzero"`     // film drawn into bare wood
	Creep    unit.Dim               `json:"creep,omitzero"`    // film below a piece that is not stuck down
	Runs     int                    `json:"runs,omitempty"`    // that told of them, at most
}

// Given tells whether there is any.
func (l *Losses) Given() bool {
	return l.CupFilm.Given() || l.CupLeast.Given() || l.Soak.Given() || l.Creep.Given()
}

// Losses gives those of which a run has told.
func (l *Lessons) Losses() (own Losses) {
	if l.Film.Own() {
		own.CupFilm = unit.Taken[unit.Share]{Value: l.Film.Value}
	}
	if l.Least.Own() {
		own.CupLeast = unit.Taken[unit.Mass]{Value: l.Least.Value}
	}
	if l.Soak.Own() {
		own.Soak = asFilm(l.Soak.Value)
	}
	if l.Creep.Own() {
		own.Creep = asFilm(l.Creep.Value)
	}
	own.Runs = max(l.Film.Runs, l.Least.Runs, l.Soak.Runs, l.Creep.Runs)
	return own
}

// Apply puts the losses that are given into a project; the others stay as they
// are.
func (l Losses) Apply(p *Project) {
	m := &p.Mixing
	m.Own = l
	if l.CupFilm.Given() {
		m.CupFilm = l.CupFilm
		p.dropDraft("mixing/cupFilm")
	}
	if l.CupLeast.Given() {
		m.CupLeast = l.CupLeast
		p.dropDraft("mixing/cupLeast")
	}
	if l.Soak.Given() {
		m.Soak = l.Soak
		p.dropDraft("mixing/soak")
	}
	if l.Creep.Given() {
		m.Creep = l.Creep
		p.dropDraft("mixing/creep")
	}
}

// LossBy says where the loss at a path comes from, where it still is the maker's
// own as it was taken over; nothing else where it is not.
func (p *Project) LossBy(path string) string {
	m, own := &p.Mixing, false
	switch path {
	case "mixing/cupFilm":
		own = m.Own.CupFilm.Given() && m.CupFilm.Value == m.Own.CupFilm.Value
	case "mixing/cupLeast":
		own = m.Own.CupLeast.Given() && m.CupLeast.Value == m.Own.CupLeast.Value
	case "mixing/soak":
		own = m.Own.Soak.Given() && m.Soak.Value == m.Own.Soak.Value
	case "mixing/creep":
		own = m.Own.Creep.Given() && m.Creep.Value == m.Own.Creep.Value
	}
	switch {
	case !own:
		return ""
	case m.Own.Runs == 1:
		return "your own, by 1 run"
	}
	return "your own, by " + itoa(m.Own.Runs) + " runs"
}
