package views

import (
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

func TestHeatWhatIfMovesWithTheFinger(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	w := p.panel.strip
	if w.delay != nil || !w.back.Disabled() {
		t.Error("after the last pour the next one is asked about, or there is something to go back from")
	}
	w.room.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageUp})
	if w.words.Text() != "It was asked. " || w.back.Disabled() || w.asked().Room != 5 {
		t.Errorf("asked %+v it says %q", w.asked(), w.words.Text())
	}
	if got := w.room.Text(); !strings.Contains(got, "(+5 °C)") {
		t.Errorf("the room is %q", got)
	}
	for s, want := range map[*touch.Slider]string{w.depth: "6 mm (-10 mm)", w.ratio: "10 % too little"} {
		s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
		if got := s.Text(); got != want {
			t.Errorf("%s is %q, want %q", s.Name(), got, want)
		}
	}
	p.panel.ask = func(_ string, _ model.WhatIf, done func(model.WhatIfAnswer, error)) {
		done(model.WhatIfAnswer{}, &model.Problem{Message: "that is no depth to pour"})
	}
	heatShot(b, p, nil) // it is asked of the new plan as well
	if w.words.Text() != "That is no depth to pour." {
		t.Errorf("it says %q", w.words.Text())
	}
	w.back.Tapped(&fyne.PointEvent{})
	if w.asked() != (model.WhatIf{}) || w.words.Text() != "" || !w.back.Disabled() {
		t.Errorf("back at the plan it asks %+v and says %q", w.asked(), w.words.Text())
	}
	p.choose("l3")
	w = p.panel.strip
	if w.delay == nil {
		t.Fatal("below another pour the next one is not asked about")
	}
	w.delay.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if w.asked().Delay != 6*unit.Hour || w.delay.Text() != "6 h later" {
		t.Errorf("it asks %+v, %q", w.asked(), w.delay.Text())
	}
}

// sheet records what is written and the ends of the lines drawn on it.
type sheet struct {
	words []string
	lines map[string][]drawing.Pt
}

func (s *sheet) Bounds() drawing.Box { return drawing.Box{Max: drawing.Pt{X: 400, Y: 170}} }
func (s *sheet) Stroke(p drawing.Pen, paths ...drawing.Path) {
	s.lines[p.Name] = append(s.lines[p.Name], paths[0].Points[0])
}
func (s *sheet) Fill(string, color.NRGBA, ...[]drawing.Pt) {}
func (s *sheet) Text(_ drawing.Pt, text string, _ drawing.Lettering) {
	s.words = append(s.words, text)
}
func (s *sheet) Measure(text string, l drawing.Lettering) float64 {
	return float64(len(text)) * l.Size / 2
}

// TestHeatGaugesKeepTheirLimits: whatever is asked, limits and plan stay where
// they are, and only the answer moves.
func TestHeatGaugesKeepTheirLimits(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	for _, layer := range []string{"l3", "l4"} {
		p.choose(layer)
		s := p.panel.strip.shot
		l, _ := s.curing()
		draw := func(a *model.WhatIfAnswer) *sheet {
			to := &sheet{lines: map[string][]drawing.Pt{}}
			gauges{s: s, l: l, a: a, palette: p.desk.palette(), last: layer == "l4"}.paint(to)
			return to
		}
		rest := draw(nil)
		hot := &model.WhatIfAnswer{Depth: 30 * unit.Millimetre, Peak: unit.Celsius(58), TooHot: true, NextPour: unit.Hour, RecoatFrom: l.RecoatFrom, RecoatTo: l.RecoatTo, Demold: model.Known[unit.Span]{Value: 20 * unit.Hour}}
		asked := draw(hot)
		if !slices.Equal(rest.lines["limit"], asked.lines["limit"]) || !slices.Equal(rest.lines["planned"], asked.lines["planned"]) {
			t.Errorf("%s: limits %v and %v, plan %v and %v", layer, rest.lines["limit"], asked.lines["limit"], rest.lines["planned"], asked.lines["planned"])
		}
		if slices.Equal(rest.lines["value"], asked.lines["value"]) {
			t.Errorf("%s: the answer does not move: %v", layer, rest.lines["value"])
		}
		hot.TooHot = false
		if cool := draw(hot); slices.Contains(cool.words, "58 °C, too hot") {
			t.Errorf("%s: the page judges by itself: %q", layer, cool.words)
		}
		want := []string{"58 °C, too hot", "30 mm, too deep", "after 20 h"}
		if layer == "l3" {
			want[2] = "too early: from 7 h"
		}
		for _, w := range want {
			if !slices.Contains(asked.words, w) {
				t.Errorf("%s: it does not say %q: %q", layer, w, asked.words)
			}
		}
		away := draw(&model.WhatIfAnswer{RunsAway: true, RunsAfter: 2 * unit.Hour, RecoatFrom: model.Known[unit.Span]{Absent: true}, Demold: model.Known[unit.Span]{Absent: true}})
		if !slices.Contains(away.words, "runs away after 2 h") || !slices.Contains(away.words, "not known") {
			t.Errorf("%s: of a runaway it says %q", layer, away.words)
		}
	}
}

func TestHeatProposalIsTakenAndPutBackWithOneTouch(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	asked := 0
	p.panel.propose = func(done func(model.StageProposal, error)) {
		asked++
		shot := b.Snapshot()
		l := shot.Plan.Layers
		var s model.StageProposal
		s.Possible, s.Pours, s.Binds, s.Why = true, 2, "the data sheet's deepest layer", []string{"cover over the inserts"}
		for i, to := range []unit.Length{14 * unit.Millimetre, l[1].Top} {
			bottom := unit.Length(0)
			if i > 0 {
				bottom = 14 * unit.Millimetre
			}
			s.Layers = append(s.Layers, model.StageLayer{ID: l[i].ID, From: l[i].ID, Bottom: bottom, Top: to, Sheet: l[i].Sheet, Tint: shot.Project.Layers[i].Tint, Why: "within the sheet"})
		}
		done(s, nil)
	}
	p.panel.proposal.asked = 0
	heatShot(b, p, nil)
	if asked != 1 || !shows(p.body.root, "What binds: the data sheet's deepest layer.") || !shows(p.body.root, "14 mm, up to 14 mm") {
		t.Fatalf("asked %d times, the card says %q", asked, texts(p.panel.proposal.root))
	}
	tapOn(t, p.body.root, "Take these levels")
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Depth.Millimetres(); math.Abs(got-14) > 0.01 {
		t.Fatalf("taken, the first pour is %g mm", got)
	}
	heatShot(b, p, nil)
	tapOn(t, p.body.root, "Put the levels back")
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Depth.Millimetres(); math.Abs(got-12) > 0.01 {
		t.Errorf("put back, the first pour is %g mm", got)
	}
}

// TestHeatProposalIsOfTheOpenPiece: layers of two pieces are called alike, so
// that the levels of one could be put into the other.
func TestHeatProposalIsOfTheOpenPiece(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	answers := true
	p.panel.propose = func(done func(model.StageProposal, error)) {
		if answers {
			l := b.Snapshot().Plan.Layers[0]
			done(model.StageProposal{Possible: true, Pours: 1, Layers: []model.StageLayer{{ID: l.ID, From: l.ID, Top: 14 * unit.Millimetre, Sheet: l.Sheet}}}, nil)
		}
	}
	card := p.panel.proposal
	card.asked = 0
	heatShot(b, p, nil)
	if !shows(card.root, "Take these levels") {
		t.Fatalf("%q", texts(card.root))
	}
	answers = false
	b.Enter("shop/room", "16 °C")
	b.settle()
	if shows(card.root, "Take these levels") || !shows(card.root, "Looking whether they are still the best") {
		t.Errorf("the levels of another room can be taken: %q", texts(card.root))
	}
	found, of := card.found, card.of
	b.demo("hall-shelf")
	heatShot(b, p, nil)
	if shows(card.root, "up to 14 mm") || shows(card.root, "Take these levels") {
		t.Errorf("the levels of another piece are on show: %q", texts(card.root))
	}
	card.found, card.of = found, of
	was := b.Snapshot().Project
	card.take()
	b.settle()
	if now := b.Snapshot().Project; len(now.Layers) != len(was.Layers) || now.Layers[0].To != was.Layers[0].To || !shows(card.root, "Another piece is open now") {
		t.Errorf("the levels of another piece are taken: %q", texts(card.root))
	}
}

func TestHeatProposalThatCannotBe(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	for want, c := range map[string]struct {
		s   model.StageProposal
		err error
	}{
		"As it is planned it is best":    {model.StageProposal{Possible: true, Same: true}, nil},
		"Raise the fill line by 2 mm.":   {model.StageProposal{Binds: "cover over the washers", Change: "raise the fill line by 2 mm"}, nil},
		"The layers have changed since.": {model.StageProposal{}, &model.Problem{Message: "the layers have changed since"}},
	} {
		p.panel.propose = func(done func(model.StageProposal, error)) { done(c.s, c.err) }
		p.panel.proposal.asked = 0
		heatShot(b, p, nil)
		if !shows(p.body.root, want) {
			t.Errorf("it does not say %q: %q", want, texts(p.panel.proposal.root))
		}
	}
}
