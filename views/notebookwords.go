package views

import (
	"fmt"
	"strings"
	"time"

	"github.com/dustin/go-humanize"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// openFirst says what a window asks for while no piece is open.
const openFirst = "Open a piece in the notebook, or start a new one."

// poursFirst says what the work after the casting asks for while no casting follows
// from the mold and its pours.
const poursFirst = "Measure the mold and plan a pour first."

// howLong writes the time from now to an instant: "in 2 h 24 min", "5 min ago".
func howLong(t, now time.Time, style unit.Style) string {
	switch left := t.Sub(now).Truncate(time.Second); {
	case left <= -time.Minute:
		return style.Span(unit.SpanOf((-left).Truncate(time.Minute))) + " ago"
	case left < 0:
		return "just now"
	case left < time.Second:
		return "now"
	case left >= 24*time.Hour:
		return "in " + style.Span(unit.SpanOf(left.Truncate(time.Minute)))
	default:
		return "in " + until(t, now)
	}
}

// touched writes when a project was last worked on: "5 minutes ago".
func touched(t, now time.Time) string {
	now = now.Truncate(time.Minute) // so that all rows change together
	if now.Sub(t) < time.Minute {
		return "just now"
	}
	return humanize.RelTime(t, now, "ago", "from now")
}

// counted writes a number of things.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// brief shortens a name that stands within a sentence, or where room is short.
func brief(text string, most int) string {
	if runes := []rune(text); len(runes) > most {
		return strings.TrimSpace(string(runes[:most-1])) + "…"
	}
	return text
}

// headline answers which piece is open and what comes next.
func headline(shot *app.Snapshot, now time.Time) string {
	if !shot.Open {
		return "No piece is open"
	}
	name := brief(shot.Project.Name, 48)
	if name == "" {
		name = "A piece without a name"
	}
	if step, ok := shot.NextStep(now); ok {
		return name + ": " + step.Label + ", " + howLong(step.Due, now, shot.Project.Style)
	}
	if step, ok := nextPour(&shot.Plan); ok {
		return name + ": next, " + step.Label
	}
	for _, c := range shot.Cards {
		if c.ID == shot.Project.ID && c.State != "" {
			return name + ": " + c.State
		}
	}
	return name
}

// nextPour gives the first pour that waits for the maker and not for the clock.
func nextPour(plan *model.Plan) (model.Step, bool) {
	for _, s := range plan.Steps {
		if s.Kind == model.StepPour && s.Due.IsZero() && !s.Past {
			return s, true
		}
	}
	return model.Step{}, false
}

// moldLine says what stands in the window of the mold.
func moldLine(shot *app.Snapshot) string {
	m, s := &shot.Project.Mold, shot.Project.Style
	if !m.Depth.Given() {
		return "not measured yet"
	}
	var size string
	switch m.Kind {
	case model.MoldRound:
		size = s.Length(m.Diameter.Value) + " across"
	case model.MoldPolygon:
		size = s.Length(m.Span.Value) + " across " + string(m.Across)
	case model.MoldOutline:
		size = "traced outline"
	default:
		size = s.LengthNumber(m.Length.Value) + " × " + s.Length(m.Width.Value)
	}
	if m.Count > 1 {
		size = counted(m.Count, "cavity", "cavities") + ", " + size
	}
	return size + ", " + s.Length(m.Depth.Value) + " deep"
}

// layersLine says what stands in the window of the layers.
func layersLine(shot *app.Snapshot) string {
	n := len(shot.Plan.Layers)
	if n == 0 {
		return "no pour planned yet"
	}
	return counted(n, "layer", "layers") + ", " + shot.Project.Style.Length(shot.Plan.Mold.FillLine) + " to the fill line"
}

// mixingLine says what stands in the window of the mixing.
func mixingLine(shot *app.Snapshot) string {
	var amounts []string
	for _, l := range shot.Plan.Layers {
		if l.Status == model.Poured {
			continue
		}
		if !l.Mix.Ready {
			return l.Name + " cannot be weighed yet"
		}
		amounts = append(amounts, shot.Project.Style.MassTo(l.Mix.Total, l.Mix.Step))
	}
	switch n := len(amounts); {
	case len(shot.Plan.Layers) == 0:
		return "nothing to mix yet"
	case n == 0:
		return "all layers are poured"
	case n <= 3:
		return joined(amounts) + " to mix"
	default:
		return counted(n, "mix", "mixes") + ", the next " + amounts[0]
	}
}

// finishLine says what stands in the window of the finishing.
func finishLine(shot *app.Snapshot) string {
	if !shot.Plan.Finish.Ready {
		return "nothing to finish yet"
	}
	return finishAnswer(shot)
}

// shelfLine says what stands in the window of the shelf.
func shelfLine(shot *app.Snapshot) string {
	if len(shot.ShelfPlan.Products) == 0 {
		return "no product on it yet"
	}
	return shelfAnswer(shot)
}

// sentences puts sentences together, each with its full stop.
func sentences(list ...string) string {
	var all []string
	for _, s := range list {
		if s == "" {
			continue
		}
		if !strings.ContainsAny(s[len(s)-1:], ".:;!?") {
			s += "."
		}
		all = append(all, s)
	}
	return strings.Join(all, " ")
}

// joined writes a list: "a, b and c".
func joined(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}

// cureLine says what stands in the window of the cure.
func cureLine(shot *app.Snapshot, now time.Time) string {
	if step, ok := shot.NextStep(now); ok {
		return howLong(step.Due, now, shot.Project.Style) + ": " + step.Label
	}
	for _, l := range shot.Plan.Layers {
		if l.Status == model.Poured {
			return "nothing more is due"
		}
	}
	if len(shot.Plan.Layers) == 0 {
		return "nothing to cure yet"
	}
	return "nothing poured yet"
}

// capitalised writes words as the beginning of a sentence.
func capitalised(text string) string {
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return text
}
