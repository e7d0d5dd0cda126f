package views

import (
	"fmt"
	"strings"

	"meniscus/app"
)

// layersGuide says what the section waits for.
func layersGuide(shot *app.Snapshot) string {
	if !shot.Open {
		return openFirst
	}
	return "Measure the mold first, in the window Mold and inserts. Then its section is drawn here to scale, with every pour in it."
}

// layersAnswer answers the window's question.
func layersAnswer(shot *app.Snapshot) string {
	s, list := shot.Project.Style, shot.Plan.Layers
	if len(list) == 0 {
		return "No pour is planned yet"
	}
	depths := make([]string, len(list))
	for i := range list {
		depths[i] = "one not measured"
		if list[i].Depth > 0 {
			depths[i] = s.Length(list[i].Depth)
		}
	}
	m := &shot.Plan.Mold
	if m.FillLine <= 0 {
		return "Say how deep the first pour is"
	}
	where := fmt.Sprintf("Fill line %s from the floor", s.Length(m.FillLine))
	switch {
	case m.Depth <= 0:
	case m.Freeboard < 0:
		where += fmt.Sprintf(", %s above the rim", s.Length(-m.Freeboard))
	case m.Freeboard == 0:
		where += ", at the rim"
	default:
		where += fmt.Sprintf(", %s down from the rim", s.Length(m.Freeboard))
	}
	if len(list) == 1 {
		return fmt.Sprintf("1 pour of %s\n%s", depths[0], where)
	}
	return fmt.Sprintf("%d pours: %s\n%s", len(list), strings.Join(depths, ", then "), where)
}
