package cure

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

// Reading is a temperature at a time since the start of a run.
type Reading struct {
	At unit.Span
	T  unit.Temperature
}

// Room is the temperature of the air round a mold as a function of the time
// since the start of a run: as it was logged, and beyond the log steady or
// swinging through day and night. The zero Swing is a steady room.
type Room struct {
	Mean    unit.Temperature
	Swing   unit.TempRise // half the difference between afternoon and night
	Warmest unit.Span     // a time at which it is warmest
	Log     []Reading     // in order of time; between two it runs straight, see Logged
}

// Steady is a room that keeps its temperature.
func Steady(t unit.Temperature) Room { return Room{Mean: t} }

// settles is how long after the last reading a room has gone back to its own
// ways: long enough that one reading counts through a night.
const settles = 6 * unit.Hour

// Logged gives the room with readings in it, in order and without two at one
// instant: of such the later in the list counts. A reading that is no
// temperature is left out.
func (r Room) Logged(log []Reading) Room {
	r.Log = nil
	sorted := slices.DeleteFunc(slices.Clone(log), func(x Reading) bool {
		return !(x.T > 0) || math.IsInf(float64(x.T), 0) || math.IsNaN(float64(x.At)) || math.IsInf(float64(x.At), 0)
	})
	slices.SortStableFunc(sorted, func(a, b Reading) int { return compare(a.At, b.At) })
	for _, x := range sorted {
		switch n := len(r.Log); {
		case n > 0 && r.Log[n-1].At == x.At:
			r.Log[n-1] = x
		default:
			r.Log = append(r.Log, x)
		}
	}
	return r
}

func compare(a, b unit.Span) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// own is the room's temperature by itself, without the log, and its slope in
// kelvin per second.
func (r *Room) own(t float64) (temp, slope float64) {
	if r.Swing == 0 {
		return float64(r.Mean), 0
	}
	const turn = 2 * math.Pi / float64(unit.Day)
	sin, cos := math.Sincos(turn * (t - float64(r.Warmest)))
	return float64(r.Mean) + float64(r.Swing)*cos, -float64(r.Swing) * turn * sin
}

// at gives the temperature and its slope in kelvin per second at a time.
func (r *Room) at(t float64) (temp, slope float64) {
	n := len(r.Log)
	if n == 0 {
		return r.own(t)
	}
	if first := r.Log[0]; t < float64(first.At) {
		own, slope := r.own(t)
		then, _ := r.own(float64(first.At))
		return own + float64(first.T) - then, slope
	}
	if last := r.Log[n-1]; t >= float64(last.At) {
		own, slope := r.own(t)
		then, _ := r.own(float64(last.At))
		off, u := float64(last.T)-then, (t-float64(last.At))/float64(settles)
		if u >= 1 {
			return own, slope
		}
		return own + off*(1-u), slope - off/float64(settles)
	}
	i, _ := slices.BinarySearchFunc(r.Log, unit.Span(t), func(x Reading, t unit.Span) int {
		if x.At <= t {
			return -1
		}
		return 1
	})
	a, b := r.Log[i-1], r.Log[i]
	slope = float64(b.T-a.T) / float64(b.At-a.At)
	return float64(a.T) + slope*(t-float64(a.At)), slope
}

// At gives the temperature at a time since the start.
func (r *Room) At(t unit.Span) unit.Temperature {
	temp, _ := r.at(float64(t))
	return unit.Temperature(temp)
}

// Shifted gives the room as seen from a start that lies so much later.
func (r Room) Shifted(by unit.Span) Room {
	r.Warmest -= by
	log := slices.Clone(r.Log)
	for i := range log {
		log[i].At -= by
	}
	r.Log = log
	return r
}

// Warmer gives the room warmer by so much at all times.
func (r Room) Warmer(by unit.TempRise) Room {
	r.Mean += unit.Temperature(by)
	log := slices.Clone(r.Log)
	for i := range log {
		log[i].T += unit.Temperature(by)
	}
	r.Log = log
	return r
}

// knots lists the times in (0, until) at which the temperature turns a corner.
func (r *Room) knots(until float64) []float64 {
	var list []float64
	add := func(t float64) {
		if t > 0 && t < until {
			list = append(list, t)
		}
	}
	for _, x := range r.Log {
		add(float64(x.At))
	}
	if n := len(r.Log); n > 0 {
		add(float64(r.Log[n-1].At + settles))
	}
	return list
}

// usable tells whether the room has a temperature that can be reckoned with.
func (r *Room) usable() bool {
	return r.Mean > 0 && !math.IsInf(float64(r.Mean), 0) && math.Abs(float64(r.Swing)) < 0.9*float64(r.Mean) && !math.IsNaN(float64(r.Warmest)) && !math.IsInf(float64(r.Warmest), 0)
}
