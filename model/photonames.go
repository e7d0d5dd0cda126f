package model

import "slices"

// PhotoNames lists the names of all pictures that a project and its journal
// speak of, each once and in order: of the journal, also of entries that were
// taken back, and of the slabs' faces.
func (p *Project) PhotoNames() []string {
	var names []string
	for _, e := range p.Journal {
		names = append(names, e.Photo)
	}
	for _, s := range p.Slabs {
		names = append(names, s.Upper.Photo, s.Under.Photo)
	}
	slices.Sort(names)
	names = slices.Compact(names)
	return slices.DeleteFunc(names, func(name string) bool { return name == "" })
}
