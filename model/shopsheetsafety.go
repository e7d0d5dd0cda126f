package model

import (
	"slices"
	"strings"
)

// briefly says on a page that lies on the bench what a safety note asks for, by
// the note's kind. What has no such line stands there whole.
var briefly = map[string]string{
	"skin":         "Resin can cause lasting skin allergy: nitrile gloves, glasses, sleeves down; never solvent on skin.",
	"kitchen":      "What was used for resin never goes back to food.",
	"heat":         "Resin left deep in a cup can smoke and start a fire: at once thin on a tray outdoors, never in a bin.",
	"fumes":        "If a pour smokes or smells sharp: leave, ventilate, do not move the mold; a mask may not stop the fumes.",
	"flame":        "Flame or hot air: solvents and wipes away first, keep it moving, never over dry plants, release spray or plastic.",
	"dust":         "Sand only what is fully cured, with a P2 mask.",
	"wood":         "Take loose bark off, and wear a dust mask for it.",
	"sanding dust": "Wood dust causes cancer, dust of uncured resin allergy: extraction, P2 mask; no sparks, never blow.",
	"blades":       "Chips fly, a blade can snatch: eyes and ears covered, piece held down, small passes, plug out before you reach in.",
	"wet sanding":  "Wet sanding by hand, or with a tool made for it behind a residual current device.",
	"drilling":     "Clamp the piece before you drill; let the bit clear its chips and the resin cool.",
	"rags":         "Rags with drying oil catch fire by themselves: flat outdoors to dry, or under water in a closed metal can.",
}

// sheetSafety lists what is to be minded, the gravest first, each in short and,
// for a page that has the room, in full.
func sheetSafety(notes []SafetyNote) SheetGroup {
	g := SheetGroup{Title: "Hands and lungs", Where: "the safety notes in the windows", Whole: true}
	order := []Signal{Danger, Warning, Caution, Notice}
	sorted := slices.Clone(notes)
	slices.SortStableFunc(sorted, func(a, b SafetyNote) int { return slices.Index(order, a.Signal) - slices.Index(order, b.Signal) })
	has := func(kind string) bool {
		return slices.ContainsFunc(notes, func(n SafetyNote) bool { return n.Kind == kind })
	}
	for _, n := range sorted {
		signal, whole := upperFirst(string(n.Signal))+": ", strings.TrimSuffix(n.Text, followSheet)
		g.Lines = append(g.Lines, signal+orWord(briefly[n.Kind], whole))
		g.Full = append(g.Full, signal+whole)
	}
	// What the card says of skin, cups and sheets, where no note says it.
	for i, kind := range []string{"skin", "heat", ""} {
		if !has(kind) {
			g.Lines, g.Full = append(g.Lines, cardSafety[i]), append(g.Full, cardSafety[i])
		}
	}
	return g
}
