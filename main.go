// Meniscus is a desktop workbench for people who cast resin around wood.
package main

import (
	"crypto/rand"
	"embed"
	"encoding/hex"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"

	"meniscus/app"
	_ "meniscus/app/locale" // before the toolkit looks for a language
	"meniscus/assets"
	"meniscus/storage"
	"meniscus/views"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/native"
	"meniscus/views/rest"
)

// version is set at build time.
var version = "0.1"

// id names the program to the desktop.
const id = "org.meniscus.workbench"

// checks is the variable of the environment that has the toolkit report calls
// from a wrong goroutine.
const checks = "MENISCUS_CHECKS"

//go:embed testdata/demo-*.json
var demos embed.FS

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run does what the command line asks and gives the exit code: 0 when all went
// well, 1 when the window could not be opened, 2 for a bad command or file.
func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("meniscus", flag.ContinueOnError)
	flags.SetOutput(problems)
	file := flags.String("notebook", "", "the notebook `FILE` to open, instead of the one in your data folder")
	flags.Usage = func() {
		app.Usage(problems)
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	if flags.NArg() == 1 && flags.Arg(0) == "version" {
		fmt.Fprintln(out, app.VersionLine(version))
		return 0
	}
	if flags.NArg() > 0 {
		return app.Commands{Painter: drawing.OnPaper{}}.Run(flags.Args(), wallClock{}.Now(), out, problems)
	}
	if err := window(*file); err != nil {
		fmt.Fprintln(problems, "meniscus:", err)
		return 1
	}
	return 0
}

// window opens the notebook and runs the interface until it is closed.
func window(file string) error {
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return errors.New("no screen to draw on (DISPLAY is not set): start it from a desktop, or under Xvfb with: xvfb-run meniscus")
	}
	fyneapp.SetMetadata(fyne.AppMetadata{
		ID: id, Name: "Meniscus", Version: version, Icon: assets.Icon,
		// Every call to the toolkit is made on its own goroutine, so that it need
		// not look after each; with the checks on, the tests watch that it is so.
		Migrations: map[string]bool{"fyneDo": os.Getenv(checks) == ""},
	})
	// The simulation keeps two goroutines busy: one more may run, so that the
	// interface need not wait for a turn.
	runtime.GOMAXPROCS(runtime.NumCPU() + 1)
	if err := native.Name(id, "meniscus"); err != nil {
		return err
	}
	sweep := unswept()
	a := look.Calm(fyneapp.NewWithID(id))
	leave, err := begin(a, file)
	sweep()
	if err != nil {
		return explain(a, file, err)
	}
	a.Run()
	return leave()
}

// startRoom is how much memory the program takes before it is swept of what is
// not in use any more, while the first window is made: some three times of what
// that takes.
const startRoom = 128 << 20

// unswept puts off sweeping the memory until the first window stands: what it
// would take from that is a tenth of the time that the maker waits for it.
func unswept() (sweep func()) {
	every, most := debug.SetGCPercent(-1), debug.SetMemoryLimit(startRoom)
	return func() {
		debug.SetMemoryLimit(most)
		debug.SetGCPercent(every)
	}
}

// begin opens the notebook and its windows. It gives what ends them once the
// toolkit's loop has ended.
func begin(a fyne.App, file string) (leave func() error, err error) {
	typeRead := look.ReadType(a)
	session, folder, err := open(file)
	typeRead()
	if err != nil {
		return nil, err
	}
	examples, err := examples()
	if err != nil {
		return nil, errors.Join(err, session.Close())
	}
	desk, err := views.NewDesk(a, session, examples)
	if err != nil {
		return nil, errors.Join(err, session.Close())
	}
	desk.OnKeys(native.Hear)
	// The program ends here and leaves nothing to the toolkit, which at its own end
	// now and then waits for itself for good, or panics: the last thing that it asks
	// of its loop comes as it closes the queue to it.
	desk.OnLeave(func() { finish(session.CloseAside(folder, os.TempDir())) })
	obey(func() { rest.Post(desk.Leave) })
	rest.Begin()
	return func() error { return session.CloseAside(folder, os.TempDir()) }, nil
}

// explain says why the notebook could not be opened. Where it is damaged the
// newest good copy is offered in its place, with what is missing in it.
func explain(a fyne.App, file string, why error) error {
	var t *storage.Trouble
	if !errors.As(why, &t) {
		return why
	}
	var way *views.WayOut
	leave := func() error { return why }
	path, err := notebookAt(file)
	if err == nil && errors.Is(why, storage.ErrDamaged) {
		copied, words, none := storage.Offer(path)
		switch {
		case errors.Is(none, storage.ErrMissing):
			t.Do = none.Error()
		case none == nil:
			way = &views.WayOut{Words: words, Label: "Go on with that copy", Take: func() (err error) {
				if err = storage.Restore(path, copied.Path, wallClock{}.Now()); err == nil {
					leave, err = begin(a, file)
				}
				return err
			}}
		}
	}
	views.ShowTrouble(a, t.What, t.Do, way)
	return leave()
}

// notebookAt is the notebook in a file, the one in the user's data folder for "".
func notebookAt(file string) (string, error) {
	if file != "" {
		return file, nil
	}
	return storage.DefaultPath()
}

// calm is how long the keys must rest before the cure is simulated anew: longer
// than between two strokes of one who types (common practice, no source).
const calm = 250 * time.Millisecond

// toolkitListens is by when the toolkit's loop has begun to listen for signals,
// also on a slow machine.
const toolkitListens = 2 * time.Second

// obey has leave called when the system asks the program to end. The toolkit
// listens too as soon as it runs, and is then made to stop it. What waits for the
// signal does so from before the notebook's jobs are begun until the very end of
// the program: it is the one goroutine that app.Jobs does not own.
func obey(leave func()) {
	asked := make(chan os.Signal, 1)
	listen := func() { signal.Notify(asked, os.Interrupt, syscall.SIGTERM) }
	listen()
	go func() {
		<-asked
		leave()
	}()
	time.AfterFunc(toolkitListens, func() {
		signal.Reset(os.Interrupt, syscall.SIGTERM)
		listen()
	})
}

// finish ends the program with what came of closing the notebook.
func finish(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "meniscus:", err)
		os.Exit(1)
	}
	os.Exit(0)
}

// open opens a session on the notebook in a file, see notebookAt,
// and tells the folder that it lies in.
func open(file string) (session *app.Session, folder string, err error) {
	if file, err = notebookAt(file); err != nil {
		return nil, "", err
	}
	notebook, err := storage.Open(file, storage.WithProgram(version))
	if err != nil {
		return nil, "", err
	}
	session, err = app.New(app.Options{Store: notebook, Clock: wallClock{}, Post: rest.Post, NewID: newID, Player: app.FindPlayer(), Still: app.DesktopAsksForStill, Painter: drawing.OnPaper{}, Printer: app.FindPrinter(), Calm: calm})
	if err != nil {
		return nil, "", errors.Join(err, notebook.Close())
	}
	return session, filepath.Dir(notebook.Path()), nil
}

// examples gives the demo jobs, the one for a first start first.
func examples() ([]views.Demo, error) {
	var list []views.Demo
	for _, d := range []struct{ name, file string }{
		{"Poppy stand", "testdata/demo-poppy-stand.json"},
		{"Five breakfast boards", "testdata/demo-breakfast-boards.json"},
		{"Hall shelf", "testdata/demo-hall-shelf.json"},
	} {
		data, err := demos.ReadFile(d.file)
		if err != nil {
			return nil, err
		}
		list = append(list, views.Demo{Name: d.name, File: data})
	}
	return list, nil
}

// wallClock is the machine's clock, without the reading that stands still while
// the machine sleeps.
type wallClock struct{}

func (wallClock) Now() time.Time { return time.Now().Round(0) }

// newID makes an ID that no other project has.
func newID() string {
	var b [8]byte
	_, _ = rand.Read(b[:]) // which never fails: it ends the program instead
	return hex.EncodeToString(b[:])
}
