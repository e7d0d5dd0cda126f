package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/views/touch"
)

// signsOf gives the signs that are seen in what is laid out.
func signsOf(o fyne.CanvasObject) (list []*touch.Sign) {
	for _, x := range test.LaidOutObjects(o) {
		if s, ok := x.(*touch.Sign); ok && s.Visible() {
			list = append(list, s)
		}
	}
	return list
}

// A good fact and a bad one are known without their colour (Web Content Accessibility
// Guidelines 2.2, 1.4.1, use of colour): a sign stands before the value, clear of the name.
func TestFactsHaveASign(t *testing.T) {
	b := newBench(t, newFakeStore())
	tone := touch.GoodTone
	box := newCards(newInputs(b.desk, moldKey))
	facts := box.facts(func(*app.Snapshot) []moldFact {
		return []moldFact{{name: "Hole 1, from the nearest edge", value: "-3 mm", tone: tone}, {name: "It stands where it is", tone: tone}}
	})
	see := func(to touch.Tone) {
		tone = to
		shot := b.Snapshot()
		box.see(&shot)
		facts.Resize(fyne.NewSize(300, facts.MinSize().Height))
	}
	for _, c := range []struct {
		tone touch.Tone
		want int
	}{{touch.GoodTone, 2}, {touch.StopTone, 2}, {touch.Ink, 0}, {touch.CheckTone, 2}} {
		see(c.tone)
		if got := signsOf(facts); len(got) != c.want {
			t.Errorf("tone %d: %d signs, want %d", c.tone, len(got), c.want)
		}
	}
	line := facts.Objects[0].(*fyne.Container).Objects
	name, value, sign := line[0], line[1], signsOf(facts)[0]
	if at := value.Position().X + sign.Position().X; at < name.Position().X+name.Size().Width {
		t.Errorf("the sign at %v lies on the name, %v wide", at, name.Size())
	}
}
