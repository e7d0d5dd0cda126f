package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

// largestPNG is a PNG of as many pixels as are read, sixteen bits deep and to be
// seen through: what takes the most memory of all that is not refused.
func largestPNG(t testing.TB) []byte {
	const wide, high = 7071, 7071
	var out bytes.Buffer
	out.WriteString("\x89PNG\r\n\x1A\n")
	chunk := func(name string, body []byte) {
		out.Write(binary.BigEndian.AppendUint32(nil, uint32(len(body))))
		sum := crc32.NewIEEE()
		w := io.MultiWriter(&out, sum)
		_, _ = io.WriteString(w, name)
		_, _ = w.Write(body)
		out.Write(binary.BigEndian.AppendUint32(nil, sum.Sum32()))
	}
	header := binary.BigEndian.AppendUint32(nil, wide)
	header = binary.BigEndian.AppendUint32(header, high)
	chunk("IHDR", append(header, 16, 6, 0, 0, 0))
	var pixels bytes.Buffer
	z, err := zlib.NewWriterLevel(&pixels, zlib.BestSpeed)
	if err != nil {
		t.Fatal(err)
	}
	line := make([]byte, 1+8*wide)
	for range high {
		_, _ = z.Write(line)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	chunk("IDAT", pixels.Bytes())
	chunk("IEND", nil)
	return out.Bytes()
}

// mostMemory is what a process that reads pictures, one after the other, needs
// at most: for a HEIC, its decoder, a raster with its halves, the file, and what
// is not cleared away yet. All other kinds stay below mostOthers.
const (
	mostMemory = 960 << 20
	mostOthers = 640 << 20
)

// TestMemoryIsBounded reads the pictures that take the most, one behind the
// other, in a process of its own, and asks the system for the most that it ever
// needed.
func TestMemoryIsBounded(t *testing.T) {
	const part = "PICTURE_MEMORY_CHILD"
	if os.Getenv(part) != "" {
		readLargest(t)
		return
	}
	if testing.Short() || runtime.GOOS != "linux" || raceDetector {
		t.Skip("looks at the memory of a process for some seconds, on Linux")
	}
	cmd := exec.Command(os.Args[0], "-test.run=^TestMemoryIsBounded$", "-test.v")
	cmd.Env = append(os.Environ(), part+"=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for what, limit := range map[string]int{"others: ": mostOthers, "all: ": mostMemory} {
		_, after, found := strings.Cut(string(out), what)
		kilobytes, err := strconv.Atoi(strings.Fields(after + " 0")[0])
		if !found || err != nil || kilobytes<<10 > limit {
			t.Errorf("%s%d MB, not %d: %v\n%s", what, kilobytes>>10, limit>>20, err, out)
		}
		t.Logf("%s%d MB at most, %d are allowed", what, kilobytes>>10, limit>>20)
	}
}

// readLargest reads the pictures and prints the most memory that it needed.
func readLargest(t *testing.T) {
	deep := largestPNG(t)
	read := func(name string, data []byte, good bool) {
		r, err := Trace(data)
		if (err == nil) != good {
			t.Errorf("%s: %v", name, err)
		}
		if err == nil && int64(r.Image.Rect.Dx())*int64(r.Image.Rect.Dy()) > MostTraced+10_000 {
			t.Errorf("%s: worked on as %v", name, r.Image.Rect)
		}
		fmt.Printf("%s: %d kB so far\n", name, peak(t))
	}
	for _, c := range []string{"plain.jpg", "progressive.jpg", "cmyk.jpg", "turned.heic"} {
		read(c, readFile(t, c), true)
	}
	progressive := readFile(t, "progressive.jpg")
	read("JPEG that claims to be large", claimsJPEG(t, readFile(t, "plain.jpg"), 7000, 7000), false)
	read("progressive JPEG that claims to be large", claimsJPEG(t, progressive, 5000, 5000), false)
	read("CMYK that claims to be large", claimsJPEG(t, readFile(t, "cmyk.jpg"), 7000, 7000), false)
	for range 3 {
		read("deep PNG", deep, true)
	}
	for name, c := range hostile(t) {
		read(name, c.data, false)
	}
	fmt.Printf("others: %d kB\n", peak(t))
	for range 2 {
		read("HEIC of 24 million pixels", readFile(t, "large.heic"), true)
	}
	fmt.Printf("all: %d kB\n", peak(t))
}

// peak is the most memory that this process ever had, in kB.
func peak(t *testing.T) int {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(status), "VmHWM:")
	n, err := strconv.Atoi(strings.Fields(after + " none")[0])
	if err != nil {
		t.Fatal(err)
	}
	return n
}
