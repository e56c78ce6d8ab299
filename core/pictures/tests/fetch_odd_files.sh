#!/bin/sh
# Fetches malformed and odd pictures for tests/odd_files.rs into $SIGHTEDGE_ODD_FILES: the test
# files of Debian's source packages of picture libraries (the PNG conformance suite among them),
# and a CMYK profile. Needs a Debian system with apt and tar; nothing is installed, nothing is
# committed.
set -eu
to=${SIGHTEDGE_ODD_FILES:?name a folder in SIGHTEDGE_ODD_FILES}
mkdir -p "$to/pictures" "$to/profiles"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$work/lists/partial" "$work/sources"
# The sources of the release that this system takes its packages from; mirrors need not hold
# those of its updates.
mkdir -p "$work/parts"
sed -n '/-security\|-updates/!s/^deb /deb-src /p' /etc/apt/sources.list \
    2>/dev/null > "$work/sources.list" || true
for part in /etc/apt/sources.list.d/*; do
    case $part in
        *.list) sed -n '/-security\|-updates/!s/^deb /deb-src /p' "$part" >> "$work/sources.list" ;;
        *.sources)
            awk 'BEGIN { RS = ""; ORS = "\n\n" } !/-security/' "$part" |
                sed 's/^Types:.*/Types: deb-src/; s/^Suites: *\([^ ]*\).*/Suites: \1/' \
                    > "$work/parts/$(basename "$part")"
            ;;
    esac
done
options="-o Dir::Etc::SourceList=$work/sources.list -o Dir::Etc::SourceParts=$work/parts
    -o Dir::State::Lists=$work/lists -o APT::Get::List-Cleanup=0 -o APT::Sandbox::User=root"
# shellcheck disable=SC2086
apt-get $options -qq update
cd "$work/sources"
# shellcheck disable=SC2086
apt-get $options -qq source --download-only pillow libpng1.6 golang-golang-x-image
for archive in *.orig*.tar.*; do
    name=${archive%%.orig*}
    mkdir -p "$work/files/$name"
    tar -xf "$archive" -C "$work/files/$name"
done
# One flat folder; the path becomes part of the name.
cd "$work/files"
find . -type f -size -20M \( -iname '*.png' -o -iname '*.jpg' -o -iname '*.jpeg' \
    -o -iname '*.jpe' -o -iname '*.tif' -o -iname '*.tiff' -o -iname '*.webp' \
    -o -iname '*.jp2' -o -iname '*.gif' -o -iname '*.bmp' -o -iname '*.psd' \
    -o -iname '*.avif' -o -iname '*.heic' -o -name 'crash-*' -o -name 'timeout-*' \
    -o -name 'oom-*' \) |
    while read -r file; do
        cp "$file" "$to/pictures/$(echo "${file#./}" | tr '/ ' '__')"
    done
find . -type f \( -iname '*.icc' -o -iname '*.icm' \) -exec cp {} "$to/profiles/" \;
cd "$work"
apt-get -qq download libgs-common
dpkg-deb -x libgs-common_*.deb "$work/gs"
find "$work/gs" -name 'default_cmyk.icc' -exec cp {} "$to/profiles/" \;
echo "$(ls "$to/pictures" | wc -l) pictures, $(ls "$to/profiles" | wc -l) profiles in $to"
