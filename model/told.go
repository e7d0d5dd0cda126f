package model

// Told says an entry of the journal in words.
func (p *Project) Told(e Entry) string {
	name := p.layerName(e.Layer)
	switch e.Kind {
	case EntryPourStarted:
		if e.Room.Given() {
			return "Pour of " + name + " started, the room at " + p.Style.Temperature(e.Room.Value)
		}
		return "Pour of " + name + " started"
	case EntryPourDone:
		return "Pour of " + name + " done"
	case EntryDemolded:
		if e.Feel != "" {
			return "Out of the mold, " + e.Feel.Words()
		}
		return "Out of the mold"
	case EntryReading:
		words := "Read"
		if e.Room.Given() {
			words += " " + p.Style.Temperature(e.Room.Value) + " in the room"
		}
		if e.Part.Given() {
			if e.Room.Given() {
				words += " and"
			}
			words += " " + p.Style.Temperature(e.Part.Value) + " in " + name
		}
		return words
	case EntryProbe:
		return "A probe in " + name + " showed " + p.Style.Temperature(e.Part.Value) + " at most"
	case EntryTack:
		return "Touched " + name + ": " + e.Feel.Words()
	case EntryWeighedA:
		return "A for " + name + " weighed: the scale read " + e.Gross.Written
	case EntryWeighedB:
		return "B for " + name + " weighed: the scale read " + e.Gross.Written
	case EntryMixing:
		return "Began to mix for " + name
	case EntryMixed:
		return "Mixed for " + name
	case EntryPlaced:
		for i := range p.Inserts {
			if p.Inserts[i].ID == e.Insert {
				return "Placed " + p.Inserts[i].Name
			}
		}
		return "Placed an insert that is gone"
	case EntryChecked:
		return "Checked: " + orWord(e.Text, e.Check)
	case EntryPhoto:
		words := "A photo"
		if e.Layer != "" {
			words += " of " + name
		}
		if e.Text != "" {
			words += ": " + e.Text
		}
		return words
	case EntryTooHot:
		return upperFirst(name) + " got too hot " + orWord(e.Text, string(HotMold)) + " and was stopped"
	case EntryEmptied:
		return "Cup of " + name + " weighed once it was emptied: the scale read " + e.Gross.Written
	case EntryLeftOver:
		return orWord(e.Gross.Written, p.Style.Mass(e.Gross.Value)) + " mixed for " + name + " left over" + behind(": ", e.Text)
	case EntryMeasured:
		return "Finished piece measured: " + orWord(e.Thick.Written, p.Style.Length(e.Thick.Value)) + behind(", ", e.Text)
	case EntrySealMixed:
		words := "Seal coat mixed"
		if s := p.Sheet(e.Sheet); s != nil {
			words += " of " + s.Name
		}
		return words + ": " + p.Style.Mass(e.A.Value) + " of A and " + p.Style.Mass(e.B.Value) + " of B"
	case EntryUsed:
		if e.Gross.Given() {
			return "Used " + orWord(e.Gross.Written, p.Style.Mass(e.Gross.Value)) + " of " + orWord(e.Text, "a tint")
		}
		return "Used " + itoa(e.Count) + " × " + orWord(e.Text, "something of the shelf")
	case EntryWithdrawn:
		for _, o := range p.Journal {
			if o.ID == e.Of && o.Kind != EntryWithdrawn {
				return "Taken back: " + p.Told(o)
			}
		}
		return "Taken back"
	}
	return e.Text
}

// behind puts words behind others, where there are any.
func behind(joint, text string) string {
	if text == "" {
		return ""
	}
	return joint + text
}

// layerName names a layer by its ID, also one that is no more.
func (p *Project) layerName(id string) string {
	if i := p.LayerIndex(id); i >= 0 {
		return p.Layers[i].Name
	}
	return "a layer that is gone"
}

// Words says what a gloved finger found.
func (f Feel) Words() string {
	switch f {
	case FeelStrings:
		return "it strings"
	case FeelTape:
		return "sticky like tape, nothing on the glove"
	case FeelHard:
		return "a nail leaves no mark"
	}
	return string(f)
}
