package app

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

// VersionLine tells in one line which version this is, of which state of its
// source it was built, where that is known, with which Go and for which system.
func VersionLine(version string) string {
	line := "Meniscus " + version
	if info, ok := debug.ReadBuildInfo(); ok {
		line += source(info.Settings)
	}
	return fmt.Sprintf("%s, built with %s for %s on %s", line, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}

// source words the state of the source in the settings of a build.
func source(settings []debug.BuildSetting) string {
	of := map[string]string{}
	for _, s := range settings {
		of[s.Key] = s.Value
	}
	if of["vcs.revision"] == "" {
		return ""
	}
	const short = 10
	line := ", source " + of["vcs.revision"][:min(short, len(of["vcs.revision"]))]
	if day := of["vcs.time"]; len(day) >= len("2006-01-02") {
		line += " of " + day[:len("2006-01-02")]
	}
	if of["vcs.modified"] == "true" {
		line += ", changed since"
	}
	return line
}
