package cure

import (
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// truth is what cvode.c wrote of a problem at a tolerance of 1e-10: the
// temperature of the peak, and of every cell at equally spaced times.
type truth struct {
	peak  float64
	cells [][]float64
}

// readTruth reads the truth of a problem from the folder that MENISCUS_TRUTH
// names; nil where it names none.
func readTruth(b *testing.B, name string, cells int) *truth {
	folder := os.Getenv("MENISCUS_TRUTH")
	if folder == "" {
		return nil
	}
	data, err := os.ReadFile(filepath.Join(folder, slug(name)+".truth"))
	if err != nil {
		b.Fatal(err)
	}
	all := make([]float64, len(data)/8)
	for i := range all {
		all[i] = math.Float64frombits(binary.LittleEndian.Uint64(data[8*i:]))
	}
	w := &truth{peak: all[0]}
	for all = all[1:]; len(all) >= cells; all = all[cells:] {
		w.cells = append(w.cells, all[:cells])
	}
	return w
}

// slug is the name of a problem as compare.sh names its files.
func slug(name string) string {
	return strings.NewReplacer("bench: ", "", ",", "", " ", "-").Replace(name)
}

// report tells the error of the peak and the worst error anywhere, in kelvin,
// as metrics of a benchmark.
func (w *truth) report(b *testing.B, peak unit.Temperature, at func(k int) []float64) {
	if w == nil {
		return
	}
	off := math.Abs(float64(peak) - w.peak)
	worst := off
	for k, cells := range w.cells {
		for i, t := range at(k) {
			worst = max(worst, math.Abs(t-cells[i]))
		}
	}
	b.ReportMetric(off, "K-peak")
	b.ReportMetric(worst, "K-worst")
}

// tolerances are those of MENISCUS_TOLERANCES, or else what a run uses itself.
func tolerances(b *testing.B) []float64 {
	list := []float64{}
	for _, s := range strings.Fields(os.Getenv("MENISCUS_TOLERANCES")) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			b.Fatal(err)
		}
		list = append(list, v)
	}
	if len(list) == 0 {
		return []float64{0}
	}
	return list
}

// BenchmarkAgainst is this solver's half of testdata/cure/compare.sh: the
// benched slabs and sections, with the errors against the truth that the script
// had cvode.c write.
func BenchmarkAgainst(b *testing.B) {
	all := readBook(b)
	for _, p := range all.Slabs {
		if !strings.HasPrefix(p.Name, "bench: ") {
			continue
		}
		s, until := all.slab(b, p.Name)
		for _, tolerance := range tolerances(b) {
			b.Run(fmt.Sprintf("%s/%g", slug(p.Name), tolerance), func(b *testing.B) {
				o := Options{Until: until, Tolerance: unit.TempRise(tolerance)}
				var c *Course
				var err error
				for b.Loop() {
					if c, err = s.Run(context.Background(), o); err != nil {
						b.Fatal(err)
					}
				}
				w := readTruth(b, p.Name, len(c.Heights))
				w.report(b, c.Peak.T, func(k int) []float64 {
					return c.At(until.Times(float64(k+1) / float64(len(w.cells)))).T
				})
				b.ReportMetric(float64(len(c.Frames)), "steps")
			})
		}
	}
	for _, p := range all.Sections {
		if !strings.HasPrefix(p.Name, "bench: ") {
			continue
		}
		s, until := all.section(b, p.Name)
		for _, tolerance := range tolerances(b) {
			b.Run(fmt.Sprintf("%s/%g", slug(p.Name), tolerance), func(b *testing.B) {
				o := Options{Until: until, Tolerance: unit.TempRise(tolerance)}
				var c *SectionCourse
				var err error
				for b.Loop() {
					if c, err = s.Run(context.Background(), o); err != nil {
						b.Fatal(err)
					}
				}
				f := &c.Fields[0]
				ny, nz := len(f.Y)-1, len(f.Z)-1
				w := readTruth(b, p.Name, ny*nz)
				w.report(b, c.Peak.T, func(k int) []float64 {
					at := until.Times(float64(k+1) / float64(len(w.cells)))
					return columns(b, c, at, ny, nz)
				})
				b.ReportMetric(float64(c.Steps), "steps")
			})
		}
	}
}

// columns gives the temperatures of the field at a time column by column, as
// the truth has them.
func columns(b *testing.B, c *SectionCourse, at unit.Span, ny, nz int) []float64 {
	for i := range c.Fields {
		if math.Abs(float64(c.Fields[i].At-at)) > 1e-6*float64(at) {
			continue
		}
		out := make([]float64, 0, ny*nz)
		for y := range ny {
			for z := range nz {
				out = append(out, c.Fields[i].T[z*ny+y])
			}
		}
		return out
	}
	b.Fatalf("no field at %.3f h", at.Hours())
	return nil
}
