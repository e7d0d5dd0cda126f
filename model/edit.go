package model

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// Clone copies a project so that a change to the copy never shows in the
// original. Outlines are shared: they are replaced whole and never changed.
func (p Project) Clone() Project {
	p.Instruments = maps.Clone(p.Instruments)
	p.Slabs = slices.Clone(p.Slabs)
	for i := range p.Slabs {
		s := &p.Slabs[i]
		s.Layups = slices.Clone(s.Layups)
		for _, t := range [2]*Tracing{&s.Upper, &s.Under} {
			t.Marks, t.Rings = slices.Clone(t.Marks), slices.Clone(t.Rings)
		}
	}
	p.Mold = p.Mold.clone()
	p.Pieces = slices.Clone(p.Pieces)
	for i := range p.Pieces {
		w := &p.Pieces[i]
		w.Stations = slices.Clone(w.Stations)
		w.Top.Stations = slices.Clone(w.Top.Stations)
		w.Voids = slices.Clone(w.Voids)
	}
	p.Inserts = slices.Clone(p.Inserts)
	p.Sheets = slices.Clone(p.Sheets)
	p.Layers = slices.Clone(p.Layers)
	for i := range p.Layers {
		p.Layers[i].Additives = slices.Clone(p.Layers[i].Additives)
	}
	f := &p.Finish
	f.Flatten.Points, f.Sand.Own, f.Mounts = slices.Clone(f.Flatten.Points), slices.Clone(f.Sand.Own), slices.Clone(f.Mounts)
	p.Money = p.Money.clone()
	p.Lots = slices.Clone(p.Lots)
	p.Journal = slices.Clone(p.Journal)
	p.Drafts = slices.Clone(p.Drafts)
	return p
}

// NewID gives an ID that no item of the project has had: a letter for its kind
// and a number.
func (p *Project) NewID(kind string) string {
	p.Serial++
	return kind + itoa(p.Serial)
}

// Blank is a new project with nothing measured: a rectangular mold measured at
// the rim, one piece of wood to come, no pour yet.
func Blank(id, name string) Project {
	return Project{
		ID: id, Name: name,
		Mold: Mold{Kind: MoldRectangle, At: AtRim, Draft: Lean{Kind: LeanNone}},
	}
}

// AddPiece adds a piece of wood and gives its ID.
func (p *Project) AddPiece(kind PieceKind) string {
	w := Piece{ID: p.NewID("p"), Name: "wood " + itoa(len(p.Pieces)+1), Kind: kind}
	if kind == PieceStations {
		w.Stations = make([]unit.Dim, 3)
	}
	p.Pieces = append(p.Pieces, w)
	return w.ID
}

// AddVoid adds a void to a piece and gives its ID.
func (p *Project) AddVoid(piece string) string {
	w := p.Piece(piece)
	if w == nil {
		return ""
	}
	v := Void{ID: p.NewID("v"), Name: "knot " + itoa(len(w.Voids)+1), Kind: VoidRound, Count: 1}
	w.Voids = append(w.Voids, v)
	return v.ID
}

// AddInsert adds a kind of insert and gives its ID.
func (p *Project) AddInsert(kind InsertKind) string {
	s := Insert{ID: p.NewID("i"), Name: "insert " + itoa(len(p.Inserts)+1), Count: 1, Kind: kind, On: OnFloor}
	p.Inserts = append(p.Inserts, s)
	return s.ID
}

// AddSheet adds an empty data sheet and gives its ID.
func (p *Project) AddSheet() string {
	s := Sheet{ID: p.NewID("s"), Name: "resin " + itoa(len(p.Sheets)+1)}
	p.Sheets = append(p.Sheets, s)
	return s.ID
}

// AddLayer adds a pour on top of the others, of the resin of the one below.
func (p *Project) AddLayer() string {
	l := Layer{ID: p.NewID("l"), Name: "layer " + itoa(len(p.Layers)+1), By: ToDepth}
	if n := len(p.Layers); n > 0 {
		l.Sheet = p.Layers[n-1].Sheet
	} else if len(p.Sheets) > 0 {
		l.Sheet = p.Sheets[0].ID
	}
	p.Layers = append(p.Layers, l)
	return l.ID
}

// AddAdditive adds an additive to a layer and gives its ID.
func (p *Project) AddAdditive(layer string) string {
	if i := p.LayerIndex(layer); i != none {
		a := Additive{ID: p.NewID("a"), Name: "additive"}
		p.Layers[i].Additives = append(p.Layers[i].Additives, a)
		return a.ID
	}
	return ""
}

// Remove takes the item named by a path such as "pieces/p2" or
// "layers/l1/additives/a3" out of its list. What rested on a removed layer
// rests on the floor; layers of a removed sheet have none. A poured layer, and
// a sheet that one was poured by, stay.
func (p *Project) Remove(path string) error {
	if err := p.keepPoured(path); err != nil {
		return err
	}
	err := removeItem(p, path)
	if err == nil {
		p.mend()
	}
	return err
}

// removeItem takes the item named by a path out of its list, with the drafts of
// its fields.
func removeItem(d Document, path string) error {
	at := strings.LastIndexByte(path, '/')
	if at < 0 {
		return &Problem{path, "there is nothing here to remove"}
	}
	list, err := locate(d, path[:at])
	if err != nil || list.Kind() != reflect.Slice || !hasID(list.Type().Elem()) {
		return &Problem{path, "it is no longer there"}
	}
	for i := range list.Len() {
		if list.Index(i).FieldByName("ID").String() == path[at+1:] {
			list.Set(reflectDelete(list, i))
			drafts := d.drafts()
			*drafts = slices.DeleteFunc(slices.Clone(*drafts), func(x Draft) bool { return strings.HasPrefix(x.Field, path+"/") })
			return nil
		}
	}
	return &Problem{path, "it is no longer there"}
}

// hasID tells whether the items of a list are known by an ID.
func hasID(t reflect.Type) bool {
	if t.Kind() != reflect.Struct {
		return false
	}
	_, ok := t.FieldByName("ID")
	return ok
}

func (p *Project) keepPoured(path string) error {
	kind, id, _ := strings.Cut(path, "/")
	for i := range p.Layers {
		l := &p.Layers[i]
		if _, begun := p.PourStart(l.ID); begun && (kind == "layers" && l.ID == id || kind == "sheets" && l.Sheet == id) {
			return &Problem{path, "this has been poured; what happened stays in the journal"}
		}
	}
	return nil
}

// mend drops references to what is no longer there.
func (p *Project) mend() {
	for i := range p.Inserts {
		if s := &p.Inserts[i]; s.On == OnLayer && p.LayerIndex(s.Layer) == none {
			s.On, s.Layer = OnFloor, ""
		}
	}
	for i := range p.Layers {
		if l := &p.Layers[i]; l.Sheet != "" && p.Sheet(l.Sheet) == nil {
			l.Sheet = ""
		}
	}
}
