package views

import (
	"fmt"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// againLessons is the part that tells what all runs of the notebook say of the
// maker's own losses, and offers them.
type againLessons struct {
	page    *againPage
	lessons model.Lessons
	of      string
	round   int
	picture *drawing.Picture
	box     *fyne.Container
	scroll  *touch.Scroll
	take    *touch.Button
	keep    *touch.Button
	usual   *touch.Button
	root    fyne.CanvasObject
}

func newAgainLessons(page *againPage) *againLessons {
	l := &againLessons{page: page, box: container.New(layout.NewCustomPaddedVBoxLayout(10))}
	l.picture = drawing.NewPicture(page.desk.fonts, fyne.NewSize(300, 200), page.desk.palette().Ground, nil)
	l.scroll = touch.NewScroll(inset(l.box))
	l.take = touch.NewStyledButton("Take these as my own", touch.Primary, l.takeThem)
	l.keep = touch.NewButton("Begin new pieces with these", func() { l.keepThem(l.lessons.Losses()) })
	l.usual = touch.NewStyledButton("Begin new pieces as usual again", touch.Quiet, func() { l.keepThem(model.Losses{}) })
	l.root = l.scroll
	return l
}

func (l *againLessons) content() fyne.CanvasObject { return l.root }

func (l *againLessons) act() *touch.Button { return l.take }

// see gathers what the runs say, anew where the open piece has changed.
func (l *againLessons) see(shot *app.Snapshot, fresh bool) {
	of := fmt.Sprint(shot.Project.ID, " ", shot.Planned, " ", shot.Shelf.Losses)
	if of == l.of && !fresh {
		l.paint()
		return
	}
	l.of = of
	l.take.Disable()
	l.round++
	round := l.round
	if len(l.box.Objects) == 0 {
		refill(l.box, l.scroll, touch.NewText("Reading all runs…", touch.Body, touch.Faint))
	}
	l.page.desk.session.Lessons(func(got model.Lessons, err error) {
		if round == l.round {
			l.fill(got, err)
		}
	})
}

// fill shows what was gathered.
func (l *againLessons) fill(got model.Lessons, err error) {
	l.lessons = got
	shot := l.page.desk.session.Snapshot()
	if got.Any() && !shot.Saved.Closed {
		l.take.Enable()
	} else {
		l.take.Disable()
	}
	kept := shot.Shelf.Losses
	l.keep.Hidden = !got.Any() || shot.Saved.Closed || kept == got.Losses()
	l.usual.Hidden = !kept.Given() || shot.Saved.Closed
	var list []fyne.CanvasObject
	if err != nil {
		list = append(list, touch.NewText(capitalised(err.Error())+".", touch.Body, touch.CheckTone))
	}
	if len(got.Points) == 0 {
		list = append(list, touch.NewText("No run says anything yet.", touch.Title, touch.Ink),
			touch.NewText("Once A and B of a pour are weighed and the pour is noted, it is a point here: what was mixed over what was planned. Weigh the cups once they are emptied, and note what was left over, and it says what stays in your cups, what the wood soaks up and what creeps below it. Demo jobs are invented and are not counted.", touch.Body, touch.Faint),
			container.New(&whereWide{}, newMethod(l.page.desk, drawing.MethodLeft, methodAmong)))
	} else {
		list = append(list, touch.NewCard("All pours of the shop", container.New(layout.NewCustomPaddedVBoxLayout(6), l.picture, touch.NewText(got.Used.Label+": "+got.Used.Words+".", touch.Body, touch.Ink))))
		l.paint()
	}
	body := container.New(layout.NewCustomPaddedVBoxLayout(8))
	own := againLearnt(body, &got.Film) + againLearnt(body, &got.Least) + againLearnt(body, &got.Soak) + againLearnt(body, &got.Creep)
	title := "What you lose, by your own runs"
	if own == 0 {
		title = "What is usually lost"
	}
	if own > 0 {
		body.Add(touch.NewText("Only if you want to, these take the place of the usual losses in the open piece, as one step that Undo takes back. The limits of the data sheets stay as they are.", touch.Small, touch.Faint))
	}
	if kept.Given() {
		body.Add(touch.NewText("New pieces begin with your own losses as they were kept, by "+counted(kept.Runs, "run", "runs")+"; in each of them Undo takes them out.", touch.Small, touch.Ink))
	}
	body.Add(container.NewHBox(l.keep, l.usual))
	list = append(list, touch.NewCard(title, body))
	if len(got.Points) > 0 {
		list = append(list, touch.NewCard("The newest pours", l.pours(shot.Project.Style)))
	}
	refill(l.box, l.scroll, list...)
}

// againLearnt adds one loss; it counts 1 where a run told something of it.
func againLearnt[Q unit.Quantity](body *fyne.Container, x *model.Learnt[Q]) int {
	tone, own := touch.Faint, 0
	if x.Own() {
		tone, own = touch.Ink, 1
	}
	row := container.New(againColumns{0.28, 0.72}, touch.NewText(x.Label, touch.Strong, tone), touch.NewText(x.Words, touch.Body, tone))
	body.Add(row)
	return own
}

// paint draws the chart.
func (l *againLessons) paint() {
	if len(l.lessons.Points) == 0 {
		return
	}
	style := drawing.Style{Palette: l.page.desk.palette()}
	chart := usedChart(&l.lessons)
	l.picture.Set(style.Palette.Ground, func(to drawing.Surface) { chart.Paint(to, style) })
}

// usedChart shows for each pour what was mixed over what was planned, with the
// band in which one more is likely to lie.
func usedChart(l *model.Lessons) drawing.Chart {
	n := len(l.Points)
	c := drawing.Chart{
		X: drawing.Axis{Title: "Pour", Min: 0.5, Max: float64(n) + 0.5, Format: func(v float64) string {
			if k := int(math.Round(v)); math.Abs(v-float64(k)) < 1e-6 && k >= 1 && k <= n {
				return strconv.Itoa(k)
			}
			return ""
		}},
		Y: drawing.Axis{Title: "Mixed over planned", Min: 0.9, Max: 1.1},
	}
	line := drawing.Series{Role: drawing.Second}
	for i, p := range l.Points {
		line.Points = append(line.Points, drawing.Pt{X: float64(i + 1), Y: p.Ratio})
		c.Y.Min, c.Y.Max = min(c.Y.Min, p.Ratio-0.05), max(c.Y.Max, p.Ratio+0.05)
	}
	c.Y.Min, c.Y.Max = max(0, min(c.Y.Min, float64(l.Used.Low)-0.03)), max(c.Y.Max, float64(l.Used.High)+0.03)
	c.Series = []drawing.Series{{Name: "as planned", Role: drawing.Hint, Dashed: true, Points: []drawing.Pt{{X: c.X.Min, Y: 1}, {X: c.X.Max, Y: 1}}}, line}
	wide, high := (c.X.Max-c.X.Min)*0.004, (c.Y.Max-c.Y.Min)*0.03
	for _, at := range line.Points { // a diamond for each pour
		c.Series = append(c.Series, drawing.Series{Role: drawing.Main, Points: []drawing.Pt{at.Add(-wide, 0), at.Add(0, high), at.Add(wide, 0), at.Add(0, -high), at.Add(-wide, 0)}})
	}
	c.Bands = []drawing.Band{{From: float64(l.Used.Low), To: float64(l.Used.High), Up: true, Text: "one more is likely to lie here", Role: drawing.Well}}
	return c
}

// pourShares are the columns of the pours: the number in the chart, the pour,
// planned, mixed, ratio.
var pourShares = againColumns{0.06, 0.46, 0.18, 0.18, 0.12}

// mostPours are listed, the newest first.
const mostPours = 12

// pours lists the newest points of the chart by name.
func (l *againLessons) pours(s unit.Style) fyne.CanvasObject {
	box := container.New(layout.NewCustomPaddedVBoxLayout(4), againHead(pourShares, "", "pour", "planned", "mixed", "ratio"))
	for i := len(l.lessons.Points) - 1; i >= max(0, len(l.lessons.Points)-mostPours); i-- {
		x := &l.lessons.Points[i]
		box.Add(againRow(pourShares, touch.Ink, strconv.Itoa(i+1), nameOf(x.Name)+", "+x.Layer, s.Mass(x.Planned), s.Mass(x.Used), fmt.Sprintf("× %.2f", x.Ratio)))
	}
	return box
}

// keepThem has new pieces begin with the maker's own losses, or with none.
func (l *againLessons) keepThem(own model.Losses) {
	d := l.page.desk
	if err := d.session.KeepLosses(own); err != nil {
		d.say(notice{level: model.Check, what: "Nothing was kept", do: problemWords(err)})
		return
	}
	if own.Given() {
		d.sayBriefly("New pieces begin with your own losses", "They stand in Mixing there; Undo in the new piece takes them out, Undo in Shelf what is kept.")
	} else {
		d.sayBriefly("New pieces begin with the usual losses", "")
	}
}

// takeThem puts the losses into the open piece.
func (l *againLessons) takeThem() {
	l.page.commit()
	if err := l.page.desk.session.TakeLessons(l.lessons); err != nil {
		l.page.desk.say(notice{level: model.Check, what: "Nothing was taken over", do: problemWords(err)})
		return
	}
	l.page.desk.sayBriefly("The open piece is planned with your own losses", "They stand in Mixing; Undo takes them back.")
}
