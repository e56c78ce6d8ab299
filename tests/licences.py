#!/usr/bin/env python3
"""Writes assets/licences/crates.txt: the licences of all crates that are linked into the program,
on every system, from the sources cargo has fetched. No network: run `cargo fetch` before.

Where a crate offers MIT among others, that is the one taken. Texts that are alike stand once."""

import json
import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
OUT = ROOT / "assets/licences/crates.txt"
FILES = re.compile(r"^(licen[cs]e|copying|notice|unlicense|copyright)", re.I)


def cargo(*arguments):
    run = ["cargo", *arguments, "--offline", "--locked"]
    return subprocess.run(run, cwd=ROOT, check=True, capture_output=True, text=True).stdout


def linked():
    """Name and version of each crate that is linked, ours left out."""
    tree = cargo("tree", "-p", "sightedge", "-e", "normal", "--target", "all", "--all-features",
                 "--prefix", "none", "-f", "{p}")
    found = set()
    for line in tree.splitlines():
        words = line.split()
        if len(words) > 1 and not words[0].startswith("sightedge"):
            found.add((words[0], words[1].lstrip("v")))
    return found


def texts(package):
    """The licence files of a crate: those of MIT where it offers that and has such a file."""
    folder = Path(package["manifest_path"]).parent
    files = sorted(f for f in folder.iterdir() if f.is_file() and FILES.match(f.name))
    expression = package.get("license") or ""
    choice = re.search(r"\bMIT\b", expression) and re.search(r" OR |/", expression)
    mit = [f for f in files if "mit" in f.name.lower()]
    if choice and mit:
        notices = [f for f in files if f.name.lower().startswith("notice")]
        files = mit + notices if " AND " not in expression else files
    return [f.read_text(encoding="utf-8", errors="replace") for f in files]


def tidy(text):
    lines = [line.rstrip() for line in text.replace("\r\n", "\n").replace("\t", "    ").split("\n")]
    return "\n".join(lines).strip("\n")


def main():
    wanted = linked()
    packages = json.loads(cargo("metadata", "--format-version", "1", "--all-features"))["packages"]
    packages = [p for p in packages if (p["name"], p["version"]) in wanted]
    assert len(packages) == len(wanted), "metadata and tree differ"
    packages.sort(key=lambda p: (p["name"], p["version"]))
    by_text = {}
    bare = []
    out = ["The crates that are linked into the program, with their licences.", ""]
    for package in packages:
        name = f"{package['name']} {package['version']}"
        out.append(f"{name}: {package.get('license') or 'see its licence file'}")
        found = texts(package)
        if not found:
            by = ", ".join(re.sub(r" *<[^>]*>", "", who) for who in package.get("authors") or [])
            by = by or package.get("repository") or "its authors"
            bare.append(f"{name}, by {by}: {package.get('license')}")
        for text in found:
            text = tidy(text)
            key = re.sub(r"\s+", " ", text)
            by_text.setdefault(key, (text, []))[1].append(name)
    if bare:
        out += ["", "These bring no text of their licence. Those of MIT and Apache 2.0 are printed with",
                "the program's own, all others further down:", ""]
        out += bare
    for text, names in sorted(by_text.values(), key=lambda pair: pair[1][0]):
        out += ["", "-" * 78, ", ".join(names), "-" * 78, "", text]
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text("\n".join(out) + "\n", encoding="utf-8")


main()
