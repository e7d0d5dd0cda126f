package model

import (
	"fmt"
	"math"
	"strings"

	"meniscus/model/unit"
)

// findSlabs says what was noticed of the slabs.
func (m *maker) findSlabs() {
	for i := range m.plan.Slabs {
		s := &m.plan.Slabs[i]
		for _, f := range [2]struct {
			face string
			plan *FacePlan
		}{{string(FaceUpper), &s.Upper}, {string(FaceUnder), &s.Under}} {
			for _, w := range f.plan.Wrong {
				what, do := orWord(s.Name, "the slab")+", "+f.face+" face: the photo is not straightened yet", "until then the outline has no size"
				if strings.Contains(w.Field, "/rings/") {
					what, do = orWord(s.Name, "the slab")+", "+f.face+" face: an outline is left out", "until then its area is not counted"
				}
				kind, level := "slab.marks", Check
				if strings.Contains(w.Field, "/rings/") {
					kind = "slab.outline"
				}
				if m.p.begun(w.Field) {
					level, what, do = Note, orWord(s.Name, "the slab")+", "+f.face+" face: an outline is only begun", "go on along the edge, or remove it; until then its area is not counted"
				}
				if strings.HasSuffix(w.Field, "/rise") {
					kind, what, do = "slab.rise", orWord(s.Name, "the slab")+", "+f.face+" face: its height above the marks is not counted", ""
				}
				m.say(level, OfMold, kind, w.Field, upperFirst(what), w.Message, do)
			}
		}
	}
	for _, f := range m.ofSlabs {
		m.say(f.Level, f.Subject, f.Kind, f.Field, f.What, f.Why, f.Do)
	}
}

// begun tells whether the field at a path is an outline with too few points to
// enclose anything, as while it is set point by point.
func (p *Project) begun(path string) bool {
	parts := strings.Split(path, "/")
	if len(parts) != 5 || parts[3] != "rings" {
		return false
	}
	s := p.Slab(parts[1])
	if s == nil {
		return false
	}
	r := s.Face(Face(parts[2])).Ring(parts[4])
	return r != nil && len(r.Points) < 3
}

// note keeps a finding about a face until the findings are gathered.
func (f *facing) note(level Level, kind, field, what, why, do string) {
	name := upperFirst(orWord(f.slab.Name, "the slab"))
	f.ofSlabs = append(f.ofSlabs, Finding{kind, level, OfMold, f.path + field, name + ": " + what, why, do})
}

// percent writes a share as the maker reads it, to two digits.
func percent(share float64) string {
	if p := 100 * math.Abs(share); p < 9.95 {
		return fmt.Sprintf("%.1f %%", p)
	}
	return fmt.Sprintf("%.0f %%", 100*math.Abs(share))
}

// roughly writes a length that is not known to better than a centimetre or half
// an inch.
func (f *facing) roughly(l unit.Length) string {
	step := 10 * unit.Millimetre
	if f.p.Style.LengthUnit() == unit.InInches {
		step = unit.Inch / 2
	}
	return f.length(step.Times(math.Round(l.Per(step))))
}

// findFace notices what makes a straightened face doubtful.
func (f *facing) findFace() {
	f.findMarks()
	f.findRise()
	f.findLean()
	if s := float64(f.plan.Area.Sigma); s > 0 && f.plan.RiseOpen == 0 { // else what is said of the rise says it
		if half := sqrt3 * s / float64(f.plan.Area.Value); half > float64(typicalTraceErr) {
			f.note(Check, "slab.doubt", "/marks", "its traced area is not sure", fmt.Sprintf("it may be off by ±%s, where a careful tracing is within ±%s", percent(half), percent(float64(typicalTraceErr))), f.surer())
		}
	}
}

// surer says what would make the area surer: what weighs most in it.
func (f *facing) surer() string {
	switch {
	case f.lens.areaOff*float64(f.plan.Area.Value) > 0.7*float64(f.plan.Area.Sigma):
		return "measure how high the lens stood, or lay the marks at the height of the face"
	case f.t.Corners():
		return "touch the corners again with the loupe, or go by something larger: the whole mold, or points far apart"
	}
	return "touch the marks again with the loupe, or add some farther apart"
}

// findLean doubts an under face that lies nowhere near the upper one: a live
// edge hardly leans by more than the slab is thick all the way round.
func (f *facing) findLean() {
	most := f.slab.Thickness.Or(usualThick)
	if f.plan.LeanMean > most {
		f.note(Check, "slab.faces", "", "its two faces do not look like those of one slab",
			fmt.Sprintf("their outlines lie %s apart on average and %s at most, and it is %s thick", f.length(f.plan.LeanMean), f.length(f.plan.LeanMost), f.length(most)),
			"check that both were straightened by what they show and that both outlines go all the way round")
	}
}

// usualThick stands in for the thickness of a slab (common practice, no source).
const usualThick = 40 * unit.Millimetre

// findMarks holds the marks against what touching and measuring explain.
func (f *facing) findMarks() {
	if len(f.t.Marks) > corners {
		worst := 0
		for i, d := range f.fit.Off {
			if d > f.fit.Off[worst] {
				worst = i
			}
		}
		grain := float64(f.fit.Grain(f.fit.Marks[worst].Pixel))
		place := 0.0
		for i := range f.t.Marks {
			k := &f.t.Marks[i]
			place = max(place, float64(unit.StandardUncertainty(max(f.p.HalfWidth(k.At.By), f.p.HalfWidth(k.Up.By)))))
		}
		const twice = 2.0
		if explained := math.Hypot(f.touch()/sqrt3, place/grain); f.fit.Scatter > twice*explained {
			f.note(Check, "slab.residual", "/marks/"+f.t.Marks[worst].ID, "the marks do not agree with each other",
				fmt.Sprintf("they are off by %s on average, and touching and measuring explain about %s; mark %d is off the most, by %s", f.length(f.plan.Residual), f.length(unit.Length(explained*grain*math.Sqrt2)), worst+1, f.length(f.fit.Off[worst])),
				fmt.Sprintf("check where mark %d was touched, and measure its place again", worst+1))
		}
	}
	if f.t.By == ByCard || f.t.By == "" {
		const clearly = 4
		if _, better := f.otherSides(clearly); better && f.t.Long.Value != f.t.Broad.Value {
			f.note(Check, "slab.card", "/long", "the two sides of the card look swapped",
				fmt.Sprintf("no lens shows a rectangle of %s by %s so", f.length(f.t.Long.Value), f.length(f.t.Broad.Value)),
				"the first side runs from corner 1 to corner 2, the second from corner 2 to corner 3")
		}
	}
}

// touched names what was touched to straighten the photo.
func (f *facing) touched() string {
	if f.t.Corners() {
		return "corners"
	}
	return "points"
}

// risesCost says what each way in which the slab can lie would do to its area
// were that ignored.
func (f *facing) risesCost() string {
	var list []string
	for _, r := range f.p.couldLie(f.slab, f.t) {
		where, off := "above", "large"
		if r.Rise < 0 {
			where, off = "below", "small"
		}
		if r.Rise != 0 && r.Rise < f.lens.height.Times(nearest) {
			list = append(list, fmt.Sprintf("%s %s the %s comes out %s too %s", f.length(max(r.Rise, -r.Rise)), where, f.touched(), percent(riseCosts(r.Rise, f.lens.height)), off))
		}
	}
	if len(list) == 0 {
		return "so near to the lens it comes out far too large"
	}
	return "a face " + strings.Join(list, ", one ")
}

// findRise tells what the height of the face above the marks does, and whether
// the lens stood high enough.
func (f *facing) findRise() {
	if f.lens.height == 0 {
		if f.t.Rise.Given() && f.t.Rise.Value != 0 {
			f.note(Check, "slab.lens", "/camera", "its height above the marks is not counted", "that needs the height of the lens", "measure how high the lens stood above the marks")
		}
		return
	}
	tall := max(f.slab.Thickness.Value, f.t.Rise.Value, -f.t.Rise.Value)
	switch {
	case f.t.Rise.Given() && f.t.Rise.Value != 0:
		if f.lens.typical {
			f.note(Check, "slab.lens", "/camera", "say how high the lens stood above the marks",
				fmt.Sprintf("the face lies %s off the marks, which changes its area by %s; a usual lens would have stood at about %s", f.length(f.t.Rise.Value), percent(f.plan.RiseCosts), f.roughly(f.lens.height)), "until then that is taken")
		}
	case !f.t.Rise.Given():
		f.note(Check, "slab.rise", "/rise", "say how high the traced face lies above the "+f.touched()+", or below them", f.risesCost(), "0 if it is level with them; until then that is taken, and the area is not sure")
	}
	const lowest = 5 // times the height of the object (common practice, no source)
	if tall > 0 && f.lens.height < tall.Times(lowest) {
		f.note(Check, "slab.low", "/camera", "the lens stood low over it",
			fmt.Sprintf("at about %s over something %s high, so that its edge hides what lies behind it", f.roughly(f.lens.height), f.length(tall)), fmt.Sprintf("shoot it again from at least %s", f.length(tall.Times(lowest))))
	}
	const unlike = 3 // standard uncertainties
	if c, told := f.t.Camera, f.plan.Lens; c.Given() && told.Value > 0 {
		if apart := math.Abs(float64(c.Value - told.Value)); apart > unlike*math.Hypot(float64(f.lens.sigma), float64(told.Sigma)) {
			f.note(Check, "slab.lens", "/camera", "the height of the lens does not agree with the photo",
				fmt.Sprintf("it was measured at %s, and the perspective says %s ± %s", f.length(c.Value), f.roughly(told.Value), f.roughly(max(10*unit.Millimetre, told.Sigma.Times(quantile5)))), "measure it again, from the plane of the marks; a cropped picture would explain it too")
		}
	}
}
