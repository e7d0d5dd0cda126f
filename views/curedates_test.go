package views

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
)

// fakeFile is a file to write into, in memory.
type fakeFile struct {
	bytes.Buffer
	uri  fyne.URI
	full bool // it takes nothing
}

func (f *fakeFile) URI() fyne.URI { return f.uri }
func (f *fakeFile) Close() error  { return nil }

func (f *fakeFile) Write(data []byte) (int, error) {
	if f.full {
		return 0, errors.New("no room left on the disk")
	}
	return f.Buffer.Write(data)
}

// TestCureOffersDates: the dates can be saved as soon as there is one ahead, by
// a pour that has been started or one that is planned.
func TestCureOffersDates(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	if !p.dates.save.Disabled() || !shows(p.dates.root, "start a pour, or plan a time") {
		t.Errorf("before anything is dated: %q", texts(p.dates.root))
	}
	if err := b.Edit("plan", "", func(m *model.Project) error { m.Shop.Planned = b.Now().Add(5 * time.Hour); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if p.dates.save.Disabled() || !shows(p.dates.root, "dates ahead") {
		t.Errorf("with a pour planned: %q", texts(p.dates.root))
	}
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.settle()
	if p.dates.save.Disabled() {
		t.Errorf("with a pour started: %q", texts(p.dates.root))
	}
	tapOn(t, p.dates.root, "Save the dates for your phone")
	if b.desk.windows.Window(cureKey).Canvas().Overlays().Top() == nil {
		t.Error("no place is asked for")
	}
	b.clock.advance(2 * 365 * 24 * time.Hour)
	p.tick(b.Now())
	if !p.dates.save.Disabled() || !shows(p.dates.root, "No date lies ahead") {
		t.Errorf("when all is past: %q", texts(p.dates.root))
	}
}

// TestDatesAreWritten: what lands in the file is the whole calendar, and a file
// that takes nothing is told of.
func TestDatesAreWritten(t *testing.T) {
	b, _ := cureOn(t, "poppy-stand")
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	to := &fakeFile{uri: storage.NewFileURI("/tmp/Poppy stand.ics")}
	b.desk.writeTo(to, saving{content: b.Dates, done: "The dates are saved in "})
	if got := to.String(); !strings.HasPrefix(got, "BEGIN:VCALENDAR\r\n") || !strings.HasSuffix(got, "END:VCALENDAR\r\n") || !strings.Contains(got, "recoat window of smoke-grey base opens") {
		t.Errorf("%q", got)
	}
	if n := b.desk.notice; n == nil || n.what != "The dates are saved in /tmp/Poppy stand.ics" {
		t.Errorf("%+v", n)
	}
	b.desk.writeTo(&fakeFile{uri: to.uri, full: true}, saving{content: b.Dates})
	if n := b.desk.notice; n == nil || n.level != model.Stop || !strings.Contains(n.do, "no room left") {
		t.Errorf("%+v", n)
	}
}

func TestDatesWords(t *testing.T) {
	for _, c := range []struct {
		ahead  int
		toPour bool
		says   string
	}{
		{0, true, "start a pour"}, {0, false, "No date lies ahead."}, {1, false, "the one date ahead"}, {6, true, "the 6 dates ahead"},
	} {
		if got := datesWords(c.ahead, c.toPour); !strings.Contains(got, c.says) {
			t.Errorf("%+v: %q", c, got)
		}
	}
}
