package views

import (
	"fmt"
	"math"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// facts is what follows from the photos of a slab.
func (t *traceView) facts(shot *app.Snapshot) []moldFact {
	face, plan := t.tracing(&shot.Project), shot.Plan.Slab(t.slab.slab)
	if face == nil {
		return nil
	}
	if face.Photo == "" {
		text := "No photo yet."
		if t.face == model.FaceUnder {
			text = "Not shot: it counts as the same as the upper face."
		}
		return []moldFact{{name: text, tone: touch.Faint}}
	}
	of := facePlan(plan, t.face)
	if of == nil || !of.Solved {
		return []moldFact{{name: "Not straightened yet: " + straightenWords(face, of), tone: touch.Faint}}
	}
	s := shot.Project.Style
	var list []moldFact
	if len(face.Marks) > 4 {
		list = append(list, moldFact{name: "The marks miss their places by", value: s.Length(of.Residual)})
	} else {
		list = append(list, moldFact{name: "Straightened; four corners leave nothing over to check it by.", tone: touch.Faint})
	}
	if len(of.Region) == 0 {
		return append(list, moldFact{name: "No outline of the wood yet.", tone: touch.Faint})
	}
	lo, hi := of.Region.Bounds()
	list = append(list,
		moldFact{name: "Wood, straightened", value: roughly(s, unit.Length(hi.X-lo.X), 1) + " × " + roughly(s, unit.Length(hi.Y-lo.Y), 1)},
		moldFact{name: "Area", value: s.Area(of.Area.Value)},
	)
	if of.Area.High > of.Area.Low {
		list = append(list, moldFact{name: "between", value: s.Area(of.Area.Low) + " and " + s.Area(of.Area.High)})
	}
	if of.RiseOpen > 0 {
		list = append(list, moldFact{name: "Not sure, by " + fmt.Sprintf("±%.1f %%", 100*of.RiseOpen) + ": say how high the wood's face lies, below.", tone: touch.CheckTone})
	}
	if math.Abs(of.RiseCosts) >= 0.0005 {
		list = append(list, moldFact{name: "Were the rise ignored, the area would be off by", value: fmt.Sprintf("%.1f %%", 100*math.Abs(of.RiseCosts))})
	}
	if of.Lens.Value > 0 {
		list = append(list, moldFact{name: "Lens above the marks, as the picture tells", value: roughly(s, of.Lens.Low, 10) + " to " + roughly(s, of.Lens.High, 10)})
	}
	return append(list, bothFaces(plan, s)...)
}

// roughly writes a length that a photo tells, to so many millimetres, or as many
// sixteenths of an inch.
func roughly(s unit.Style, l unit.Length, steps float64) string {
	step := unit.Millimetre
	if s.LengthUnit() == unit.InInches {
		step = unit.Inch / 16
	}
	step = step.Times(steps)
	return s.Length(step.Times(math.Round(l.Per(step))))
}

// bothFaces holds the two faces beside each other where both were shot.
func bothFaces(plan *model.SlabPlan, s unit.Style) []moldFact {
	upper, under := &plan.Upper, &plan.Under
	if !upper.Shot || !under.Shot || !upper.Solved || !under.Solved || upper.Area.Value <= 0 || under.Area.Value <= 0 {
		return nil
	}
	areas := s.Areas(upper.Area.Value, under.Area.Value, max(upper.Area.Value, under.Area.Value)-min(upper.Area.Value, under.Area.Value))
	return []moldFact{
		{name: "Upper face", value: areas[0]},
		{name: "Under face", value: areas[1]},
		{name: "They differ by", value: areas[2]},
		{name: "Their outlines lie apart, on average", value: roughly(s, under.LeanMean, 1)},
		{name: "and at most", value: roughly(s, under.LeanMost, 1)},
	}
}

// facePlan is what follows from one face; nil when nothing does.
func facePlan(plan *model.SlabPlan, face model.Face) *model.FacePlan {
	switch {
	case plan == nil:
		return nil
	case face == model.FaceUnder:
		return &plan.Under
	}
	return &plan.Upper
}

// straightenWords says what a photo still lacks to be straightened.
func straightenWords(face *model.Tracing, plan *model.FacePlan) string {
	if plan != nil && len(plan.Wrong) > 0 {
		return plan.Wrong[0].Message + "."
	}
	return count(len(face.Marks)) + " marks are set."
}

// markTitle names a mark, with how far it is off its place where that is known.
func (t *traceView) markTitle(shot *app.Snapshot, i int) string {
	title := "Mark " + count(i+1)
	if of := facePlan(shot.Plan.Slab(t.slab.slab), t.face); of != nil && i < len(of.Off) {
		title += ", off by " + shot.Project.Style.Length(of.Off[i])
	}
	return title
}

// ringNames lists the outlines of the face that is shown.
func (t *traceView) ringNames(shot *app.Snapshot) []touch.Option {
	face := t.tracing(&shot.Project)
	if face == nil {
		return nil
	}
	var list []touch.Option
	seen := map[model.RingKind]int{}
	for i := range face.Rings {
		r := &face.Rings[i]
		seen[r.Kind]++
		name := "Wood"
		if r.Kind == model.RingHole {
			name = "Hole"
		}
		list = append(list, touch.Option{ID: r.ID, Label: fmt.Sprintf("%s %d, %s", name, seen[r.Kind], t.ringSize(shot, r))})
	}
	return list
}

// ringSize tells how large an outline is: its area where the photo is
// straightened, else its points.
func (t *traceView) ringSize(shot *app.Snapshot, r *model.TracedRing) string {
	if of := facePlan(shot.Plan.Slab(t.slab.slab), t.face); of != nil && of.Solved && len(r.Points) > 2 {
		return shot.Project.Style.Area(of.Encloses(r))
	}
	return pointsWord(len(r.Points))
}
