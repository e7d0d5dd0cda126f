package views

import (
	"math"
	"strconv"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
)

// heatScale is what the colours of the section stand for: they keep their
// meaning from the first hour to the last.
type heatScale struct {
	low, high float64 // in the style's degrees
	limit     float64 // of the chosen pour; 0 when it is not known
	limitText string
}

// scaleOf gives the scale of a snapshot's whole course, between round degrees.
func scaleOf(s *shotOf) heatScale {
	var h heatScale
	low, high, _ := s.Curing.Trace.Range()
	in := degrees(s.Project.Style)
	h.low, h.high = in(low), in(high)
	const step, least = 5.0, 10.0
	h.low, h.high = math.Floor(h.low/step)*step, math.Ceil(h.high/step)*step
	if h.high-h.low < least {
		h.high = h.low + least
	}
	if l, ok := s.curing(); ok && !l.PeakLimit.Absent {
		h.limit = in(l.PeakLimit.Value)
		const near = 0.6 // of the range, that a limit may lie above it and still be on the scale
		if h.limit > h.high && h.limit <= h.high+near*(h.high-h.low) {
			h.high = math.Ceil(h.limit/step) * step
		}
		h.limitText = "limit " + wholeDegrees(s.Project.Style, h.limit)
	}
	return h
}

// degrees gives how a temperature stands on an axis.
func degrees(s unit.Style) func(unit.Temperature) float64 {
	if s.TempUnit() == unit.InFahrenheit {
		return unit.Temperature.Fahrenheit
	}
	return unit.Temperature.Celsius
}

// wholeDegrees writes a figure of an axis of temperature.
func wholeDegrees(s unit.Style, v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64) + " °" + string(s.TempUnit())
}

// value gives what the section is coloured by, in the unit of the scale.
func (h *heatScale) value(s *shotOf, cured bool) func(*model.TraceCell) float64 {
	if cured {
		return func(c *model.TraceCell) float64 { return 100 * c.State.A }
	}
	in := degrees(s.Project.Style)
	return func(c *model.TraceCell) float64 { return in(c.State.T) }
}

// section colours the resin of a section as it is in a frame, or across the wood
// at its hottest.
func (h *heatScale) section(s *shotOf, f *model.TraceFrame, cured, across bool) *drawing.Heat {
	heat := &drawing.Heat{Ramp: drawing.Warmth, Min: h.low, Max: h.high, Limit: h.limit, Dry: "not poured yet"}
	heat.Format = func(v float64) string { return wholeDegrees(s.Project.Style, v) }
	if cured {
		heat.Ramp, heat.Min, heat.Max, heat.Limit = drawing.Cured, 0, 100, 0
		heat.Format = percents
	}
	value := h.value(s, cured)
	low, high := math.Inf(1), math.Inf(-1)
	heat.Slices = make([]drawing.HeatSlice, 0, len(f.Cells))
	for i := range f.Cells {
		c := &f.Cells[i]
		if c.Layer < 0 || c.Layer >= len(s.Curing.Layers) {
			continue
		}
		v := value(c)
		low, high = min(low, v), max(high, v)
		heat.Slices = append(heat.Slices, drawing.HeatSlice{Layer: s.Curing.Layers[c.Layer].ID, Bottom: float64(c.Bottom), Top: float64(c.Top), Value: v})
	}
	if across {
		heat.Field = h.field(s, cured)
		for i, v := range fieldValues(heat.Field) {
			if heat.Field.Resin[i] {
				low, high = min(low, v), max(high, v)
			}
		}
	}
	heat.Step = lineStep(heat.Max-heat.Min, high-low)
	return heat
}

// percents writes a figure of an axis of conversion.
func percents(v float64) string { return strconv.FormatFloat(v+0, 'f', -1, 64) + " %" }

// fieldValues are the values of a field, none where there is no field.
func fieldValues(f *drawing.HeatField) []float64 {
	if f == nil {
		return nil
	}
	return f.Value
}

// field gives the section across the wood of the chosen pour; nil when there is
// none.
func (h *heatScale) field(s *shotOf, cured bool) *drawing.HeatField {
	l, ok := s.curing()
	if !ok || l.Beside == nil || l.Beside.Field == nil {
		return nil
	}
	f := l.Beside.Field
	in := degrees(s.Project.Style)
	out := &drawing.HeatField{Layer: l.ID, Y: f.Y, Z: f.Z, Resin: f.Resin, Value: make([]float64, len(f.T))}
	for i := range f.T {
		if out.Value[i] = in(unit.Temperature(f.T[i])); cured {
			out.Value[i] = 100 * f.A[i]
		}
	}
	return out
}

// lineStep gives a round distance of lines of equal value: about eight over the
// whole scale, closer where all that is shown lies close together, but no finer
// than can be believed.
func lineStep(whole, here float64) float64 {
	steps := []float64{1, 2, 5, 10, 20, 50, 100}
	want := math.Min(whole/8, here/3)
	for _, s := range steps {
		if s >= want {
			return s
		}
	}
	return steps[len(steps)-1]
}

// key is the scale of the colours, with what lies between them in a frame.
func (h *heatScale) key(s *shotOf, f *model.TraceFrame, cured bool) drawing.HeatKey {
	k := drawing.HeatKey{Ramp: drawing.Warmth, Min: h.low, Max: h.high, Limit: h.limit, LimitText: h.limitText, Low: math.NaN(), High: math.NaN()}
	k.Format = func(v float64) string { return wholeDegrees(s.Project.Style, v) }
	if cured {
		k.Ramp, k.Min, k.Max, k.Limit, k.Format = drawing.Cured, 0, 100, 0, percents
	}
	k.Step = lineStep(2*(k.Max-k.Min), math.Inf(1))
	value := h.value(s, cured)
	for i := range f.Cells {
		v := value(&f.Cells[i])
		if i == 0 {
			k.Low, k.High = v, v
		}
		k.Low, k.High = min(k.Low, v), max(k.High, v)
	}
	return k
}
