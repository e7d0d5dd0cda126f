package app

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"meniscus/model"
)

// mostFile bounds a file that is read without a screen.
const mostFile = 32 << 20

// Command runs a command that needs no screen and gives the exit code: 0 when
// it was done, 2 when the command or the file cannot be taken.
func Command(args []string, out, problems io.Writer) int {
	work, known := commands[args[0]]
	if !known || len(args) != 2 {
		fmt.Fprintln(problems, "usage: meniscus plan FILE.json")
		fmt.Fprintln(problems, "       meniscus cure FILE.json")
		return 2
	}
	result, err := work(args[1])
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

// commands are what can be asked of an exported project without a screen.
var commands = map[string]func(path string) (any, error){
	"plan": func(path string) (any, error) {
		p, err := readProject(path)
		if err != nil {
			return nil, err
		}
		return model.Make(p), nil
	},
	"cure": func(path string) (any, error) {
		p, err := readProject(path)
		if err != nil {
			return nil, err
		}
		return cureProject(&p)
	},
}

// cureProject simulates a project, with bands.
func cureProject(p *model.Project) (model.Curing, error) {
	jobs := NewJobs(func(func()) {})
	defer jobs.Stop()
	plan := model.Make(*p)
	return model.Widen(context.Background(), p, &plan, jobs.Split)
}

// readProject reads an exported project.
func readProject(path string) (model.Project, error) {
	f, err := os.Open(path)
	if err != nil {
		return model.Project{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostFile+1))
	if err != nil {
		return model.Project{}, fmt.Errorf("%s: %w", path, err)
	}
	p, err := model.Import(data)
	if err != nil {
		return model.Project{}, fmt.Errorf("%s: %w", path, err)
	}
	return p, nil
}
