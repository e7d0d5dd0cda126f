package model

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// benchTray is a tray of two pours with a tint in the first, washers in the
// first pour and heads that stand on it.
func benchTray() Project {
	p := tray(300, 200, 30, 10)
	for kind, f := range map[string]*Figure[unit.Span]{"working": &p.Sheets[0].WorkingTime, "from": &p.Sheets[0].RecoatFrom, "to": &p.Sheets[0].RecoatTo, "demold": &p.Sheets[0].Demold, "cure": &p.Sheets[0].FullCure} {
		hours := map[string]float64{"working": 1, "from": 6, "to": 20, "demold": 48, "cure": 120}[kind]
		*f = Figure[unit.Span]{Taken: given(unit.Hour.Times(hours)), At: given(unit.Celsius(20))}
	}
	p.Shop.Room = given(unit.Celsius(20))
	p.Mixing.Cup, p.Mixing.ScaleStep = given(64.3*unit.Gram), given(0.1*unit.Gram)
	p.Layers[0].Tint = Tint{Name: "grey", Share: given(unit.Share(0.015))}
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(5), Sheet: "s1"})
	coin := Insert{Count: 3, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3)}
	a, b := coin, coin
	a.ID, a.Name, a.On = "i1", "washers", OnFloor
	b.ID, b.Name, b.On, b.Layer = "i2", "heads", OnLayer, "l1"
	p.Inserts = []Insert{a, b}
	return p
}

// benchRun is a piece being worked on: acts are touched, and time goes by.
type benchRun struct {
	p    Project
	now  time.Time
	ask  BenchAsk
	made *Plan // stands for the plan, but for what the journal changes; nil for the plan itself
}

func (r *benchRun) moment() Moment {
	var plan Plan
	if r.made == nil {
		plan = Make(r.p)
	} else {
		plan = *r.made
		plan.Layers = slices.Clone(plan.Layers)
		for i := range plan.Layers {
			plan.Layers[i].Status = Planned
			if _, begun := r.p.PourStart(plan.Layers[i].ID); begun {
				plan.Layers[i].Status = Poured
			}
		}
		plan.Steps = r.p.steps(plan.Layers)
	}
	r.ask.Now = r.now
	return plan.Moment(&r.p, &Curing{}, r.ask)
}

// touch does an act of the moment, as the window would.
func (r *benchRun) touch(a BenchAct) error {
	if a.Turn != NoTurning {
		r.ask.Layer, r.ask.Touch, r.ask.Afresh = a.To, a.Turn == TurnTouch, a.Turn == TurnAfresh
		return nil
	}
	e := a.Entry
	e.ID, e.At = "n"+itoa(len(r.p.Journal)), r.now
	r.ask.Reading, r.ask.Touch, r.ask.Afresh = "", false, false
	return r.p.Log(e, r.now)
}

// TestMomentsOfAPour walks through the whole of two pours. At 20 °C, that of the
// sheet, its hours hold as they stand; the masses are those of the plan.
func TestMomentsOfAPour(t *testing.T) {
	r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	plan := Make(r.p)
	s := r.p.Style
	first, second := plan.Layers[0].Mix, plan.Layers[1].Mix
	cup := 64.3 * unit.Gram
	reads := func(m *MixPlan, x unit.Mass) string { return s.MassTo(x, m.Step) }
	tint := m0(first.Total.Times(0.015), first.Step)
	for i, c := range []struct {
		wait   time.Duration // before it
		number NumberKind
		figure string        // of a mass
		value  time.Duration // of a time
		next   string        // how it begins
		acts   string        // the first is the primary one, unless it begins with "-"
		touch  string        // which act follows
	}{
		{0, NumberReads, reads(&first, cup+first.A), 0, "Pour " + reads(&first, first.A) + " of A", "A is in, All is in: mixing", "A is in"},
		{time.Minute, NumberReads, reads(&first, cup+first.Total), 0, "Pour " + reads(&first, first.B) + " of B", "B is in", "B is in"},
		{time.Minute, NumberReads, reads(&first, cup+first.Total+tint), 0, "Stir in " + s.MassTo(first.Total.Times(0.015), unit.Gram/100) + " of grey", "Grey is in: mixing", "Grey is in: mixing"},
		{30 * time.Second, NumberLeft, "", 4*time.Minute + 30*time.Second, "Stir slowly", "Mixed", ""},
		{4 * time.Minute, NumberLeft, "", 30 * time.Second, "Change the cup", "Mixed", "Mixed"},
		// 0.7 of an hour from when the parts met, five and a half minutes ago
		{0, NumberLeft, "", 42*time.Minute - 330*time.Second, "Pour pour", "Pour started", "Pour started"},
		{10 * time.Minute, NumberLeft, "", 50 * time.Minute, "Pour, and place 3 washers", "Placed washers, Pour ended", "Placed washers"},
		{0, NumberLeft, "", 50 * time.Minute, "Pour all of it", "Pour ended", "Pour ended"},
		{50 * time.Minute, NumberLeft, "", 5 * time.Hour, "Then touch it", "-Touch it now, Weigh top", ""},
		{5 * time.Hour, NumberLeft, "", 14 * time.Hour, "Touch pour", "Like tape, It strings, Hard", "It strings"},
		{time.Minute, NumberLeft, "", 14 * time.Minute, "Then touch it", "-Touch it now, Weigh top", "Touch it now"},
		{0, NumberLeft, "", 14*time.Hour - time.Minute, "Touch pour", "Like tape, It strings, Hard", "It strings"},
		{20 * time.Minute, NumberLeft, "", 13*time.Hour + 39*time.Minute, "Touch pour", "Like tape, It strings, Hard", "Like tape"},
		{0, NumberLeft, "", 13*time.Hour + 39*time.Minute, "Place 3 heads on pour", "Placed heads, Weigh top", "Placed heads"},
		{0, NumberReads, reads(&second, cup+second.A), 0, "Pour " + reads(&second, second.A) + " of A", "A is in, All is in: mixing", "A is in"},
		{time.Minute, NumberReads, reads(&second, cup+second.Total), 0, "Pour " + reads(&second, second.B) + " of B", "B is in", "B is in"},
		{time.Minute, NumberReads, reads(&second, second.Total), 0, "Scrape the walls", "Mixing", "Mixing"},
		{6 * time.Minute, NumberSince, "", 3 * time.Minute, "Hold it to the light", "Mixed", "Mixed"},
		{0, NumberLeft, "", 35 * time.Minute, "Pour top", "Pour started", "Pour started"},
		{time.Minute, NumberLeft, "", 59 * time.Minute, "Pour all of it", "Pour ended", "Pour ended"},
		{59 * time.Minute, NumberLeft, "", 47 * time.Hour, "Leave it", "", ""},
		{48 * time.Hour, NumberSince, "", time.Hour, "Take it out", "It is out, stiff, Out, but bent", "It is out, stiff"},
		{time.Hour, NumberLeft, "", 70 * time.Hour, "Keep it warm", "", ""},
		{100 * time.Hour, "", "", 0, "All steps are done", "", ""},
	} {
		r.now = r.now.Add(c.wait)
		m := r.moment()
		if m.Number != c.number || m.Figure != c.figure || !strings.HasPrefix(m.Next, c.next) {
			t.Errorf("step %d: %+v, want %+v", i, m, c)
		}
		if got := m.Value(r.now).Round(time.Second); got != c.value {
			t.Errorf("step %d: %v %s, want %v", i, got, m.Of, c.value)
		}
		checkMoment(t, i, &m)
		var labels []string
		var do *BenchAct
		for k := range m.Acts {
			a := &m.Acts[k]
			if a.Primary {
				labels = append([]string{a.Label}, labels...)
			} else {
				labels = append(labels, a.Label)
			}
			if a.Label == c.touch {
				do = a
			}
		}
		if got, want := strings.Join(labels, ", "), strings.TrimPrefix(c.acts, "-"); got != want {
			t.Errorf("step %d offers %q, want %q", i, got, want)
		}
		if c.touch == "" {
			continue
		}
		if do == nil {
			t.Fatalf("step %d: no %q", i, c.touch)
		}
		if err := r.touch(*do); err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
	}
	if list := r.p.Validate(); len(list) > 0 {
		t.Errorf("%v", list)
	}
}

// m0 is a mass in whole last digits of the scale.
func m0(m, step unit.Mass) unit.Mass { return step.Times(float64(int64(m.Per(step) + 0.5))) }

// checkMoment holds a moment to what is promised of each.
func checkMoment(t interface{ Errorf(string, ...any) }, i int, m *Moment) {
	primary := 0
	for _, a := range m.Acts {
		if a.Primary {
			primary++
		}
		if a.Label == "" || a.Turn == NoTurning && a.Entry.Kind == "" {
			t.Errorf("step %d: an act does nothing: %+v", i, a)
		}
	}
	if primary > 1 || primary == 0 && m.Number != NumberLeft && !m.Over {
		t.Errorf("step %d: %d primary acts: %+v", i, primary, *m)
	}
	if m.Next == "" || (m.Number != "") != (m.Of != "") {
		t.Errorf("step %d says too little: %+v", i, *m)
	}
	if (m.Number == NumberReads || m.Number == NumberToGo) != (m.Figure != "") || (m.Number == NumberLeft || m.Number == NumberSince) == m.At.IsZero() {
		t.Errorf("step %d has no number: %+v", i, *m)
	}
}

// Whatever is touched, there is one thing to do or a time to wait for; and what
// was touched last, taken back, leaves the moment before.
func TestMomentsByAnyTouch(t *testing.T) {
	plan := Make(benchTray())
	rapid.Check(t, func(t *rapid.T) {
		r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC), made: &plan}
		if rapid.Bool().Draw(t, "no cup weighed") {
			r.p.Mixing.Cup = unit.Taken[unit.Mass]{}
		}
		for i := range 40 {
			r.now = r.now.Add(rapid.SampledFrom([]time.Duration{time.Second, time.Minute, 20 * time.Minute, 3 * time.Hour, 30 * time.Hour}).Draw(t, "wait"))
			if rapid.IntRange(0, 3).Draw(t, "typed") == 0 {
				r.ask.Reading = rapid.SampledFrom([]string{"100", "350.5 g", "1 lb", "x", "2000", "64.3"}).Draw(t, "reading")
			}
			m := r.moment()
			checkMoment(t, i, &m)
			hot := BenchAct{Label: "too hot", Entry: Entry{Kind: EntryTooHot, Layer: m.Layer}}
			acts := m.Acts
			if rapid.IntRange(0, 9).Draw(t, "hot") == 0 && m.Layer != "" {
				acts = []BenchAct{hot}
			}
			if len(acts) == 0 {
				continue
			}
			a := rapid.SampledFrom(acts).Draw(t, "act")
			if a.Refused != "" {
				r.ask.Reading = ""
				continue
			}
			was := r.ask
			if err := r.touch(a); err != nil {
				t.Fatalf("%s: %v", a.Label, err)
			}
			if a.Turn != NoTurning || rapid.Bool().Draw(t, "keep it") {
				continue
			}
			e, name, ok := r.p.LastAct(r.now)
			if !ok || name == "" || e.Kind != a.Entry.Kind {
				t.Fatalf("%s cannot be taken back: %v %q", a.Label, e, name)
			}
			if err := r.touch(BenchAct{Entry: Entry{Kind: EntryWithdrawn, Of: e.ID}}); err != nil {
				t.Fatal(err)
			}
			r.ask = was
			if got := r.moment(); !reflect.DeepEqual(got, m) {
				t.Fatalf("%s taken back leaves %+v, it was %+v", a.Label, got, m)
			}
		}
		if list := r.p.Validate(); len(list) > 0 {
			t.Fatalf("it leaves %v", list)
		}
	})
}

// A cup with too much of B is mended within a third of its working time, which is
// 20 of 60 minutes; after that it is binned, and takes the place of no cup.
func TestMomentOfACupThatIsOff(t *testing.T) {
	r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	m := Make(r.p).Layers[0].Mix
	weigh := func(kind EntryKind, gross unit.Mass, cup unit.Taken[unit.Mass]) {
		t.Helper()
		if err := r.touch(BenchAct{Entry: Entry{Kind: kind, Layer: "l1", Gross: given(gross), Cup: cup}}); err != nil {
			t.Fatal(err)
		}
	}
	cup := r.p.Mixing.Cup
	weigh(EntryWeighedA, cup.Value+m.A, cup)
	weigh(EntryWeighedB, cup.Value+m.A+m.B.Times(1.4), unit.Taken[unit.Mass]{})
	r.now = r.now.Add(19 * time.Minute)
	if got := r.moment(); !strings.HasPrefix(got.More, "+40.0 % hardener. In all ") || !strings.Contains(got.More, " too much: into a spare mold") || !strings.HasSuffix(got.More, ". 1 min left for it.") || !strings.HasPrefix(got.Next, "Add ") || got.Acts[0].Entry.Kind != EntryWeighedA || got.Acts[0].Entry.Cup.Given() {
		t.Errorf("in time: %+v", got)
	}
	r.now = r.now.Add(2 * time.Minute)
	got := r.moment()
	if !strings.HasPrefix(got.Next, "Bin it") || !strings.HasPrefix(got.More, "+40.0 % hardener. ") || !strings.Contains(got.More, "outdoors") || got.Number != NumberSince || got.Value(r.now) != 21*time.Minute {
		t.Errorf("too late: %+v", got)
	}
	if a := got.Acts; len(a) != 1 || a[0].Turn != TurnAfresh || !a[0].Primary {
		t.Fatalf("too late: %+v", a)
	}
	checkMoment(t, 0, &got)
	if err := r.touch(got.Acts[0]); err != nil {
		t.Fatal(err)
	}
	another := r.moment()
	if !strings.HasPrefix(another.Next, "Pour "+r.p.Style.MassTo(m.A, m.Step)) || len(another.Acts) != 1 || !strings.Contains(another.Next, "of A") || another.Number != NumberReads || !another.Acts[0].Entry.Cup.Given() {
		t.Errorf("another cup: %+v", another)
	}
	checkMoment(t, 1, &another)
	if err := r.touch(another.Acts[0]); err != nil {
		t.Fatal(err)
	}
	if next := r.moment(); !strings.Contains(next.Next, "of B") {
		t.Errorf("after its A: %+v", next)
	}
	if at := r.p.CupAtScale("l1", false); at != 0 {
		t.Errorf("the cup that was binned is counted: %d", at)
	}
}

// A reading that is typed shows what is to go, how near it is, and is what the
// act keeps; B follows an A that went over.
func TestMomentsAtTheScale(t *testing.T) {
	r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	m := Make(r.p).Layers[0].Mix
	s := r.p.Style
	until := 64.3*unit.Gram + m.A
	for _, c := range []struct {
		off   unit.Mass // of the reading
		state AimState
	}{{-100 * unit.Gram, AimFar}, {-5 * unit.Gram, AimNear}, {0, AimThere}, {4 * unit.Gram, AimOver}} {
		r.ask.Reading = s.MassTo(until+c.off, m.Step)
		got := r.moment()
		if got.Number != NumberToGo || got.State != c.state || !strings.HasPrefix(got.Acts[0].Label, "Keep it") {
			t.Errorf("at %s: %+v", r.ask.Reading, got)
		}
		within(t, "kept", float64(got.Acts[0].Entry.Gross.Value), float64(until+c.off), 1e-9)
	}
	if err := r.touch(r.moment().Acts[0]); err != nil {
		t.Fatal(err)
	}
	if got := r.moment(); !strings.Contains(got.More, "because A is") || !strings.HasPrefix(got.Next, "Pour "+s.MassTo(m.bFor(m.A+4*unit.Gram), m.Step)) {
		t.Errorf("B after too much of A: %+v", got)
	}
	r.ask.Reading = "10"
	if got := r.moment(); got.Acts[0].Refused == "" {
		t.Errorf("less than the cup is taken: %+v", got)
	}
}

// Where the mix goes into several cups each has its turn; what the last of them
// leaves is not weighed again.
func TestMomentsOfSeveralCups(t *testing.T) {
	r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	r.p.Inserts = nil
	r.p.Mold.Count = 3
	plan := Make(r.p)
	m := plan.Layers[0].Mix
	third := m0(m.Total.Times(1.0/3), m.Step)
	a := m0(third.Times(1/1.45), m.Step)
	// The others are begun 12 and 24 minutes after the parts of the first met, at 09:01.
	batch := Batch{Mass: third, A: a, B: third - a, Working: unit.Hour, Into: []Portion{{Cavity: 1}}}
	second, last := batch, Batch{Start: unit.Minute.Times(24), Mass: m.Total - 2*third, A: m.A - 2*a, B: m.B - 2*(third-a), Working: unit.Hour, Into: []Portion{{Cavity: 3}}}
	second.Start, second.Into = unit.Minute.Times(12), []Portion{{Cavity: 2}}
	c := Curing{Project: plan.Project, Layers: []LayerCuring{{ID: "l1", Cups: &CupPlan{Ready: true, Possible: true, Batches: []Batch{batch, second, last}}}}}
	var said []string
	for i := 0; i < 30; i++ {
		plan := Make(r.p)
		r.ask.Now = r.now
		at := plan.Moment(&r.p, &c, r.ask)
		said = append(said, at.Next, at.More)
		if at.Layer != "l1" || len(at.Acts) == 0 || !at.Acts[0].Primary {
			break
		}
		if err := r.touch(at.Acts[0]); err != nil {
			t.Fatal(err)
		}
		r.now = r.now.Add(time.Minute)
	}
	all := strings.Join(said, "\n")
	for _, want := range []string{
		"Cup 1 of 3: pour " + r.p.Style.MassTo(a, m.Step), "Into cavity 1. Begin cup 2 at 09:13.",
		"Cup 2 of 3: pour " + r.p.Style.MassTo(a, m.Step), "Pour cup 2 into the mold first. Into cavity 2. Begin cup 3 at 09:25.",
		"Cup 3 of 3: pour " + r.p.Style.MassTo(last.A, m.Step), "Pour cup 3, and scrape it out\nInto cavity 3.", "Then touch it",
	} {
		if strings.Count(all, want) == 0 {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
	if n := len(r.p.mixCups("l1")); n != 3 {
		t.Errorf("%d cups were weighed:\n%s", n, all)
	}
	weighed := unit.Mass(0)
	for _, c := range r.p.mixCups("l1") {
		weighed += c.in.A + c.in.B
	}
	within(t, "weighed in all", weighed.Grams(), m.Total.Grams(), 2*m.Step.Grams())
}

// A pour that still has a cup at the scale is not over, however long ago the
// first cup went in.
func TestAPourWaitsForItsCups(t *testing.T) {
	r := benchRun{p: benchTray(), now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	plan := Make(r.p)
	m := plan.Layers[0].Mix
	a := m0(m.A.Times(0.5), m.Step)
	b := m0(m.B.Times(0.5), m.Step)
	c := Curing{Project: plan.Project, Layers: []LayerCuring{{ID: "l1", Cups: &CupPlan{Ready: true, Possible: true, Batches: []Batch{
		{Mass: a + b, A: a, B: b}, {Mass: m.Total - a - b, A: m.A - a, B: m.B - b},
	}}}}}
	for i := 0; ; i++ {
		plan := Make(r.p)
		r.ask.Now = r.now
		at := plan.Moment(&r.p, &c, r.ask)
		if _, poured := r.p.PourStart("l1"); poured && at.Acts[0].Entry.Kind == EntryWeighedB {
			break
		}
		if i > 20 {
			t.Fatal("the second cup is never weighed")
		}
		if err := r.touch(at.Acts[0]); err != nil {
			t.Fatal(err)
		}
		r.now = r.now.Add(time.Minute)
	}
	plan = Make(r.p)
	r.ask.Now = r.now.Add(3 * plan.Layers[0].Times.Working.Value.Duration())
	if at := plan.Moment(&r.p, &c, r.ask); len(at.Acts) == 0 || at.Acts[0].Entry.Kind != EntryWeighedB {
		t.Errorf("%+v", at)
	}
	r.ask.Now = r.now.Add(usualEnd + time.Hour)
	if at := plan.Moment(&r.p, &c, r.ask); len(at.Acts) > 0 && at.Acts[0].Entry.Kind == EntryWeighedB {
		t.Errorf("half a day later: %+v", at)
	}
}

// What would sink to the floor of the pour is told at the moment of pouring, with
// the clock time until which to wait.
func TestMomentWaitsForTheGrains(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Layers[0].Tint.Kind, p.Layers[0].Tint.Grain = ColorantMica, mm(0.008)
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	layer := p.Layers[0].ID
	p.Journal = []Entry{{ID: "e1", At: now, Kind: EntryMixing, Layer: layer}, {ID: "e2", At: now.Add(5 * time.Minute), Kind: EntryMixed, Layer: layer}}
	pl := Make(p)
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	list, _ := pl.Settling(&p, &c, layer)
	after := list[0].After.Value.Duration()
	if after <= 6*time.Minute || list[0].Late {
		t.Fatalf("the example waits %v", after)
	}
	want := "Not before " + now.Add(after).In(p.Shop.Place()).Format(clockForm) + ", or "
	if m := pl.Moment(&p, &c, BenchAsk{Now: now.Add(6 * time.Minute)}); !strings.Contains(m.More, want) || m.Acts[0].Entry.Kind != EntryPourStarted {
		t.Errorf("no %q in %+v", want, m)
	}
	if m := pl.Moment(&p, &c, BenchAsk{Now: now.Add(after + time.Minute)}); strings.Contains(m.More, "Not before") {
		t.Errorf("after that: %+v", m)
	}
}

// TestCavitiesOfACup: in the order in which they are poured, and which of them
// are filled from another cup too.
func TestCavitiesOfACup(t *testing.T) {
	for want, into := range map[string][]Portion{
		"": nil, "cavity 2": {{Cavity: 2}}, "cavities 1, 2 (in part) and 4": {{Cavity: 1}, {Cavity: 2, Part: true}, {Cavity: 4}},
	} {
		if got := (&Batch{Into: into}).cavities(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestMomentOfNothing(t *testing.T) {
	p := Blank("x", "nothing")
	plan := Make(p)
	if m := plan.Moment(&p, &Curing{}, BenchAsk{Now: time.Unix(1e9, 0)}); !m.Over || len(m.Acts) > 0 {
		t.Errorf("%+v", m)
	}
}
