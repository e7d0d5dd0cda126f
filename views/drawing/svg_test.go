package drawing

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

func TestSVGIsWellFormed(t *testing.T) {
	st := styleOf(paper)
	st.Live = false
	for _, e := range examples() {
		s := NewSVG(190, 130, testFonts(t), "Go, sans-serif")
		e.plan.Drawing.Cavities[0].Pieces[0].Name = `Oak <"A"> & co`
		plan := PlanScene{Plan: e.plan, Mold: e.mold, Style: st}
		plan.Paint(s, plan.Fit(s.Bounds()))
		cut := SectionScene{Plan: e.plan, Style: st}
		cut.Paint(s, cut.Fit(s.Bounds()))
		fillCurve().Paint(s, st)
		doc := s.Bytes(`Tray & "lid"`)
		d := xml.NewDecoder(bytes.NewReader(doc))
		elements := map[string]int{}
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", e.name, err)
			}
			if el, ok := tok.(xml.StartElement); ok {
				elements[el.Name.Local]++
			}
		}
		if elements["path"] < 20 || elements["text"] < 10 || elements["svg"] != 1 {
			t.Errorf("%s: elements %v", e.name, elements)
		}
		for _, want := range []string{`width="190mm"`, `viewBox="0 0 190 130"`, "Tray &amp; &#34;lid&#34;", `stroke-width="0.5"`} {
			if !strings.Contains(string(doc), want) {
				t.Errorf("%s: no %s", e.name, want)
			}
		}
		if strings.Contains(string(doc), "NaN") || strings.Contains(string(doc), "Inf") {
			t.Errorf("%s: not a number in the document", e.name)
		}
	}
}

func TestSVGWritesMillimetres(t *testing.T) {
	s := NewSVG(100, 50, testFonts(t), "Go")
	s.Stroke(Pen{Name: "outline", Width: 2, Colour: paper.Ink, Dash: dashed}, Line(Pt{4, 8}, Pt{40, 8}))
	got := string(s.Bytes(""))
	want := `<path class="outline" d="M1 2L10 2" fill="none" stroke="#2b2926" stroke-width="0.5" stroke-dasharray="1.5 0.75"/>`
	if !strings.Contains(got, want) {
		t.Errorf("got %s\nwant %s", got, want)
	}
}
