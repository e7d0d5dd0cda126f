package app

import (
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
	if args[0] != "plan" || len(args) != 2 {
		fmt.Fprintln(problems, "usage: meniscus plan FILE.json")
		return 2
	}
	plan, err := planFile(args[1])
	if err != nil {
		fmt.Fprintln(problems, "meniscus:", err)
		return 2
	}
	encoder := json.NewEncoder(out)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(plan); err != nil {
		fmt.Fprintln(problems, "meniscus: the plan could not be written:", err)
		return 2
	}
	return 0
}

// planFile plans an exported project.
func planFile(path string) (model.Plan, error) {
	f, err := os.Open(path)
	if err != nil {
		return model.Plan{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostFile+1))
	if err != nil {
		return model.Plan{}, fmt.Errorf("%s: %w", path, err)
	}
	p, err := model.Import(data)
	if err != nil {
		return model.Plan{}, fmt.Errorf("%s: %w", path, err)
	}
	return model.Make(p), nil
}
