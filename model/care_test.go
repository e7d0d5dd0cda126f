package model

import (
	"encoding/json"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestNothingIsCalledFoodSafe: of food the plan and the card say what the sheet
// says, in quotation marks, and nothing else.
func TestNothingIsCalledFoodSafe(t *testing.T) {
	p := demo(t, "breakfast-boards")
	p.Finish.Use.As = UseBoard
	for _, quote := range []string{"", "once fully cured, brief contact with dry food (invented)"} {
		p.Finish.Use.Food = quote
		pl := Make(p)
		text, err := json.Marshal(pl)
		if err != nil {
			t.Fatal(err)
		}
		for _, claim := range []string{"food safe", "food-safe", "safe for food", "foodsafe"} {
			if strings.Contains(strings.ToLower(string(text)), claim) {
				t.Errorf("the plan says %q", claim)
			}
		}
		card := strings.Join(pl.Finish.Use.Card.Lines, "\n")
		if quote == "" {
			if !strings.Contains(card, "Nothing is claimed about food") || finding(pl, "use.food").Level != Note {
				t.Errorf("without a quotation the card says\n%s", card)
			}
		} else if !strings.Contains(card, "“"+quote+"”") || !strings.Contains(card, "supplier's sheet") || !strings.Contains(card, "Nothing beyond that is claimed") {
			t.Errorf("the card says\n%s", card)
		}
	}
}

// TestHeatOfUse: the limit is 10 °C below the layer that softens first; where no
// sheet tells, no figure is promised.
func TestHeatOfUse(t *testing.T) {
	p := tray(300, 200, 40, 20)
	p.Sheets = append(p.Sheets, sheetBy("s2", 45))
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(5), Sheet: "s2"})
	p.Sheets[0].Softening = Figure[unit.Temperature]{Taken: given(unit.Celsius(62))}
	p.Sheets[1].Softening = Figure[unit.Temperature]{Taken: given(unit.Celsius(54))}
	u := Make(p).Finish.Use
	within(t, "limit", u.Limit.Celsius(), 44, 1e-9)
	if u.Softens.Typical || !strings.HasPrefix(u.Card.Lines[0], "Nothing warmer than 44 °C on it: the resin softens at 54 °C.") {
		t.Errorf("%+v", u)
	}
	p.Sheets[0].Softening = Figure[unit.Temperature]{}
	u = Make(p).Finish.Use
	if !u.Softens.Typical || strings.Contains(u.Card.Lines[0], "40 °C on it") || !strings.HasPrefix(u.Card.Lines[0], "Nothing hot on it.") {
		t.Errorf("with one sheet silent: %+v", u)
	}
}

// TestCoatByHand: both faces of 300 by 200 mm and edges 1,000 mm round and 20 mm
// high are 0.14 m²; three coats at 50 ml/m² are 21 ml, and at 45 g/m² 18.9 g.
func TestCoatByHand(t *testing.T) {
	p := tray(300, 200, 40, 20)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Flatten.Tool = ToolNone
	p.Finish.Coat = Coat{Kind: CoatOil, Count: 3, Spread: given(50 * unit.Millilitre), Weighs: given(45 * unit.Gram)}
	c := Make(p).Finish.Coat
	within(t, "area", c.Area.SquareMillimetres(), 140000, 1e-3)
	within(t, "volume", c.Volume.Value.Millilitres(), 21, 1e-6)
	within(t, "each", c.Each.Millilitres(), 7, 1e-6)
	within(t, "mass", c.Mass.Value.Grams(), 18.9, 1e-6)
	// A board of wood over half of each face: the wood alone takes half.
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(300), Width: mm(100), Thickness: mm(30), Sealed: true, Bedded: true}}
	p.Finish.Coat.Where = CoatWood
	c = Make(p).Finish.Coat
	within(t, "area of the wood", c.Area.SquareMillimetres(), 70000, 1)
}
