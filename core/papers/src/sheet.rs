//! The plan sheet: one page with every figure of the plan.

mod foot;
mod section;

use std::collections::BTreeMap;

use sightedge_core::drawing::{Drawing, Item, Pen};
use sightedge_core::geometry::Size;
use sightedge_core::layout::Window;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;

use crate::frame::{MARGIN, Plan};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf};
use crate::tables::{self, Cells};
use crate::words::{HEADING, SMALL, extents};
use foot::{Foot, sign};
use section::section;

/// Heights of table rows tried, from roomy to tight.
const ROWS: [f64; 5] = [4.8, 4.5, 4.2, 3.9, 3.7];
/// The paper's name.
const NAME: &str = "Plan sheet";
/// Over the table of sizes.
const SIZES: &str = "Sizes, width × height";
/// Height of a table's row where there is a page for it.
const LOOSE: f64 = 5.4;
/// Between two tables.
const BETWEEN: f64 = 5.0;
/// The long side of the picture in its mat is no shorter, else figures go to a page of their own.
const LEAST_PICTURE: f64 = 40.0;
/// Between blocks at least.
const LEAST_GAP: f64 = 2.8;
/// The height of a figure in a drawing, on paper: letters of 8 points.
const FIGURE: f64 = 3.38;
/// Where section and places to sign are, how high.
const SIGN: f64 = 33.0;
/// What stands below a drawing.
const CAPTION: f64 = 5.1;

/// What does not depend on how large the drawings are.
#[derive(Clone, Copy, Debug)]
struct Room {
    row: f64,
    /// What is left for the pictures of the mat and the table of sizes.
    high: f64,
}

/// How picture, table of sizes and drawing stand to each other: the table below the picture and
/// the drawing beside both, or the table beside the picture and the drawing below both.
#[derive(Clone, Copy, Debug)]
struct Setting {
    /// Of the drawing.
    scale: Scale,
    /// Of the picture.
    picture: Scale,
    stacked: bool,
}

/// What is laid above the tables that run across the page.
struct Above<'a> {
    plan: &'a Plan<'a>,
    window: &'a Window,
    /// The table of sizes, unless it stands on a page of its own.
    sizes: Option<Cells>,
    /// How large the drawing is at each scale.
    drawn: Vec<(i64, [f64; 2])>,
}

impl Above<'_> {
    fn picture(&self, setting: Setting) -> [f64; 2] {
        let outer = self.plan.derived.assembly.package.as_ref();
        let outer = outer.and_then(|packed| packed.framed.as_ref());
        let outer = outer.map_or(self.plan.figures().outer, |framed| framed.outside);
        [outer.width, outer.height].map(|length| setting.picture.mm(length))
    }

    fn drawing(&self, setting: Setting) -> [f64; 2] {
        let found = self.drawn.iter().find(|(thing, _)| *thing == setting.scale.thing);
        found.map_or([f64::MAX; 2], |(_, size)| *size)
    }

    /// How wide and high the table of sizes is with its head.
    fn table(&self, row: f64) -> [f64; 2] {
        self.sizes.as_ref().map_or([0.0; 2], |sizes| {
            [sizes.least_width() + 2.0, sizes.height(row) + HEADING.pitch() + 0.8]
        })
    }

    /// How wide and high all of it is.
    fn needs(&self, setting: Setting, row: f64) -> [f64; 2] {
        let [pw, ph] = self.picture(setting);
        let [w, h] = self.drawing(setting);
        let [tw, th] = self.table(row);
        if setting.stacked {
            [w.max(pw + BETWEEN + tw), h + (ph + CAPTION).max(th) + LEAST_GAP + CAPTION]
        } else {
            [w + pw.max(tw) + BETWEEN, (h + CAPTION).max(ph + CAPTION + LEAST_GAP + th)]
        }
    }

    /// Every setting, the one that shows most first.
    fn settings() -> Vec<Setting> {
        let pairs = Scale::SMALLER.into_iter().flat_map(|drawing| {
            Scale::ANY
                .into_iter()
                .filter(move |thing| *thing >= drawing)
                .map(move |picture| [drawing, picture])
        });
        let mut all: Vec<Setting> = pairs
            .flat_map(|things| {
                let [scale, picture] = things.map(Scale::smaller);
                [false, true].map(|stacked| Setting { scale, picture, stacked })
            })
            .collect();
        // A picture that is looked at, then a drawing that is read.
        all.sort_by_key(|setting| {
            let Setting { scale, picture, stacked } = setting;
            (scale.thing * 3 + picture.thing, *stacked)
        });
        all
    }
}

/// Lays out the plan sheet: one page where all of it can be read there, else two, the figures
/// on the second.
pub(crate) fn pages(
    plan: &Plan<'_>,
    pictures: &BTreeMap<WorkId, String>,
    shades: bool,
) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let wide = size[0] - 2.0 * MARGIN;
    let mut leaf = Leaf::default();
    let top = plan.head(&mut leaf, NAME, wide);
    let bottom = size[1] - MARGIN;
    let Some(window) = plan.figures().openings.first() else {
        plan.foot(&mut leaf, size, [1, 1]);
        return vec![leaf.blocks];
    };
    let (figures, unit) = (plan.figures(), plan.unit());
    let boards = plan.materials(window, wide * 0.22);
    let mut rows = plan.size_rows(figures, window);
    rows.extend(plan.framing().into_iter().map(|(name, size)| (name.to_owned(), size)));
    let names = ["Top", "Right", "Bottom", "Left"];
    let sides = tables::sides(unit, names, plan.side_rows(figures, window, false));
    let drawn = Scale::SMALLER.map(|thing| {
        let scale = Scale::smaller(thing);
        let Size { width, height } = drawn(plan, scale).bounds.size;
        (thing, [width, height].map(|length| scale.mm(length)))
    });
    let dimensions = tables::sizes(unit, rows);
    let mut above =
        Above { plan, window, sizes: Some(dimensions.clone()), drawn: drawn.to_vec() };
    let heading = HEADING.pitch() + 0.8;
    let foot = Foot::of(plan, wide);
    let room = |row: f64, sides: Option<&Cells>| {
        let sides = sides.map_or(0.0, |sides| sides.height(row) + heading + LEAST_GAP);
        let taken = boards.height(row) + sides + SIGN + foot.least();
        Room { row, high: bottom - top - taken - 2.0 * heading - 3.0 * LEAST_GAP }
    };
    // The largest scale that fits at all, then the roomiest rows it leaves.
    let best = |above: &Above<'_>, sides: Option<&Cells>| {
        let rooms = ROWS.map(|row| room(row, sides));
        Above::settings().into_iter().find_map(|setting| {
            let fits = |room: &&Room| {
                let [w, h] = above.needs(setting, room.row);
                w <= wide && h <= room.high
            };
            Some((setting, *rooms.iter().find(fits)?))
        })
    };
    let large = |setting: &Setting| setting.picture.mm(figures.outer.long()) >= LEAST_PICTURE;
    let one = best(&above, Some(&sides)).filter(|(setting, _)| large(setting));
    if one.is_none() {
        above.sizes = None;
    }
    let least = Scale::smaller(100);
    let (setting, room) = one.or_else(|| best(&above, None)).unwrap_or((
        Setting { scale: least, picture: least, stacked: false },
        room(ROWS[ROWS.len() - 1], None),
    ));

    // What is left over goes between the blocks.
    let over = room.high - above.needs(setting, room.row)[1];
    let space = LEAST_GAP + (over / 5.0).clamp(0.0, 7.0);
    let mut y =
        above.lay(pictures, shades, (setting, room.row), [top, wide], &mut leaf) + space;
    y = leaf.heading(MARGIN, y, wide, 2, "Boards");
    y = leaf.table(boards.placed([MARGIN, y], wide, room.row)) + space;
    let mut second = None;
    let name = "Sides, seen from the front";
    if one.is_some() {
        y = leaf.heading(MARGIN, y, wide, 2, name);
        y = leaf.table(sides.placed([MARGIN, y], wide, room.row)) + space;
    } else {
        let mut leaf = Leaf::default();
        let top = plan.head(&mut leaf, NAME, wide);
        let y = leaf.heading(MARGIN, top, wide, 2, SIZES);
        let y = leaf.table(dimensions.placed([MARGIN, y], wide, LOOSE)) + 2.0 * LEAST_GAP;
        let y = leaf.heading(MARGIN, y, wide, 2, name);
        leaf.table(sides.placed([MARGIN, y], wide, LOOSE));
        second = Some(leaf);
    }
    let half = (wide - 8.0) / 2.0;
    section(plan, window, [MARGIN, y, half, SIGN + heading], &mut leaf);
    sign(plan, [MARGIN + half + 8.0, y, half], &mut leaf);
    y += SIGN + heading + space;
    foot.lay([MARGIN, y, wide, bottom], plan, &mut leaf);
    let mut leaves = vec![leaf];
    leaves.extend(second);
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}

/// The front in lines with its dimensions.
fn drawn(plan: &Plan<'_>, scale: Scale) -> Drawing {
    let figures = plan.figures();
    let mut outline = plates::outline(figures);
    // Sight edge and face opening would run into each other.
    let run = plan.mat().layers.iter().map(|layer| layer.bevel.shown(layer.board.thickness));
    if run.max().is_none_or(|run| scale.mm(run) < 0.4) {
        let fine = |item: &Item| matches!(item, Item::Line(line) if line.pen == Pen::Fine);
        outline.items.retain(|item| !fine(item));
    }
    let figure = scale.on_thing(FIGURE);
    outline.under(plates::dimensions(figures, plan.unit(), figure))
}

impl Above<'_> {
    /// Lays all of it from `top` on; returns where it ends.
    fn lay(
        &self,
        pictures: &BTreeMap<WorkId, String>,
        shades: bool,
        (setting, row): (Setting, f64),
        [top, wide]: [f64; 2],
        leaf: &mut Leaf,
    ) -> f64 {
        let Self { plan, window, sizes, .. } = self;
        let Setting { scale, picture, stacked } = setting;
        let figures = plan.figures();
        let [pw, ph] = self.picture(setting);
        let [dw, dh] = self.drawing(setting);
        let [tw, th] = self.table(row);
        let look = Look { margin: 0, ..Look::default() };
        let packed = plan.derived.assembly.package.as_ref();
        let mut front = plates::finished(plan.mat(), figures, packed, &look);
        front.ground = None;
        let framed = packed.is_some_and(|packed| packed.framed.is_some());
        let frame = if framed { " and its frame" } else { "" };
        let marks =
            Marks { scale: picture, corner: front.bounds.at, pictures, shades, breaks: false };
        let title = plan.title();
        let alt = format!("The picture “{title}” in its mat{frame}, seen from the front.");
        let (x, y, w, h) = (MARGIN, top, pw, ph);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&front) });
        let below = leaf.text(
            MARGIN,
            top + ph + 1.2,
            pw.max(40.0),
            SMALL,
            vec!["As it will look".to_owned()],
        );

        // The table: beside the picture at the right edge, or below it.
        let [x, y, w] = if stacked {
            [MARGIN + wide - tw, top, tw]
        } else {
            [MARGIN, below + LEAST_GAP, tw.max((wide - dw - BETWEEN).min(tw * 1.15))]
        };
        if let Some(sizes) = sizes {
            let head = leaf.heading(x, y, w, 2, SIZES);
            leaf.table(sizes.clone().placed([x, head], w, row));
        }

        let drawing = drawn(plan, scale);
        let marks = Marks { scale, corner: drawing.bounds.at, breaks: true, ..marks };
        // The board of the drawing stands level with the picture's, unless a figure is above it.
        let rise = scale.mm(-drawing.bounds.at.y);
        let rise = if rise > FIGURE * 1.2 { FIGURE } else { rise };
        let alt = format!(
            "The mat in lines with its dimensions: {}, window {}.",
            extents(figures.outer, plan.unit()),
            extents(window.sight.size, plan.unit())
        );
        let [x, y] = if stacked {
            [MARGIN, (below).max(top + th) + LEAST_GAP - rise]
        } else {
            [MARGIN + wide - dw, top - rise]
        };
        let (w, h) = (dw, dh);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
        let text = format!("Front with dimensions, {}; sheet and image dashed", scale.name());
        let end = leaf.text(x - scale.mm(drawing.bounds.at.x), y + h, w, SMALL, vec![text]);
        let table = if stacked { 0.0 } else { below + LEAST_GAP + th };
        end.max(table)
    }
}
