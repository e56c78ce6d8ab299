//! Which papers there are.

/// A paper.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// One page with every figure of the plan.
    Sheet,
    /// What to set and cut, layer by layer.
    Cutter,
    /// True-size templates.
    Template,
    /// What to do, in order.
    Steps,
    /// What to buy.
    Order,
    /// The mats side by side, for the one who chooses.
    Client,
}

impl Kind {
    /// All of them, in the order of the job.
    pub const ALL: [Self; 6] =
        [Self::Sheet, Self::Cutter, Self::Template, Self::Steps, Self::Order, Self::Client];

    /// As in the name of its file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Sheet => "plan",
            Self::Cutter => "cutter",
            Self::Template => "template",
            Self::Steps => "steps",
            Self::Order => "order",
            Self::Client => "client",
        }
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sheet => "Plan sheet",
            Self::Cutter => "Cutter’s card",
            Self::Template => "Templates",
            Self::Steps => "Steps",
            Self::Order => "Order list",
            Self::Client => "For the client",
        }
    }
}
