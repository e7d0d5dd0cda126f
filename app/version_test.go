package app

import (
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

// TestVersionLine: the version, the Go and the system stand in it, and of the
// source what is known.
func TestVersionLine(t *testing.T) {
	for _, want := range []string{"Meniscus 9.8", runtime.Version(), runtime.GOOS, runtime.GOARCH} {
		if line := VersionLine("9.8"); !strings.Contains(line, want) {
			t.Errorf("%q lacks %q", line, want)
		}
	}
	for _, c := range []struct {
		settings []debug.BuildSetting
		want     string
	}{
		{nil, ""},
		{[]debug.BuildSetting{{Key: "vcs.time", Value: "2026-11-25T08:00:00Z"}}, ""},
		{[]debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef"}}, ", source 0123456789"},
		{[]debug.BuildSetting{{Key: "vcs.revision", Value: "0123"}, {Key: "vcs.time", Value: "2026-11-25T08:00:00Z"}, {Key: "vcs.modified", Value: "true"}}, ", source 0123 of 2026-11-25, changed since"},
	} {
		if got := source(c.settings); got != c.want {
			t.Errorf("%v: %q, want %q", c.settings, got, c.want)
		}
	}
}
