#!/usr/bin/env python3
"""Quality of the picture pipeline beside libvips' vipsthumbnail.

    python3 core/pictures/benches/quality.py [--folder FOLDER]

Reference: Pillow's Lanczos of the full-resolution picture, decoded by Pillow, in linear light.
Needs numpy and Pillow (PyPI), Debian's libvips-tools and a Rust toolchain. Prints the mean and
the 99th percentile of CIEDE2000 to the reference for both. Exit code 1 when ours is worse.
"""

import argparse
import os
import subprocess
import sys

import numpy
from PIL import Image

Image.MAX_IMAGE_PIXELS = None
SIZES = {24: (6000, 4000), 45: (8256, 5504)}
KINDS = [
    ("jpeg-420.jpg", ["jpegsave", "--Q", "92", "--subsample-mode", "on"]),
    ("jpeg-444.jpg", ["jpegsave", "--Q", "92", "--subsample-mode", "off"]),
    ("tiff16.tif", ["tiffsave"]),
]


def ppm(path):
    with open(path, "rb") as file:
        assert file.readline() == b"P6\n"
        width, height = map(int, file.readline().split())
        top = int(file.readline())
        kind = ">u2" if top > 255 else "u1"
        return numpy.frombuffer(file.read(), kind).reshape(height, width, 3), top


def reference(path, scene, out, side):
    if path.endswith(".jpg"):
        pixels, top = numpy.asarray(Image.open(path).convert("RGB")), 255
    else:
        pixels, top = ppm(scene)
    height, width = pixels.shape[:2]
    scale = side / max(width, height)
    size = (int(width * scale + 0.5), int(height * scale + 0.5))
    planes = []
    for channel in range(3):
        v = pixels[..., channel].astype(numpy.float32) / numpy.float32(top)
        v = numpy.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
        plane = Image.fromarray(v.astype(numpy.float32)).resize(size, Image.LANCZOS)
        v = numpy.clip(numpy.asarray(plane), 0, 1)
        v = numpy.where(v <= 0.0031308, v * 12.92, 1.055 * v ** (1 / 2.4) - 0.055)
        planes.append(numpy.round(v * 255).astype(numpy.uint8))
    Image.fromarray(numpy.dstack(planes)).save(out)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--folder", default="target/picture-bench")
    parser.add_argument("--megapixels", default="24,45")
    options = parser.parse_args()
    subprocess.run(
        ["cargo", "build", "--release", "--quiet", "-p", "sightedge-pictures", "--examples"],
        check=True)
    examples = os.path.join(os.environ.get("CARGO_TARGET_DIR", "target"), "release", "examples")
    os.makedirs(options.folder, exist_ok=True)
    worse = 0
    print("file, side                     | mean dE2000 ours  peer | 99th percentile ours  peer")
    for megapixels in map(int, options.megapixels.split(",")):
        width, height = SIZES[megapixels]
        scene = f"{options.folder}/{megapixels}.ppm"
        if not os.path.exists(scene):
            subprocess.run([f"{examples}/scene", str(width), str(height), scene], check=True)
        for kind, encode in KINDS:
            file = f"{options.folder}/{megapixels}-{kind}"
            if not os.path.exists(file):
                subprocess.run(["vips", encode[0], scene, file] + encode[1:], check=True)
            for side in (2048, 1400, 700):
                ours, peer, ref = (f"{options.folder}/q-{k}.ppm" for k in ("ours", "peer", "ref"))
                subprocess.run([f"{examples}/preview", file, "--out", ours, "--size", str(side)],
                               check=True, stderr=subprocess.DEVNULL)
                subprocess.run(["vipsthumbnail", file, "--size", str(side), "--export-profile",
                                "srgb", "-o", os.path.abspath(peer)], check=True)
                reference(file, scene, ref, side)
                rows = [subprocess.run([f"{examples}/compare", picture, ref], check=True,
                                       capture_output=True, text=True).stdout.split()
                        for picture in (ours, peer)]
                (om, o99, _), (pm, p99, _) = ([float(v) for v in row] for row in rows)
                worse += om > pm or o99 > p99
                print(f"{megapixels}-{kind:18} {side:5}     | {om:16.3f} {pm:5.3f} |"
                      f" {o99:20.3f} {p99:5.3f}", flush=True)
    return 1 if worse else 0


if __name__ == "__main__":
    sys.exit(main())
