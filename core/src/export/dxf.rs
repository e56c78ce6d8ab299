//! Cut drawings as DXF: millimetres, one layer a board and kind of cut, closed polylines.
//!
//! Two versions are written: release 12 (`AC1009`), which every machine reads, and 2000
//! (`AC1015`). Y points up, with zero at the lower left corner of the mat. Source: the DXF
//! reference published by the format's maker, releases 12 and 2000.

use std::fmt::{Display, Write as _};

use super::{Kind, decimal, kind};
use crate::geometry::Point;
use crate::length::Length;
use crate::plates::{Part, closed_lines};

/// Which version of the format.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Version {
    /// Release 12.
    R12,
    /// Release 2000.
    #[default]
    R2000,
}

/// Names of layers are no longer. Source: DXF reference, release 12.
const MOST_NAME: usize = 31;

/// Writes the boards of one mat; `id` is the plan's, for the layers' names.
pub fn write(parts: &[Part], version: Version, id: &str) -> String {
    let bottom = parts.iter().map(|part| part.drawing.bounds.bottom()).max();
    let left = parts.iter().map(|part| part.drawing.bounds.left()).min();
    let right = parts.iter().map(|part| part.drawing.bounds.right()).max();
    let top = parts.iter().map(|part| part.drawing.bounds.top()).min();
    let [left, right, top, bottom] = [left, right, top, bottom].map(Option::unwrap_or_default);
    let mut file = File { version, out: String::new(), next: 0x100, flip: bottom };
    let layers = layers(parts);
    file.pair(999, format_args!("Sightedge plan {}", ascii(id)));
    file.header([left, Length::ZERO], [right, bottom - top]);
    if version == Version::R2000 {
        file.open("CLASSES");
        file.close();
    }
    file.tables(&layers);
    file.blocks();
    file.open("ENTITIES");
    for (name, points) in &layers {
        for outline in points {
            file.polyline(name, outline);
        }
    }
    file.close();
    if version == Version::R2000 {
        file.objects();
    }
    file.pair(0, "EOF");
    file.out
}

/// The layers in the order of the boards, with the outlines on each.
fn layers(parts: &[Part]) -> Vec<(String, Vec<&[Point]>)> {
    let mut layers = Vec::new();
    for part in parts {
        for wanted in Kind::ALL {
            let lines: Vec<_> = closed_lines(&part.drawing)
                .filter(|(_, pen)| kind(*pen) == wanted)
                .map(|(points, _)| points)
                .collect();
            if !lines.is_empty() {
                layers.push((layer(&part.name, wanted), lines));
            }
        }
    }
    layers
}

/// A layer's name: capitals, figures and underscores, as release 12 wants them.
fn layer(part: &str, kind: Kind) -> String {
    let mut name: String = part
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_uppercase() } else { '_' })
        .collect();
    name.truncate(MOST_NAME - kind.layer().len() - 1);
    format!("{name}_{}", kind.layer())
}

fn ascii(text: &str) -> String {
    text.chars().map(|c| if c.is_ascii_graphic() || c == ' ' { c } else { '?' }).collect()
}

const MODEL: &str = "1F";
const PAPER: &str = "1B";
const ROOT: &str = "C";
const GROUPS: &str = "D";

struct File {
    version: Version,
    out: String,
    /// The next free handle.
    next: u32,
    /// What lies at y = 0.
    flip: Length,
}

impl File {
    fn pair(&mut self, code: u16, value: impl Display) {
        // Memory takes every letter: there is nothing that could fail.
        writeln!(self.out, "{code:>3}\n{value}").unwrap_or_default();
    }

    fn open(&mut self, section: &str) {
        self.pair(0, "SECTION");
        self.pair(2, section);
    }

    fn close(&mut self) {
        self.pair(0, "ENDSEC");
    }

    fn new_form(&self) -> bool {
        self.version == Version::R2000
    }

    fn handle(&mut self, owner: &str) {
        if self.new_form() {
            let handle = self.next;
            self.next += 1;
            self.pair(5, format_args!("{handle:X}"));
            self.pair(330, owner);
        }
    }

    /// Marks which part of a record follows.
    fn class(&mut self, name: &str) {
        if self.new_form() {
            self.pair(100, name);
        }
    }

    fn header(&mut self, least: [Length; 2], most: [Length; 2]) {
        self.open("HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, if self.new_form() { "AC1015" } else { "AC1009" });
        if self.new_form() {
            self.pair(9, "$HANDSEED");
            self.pair(5, "FFFF");
        }
        for (name, [x, y]) in [("$EXTMIN", least), ("$EXTMAX", most)] {
            self.pair(9, name);
            self.pair(10, decimal(x));
            self.pair(20, decimal(y));
            self.pair(30, 0);
        }
        // 4: millimetres. 1: metric patterns.
        for (name, value) in [("$INSUNITS", 4), ("$MEASUREMENT", 1)] {
            self.pair(9, name);
            self.pair(70, value);
        }
        self.close();
    }

    fn table(&mut self, name: &str, handle: &str, rows: usize) {
        self.pair(0, "TABLE");
        self.pair(2, name);
        if self.new_form() {
            self.pair(5, handle);
            self.pair(330, 0);
        }
        self.class("AcDbSymbolTable");
        self.pair(70, rows);
    }

    fn tables(&mut self, layers: &[(String, Vec<&[Point]>)]) {
        self.open("TABLES");
        if self.new_form() {
            self.table("VPORT", "8", 0);
            self.pair(0, "ENDTAB");
        }
        let line_types: &[&str] = if self.new_form() {
            &["ByBlock", "ByLayer", "Continuous"]
        } else {
            &["CONTINUOUS"]
        };
        self.table("LTYPE", "5", line_types.len());
        for name in line_types {
            self.pair(0, "LTYPE");
            self.handle("5");
            self.class("AcDbSymbolTableRecord");
            self.class("AcDbLinetypeTableRecord");
            for (code, value) in
                [(2, *name), (70, "0"), (3, ""), (72, "65"), (73, "0"), (40, "0")]
            {
                self.pair(code, value);
            }
        }
        self.pair(0, "ENDTAB");
        self.table("LAYER", "2", layers.len() + 1);
        // One colour for all: a layer's name says what to do along its lines.
        for name in std::iter::once("0").chain(layers.iter().map(|(name, _)| name.as_str())) {
            self.pair(0, "LAYER");
            self.handle("2");
            self.class("AcDbSymbolTableRecord");
            self.class("AcDbLayerTableRecord");
            self.pair(2, name);
            self.pair(70, 0);
            self.pair(62, 7);
            self.pair(6, line_types.last().copied().unwrap_or_default());
        }
        self.pair(0, "ENDTAB");
        if self.new_form() {
            self.new_tables();
        }
        self.close();
    }

    /// What release 2000 wants even where it is empty.
    fn new_tables(&mut self) {
        self.table("STYLE", "3", 1);
        self.pair(0, "STYLE");
        self.handle("3");
        self.class("AcDbSymbolTableRecord");
        self.class("AcDbTextStyleTableRecord");
        for (code, value) in [
            (2, "Standard"),
            (70, "0"),
            (40, "0"),
            (41, "1"),
            (50, "0"),
            (71, "0"),
            (42, "2.5"),
            (3, "txt"),
            (4, ""),
        ] {
            self.pair(code, value);
        }
        self.pair(0, "ENDTAB");
        for (name, handle) in [("VIEW", "6"), ("UCS", "7")] {
            self.table(name, handle, 0);
            self.pair(0, "ENDTAB");
        }
        self.table("APPID", "9", 1);
        self.pair(0, "APPID");
        self.handle("9");
        self.class("AcDbSymbolTableRecord");
        self.class("AcDbRegAppTableRecord");
        self.pair(2, "ACAD");
        self.pair(70, 0);
        self.pair(0, "ENDTAB");
        self.table("DIMSTYLE", "A", 0);
        self.class("AcDbDimStyleTable");
        self.pair(71, 0);
        self.pair(0, "ENDTAB");
        self.table("BLOCK_RECORD", "1", 2);
        for (name, handle) in [("*Model_Space", MODEL), ("*Paper_Space", PAPER)] {
            self.pair(0, "BLOCK_RECORD");
            self.pair(5, handle);
            self.pair(330, 1);
            self.class("AcDbSymbolTableRecord");
            self.class("AcDbBlockTableRecord");
            self.pair(2, name);
        }
        self.pair(0, "ENDTAB");
    }

    fn blocks(&mut self) {
        self.open("BLOCKS");
        if self.new_form() {
            for (name, owner) in [("*Model_Space", MODEL), ("*Paper_Space", PAPER)] {
                self.pair(0, "BLOCK");
                self.handle(owner);
                self.class("AcDbEntity");
                self.pair(8, 0);
                self.class("AcDbBlockBegin");
                self.pair(2, name);
                self.pair(70, 0);
                for code in [10, 20, 30] {
                    self.pair(code, 0);
                }
                self.pair(3, name);
                self.pair(1, "");
                self.pair(0, "ENDBLK");
                self.handle(owner);
                self.class("AcDbEntity");
                self.pair(8, 0);
                self.class("AcDbBlockEnd");
            }
        }
        self.close();
    }

    fn polyline(&mut self, layer: &str, points: &[Point]) {
        let flip = self.flip;
        let at = |point: &Point| [decimal(point.x), decimal(flip - point.y)];
        if self.new_form() {
            self.pair(0, "LWPOLYLINE");
            self.handle(MODEL);
            self.class("AcDbEntity");
            self.pair(8, layer);
            self.class("AcDbPolyline");
            self.pair(90, points.len());
            self.pair(70, 1);
            for [x, y] in points.iter().map(at) {
                self.pair(10, x);
                self.pair(20, y);
            }
            return;
        }
        self.pair(0, "POLYLINE");
        self.pair(8, layer);
        self.pair(66, 1);
        for code in [10, 20, 30] {
            self.pair(code, 0);
        }
        self.pair(70, 1);
        for [x, y] in points.iter().map(at) {
            self.pair(0, "VERTEX");
            self.pair(8, layer);
            self.pair(10, x);
            self.pair(20, y);
            self.pair(30, 0);
        }
        self.pair(0, "SEQEND");
        self.pair(8, layer);
    }

    fn objects(&mut self) {
        self.open("OBJECTS");
        for (handle, owner, entry) in
            [(ROOT, "0", Some(("ACAD_GROUP", GROUPS))), (GROUPS, ROOT, None)]
        {
            self.pair(0, "DICTIONARY");
            self.pair(5, handle);
            self.pair(330, owner);
            self.class("AcDbDictionary");
            self.pair(281, 1);
            if let Some((name, of)) = entry {
                self.pair(3, name);
                self.pair(350, of);
            }
        }
        self.close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_layers() {
        assert_eq!(layer("Top mat", Kind::Cut), "TOP_MAT_CUT");
        assert_eq!(layer("Undermat 2", Kind::Reference), "UNDERMAT_2_REFERENCE");
        assert_eq!(layer(&"é".repeat(40), Kind::Score).len(), MOST_NAME);
    }

    /// Source: DXF reference, releases 12 and 2000, TABLES: each table stands between its TABLE and
    /// its ENDTAB; release 2000 has nine of them.
    #[test]
    fn every_table_begins_and_ends() {
        #[track_caller]
        fn case(version: Version, wanted: &[&str]) {
            let text = write(&[], version, "7f3a9c21d04e");
            let lines: Vec<&str> = text.lines().map(str::trim).collect();
            let pairs: Vec<_> = lines.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect();
            let ends =
                pairs.iter().filter(|pair| [("0", "TABLE"), ("0", "ENDTAB")].contains(pair));
            let ends: Vec<&str> = ends.map(|(_, value)| *value).collect();
            assert_eq!(ends, ["TABLE", "ENDTAB"].repeat(wanted.len()));
            let names = pairs.windows(2).filter(|two| two[0] == ("0", "TABLE"));
            let names: Vec<_> = names.map(|two| two[1]).collect();
            assert_eq!(names, wanted.iter().map(|name| ("2", *name)).collect::<Vec<_>>());
        }
        case(Version::R12, &["LTYPE", "LAYER"]);
        case(
            Version::R2000,
            &[
                "VPORT",
                "LTYPE",
                "LAYER",
                "STYLE",
                "VIEW",
                "UCS",
                "APPID",
                "DIMSTYLE",
                "BLOCK_RECORD",
            ],
        );
    }
}
