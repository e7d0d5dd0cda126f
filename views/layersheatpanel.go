package views

import (
	"fmt"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// heatPanel is the part "heat" of the window Layers: what the simulation says of
// the chosen pour, what would be if something were otherwise, and what the
// planner proposes.
type heatPanel struct {
	page     *layersPage
	strip    *whatIf   // of the chosen pour; nil before one is shown
	proposal *proposal // of the whole piece

	ask     func(layer string, w model.WhatIf, done func(model.WhatIfAnswer, error))
	propose func(done func(model.StageProposal, error))
}

func newHeatPanel(p *layersPage) *heatPanel {
	return &heatPanel{page: p, proposal: newProposal(p), ask: p.desk.session.Ask, propose: p.desk.session.Propose}
}

// heatKey tells when the part has to be built anew: when what can be said of the
// chosen pour is of another kind, not when a figure changes.
func heatKey(s *shotOf) string {
	if s.layer == nil {
		return ""
	}
	key := ""
	for i := range s.Curing.Layers {
		l := &s.Curing.Layers[i]
		if l.ID != s.layer.ID {
			continue
		}
		key = fmt.Sprint(l.Ready, l.RunsAway, l.Beside != nil, l.Stall != nil, len(l.Narrow), long(l.Room.Text), long(l.Deepest.Text))
		for _, f := range []model.Figured{model.FigPeak, model.FigRoom, model.FigDeepest, model.FigGradient, model.FigStall} {
			_, has := l.Workings[f]
			key += fmt.Sprint(has)
		}
	}
	return key
}

// build makes the part for the chosen pour.
func (h *heatPanel) build(s *shotOf) fyne.CanvasObject {
	if _, ok := s.curing(); !ok {
		why := touch.NewText("", touch.Body, touch.Ink)
		h.page.live(func(s *shotOf) { why.SetText(notSimulated(s)) })
		return stack(touch.NewCard("How warm it gets", why), h.levels(s))
	}
	strip := newWhatIf(h.page, s)
	h.strip = strip
	h.page.live(func(s *shotOf) {
		if _, ok := s.curing(); ok && s.layer.ID == strip.layer {
			strip.see(s)
		}
	})
	return stack(h.answers(s), h.peak(s), strip.root, h.levels(s))
}

// levels is the card of the planner's levels.
func (h *heatPanel) levels(s *shotOf) fyne.CanvasObject {
	h.proposal.built = "" // in the light of the moment
	h.page.live(h.proposal.see)
	return h.proposal.root
}

// notSimulated says why nothing is told of the chosen pour.
func notSimulated(s *shotOf) string {
	for i := range s.Curing.Layers {
		if l := &s.Curing.Layers[i]; l.ID == s.layer.ID && l.Why != "" {
			return capitalised(l.Why) + "."
		}
	}
	switch {
	case !s.CuringFresh:
		return "Working it out…"
	case s.CuringTrouble != "":
		return capitalised(s.CuringTrouble) + "."
	}
	return "How warm it gets is not known."
}

// answers are the two figures that no data sheet gives, in large type.
func (h *heatPanel) answers(s *shotOf) fyne.CanvasObject {
	room := h.answer(s, "Warmest room for this pour", model.FigRoom, func(s *shotOf, l *model.LayerCuring) (figure, now, reason string) {
		return l.Room.Text, "Today it is " + s.Project.Style.Temperature(s.layer.Times.Room) + ".", l.Room.Reason
	})
	deepest := h.answer(s, "Deepest safe pour today", model.FigDeepest, func(s *shotOf, l *model.LayerCuring) (figure, now, reason string) {
		return l.Deepest.Text, "This one is " + s.Project.Style.Length(s.layer.Depth) + ".", l.Deepest.Reason
	})
	busy := touch.NewLine("working it out…", touch.Small, touch.Faint)
	h.page.live(func(s *shotOf) { busy.Hidden = s.CuringFresh })
	return touch.NewCard("This pour, here and today", sideBySideUpTo(2, room, deepest), container.NewCenter(busy))
}

// answer is one of them: its name, its figure, what it stands against, and why.
func (h *heatPanel) answer(s *shotOf, name string, fig model.Figured, of func(*shotOf, *model.LayerCuring) (figure, now, reason string)) fyne.CanvasObject {
	role := touch.Reading
	if l, ok := s.curing(); ok {
		if figure, _, _ := of(s, l); long(figure) {
			role = touch.Strong
		}
	}
	number := h.figure(s, role, fig, func(s *shotOf, l *model.LayerCuring) string {
		figure, _, _ := of(s, l)
		return figure
	})
	now, reason := touch.NewText("", touch.Body, touch.Ink), touch.NewText("", touch.Small, touch.Faint)
	h.page.live(func(s *shotOf) {
		if l, ok := s.curing(); ok {
			_, words, why := of(s, l)
			now.SetText(words)
			reason.SetText(capitalised(why))
		}
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewText(name, touch.Small, touch.Faint), number, now, reason)
}

// long tells whether an answer is words rather than a figure, which have no room
// in large type.
func long(answer string) bool { return utf8.RuneCountInString(answer) > 10 }

// figure is a figure of the chosen pour that opens its working where there is
// one.
func (h *heatPanel) figure(s *shotOf, role touch.Role, fig model.Figured, words func(*shotOf, *model.LayerCuring) string) fyne.CanvasObject {
	o := newOpens(h.page.opened, s.Snapshot, "", role, figureOf(s.layer.ID, fig))
	h.page.live(func(s *shotOf) {
		l, ok := s.curing()
		if !ok {
			return
		}
		switch o := o.(type) {
		case *touch.Opens:
			o.SetText(words(s, l))
		case *touch.Text:
			o.SetText(words(s, l))
		}
	})
	return container.NewHBox(o)
}

// peak tells how hot the pour gets, where and when, against its limit.
func (h *heatPanel) peak(s *shotOf) fyne.CanvasObject {
	number := h.figure(s, touch.Title, model.FigPeak, func(s *shotOf, l *model.LayerCuring) string {
		if l.RunsAway {
			return "runs away after " + spanWords(s.Project.Style, l.RunsAfter)
		}
		return tempWords(s.Project.Style, l.Peak)
	})
	verdict := newVerdict()
	where := touch.NewText("", touch.Body, touch.Ink)
	h.page.live(func(s *shotOf) {
		if l, ok := s.curing(); ok {
			level, word, text := peakVerdict(s.Project.Style, l)
			verdict.set(level, word, text)
			where.SetText(peakPlace(s, l))
		}
	})
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4), number, verdict.root, where)
	if l, _ := s.curing(); l.Beside != nil && !l.RunsAway {
		beside := touch.NewText("", touch.Body, touch.Ink)
		h.page.live(func(s *shotOf) {
			if l, ok := s.curing(); ok && l.Beside != nil {
				beside.SetText(fmt.Sprintf("Reckoned across the %s of resin between the wood as well:", s.Project.Style.Length(l.Beside.Width)))
			}
		})
		rows.Add(beside)
		rows.Add(h.figure(s, touch.Strong, model.FigBeside, func(s *shotOf, l *model.LayerCuring) string {
			if l.Beside == nil {
				return ""
			}
			return tempWords(s.Project.Style, l.Beside.Peak)
		}))
	}
	if l, _ := s.curing(); !l.RunsAway {
		h.gradient(s, rows)
		h.stall(s, rows)
	}
	h.narrow(s, rows)
	return touch.NewCard("Peak heat", rows)
}

// peakPlace says where and when the pour is hottest.
func peakPlace(s *shotOf, l *model.LayerCuring) string {
	st := s.Project.Style
	if l.RunsAway {
		return "Past this nothing can be told: it heats itself faster than it can cool."
	}
	return fmt.Sprintf("%s after its pour, %s from the floor.", spanWords(st, l.PeakAfter), heightWords(st, l.PeakHeight))
}

// peakVerdict holds the peak against its limit, in a word and in full.
func peakVerdict(st unit.Style, l *model.LayerCuring) (level touch.Level, word, text string) {
	limit := "its limit is not known"
	if !l.PeakLimit.Absent {
		limit = "its limit is " + tempWords(st, l.PeakLimit)
		if l.PeakLimit.Source != "" {
			limit += ", " + l.PeakLimit.Source
		}
	}
	switch {
	case l.RunsAway || l.PeakCheck == model.Beyond:
		return touch.Stop, peakWords[model.Beyond], limit
	case l.PeakCheck == model.Fine:
		return touch.Fine, peakWords[model.Fine], limit
	case !l.PeakLimit.Absent:
		return touch.Check, peakWords[model.NotKnown], limit
	}
	return touch.Check, "not known", limit
}

// gradient says whether the difference through the pour is likely to crack it.
func (h *heatPanel) gradient(s *shotOf, rows *fyne.Container) {
	number := h.figure(s, touch.Strong, model.FigGradient, func(s *shotOf, l *model.LayerCuring) string {
		if l.Gradient.Absent {
			return "not known"
		}
		return riseWords(s.Project.Style, l.Gradient)
	})
	verdict := newVerdict()
	h.page.live(func(s *shotOf) {
		l, ok := s.curing()
		if !ok {
			return
		}
		switch l.Cracks {
		case model.Fine:
			verdict.set(touch.Fine, "even enough", "not likely to crack")
		case model.Beyond:
			verdict.set(touch.Stop, "uneven", "likely to crack")
		default:
			verdict.set(touch.Check, "not known", "whether it cracks")
		}
	})
	rows.Add(container.NewBorder(nil, nil, nil, number, container.NewVBox(layout.NewSpacer(), touch.NewText("From its hottest to its coolest place, once set", touch.Body, touch.Ink), layout.NewSpacer())))
	rows.Add(verdict.root)
}

// stall says that the pour stays rubbery, and what would help.
func (h *heatPanel) stall(s *shotOf, rows *fyne.Container) {
	if l, _ := s.curing(); l.Stall == nil {
		return
	}
	words := h.figure(s, touch.Strong, model.FigStall, func(s *shotOf, l *model.LayerCuring) string {
		if l.Stall == nil {
			return ""
		}
		return capitalised(l.Stall.Text)
	})
	rows.Add(container.NewBorder(nil, nil, container.NewCenter(touch.NewSign(touch.Check, 20)), nil, words))
}

// narrowWords says how much of the band a missing figure makes, in tenths: the
// share itself is an estimate.
func narrowWords(n model.Narrowing) string {
	tenths := max(1, min(10, int(10*n.Part+0.5)))
	return fmt.Sprintf("%s: about %d in 10 parts of what is unsure here.", capitalised(n.Label), tenths)
}

// narrow names the missing figures that would narrow the band most, and how to
// learn them.
func (h *heatPanel) narrow(s *shotOf, rows *fyne.Container) {
	l, _ := s.curing()
	const most = 2
	for i := range min(len(l.Narrow), most) {
		words := touch.NewText("", touch.Body, touch.Ink)
		learn := touch.NewText("", touch.Small, touch.Faint)
		h.page.live(func(s *shotOf) {
			l, ok := s.curing()
			if !ok || i >= len(l.Narrow) {
				return
			}
			n := l.Narrow[i]
			words.SetText(narrowWords(n))
			learn.SetText(capitalised(n.Learn))
		})
		field := l.Narrow[i].Field
		show := touch.NewStyledButton("Give it", touch.Quiet, func() {
			h.page.desk.goTo(model.Finding{Field: field, Subject: model.OfLayers})
		})
		rows.Add(container.NewBorder(nil, nil, nil, container.NewVBox(show), container.New(layout.NewCustomPaddedVBoxLayout(1), words, learn)))
	}
}
