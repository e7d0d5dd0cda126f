#!/bin/sh
# Installs what is missing to build Meniscus and to run its tests: a C compiler
# and the headers that the toolkit draws through, and for the tests a virtual
# screen and the tools that work it. Debian packages, as root or through sudo.
# It says what it does, and does nothing where nothing is missing.
set -eu

build="gcc libc6-dev pkg-config libgl1-mesa-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev"
test="xvfb xauth xdotool openbox wmctrl libgl1-mesa-dri libgl1 tzdata poppler-utils imagemagick desktop-file-utils x11-utils"

if ! command -v go >/dev/null 2>&1; then
	echo "setup: Go is missing. Install Go 1.26 or newer from https://go.dev/dl and run this again." >&2
	exit 1
fi

if ! command -v dpkg-query >/dev/null 2>&1; then
	echo "setup: this is no Debian system, so nothing was installed. Meniscus needs the packages that correspond to:" >&2
	echo "setup:   $build" >&2
	echo "setup: and its tests to: $test" >&2
	exit 0
fi

missing=""
for package in $build $test; do
	case $(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true) in
	installed) ;;
	*) missing="$missing $package" ;;
	esac
done
[ -z "$missing" ] && exit 0

as=""
if [ "$(id -u)" -ne 0 ]; then
	if ! command -v sudo >/dev/null 2>&1; then
		echo "setup: missing:$missing" >&2
		echo "setup: run this as root, or install sudo." >&2
		exit 1
	fi
	as="sudo"
fi

echo "setup: installing$missing" >&2
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { $as apt-get update && $as env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing; } >"$log" 2>&1; then
	tail -n 20 "$log" >&2
	echo "setup: that did not work; the lines above say why." >&2
	exit 1
fi
echo "setup: done" >&2
