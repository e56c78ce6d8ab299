//! What stands on the pages, and where: millimetres from the upper left corner of each.

use crate::words::Style;

/// A paper.
#[derive(Clone, Debug)]
#[expect(clippy::struct_field_names, reason = "a paper has pages")]
pub(crate) struct Pages {
    pub(crate) title: String,
    pub(crate) keywords: Vec<String>,
    /// Year, month, day.
    pub(crate) date: (u16, u8, u8),
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) pages: Vec<Vec<Block>>,
}

impl Pages {
    /// Every text of the page, shown or read aloud.
    pub(crate) fn texts(&mut self) -> Vec<&mut String> {
        let mut texts = vec![&mut self.title];
        texts.extend(&mut self.keywords);
        for block in self.pages.iter_mut().flatten() {
            match block {
                Block::Text(text) => texts.extend(&mut text.lines),
                Block::Drawing { alt, marks, .. } => {
                    texts.push(alt);
                    texts.extend(marks.iter_mut().filter_map(|mark| match mark {
                        Mark::Text { s, .. } => Some(s),
                        _ => None,
                    }));
                }
                Block::Table(table) => {
                    texts.extend(table.groups.iter_mut().map(|(name, _)| name));
                    texts.extend(&mut table.head);
                    texts.extend(table.rows.iter_mut().flatten());
                }
                Block::Rule { .. } => {}
            }
        }
        texts
    }
}

/// One thing on a page.
#[derive(Clone, Debug)]
pub(crate) enum Block {
    Text(Text),
    Drawing { x: f64, y: f64, w: f64, h: f64, alt: String, marks: Vec<Mark> },
    Table(Table),
    Rule { x: f64, y: f64, w: f64 },
}

/// Lines of text.
#[derive(Clone, Debug)]
pub(crate) struct Text {
    pub(crate) x: f64,
    /// The top of the first line.
    pub(crate) y: f64,
    pub(crate) w: f64,
    /// From line to line.
    pub(crate) pitch: f64,
    pub(crate) size: f64,
    pub(crate) weight: u16,
    pub(crate) quiet: bool,
    /// A heading of that level; 0 is none.
    pub(crate) level: u8,
    pub(crate) align: &'static str,
    pub(crate) lines: Vec<String>,
}

/// A table whose every place is given.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    pub(crate) x: f64,
    pub(crate) y: f64,
    /// Widths of the columns.
    pub(crate) columns: Vec<f64>,
    /// Height of a row.
    pub(crate) row: f64,
    pub(crate) size: f64,
    /// Columns whose text begins at their left edge; the others end at their right one.
    pub(crate) start: Vec<usize>,
    /// Heads of groups of columns, each with how many it spans; empty for none.
    pub(crate) groups: Vec<(String, usize)>,
    pub(crate) head: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

/// One mark of a drawing, from the drawing's own upper left corner.
#[derive(Clone, Debug)]
pub(crate) enum Mark {
    Fill {
        p: Vec<[f64; 2]>,
        c: String,
    },
    /// A fill with holes in it.
    Ring {
        p: Vec<[f64; 2]>,
        holes: Vec<Vec<[f64; 2]>>,
        c: String,
    },
    Line {
        p: Vec<[f64; 2]>,
        closed: bool,
        pen: &'static str,
    },
    /// A text whose line begins at `x`, `y`; turned, it runs upwards from there.
    Text {
        x: f64,
        y: f64,
        w: f64,
        s: String,
        size: f64,
        turned: bool,
        label: bool,
    },
    Picture {
        src: String,
        x: f64,
        y: f64,
        w: f64,
        h: f64,
        clip: [f64; 4],
    },
    /// So much black laid over a rectangle.
    Shade {
        x: f64,
        y: f64,
        w: f64,
        h: f64,
        dark: f64,
    },
    Circle {
        x: f64,
        y: f64,
        r: f64,
    },
}

/// Lays blocks on a page.
#[derive(Debug, Default)]
pub(crate) struct Leaf {
    pub(crate) blocks: Vec<Block>,
}

impl Leaf {
    /// Lines of text from `y` on; returns where the next may begin.
    pub(crate) fn text(
        &mut self,
        x: f64,
        y: f64,
        w: f64,
        style: Style,
        lines: Vec<String>,
    ) -> f64 {
        self.set(x, y, w, style, 0, "left", lines)
    }

    pub(crate) fn heading(&mut self, x: f64, y: f64, w: f64, level: u8, text: &str) -> f64 {
        let style = crate::words::HEADING;
        self.set(x, y, w, style, level, "left", vec![style.shortened(text, w)]) + 0.8
    }

    /// As [`Leaf::text`], with the level of a heading and an alignment.
    #[expect(clippy::too_many_arguments, reason = "a place, a style and a text")]
    pub(crate) fn set(
        &mut self,
        x: f64,
        y: f64,
        w: f64,
        style: Style,
        level: u8,
        align: &'static str,
        lines: Vec<String>,
    ) -> f64 {
        let pitch = style.pitch();
        let end = y + pitch * count(lines.len());
        let Style { size, weight, quiet } = style;
        if !lines.is_empty() {
            let text = Text { x, y, w, pitch, size, weight, quiet, level, align, lines };
            self.blocks.push(Block::Text(text));
        }
        end
    }

    pub(crate) fn rule(&mut self, x: f64, y: f64, w: f64) {
        self.blocks.push(Block::Rule { x, y, w });
    }

    /// A table; returns where it ends.
    pub(crate) fn table(&mut self, table: Table) -> f64 {
        let end = table.y + table.height();
        self.blocks.push(Block::Table(table));
        end
    }
}

impl Table {
    pub(crate) fn height(&self) -> f64 {
        let heads = if self.groups.is_empty() { 1 } else { 2 };
        self.row * count(self.rows.len() + heads)
    }
}

/// A count as a factor.
pub(crate) fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(0.0, f64::from)
}
