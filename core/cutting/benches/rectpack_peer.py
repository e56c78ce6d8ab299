"""Totals of the PyPI packer rectpack on the bin-packing instances.

Takes the best of its guillotine algorithms and sort orders on each instance.
Usage: rectpack_peer.py FOLDER EVERY SKIP   (pip install rectpack)
"""

import collections
import csv
import itertools
import pathlib
import sys
import time

import rectpack
from rectpack import guillotine

SORTS = [rectpack.SORT_AREA, rectpack.SORT_PERI, rectpack.SORT_DIFF, rectpack.SORT_SSIDE, rectpack.SORT_LSIDE]
ALGORITHMS = [
    getattr(guillotine, f"Guillotine{fit}{split}")
    for fit, split in itertools.product(["Bssf", "Blsf", "Baf"], ["Sas", "Las", "Slas", "Llas", "Minas", "Maxas"])
]


def bins(sheet, pieces, turn):
    best = None
    for algorithm, sort in itertools.product(ALGORITHMS, SORTS):
        packer = rectpack.newPacker(
            mode=rectpack.PackingMode.Offline, bin_algo=rectpack.PackingBin.BBF,
            pack_algo=algorithm, sort_algo=sort, rotation=turn)
        for piece in pieces:
            packer.add_rect(*piece)
        packer.add_bin(*sheet, count=len(pieces))
        packer.pack()
        if sum(len(b) for b in packer) == len(pieces):
            best = len(packer) if best is None else min(best, len(packer))
    return best


def main():
    folder, every, skip = pathlib.Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    instances = collections.defaultdict(lambda: (list(), list()))
    with open(folder / "bin-packing-instances.csv", newline="") as table:
        for row in csv.DictReader(table):
            sheets, pieces = instances[row["instance"]]
            size = (int(row["width"]), int(row["height"]))
            if row["kind"] == "sheet":
                sheets.append(size)
            else:
                pieces.extend([size] * int(row["copies"] or 1))
    chosen = list(instances.values())[skip::every]
    for turn, word in [(True, "rotated"), (False, "oriented")]:
        start = time.process_time()
        total = sum(bins(sheets[0], pieces, turn) for sheets, pieces in chosen)
        seconds = (time.process_time() - start) / len(chosen)
        print(f"rectpack, {word}: {total} sheets on {len(chosen)} instances, {seconds:.2f} s each")


main()
