package views

import (
	"math"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// reads types what the scale reads.
func (b *bench) reads(text string) { typeInto(b.t, b, mixingKey, scalePath, text) }

// rested lets the time pass in which a second tap is taken for a slip.
func (b *bench) rested() { b.settle(); time.Sleep(touch.Settle) }

func TestMixingWeighsTheWholeLadder(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	w := p.weigh
	typeInto(t, b, mixingKey, "mixing/cup", "64.3")
	b.settle()
	m, s := &p.chosen().Mix, p.shot.Project.Style
	for _, r := range m.Ladder(64.3 * unit.Gram) {
		if !shows(w.root, s.MassTo(r.Gross, m.Step)) {
			t.Errorf("the ladder lacks %s at %+v", r.What, r)
		}
	}
	if want := "In the cup of 64.3 g: A until the scale reads"; !shows(p.content(), want) {
		t.Errorf("no %q", want)
	}
	steps := func(what, reading, word, togo string, heavy float32) {
		t.Helper()
		b.reads(reading)
		if w.aim.What != what || w.word.Text() != word || w.togo.text.Text != togo || w.ground.StrokeWidth != heavy {
			t.Errorf("%s: %s of %s, %q, outline %v; want %s of %s, %q, %v", reading, w.togo.text.Text, w.aim.What, w.word.Text(), w.ground.StrokeWidth, togo, what, word, heavy)
		}
	}
	a, at := m.A, m.A+64.3*unit.Gram
	write := func(x unit.Mass) string { return s.MassTo(x, m.Step) }
	steps("A", write(at-200*unit.Gram), "Pour", "200 g", 1)
	if w.togo.text.TextSize < look.Read {
		t.Errorf("what is to go is %v high", w.togo.text.TextSize)
	}
	steps("A", write(at-5*unit.Gram), "Slowly", "5.0 g", 4)
	steps("A", write(at), "Stop", "0.0 g", 8)
	steps("A", write(at+12*unit.Gram), "Too much", "12.0 g", 8)
	if !strings.Contains(w.why.Text(), "B becomes") {
		t.Errorf("why: %q", w.why.Text())
	}
	tapOn(t, w.root, "Keep it: A is in")
	b.rested()
	if w.aim.What != "B" || !strings.Contains(w.why.Text(), "so the ratio holds") || w.reading.Text() != "" {
		t.Errorf("then %+v with %q", w.aim, w.reading.Text())
	}
	b.reads(write(w.aim.Until))
	tapOn(t, w.root, "Keep it: B is in")
	b.settle()
	if w.aim.What != "smoke grey" || !w.keep.Hidden || !shows(w.root, "Within 2 % of the ratio") {
		t.Errorf("with both in: %+v, %q", w.aim, w.inCup.Text())
	}
	journal := b.Snapshot().Project.Journal
	if len(journal) != 2 || journal[0].Kind != model.EntryWeighedA || journal[1].Kind != model.EntryWeighedB || journal[0].Gross.Written != write(at+12*unit.Gram) {
		t.Errorf("%+v", journal)
	}
	// A further entry takes it back.
	tapOn(t, w.root, "Take the last back")
	b.settle()
	shot := b.Snapshot()
	if c := shot.Project.InCup(p.chosen().ID); c.HasB || c.A.Grams() < (a+11*unit.Gram).Grams() {
		t.Errorf("in the cup: %+v of %+v", c, shot.Project.Journal)
	}
	tapOn(t, w.root, "Weigh another cup")
	if w.aim.What != "A" {
		t.Errorf("another cup begins with %+v", w.aim)
	}
}

func TestMixingMendsTooMuchHardener(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	w := p.weigh
	keep := func(reading, label string) {
		t.Helper()
		b.reads(reading)
		tapOn(t, w.root, label)
		b.rested()
	}
	tapOn(t, w.root, "Keep it")
	b.rested()
	if !strings.Contains(w.said.Text(), "Type what the scale reads") {
		t.Errorf("nothing typed: %q", w.said.Text())
	}
	keep("689.9", "Keep it: A is in")
	keep("1021.5", "Keep it: B is in")
	for _, want := range []string{"+6.8 % hardener", "add 47.0 g of A", "in all 1068.5 g", "There is time"} {
		if !shows(w.root, want) && !cureSays(w.root, want) {
			t.Errorf("no %q; %q", want, w.mend.adds.Text())
		}
	}
	if w.togo.text.Text != "47 g" && w.togo.text.Text != "47.0 g" {
		t.Errorf("to go: %q", w.togo.text.Text)
	}
	moldLegible(t, "a rescue", w.root)
	third := p.chosen().Times.Working.Low / 3
	typeInto(t, b, mixingKey, metPath, "5")
	if !strings.Contains(w.mend.time.Text(), "There is time") {
		t.Errorf("after 5 min of %v: %q", third, w.mend.time.Text())
	}
	typeInto(t, b, mixingKey, metPath, p.shot.Project.Style.Number(unit.Number(third/unit.Minute+2)))
	if !strings.Contains(w.mend.time.Text(), "Bin it") {
		t.Errorf("too late: %q", w.mend.time.Text())
	}
	if w.word.Text() != "Bin it" || w.togo.text.Text != "" || w.keep.Hidden || w.keep.Label != "Weigh another cup" || !w.again.Hidden || !w.mend.rest.Hidden || !w.mend.adds.Hidden {
		t.Errorf("too late, but %q, %q, %q", w.word.Text(), w.togo.text.Text, w.keep.Label)
	}
	typeInto(t, b, mixingKey, metPath, "5")
	if w.again.Hidden || w.mend.rest.Hidden || w.mend.adds.Hidden || !strings.HasPrefix(w.keep.Label, "Keep it") {
		t.Errorf("in time again, but %q", w.keep.Label)
	}
	keep("1068.5", "Keep it: the 47.0 g of A are in")
	if w.mend.met != nil || p.in.form.Field(metPath) != nil || !shows(w.root, "Within 2 %") {
		t.Errorf("mended: %q", w.inCup.Text())
	}
}

// TestMixingBinsALostCup: where it is too late the large button begins another
// cup, which is aimed at from its start.
func TestMixingBinsALostCup(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	w := p.weigh
	for _, step := range []struct{ reading, label string }{{"689.9", "Keep it: A is in"}, {"1021.5", "Keep it: B is in"}} {
		b.reads(step.reading)
		tapOn(t, w.root, step.label)
		b.rested()
	}
	typeInto(t, b, mixingKey, metPath, "5000")
	if w.keep.Label != "Weigh another cup" || w.keep.Style != touch.Primary {
		t.Fatalf("%q", w.keep.Label)
	}
	entries := len(b.Snapshot().Project.Journal)
	tapOn(t, w.root, "Weigh another cup")
	b.rested()
	if w.aim.What != "A" || w.mend.late || !w.afresh || !strings.HasPrefix(w.keep.Label, "Keep it: A") || len(b.Snapshot().Project.Journal) != entries {
		t.Errorf("another cup: %+v, %q", w.aim, w.keep.Label)
	}
	b.reads("700")
	tapOn(t, w.root, "Keep it: A is in")
	b.rested()
	if shot := b.Snapshot(); len(shot.Project.Journal) != entries+1 || shot.Project.InCup(p.chosen().ID).HasB {
		t.Errorf("%+v", shot.Project.Journal)
	}
}

func TestMixingRefusesMoreHardener(t *testing.T) {
	_, p := mixingTurned(t, "poppy-stand", "weigh")
	if shows(p.weigh.root, "No. Hardener") || cureSays(p.weigh.root, "No. Hardener") {
		t.Error("it is refused before it is asked")
	}
	tapOn(t, p.weigh.root, "More hardener to hurry it?")
	if !cureSays(p.weigh.root, "No. Hardener becomes part of the solid") {
		t.Error("more hardener is not refused")
	}
	tapOn(t, p.weigh.root, "More hardener to hurry it?")
	if cureSays(p.weigh.root, "No. Hardener") {
		t.Error("it stays")
	}
}

func TestMixingSaysWhatTheScaleIsGoodFor(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	typeInto(t, b, mixingKey, "mixing/scaleStep", "1")
	b.settle()
	// 100:45 to the nearest gram: 161.1 g and more.
	if !cureSays(p.entries.root, "mixes of 162 g and more") {
		t.Errorf("%q", p.entries.fit.Text())
	}
	typeInto(t, b, mixingKey, "mixing/scaleStep", "20")
	b.settle()
	if !cureSays(p.entries.root, "needs a scale to the nearest") {
		t.Errorf("%q", p.entries.fit.Text())
	}
}

func TestMixingTakesNoNonsenseAtTheScale(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	b.reads("two cups")
	tapOn(t, p.weigh.root, "Keep it")
	if len(b.Snapshot().Project.Journal) != 0 || p.weigh.said.Text() == "" || p.weigh.aim.What != "A" {
		t.Errorf("kept: %+v, %q", b.Snapshot().Project.Journal, p.weigh.said.Text())
	}
}

// A mix that takes several cups is weighed cup by cup.
func TestMixingWeighsCupByCup(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	l := p.chosen()
	half := l.Mix.Step.Times(math.Round(l.Mix.A.Per(l.Mix.Step) / 2))
	first := model.Batch{A: half, B: l.Mix.B - half.Times(0.4), Mass: half + l.Mix.B - half.Times(0.4)}
	second := model.Batch{A: l.Mix.A - first.A, B: l.Mix.B - first.B, Mass: l.Mix.Total - first.Mass}
	cups := func() {
		shot := b.Snapshot()
		shot.Curing = model.Curing{Project: shot.Project.ID, Layers: []model.LayerCuring{{ID: l.ID, Cups: &model.CupPlan{Ready: true, Possible: true, Batches: []model.Batch{first, second}}}}}
		p.see(shot)
	}
	cups()
	s := p.shot.Project.Style
	if !shows(p.weigh.root, "At the scale, cup 1 of 2") || !shows(p.weigh.root, "+"+s.MassTo(first.A, l.Mix.Step)) {
		t.Errorf("the first cup: %v", texts(p.weigh.root))
	}
	if want := "In 2 cups, each weighed by itself: the first " + s.MassTo(first.A, l.Mix.Step) + " of A"; !cureSays(p.numbers.all, want) {
		t.Errorf("the whole mix is still told as one cup: %q", p.numbers.ladder.Text())
	}
	b.reads(s.MassTo(first.A, l.Mix.Step))
	tapOn(t, p.weigh.root, "Keep it: A is in")
	b.settle()
	cups()
	if !shows(p.weigh.root, "At the scale, cup 1 of 2") || p.weigh.aim.What != "B" {
		t.Errorf("in the first cup: %+v", p.weigh.aim)
	}
	tapOn(t, p.weigh.root, "Weigh another cup")
	cups()
	if !shows(p.weigh.root, "At the scale, cup 2 of 2") || p.weigh.mix.A != second.A {
		t.Errorf("the second cup: %+v", p.weigh.mix)
	}
}

// The equivalent weights are copied from the sheet like its other figures, and
// weigh where it gives no other ratio.
func TestSheetTakesEquivalentWeights(t *testing.T) {
	b, _ := layersOn(t, "poppy-stand")
	if err := b.Edit("no ratio", "", func(m *model.Project) error {
		m.Sheets[0].Weight, m.Sheets[0].Volume = model.Ratio{}, model.Ratio{}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	at := "sheets/" + b.Snapshot().Project.Sheets[0].ID
	typeInto(t, b, layersKey, at+"/eew", "190")
	typeInto(t, b, layersKey, at+"/ahew", "60")
	b.settle()
	shot := b.Snapshot()
	if parts, err := shot.Project.Sheets[0].PartsByWeight(); err != nil || math.Abs(parts-31.58) > 0.01 {
		t.Errorf("%v parts, %v", parts, err)
	}
}
