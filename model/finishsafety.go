package model

// finishSafety adds the notes about harm to people in the work after the
// casting. That wood dust is carcinogenic to humans is IARC's own evaluation
// (group 1, Monographs volumes 62 and 100C).
func finishSafety(p *Project, add func(kind string, signal Signal, subject Subject, text string)) {
	if len(p.Layers) == 0 {
		return
	}
	f := &p.Finish
	add("sanding dust", Danger, OfFinish, "Dust of wood causes cancer (IARC group 1), and dust of resin that has not fully cured causes allergy. Sand only what has fully cured, with extraction at the tool and a mask of class P2 or better; keep fine dust away from flames and sparks, and vacuum, never blow it off.")
	switch f.flattensBy() {
	case ToolRouter, ToolPlaner, ToolSaw:
		add("blades", Danger, OfFinish, "Resin chips fly and the blade can snatch it. Eye and ear protection, the piece held down, small passes against the turn of the cutter, hands never in line with it; pull the plug before you reach in.")
	}
	if f.Sand.Want == SurfaceSilk || f.Sand.Want == SurfaceClear {
		add("wet sanding", Warning, OfFinish, "Water and mains tools do not go together: sand wet by hand, or with a tool that is made for it, on a circuit with a residual current device.")
	}
	if len(f.Mounts) > 0 {
		add("drilling", Caution, OfFinish, "Clamp the piece before you drill: a bit that grabs spins it. Let the bit clear its chips, and let the resin cool.")
	}
	switch f.Coat.Kind {
	case CoatOil, CoatHardwax, CoatVarnish:
		add("rags", Danger, OfFinish, "Rags with drying oil heat themselves and can catch fire hours later. Lay each out flat outdoors to dry, or put them under water in a metal can with a tight lid; never in a heap or a bin. Ventilate while you coat.")
	}
}
