package model

import (
	"meniscus/model/unit"
)

// ReleaseLine is one thing about getting the piece out of its mold.
type ReleaseLine struct {
	Words string
	Level Level // Note where it only advises
}

// littleDraft is below what lean of the walls a stiff mold in one part hardly
// lets go. Foundry guides give 2° a side for metal molds, 1 to 3 for stiff
// patterns and 0 to 1 for silicone; for resin no standard was found (common
// practice).
const littleDraft = 1 * unit.Degree

// mustCoat tells whether resin bonds to a floor that nothing is put on.
func (p *Project) mustCoat() bool {
	kind, _ := p.floor()
	return kind != FloorSilicone && kind != FloorHDPE
}

// Release says what lets the piece out of its mold: the lean of its walls, the
// coating, how to take it out, and what the mold needs to last. Common practice,
// no source, unless a data sheet says otherwise.
func (pl *Plan) Release(p *Project) []ReleaseLine {
	var list []ReleaseLine
	say := func(level Level, words string) { list = append(list, ReleaseLine{words, level}) }
	st := p.Style
	kind, told := p.floor()
	draft := pl.Mold.Draft
	switch {
	case pl.Mold.Depth <= 0:
	case pl.Mold.DraftEach <= -clearEnough:
		say(Stop, "The walls lean in by "+st.Angle(-draft)+": the piece does not come out of a mold in one part.")
	case kind == FloorSilicone:
		say(Note, "A soft mold peels off: it needs no lean.")
	case draft < littleDraft/20:
		say(Check, "The walls are upright: a stiff mold in one part hardly lets go below 1 to 2°. Build it so that its walls come off.")
	case draft < littleDraft:
		say(Check, "The walls lean by "+st.Angle(draft)+": a stiff mold in one part hardly lets go below 1 to 2°. Build it so that its walls come off.")
	default:
		say(Note, "The walls lean by "+st.Angle(draft)+": that lets the piece out.")
	}
	switch kind {
	case FloorSilicone:
		say(Note, "Resin does not stick to silicone. Its skin wears: a thin coat of release now and then makes it last; no sharp blades, no solvents, store it flat.")
	case FloorHDPE:
		say(Note, "Resin does not stick to clean HDPE; scratches hold it. Scrape with plastic only, and keep the heat of the pour below what bends it.")
	case FloorGlass:
		say(Check, "Resin bonds to glass and can tear flakes out of it: two coats of release, right up to the edges.")
	case FloorAluminium:
		say(Check, "Resin bonds to metal: two coats of wax or release, buffed, and again before each casting.")
	case FloorMelamine:
		say(Check, "Melamine facing needs release; sawn edges are bare board: tape or seal them, or resin soaks in and holds.")
	default:
		say(Check, "Board needs release or a tape that resin does not stick to, all over and up the walls; bare wood bonds for good.")
	}
	if !told {
		say(Note, "What the floor is made of is not said; this is for coated board.")
	}
	say(Note, "Release comes after sealing the seams, thin, and dry before the pour. Keep it off the wood: it keeps resin from bonding there.")
	say(Note, "Taking out: only once it is hard. Break the seal all round with a plastic wedge, walls first, then turn it over on a soft bed and tap; no prying at one corner.")
	return list
}
