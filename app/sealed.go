package app

import "errors"

// Two things keep what is entered from the disk. A notebook that can only be
// read takes nothing at all. While a project is looked at in a copy others can be
// added to the notebook, but what is changed on the screen, of that project or of
// the shelf, is only tried out.

// notebookSealed tells whether the notebook can only be read.
func (s *Session) notebookSealed() bool { return s.locked }

// looking tells whether the open project is looked at in a copy.
func (s *Session) looking() bool { return s.look != nil }

// trying tells whether what is changed on the screen is planned but not kept;
// Saved.Closed tells the windows.
func (s *Session) trying() bool { return s.notebookSealed() || s.looking() }

// errClosed says that nothing can be added to the notebook, and errLooking that
// nothing can to what is looked at.
var (
	errClosed  = errors.New("this notebook can only be read")
	errLooking = errors.New("this is a look into a copy, in which no picture can be kept: end the look first")
)

// pictureRefused says why no picture can be added now; nil where one can.
func (s *Session) pictureRefused() error {
	switch {
	case s.notebookSealed():
		return errClosed
	case s.looking():
		return errLooking
	}
	return nil
}
