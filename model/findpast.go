package model

import (
	"slices"
	"strings"
)

// What the journal says is done is not warned of any more: a thing in a pour has
// been placed, a pour that another stands on has set, and of a piece out of its
// mold only what is still to be done to it, and what it will do, is left.

// afterCast are the kinds of findings, by how they begin, that tell of a piece
// out of its mold too.
var afterCast = []string{
	"draft", "missing", "journal.", "pour.", "finish.", "flatten.", "trim.", "sand.", "coat.", "mount.", "use.", "price.",
	"insert.cut", "insert.cover", "piece.moves", "piece.shrinkage", "wood.their-air",
}

// castOnly are the roots of fields that only the cast needs.
var castOnly = []string{"mold/hold", "mold/fillTest", "shop"}

// untilPoured are the kinds that end as soon as resin stands about a thing.
var untilPoured = []string{"piece.wet", "piece.oily", "piece.fit", "piece.overlap", "piece.cavity", "insert.wide", "insert.cavity"}

// untilSet are the kinds that end when the pour about a thing has set.
var untilSet = []string{"piece.lift-unknown", "insert.floats", "insert.float-unknown"}

// ofPour are the kinds, by how they begin, that end when the pour they tell of
// has set.
var ofPour = []string{"layer.deep", "layer.depth", "layer.thin", "mix.tint", "cure.too-hot", "heat."}

// isPast tells whether the journal says that what a finding warns of lies behind.
func (p *Project) isPast(pl *Plan, f Finding) bool {
	if p.happened(EntryDemolded) {
		planned := slices.ContainsFunc(pl.Layers, func(l LayerPlan) bool { return l.Status == Planned })
		switch stays := beginsWith(f.Kind, afterCast); {
		case f.Kind == "missing":
			return slices.ContainsFunc(castOnly, func(root string) bool { return hasPath(f.Field, root) })
		case !stays && (f.Subject == OfMold || !planned):
			return true
		}
	}
	root, rest, _ := strings.Cut(f.Field, "/")
	id, _, _ := strings.Cut(rest, "/")
	switch root {
	case "layers":
		return beginsWith(f.Kind, ofPour) && pl.hasSet(p, slices.IndexFunc(pl.Layers, func(l LayerPlan) bool { return l.ID == id }))
	case "pieces", "inserts":
		k := pl.pourAbout(root, id)
		return k != none && (slices.Contains(untilPoured, f.Kind) && pl.Layers[k].Status == Poured || slices.Contains(untilSet, f.Kind) && pl.hasSet(p, k))
	}
	return false
}

// hasSet tells whether the journal says that a pour has set: another was poured
// on it, or the piece was taken out of its mold.
func (pl *Plan) hasSet(p *Project, k int) bool {
	if k < 0 || pl.Layers[k].Status != Poured {
		return false
	}
	return p.happened(EntryDemolded) || slices.ContainsFunc(pl.Layers[k+1:], func(l LayerPlan) bool { return l.Status == Poured })
}

// pourAbout is the first pour that reaches a piece or an insert; none where none
// does.
func (pl *Plan) pourAbout(root, id string) int {
	for i := range pl.Layers {
		top := pl.Layers[i].Top
		if root == "pieces" && slices.ContainsFunc(pl.Pieces, func(w PiecePlan) bool { return w.ID == id && w.Bottom < top }) ||
			root == "inserts" && slices.ContainsFunc(pl.Inserts, func(s InsertPlan) bool { return s.ID == id && s.Bottom < top }) {
			return i
		}
	}
	return none
}

func beginsWith(kind string, list []string) bool {
	return slices.ContainsFunc(list, func(start string) bool { return strings.HasPrefix(kind, start) })
}

// forget takes out of a list of findings what is past.
func (p *Project) forget(pl *Plan, list []Finding) []Finding {
	return slices.DeleteFunc(list, func(f Finding) bool { return p.isPast(pl, f) })
}
