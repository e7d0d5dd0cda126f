package model

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"meniscus/model/unit"
)

// ApplyStages turns the layers of a project into those of a proposal, as one
// change. A layer that continues keeps its ID and, where its height is the same
// as before, the way in which that was measured; a new one takes its product,
// colour and additives after another, masses of them as shares, since less is
// mixed of each. Inserts stand on the layer that the
// proposal puts them on. It is a *Problem, and nothing is changed, where the
// proposal does not belong to the project as it is now.
func ApplyStages(p *Project, s StageProposal) error {
	if !s.Possible || len(s.Layers) == 0 {
		return &Problem{"layers", "there is no way to lay these layers that could be taken"}
	}
	next := p.Clone()
	next.Layers = nil
	plan := Make(*p)
	for i := range s.Layers {
		at := &s.Layers[i]
		k := p.LayerIndex(at.From)
		if k == none {
			return &Problem{"layers", "the layers have changed since; plan the pours again"}
		}
		l := p.Layers[k]
		l.Additives = slices.Clone(l.Additives)
		if !at.Poured && s.parts(at.From) > 1 {
			l.inShares(plan.Layers[k].Mix.Total)
		}
		if at.ID == "" {
			l.ID = next.NewID("l")
			l.Name = next.freeName(p, l.Name)
			for a := range l.Additives {
				l.Additives[a].ID = next.NewID("a")
			}
		}
		next.Layers = append(next.Layers, l)
	}
	for i := range p.Layers {
		id := p.Layers[i].ID
		if next.LayerIndex(id) != none {
			continue
		}
		if _, begun := p.PourStart(id); begun {
			return &Problem{"layers/" + id, "this has been poured; plan the pours again"}
		}
		next.Drafts = slices.DeleteFunc(next.Drafts, func(d Draft) bool { return strings.HasPrefix(d.Field, "layers/"+id+"/") })
	}
	for i := range s.Layers {
		if s.Layers[i].Poured {
			continue
		}
		if err := next.putLevel(p, i, float64(s.Layers[i].Top)); err != nil {
			return err
		}
	}
	for _, in := range s.Inserts {
		insert := next.Insert(in.ID)
		if insert == nil || in.Layer < 0 || in.Layer >= len(next.Layers) {
			return &Problem{"inserts", "the inserts have changed since; plan the pours again"}
		}
		insert.On, insert.Layer = OnLayer, next.Layers[in.Layer].ID
	}
	next.mend()
	if len(next.Drafts) == 0 {
		next.Drafts = nil
	}
	*p = next
	return nil
}

// parts counts the layers that are poured after another.
func (s *StageProposal) parts(from string) int {
	n := 0
	for i := range s.Layers {
		if s.Layers[i].From == from {
			n++
		}
	}
	return n
}

// freeName gives a name after another's that no layer has, here or in the
// project as it was.
func (p *Project) freeName(was *Project, name string) string {
	taken := func(n string) bool {
		is := func(l Layer) bool { return l.Name == n }
		return slices.ContainsFunc(p.Layers, is) || slices.ContainsFunc(was.Layers, is)
	}
	for k := 2; ; k++ {
		if n := name + " " + strconv.Itoa(k); !taken(n) {
			return n
		}
	}
}

// putLevel puts the top of layer i at a level. What was measured stays as it
// was where it means that level still; else it is written as a finger's drag
// would be, or in millimetres where the graduation does not reach it.
func (p *Project) putLevel(was *Project, i int, level float64) error {
	l := &p.Layers[i]
	if math.Abs(float64(p.levelBelow(i+1))-level) <= sameLevel && was.LayerIndex(l.ID) != none {
		return nil
	}
	if err := SetLevel(p, l.ID, unit.Length(level)); err != nil {
		return err
	}
	off := level - float64(p.levelBelow(i+1))
	if math.Abs(off) <= 1e-9 {
		return nil
	}
	value := float64(l.To.Value) + off
	if l.By == ToBelow {
		value = float64(l.To.Value) - off
	}
	text := strconv.FormatFloat(math.Round(value*1e9)/1e6, 'f', -1, 64) + " mm"
	to, err := p.Style.TakeLength(text, l.To.By)
	if err != nil {
		return &Problem{"layers/" + l.ID + "/to", words(err)}
	}
	l.To = to
	return nil
}
