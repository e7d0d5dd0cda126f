package views

import (
	"testing"
	"time"

	"meniscus/model"
)

// twoStarts is a made-up answer of the calendar.
func twoStarts(now time.Time) model.CalendarAnswer {
	act := func(kind model.ActKind, label string, h int) model.Act {
		return model.Act{Kind: kind, Label: label, At: now.Add(time.Duration(h) * time.Hour)}
	}
	return model.CalendarAnswer{Choices: []model.StartChoice{
		{Start: now.Add(9 * time.Hour), Acts: []model.Act{act(model.ActPour, "pour smoke-grey base", 9), act(model.ActPour, "pour clear top", 33)}, Why: "both pours fall in the evening"},
		{Start: now.Add(22 * time.Hour), Acts: []model.Act{act(model.ActPour, "pour smoke-grey base", 22)}, Why: "the soonest morning"},
	}}
}

func TestStartsAreTakenAndTakenBackWithOneTouch(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	answer := twoStarts(b.Now())
	p.starts.answer, p.starts.about = &answer, model.StartsAbout(&p.shot.Project, &p.shot.Plan)
	p.starts.draw()
	for _, words := range []string{"1 · Start Wed 25 Nov, 18:00", "Both pours fall in the evening", "pour clear top", "2 · Start Thu 26 Nov, 07:00"} {
		if !shows(p.starts.root, words) {
			t.Errorf("%q is not in %q", words, texts(p.starts.root))
		}
	}
	tapRow(t, p.starts.root, "2 · Start")
	b.settle()
	if got := b.Snapshot().Project.Shop.Planned; !got.Equal(answer.Choices[1].Start) {
		t.Fatalf("planned %v", got)
	}
	if !shows(p.starts.root, "The next pour is planned for Thu 26 Nov, 07:00") || !shows(p.starts.root, "2 · Start") {
		t.Errorf("%q", texts(p.starts.root))
	}
	tapOn(t, p.starts.root, "Take it back")
	b.settle()
	if got := b.Snapshot().Project.Shop.Planned; !got.IsZero() {
		t.Errorf("taken back, %v is planned", got)
	}
}

func TestStartsSayWhyThereIsNone(t *testing.T) {
	_, p := cureOn(t, "poppy-stand")
	p.starts.answer, p.starts.about = &model.CalendarAnswer{None: "the window of smoke-grey base always falls between 1 and 5 at night"}, model.StartsAbout(&p.shot.Project, &p.shot.Plan)
	p.starts.draw()
	if !cureSays(p.starts.root, "The window of smoke-grey base always falls between 1 and 5 at night") {
		t.Errorf("%q", texts(p.starts.root))
	}
}

func TestStartsAreForWhatIsStillToBePoured(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	answer := twoStarts(b.Now())
	p.starts.answer, p.starts.about = &answer, model.StartsAbout(&p.shot.Project, &p.shot.Plan)
	b.Enter("shop/room", "15 °C")
	b.settle()
	if p.starts.answer != nil {
		t.Error("an answer for another room is on show")
	}
	for _, layer := range b.Snapshot().Project.Layers {
		if !p.starts.root.Visible() {
			t.Error("no time is offered for " + layer.Name)
		}
		if err := b.StartPour(layer.ID); err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	if p.starts.root.Visible() {
		t.Error("times to pour are offered after the last pour")
	}
}

// TestStartsAreForThePieceThatWasAskedAbout: a question is dropped where another
// piece is opened, and then nothing is looked for any longer.
func TestStartsAreForThePieceThatWasAskedAbout(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	p.starts.calendar = func(func(model.CalendarAnswer, error)) {}
	tapOn(t, p.starts.root, "Find good times to start")
	if !shows(p.starts.root, "Looking through the coming days") {
		t.Fatalf("%q", texts(p.starts.root))
	}
	b.demo("hall-shelf")
	if p.starts.root.Visible() && shows(p.starts.root, "Looking through the coming days") {
		t.Error("the days are looked through for a piece that is not open")
	}
}

// TestStartsAreForTheGroundToo: what an answer goes by is more than the room. A
// failure is told in the maker's words, without the field that it points at.
func TestStartsAreForTheGroundToo(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	answer := twoStarts(b.Now())
	for path, text := range map[string]string{"shop/bench": string(model.BenchMetal), "mold/floor": string(model.FloorGlass), "mold/thick": "4 mm"} {
		p.starts.calendar = func(done func(model.CalendarAnswer, error)) { done(answer, nil) }
		p.starts.ask()
		if p.starts.answer == nil || !shows(p.starts.root, "1 · Start") {
			t.Fatalf("%q", texts(p.starts.root))
		}
		b.Enter(path, text)
		b.settle()
		if p.starts.answer != nil {
			t.Errorf("%s is %s, and the times are those of before", path, text)
		}
	}
	p.starts.calendar = func(done func(model.CalendarAnswer, error)) {
		done(model.CalendarAnswer{}, &model.Problem{Field: "layers/l1", Message: "the base has no depth"})
	}
	p.starts.ask()
	if !shows(p.starts.root, "There is no such time. The base has no depth") {
		t.Errorf("%q", texts(p.starts.root))
	}
}
