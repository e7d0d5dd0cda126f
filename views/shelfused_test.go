package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/touch"
)

// TestShelfUsedUp: what a piece used up is noted beside the count, comes off it,
// and goes into the journal; beside every count it is said what goes by hand.
func TestShelfUsedUp(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	sheet := b.Snapshot().Project.Sheets[0]
	err := b.EditShelf("Fill it", "", func(m *model.Shelf) error {
		m.AddConsumable()
		m.Consumables[0].Number = 10
		m.AddTint()
		m.AddCup()
		m.KeepInsert(b.Snapshot().Project.Inserts[0])
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.KeepProduct(sheet.ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.until("the shelf is planned", func() bool {
		shot := b.Snapshot()
		return len(shot.ShelfPlan.Things) == 3 && len(shot.ShelfPlan.Products) > 0
	})
	p.open(shelfSmall)
	for _, r := range p.list.rows(shelfSmall) {
		p.choose(r.path)
		if !strings.Contains(strings.ToLower(strings.Join(texts(p.body.root), " ")), "count by hand") {
			t.Errorf("%s: it is not said what goes by hand", r.path)
		}
	}
	write := func(path, text string) {
		t.Helper()
		if !p.in.lead(path) {
			t.Fatalf("no input %q", path)
		}
		entry := b.desk.windows.Window(shelfKey).Canvas().Focused()
		entry.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		for _, r := range text {
			entry.TypedRune(r)
		}
	}
	disc := b.Snapshot().Shelf.Consumables[0].ID
	p.choose("shelf/consumables/" + disc)
	write(usedPath, "none")
	tapOn(t, p.body.root, "Note for ")
	b.settle()
	if !shows(p.body.root, "type how many were used") {
		t.Errorf("a slip is not named: %q", texts(p.body.root))
	}
	b.clock.advance(time.Minute)
	time.Sleep(touch.Settle)
	write(usedPath, "3")
	tapOn(t, p.body.root, "Note for ")
	b.settle()
	b.until("it came off", func() bool {
		shot := b.Snapshot()
		return shot.ShelfPlan.Thing(disc).Count == 7
	})
	shot := b.Snapshot()
	if got := shot.ShelfPlan.Thing(disc).Count; got != 7 || !shows(p.body.root, "7 on hand: 3 taken since they were counted") {
		t.Errorf("%d left, %q", got, texts(p.body.root))
	}
	tapOn(t, p.body.root, "Yes, so much is there")
	b.settle()
	if shot = b.Snapshot(); shot.Shelf.Consumables[0].Number != 7 {
		t.Errorf("%+v", shot.Shelf.Consumables)
	}
	moldLegible(t, "used up", p.body.root)

	p.open(shelfProducts)
	p.choose("shelf/products/" + shot.Shelf.Products[0].ID)
	write(sealAPath, "22")
	write(sealBPath, "9.9")
	tapOn(t, p.body.root, "Note the seal coat of ")
	b.settle()
	shot = b.Snapshot()
	last := shot.Project.Journal[len(shot.Project.Journal)-1]
	if last.Kind != model.EntrySealMixed || last.Product == "" || len(shot.Shelf.Uses) != 1 {
		t.Errorf("%+v, %+v", last, shot.Shelf.Uses)
	}
	moldLegible(t, "seal coat", p.body.root)
}

// TestShelfHalfTypedStays: a weight that is typed and not noted yet outlasts all
// that builds its input anew, and stays with the thing that it is of.
func TestShelfHalfTypedStays(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	if err := b.KeepProduct(b.Snapshot().Project.Sheets[0].ID); err != nil {
		t.Fatal(err)
	}
	var bottles [2]string
	err := b.EditShelf("Fill it", "", func(m *model.Shelf) error {
		m.AddConsumable()
		at := &m.Products[0]
		for i := range bottles {
			bottles[i] = "shelf/products/" + at.ID + "/bottles/" + m.AddBottle(at.ID, model.PartA, "2026-11-25")
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	b.settle()
	product, disc := "shelf/products/"+b.Snapshot().Shelf.Products[0].ID, "shelf/consumables/"+b.Snapshot().Shelf.Consumables[0].ID
	type typing struct{ tab, at, path, text string }
	all := []typing{{shelfProducts, bottles[0], weighPath, "812"}, {shelfProducts, product, sealAPath, "22"}, {shelfProducts, product, sealBPath, "9.9"}, {shelfSmall, disc, usedPath, "3"}}
	turn := func(x typing) *touch.Field {
		p.open(x.tab)
		p.choose(x.at)
		f := p.in.form.Field(x.path)
		if f == nil {
			t.Fatalf("no input %q of %s", x.path, x.at)
		}
		return f
	}
	for _, x := range all {
		turn(x).Restore(x.text)
		if err := b.Edit("Name it", "", func(q *model.Project) error { q.Name += "'"; return nil }); err != nil {
			t.Fatal(err)
		}
		b.settle()
		if got := p.in.form.Field(x.path).Text(); got != x.text {
			t.Errorf("%s: the piece has another name, and of %q %q is left", x.path, x.text, got)
		}
	}
	for _, x := range all {
		if got := turn(x).Text(); got != x.text {
			t.Errorf("%s: other things were chosen, and of %q %q is left", x.path, x.text, got)
		}
	}
	if got := turn(typing{shelfProducts, bottles[1], weighPath, ""}).Text(); got != "" {
		t.Errorf("another bottle reads %q too", got)
	}
	turn(all[3])
	tapOn(t, p.body.root, "Note for ")
	b.settle()
	p.choose("")
	if got := turn(all[3]).Text(); got != "" {
		t.Errorf("it is noted, and %q still stands there", got)
	}
}
