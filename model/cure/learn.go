package cure

import (
	"context"
	"fmt"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Learned is what a lot's own runs have shown: how it differs from its sheet.
// The zero Learned is nothing.
type Learned struct {
	Scale float64 // rate of the lot over the sheet's; 0 counts as 1
	Heat  float64 // heat of the lot over the sheet's; 0 counts as 1
	Runs  int     // that told something
	Words string  // the same for reading; empty when nothing was learned
}

// scale and heat give the factors.
func (l Learned) scale() float64 { return orOne(l.Scale) }
func (l Learned) heat() float64  { return orOne(l.Heat) }

func orOne(v float64) float64 {
	if v == 0 {
		return 1
	}
	return v
}

// Cautious gives what heat checks go by: the limit of a sheet is tightened by a
// lot that is hotter or faster, and never loosened by one that is not. The doubt
// about the lot stays what it is before any run.
func (l Learned) Cautious() Learned {
	l.Scale, l.Heat, l.Runs = max(l.scale(), 1), max(l.heat(), 1), 0
	return l
}

// Patient gives what waiting goes by, for demolding and sanding: a slower lot
// makes it longer, and a faster one never shorter than the sheet.
func (l Learned) Patient() Learned {
	l.Scale, l.Heat = min(l.scale(), 1), min(l.heat(), 1)
	return l
}

// LotSpread is how far the rate of a lot may lie from its sheet's, before any
// run of it has been logged; common practice, no source.
const LotSpread = 0.10

// lot gives the band of the lot's rate over the sheet's. It narrows as the
// square root of the doubt that is left, 2/(runs+2).
func (l Learned) lot() Band {
	return about(l.scale(), LotSpread*math.Sqrt(doubt/(float64(max(l.Runs, 0))+doubt)))
}

// After gives what is known of a lot once its runs have added to those that told
// of it earlier: both are drawn towards the sheet together, as if they were one
// list of runs.
func (l Learned) After(earlier Learned) Learned {
	if earlier.Runs == 0 {
		return l
	}
	n, m := float64(l.Runs), float64(earlier.Runs)
	both := func(a, b float64) float64 {
		return math.Exp((math.Log(a)*(n+doubt) + math.Log(b)*(m+doubt)) / (n + m + doubt))
	}
	return Learned{Scale: both(l.scale(), earlier.scale()), Heat: both(l.heat(), earlier.heat()), Runs: l.Runs + earlier.Runs}.Said()
}

// Said writes what was learned in words.
func (l Learned) Said() Learned {
	l.Words = l.words()
	return l
}

func (l Learned) check() error {
	for _, v := range []float64{l.scale(), l.heat()} {
		if !(v > 0.1 && v < 10) {
			return unusable("a lot that is %g times its sheet", v)
		}
	}
	return nil
}

// Touch is what a gloved finger found.
type Touch int

// The touches.
const (
	Strings Touch = iota // it strings: it has not come to take the next pour
	Tape                 // sticky like tape, nothing on the glove: the window is open
	Hard                 // a fingernail leaves no mark: the window has closed
	Bends                // out of the mold it would bend
	Firm                 // it keeps its shape out of the mold
)

// Felt is a touch at a time since the pour.
type Felt struct {
	Touch Touch
	At    unit.Span
	Part  Room // the temperature of the surface since the pour, logged or simulated
}

// Timed is a moment that was seen, and when the simulation had put it.
type Timed struct{ Seen, Said unit.Span }

// Probed is the hottest that a probe showed.
type Probed struct {
	Seen  unit.Temperature
	Start unit.Temperature // of the resin
	// Peak simulates the pour with so many times the sheet's heat.
	Peak func(heat float64) unit.Temperature
}

// Logged is what was noted of one run.
type Logged struct {
	Felt   []Felt
	Timed  []Timed
	Probed []Probed
}

const (
	// doubt is how many runs the sheet's word counts for: one run moves a lot a
	// third of the way, five move it 5/7.
	doubt = 2
	// strays is the standard deviation of the logarithm of a lot's rate by which
	// a touch that only gives a bound is read; common practice, no source.
	strays = 0.35
	// probeErr is how well a probe in a scrap corner tells the peak, in kelvin.
	probeErr = 3.0
)

// freak is the logarithm of the farthest that one run can say a lot lies from
// its sheet: half as fast again.
var freak = math.Log(1.5)

// Learn tells what logged runs say of a lot. The product is that of the sheet,
// calibrated with nothing learned. Each run gives one estimate of the lot's rate
// and one of its heat, never farther than half as much again, so that a freak
// run moves little; together they move the lot from its sheet by the part
// n/(n+2). A run that tells little counts as less than one.
func Learn(ctx context.Context, sheet Calibrated, runs []Logged) (Learned, error) {
	var rate, heat shrunk
	told := 0
	for i := range runs {
		r, h := rate.weight, heat.weight
		v, w, err := runs[i].rate(ctx, &sheet)
		if err != nil {
			return Learned{}, err
		}
		rate.add(v, w)
		for _, x := range runs[i].Probed {
			v, w := x.heat()
			heat.add(v, w/float64(len(runs[i].Probed)))
		}
		if rate.weight > r+0.05 || heat.weight > h+0.05 {
			told++
		}
	}
	return Learned{Scale: math.Exp(rate.value()), Heat: math.Exp(heat.value()), Runs: told}.Said(), nil
}

// shrunk is an estimate that starts at 0 with the weight of the doubt.
type shrunk struct{ sum, weight float64 }

func (s *shrunk) add(v, weight float64) {
	if !math.IsNaN(v) && weight > 0 {
		s.sum, s.weight = s.sum+v*weight, s.weight+weight
	}
}

func (s *shrunk) value() float64 { return s.sum / (s.weight + doubt) }

// rate gives the run's estimate of the logarithm of the lot's rate over the
// sheet's, and how much it tells, 0 to 1.
func (r *Logged) rate(ctx context.Context, sheet *Calibrated) (ln, weight float64, err error) {
	low, high := -freak, freak
	for i := range r.Felt {
		a, b, err := r.Felt[i].bounds(ctx, sheet)
		if err != nil {
			return 0, 0, err
		}
		low, high = max(low, a), min(high, b)
	}
	if low > high { // the touches contradict each other
		low, high = high, low
	}
	ln, weight = cutOff(low, high)
	points := 0.0
	sum := 0.0
	for _, x := range r.Timed {
		if p := math.Log(x.Said.Per(x.Seen)); x.Seen > 0 && x.Said > 0 {
			sum, points = sum+min(max(p, low), high), points+1
		}
	}
	if points > 0 {
		return sum / points, 1, nil
	}
	return ln, weight, nil
}

// cutOff gives the mean of a normal distribution about 0 that is cut off at two
// bounds, and by which part of its variance between the widest bounds they
// narrow it.
func cutOff(low, high float64) (mean, told float64) {
	moments := func(low, high float64) (mean, variance float64) {
		density := func(x float64) float64 { return math.Exp(-x * x / (2 * strays * strays)) }
		whole := gauss(density, low, high)
		if !(whole > 0) || high-low < 1e-9 {
			return (low + high) / 2, 0
		}
		mean = gauss(func(x float64) float64 { return x * density(x) }, low, high) / whole
		return mean, gauss(func(x float64) float64 { return (x - mean) * (x - mean) * density(x) }, low, high) / whole
	}
	mean, variance := moments(low, high)
	_, all := moments(-freak, freak)
	return mean, max(1-variance/all, 0)
}

// bounds gives the logarithms of the least and the greatest rate, over the
// sheet's, with which the touch is what was felt.
func (f *Felt) bounds(ctx context.Context, sheet *Calibrated) (low, high float64, err error) {
	if !(f.At > 0) || f.At > longest {
		return 0, 0, unusable("a touch %g s after the pour", float64(f.At))
	}
	part := f.Part.At(f.At)
	from, to, least, most := sheet.From, sheet.RecoatTo(part), 0.0, 2.0
	switch f.Touch {
	case Strings:
		most = from
	case Tape:
		least, most = from, to
	case Hard:
		least = to
	case Bends:
		most = sheet.Demold(part)
	case Firm:
		least = sheet.Demold(part)
	default:
		return 0, 0, unusable("a touch of the kind %d", int(f.Touch))
	}
	rate := func(a float64) float64 {
		ln, ok := shape.Root(func(ln float64) float64 {
			k := sheet.Kinetics.Scaled(math.Exp(ln))
			list, e := k.Along(ctx, f.Part, 0, []unit.Span{f.At})
			if e != nil {
				err = e
				return 0
			}
			return list[0] - a
		}, -freak, freak, 1e-4)
		if !ok {
			return math.Copysign(freak, ln)
		}
		return ln
	}
	low, high = -freak, freak
	if least > 0 {
		low = rate(min(least, 1))
	}
	if most < 1 {
		high = rate(most)
	}
	return low, high, err
}

// heat gives the probe's estimate of the logarithm of the lot's heat over the
// sheet's, and how much it tells, 0 to 1: little where there was little rise.
func (p *Probed) heat() (ln, weight float64) {
	if p.Peak == nil {
		return 0, 0
	}
	rise := float64(p.Peak(1) - p.Start)
	if !(rise > 0) || !(p.Seen > 0) {
		return 0, 0
	}
	ln, _ = shape.Root(func(ln float64) float64 { return float64(p.Peak(math.Exp(ln)) - p.Seen) }, -freak, freak, 1e-3)
	return ln, 1 / (1 + probeErr*probeErr/(rise*rise))
}

// words tells what was learned in the trade's words.
func (l Learned) words() string {
	if l.Runs == 0 {
		return ""
	}
	runs := "1 run of this lot says"
	if l.Runs > 1 {
		runs = fmt.Sprintf("%d runs of this lot say", l.Runs)
	}
	differs := func(v float64, more, less, same string) string {
		switch p := math.Round(100 * (v - 1)); {
		case p > 0:
			return fmt.Sprintf("%.0f %% %s", p, more)
		case p < 0:
			return fmt.Sprintf("%.0f %% %s", -p, less)
		}
		return same
	}
	text := fmt.Sprintf("%s: it cures %s and sets free %s.", runs,
		differs(l.Scale, "faster than the sheet", "slower than the sheet", "as fast as the sheet"),
		differs(l.Heat, "more heat", "less heat", "as much heat"))
	if l.Scale < 1 || l.Heat < 1 {
		text += " Heat limits keep to the sheet where the lot is slower or cooler."
	}
	return text
}
