package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// proposal is the card of the planner's levels: taken with one touch, and put
// back with one.
type proposal struct {
	page  *layersPage
	root  *touch.Card
	found *model.StageProposal // nil while it is looked for
	wrong string               // why there is none
	asked int                  // edition that it was last asked about
	of    planned              // what found is for
	built string
	shot  *shotOf
}

// planned names a plan: that of a project as one edition brought it.
type planned struct {
	project string
	edition int
}

func plannedIn(shot *app.Snapshot) planned { return planned{shot.Project.ID, shot.Planned} }

// proposalTaken is the name of the step of undo that takes a proposal.
const proposalTaken = "The planner's levels"

func newProposal(p *layersPage) *proposal {
	return &proposal{page: p, root: touch.NewCard("The planner's levels", container.NewStack())}
}

// see shows a snapshot, and has the planner look anew once all that it looks at
// is worked out.
func (c *proposal) see(s *shotOf) {
	c.shot = s
	if c.of.project != s.Project.ID {
		c.found, c.wrong, c.of = nil, "", plannedIn(s.Snapshot)
	}
	if settled := s.CuringFresh && (s.Curing.Banded || len(s.Curing.Layers) == 0); settled && (c.asked == 0 || c.asked != s.Edition) {
		c.asked = s.Edition
		of := plannedIn(s.Snapshot)
		c.page.panel.propose(func(found model.StageProposal, err error) {
			if of.project != c.shot.Project.ID {
				return
			}
			c.found, c.wrong, c.of = &found, "", of
			if err != nil {
				c.found, c.wrong = nil, capitalised(problemWords(err))+"."
			}
			c.show()
		})
	}
	c.show()
}

// show builds the card anew when it says something else.
func (c *proposal) show() {
	taken, fits := c.shot.Undo == proposalTaken, c.of == plannedIn(c.shot.Snapshot)
	key := fmt.Sprint(taken, fits, c.wrong, c.shot.Project.Style)
	if c.found != nil {
		key += fmt.Sprint(*c.found)
	}
	if key == c.built {
		return
	}
	c.built = key
	rows := container.New(layout.NewCustomPaddedVBoxLayout(6))
	if taken {
		back := touch.NewButton("Put the levels back as they were", func() { c.page.desk.commitAll(); c.page.desk.session.Undo() })
		back.Debounce = touch.Settle
		rows.Add(touch.NewText("The planner's levels have been taken.", touch.Body, touch.Ink))
		rows.Add(back)
	}
	switch {
	case c.wrong != "":
		rows.Add(touch.NewText(c.wrong, touch.Body, touch.Ink))
	case c.found == nil:
		rows.Add(touch.NewText("Looking for the fewest pours…", touch.Body, touch.Faint))
	case !c.found.Possible:
		rows.Add(c.impossible())
	case c.found.Same:
		rows.Add(touch.NewText("As it is planned it is best: no way of fewer pours or less risk was found.", touch.Body, touch.Ink))
		rows.Add(c.reasons())
	default:
		rows.Add(c.levels())
		rows.Add(c.reasons())
		if !fits {
			rows.Add(touch.NewText("Looking whether they are still the best…", touch.Body, touch.Faint))
			break
		}
		take := touch.NewStyledButton("Take these levels", touch.Primary, c.take)
		take.Debounce = touch.Settle
		rows.Add(take)
	}
	c.root.SetBody(rows)
	c.page.scroll.Refresh() // its new controls learn where they stand
}

// levels lists the layers of the proposal, the topmost first as they lie.
func (c *proposal) levels() fyne.CanvasObject {
	st := c.shot.Project.Style
	f := c.found
	head := fmt.Sprintf("%d pours", f.Pours)
	if f.Pours == 1 {
		head = "1 pour"
	}
	if now := len(c.shot.Plan.Layers); now != f.Pours {
		head += fmt.Sprintf(" instead of %d", now)
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText(head, touch.Strong, touch.Ink))
	for i := len(f.Layers) - 1; i >= 0; i-- {
		l := &f.Layers[i]
		from := c.shot.Plan.Layer(l.From)
		name := ""
		if from != nil {
			name = " · " + from.Name
		}
		line := fmt.Sprintf("%d%s · %s, up to %s", i+1, name, st.Length(l.Top-l.Bottom), st.Length(l.Top))
		patch := swatch(fyne.NewSize(14, 20))
		paintSwatch(patch, l.Tint.Colour)
		rows.Add(container.NewBorder(nil, nil, container.NewVBox(patch), nil, container.New(layout.NewCustomPaddedVBoxLayout(0),
			touch.NewText(line, touch.Body, touch.Ink), touch.NewText(capitalised(l.Why), touch.Small, touch.Faint))))
	}
	return rows
}

// reasons says what binds, and what else speaks for the proposal.
func (c *proposal) reasons() fyne.CanvasObject {
	rows := container.New(layout.NewCustomPaddedVBoxLayout(2))
	if c.found.Binds != "" {
		rows.Add(touch.NewText("What binds: "+c.found.Binds+".", touch.Body, touch.Ink))
	}
	for _, why := range c.found.Why {
		rows.Add(touch.NewText(capitalised(strings.TrimSuffix(why, "."))+".", touch.Small, touch.Faint))
	}
	return rows
}

// impossible says what keeps the job from being possible, and what would.
func (c *proposal) impossible() fyne.CanvasObject {
	words := c.found.Binds
	if words == "" {
		words = "no levels can be told yet"
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewText(capitalised(words)+".", touch.Strong, touch.Ink))
	if c.found.Change != "" {
		rows.Add(touch.NewText(capitalised(c.found.Change)+".", touch.Body, touch.Ink))
	}
	for _, why := range c.found.Why {
		rows.Add(touch.NewText(capitalised(why)+".", touch.Small, touch.Faint))
	}
	return container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(touch.Check, 20)), nil, rows)
}

// take puts the proposal into the project that it is for, as one step of undo.
func (c *proposal) take() {
	c.page.in.form.CommitAll()
	found, of := *c.found, c.of.project
	err := c.page.desk.session.Edit(proposalTaken, "", func(m *model.Project) error {
		if m.ID != of {
			return &model.Problem{Field: "layers", Message: "another piece is open now: these levels are not for it"}
		}
		return model.ApplyStages(m, found)
	})
	if err != nil {
		c.wrong = capitalised(problemWords(err)) + "."
		c.show()
	}
}
