package app

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
	"meniscus/model/unit"
)

// CareCard gives the care card of the open project as a PDF, A6 or A5.
func (s *Session) CareCard() ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	now := s.clock.Now()
	return paper.CareCard(model.NewCareSheet(&s.shot.Project, &s.shot.Plan, now), now)
}

// PieceLabels gives the labels of the open project's pieces as a PDF, each on a
// page of its own size or all on sheets.
func (s *Session) PieceLabels(onSheets bool) ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	now := s.clock.Now()
	return labels(model.PieceLabels(&s.shot.Project, &s.shot.Plan, now), onSheets, s.shot.Project.Style, now)
}

// BottleLabels gives the labels of the bottles on the shelf, or only those of
// the product or the bottle that a path leads to.
func (s *Session) BottleLabels(of string, onSheets bool) ([]byte, error) {
	return labels(model.BottleLabels(&s.shot.Shelf, of), onSheets, s.shot.Shelf.Style, s.clock.Now())
}

func labels(list []model.PaperLabel, onSheets bool, style unit.Style, now time.Time) ([]byte, error) {
	if onSheets {
		return paper.LabelSheet(list, model.OnLetter(style), now)
	}
	return paper.Labels(list, now)
}

// Quote gives the price quote of the open project as a PDF: a page for the
// customer, and with costs a second one on how the price comes about.
func (s *Session) Quote(costs bool) ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	now := s.clock.Now()
	q, err := model.NewQuote(&s.shot.Project, &s.shot.Plan, s.shot.CostFacts(), costs, now)
	if err != nil {
		return nil, err
	}
	return paper.Quote(q, now)
}

// Lay writes a paper into a folder of this session below the system's own for
// temporary files, so that another program can show or print it, and gives where
// it is. The folder is left to the system: what shows the paper may outlive the
// session.
func (s *Session) Lay(name string, data []byte) (string, error) {
	if s.papers == "" {
		folder, err := os.MkdirTemp("", "meniscus-paper-*")
		if err != nil {
			return "", err
		}
		s.papers = folder
	}
	path := filepath.Join(s.papers, filepath.Base(name))
	return path, os.WriteFile(path, data, 0o600)
}

// Printer prints a file.
type Printer func(path string) error

// longestPrint is how long the print command may take to queue a file, also at a
// printer server that does not answer, before it is ended; and printLeaves how
// long what it started itself may hold on after that. The end of the program
// waits for both.
const (
	longestPrint = 20 * time.Second
	printLeaves  = time.Second
)

// FindPrinter gives the system's way to print a file, at its own size and on the
// paper that it is made for; nil where the system has none, or none that needs no
// further word.
func FindPrinter() Printer {
	path, err := exec.LookPath("lp")
	if err != nil {
		return ownPrinter
	}
	return func(file string) error { return printBy(path, file, longestPrint) }
}

// printBy has lp at a path queue a file, and ends it after so long.
func printBy(path, file string, patience time.Duration) error {
	data, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	args := []string{"-o", "print-scaling=none"}
	if media := paper.Media(data); media != "" {
		args = append(args, "-o", "media="+media)
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	lp := exec.CommandContext(ctx, path, append(args, "--", file)...)
	lp.WaitDelay = printLeaves
	out, err := lp.CombinedOutput()
	said := strings.TrimSpace(string(out))
	switch {
	case err == nil:
		return nil
	case ctx.Err() != nil:
		return fmt.Errorf("the printer did not answer within %.0f s: look whether it is on and connected", patience.Seconds())
	case said != "":
		return errors.New(said)
	}
	return fmt.Errorf("the printer did not take it: %w", err)
}

// CanPrint tells whether the system has a way to print a file by itself.
func (s *Session) CanPrint() bool { return s.printer != nil }

// Print prints a file in the background, and tells then how that went.
func (s *Session) Print(file string, then func(error)) {
	if s.printer == nil {
		then(errors.New("this system has no print command: open the file and print it from there"))
		return
	}
	Newest(s.jobs, "print "+file, func() error { return s.printer(file) }, then)
}
