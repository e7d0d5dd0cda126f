package model

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// lossy is a tray that was poured once with so much left in its cup, in grams.
func lossy(t *testing.T, id string, stays float64) Project {
	p := tray(300, 200, 30, 10)
	p.ID = id
	s := &shift{t: t, p: &p, at: time.Date(2026, 3, 6, 18, 30, 0, 0, time.UTC)}
	pl := Make(p)
	s.cup(0, "l1", pl.Layers[0].Mix.A.Grams(), pl.Layers[0].Mix.B.Grams())
	s.log(5, Entry{Kind: EntryPourStarted, Layer: "l1"})
	s.log(9, Entry{Kind: EntryEmptied, Layer: "l1", Gross: given(unit.Mass(40+stays) * unit.Gram)})
	return p
}

// learn gathers the lessons of projects one after the other.
func learnFrom(list ...Project) Lessons {
	var g Learning
	for i := range list {
		pl := Make(list[i])
		g.Add(&list[i], &pl)
	}
	return g.Lessons(unit.Style{})
}

// The usual counts for two runs: one run moves the film a third of the way from
// it, five 5/7 (in logarithms), and one that says far more than any counts as
// twice the usual. The mix is 100 × 300 × 200 mm³ of 1.09 g/ml, about 700 g.
func TestLessonsAreDrawnTowardsTheUsual(t *testing.T) {
	one := lossy(t, "a", 30)
	mixed := one.Ran(ptr(Make(one)), nil, nil).Layers[0].Used().Grams()
	film := 30 / mixed
	want := func(n float64, over float64) float64 { return 0.03 * math.Exp(math.Log(over)*n/(n+2)) }
	l := learnFrom(one)
	if !close(float64(l.Film.Value), want(1, film/0.03), 1e-9) || l.Film.Runs != 1 {
		t.Errorf("one run of %.4f proposes %.5f", film, float64(l.Film.Value))
	}
	five := learnFrom(one, one, one, one, one)
	if !close(float64(five.Film.Value), want(5, film/0.03), 1e-9) || five.Film.Runs != 5 {
		t.Errorf("five runs of %.4f propose %.5f", film, float64(five.Film.Value))
	}
	if a, b := l.Film.High/l.Film.Low, five.Film.High/five.Film.Low; b >= a {
		t.Errorf("five runs that agree leave it as wide as one: %.3f and %.3f", float64(b), float64(a))
	}
	freak := learnFrom(lossy(t, "b", 300))
	if !close(float64(freak.Film.Value), want(1, 2), 1e-9) {
		t.Errorf("a freak run proposes %.5f", float64(freak.Film.Value))
	}
	if l.Least.Own() || l.Soak.Own() || l.Creep.Own() {
		t.Errorf("it learned of what no run told: %+v", l)
	}
	if l.Film.Words != "3.4 %, between 2.5 % and 4.7 %, by 1 run; 3 % is usual" {
		t.Errorf("it says %q", l.Film.Words)
	}
}

// Whatever runs are noted, a proposal lies between half and twice the usual, and
// between its own bounds.
func TestLessonsNeverSwing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var g gathered
		for range rapid.IntRange(0, 40).Draw(t, "runs") {
			g.add(rapid.Float64Range(-1, 1e6).Draw(t, "ratio"), rapid.Float64Range(0, 1).Draw(t, "tells"))
		}
		g.add(math.NaN(), 1)
		l := learnt(&g, "film", typicalCupFilm, func(unit.Share) string { return "" })
		if k := float64(l.Value / l.Usual); k < 0.5 || k > 2 || l.Low > l.Value || l.High < l.Value || math.IsNaN(k) {
			t.Fatalf("%+v", l)
		}
		if l.Runs == 0 && l.Value != l.Usual {
			t.Fatalf("without a run it proposes %v", l.Value)
		}
	})
}

// A small cup teaches the least that stays, not the share.
func TestSmallCupTeachesTheLeast(t *testing.T) {
	p := lossy(t, "a", 4)
	p.Mold.Length, p.Mold.Width = mm(80), mm(60)
	p.Journal[0].Gross, p.Journal[1].Gross = given(unit.Mass(90)*unit.Gram), given(unit.Mass(112)*unit.Gram)
	p.Journal[3].Gross = given(unit.Mass(44) * unit.Gram)
	l := learnFrom(p)
	// 4 g of the usual 8: half, of which a third in logarithms.
	if want := 8 * math.Exp(-math.Log(2)/3); !close(l.Least.Value.Grams(), want, 1e-9) || l.Film.Own() {
		t.Errorf("%.4f g, want %.4f; film %+v", l.Least.Value.Grams(), want, l.Film)
	}
}

// What went in beyond the geometry teaches soak and creep, little where the
// geometry itself is in doubt.
func TestSoakAndCreepAreLearned(t *testing.T) {
	make := func(trace unit.Share, more float64) Lessons {
		p := tray(300, 200, 30, 12)
		p.Mold.Length.By, p.Mold.Width.By, p.Layers[0].To.By = unit.Feeler, unit.Feeler, unit.Feeler
		p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceOutline, Thickness: mm(20)}}
		p.Pieces[0].Outline = demo(t, "breakfast-boards").Pieces[0].Outline
		p.Pieces[0].TraceErr = given(trace)
		p.Mixing.Creep = mm(1)
		pl := Make(p)
		l := pl.Layers[0]
		films := 0.0
		for _, a := range l.Allowances {
			if a.Kind == AllowSoak || a.Kind == AllowCreep {
				films += a.Mass.Grams()
			}
		}
		s := &shift{t: t, p: &p, at: time.Date(2026, 3, 6, 18, 30, 0, 0, time.UTC)}
		in := l.Mass.Value.Grams() + (more-1)*films
		s.cup(0, "l1", (in+10)/1.45, (in+10)*0.45/1.45)
		s.log(5, Entry{Kind: EntryPourStarted, Layer: "l1"})
		s.log(9, Entry{Kind: EntryEmptied, Layer: "l1", Gross: given(50 * unit.Gram)})
		return learnFrom(p)
	}
	sure, vague := make(0.0001, 1.3), make(0.4, 1.3)
	if !sure.Creep.Own() || sure.Creep.Value <= typicalCreep.value || sure.Creep.Weight < 0.5 {
		t.Errorf("a sure run taught %+v", sure.Creep)
	}
	if vague.Creep.Weight >= sure.Creep.Weight/2 {
		t.Errorf("a vague run tells %.3f, a sure one %.3f", vague.Creep.Weight, sure.Creep.Weight)
	}
}

// Lessons are points of a chart in time order, demos teach nothing, and nothing
// is taken by itself.
func TestLessonsAreOfferedOnly(t *testing.T) {
	a, b := lossy(t, "a", 30), lossy(t, "b", 20)
	for i := range b.Journal {
		b.Journal[i].At = b.Journal[i].At.Add(-24 * time.Hour)
	}
	made := b.Clone()
	made.Demo = true
	l := learnFrom(a, b, made, tray(300, 200, 30, 10))
	if len(l.Points) != 2 || l.Points[0].Project != "b" || !close(l.Points[0].Ratio, 1, 1e-9) || l.Used.Runs != 2 {
		t.Errorf("the points are %+v", l.Points)
	}
	p := tray(300, 200, 30, 10)
	p.Mixing.Soak = mm(0.2)
	if err := l.Apply(&p); err != nil {
		t.Fatal(err)
	}
	if p.Mixing.CupFilm.Value != l.Film.Value || p.Mixing.Soak != mm(0.2) || p.Mixing.CupLeast.Given() {
		t.Errorf("the mixing became %+v", p.Mixing)
	}
	if bad := p.Validate(); len(bad) > 0 {
		t.Errorf("it is not whole: %v", bad)
	}
	if got := p.LossBy("mixing/cupFilm"); got != "your own, by 2 runs" || p.LossBy("mixing/soak") != "" || p.LossBy("mixing/cupLeast") != "" {
		t.Errorf("the film is %q, the soak %q", got, p.LossBy("mixing/soak"))
	}
	if p.Mixing.CupFilm.Value *= 2; p.LossBy("mixing/cupFilm") != "" {
		t.Error("what was changed since is still called the maker's own")
	}
	none := learnFrom()
	if err := none.Apply(&p); err == nil {
		t.Error("nothing can be applied")
	}
}
