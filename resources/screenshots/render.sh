#!/bin/sh
# Draws the pictures of README.md anew, by the program that is built. Run from anywhere.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
program="$top/build/release/app/stillroom"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
book="$work/The Low Lamp.stillroom"
"$program" new "$book" --sample >/dev/null
draw() { # name, view, further options
    name=$1
    view=$2
    shift 2
    "$program" render "$view" --workbook "$book" --drink "${drink:-Ox Skerry}" --size 1440x900 --out "$top/resources/screenshots/$name.png" "$@"
}
draw bench-light bench
draw bench-dark bench --dark
draw bench-light-2x bench --scale 2
draw side-by-side-light side-by-side
draw side-by-side-dark side-by-side --dark
draw what-to-buy-light what-to-buy
draw larder-light larder
draw panel-light panel-closed
draw search-light search --words "smoke"
draw tasting-light tasting
draw target-light target
draw find-fact-light find-fact
drink="Heather-honey syrup" draw preparation-light bench
