package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// LevelPlan is how a mold stands by four depths, from a level line or a
// surface of water down to its floor at the corners.
type LevelPlan struct {
	Corners [4]CornerPlan `json:"corners"` // near left, near right, far right, far left
	Along   float64       `json:"along"`   // fall of the floor along the mold, to the right above 0
	Across  float64       `json:"across"`  // and across it, to the far side above 0
	Twist   unit.Length   `json:"twist"`   // how far one corner lies off the plane of the other three; shims cannot mend it
}

// CornerPlan is one corner of a mold.
type CornerPlan struct {
	Name  string      `json:"name"`  // A to D
	Where string      `json:"where"` // in words
	Depth unit.Length `json:"depth"` // from the level line to the floor
	Shim  unit.Length `json:"shim"`  // to put below it; the highest corner has none
}

// moldCorners are the corners of a mold in turn, and in which direction each lies
// from the middle.
var moldCorners = [4]struct {
	name, where string
	x, y        float64
}{{"A", "near left", -1, -1}, {"B", "near right", 1, -1}, {"C", "far right", 1, 1}, {"D", "far left", -1, 1}}

// CornerName names the corner that a depth of Holding.Depths is of: its letter
// and where it lies.
func CornerName(i int) (name, where string) {
	if i < 0 || i >= len(moldCorners) {
		return "", ""
	}
	return moldCorners[i].name, moldCorners[i].where
}

// spiritLevel is what a usual spirit level reads to, and phoneLevel a phone,
// which is ±0.2°; as slopes. Common practice, no source.
const (
	spiritLevel = 0.5e-3
	phoneLevel  = 3.5e-3
)

// LevelPlane lays the plane that fits four depths best, by least squares, over
// the corners of a rectangle of a length and a width. It gives the fall along
// and across as slopes, the depth of the plane at each corner, and the twist:
// how far one corner lies off the plane of the other three. The four misses of
// the plane are a quarter of the twist each, in turn above and below.
func LevelPlane(depth [4]unit.Length, long, wide unit.Length) (along, across float64, plane [4]unit.Length, twist unit.Length) {
	a, b, c, d := depth[0], depth[1], depth[2], depth[3]
	mean := (a + b + c + d) / 4
	x, y := (b+c-a-d)/4, (c+d-a-b)/4 // from the middle to an edge
	for i, at := range moldCorners {
		plane[i] = mean + x.Times(at.x) + y.Times(at.y)
	}
	if long > 0 {
		along = 2 * x.Per(long)
	}
	if wide > 0 {
		across = 2 * y.Per(wide)
	}
	return along, across, plane, a - b + c - d
}

// Shims lists the corners to put something below.
func (l *LevelPlan) Shims() []CornerPlan {
	var list []CornerPlan
	for _, c := range l.Corners {
		if c.Shim >= leastShim {
			list = append(list, c)
		}
	}
	return list
}

// shimWords says what to put below which corner; empty where nothing is needed.
func (l *LevelPlan) shimWords(s unit.Style) string {
	var list []string
	for _, c := range l.Shims() {
		list = append(list, c.Name+" ("+c.Where+") by "+s.Length(c.Shim))
	}
	if len(list) == 0 {
		return ""
	}
	return "shim corner " + listed(list)
}

// leastShim is the thinnest shim that is worth its while: a sheet of paper.
const leastShim = 0.1 * unit.Millimetre

// CornerPoints gives where the corners of a floor are: of one without corners,
// where its wall meets the lines from its middle to the corners of the box round
// it.
func CornerPoints(floor shape.Ring) [4]shape.Point {
	var points [4]shape.Point
	lo, hi := floor.Bounds()
	x, y := (hi.X-lo.X)/2, (hi.Y-lo.Y)/2
	for i, at := range moldCorners {
		reach := func(f float64) shape.Point {
			return shape.Point{X: (lo.X+hi.X)/2 + f*at.x*x, Y: (lo.Y+hi.Y)/2 + f*at.y*y}
		}
		in, out := 0.0, 1.0
		if floor.Contains(reach(0.999)) { // a corner to any rule
			in = 1
		}
		for range 12 {
			if half := (in + out) / 2; floor.Contains(reach(half)) {
				in = half
			} else {
				out = half
			}
		}
		points[i] = reach(in)
	}
	return points
}

// measuredOver gives how far apart the depths of a floor are taken, along and
// across: the mean of both pairs.
func (m *maker) measuredOver() (long, wide unit.Length) {
	c := CornerPoints(m.fillNow.cavity.Section(0).Ring())
	return unit.Length(c[1].X+c[2].X-c[0].X-c[3].X) / 2, unit.Length(c[2].Y+c[3].Y-c[0].Y-c[1].Y) / 2
}

// level works out how the mold stands; nil while a depth is missing.
func (m *maker) level() *LevelPlan {
	list := m.p.Mold.Hold.Depths
	if len(list) != len(moldCorners) {
		return nil
	}
	var depth [4]unit.Length
	for i := range list {
		if !list[i].Given() {
			return nil
		}
		depth[i] = list[i].Value
	}
	long, wide := m.measuredOver()
	l := &LevelPlan{}
	var plane [4]unit.Length
	l.Along, l.Across, plane, l.Twist = LevelPlane(depth, long, wide)
	l.Twist = max(l.Twist, -l.Twist)
	highest := min(plane[0], plane[1], plane[2], plane[3])
	for i, at := range moldCorners {
		l.Corners[i] = CornerPlan{at.name, at.where, depth[i], plane[i] - highest}
	}
	return l
}

// tilt works out what a mold out of level does: by four depths where they are
// given, since they tell both directions, else by what a level showed.
func (m *maker) tilt() *TiltPlan {
	t := &TiltPlan{}
	along, across := 0.0, 0.0
	s := &m.p.Shop
	switch l := m.plan.Mold.Level; {
	case l != nil:
		along, across = l.Along, l.Across
		t.Along, t.Across, t.Field = along, across, "mold/hold/depths/0"
	case !s.TiltRise.Given() || !s.TiltOver.Given() || s.TiltOver.Value <= 0 || s.TiltRise.Value == 0:
		return nil
	default:
		along = s.TiltRise.Value.Per(s.TiltOver.Value)
		if s.TiltAlong == AlongWidth {
			along, across = 0, along
		}
		t.Field = "shop/tiltRise"
	}
	t.Slope = math.Hypot(along, across)
	line := m.plan.Mold.FillLine
	low, high := falls(m.fillNow.cavity.Section(line).Ring(), along, across)
	t.Wedge = high - low
	t.Extra = t.Wedge / 2
	if t.Wedge <= 0 {
		return nil
	}
	// The surface stays flat while the mold tilts; about the middle the volume
	// does not change. What stands above the low rim runs over.
	if top := m.plan.Mold.Depth - t.Extra; line > top {
		t.Overflow = m.fillNow.Between(max(0, top), line)
	}
	return t
}

// falls gives how far the highest and the lowest point of an outline lie below
// its middle on a floor that falls so along and across.
func falls(r shape.Ring, along, across float64) (low, high unit.Length) {
	for i, p := range r {
		at := unit.Length(along*p.X + across*p.Y)
		if i == 0 {
			low, high = at, at
		}
		low, high = min(low, at), max(high, at)
	}
	return low, high
}

// contradicts tells by how much the slopes of a level and of the depths differ
// where both are given, and whether that is more than both can be off.
func (m *maker) contradicts() (level, depths float64, apart bool) {
	s, l := &m.p.Shop, m.plan.Mold.Level
	if l == nil || !s.TiltRise.Given() || !s.TiltOver.Given() || s.TiltOver.Value <= 0 {
		return 0, 0, false
	}
	level, depths = s.TiltRise.Value.Per(s.TiltOver.Value), math.Abs(l.Along)
	over, wide := m.measuredOver()
	if s.TiltAlong == AlongWidth {
		depths, over = math.Abs(l.Across), wide
	}
	if over <= 0 {
		return level, depths, false
	}
	reads := 2 * m.p.HalfWidth(m.p.Mold.Hold.Depths[0].By).Per(over)
	return level, depths, math.Abs(level-depths) > spiritLevel+reads+float64(m.p.HalfWidth(s.TiltRise.By))/float64(s.TiltOver.Value)
}

// Slope writes a slope in mm for each metre.
func Slope(s unit.Style, slope float64) string {
	return s.Number(unit.Number(math.Round(slope*1e4)/10)) + " mm/m"
}
