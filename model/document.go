package model

import (
	"reflect"
	"slices"
	"time"

	"meniscus/model/unit"
)

// Document is a plain document whose fields are found by their paths, shown,
// entered and checked: a *Project or a *Shelf. The paths of the shelf begin
// with "shelf/", so that a path alone tells which of the two it belongs to.
type Document interface {
	within() (root reflect.Value, name string) // name leads to root; empty for the document itself
	pen() unit.Style
	takeMoney(t *unit.Money, text string) error
	takeCurrency(t *Currency, text string) error
	zone() *time.Location
	HalfWidth(unit.Instrument) unit.Length
	drafts() *[]Draft
	SetDraft(field, text, reason string)
	DraftOf(field string) (Draft, bool)
}

func (p *Project) within() (reflect.Value, string) { return reflect.ValueOf(p).Elem(), "" }
func (p *Project) pen() unit.Style                 { return p.Style }
func (p *Project) zone() *time.Location            { return p.Shop.Place() }
func (p *Project) drafts() *[]Draft                { return &p.Drafts }

func (p *Project) takeMoney(t *unit.Money, text string) error { return enterMoney(p, t, text) }

func (p *Project) takeCurrency(_ *Currency, text string) error { return enterCurrency(p, text) }

// SetDraft keeps text that could not be taken, with the reason.
func (p *Project) SetDraft(field, text, reason string) { setDraft(p, field, text, reason) }

// DraftOf gives the text kept for a field that could not be taken.
func (p *Project) DraftOf(field string) (Draft, bool) { return draftOf(p, field) }

func (p *Project) dropDraft(field string) { dropDraft(p, field) }

func setDraft(d Document, field, text, reason string) {
	dropDraft(d, field)
	list := d.drafts()
	*list = append(*list, Draft{field, text, reason})
}

func draftOf(d Document, field string) (Draft, bool) {
	for _, x := range *d.drafts() {
		if x.Field == field {
			return x, true
		}
	}
	return Draft{}, false
}

func dropDraft(d Document, field string) {
	list := d.drafts()
	*list = slices.DeleteFunc(slices.Clone(*list), func(x Draft) bool { return x.Field == field })
	if len(*list) == 0 {
		*list = nil
	}
}
