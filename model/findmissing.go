package model

import "strings"

// A missingHelp says of a kind of field what hangs on it and how it is measured.
type missingHelp struct {
	under, field string // the beginning of its path, and its last part that is a name; "" for any
	why, do      string
}

// missingWords is gone through from the top; the first row that fits holds. The
// ways to measure are common practice, no source.
var missingWords = []missingHelp{
	{"mold/draft", "", "how far apart the walls are at each height hangs on it, and so the volume and whether the wood goes in",
		"lay a straight edge on the wall and read a bevel or an angle gauge, or measure the other end with a rule"},
	{"mold/hold/depths", "", "how the mold stands follows from all four", "stretch a line level over the mold and measure down to the floor at each corner"},
	{"mold/hold/seams", "gap", "what leaks goes by the cube of the gap", "push in the thickest feeler blade that goes, and type what stands on it"},
	{"mold", "depth", "without it neither volume nor fit can be told", "stand a rule on the floor inside and read it at the rim, in the middle and at a corner"},
	{"mold", "diameter", "without it neither volume nor fit can be told", "measure inside from wall to wall across the middle, twice at right angles"},
	{"mold", "span", "without it neither volume nor fit can be told", "measure inside from flat to flat, or from corner to corner, across the middle"},
	{"mold", "sides", "the form of the mold hangs on it", "count its sides, 3 or more"},
	{"mold", "outline", "without it neither volume nor fit can be told", "type x, y of each corner in turn, all the way round, or trace it from a photo under Slab"},
	{"mold", "kind", "which sizes are asked for hangs on it", "choose the one that its opening looks like from above"},
	{"mold", "", "without it neither volume nor fit can be told", "measure inside from wall to wall with a rule or a tape, and type what you read"},
	{"layers", "to", "without it nothing can be weighed for it", "type its depth, or add it and drag its line in the drawing"},
	{"pieces", "outline", "until then it takes no room in the resin, and too much would be mixed", "type x, y of each corner in turn, all the way round, or trace it from a photo under Slab"},
	{"pieces", "stations", "until then it takes no room in the resin, and too much would be mixed", "mark even steps along it and measure its width at each mark, both ends too"},
	{"pieces", "spacing", "until then it takes no room in the resin, and too much would be mixed", "mark even steps along it, about a hand's width apart, and type how far apart they are"},
	{"pieces", "thickness", "until then it takes no room in the resin, and too much would be mixed", "measure it with a caliper at both ends and in the middle, and type the mean"},
	{"pieces", "depth", "how much resin runs into it hangs on it", "stand the depth end of a caliper in it, or leave the field empty where it goes right through"},
	{"pieces", "kind", "until then it takes no room in the resin, and too much would be mixed", "choose Rectangle for a straight board, Widths for a live edge, Outline for anything else"},
	{"pieces", "", "until then it takes no room in the resin, and too much would be mixed", "measure it with a rule or a tape as it will lie in the mold, and type what you read"},
	{"inserts", "height", "which pour it stands in hangs on it", "measure from the floor of the mold up to where its underside will be"},
	{"inserts", "layer", "which pour it stands in hangs on it", "choose a pour, or set it on the floor or at a height"},
	{"inserts", "inner", "a hole cannot be wider than what it is in", "measure both again, with a caliper"},
	{"inserts", "displaces", "until then it takes no room in the resin, and too much would be mixed", "sink ten in a measuring cup and divide by ten what the water rises by"},
	{"inserts", "mass", "until then it takes no room in the resin, and too much would be mixed", "weigh ten and divide by ten"},
	{"inserts", "density", "until then it takes no room in the resin, and too much would be mixed", "look it up for what it is made of, or weigh it and see what it displaces in water"},
	{"inserts", "", "until then it takes no room in the resin, and too much would be mixed", "measure one of them with a caliper, and type what you read"},
}

// helpOf says of a field that misses or cannot be so what hangs on it and what to do.
func helpOf(field string) (why, do string) {
	name := ""
	for _, part := range strings.Split(field, "/") {
		if part != "" && strings.Trim(part, "0123456789") != "" {
			name = part
		}
	}
	for _, w := range missingWords {
		if (field == w.under || strings.HasPrefix(field, w.under+"/")) && (w.field == "" || w.field == name) {
			return w.why, w.do
		}
	}
	return "until then it is not counted", "look at the field once more, and mend what it says"
}
