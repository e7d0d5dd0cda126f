// Package locale gives the program a language to speak in where the machine
// names none. Under the locale C, which has no language, the toolkit would
// complain on standard error as it starts, before main, and scripts read that.
//
// It must be started before the toolkit: Go starts packages that are ready in
// the order of their paths, and the toolkit waits for others that come later
// than this one. A test watches that it stays so.
package locale

import (
	"os"
	"strings"
)

func init() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		value := os.Getenv(name)
		language, _, _ := strings.Cut(value, ".")
		if language == "C" || language == "POSIX" {
			os.Setenv(name, "en_US.UTF-8")
		}
	}
}
