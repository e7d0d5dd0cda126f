package app

import (
	"bufio"
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"text/tabwriter"
	"time"
)

// tortureCount is how often something is done: all of it under the torture, a few
// times in an ordinary run, and fewer where the race detector slows all down.
func tortureCount(all, some, few int) int {
	switch {
	case os.Getenv("MENISCUS_TORTURE") != "":
		return all
	case raceDetector:
		return few
	}
	return some
}

// ledger is what a notebook must hold after all that was said of it.
type ledger struct {
	kept   map[string]string            // acknowledged
	may    map[string][]string          // announced since; any of them may have come to be
	worlds map[string]map[string]string // what copies hold, by name
	next   string                       // the copy whose world may have come to be; "" for none
	aside  map[string]string            // the world that the last restore put away
}

// hear takes in one line of a child.
func (l *ledger) hear(line string) bool {
	word, rest, _ := strings.Cut(line, " ")
	key, value, _ := strings.Cut(rest, " ")
	switch {
	case word == "may" && key == "world":
		l.next = value
	case word == "may":
		l.may[key] = append(l.may[key], value)
	case word == "kept" && key == "world":
		l.aside, l.next = l.world(), ""
		maps.DeleteFunc(l.kept, func(key, _ string) bool { return worldly(key) })
		maps.Copy(l.kept, l.worlds[value])
		maps.DeleteFunc(l.may, func(key string, _ []string) bool { return worldly(key) })
	case word == "kept":
		l.kept[key] = value
		delete(l.may, key)
	case word == "copied":
		l.worlds[key] = l.world()
	default:
		return false
	}
	return true
}

// world is what was acknowledged of what a copy holds.
func (l *ledger) world() map[string]string {
	w := maps.Clone(l.kept)
	maps.DeleteFunc(w, func(key, _ string) bool { return !worldly(key) })
	return w
}

// holds compares what was found with a state that is allowed, and tells what is
// wrong with it; strict where nothing was announced meanwhile.
func (l *ledger) holds(found, kept map[string]string) (wrong []string) {
	for key, want := range kept {
		if got := found[key]; got != want && !slices.Contains(l.may[key], got) && !slices.Contains(l.may[key], "*") {
			wrong = append(wrong, fmt.Sprintf("acknowledged and lost: %s was %s and is %q (announced %v)", key, want, got, l.may[key]))
		}
	}
	for key, got := range found {
		if _, known := kept[key]; !known && worldly(key) && key != "shelf" && !slices.Contains(l.may[key], got) {
			wrong = append(wrong, fmt.Sprintf("there and never announced: %s", key))
		}
	}
	return wrong
}

// tally is what became of one kind of write.
type tally struct{ kills, acknowledged, records, lost, through int }

// add adds another.
func (t *tally) add(o tally) {
	t.kills, t.acknowledged, t.records = t.kills+o.kills, t.acknowledged+o.acknowledged, t.records+o.records
	t.lost, t.through = t.lost+o.lost, t.through+o.through
}

// row is its line in the table.
func (t tally) row(kind string) string {
	return fmt.Sprintf("%s\t%d\t%d\t%d\t%d\t%d", kind, t.kills, t.acknowledged, t.records, t.lost, t.through)
}

// torment is one series: a notebook in which child after child is killed.
type torment struct {
	t     *testing.T
	dir   string
	l     ledger
	mu    *sync.Mutex
	sums  map[string]*tally
	spans map[string]time.Duration // how long an act of a kind takes
	packs *int                     // compactions that were brought to their end
}

func (m *torment) path() string { return filepath.Join(m.dir, "n.db") }

// strike runs a child that comes to an act of a kind and kills it a random while
// after, or a random while after it is started.
func (m *torment) strike(run int, kind string, r *rand.Rand) {
	cmd := child(m.t, "torture", m.dir, strconv.Itoa(run), kind, strconv.Itoa(run))
	cmd.Env = append(cmd.Env, "GOGC=off")
	out, err := cmd.StdoutPipe()
	if err != nil {
		m.t.Fatal(err)
	}
	var said bytes.Buffer
	cmd.Stderr = &said
	m.mu.Lock()
	wait := time.Duration(r.Int64N(int64(m.spans[kind])*5/4 + 1))
	m.mu.Unlock()
	if err := cmd.Start(); err != nil {
		m.t.Fatal(err)
	}
	kill := func() { time.AfterFunc(wait, func() { _ = cmd.Process.Kill() }) }
	var began time.Time
	acked := 0
	for in := bufio.NewReader(out); ; {
		line, err := in.ReadString('\n')
		if err != nil {
			break
		}
		line = strings.TrimSuffix(line, "\n")
		switch word, rest, _ := strings.Cut(line, " "); {
		case m.l.hear(line):
		case word == "opens" && acts[kind] == nil:
			kill()
		case word == "sends" && strings.HasPrefix(rest, "true ") && kind != "compaction",
			word == "compacts" && kind == "compaction" && began.IsZero(): // what fills the notebook before takes longest
			began = time.Now()
			kill()
		case word == "done":
			acked++
			if rest == kind && !began.IsZero() {
				m.mu.Lock()
				m.spans[kind] += (time.Since(began) - m.spans[kind]) / 4
				m.mu.Unlock()
				began = time.Time{}
			}
		case word == "did":
			m.mu.Lock()
			*m.packs++
			m.mu.Unlock()
		case word != "opens" && word != "sends" && word != "compacts" && word != "closed":
			m.t.Errorf("seed %d, %s: child: %s", run, kind, line)
		}
	}
	if err := cmd.Wait(); err != nil && !strings.Contains(err.Error(), "killed") {
		m.t.Errorf("seed %d, %s: %v\n%s", run, kind, err, said.String())
	}
	m.look(run, kind, acked)
}

// look holds the notebook against the ledger, and lets it go on from what there
// is.
func (m *torment) look(run int, kind string, acked int) {
	sum := &tally{kills: 1, acknowledged: acked}
	defer func() {
		m.mu.Lock()
		all := m.sums[kind]
		all.add(*sum)
		m.mu.Unlock()
	}()
	if _, err := os.Stat(m.path()); os.IsNotExist(err) && len(m.l.kept) == 0 {
		return // killed before there was one
	}
	got, err := found(m.path(), filepath.Join(m.dir, "photos"))
	if err != nil {
		sum.lost = len(m.l.kept)
		m.t.Errorf("seed %d, %s: %v", run, kind, err)
		return
	}
	wrong := m.l.holds(got, m.l.kept)
	if m.l.next != "" && len(wrong) > 0 {
		then := maps.Clone(m.l.kept)
		maps.DeleteFunc(then, func(key, _ string) bool { return worldly(key) })
		maps.Copy(then, m.l.worlds[m.l.next])
		wrong = m.l.holds(got, then)
		m.l.aside = m.l.world()
	}
	if sum.lost = len(wrong); sum.lost > 0 {
		m.t.Errorf("seed %d, %s:\n%s", run, kind, strings.Join(wrong, "\n"))
	}
	if err := m.copies(); err != nil {
		m.t.Errorf("seed %d, %s: %v", run, kind, err)
	}
	for key, value := range got {
		if slices.Contains(m.l.may[key], value) && m.l.kept[key] != value {
			sum.through = 1
		}
	}
	sum.records = len(m.l.kept)
	m.l.kept, m.l.may, m.l.next = got, map[string][]string{}, ""
}

// copies makes sure that every file that has the name of a copy is a whole one,
// and that what a restore put away is among them.
func (m *torment) copies() error {
	var aside string
	err := filepath.WalkDir(m.dir, func(path string, d fs.DirEntry, err error) error {
		name := filepath.Base(path)
		if err != nil || d.IsDir() || filepath.Ext(name) != ".db" || strings.HasPrefix(name, ".") || path == m.path() {
			return err
		}
		if strings.HasPrefix(name, "set-aside-") {
			aside = path
		}
		return whole(path, m.dir)
	})
	if err != nil || m.l.aside == nil {
		return err
	}
	then := m.l.aside
	m.l.aside = nil
	if aside == "" {
		return fmt.Errorf("a restore put nothing away")
	}
	got, err := foundCopy(aside, m.dir)
	if err != nil {
		return err
	}
	for key, want := range then {
		if got[key] != want {
			return fmt.Errorf("of what a restore put away %s is %q and was %s", key, got[key], want)
		}
	}
	return nil
}

// TestTortureKilled kills the program at random moments in every kind of write
// and finds all that it acknowledged, nothing that it did not announce, and every
// file whole. Many deaths go over one and the same notebook.
func TestTortureKilled(t *testing.T) {
	kills := tortureCount(2000, 66, 22)
	seed := rand.IntN(1 << 20)
	t.Logf("seeds from %d", seed)
	mu, sums, spans, packs := &sync.Mutex{}, map[string]*tally{}, map[string]time.Duration{}, 0
	for _, kind := range tortured {
		sums[kind], spans[kind] = &tally{}, 12*time.Millisecond // until it is learned
	}
	for _, slow := range []string{"older form", "zip out and in", "copy of the day", "second copy", "restore", "compaction"} {
		spans[slow] = 60 * time.Millisecond
	}
	root := t.TempDir()
	next := 0
	var hands sync.WaitGroup
	for hand := range 2 { // as many as there are cores
		hands.Go(func() {
			var m *torment
			for deaths := 0; ; deaths++ {
				mu.Lock()
				n := next
				next++
				mu.Unlock()
				if n >= kills {
					return
				}
				kind, run := tortured[n%len(tortured)], seed+n
				begins := acts[kind] == nil // in a notebook of its own
				if m == nil || begins || deaths%12 == 0 {
					m = &torment{t: t, mu: mu, sums: sums, spans: spans, packs: &packs}
					m.dir = filepath.Join(root, fmt.Sprint(hand, "-", n))
					m.l = ledger{kept: map[string]string{}, may: map[string][]string{}, worlds: map[string]map[string]string{}}
					if err := m.begin(kind, n); err != nil {
						t.Error(err)
						return
					}
				}
				m.strike(run, kind, rand.New(rand.NewPCG(uint64(run), 2026)))
			}
		})
	}
	hands.Wait()
	var out strings.Builder
	w := tabwriter.NewWriter(&out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "kind of write\tkills\tacts acknowledged\trecords looked for\tlost\tkill came within a write that was kept")
	all := tally{}
	for _, kind := range tortured {
		s := sums[kind]
		fmt.Fprintln(w, s.row(kind))
		all.add(*s)
	}
	fmt.Fprintln(w, all.row("all"))
	_ = w.Flush()
	t.Logf("%d compactions\n%s", packs, &out)
	if all.kills != kills || all.acknowledged == 0 || all.records == 0 || packs == 0 && kills > 60 {
		t.Errorf("%+v, %d compactions: too little was tried", all, packs)
	}
}
