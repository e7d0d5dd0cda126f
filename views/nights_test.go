package views

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"meniscus/model"
)

// nightBench opens a demo job in the Cure window at an hour of a zone, with its
// first pour started, and gives its steps. Its simulation has no bands.
func nightBench(t *testing.T, zone string, at time.Time) (*bench, *curePage, []model.Step) {
	t.Helper()
	store := newFakeStore()
	store.sharp = true
	b := newBench(t, store)
	b.clock.advance(at.Sub(b.clock.Now()))
	b.demo("poppy-stand")
	b.desk.Show(cureKey).Resize(fyne.NewSize(1240, 700))
	if zone != "" {
		b.Enter("shop/zone", zone)
	}
	rested(b)
	beat(b, 0)
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	rested(b)
	shot := b.Snapshot()
	return b, b.desk.pages[cureKey].(*curePage), shot.Steps()
}

// noon is when the pours begin that are not about a night.
var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// awaken lets the machine sleep for so long and wakes it.
func awaken(b *bench, d time.Duration) *notice {
	b.desk.notice = nil
	beat(b, d)
	said := b.desk.notice
	for range 3 { // nothing is told anew
		b.desk.notice = nil
		beat(b, time.Second)
		if b.desk.notice != nil {
			b.t.Errorf("told twice: %+v", b.desk.notice)
		}
	}
	return said
}

// TestSleptPastSeveralAlarms: on waking it is told once what was missed, in
// order and by the shop's clock, and what is still possible; not again after a
// restart, and not by a clock that is set back and forwards.
func TestSleptPastSeveralAlarms(t *testing.T) {
	b, _, steps := nightBench(t, "America/New_York", noon)
	work, open, shut := dueOf(t, steps, model.StepWorkEnds), dueOf(t, steps, model.StepRecoat), dueOf(t, steps, model.StepRecoatEnd)
	runTo(b, work.Add(-time.Minute))
	n := awaken(b, open.Add(2*time.Hour).Sub(b.Now()))
	if n == nil || !strings.HasPrefix(n.what, "2 steps came due while you were away") {
		t.Fatalf("told: %+v", n)
	}
	newYork, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Skip("no time zone data on this machine")
	}
	at := 0
	for _, words := range []string{
		"Poppy stand (demo): working time of smoke-grey base ends, " + work.In(newYork).Format("Mon 2 Jan, 15:04 MST"),
		"Poppy stand (demo): recoat window of smoke-grey base opens, " + open.In(newYork).Format("Mon 2 Jan, 15:04 MST"),
		"In the window on smoke-grey base, which closes " + shut.In(newYork).Format("Mon 2 Jan, 15:04 MST"),
	} {
		if i := strings.Index(n.do, words); i < at {
			t.Errorf("%q is not in its place in %q", words, n.do)
		} else {
			at = i
		}
	}
	b.settle()
	c := again(t, b)
	if n := awaken(c, time.Second); n != nil {
		t.Errorf("told again by a program that is started anew: %+v", n)
	}
	if n := awaken(c, -3*time.Hour); n == nil || !strings.HasPrefix(n.what, "This machine's clock was set back by 3 h") {
		t.Errorf("told for a clock that is set back: %+v", n)
	}
	if n := awaken(c, 3*time.Hour); n != nil || len(c.desk.alarms.ringing) > 0 {
		t.Errorf("told for a clock that is set back and forwards: %+v, %+v", n, c.desk.alarms.ringing)
	}
	// Past the window it is too late to pour as planned, and that is said.
	n = awaken(c, shut.Add(time.Hour).Sub(c.Now()))
	if n == nil || !strings.HasPrefix(n.what, "One step came due") || !strings.Contains(n.do, "sand before you pour") {
		t.Errorf("told: %+v", n)
	}
}

// TestToldAgainOnlyByRinging: a step that was told of by a clock that was ahead
// rings when it is due by the clock that was set right, once it is touched never
// again.
func TestToldAgainOnlyByRinging(t *testing.T) {
	b, _, steps := nightBench(t, "", noon)
	work := dueOf(t, steps, model.StepWorkEnds)
	runTo(b, work.Add(-4*time.Minute))
	if n := awaken(b, 9*time.Hour); n == nil || !strings.Contains(n.do, "working time") {
		t.Fatalf("told: %+v", n)
	}
	if n := awaken(b, -9*time.Hour); n == nil || !strings.Contains(n.what, "set back by 9 h") || len(b.desk.alarms.ringing) > 0 {
		t.Fatalf("set right: %+v, %+v", n, b.desk.alarms.ringing)
	}
	runTo(b, work)
	if r := b.desk.alarms.ringing; len(r) != 1 || r[0].Kind != model.StepWorkEnds {
		t.Fatalf("at its instant: %+v", r)
	}
	b.desk.alarms.answer()
	b.settle()
	for _, d := range []time.Duration{time.Second, -time.Hour, 2 * time.Hour, 9 * time.Hour, -10 * time.Hour, time.Hour} {
		if n := awaken(b, d); n != nil && !strings.Contains(n.what, "set back") || len(b.desk.alarms.ringing) > 0 {
			t.Errorf("after %v: %+v, %+v", d, n, b.desk.alarms.ringing)
		}
	}
}

// upset is something that happens to a clock, or to a program.
type upset struct {
	What string
	By   time.Duration
}

// upsets draws what happens to them, sleep among it so long that steps pass.
func upsets() *rapid.Generator[[]upset] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) upset {
		u := upset{What: rapid.SampledFrom([]string{"tick", "sleep", "back", "forward", "zone", "restart", "answer"}).Draw(t, "what")}
		switch u.What {
		case "tick":
			u.By = time.Second
		case "sleep":
			u.By = time.Duration(rapid.Int64Range(60, 60*3600).Draw(t, "by")) * time.Second
		case "back":
			u.By = -time.Duration(rapid.Int64Range(1, 9*3600).Draw(t, "by")) * time.Second
		case "forward":
			u.By = time.Duration(rapid.Int64Range(1, 9*3600).Draw(t, "by")) * time.Second
		}
		return u
	}), 14, 20)
}

// TestEachStepIsToldOnce: whatever happens, no instant moves, no step is told of
// twice by a notice or begins to ring twice, none rings that was touched, and in
// the end each has been told of.
func TestEachStepIsToldOnce(t *testing.T) {
	zones := []string{"Europe/Berlin", "America/New_York", "Asia/Kathmandu", ""}
	for seed := range 4 {
		b, _, want := nightBench(t, "", noon)
		told, rung, touched := map[string]int{}, map[string]int{}, map[string]bool{}
		ringing := map[string]bool{}
		var last *notice
		look := func(u upset) {
			if n := b.desk.notice; n != nil && n != last {
				for _, step := range strings.Split(n.do, "; ") {
					if name, _, _ := strings.Cut(step, ","); strings.HasPrefix(name, "Poppy stand (demo): ") {
						told[name]++
					}
				}
			}
			last = b.desk.notice
			shot := b.Snapshot()
			for i, s := range shot.Steps() {
				if !s.Due.Equal(want[i].Due) {
					t.Fatalf("seed %d, after %v: %s moved from %v to %v", seed, u, s.Label, want[i].Due, s.Due)
				}
			}
			now := map[string]bool{}
			for _, a := range b.desk.alarms.ringing {
				now[a.Key] = true
				if touched[a.Key] {
					t.Fatalf("seed %d, after %v: %s rings and was touched", seed, u, a.Label)
				}
				if !ringing[a.Key] {
					rung[a.Key]++
				}
			}
			ringing = now
		}
		for _, u := range append(upsets().Example(seed), upset{"sleep", 40 * 24 * time.Hour}) {
			switch u.What {
			case "zone":
				b.Enter("shop/zone", zones[len(told)%len(zones)])
				rested(b)
			case "restart":
				b.settle()
				b = again(t, b)
				ringing = map[string]bool{}
			case "answer":
				for _, a := range b.desk.alarms.ringing {
					touched[a.Key] = true
				}
				b.desk.alarms.answer()
			}
			beat(b, u.By)
			look(u)
		}
		for step, n := range told {
			if n > 1 {
				t.Errorf("seed %d: %s was told of %d times", seed, step, n)
			}
		}
		shot := b.Snapshot()
		for _, a := range model.Alarms(shot.Project.ID, shot.Steps(), b.Now()) {
			_, heard := b.desk.alarms.memory.Heard[a.Key]
			_, rings := b.desk.alarms.memory.Rung[a.Key]
			_, said := b.desk.told[a.Key]
			if !heard && !rings && !said {
				t.Errorf("seed %d: %s was never told of", seed, a.Label)
			}
		}
		b.end()
	}
}

// TestThroughTheNightsOfTheClocks: in both nights, here and there, the countdown
// is in seconds that pass, the step comes when they have passed, and what is
// written is what the shop's clock shows. Instants of the changes: tz database.
func TestThroughTheNightsOfTheClocks(t *testing.T) {
	for _, c := range []struct {
		zone         string
		start        time.Time
		before, then string // names of the zone at the start, and at the next step
	}{
		{"Europe/Berlin", time.Date(2026, 10, 24, 23, 30, 0, 0, time.UTC), "CEST", "CET"},
		{"Europe/Berlin", time.Date(2027, 3, 27, 23, 30, 0, 0, time.UTC), "CET", "CEST"},
		{"America/New_York", time.Date(2026, 11, 1, 4, 30, 0, 0, time.UTC), "EDT", "EST"},
		{"America/New_York", time.Date(2027, 3, 14, 5, 30, 0, 0, time.UTC), "EST", "EDT"},
	} {
		b, p, _ := nightBench(t, c.zone, c.start)
		shot := b.Snapshot()
		due := dueOf(t, shot.Steps(), model.StepWorkEnds)
		after := due.Sub(c.start)
		start, _ := shot.Project.PourStart(shot.Plan.Layers[0].ID)
		if got := p.clock.dated(start.At); !strings.HasSuffix(got, c.before) {
			t.Errorf("%s: started %s", c.zone, got)
		}
		if got := p.when.Text(); !strings.HasSuffix(got, " "+c.then) {
			t.Errorf("%s: the next step is at %q", c.zone, got)
		}
		const part = 24 * time.Minute
		for passed := time.Duration(0); passed < after; passed += part {
			if got, want := p.left.text.Text, until(due, b.Now()); got != want {
				t.Fatalf("%s: %v after the start %q are left, want %q", c.zone, passed, got, want)
			}
			if passed+part < after {
				beat(b, part)
			}
		}
		runTo(b, due.Add(-time.Second))
		if len(b.desk.alarms.ringing) > 0 {
			t.Errorf("%s: it rings too early", c.zone)
		}
		beat(b, time.Second)
		if r := b.desk.alarms.ringing; len(r) != 1 || !r[0].Due.Equal(due) {
			t.Errorf("%s: %v after the start %+v rings", c.zone, after, r)
		}
		b.end()
	}
}

// TestPourOnAFullDiskIsSeen: a pour that is started on a full disk runs and
// rings; that it is not kept is said until it is, with what to do, and once
// there is room it is kept by itself.
func TestPourOnAFullDiskIsSeen(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	rested(b)
	beat(b, 0)
	setFull := func(full bool) { b.store.mu.Lock(); b.store.full = full; b.store.mu.Unlock() }
	setFull(true)
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.until("the pour runs, and is not kept", func() bool {
		shot := b.Snapshot()
		return shot.Saved.What != "" && len(shot.Project.Journal) == 1 && shot.CuringFresh && p.left.Visible()
	})
	shot := b.Snapshot()
	due := dueOf(t, shot.Steps(), model.StepWorkEnds)
	for range 3 {
		runTo(b, b.Now().Add(due.Sub(b.Now())/2))
		if got, want := p.left.text.Text, until(due, b.Now()); got != want {
			t.Errorf("%q are left, want %q", got, want)
		}
		for _, words := range []string{"Not kept: no room left on the disk", "tried again by itself", "Try again"} {
			if !shows(p.frame.banner.root, words) {
				t.Errorf("it does not say %q: %q", words, texts(p.frame.banner.root))
			}
		}
		if got := p.frame.saved.Text(); got != "not kept" {
			t.Errorf("it says %q", got)
		}
	}
	runTo(b, due)
	if r := b.desk.alarms.ringing; len(r) != 1 || r[0].Kind != model.StepWorkEnds || !b.flashing() {
		t.Errorf("on a full disk rings %+v", r)
	}
	b.desk.alarms.answer()
	if err := b.Happened(model.Entry{Kind: model.EntryPourDone, Layer: shot.Plan.Layers[0].ID}); err != nil {
		t.Fatal(err)
	}
	setFull(false)
	b.clock.advance(time.Minute)
	b.until("it is kept by itself", func() bool { return !b.Snapshot().Saved.Pending })
	b.settle()
	b.desk.hush()
	if shows(p.frame.banner.root, "Not kept") || b.Snapshot().Saved.What != "" {
		t.Errorf("with room again: %q", texts(p.frame.banner.root))
	}
	kept, _, err := b.store.Load(shot.Project.ID)
	if got := fmt.Sprint(len(kept.Journal)); err != nil || got != "2" || kept.Journal[0].Kind != model.EntryPourStarted || kept.Journal[1].Kind != model.EntryPourDone {
		t.Errorf("kept: %+v, %v", kept.Journal, err)
	}
}
