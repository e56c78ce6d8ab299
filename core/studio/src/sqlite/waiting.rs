//! Waiting while another window or program writes to the record.

use std::cell::{Cell, RefCell};
use std::time::{Duration, Instant};

/// How long to wait for a lock of another window or program.
const PATIENCE: Duration = Duration::from_mins(1);
/// How long a change waits in silence before the person hears what it waits for.
const TOLD_AFTER: Duration = Duration::from_secs(1);

thread_local! {
    static SINCE: Cell<Instant> = Cell::new(Instant::now());
    static TOLD: Cell<bool> = const { Cell::new(false) };
    static TELL: RefCell<Option<Box<dyn Fn()>>> = const { RefCell::new(None) };
}

/// Has `tell` called, on this thread, once a record has kept a request of this thread waiting for a
/// second because another window or program writes to it; the wait goes on.
pub fn when_waiting(tell: impl Fn() + 'static) {
    TELL.with_borrow_mut(|it| *it = Some(Box::new(tell)));
}

/// A wait begins.
pub(super) fn begin() {
    SINCE.set(Instant::now());
    TOLD.set(false);
}

/// Sleeps until the next look; `false` once it has been too long. Tells the person after a second.
pub(super) fn go_on(attempt: i32) -> bool {
    std::thread::sleep(pause(attempt));
    let waited = SINCE.get().elapsed();
    if waited >= TOLD_AFTER && !TOLD.replace(true) {
        TELL.with_borrow(|tell| {
            if let Some(tell) = tell {
                tell();
            }
        });
    }
    waited < PATIENCE
}

/// Called by SQLite while another connection writes; `false` gives up. Its own handler sleeps up
/// to 100 ms between two looks: among eight programs that write without a break, on a slow
/// disk, one of them can then miss every gap for a minute. This one looks every few ms.
pub(super) fn wait_for_turn(attempt: i32) -> bool {
    if attempt == 0 {
        begin();
    }
    go_on(attempt)
}

/// 1 to 8 ms, different for each process so that they do not all look at once.
fn pause(attempt: i32) -> Duration {
    let turn =
        u64::from(std::process::id()).wrapping_add(u64::from(attempt.unsigned_abs()) * 5);
    Duration::from_millis(1 + turn % 8)
}
