package app

import "time"

// When a notebook is given its free room back: first a while after the start, so
// behind the first frame, then every so often, and only while nothing was saved
// for a while.
const (
	tidyFirst = 15 * time.Second
	tidyEvery = time.Hour
	tidyCalm  = 30 * time.Second
)

// tidy has the notebook give back the room that its thinned history left free,
// beside the work, once hands rest.
func (s *Session) tidy(now time.Time) {
	k, ok := s.store.(Compactable)
	if s.tidyAt.IsZero() {
		s.tidyAt = now.Add(tidyFirst)
	}
	wait := s.tidyAt.Sub(now)
	rest := now.Sub(s.shot.Saved.At)
	if !ok || wait > 0 && wait <= tidyEvery || len(s.saves) > 0 || rest >= 0 && rest < tidyCalm || s.moving {
		return
	}
	s.tidyAt = now.Add(tidyEvery)
	Newest(s.jobs, "tidy", func() error { _, err := k.Compact(); return err }, func(err error) {
		if err != nil {
			s.complain(err)
		}
	})
}
