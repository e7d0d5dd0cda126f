package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// moldPage is the window Mold and inserts: the mold with its wood and inserts
// from above and in section, and the inputs for what was measured of them.
type moldPage struct {
	desk  *Desk
	in    *inputs
	frame *frame
	draw  *moldDrawing
	slab  *slabView
	left  *fyne.Container // the mold's drawing or the slab's
	pane  *moldPane

	working *workingPanel // how a figure came about

	shot    app.Snapshot
	project string // ID of the project that the selection is of
	piece   string // ID of the selected piece, or ""
	void    string
	insert  string
	layer   string
}

func newMold(d *Desk, w fyne.Window) page {
	p := &moldPage{desk: d, in: newInputs(d, moldKey)}
	p.draw = newMoldDrawing(p)
	p.slab = newSlabView(p)
	p.left = container.NewStack(p.draw.root)
	p.working = newWorkingPanel(d)
	p.draw.hows()
	p.pane = newMoldPane(p)
	p.in.pad.SetFolded(true) // most of the height is the inputs' until it is asked for
	p.frame = newFrame(d, moldQuestion, p.left, p.working.over(p.pane.root), p.in, model.OfMold)
	w.SetOnDropped(p.slab.trace.dropped)
	return p
}

func (p *moldPage) content() fyne.CanvasObject { return p.frame.root }

// see shows a snapshot. While a piece is dragged its project is the one that
// the finger would leave.
func (p *moldPage) see(shot app.Snapshot) {
	p.shot = shot
	p.working.see(&p.shot)
	if shot.Open && shot.Project.ID != p.project {
		p.project = shot.Project.ID
		p.piece, p.void, p.insert, p.layer = "", "", "", ""
		if len(shot.Project.Pieces) > 0 {
			p.piece = shot.Project.Pieces[0].ID
		}
		if len(shot.Project.Inserts) > 0 {
			p.insert = shot.Project.Inserts[0].ID
		}
		p.draw.whole()
		p.slab.other()
		if shot.Plan.Mold.Capacity.Value <= 0 {
			p.pane.show(moldSizes) // a new piece begins with its mold
		}
	}
	p.pane.ready(&shot)
	p.frame.see(&shot)
	p.drawn()
	p.pane.see(&shot)
}

// turned shows the drawing that goes with the section of the inputs.
func (p *moldPage) turned() {
	shown := p.draw.root
	if p.pane.section == moldSlabs {
		shown = p.slab.root
	}
	if p.left.Objects[0] != shown {
		p.left.Objects[0] = shown
		p.left.Refresh()
		p.drawn()
	}
}

// answered shows the answer to what is asked in the section that is shown.
func (p *moldPage) answered(shot *app.Snapshot) {
	if p.pane.section == moldSlabs && p.slab.slab != "" {
		p.frame.ask(p.slab.question(), p.slab.answer(shot))
		return
	}
	p.frame.ask(moldQuestion, moldAnswer(shot))
}

// moldQuestion is what the window answers.
const moldQuestion = "Does it fit, and what does it hold?"

// drawn brings the drawing that is shown up to date.
func (p *moldPage) drawn() {
	if p.left.Objects[0] == p.slab.root {
		p.slab.see(&p.shot)
		return
	}
	p.draw.see(&p.shot)
}

// kept shows that only the disk has caught up.
func (p *moldPage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

// focus leads to the input of a field, past the selection that hides it.
func (p *moldPage) focus(field string) bool {
	section, ok := moldSectionOf(field)
	if !ok || !p.shot.Open {
		return false
	}
	parts := strings.Split(field, "/")
	if len(parts) > 1 {
		switch parts[0] {
		case "pieces":
			p.piece = parts[1]
			if len(parts) > 3 && parts[2] == "voids" {
				p.void = parts[3]
			}
			if len(parts) > 2 && parts[2] == "top" {
				p.pane.tops[parts[1]] = true
			}
		case "inserts":
			p.insert = parts[1]
		case "slabs":
			p.slab.lead(parts[1:])
		case "mold":
			if len(parts) > 3 && parts[2] == "seams" {
				p.pane.seam = parts[3]
			}
		}
	}
	p.pane.show(section)
	p.drawn()
	return p.pane.focus(field)
}

func (p *moldPage) part() string { return p.pane.choices[0].Words() + p.pane.choices[1].Words() }

func (p *moldPage) commit() { p.in.form.CommitAll() }

func (p *moldPage) tick(time.Time) {}

// selectPiece makes a piece the one that is shown and leads to its inputs.
func (p *moldPage) selectPiece(id string) {
	if id == p.piece && p.pane.section == moldWood {
		return
	}
	if id != p.piece {
		p.piece, p.void = id, ""
	}
	if id != "" && p.pane.section != moldNature {
		p.pane.show(moldWood)
	} else {
		p.pane.again()
	}
	p.drawn()
}

// moldAnswer says in its first line whether the wood fits, and in its second
// what the mold holds. It always has these two once the mold is measured, so
// that the drawing below stays where it is while a piece is dragged.
func moldAnswer(shot *app.Snapshot) string {
	if !shot.Open {
		return "No piece is open"
	}
	m, s := &shot.Plan.Mold, shot.Project.Style
	if m.Capacity.Value <= 0 {
		return "Not measured yet"
	}
	text := moldFitAnswer(shot) + "\nHolds " + s.Volume(m.Capacity.Value) + " to the rim"
	if m.FillLine <= 0 {
		return text + "; no pour is planned yet"
	}
	text += ", " + s.Volume(m.Resin) + " of resin to the fill line"
	share := fmt.Sprintf("%.0f %%", 100*shot.Plan.SolidShare())
	switch wood, inserts := len(shot.Plan.Pieces) > 0, len(shot.Plan.Inserts) > 0; {
	case wood && inserts:
		text += "; solids " + share
	case wood:
		text += "; wood " + share
	case inserts:
		text += "; inserts " + share
	}
	return text
}

// touching is the gap below which wood is told to touch the wall.
const touching = unit.Millimetre / 20

// moldFitAnswer says whether the wood fits, or what does not and by how much.
func moldFitAnswer(shot *app.Snapshot) string {
	s := shot.Project.Style
	bad, text := 0, ""
	for i := range shot.Plan.Pieces {
		p := &shot.Plan.Pieces[i]
		fit := &p.Fit
		if fit.Fits {
			continue
		}
		if bad++; bad > 1 {
			continue
		}
		text = capitalised(brief(p.Name, 26)) + " does not fit: "
		const seen = unit.Millimetre / 10
		switch {
		case fit.LongBy > seen && fit.WideBy > seen:
			text += s.Length(fit.LongBy) + " too long, " + s.Length(fit.WideBy) + " too wide"
		case fit.LongBy > seen:
			text += s.Length(fit.LongBy) + " too long"
		case fit.WideBy > seen:
			text += s.Length(fit.WideBy) + " too wide"
		default:
			text += s.Length(fit.Over) + " beyond the wall"
		}
		if fit.OverAt <= 0 {
			text += " at the floor"
		}
	}
	switch {
	case bad > 1:
		return fmt.Sprintf("%d pieces of wood do not fit. %s", bad, text)
	case bad == 1:
		return text
	case len(shot.Plan.Pieces) == 0 && len(shot.Project.Pieces) > 0:
		return "The wood is not fully measured yet"
	case len(shot.Plan.Pieces) == 0:
		return "No wood is measured yet"
	case len(shot.Plan.Pieces) < len(shot.Project.Pieces):
		return "It fits, as far as it is measured"
	}
	_, tightest := shot.Plan.Tightest()
	gap := max(0, tightest.Least)
	if gap < touching {
		return "It only just fits: it touches the wall"
	}
	if gap < model.LeastGap-1e-6 {
		return "It only just fits: the tightest gap is " + s.Length(gap)
	}
	return "It fits; the tightest gap is " + s.Length(gap)
}
