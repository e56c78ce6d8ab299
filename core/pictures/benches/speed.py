#!/usr/bin/env python3
"""Whole-process speed of the picture pipeline beside libvips' vipsthumbnail, in one run.

    python3 core/pictures/benches/speed.py [--megapixels 24,45,100] [--runs 5]
        [--folder FOLDER] [--only WORD] [--program PROGRAM]

Needs Debian's libvips-tools (the peer, and the encoder of our generated pictures) and a Rust
toolchain. Prints, for each file, the median wall time, CPU time and peak memory of both, the
ratios and the targets. Exit code 1 when a target was missed.
"""

import argparse
import os
import statistics
import subprocess
import sys
import time

SIZES = {24: (6000, 4000), 45: (8256, 5504), 100: (11648, 8736)}
TIFF = ["tiffsave", "--compression"]
JPEG = ["jpegsave", "--Q", "92", "--subsample-mode"]
SEQUENTIAL, PROGRESSIVE = (1.0, 1.0, 1.1), (1.2, 1.2, 1.2)
PLAIN, PACKED = (0.9, 0.9, 0.9), (1.6, 1.6, 1.6)
KINDS = [
    # name, encoder arguments, target of the wall-time ratio at 24, 45, 100 MP, and of the memory
    # in bytes a pixel beside 64 MiB
    ("jpeg-420.jpg", JPEG + ["on"], SEQUENTIAL, 4),
    ("jpeg-444.jpg", JPEG + ["off"], SEQUENTIAL, 4),
    ("progressive.jpg", JPEG + ["off", "--interlace"], PROGRESSIVE, 10),
    ("tiff16.tif", TIFF + ["none"], PLAIN, 8),
    ("tiff16-lzw.tif", TIFF + ["lzw", "--predictor", "horizontal"], PACKED, 8),
    ("tiff16-deflate.tif", TIFF + ["deflate", "--predictor", "horizontal"], PACKED, 8),
    ("png16.png", ["pngsave"], PLAIN, 8),
]


def measure(command):
    """Wall seconds, CPU seconds, peak MiB of one process."""
    start = time.perf_counter()
    quiet = os.open(os.devnull, os.O_WRONLY)
    actions = [(os.POSIX_SPAWN_DUP2, quiet, 1), (os.POSIX_SPAWN_DUP2, quiet, 2)]
    pid = os.posix_spawnp(command[0], command, os.environ, file_actions=actions)
    _, status, usage = os.wait4(pid, 0)
    wall = time.perf_counter() - start
    os.close(quiet)
    if status != 0:
        sys.exit(f"{' '.join(command)} ended with status {status}")
    return wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def medians(runs):
    return [statistics.median(column) for column in zip(*runs)]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--megapixels", default="24,45,100")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--folder", default="target/picture-bench")
    parser.add_argument("--only", default="")
    parser.add_argument("--program", help="our program; by default the package's example")
    options = parser.parse_args()

    subprocess.run(
        ["cargo", "build", "--release", "--quiet", "-p", "sightedge-pictures", "--examples"],
        check=True)
    examples = os.path.join(os.environ.get("CARGO_TARGET_DIR", "target"), "release", "examples")
    ours_program = options.program.split() if options.program else [f"{examples}/preview"]
    os.makedirs(options.folder, exist_ok=True)
    missed = 0
    print("file                     bytes/px | wall s ours  peer ratio (target) |"
          " CPU s ours  peer ratio | MiB ours (most) peer")
    for megapixels in map(int, options.megapixels.split(",")):
        width, height = SIZES[megapixels]
        scene = f"{options.folder}/{megapixels}.ppm"
        for kind, encode, targets, held in KINDS:
            name = f"{megapixels}-{kind}"
            if options.only not in name:
                continue
            file = f"{options.folder}/{name}"
            if not os.path.exists(file):
                if not os.path.exists(scene):
                    subprocess.run([f"{examples}/scene", str(width), str(height), scene],
                                   check=True)
                subprocess.run(["vips", encode[0], scene, file] + encode[1:], check=True)
            out = f"{options.folder}/out"
            ours = ours_program + [file, "--out", f"{out}.ppm", "--size", "2048"]
            peer = ["vipsthumbnail", file, "--size", "2048", "--export-profile", "srgb",
                    "-o", os.path.abspath(f"{out}-peer.ppm")]
            # Both read the file once, so that neither meets it cold; then by turns.
            measure(ours), measure(peer)
            pairs = [(measure(ours), measure(peer)) for _ in range(options.runs)]
            (ow, oc, om), (pw, pc, pm) = (medians(side) for side in zip(*pairs))
            wall = statistics.median(o[0] / p[0] for o, p in pairs)
            target = targets[list(SIZES).index(megapixels)]
            most = held * width * height / (1 << 20) + 64
            fits = wall <= target and om <= most
            missed += not fits
            density = os.path.getsize(file) / (width * height)
            print(f"{name:24} {density:8.2f} | {ow:10.3f} {pw:6.3f} {wall:5.2f} ({target:4.2f})  |"
                  f" {oc:9.3f} {pc:6.3f} {oc / pc:5.2f} | {om:7.0f} ({most:4.0f}) {pm:5.0f}"
                  f" {'' if fits else 'MISSED'}", flush=True)
        if os.path.exists(scene) and not options.only:
            os.remove(scene)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
