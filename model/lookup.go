package model

// named finds the item of a list that an ID names; nil when it is not there.
func named[T any](list []T, id string, of func(*T) string) *T {
	for i := range list {
		if of(&list[i]) == id {
			return &list[i]
		}
	}
	return nil
}

// Slab finds a slab of wood by ID; nil when it is not there.
func (p *Project) Slab(id string) *Slab {
	return named(p.Slabs, id, func(s *Slab) string { return s.ID })
}

// Piece finds a piece of wood by ID; nil when it is not there.
func (p *Project) Piece(id string) *Piece {
	return named(p.Pieces, id, func(w *Piece) string { return w.ID })
}

// Void finds a hole in a piece by ID; nil when it is not there.
func (w *Piece) Void(id string) *Void {
	return named(w.Voids, id, func(v *Void) string { return v.ID })
}

// Insert finds a kind of insert by ID; nil when it is not there.
func (p *Project) Insert(id string) *Insert {
	return named(p.Inserts, id, func(s *Insert) string { return s.ID })
}

// Sheet finds a product's data sheet by ID; nil when it is not there.
func (p *Project) Sheet(id string) *Sheet {
	return named(p.Sheets, id, func(s *Sheet) string { return s.ID })
}

// LayerIndex finds a layer's place in the list by ID; -1 when it is not there.
func (p *Project) LayerIndex(id string) int {
	for i := range p.Layers {
		if p.Layers[i].ID == id {
			return i
		}
	}
	return none
}

// Piece finds what follows from a piece of wood; nil while it is not measured.
func (pl *Plan) Piece(id string) *PiecePlan {
	return named(pl.Pieces, id, func(w *PiecePlan) string { return w.ID })
}

// Insert finds what follows from a kind of insert; nil when it is not there.
func (pl *Plan) Insert(id string) *InsertPlan {
	return named(pl.Inserts, id, func(s *InsertPlan) string { return s.ID })
}

// Layer finds what follows for a pour; nil when it is not there.
func (pl *Plan) Layer(id string) *LayerPlan {
	return named(pl.Layers, id, func(l *LayerPlan) string { return l.ID })
}
