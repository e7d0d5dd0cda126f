package app

import "context"

// AsksForStill tells whether the desktop was told that nothing is to move on the
// screen. It may take a moment; false where the desktop cannot be asked.
type AsksForStill func(context.Context) bool

// AskForStill asks the desktop in the background whether nothing is to move on
// the screen, and tells then what it said.
func (s *Session) AskForStill(then func(bool)) {
	if s.still == nil {
		return
	}
	Replace(s.jobs, "still", func(ctx context.Context) (bool, error) { return s.still(ctx), nil }, func(still bool, err error) {
		if err == nil {
			then(still)
		}
	})
}
