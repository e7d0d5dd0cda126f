package storage

import (
	"slices"
	"time"

	bolt "go.etcd.io/bbolt"
)

// limits says how much of a project's history is kept.
type limits struct {
	bytes    int64         // of all bodies, beyond which the oldest go
	whole    time.Duration // younger than this, every revision is kept
	hourly   time.Duration // younger than this one an hour, else one a day
	undo     int           // so many ancestors of the current revision always stay
	interval int           // thin every so many revisions
}

var usualLimits = limits{
	bytes:    64 << 20,
	whole:    30 * 24 * time.Hour,
	hourly:   120 * 24 * time.Hour,
	undo:     200,
	interval: 50,
}

// surplus chooses the revisions to drop: of those older than l.whole all but
// the last one an hour, older than l.hourly all but the last one a day, and
// then the oldest until the rest is within l.bytes. The current revision and
// its l.undo nearest ancestors always stay. Revisions come in order of number.
func surplus(list []kept, current int, now time.Time, l limits) map[int]bool {
	safe := spine(list, current, l.undo)
	drop := map[int]bool{}
	taken := map[int64]bool{} // negative: days
	var total int64
	for _, r := range slices.Backward(list) {
		total += r.Size
		age := now.Sub(r.At)
		if age <= l.whole {
			continue
		}
		slot := r.At.Unix() / 3600
		if age > l.hourly {
			slot = -1 - r.At.Unix()/86400
		}
		if taken[slot] && !safe[r.Number] {
			drop[r.Number] = true
			total -= r.Size
		}
		taken[slot] = true
	}
	for _, r := range list {
		if total <= l.bytes {
			break
		}
		if !safe[r.Number] && !drop[r.Number] {
			drop[r.Number] = true
			total -= r.Size
		}
	}
	return drop
}

// steady is the time that ages are counted to: now, or the earliest of the newest
// revisions, several of them, so that a clock which ran ahead for a while does not
// make old what was saved just before.
func steady(list []kept, now time.Time, several int) time.Time {
	for _, r := range list[max(0, len(list)-several):] {
		if r.At.Before(now) {
			now = r.At
		}
	}
	return now
}

// spine is the current revision with its nearest ancestors, undo of them.
func spine(list []kept, current, undo int) map[int]bool {
	after := make(map[int]int, len(list))
	for _, r := range list {
		after[r.Number] = r.After
	}
	safe := map[int]bool{}
	for number := current; number != 0 && len(safe) <= undo && !safe[number]; number = after[number] {
		safe[number] = true
	}
	return safe
}

// relinked gives the revisions that stay and whose After link must change: to
// the nearest ancestor that stays, or 0.
func relinked(list []kept, drop map[int]bool) []kept {
	after := make(map[int]int, len(list))
	for _, r := range list {
		after[r.Number] = r.After
	}
	var changed []kept
	for _, r := range list {
		if drop[r.Number] || !drop[r.After] {
			continue
		}
		up := r.After
		for steps := 0; drop[up] && steps <= len(list); steps++ {
			up = after[up]
		}
		r.After = up
		changed = append(changed, r)
	}
	return changed
}

// thin drops the surplus of a project's history when it is due. Revisions that
// cannot be read are left alone, and so is everything when one of them could
// be a link between others.
func (f folder) thin(h *head, l limits, now time.Time) error {
	if h.ThinAt == 0 {
		h.ThinAt = l.interval
	}
	if h.Last < h.ThinAt && h.Bytes <= max(h.ThinFor, l.bytes) {
		return nil
	}
	var list []kept
	c := f.revisions.Cursor()
	for k, _ := c.First(); k != nil; k, _ = c.Next() {
		r, err := f.revision(keyNumber(k))
		if err != nil {
			h.ThinAt = h.Last + l.interval
			return nil
		}
		list = append(list, r)
	}
	drop := surplus(list, h.Current, steady(list, now, l.interval), l)
	for _, r := range relinked(list, drop) {
		if err := f.putRevision(r); err != nil {
			return err
		}
	}
	for _, r := range list {
		if !drop[r.Number] {
			continue
		}
		if err := f.drop(r, h); err != nil {
			return err
		}
	}
	h.ThinAt = h.Last + l.interval
	h.ThinFor = h.Bytes + l.bytes/8
	return nil
}

// drop removes one revision.
func (f folder) drop(r kept, h *head) error {
	for _, b := range []*bolt.Bucket{f.revisions, f.bodies} {
		if err := b.Delete(numberKey(r.Number)); err != nil {
			return err
		}
	}
	h.Bytes -= r.Size
	return nil
}
