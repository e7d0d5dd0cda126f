package model

import "meniscus/model/unit"

// followSheet ends every safety note.
const followSheet = " Follow the product's data sheet and safety data sheet, and local rules."

// deepCup is the mixed mass from which heat in the cup is worth a warning:
// data sheets commonly quote working time for 100 to 150 g (common practice,
// no source).
const deepCup = 150 * unit.Gram

// safety chooses the notes about harm to people by what the project does.
func safety(p *Project, pl *Plan) []SafetyNote {
	var notes []SafetyNote
	add := func(kind string, signal Signal, subject Subject, text string) {
		notes = append(notes, SafetyNote{kind, signal, subject, text + followSheet})
	}
	if len(p.Layers) > 0 {
		add("skin", Warning, OfMixing, "Resin and hardener can cause lasting skin allergy. Wear nitrile gloves and eye protection, keep sleeves down, ventilate the room, and do not clean skin with solvent.")
		add("kitchen", Warning, OfMixing, "A pot, cup or spoon used for resin never goes back to food.")
	}
	heavy := unit.Mass(0)
	for _, l := range pl.Layers {
		heavy = max(heavy, l.Mix.Total)
	}
	if heavy > deepCup {
		add("heat", Danger, OfMixing, "Mixed resin left deep in a cup heats itself: it can smoke, crack the cup and start a fire. Pour it out without delay; spread what is left thin on a tray outdoors, on something that cannot burn, never in a closed bin.")
		add("fumes", Warning, OfCure, "If a pour smokes or smells sharp, leave the room and ventilate it; do not move the mold. Cartridge masks do not stop every decomposition fume.")
	}
	if len(p.Layers) > 0 {
		add("flame", Warning, OfLayers, "A flame or hot-air gun over resin: put solvents and wipes away first, keep it moving, never over dry plants, release spray or a plastic mold.")
		add("dust", Warning, OfCure, "Wood and resin dust harm the lungs, and half-cured resin can cause allergy: sand only what is fully cured, with extraction and a mask of class P2 or better. Blades off before you reach in.")
	}
	for i := range p.Inserts {
		switch s := &p.Inserts[i]; {
		case s.Sealed:
			add("sealed insert", Danger, OfMold, "A closed hollow object or a battery ("+s.Name+") can burst as the resin heats. Do not cast it, or open or drain it first.")
		case s.Damp:
			add("damp insert", Warning, OfMold, "Damp objects ("+s.Name+") steam, foam and rot in resin. Dry them fully first.")
		}
	}
	for i := range p.Pieces {
		if p.Pieces[i].Species != "" || p.Pieces[i].Name != "" {
			add("wood", Caution, OfMold, "Take loose bark off and wear a dust mask: it holds badly and the dust of some woods irritates.")
			break
		}
	}
	finishSafety(p, add)
	return notes
}
