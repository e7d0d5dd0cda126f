//go:build !windows

package app

import (
	"context"
	"os/exec"
	"strings"
	"time"
)

// patience is how long the desktop may take to answer.
const patience = 2 * time.Second

// DesktopAsksForStill asks the desktops that keep their settings by gsettings.
func DesktopAsksForStill(ctx context.Context) bool {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	said, err := exec.CommandContext(ctx, "gsettings", "get", "org.gnome.desktop.interface", "enable-animations").Output()
	return err == nil && strings.TrimSpace(string(said)) == "false"
}
