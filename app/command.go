package app

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"meniscus/app/bundle"
	"meniscus/app/paper"
	"meniscus/model"
)

// Painter draws a project on paper.
type Painter = paper.Painter

// Commands runs commands that need no screen. Painter draws what they print; nil
// leaves the drawings out.
type Commands struct{ Painter Painter }

// Run runs a command and gives the exit code: 0 when it was done, 2 when the
// command or the file cannot be taken. now is when it is run.
func (by Commands) Run(args []string, now time.Time, out, problems io.Writer) int {
	at := slices.IndexFunc(commands, func(c command) bool { return c.name == args[0] })
	if at < 0 || !commands[at].takes(len(args)-1) {
		Usage(problems)
		return 2
	}
	c := &commands[at]
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

// command is what can be asked of an exported project without a screen: its name,
// what is written behind it and what it does, in words; how many files it names,
// whether a kind may stand before them, and the work, which gives what is printed.
type command struct {
	name, args, does string

	files int
	kinds bool
	work  func(files []string, by Painter, now time.Time) (any, error)
}

// takes tells whether so many words may stand behind the name of the command.
func (c *command) takes(words int) bool { return words == c.files || c.kinds && words == c.files+1 }

// Usage tells of every command in a line or two, that which opens the workbench
// first.
func Usage(to io.Writer) {
	const wide = 32
	head := "usage: "
	row := func(words, does string) {
		if words = "meniscus " + words; len(words) > wide {
			words += "\n" + strings.Repeat(" ", len(head)+wide)
		}
		fmt.Fprintf(to, "%s%-*s %s\n", head, wide, words, does)
		head = strings.Repeat(" ", len(head))
	}
	row("[-notebook FILE]", "open the workbench")
	for i := range commands {
		row(commands[i].name+" "+commands[i].args, commands[i].does)
	}
	row("version", "tell which version this is")
}

// commands are all of them.
var commands = []command{
	{name: "plan", args: "FILE.json", does: "print the plan of an exported piece as JSON",
		files: 1, work: func(files []string, _ Painter, _ time.Time) (any, error) {
			p, err := readProject(files[0])
			if err != nil {
				return nil, err
			}
			return model.Make(p), nil
		}},
	{name: "cure", args: "FILE.json", does: "print how it cures, with bands, as JSON",
		files: 1, work: func(files []string, _ Painter, _ time.Time) (any, error) {
			p, err := readProject(files[0])
			if err != nil {
				return nil, err
			}
			return cureProject(&p)
		}},
	{name: "dates", args: "FILE.json OUT.ics", does: "write its dates as a calendar file for a phone",
		files: 2, work: func(files []string, _ Painter, now time.Time) (any, error) {
			return writeDates(files[0], files[1], now)
		}},
	{name: "card", args: "FILE.json OUT.pdf", does: "write its pour card, to be printed",
		files: 2, work: func(files []string, _ Painter, now time.Time) (any, error) {
			return writeCard(files[0], files[1], now)
		}},
	{name: "cut", args: "FILE.json OUT.pdf", does: "write its cutting sheet at true size; OUT.svg for a drawing",
		files: 2, work: func(files []string, _ Painter, now time.Time) (any, error) {
			return writeCutting(files[0], files[1], now)
		}},
	{name: "sheet", args: "[KIND] FILE.json OUT.pdf", does: "write its shop sheet for the bench, or another paper by KIND: " + strings.Join(sheetKinds, ", "),
		files: 2, kinds: true, work: func(args []string, by Painter, now time.Time) (any, error) {
			if len(args) == 2 {
				args = append(sheetKinds[:1:1], args...)
			}
			return writePaper(args[0], args[1], args[2], by, now)
		}},
	{name: "draw", args: "FILE.json OUT.svg", does: "draw its mold and section in mm, to scale",
		files: 2, work: func(files []string, by Painter, _ time.Time) (any, error) {
			return writeDrawing(files[0], files[1], by)
		}},
	{name: "table", args: "KIND FILE.json OUT.csv", does: "write a table of it by KIND: " + strings.Join(model.TableKinds, ", "),
		files: 3, work: func(args []string, _ Painter, _ time.Time) (any, error) {
			return writeTable(args[0], args[1], args[2])
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
	data, err := io.ReadAll(io.LimitReader(f, model.LargestImport+1))
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
