//! What parts of a page are to who has them read aloud: the tags of a PDF, in reading order.
//! Source: ISO 14289-1; ISO 32000-1, 14.8.

use std::num::{NonZeroU16, NonZeroU32};

use krilla::geom::Rect;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, BBox, ContentTag, Identifier, SpanTag, TableHeaderScope, Tag, TagGroup, TagKind,
    TagTree,
};

use crate::Archive;
use crate::PapersError;
use crate::items::{Cell, CellKind, Item, Part};
use crate::place::single;

/// The tags of a document that is being written.
pub(crate) struct Tags {
    tree: TagTree,
    /// Whether a cell may say that it is the head of its row, which came with PDF 1.5.
    row_heads: bool,
}

/// Paints one item.
type Painter<'a> = dyn FnMut(&Item, &mut Surface<'_>) -> Result<(), PapersError> + 'a;

impl Tags {
    pub(crate) fn new(archive: Archive) -> Self {
        let tree = TagTree::new().with_lang(Some("en".to_owned()));
        Self { tree, row_heads: archive == Archive::A2aUa1 }
    }

    pub(crate) fn finish(self) -> TagTree {
        self.tree
    }

    /// Paints a part of that page and tags it.
    pub(crate) fn part(
        &mut self,
        part: &Part,
        page: usize,
        surface: &mut Surface<'_>,
        paint: &mut Painter<'_>,
    ) -> Result<(), PapersError> {
        match part {
            Part::Ornament(items) => {
                marked(ContentTag::Artifact(Artifact::default()), items, surface, paint)?;
            }
            Part::Heading(level, words, items) => {
                let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
                let tag = Tag::Hn(level, Some(words.clone()));
                self.tree.push(tagged(tag, items, surface, paint)?);
            }
            Part::Paragraph(items) => self.tree.push(tagged(Tag::P, items, surface, paint)?),
            Part::Figure(alt, area, items) => {
                let [x0, y0, x1, y1] = [area.x0, area.y0, area.x1, area.y1].map(single);
                let area = Rect::from_ltrb(x0, y0, x1, y1).map(|area| BBox::new(page, area));
                let tag = Tag::Figure(Some(alt.clone())).with_bbox(area);
                self.tree.push(tagged(tag, items, surface, paint)?);
            }
            Part::Table(rows) => {
                let mut table = TagGroup::new(Tag::Table);
                for row in rows {
                    let mut line = TagGroup::new(Tag::TR);
                    for cell in row {
                        line.push(tagged(self.cell(cell), &cell.items, surface, paint)?);
                    }
                    table.push(line);
                }
                self.tree.push(table);
            }
        }
        Ok(())
    }

    fn cell(&self, cell: &Cell) -> TagKind {
        let span = NonZeroU32::new(cell.span).filter(|span| span.get() > 1);
        match cell.kind {
            CellKind::ColumnHead => {
                Tag::TH(TableHeaderScope::Column).with_col_span(span).into()
            }
            CellKind::RowHead if self.row_heads => {
                Tag::TH(TableHeaderScope::Row).with_col_span(span).into()
            }
            CellKind::RowHead | CellKind::Figure => Tag::TD.with_col_span(span).into(),
        }
    }
}

/// Paints items under a tag: each text by itself, so that words of two lines stay apart, and
/// what lies between texts together.
fn tagged(
    tag: impl Into<TagKind>,
    items: &[Item],
    surface: &mut Surface<'_>,
    paint: &mut Painter<'_>,
) -> Result<TagGroup, PapersError> {
    let mut group = TagGroup::new(tag);
    let is_text = |item: &Item| matches!(item, Item::Text { .. });
    for alike in items.chunk_by(|one, two| !is_text(one) && !is_text(two)) {
        let mark = match alike {
            [Item::Text { .. }] => ContentTag::Span(SpanTag::empty()),
            _ => ContentTag::Other,
        };
        group.push(marked(mark, alike, surface, paint)?);
    }
    Ok(group)
}

/// Paints items within one mark.
fn marked(
    mark: ContentTag<'_>,
    items: &[Item],
    surface: &mut Surface<'_>,
    paint: &mut Painter<'_>,
) -> Result<Identifier, PapersError> {
    let content = surface.start_tagged(mark);
    let painted = items.iter().try_for_each(|item| paint(item, surface));
    surface.end_tagged();
    painted.map(|()| content)
}
