package model

import (
	"math"
	"strings"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// AddMount adds a handle, foot or hanger in the middle of the mold and gives its
// ID. Its screw is of the series that the project's lengths are written in.
func (p *Project) AddMount(kind MountKind) string {
	n := 1
	for _, s := range p.Finish.Mounts {
		if s.Kind == kind {
			n++
		}
	}
	s := Mount{ID: p.NewID("m"), Name: string(kind) + " " + itoa(n), Kind: kind, Head: HeadPan, Screw: "M4"}
	switch {
	case kind != MountHandle:
		s.Screw = "#8 wood screw"
	case p.Style.LengthUnit() == unit.InInches:
		s.Screw = "#8-32"
	}
	p.Finish.Mounts = append(p.Finish.Mounts, s)
	return s.ID
}

// MoveMount puts the middle of a mount to a place in the mold's axes, to the
// tenth of a millimetre.
func (p *Project) MoveMount(id string, to shape.Point) {
	if s := p.Mount(id); s != nil && math.Abs(to.X) <= anyPlace.high && math.Abs(to.Y) <= anyPlace.high {
		s.X, s.Y, s.Looked = tenths(to.X), tenths(to.Y), false
	}
}

// TurnMount turns a mount further by an angle.
func (p *Project) TurnMount(id string, by unit.Angle) {
	if s := p.Mount(id); s != nil {
		s.Turn, s.Looked = s.Turn+by, false
	}
}

// holesChanged takes back that the maker looked at the holes of a mount once a
// field of it was entered anew: it was of the holes as they were. Its name drills
// nothing.
func (p *Project) holesChanged(path string) {
	rest, ok := strings.CutPrefix(path, "finish/mounts/")
	id, field, _ := strings.Cut(rest, "/")
	if s := p.Mount(id); ok && s != nil && field != "looked" && field != "name" {
		s.Looked = false
	}
}

// forgetLooks takes back what was seen of one casting, for another one.
func (f *Finish) forgetLooks() {
	for i := range f.Mounts {
		f.Mounts[i].Looked = false
	}
}

// Recast readies a copy of a project for another casting: nothing that was done
// at, or seen of, the one before holds for it.
func (p *Project) Recast() {
	p.Journal = nil
	p.MeasureBlank(false)
	p.Finish.forgetLooks()
}

// tenths rounds metres to the tenth of a millimetre.
func tenths(v float64) unit.Length { return unit.Length(math.Round(v*1e4) / 1e4) }

// own turns a place in the mold's axes into the finished piece's own, whose
// origin is its middle; theirs turns it back.
func (t *TrimPlan) own(p shape.Point) shape.Point {
	return shape.Ring{{X: p.X - t.Middle.X, Y: p.Y - t.Middle.Y}}.Turned(-t.Turn)[0]
}

func (t *TrimPlan) theirs(p shape.Point) shape.Point {
	q := shape.Ring{p}.Turned(t.Turn)[0]
	return shape.Point{X: q.X + t.Middle.X, Y: q.Y + t.Middle.Y}
}

// CentreMount puts a mount on the middle line of the finished piece: half way
// along its length, or half way across its width.
func (p *Project) CentreMount(f *FinishPlan, id string, along Along) {
	s := p.Mount(id)
	if s == nil || f == nil {
		return
	}
	at := f.Trim.own(shape.Point{X: float64(s.X), Y: float64(s.Y)})
	if along == AlongWidth {
		at.Y = 0
	} else {
		at.X = 0
	}
	at = f.Trim.theirs(at)
	s.X, s.Y, s.Looked = unit.Length(at.X), unit.Length(at.Y), false
}

// MirrorMount adds the mirror image of a mount on the other side of the middle
// of the finished piece, along its length or across its width, and gives its ID.
// It is a *Problem where the mount lies on the middle line itself, since its
// image would lie in the same place.
func (p *Project) MirrorMount(f *FinishPlan, id string, along Along) (string, error) {
	s := p.Mount(id)
	if s == nil || f == nil {
		return "", &Problem{"finish/mounts/" + id, "this mount is no longer there"}
	}
	at := f.Trim.own(shape.Point{X: float64(s.X), Y: float64(s.Y)})
	image := shape.Point{X: -at.X, Y: at.Y}
	if along == AlongWidth {
		image = shape.Point{X: at.X, Y: -at.Y}
	}
	const same = 1e-3
	if math.Hypot(image.X-at.X, image.Y-at.Y) < same {
		return "", &Problem{"finish/mounts/" + id, "it lies on the middle line, so its mirror image would lie in the same place"}
	}
	other := *s
	other.ID = p.NewID("m")
	other.Name = s.Name + ", mirrored"
	other.Looked = false
	q := f.Trim.theirs(image)
	other.X, other.Y = unit.Length(q.X), unit.Length(q.Y)
	// A direction at φ to the length comes to lie at -φ or at 180° - φ, which are
	// the same line.
	other.Turn = 2*f.Trim.Turn - s.Turn
	p.Finish.Mounts = append(p.Finish.Mounts, other)
	return other.ID, nil
}
