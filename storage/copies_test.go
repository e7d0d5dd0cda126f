package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model"
)

// TestKeepDaily: of a year and a half of daily copies there are left those of
// the last seven days, the last of each week for two months, and the last of
// each month for a year.
func TestKeepDaily(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path, quick)
	save(t, n, sample("a", 1, 3), 0, noon)
	for i := range 540 {
		at := noon.Add(time.Duration(i) * day)
		if i > 3 && i < 530 { // the others are made as by hand, which is quicker
			dir := backupFolder(path)
			if err := os.WriteFile(filepath.Join(dir, "notebook-"+at.Format(time.DateOnly)+".db"), nil, 0o600); err != nil {
				t.Fatal(err)
			}
			continue
		}
		for _, want := range []bool{true, false} {
			if made, err := n.KeepDaily(at); made != want || err != nil {
				t.Fatalf("day %d: %t, %v", i, made, err)
			}
		}
	}
	list, err := Copies(path)
	if err != nil {
		t.Fatal(err)
	}
	var days []string
	for _, c := range list {
		if c.Kind == model.CopyDaily {
			days = append(days, strings.TrimSuffix(strings.TrimPrefix(filepath.Base(c.Path), "notebook-"), ".db"))
		}
	}
	slices.Sort(days)
	// 540 days from Wednesday 2026-11-25 end on Wednesday 2028-05-17. The seven
	// days go back to Thursday the 11th, within the week whose Sunday is the 14th;
	// Sundays go back 62 days, to 2028-03-19; the last days of the months go back
	// 366 days, to 2027-05-17.
	want := []string{
		"2027-05-31", "2027-06-30", "2027-07-31", "2027-08-31", "2027-09-30", "2027-10-31", "2027-11-30", "2027-12-31", "2028-01-31", "2028-02-29",
		"2028-03-19", "2028-03-26", "2028-03-31", "2028-04-02", "2028-04-09", "2028-04-16", "2028-04-23", "2028-04-30", "2028-05-07",
		"2028-05-11", "2028-05-12", "2028-05-13", "2028-05-14", "2028-05-15", "2028-05-16", "2028-05-17",
	}
	if !slices.Equal(days, want) {
		t.Errorf("kept %q, want %q", days, want)
	}
}

// TestThinningDayByDay: kept day by day there is never a gap larger than the
// rule allows: a day within a week, a week and a day within two months, and two
// months within a year, however often copies are made.
func TestThinningDayByDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var names []string
		var made []time.Time
		at := noon
		for range rapid.IntRange(1, 500).Draw(t, "copies") {
			at = at.Add(time.Duration(rapid.SampledFrom([]int{1, 1, 1, 1, 1, 1, 2, 3}).Draw(t, "days")) * day)
			made = append(made, at)
			names = append(names, "notebook-"+at.Format(time.DateOnly)+".db")
			drop := outdated(names)
			names = slices.DeleteFunc(names, func(n string) bool { return slices.Contains(drop, n) })
		}
		if len(names) > 7+10+13 {
			t.Fatalf("%d copies are left", len(names))
		}
		left := map[time.Time]bool{}
		for _, n := range names {
			d, _ := readName(n)
			left[d.day()] = true
		}
		for i, m := range made { // of whatever day, something near it is left
			m = m.Truncate(day)
			age, near := int(at.Truncate(day).Sub(m)/day), time.Duration(400)*day
			for d := range left {
				near = min(near, d.Sub(m).Abs())
			}
			far := 31 * day
			switch {
			case i >= len(made)-dailyCopies:
				far = 0
			case age <= weeklyDays:
				far = 6 * day
			case age > monthlyDays-31:
				continue
			}
			if near > far {
				t.Fatalf("of the copy %d days old the nearest left is %v away", age, near)
			}
		}
	})
}

// TestThinningOfTheOthers: copies made before a restore are thinned by age as the
// daily ones are, and the newest of each kind stays however old it is; what
// somebody put there himself stays as well.
func TestThinningOfTheOthers(t *testing.T) {
	aside := func(days int, clock string) string { // so many days before 2028-05-17, a Wednesday
		return asideName + time.Date(2028, 5, 17-days, 0, 0, 0, 0, time.UTC).Format(time.DateOnly) + "T" + clock + ".000Z.db"
	}
	keep := []string{
		"notebook-2028-05-17.db",
		aside(0, "090000"), aside(0, "100000"), aside(6, "100000"), // within the week, all of them
		aside(10, "120000"),                     // Sunday 7 May, the last of its week
		aside(62, "080000"),                     // Thursday 16 March, alone in its week
		aside(170, "080000"),                    // 29 November, the last of its month
		"before-form-3-2024-01-02T100000Z.db",   // the newest of its kind
		"before-form-4-2026-11-02T100000Z.db",   // likewise
		"by hand.db", "set-aside-by me.db", "x", // not ours
	}
	drop := []string{
		aside(10, "100000"), aside(12, "100000"), // earlier in the week of 7 May
		aside(171, "080000"),                  // earlier in November
		aside(400, "080000"),                  // older than a year
		"before-form-4-2026-11-01T100000Z.db", // older than a year, and not the newest
	}
	got := outdated(append(slices.Clone(drop), keep...))
	slices.Sort(drop)
	if !slices.Equal(got, drop) {
		t.Errorf("dropped %q, want %q", got, drop)
	}
	// The only one stays, whatever its age.
	if got := outdated([]string{"notebook-2028-05-17.db", aside(3000, "080000")}); len(got) != 0 {
		t.Errorf("dropped %q", got)
	}

	path := tempPath(t)
	n := opened(t, path, quick)
	save(t, n, sample("a", 1, 3), 0, noon)
	if err := os.MkdirAll(backupFolder(path), 0o700); err != nil {
		t.Fatal(err)
	}
	for i := range 3 { // each in a year of its own, the last two long ago
		name := asideName + noon.AddDate(-i, 0, 0).Format(asideTime) + ".db"
		if err := os.WriteFile(filepath.Join(backupFolder(path), name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := n.KeepDaily(noon); err != nil {
		t.Fatal(err)
	}
	list, err := Copies(path)
	var at []time.Time
	for _, c := range list {
		if c.Kind == model.CopyAside {
			at = append(at, c.At)
		}
	}
	if err != nil || len(at) != 2 || !at[0].Equal(noon) {
		t.Errorf("set aside and left: %v, %v", at, err)
	}
}

func TestRestore(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	if _, err := n.KeepDaily(noon); err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 2, 3), 1, noon)
	list, err := Copies(path)
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	if err := Restore(path, list[0].Path, noon); !errors.Is(err, ErrInUse) {
		t.Errorf("while it is open: %v", err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(list[0].Path)
	if err != nil {
		t.Fatal(err)
	}
	bad := filepath.Join(t.TempDir(), "bad.db")
	for size, flip := range map[int]bool{len(raw): true, len(raw) / 2: false, 0: false} {
		spoilt := slices.Clone(raw[:size])
		if flip {
			at := strings.LastIndex(string(spoilt), "Board a")
			spoilt[at] = 'X'
		}
		if err := os.WriteFile(bad, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := Restore(path, bad, noon); !errors.Is(err, ErrDamaged) {
			t.Errorf("a bad copy of %d bytes: %v", size, err)
		}
	}
	if list, _ := Copies(path); len(list) != 1 {
		t.Errorf("refusals left %v", list)
	}
	if err := os.Truncate(path, 9000); err != nil {
		t.Fatal(err)
	}
	if err := Restore(path, list[0].Path, noon); err != nil {
		t.Fatal(err)
	}
	n = opened(t, path)
	if p, r, err := n.Load("a"); err != nil || r.Number != 1 || !reflect.DeepEqual(p, sample("a", 1, 3)) {
		t.Errorf("restored: %v, %v", r, err)
	}
	aside := filepath.Join(filepath.Dir(path), "backups", "set-aside-2026-11-25T120000.000Z.db")
	if info, err := os.Stat(aside); err != nil || info.Size() != 9000 {
		t.Errorf("set aside: %v, %v", info, err)
	}
}

// The child restores over and over.
func init() {
	children["restore"] = func(args []string) {
		for i := 0; ; i++ {
			must(Restore(args[0], args[1], noon.Add(time.Duration(i)*time.Second)))
			fmt.Println(i)
		}
	}
}

func TestKilledWhileRestoring(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	from := filepath.Join(t.TempDir(), "copy.db")
	if err := errors.Join(n.Backup(from), n.Close()); err != nil {
		t.Fatal(err)
	}
	for range 4 {
		killed(t, "restore", path, from)
		if err := os.RemoveAll(backupFolder(path)); err != nil {
			t.Fatal(err)
		}
		n, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, r, err := n.Load("a"); err != nil || r.Number != 1 {
			t.Errorf("%v, %v", r, err)
		}
		if err := errors.Join(n.Check(), n.Close()); err != nil {
			t.Error(err)
		}
	}
}
