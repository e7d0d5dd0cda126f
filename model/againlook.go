package model

import (
	"fmt"
	"slices"
	"strings"

	"meniscus/model/cure"
)

// look says what a further piece of wood, a mold that is used again, or a lot
// asks for that no plan can know, and what was left out.
func (c *changes) look() []Finding {
	var list []Finding
	say := func(kind, field, what, why, do string) {
		list = append(list, Finding{kind, Check, OfMold, field, what, why, do})
	}
	was, now := c.was.Project, c.now.Project
	if c.now.untraced() {
		what := "Until the wood is traced nobody knows the masses, cups, heat, times, cover and cost"
		do := "measure the wood in Mold and inserts; then every limit is tested once more, before anything is mixed"
		if len(now.Inserts) > 0 {
			do += "; count the inserts again as well"
		}
		say("again.untraced", c.firstUntraced(), what, "the outlines were left out, and resin takes up what the wood leaves", do)
	}
	c.left(say)
	if a, b := was.Mold.Cavities(), now.Mold.Cavities(); b > a {
		what := fmt.Sprintf("Cavities %d to %d have no wood and no inserts", a+1, b)
		if b == a+1 {
			what = fmt.Sprintf("Cavity %d has no wood and no inserts", b)
		}
		say("again.cavities", "mold/count", what, fmt.Sprintf("the mold has %d cavities and had %d; they are filled all the same", b, a), "add what goes into them, or leave them empty and plan for fewer")
	}
	c.boards(say)
	if hold := &now.Mold.Hold; len(hold.Seams) > 0 {
		say("again.seams", "mold/hold/seams/"+hold.Seams[0].ID+"/gap", "The mold's gaps are those of an earlier cast",
			"it may have been taken apart, or sealed anew, since they were measured", "run the feeler along every seam anew, and level the mold, before you pour")
	}
	return append(list, c.lots()...)
}

// firstUntraced is the path of the first piece that is still to be traced.
func (c *changes) firstUntraced() string {
	i := slices.IndexFunc(c.now.Project.Pieces, func(w Piece) bool { return c.now.Plan.Piece(w.ID) == nil })
	return "pieces/" + c.now.Project.Pieces[i].ID
}

// left says what has no place in the new mold.
func (c *changes) left(say func(kind, field, what, why, do string)) {
	was, now := c.was.Project, c.now.Project
	cavities := fmt.Sprintf("the mold has %d cavities and had %d", now.Mold.Cavities(), was.Mold.Cavities())
	var wood, inserts []string
	for i := range was.Pieces {
		if w := &was.Pieces[i]; now.Piece(w.ID) == nil {
			wood = append(wood, orWord(w.Name, "a piece of wood"))
		}
	}
	for i := range was.Inserts {
		if s := &was.Inserts[i]; now.Insert(s.ID) == nil {
			inserts = append(inserts, orWord(s.Name, "inserts"))
		}
	}
	if n := len(wood); n > 0 {
		say("again.left", "pieces", upperFirst(listed(wood))+" "+oneOr(n, "has no place any more and was", "have no place any more and were")+" left out",
			cavities, "cast "+oneOr(n, "it", "them")+" in another mold, or add "+oneOr(n, "it", "them")+" where there is room")
	}
	if len(inserts) > 0 {
		say("again.left", "inserts", upperFirst(listed(inserts))+": no place any more, left out", cavities, "add them to another cavity")
	}
}

// boards says what is still that of the boards that were cast.
func (c *changes) boards(say func(kind, field, what, why, do string)) {
	pieces := c.now.Project.Pieces
	if len(pieces) == 0 {
		return
	}
	var known []string
	note := func(word string, given func(w *Piece) bool) {
		if slices.ContainsFunc(pieces, func(w Piece) bool { return given(&w) }) {
			known = append(known, word)
		}
	}
	note("thickness", func(w *Piece) bool { return w.Thickness.Given() })
	note("weight", func(w *Piece) bool { return w.Weight.Given() })
	note("density", func(w *Piece) bool { return w.Density.Given() })
	note("voids", func(w *Piece) bool { return len(w.Voids) > 0 })
	note("seal coat", func(w *Piece) bool { return w.Sealed })
	what, own, it := upperFirst(orWord(pieces[0].Name, "the wood"))+" is another board than last time", "its ", "it"
	if n := len(pieces); n > 1 {
		what, own, it = fmt.Sprintf("The %d pieces of wood are other boards than last time", n), "their ", "them"
	}
	why := own + "moisture is left open"
	if len(known) > 0 {
		why = own + listed(known) + " " + oneOr(len(known), "is", "are") + " still as in the piece that was cast, and " + why
	}
	say("again.wood", "pieces/"+pieces[0].ID+"/thickness", what, why, "measure "+it+" anew, and read the moisture, before you seal "+it)
}

// oneOr chooses the words for one or for several.
func oneOr(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// lots says which lots no run has told of yet, each once.
func (c *changes) lots() []Finding {
	var list []Finding
	said := map[[2]string]bool{}
	for i := range c.now.Project.Layers {
		l := &c.now.Project.Layers[i]
		k := c.was.Project.LayerIndex(l.ID)
		sheet := c.now.Project.Sheet(l.Sheet)
		if _, known := c.now.Project.lotsTold()[lotKey(l.Sheet, l.Lot)]; known || k == none || sheet == nil || said[[2]string{l.Sheet, l.Lot}] || l.Lot == c.was.Project.Layers[k].Lot && sheet.Name == c.was.Plan.Layers[k].SheetName {
			continue
		}
		said[[2]string{l.Sheet, l.Lot}] = true
		f := Finding{"again.lot", Check, OfLayers, "layers/" + l.ID + "/lot", "Lot " + l.Lot + " of " + sheet.Name + " was not the one before",
			fmt.Sprintf("lots of one product differ by some %.0f %% in pace; its times are those of the data sheet", 100*cure.LotSpread), "let a thin puddle of it gel beforehand, or note the touches of its first pour"}
		if l.Lot == "" {
			f.What, f.Do = "No lot of "+sheet.Name+" is named", "copy the number from both bottles; use one lot for one visible layer"
		}
		list = append(list, f)
	}
	return list
}

// tested names the limits that the new piece was held against again, and what
// could not be.
func (c *changes) tested() string {
	p := c.now.Project
	var list, not []string
	add := func(so bool, words string, hangs bool) {
		switch {
		case !so:
		case hangs && c.now.untraced():
			not = append(not, words)
		default:
			list = append(list, words)
		}
	}
	add(len(p.Layers) > 0, "the order of the layers and their depths by the data sheets", false)
	stirred, weighed := false, false
	for i := range p.Layers {
		for _, x := range p.Layers[i].Stirred() {
			stirred, weighed = true, weighed || !x.Share.Given()
		}
	}
	add(stirred, "what is stirred in", weighed)
	add(len(p.Pieces) > 0, "whether the wood fits, floats and keeps its place", true)
	add(len(p.Inserts) > 0, "whether the inserts float and stay covered", true)
	add(len(p.Mold.Hold.Seams) > 0, "what the seams leak", true)
	add(true, "what the room allows", false)
	add(c.now.Curing != nil, "heat, cups and times by the simulation", true)
	add(c.now.Stocked, "what is left on the shelf", true)
	if c.now.Curing == nil {
		not = append(not, "heat and cups, which could not be simulated")
	}
	if !c.now.Stocked {
		not = append(not, "what is left on the shelf")
	}
	text := ""
	if len(list) > 0 {
		text = "Tested again: " + strings.Join(list, "; ") + "."
	}
	if len(not) > 0 {
		why := "Not tested: "
		if c.now.untraced() {
			why = "Not tested before the wood is traced: "
		}
		text = joinedWith(" ", text, why+strings.Join(not, "; ")+".")
	}
	return text
}

// inSentence writes a finding's words to stand within a sentence; a name keeps its
// letters.
func inSentence(text string) string {
	first, _, _ := strings.Cut(text, " ")
	if slices.Contains([]string{"The", "A", "An", "At", "No", "There", "Give", "Say", "Until", "Cavity", "Cavities", "Lot"}, first) {
		return lowerFirst(text)
	}
	return text
}

// lead says in one line what stands in the way, or that nothing does.
func (s *ReissueSheet) lead() string {
	open := ""
	if slices.ContainsFunc(s.Look, func(f Finding) bool { return f.Kind == "again.untraced" }) {
		open = " The wood is still to be traced, so nothing can be mixed by this yet."
	}
	first := func(list []Finding, level Level) string {
		var words []string
		for _, f := range list {
			if f.Level == level {
				words = append(words, inSentence(f.What))
			}
		}
		n := len(words)
		if n == 0 {
			return ""
		}
		if words = words[:min(2, n)]; n > 2 {
			words = append(words, fmt.Sprintf("and %d more", n-2))
		}
		return strings.Join(words, "; ") + "."
	}
	if words := first(s.Refused, Stop); words != "" {
		return "Do not pour it like this: " + words + open
	}
	if words := first(s.Still, Stop); words != "" {
		return "It still cannot be poured as it stands: " + words + open
	}
	if words := first(s.Refused, Check); words != "" {
		return "Settle first: " + words + open
	}
	if open != "" {
		return strings.TrimSpace(open)
	}
	if words := first(s.Look, Check); words != "" {
		return "Nothing new stands in the way. Look after: " + words
	}
	return "Nothing stands in the way."
}
