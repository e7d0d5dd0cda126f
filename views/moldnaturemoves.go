package views

import (
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// shareWords writes a share with its band: "8.5 % (7.8 to 9.2)".
func shareWords(s unit.Style, k model.Known[unit.Share]) string {
	bare := func(v unit.Share) string { return strings.TrimSuffix(s.Share(v), " %") }
	return banded(s.Share(k.Value), bare(k.Low), bare(k.High), k.Low < k.High)
}

// natureHeld are the inputs that a piece's movement hangs on beside its
// moisture.
func (m *moldPane) natureHeld(at string) fyne.CanvasObject {
	n := at + "/nature"
	rows := moldRows(
		m.mark(n+"/bond", m.in.choice(n+"/bond", "Bonded or held at", []touch.Option{
			{ID: string(model.BondOne), Label: "One long edge"}, {ID: string(model.BondBoth), Label: "Both long edges"},
		})),
		m.toggleField(n+"/crosswise", "Its grain runs across its length"),
		m.in.length(n+"/width", "Width across the grain", "left empty it is as measured, at its widest"),
		touch.NewText("Shrinkage by hand, from green to oven-dry, where the list has not this wood or you know better:", touch.Small, touch.Faint),
		pair(m.in.quantity(n+"/tangential", "Along the rings", "flat-sawn", touch.Percent), m.in.quantity(n+"/radial", "Across the rings", "quarter-sawn", touch.Percent)),
	)
	m.sideBySide(n+"/tangential", n+"/radial")
	return rows
}

// natureMovement says how a piece will move, and what comes of it.
func natureMovement(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	n, ok := shot.Plan.Nature(&shot.Project, id)
	if !ok {
		return nil
	}
	width := moldFact{name: "Across the grain", value: s.Length(n.Width)}
	if n.Moves.Absent {
		return []moldFact{width, {name: n.Moves.Source, tone: touch.Faint}}
	}
	low, high := n.Moves.Low, n.Moves.High
	if n.Moves.Value < 0 {
		low, high = -high, -low
	}
	tone := touch.Ink
	if n.Shows {
		tone = touch.CheckTone
	}
	list := []moldFact{{name: n.Words + ".", tone: tone}, {name: "nine times in ten between", value: s.LengthNumber(low) + " and " + s.Length(high)}, width}
	return append(list, moldFact{name: n.AtBond, tone: touch.Ink}, moldFact{name: "Worked out " + n.Moves.Source + "; one tree differs from another by a sixth or so.", tone: touch.Faint})
}
