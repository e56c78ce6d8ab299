//! Sets pages and paints them.

use std::path::Path;

use sightedge_core::derived::derive;
use sightedge_core::file::reference;
use sightedge_core::spec::Work;
use sightedge_papers::{Archive, LaidOut, Order, day_of, forget, lay_out};
use sightedge_pictures::CancelToken;

use super::Wanted;
use crate::window::workers::{Job, ReplySender};
use sightedge_service::dates;

/// What is asked of the pages. The ticket of a paper names it.
#[derive(Debug)]
pub(in super::super) enum PageRequest {
    /// Sets a paper.
    Lay(Box<Wanted>),
    /// Paints a page of it.
    Paint { ticket: u64, page: usize, ppi: f64 },
}

/// What comes back.
#[derive(Debug)]
pub(in super::super) enum PageReply {
    /// Pages are set: their sizes in millimetres, and what the person should know.
    LaidOut { ticket: u64, sizes: Vec<[f64; 2]>, told: Vec<String> },
    /// They could not be set, or painted.
    Failed { ticket: u64, why: String },
    /// One page in pixels.
    Painted { ticket: u64, page: usize, ppi: f64, image: egui::ColorImage },
}

/// The paper that was set last, to be painted.
#[derive(Default)]
pub(super) struct Pages {
    now: Option<(u64, LaidOut)>,
    /// That of the request under way.
    ticket: u64,
}

impl Job for Pages {
    type Request = PageRequest;
    type Reply = PageReply;

    fn run(
        &mut self,
        request: PageRequest,
        token: &CancelToken,
        _: &ReplySender<PageReply>,
    ) -> Option<PageReply> {
        if token.is_cancelled() {
            return None;
        }
        let reply = match request {
            PageRequest::Lay(wanted) => {
                let ticket = wanted.ticket;
                self.ticket = ticket;
                match laid(&wanted) {
                    Ok(laid) => {
                        let (sizes, told) = (laid.sizes(), laid.notes().to_vec());
                        self.now = Some((ticket, laid));
                        PageReply::LaidOut { ticket, sizes, told }
                    }
                    Err(why) => PageReply::Failed { ticket, why },
                }
            }
            PageRequest::Paint { ticket, page, ppi } => {
                self.ticket = ticket;
                let now = self.now.as_ref().filter(|(of, _)| *of == ticket);
                let image = now.and_then(|(_, laid)| painted(laid, page, ppi));
                PageReply::Painted { ticket, page, ppi, image: image.unwrap_or_default() }
            }
        };
        forget();
        Some(reply)
    }

    fn panicked(&mut self, why: String) -> Option<PageReply> {
        Some(PageReply::Failed { ticket: self.ticket, why })
    }
}

fn painted(laid: &LaidOut, page: usize, ppi: f64) -> Option<egui::ColorImage> {
    let pixels = laid.pixels(page, ppi)?;
    let size = [usize::try_from(pixels.width).ok()?, usize::try_from(pixels.height).ok()?];
    Some(egui::ColorImage::from_rgba_premultiplied(size, &pixels.rgba))
}

fn laid(wanted: &Wanted) -> Result<LaidOut, String> {
    let Wanted { kind, document, plan, paper, tables, house, .. } = wanted;
    let variant = document.chosen().ok_or("the plan holds no mat")?;
    let derived = derive(document, variant, tables);
    let folder = plan.parent().unwrap_or(Path::new("."));
    let picture = |work: &Work| {
        let path = reference::resolve(folder, &work.picture.path);
        (!work.picture.path.is_empty()).then_some(path)
    };
    let order = Order {
        document,
        variant,
        derived: &derived,
        picture: &picture,
        paper: *paper,
        date: day_of(document, plan, dates::day_of).unwrap_or_else(dates::today),
        tables,
        steps: None,
        archive: Archive::default(),
        house,
    };
    lay_out(*kind, &order)
        .map_err(|error| sightedge_service::wording::sentence(&error.to_string()))
}
