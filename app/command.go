package app

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"time"

	"meniscus/app/bundle"
	"meniscus/app/paper"
	"meniscus/model"
)

// mostFile bounds a file that is read without a screen.
const mostFile = 32 << 20

// Command runs a command that needs no screen and gives the exit code: 0 when
// it was done, 2 when the command or the file cannot be taken. now is when it
// is run.
func Command(args []string, now time.Time, out, problems io.Writer) int {
	return Commands{}.Run(args, now, out, problems)
}

// Painter draws a project on paper.
type Painter = paper.Painter

// Commands runs commands that need no screen. Painter draws what they print; nil
// leaves the drawings out.
type Commands struct{ Painter Painter }

// Run runs a command, as Command does.
func (by Commands) Run(args []string, now time.Time, out, problems io.Writer) int {
	c, known := commands[args[0]]
	if !known || len(args) != 1+c.files {
		fmt.Fprintln(problems, "usage: meniscus plan FILE.json")
		fmt.Fprintln(problems, "       meniscus cure FILE.json")
		fmt.Fprintln(problems, "       meniscus dates FILE.json OUT.ics")
		fmt.Fprintln(problems, "       meniscus card FILE.json OUT.pdf")
		fmt.Fprintln(problems, "       meniscus cut FILE.json OUT.pdf (or OUT.svg)")
		fmt.Fprintln(problems, "       meniscus sheet FILE.json OUT.pdf")
		fmt.Fprintln(problems, "       meniscus draw FILE.json OUT.svg")
		fmt.Fprintln(problems, "       meniscus table layers|journal|stations FILE.json OUT.csv")
		return 2
	}
	result, err := c.work(args[1:], by.Painter, now)
	if err != nil {
		fmt.Fprintln(problems, "meniscus:", err)
		return 2
	}
	encoder := json.NewEncoder(out)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(result); err != nil {
		fmt.Fprintln(problems, "meniscus: the result could not be written:", err)
		return 2
	}
	return 0
}

// command is what can be asked of an exported project without a screen: how
// many files it names, and the work, which gives what is printed.
type command struct {
	files int
	work  func(files []string, by Painter, now time.Time) (any, error)
}

// commands are all of them, by name.
var commands = map[string]command{
	"plan": {1, func(files []string, _ Painter, _ time.Time) (any, error) {
		p, err := readProject(files[0])
		if err != nil {
			return nil, err
		}
		return model.Make(p), nil
	}},
	"cure": {1, func(files []string, _ Painter, _ time.Time) (any, error) {
		p, err := readProject(files[0])
		if err != nil {
			return nil, err
		}
		return cureProject(&p)
	}},
	"dates": {2, func(files []string, _ Painter, now time.Time) (any, error) {
		return writeDates(files[0], files[1], now)
	}},
	"card": {2, func(files []string, _ Painter, now time.Time) (any, error) {
		return writeCard(files[0], files[1], now)
	}},
	"sheet": {2, func(files []string, by Painter, now time.Time) (any, error) {
		return writeSheet(files[0], files[1], by, now)
	}},
	"draw": {2, func(files []string, by Painter, _ time.Time) (any, error) {
		return writeDrawing(files[0], files[1], by)
	}},
	"table": {3, func(args []string, _ Painter, _ time.Time) (any, error) {
		return writeTable(args[0], args[1], args[2])
	}},
	"cut": {2, func(files []string, _ Painter, now time.Time) (any, error) {
		return writeCutting(files[0], files[1], now)
	}},
}

// cureProject simulates a project, with bands.
func cureProject(p *model.Project) (model.Curing, error) {
	jobs := NewJobs(func(func()) {})
	defer jobs.Stop()
	plan := model.Make(*p)
	return model.Widen(context.Background(), p, &plan, jobs.Split)
}

// readProject reads an exported project, alone or in one file with its photos.
func readProject(path string) (model.Project, error) {
	f, err := os.Open(path)
	if err != nil {
		return model.Project{}, err
	}
	defer f.Close()
	p, err := projectIn(f)
	if err != nil {
		return model.Project{}, fmt.Errorf("%s: %w", path, err)
	}
	return p, nil
}

// projectIn reads the project in an open file.
func projectIn(f *os.File) (model.Project, error) {
	data, err := io.ReadAll(io.LimitReader(f, mostFile+1))
	if err != nil {
		return model.Project{}, err
	}
	if !bundle.Is(data) {
		return model.Import(data)
	}
	info, err := f.Stat()
	if err != nil {
		return model.Project{}, err
	}
	b, err := bundle.Read(f, info.Size())
	if err != nil {
		return model.Project{}, err
	}
	return b.Project, nil
}
