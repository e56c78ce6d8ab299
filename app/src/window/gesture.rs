//! What the hand does in each place: every key and drag once. The hint under the pointer, the
//! line at the foot and the help read it from here.

/// A drag, a key, or a key held during a drag, and what it does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Gesture {
    /// What the hand does.
    pub how: &'static str,
    /// What comes of it.
    pub does: &'static str,
    /// Whether the line at the foot tells it.
    pub brief: bool,
    /// Whether it is a key that is held during a drag.
    pub held: bool,
}

const fn brief(how: &'static str, does: &'static str) -> Gesture {
    Gesture { how, does, brief: true, held: false }
}

const fn more(how: &'static str, does: &'static str) -> Gesture {
    Gesture { how, does, brief: false, held: false }
}

const fn held(how: &'static str, does: &'static str) -> Gesture {
    Gesture { how, does, brief: true, held: true }
}

/// Held while a side is dragged.
pub const THIS_SIDE: Gesture = held("Shift", "this side alone");
/// Held while a side is dragged.
pub const OPPOSITE: Gesture = held("Ctrl", "opposite sides");
/// Held while an edge of the board is dragged.
pub const BOTH_EDGES: Gesture = held("Ctrl", "both edges");
/// Held while anything is dragged.
pub const OFF_RULER: Gesture = held("Alt", "off the ruler’s marks");
/// Held while the window or the sheet is dragged.
pub const FREE: Gesture = held("Alt", "off the ruler’s marks and past every stop");
/// While anything is dragged.
pub const CANCEL: Gesture = brief("Esc", "cancels");

const ARROWS: Gesture = brief("Arrow keys", "move by one mark of the ruler");
const DIGITS: Gesture = brief("Digits, then Enter", "set the size");
const WHEEL: Gesture = more("Wheel", "zooms at the pointer");
const PAN: Gesture = more("Drag beside the board", "moves the view");

/// The mat.
pub const MAT: &[Gesture] = &[
    brief("Drag an edge of the mat", "all four sides change alike"),
    THIS_SIDE,
    OPPOSITE,
    OFF_RULER,
    ARROWS,
    DIGITS,
    more("Shift+Enter", "sets this side alone; Ctrl+Enter sets opposite sides"),
    more("Drag inside the window", "moves the window on the board, where its place is free"),
    more("Rest on a check", "shows its place on the board"),
    more(
        "Drag a mat under the board",
        "puts it elsewhere in the row; so do Alt and an arrow key",
    ),
    more("Enter on a mat under the board", "chooses it; F2 renames it, Delete removes it"),
    CANCEL,
    WHEEL,
    PAN,
];

/// Hinges and the sheet.
pub const HINGES: &[Gesture] = &[
    brief("Drag a hinge", "moves it along the edge"),
    OFF_RULER,
    ARROWS,
    DIGITS,
    brief("Enter", "makes it the locating hinge"),
    CANCEL,
    WHEEL,
    PAN,
];

/// What is written on print and mat.
pub const INSCRIPTION: &[Gesture] = &[
    brief("Type the words", "they stand on the drawing at once"),
    brief("Enter", "keeps what was typed"),
    CANCEL,
    WHEEL,
    PAN,
];

/// The frame and what goes into it.
pub const FRAME: &[Gesture] = &[
    brief("Choose the frame and what goes into it", "the section is to scale"),
    more("Arrow keys in a list", "choose at once"),
];

/// The tables of sizes and materials.
pub const MATERIALS: &[Gesture] = &[
    brief("Type in a cell", "a value that can’t be used is refused, with the reason"),
    brief("Enter", "keeps it"),
    CANCEL,
];

/// Printouts.
pub const PRINTOUTS: &[Gesture] = &[
    brief("Choose what to write and where", "the pages are shown as they will print"),
    brief("Ctrl+Enter", "writes them"),
];

/// Cutting.
pub const CUTTING: &[Gesture] = &[
    brief("Choose the plans and the boards", "then find the fewest sheets"),
    brief("Ctrl+Enter", "finds them"),
    more("Drop a folder on the window", "its plans are cut together"),
];

/// The bench.
pub const BENCH: &[Gesture] = &[
    brief("Space", "ticks the step"),
    brief("Arrow keys", "turn to the next or the previous step"),
];

/// Editions.
pub const EDITIONS: &[Gesture] = &[
    brief("Arrow keys", "move through works and prints"),
    brief("Ctrl+Z", "undoes the last entry by a new one"),
    more("A number", "is given once: a wrong entry is corrected, never erased"),
];

/// The brief ones in a line: "Shift: this side alone. Ctrl: opposite sides."
pub fn line(gestures: &[Gesture]) -> String {
    line_of(gestures, |_| true)
}

/// As many of the brief ones as `fit` lets stand in a line.
pub fn line_of(gestures: &[Gesture], fit: impl Fn(&str) -> bool) -> String {
    let mut line = String::new();
    for Gesture { how, does, .. } in gestures.iter().filter(|gesture| gesture.brief) {
        let between = if line.is_empty() { "" } else { " " };
        let longer = format!("{line}{between}{how}: {does}.");
        if !fit(&longer) {
            break;
        }
        line = longer;
    }
    line
}
