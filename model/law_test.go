package model

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// The laws that any geometry must keep, whatever its source: what is poured in
// parts is poured in whole, more fill is more resin, level and volume are each
// other's inverse, and neither turning nor order matters.

func fillOf(t *rapid.T, p Project) (*stack, *Fill) {
	s := compile(&p)
	var f Fill
	if err := s.fill(s.in.values(), &f); err != nil {
		t.Skip("this mold cannot be: ", err)
	}
	return s, &f
}

func TestVolumeAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, f := fillOf(t, randomProject(t))
		depth := float64(f.Depth())
		whole := f.Below(f.Depth())
		sum, last := unit.Volume(0), 0.0
		cuts := append(rapid.SliceOfN(rapid.Float64Range(0, depth), 0, 8).Draw(t, "cuts"), depth)
		slices.Sort(cuts)
		for _, z := range cuts {
			sum += f.Between(unit.Length(last), unit.Length(z))
			last = z
		}
		if !close(float64(sum), float64(whole), 1e-9) {
			t.Fatalf("parts %v, whole %v", sum, whole)
		}
		each := unit.Volume(0)
		for c := range f.count {
			each += f.in(c, f.Depth())
		}
		if !close(float64(each), float64(whole), 1e-9) {
			t.Fatalf("cavities %v, whole %v", each, whole)
		}
	})
}

func TestFillIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Inserts = nil // inserts are not kept from lying in the wood here
		p.Pieces = p.Pieces[:min(1, len(p.Pieces))]
		_, f := fillOf(t, p)
		a := rapid.Float64Range(0, float64(f.Depth())).Draw(t, "a")
		b := rapid.Float64Range(a, float64(f.Depth())).Draw(t, "b")
		if lo, hi := f.Below(unit.Length(a)), f.Below(unit.Length(b)); lo > hi+1e-15 {
			t.Fatalf("%v at %v, %v at %v", lo, a, hi, b)
		}
	})
}

// TestLevelInvertsVolume takes 200 random stacks, to 0.1 % as the plan promises.
func TestLevelInvertsVolume(t *testing.T) {
	count := 0
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Inserts = nil
		p.Pieces = p.Pieces[:min(1, len(p.Pieces))]
		_, f := fillOf(t, p)
		count++
		z := unit.Length(rapid.Float64Range(0.02, 1).Draw(t, "z")) * f.Depth()
		if got := f.Level(f.Below(z)); math.Abs(float64(got-z)) > 1e-3*float64(z) {
			t.Fatalf("level %v, want %v", got, z)
		}
	})
	for count < 200 {
		rapid.Check(t, func(t *rapid.T) {
			p := randomProject(t)
			p.Inserts, p.Pieces = nil, nil
			_, f := fillOf(t, p)
			count++
			v := f.Below(f.Depth()).Times(rapid.Float64Range(0.01, 0.99).Draw(t, "part"))
			if got := f.Below(f.Level(v)); !close(float64(got), float64(v), 1e-3) {
				t.Fatalf("volume %v, want %v", got, v)
			}
		})
	}
}

func TestInsertsAreSplitExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		pl := Make(p)
		for _, s := range pl.Inserts {
			if s.Top > pl.Mold.FillLine || s.Each == 0 {
				continue
			}
			sum := unit.Volume(0)
			for _, v := range s.Layers {
				sum += v
			}
			// needs: displaced volume by layer sums to the total within 0.1 cm³.
			if math.Abs(float64(sum-s.Total)) > 1e-9*float64(s.Total)+1e-18 {
				t.Fatalf("%s: layers take %v of %v", s.Name, sum, s.Total)
			}
		}
	})
}

func TestTurningAndOrderChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		before := Make(p)
		q := p.Clone()
		for i := range q.Pieces {
			q.Pieces[i].Turn += unit.Angle(rapid.Float64Range(0, 6).Draw(t, "by"))
			q.Pieces[i].X += 0.01
		}
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		r.Shuffle(len(q.Pieces), func(i, j int) { q.Pieces[i], q.Pieces[j] = q.Pieces[j], q.Pieces[i] })
		r.Shuffle(len(q.Inserts), func(i, j int) { q.Inserts[i], q.Inserts[j] = q.Inserts[j], q.Inserts[i] })
		after := Make(q)
		for i := range before.Layers {
			a, b := before.Layers[i], after.Layers[i]
			if !close(float64(a.Mass.Value), float64(b.Mass.Value), 1e-9) || !close(float64(a.Mass.Sigma), float64(b.Mass.Sigma), 1e-6) {
				t.Fatalf("layer %d: %v then %v", i, a.Mass, b.Mass)
			}
		}
	})
}

func TestPlanIsPure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		was, _ := json.Marshal(p)
		a, _ := json.Marshal(Make(p))
		b, _ := json.Marshal(Make(p))
		if string(a) != string(b) {
			t.Fatal("the same project gave two plans")
		}
		if now, _ := json.Marshal(p); string(now) != string(was) {
			t.Fatal("planning changed the project")
		}
	})
}

func TestPartsAddUpToTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Mixing.ScaleStep = given(unit.Mass(rapid.SampledFrom([]float64{0.01, 0.1, 0.5, 1, 2, 5, 28.349523125}).Draw(t, "step")) * unit.Gram)
		p.Mixing.Confidence = given(unit.Share(rapid.SampledFrom([]float64{0.5, 0.8, 0.9, 0.95}).Draw(t, "confidence")))
		for _, l := range Make(p).Layers {
			m := l.Mix
			if !m.Ready {
				continue
			}
			steps := func(v unit.Mass) int64 { return int64(math.Round(float64(v) / float64(m.Step))) }
			if steps(m.A)+steps(m.B) != steps(m.Total) || math.Abs(float64(m.A+m.B-m.Total)) > 1e-12 {
				t.Fatalf("A %v + B %v is not %v", m.A, m.B, m.Total)
			}
			if got := 100 * float64(m.B) / float64(m.A); math.Abs(got-m.Parts) > 100*2*float64(m.Step)/float64(m.A)*2 {
				t.Fatalf("100:%v, want 100:%v", got, m.Parts)
			}
			if m.At50 > m.Total || m.At95 < m.Total {
				t.Fatalf("50 %% %v, chosen %v, 95 %% %v", m.At50, m.Total, m.At95)
			}
		}
	})
}

// TestCloneSharesNothing changes everything that can be changed in a copy and
// looks at the original.
func TestCloneSharesNothing(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Instruments = map[unit.Instrument]unit.Length{unit.Rule: 0.001}
	p.Pieces[0].Voids = []Void{{ID: "v1"}}
	p.Pieces[0].Stations, p.Pieces[0].Top.Stations = []unit.Dim{mm(1)}, []unit.Dim{mm(2)}
	p.Layers[0].Additives = []Additive{{ID: "a1"}}
	p.Journal, p.Drafts = []Entry{{ID: "e1"}}, []Draft{{Field: "x"}}
	was, _ := json.Marshal(p)
	q := p.Clone()
	scramble(reflect.ValueOf(&q).Elem())
	q.Instruments[unit.Rule] = 1
	if now, _ := json.Marshal(p); string(now) != string(was) {
		t.Error("a change to the copy shows in the original")
	}
}

// scramble changes every number and word in place; outlines are shared on
// purpose and left alone.
func scramble(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		if v.Type().String() == "time.Time" {
			return
		}
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				scramble(v.Field(i))
			}
		}
	case reflect.Slice:
		if v.Type().String() == "shape.Ring" {
			return
		}
		for i := range v.Len() {
			scramble(v.Index(i))
		}
	case reflect.String:
		v.SetString("changed")
	case reflect.Float64:
		v.SetFloat(99)
	case reflect.Int:
		v.SetInt(99)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	}
}
