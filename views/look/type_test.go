package look

import (
	"bytes"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// TestTypeIsWholeOnceWanted: what ours lack is shown by the toolkit's own faces as
// soon as it is written, and these are as they were.
func TestTypeIsWholeOnceWanted(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(New(Light))
	const smile = "\U0001F600"
	want := fyne.MeasureText(smile, 14, fyne.TextStyle{}).Width
	own := [][]byte{theme.DefaultTextFont().Content(), theme.DefaultTextBoldFont().Content(), theme.DefaultEmojiFont().Content()}

	whole.wanted.Store(false)
	ReadType(a)()
	ReadType(a)() // a second time lends nothing more
	t.Cleanup(func() { whole.giveBack() })
	if bytes.Equal(theme.DefaultEmojiFont().Content(), own[2]) {
		t.Fatal("nothing is lent")
	}
	Width("½ × 12.5 mm → ●\tПривет", 14, fyne.TextStyle{})
	if WholeType(a); len(whole.faces) == 0 {
		t.Error("given back for letters of our own")
	}
	Width("oak "+smile, 14, fyne.TextStyle{})
	WholeType(a)
	for i, face := range []fyne.Resource{theme.DefaultTextFont(), theme.DefaultTextBoldFont(), theme.DefaultEmojiFont()} {
		if !bytes.Equal(face.Content(), own[i]) {
			t.Errorf("face %d is not as it was", i)
		}
	}
	if got := fyne.MeasureText(smile, 14, fyne.TextStyle{}).Width; got != want {
		t.Errorf("the smile is %g wide, and was %g", got, want)
	}
}
