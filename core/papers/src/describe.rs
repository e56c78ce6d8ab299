//! From a plan to what stands on the pages of one paper.

use std::collections::BTreeMap;

use sightedge_core::spec::WorkId;
use sightedge_core::steps::steps as steps_of;

use crate::frame::Plan;
use crate::page::Pages;
use crate::{Archive, Kind, Order, buying, card, client, sheet, steps, template};

/// Lays out a paper.
pub(crate) fn describe(
    kind: Kind,
    plan: &Plan<'_>,
    order: &Order<'_>,
    pictures: &BTreeMap<WorkId, String>,
) -> Pages {
    let [mut width, mut height] = plan.paper.size();
    let pages = match kind {
        Kind::Sheet => sheet::pages(plan, pictures, order.archive == Archive::A2aUa1),
        Kind::Cutter => card::pages(plan),
        Kind::Template => {
            (width, height) = (height, width);
            template::pages(plan)
        }
        Kind::Order => buying::pages(plan),
        Kind::Client => client::pages(plan, order, pictures, order.archive == Archive::A2aUa1),
        Kind::Steps => {
            if let Some(given) = order.steps {
                steps::pages(plan, given)
            } else {
                let (document, variant) = (plan.document, plan.variant);
                let all = steps_of(document, variant, plan.derived, order.tables);
                steps::pages(plan, &all)
            }
        }
    };
    Pages {
        title: format!("{} \u{b7} {}", plan.title(), kind.name()),
        keywords: vec![format!("sightedge-plan-{}", plan.document.id)],
        date: plan.date.parts(),
        width,
        height,
        pages,
    }
}
