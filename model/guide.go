package model

import "slices"

// Try is one thing that the guidance through a demo job has the maker try.
type Try string

// What is tried, in this order.
const (
	TryWood    Try = "wood"    // a piece of wood is moved or turned
	TryPour    Try = "pour"    // a pour gets another top
	TryWorking Try = "working" // a figure's working is opened; changes nothing
	TryRoom    Try = "room"    // the room gets another temperature
	TryUndo    Try = "undo"    // a step is taken back
	TryOwn     Try = "own"     // a piece of the maker's own is begun
)

// Tried tells what of a guidance the way from one state of a project to another one
// is; nil where it is none of it, and for two projects.
func Tried(before, after *Project) []Try {
	if before.ID != after.ID {
		return nil
	}
	var list []Try
	if slices.ContainsFunc(after.Pieces, func(p Piece) bool {
		old := before.Piece(p.ID)
		return old != nil && (old.X != p.X || old.Y != p.Y || old.Turn != p.Turn)
	}) {
		list = append(list, TryWood)
	}
	if slices.ContainsFunc(after.Layers, func(l Layer) bool {
		i := before.LayerIndex(l.ID)
		return i >= 0 && before.Layers[i].By == l.By && before.Layers[i].To.Value != l.To.Value
	}) {
		list = append(list, TryPour)
	}
	if before.Shop.Room.Value != after.Shop.Room.Value {
		list = append(list, TryRoom)
	}
	return list
}

// TryField is the path of what a thing is tried with: the first piece of wood, the top
// of the highest pour, the room's temperature. Empty where it is no field, or the
// project has none.
func (p *Project) TryField(t Try) string {
	switch {
	case t == TryWood && len(p.Pieces) > 0:
		return "pieces/" + p.Pieces[0].ID
	case t == TryPour && len(p.Layers) > 0:
		return "layers/" + p.Layers[len(p.Layers)-1].ID + "/to"
	case t == TryRoom:
		return "shop/room"
	}
	return ""
}
