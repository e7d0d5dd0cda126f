package model

// What lies on the shelf goes into a project as a copy, so that the project
// stands by itself, and from a project onto the shelf likewise.

// TakeMold makes a mold of the shelf that of a project, with what it cost and
// the casts that it is good for, so that each cast pays for its part of it. A
// price that the shelf has in another currency stays there, and so it does where
// one line of the project's own covers the materials.
func TakeMold(p *Project, m ShelfMold) {
	p.Mold = m.Mold.clone()
	dropped := []string{"mold"} // of the mold that was
	if p.payFor(m) {
		dropped = append(dropped, "costing/mold", "costing/lasts")
	}
	for _, root := range dropped {
		for _, d := range p.Drafts {
			if hasPath(d.Field, root) {
				p.dropDraft(d.Field)
			}
		}
	}
}

// payFor has each cast pay its part of a mold of the shelf. False where that is
// left as it is: the shelf's price is in another currency, or a line of the
// project's own covers it.
func (p *Project) payFor(m ShelfMold) bool {
	code := p.Money.code()
	if p.Money.Own || m.Price.Given() && code != "" && code != m.Price.Currency {
		return false
	}
	p.Money.Mold, p.Money.Lasts = m.Price, m.Lasts
	return true
}

// hasPath tells whether a path leads to something at or below another.
func hasPath(path, root string) bool {
	return path == root || len(path) > len(root) && path[:len(root)+1] == root+"/"
}

// TakeProduct copies a product's data sheet into a project, linked, so that what
// is weighed out comes off its bottles, and gives the sheet's ID. A sheet of the
// product that the project has already is brought up to date instead.
func TakeProduct(p *Project, from Product) string {
	s := from.Sheet
	s.Product, s.LeftA, s.LeftB = from.ID, Sheet{}.LeftA, Sheet{}.LeftB
	for i := range p.Sheets {
		if p.Sheets[i].Product == from.ID {
			s.ID, s.LeftA, s.LeftB = p.Sheets[i].ID, p.Sheets[i].LeftA, p.Sheets[i].LeftB
			p.Sheets[i] = s
			return s.ID
		}
	}
	s.ID = p.NewID("s")
	p.Sheets = append(p.Sheets, s)
	return s.ID
}

// TakeCup makes a cup of the shelf the one that a project is mixed in.
func TakeCup(p *Project, c ShelfCup) {
	if c.Vessel.Given() {
		p.Mixing.Vessel = c.Vessel
	}
	if c.Weight.Given() {
		p.Mixing.Cup = c.Weight
	}
}

// TakeInsert adds an insert of the shelf to a project, linked, so that those that
// are set come off the shelf, and gives its ID there.
func TakeInsert(p *Project, from ShelfInsert) string {
	s := from.Insert
	s.ID, s.Count, s.On, s.Layer, s.Cavity, s.Stock = p.NewID("i"), max(1, s.Count), OnFloor, "", 0, from.ID
	p.Inserts = append(p.Inserts, s)
	return s.ID
}

// TakeTint makes a colorant of the shelf the tint of a layer, linked, so that what
// is stirred in comes off the shelf; how much of it goes in stays as it is.
func TakeTint(p *Project, layer string, from ShelfTint) {
	if i := p.LayerIndex(layer); i != none {
		t := &p.Layers[i].Tint
		t.Name, t.Kind, t.Grain, t.Stock = from.Name, from.Kind, from.Grain, from.ID
		if from.Colour != "" {
			t.Colour = from.Colour
		}
	}
}

// KeepMold keeps a project's mold on the shelf, with what it cost there where
// that is in the shelf's currency, and gives its ID there.
func (s *Shelf) KeepMold(p *Project) string {
	m := ShelfMold{ID: s.newID("m"), Mold: p.Mold.clone(), Lasts: p.Money.Lasts}
	if price := p.Money.Mold; price.Currency == string(s.Currency) {
		m.Price = price
	}
	if m.Mold.Name == "" {
		m.Mold.Name = "mold of " + p.Name
	}
	s.Molds = append(s.Molds, m)
	return m.ID
}

// KeepProduct keeps a product by the data sheet that a project has of it and
// gives its ID. One that is on the shelf already gets the sheet as it is now.
// Linking the project's sheet to it is the caller's.
func (s *Shelf) KeepProduct(sheet Sheet) string {
	id := sheet.Product
	sheet.ID, sheet.Product, sheet.LeftA, sheet.LeftB = "", "", Sheet{}.LeftA, Sheet{}.LeftB
	if p := s.Product(id); p != nil {
		p.Sheet = sheet
		return id
	}
	p := Product{ID: s.markedID("r"), Sheet: sheet}
	s.Products = append(s.Products, p)
	return p.ID
}

// KeepCup keeps a project's measuring cup on the shelf and gives its ID there.
func (s *Shelf) KeepCup(p *Project) string {
	id := s.AddCup()
	c := &s.Cups[len(s.Cups)-1]
	c.Vessel, c.Weight = p.Mixing.Vessel, p.Mixing.Cup
	return id
}

// KeepInsert keeps an insert of a project on the shelf and gives its ID there.
func (s *Shelf) KeepInsert(i Insert) string {
	i.ID, i.On, i.Layer, i.Cavity, i.Stock = "", OnFloor, "", 0, ""
	x := ShelfInsert{ID: s.markedID("i"), Insert: i, Number: i.Count}
	s.Inserts = append(s.Inserts, x)
	return x.ID
}
