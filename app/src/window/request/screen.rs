//! The places of work: their names, hints and keys.

use egui::{Key, KeyboardShortcut, Modifiers};

/// A place of work.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Screen {
    /// The mat round the picture.
    #[default]
    Mat,
    /// What lies behind it.
    Behind,
    /// What is printed for the bench.
    Printouts,
    /// The boards of a show out of the fewest sheets.
    Cutting,
    /// The steps, one at a time.
    Bench,
    /// What is numbered, where it is, what is sold.
    Editions,
}

impl Screen {
    /// In the order of the job.
    pub const ALL: [Self; 6] =
        [Self::Mat, Self::Behind, Self::Printouts, Self::Cutting, Self::Bench, Self::Editions];

    /// In the list.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Mat => "The mat",
            Self::Behind => "Behind it",
            Self::Printouts => "Printouts",
            Self::Cutting => "Cutting",
            Self::Bench => "Bench",
            Self::Editions => "Editions",
        }
    }

    /// What is done there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Mat => "Window, borders and undermats round the picture",
            Self::Behind => "Hinges, paper and humidity, frame and hanging",
            Self::Printouts => {
                "Plan sheet, cutter’s card, templates and drawings for the bench"
            }
            Self::Cutting => "All boards of a show from the fewest board sheets",
            Self::Bench => "The steps at the bench, one at a time, each to tick",
            Self::Editions => "Works, their numbered prints, shows and sales",
        }
    }

    /// Whether there is nothing to do there without an open plan.
    pub const fn needs_plan(self) -> bool {
        match self {
            Self::Mat | Self::Behind | Self::Printouts | Self::Bench => true,
            Self::Cutting | Self::Editions => false,
        }
    }

    /// Its key: its place in the list.
    pub fn shortcut(self) -> Option<KeyboardShortcut> {
        const KEYS: [Key; 6] =
            [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6];
        let place = Self::ALL.iter().position(|room| *room == self)?;
        KEYS.get(place).map(|key| KeyboardShortcut::new(Modifiers::COMMAND, *key))
    }
}
