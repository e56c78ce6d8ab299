//! What a screen may read in a frame, and where it puts what it asks for.

mod plan_view;
mod requests;
mod storage_view;

use sightedge_core::material::{OwnTables, Tables};
use sightedge_service::plan_names;
use sightedge_service::record::at_bench::Prints;
use sightedge_service::settings::Settings;

use crate::window::session::{PlanSession, SessionId};
use crate::window::textures::Shown;
use crate::window::workers::Decoder;

pub use plan_view::*;
pub use requests::Requests;
pub use storage_view::StorageView;

/// What a place of work may see besides what it keeps itself.
#[derive(Clone, Copy, Debug)]
pub struct ScreenContext<'a> {
    /// The open plans.
    pub sessions: &'a [(SessionId, &'a PlanSession)],
    /// The one in front.
    pub front: Option<usize>,
    /// What is there of its picture.
    pub pictures: &'a [Shown],
    /// The window's settings.
    pub settings: &'a Settings,
    /// What was kept between sessions.
    pub storage: StorageView<'a>,
    /// The person's own materials.
    pub own: &'a OwnTables,
    /// These, laid over the program's.
    pub tables: &'a Tables,
    /// Where pictures are decoded.
    pub decoder: &'a Decoder,
    /// The prints of the plan in front by the record, as far as it was heard.
    pub prints: Option<&'a Prints>,
}

impl<'a> ScreenContext<'a> {
    /// What the open plans are called, told apart.
    pub fn names(&self) -> Vec<String> {
        let plans = self.sessions.iter();
        plan_names::told_apart(
            plans.map(|(_, session)| (session.kept(), session.plan.as_path())),
        )
    }

    /// The plan in front.
    pub fn session(&self) -> Option<&'a PlanSession> {
        self.sessions.get(self.front?).map(|(_, session)| *session)
    }
}
