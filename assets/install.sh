#!/bin/sh
# Installs Meniscus for this user on a Linux desktop, or takes it away again:
#
#   sh assets/install.sh             build it and install it below ~/.local
#   sh assets/install.sh FILE        install the built program FILE
#   sh assets/install.sh uninstall   take the program away; notebooks stay
#
# It writes the program into ~/.local/bin, and its icon and its entry of the start
# menu below ~/.local/share (or $XDG_DATA_HOME), and nothing else.
set -eu

id=org.meniscus.workbench
here=$(cd "$(dirname "$0")" && pwd)
say() { echo "install: $*" >&2; }

case ${HOME:-} in
/*) ;;
*) say "HOME is not set to a folder, so there is no place to install to."; exit 1 ;;
esac
case ${XDG_DATA_HOME:-} in
/*) data=$XDG_DATA_HOME ;;
*) data=$HOME/.local/share ;;
esac
program=$HOME/.local/bin/meniscus
entry=$data/applications/$id.desktop
drawing=$data/icons/hicolor/scalable/apps/$id.svg
picture=$data/icons/hicolor/128x128/apps/$id.png

# The desktops that keep lists of entries and icons are told of the change.
tell() {
	if command -v update-desktop-database >/dev/null 2>&1; then update-desktop-database -q "$data/applications" || true; fi
	if command -v gtk-update-icon-cache >/dev/null 2>&1; then gtk-update-icon-cache -q -t "$data/icons/hicolor" 2>/dev/null || true; fi
}

if [ "${1:-}" = uninstall ]; then
	rm -f "$program" "$entry" "$drawing" "$picture"
	[ -d "$data/applications" ] && tell
	say "Meniscus is taken away. Your notebook stays in $data/meniscus."
	exit 0
fi

# In an entry these would need escapes that desktops do not all read alike.
case $program in
*[\"\$\`\\%]*) say "the name of the folder $HOME has a sign that an entry of the start menu cannot hold."; exit 1 ;;
esac

mkdir -p "$(dirname "$program")" "$(dirname "$entry")" "$(dirname "$drawing")" "$(dirname "$picture")"
new=$program.new
trap 'rm -f "$new"' EXIT
if [ $# -gt 0 ]; then
	[ -f "$1" ] || { say "there is no file $1."; exit 1; }
	cp "$1" "$new"
else
	command -v go >/dev/null 2>&1 || { say "Go is missing. Install Go 1.26 or newer from https://go.dev/dl, or name a built program."; exit 1; }
	say "building; the first time takes about four minutes"
	(cd "$here/.." && go build -ldflags "-s -w" -o "$new" .)
fi
chmod 755 "$new"
"$new" version >/dev/null || { say "that file is not Meniscus, or does not run on this machine; nothing was changed."; exit 1; }
mv -f "$new" "$program"
cp "$here/icon.svg" "$drawing"
cp "$here/icon.png" "$picture"
sed "s|^Exec=.*|Exec=\"$program\"|; s|^TryExec=.*|TryExec=$program|" "$here/$id.desktop" >"$entry"
chmod 644 "$entry" "$drawing" "$picture"
tell
say "$("$program" version)"
say "it is in the start menu as Meniscus, and here: $program"
case ":${PATH:-}:" in
*":$HOME/.local/bin:"*) ;;
*) say "to start it by its name, add ~/.local/bin to your PATH" ;;
esac
