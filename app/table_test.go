package app

import (
	"bytes"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
)

// TestTableWithoutAScreen: a table is written from an exported piece, and one
// that there is not is refused by name.
func TestTableWithoutAScreen(t *testing.T) {
	from, to := filepath.Join("..", "testdata", "demo-breakfast-boards.json"), filepath.Join(t.TempDir(), "t.csv")
	for _, kind := range model.TableKinds {
		if code := runCommand([]string{"table", kind, from, to}, time.Time{}, io.Discard, os.Stderr); code != 0 {
			t.Fatalf("%s: code %d", kind, code)
		}
		data, err := os.ReadFile(to)
		if err != nil {
			t.Fatal(err)
		}
		if rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll(); err != nil || len(rows) == 0 {
			t.Errorf("%s: %d rows, %v", kind, len(rows), err)
		}
	}
	var problems bytes.Buffer
	if code := runCommand([]string{"table", "else", from, to}, time.Time{}, io.Discard, &problems); code != 2 || !strings.Contains(problems.String(), "layers") {
		t.Errorf("code %d, %q", code, problems.String())
	}
}
