#!/usr/bin/env bash
# The job in a real window, with the mouse and by keyboard alone: tests/window/job.sh [PROGRAM]
#
# Opens the demo print under a display of its own, drags a sight edge (all four sides, with Shift
# one, with Ctrl opposite ones), the window and an undermat, types a length, turns the board over and drags a hinge, ticks steps at the bench, saves, and
# reads the figures of the saved plan. Needs Xvfb and xdotool.
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 1

program=${1:-}
if [ -z "$program" ]; then
    cargo build -q --locked -p sightedge || exit 1
    program=${CARGO_TARGET_DIR:-target}/debug/sightedge
fi
work=$(mktemp -d)
passed=0 failed=0 window= pid=
trap 'kill $(jobs -p) 2>/dev/null; rm -rf "$work"' EXIT

exec 3>"$work/display"
# Without keys that repeat by themselves: on a busy machine one press would become several.
Xvfb -r -displayfd 3 -screen 0 1280x800x24 +extension GLX >/dev/null 2>&1 &
display=$!
for _ in $(seq 100); do [ -s "$work/display" ] && break; sleep 0.1; done
DISPLAY=":$(cat "$work/display")"
export DISPLAY SIGHTEDGE_STATE="$work/state"
unset WAYLAND_DISPLAY

# Waits until what was done is seen, however busy the machine is: no thread of the program or of
# its display runs or waits for the disk, none of them takes time, and no picture is being read
# (each in a process of its own; the colours found in one are buttons that Tab goes through).
# `still 10` for longer.
still() {
    local times=${1:-2} quiet=0 before=none now end=$((SECONDS + 120))
    while [ "$quiet" -lt "$times" ] && [ "$SECONDS" -lt "$end" ]; do
        sleep 0.05
        if [ -n "$(cat "/proc/$pid"/task/*/children 2>/dev/null)" ]; then quiet=0; continue; fi
        now=$(cat "/proc/$pid"/task/*/stat "/proc/$display"/task/*/stat 2>/dev/null | awk '
            { sub(/^.*\) /, ""); if ($1 ~ /[RD]/) runs = 1; took += $12 + $13 }
            END { print runs ? "busy" : took }')
        if [ "$now" != busy ] && [ "$now" = "$before" ]; then quiet=$((quiet + 1)); else quiet=0; fi
        before=$now
    done
}

key() {
    local each
    for each in "$@"; do
        xdotool key "$each"
        still
    done
}

plan=$work/print.jpg.sightedge.ron
fresh() {
    rm -rf "$work"/print* "$work/state"
    cp assets/demo/slack-water.jpg "$work/print.jpg"
    # Not the first start, whose lines take room from the board.
    mkdir -p "$work/state"
    echo '(greeted: true)' >"$work/state/settings.ron"
    "$program" new "$work/print.jpg" --sheet 13x19in --image 11x15 --outer 20x26 \
        --reveal 1/4 --undermat 3/16 >/dev/null
    "$program" "$work/print.jpg" 2>"$work/said" &
    pid=$!
    for _ in $(seq 300); do
        window=$(xdotool search --name 'Sightedge' 2>/dev/null | tail -n 1)
        [ -n "$window" ] && break
        sleep 0.1
    done
    still 10
    xdotool windowfocus "$window"
    still
}

close() {
    kill %% 2>/dev/null
    wait %% 2>/dev/null
}

# From a place to another, with a key held if one is named.
drag() {
    xdotool mousemove "$1" "$2"
    still
    [ -n "${5:-}" ] && xdotool keydown "$5" && still
    xdotool mousedown 1
    still
    for step in 1 2 3 4 5 6; do
        xdotool mousemove $(($1 + ($3 - $1) * step / 6)) $(($2 + ($4 - $2) * step / 6))
        still
    done
    xdotool mouseup 1
    still
    [ -n "${5:-}" ] && xdotool keyup "$5" && still
    return 0
}

save() {
    key ctrl+s
    still 10
}

# A figure of the saved plan in sixteenths of an inch, exactly; `off` where it is on none.
figure() {
    "$program" figures "$plan" --json | python3 -c '
import json, sys
value = json.load(sys.stdin)["openings"][0]
for key in sys.argv[1].split("."):
    value = value[int(key)] if key.isdigit() else value[key]
steps = value / 25.4 * 16
print(round(steps) if abs(steps - round(steps)) < 1e-6 else "off")' "$1"
}

is() {
    local name=$1 found=$2 wanted=$3
    if [ "$found" != off ] && [ "$found" "${@:4}" "$wanted" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAILED: $name: found $found, wanted ${*:4} $wanted"
    fi
}

# --- With the mouse. Places are those of this plan in a window of 1280 x 800.
fresh
sides() {
    local which
    for which in top right bottom left; do
        is "$1: $which" "$(figure "$2.${which}_mm")" "$3" "${@:4}"
    done
}
outer=$("$program" figures "$plan" --json | grep -m 1 -A 6 '"outer"')
drag 858 300 866 300
save
pulled=$(figure reveal.right_mm)
is "a sight edge dragged outwards" "$pulled" 4 -gt
sides "with it all four" reveal "$pulled" -eq
is "the outer size that was chosen" \
    "$([ "$("$program" figures "$plan" --json | grep -m 1 -A 6 '"outer"')" = "$outer" ]; echo $?)" 0 -eq
key ctrl+z
save
sides "one drag is one step of undo" reveal 4 -eq
drag 858 300 868 300 shift
save
is "with Shift this side" "$(figure reveal.right_mm)" 4 -gt
is "alone, not its opposite" "$(figure reveal.left_mm)" 4 -eq
is "nor the top" "$(figure reveal.top_mm)" 4 -eq
key ctrl+z
drag 858 300 868 300 ctrl
save
pulled=$(figure reveal.right_mm)
is "with Ctrl this side" "$pulled" 4 -gt
is "and its opposite" "$(figure reveal.left_mm)" "$pulled" -eq
is "not the top" "$(figure reveal.top_mm)" 4 -eq
key ctrl+z
drag 746 460 746 442
save
is "the window dragged up" "$(figure borders.top_mm)" 80 -lt
key ctrl+z
drag 865 300 873 300
save
pulled=$(figure layers.1.offset.right_mm)
is "the undermat dragged" "$pulled" 3 -gt
sides "its whole offset" layers.1.offset "$pulled" -eq
key ctrl+z
drag 865 300 873 300 shift
save
is "with Shift this side of the undermat" "$(figure layers.1.offset.right_mm)" 3 -gt
is "alone" "$(figure layers.1.offset.left_mm)" 3 -eq
close

# --- By keyboard alone.
fresh
tab() {
    for _ in $(seq "$1"); do key Tab; done
}
tab 12
xdotool type '1/2'
still
key Return
save
sides "one reveal typed for all four sides" reveal 8 -eq
close
fresh
# The field opens into its four sides.
tab 13
key space
tab 1
xdotool type '1/2'
still
key Return
save
is "the top reveal typed" "$(figure reveal.top_mm)" 8 -eq
is "and only that" "$(figure reveal.bottom_mm)" 4 -eq
close
fresh
tab 53
key Right Right
save
sides "an edge nudged two steps, and with it all four" reveal 6 -eq
key shift+Right
save
is "with Shift the right edge" "$(figure reveal.right_mm)" 7 -eq
is "alone" "$(figure reveal.left_mm)" 6 -eq
xdotool type '3/4'
still
key Return
save
sides "a number typed for the edge in hand, and with it all four" reveal 12 -eq
close

# --- Behind the mat, turned over: 1 in from the sheet's left edge lies at the right.
# A figure of the first hinge in sixteenths of an inch, and whether a step is ticked.
hinge() {
    "$program" hinges "$plan" --json | python3 -c '
import json, sys
print(round(json.load(sys.stdin)["hinges"][0]["x_mm"] / 25.4 * 16))'
}
ticked() {
    "$program" steps "$plan" --json | python3 -c '
import json, sys
print(sum(step["done"] for step in json.load(sys.stdin)["steps"]))'
}
fresh
is "where the first hinge is planned" "$(hinge)" 16 -eq
key ctrl+2
still 10
drag 852 182 806 182
save
is "the first hinge dragged two inches inwards" "$(hinge)" 48 -eq
key Right
save
is "and nudged back by an arrow, as it is seen" "$(hinge)" 47 -eq
key ctrl+5
still 10
key space
key space
save
is "two steps ticked at the bench" "$(ticked)" 2 -eq
close

# --- Without a display: one plain sentence, no panic.
said=$(env -u DISPLAY "$program" "$work/print.jpg" 2>&1)
code=$?
is "the exit code without a display" "$code" 0 -ne
case $said in
    *"no window can be shown"*"no display was found"*) passed=$((passed + 1)) ;;
    *) failed=$((failed + 1)); echo "FAILED: without a display it said: $said" ;;
esac

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
