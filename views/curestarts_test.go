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
	p.starts.answer, p.starts.about = &answer, startsAbout(&p.shot)
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
	p.starts.answer, p.starts.about = &model.CalendarAnswer{None: "the window of smoke-grey base always falls between 1 and 5 at night"}, startsAbout(&p.shot)
	p.starts.draw()
	if !cureSays(p.starts.root, "The window of smoke-grey base always falls between 1 and 5 at night") {
		t.Errorf("%q", texts(p.starts.root))
	}
}

func TestStartsAreForWhatIsStillToBePoured(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	answer := twoStarts(b.Now())
	p.starts.answer, p.starts.about = &answer, startsAbout(&p.shot)
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
