//! A few threads for many jobs: fifty pictures opened at once start two decoders, not fifty.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use super::replies::{Replies, panic_words};

type Work = Box<dyn FnOnce() + Send>;

/// Jobs done by a few threads, each by one of them; no thread exists while there is nothing to
/// do. Dropping the pool drops what waits.
pub(crate) struct WorkerPool<Reply> {
    inner: Arc<Inner>,
    replies: Replies<Reply>,
}

#[derive(Debug)]
struct Inner {
    workers: usize,
    order: Order,
    state: Mutex<State>,
}

/// Which of several equally urgent jobs comes first.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Order {
    /// The one that waited longest.
    OldestFirst,
    /// The one requested last: what is looked at now.
    NewestFirst,
}

#[derive(Default)]
struct State {
    waiting: Vec<(u8, Work)>,
    busy: usize,
    most_busy: usize,
}

impl std::fmt::Debug for State {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { waiting, busy, most_busy } = self;
        f.debug_struct("State")
            .field("waiting", &waiting.len())
            .field("busy", busy)
            .field("most_busy", most_busy)
            .finish()
    }
}

/// A thread, counted for as long as it works, even where its work panics.
struct AtWork {
    pool: Arc<Inner>,
    counted: bool,
}

impl Drop for AtWork {
    fn drop(&mut self) {
        if self.counted {
            self.pool.state().busy -= 1;
        }
    }
}

impl AtWork {
    /// The next job. Without one the thread is counted no longer, under the same lock: a job that
    /// comes a moment later finds it gone.
    fn next(&mut self) -> Option<Work> {
        let mut state = self.pool.state();
        let next = state.next(self.pool.order);
        if next.is_none() {
            state.busy -= 1;
            self.counted = false;
        }
        next
    }
}

impl Inner {
    fn state(&self) -> MutexGuard<'_, State> {
        // Nothing is left half done while the lock is held.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl State {
    fn next(&mut self, order: Order) -> Option<Work> {
        let most = self.waiting.iter().map(|(urgency, _)| *urgency).max()?;
        let mut all = self.waiting.iter();
        let at = match order {
            Order::OldestFirst => all.position(|(urgency, _)| *urgency == most),
            Order::NewestFirst => all.rposition(|(urgency, _)| *urgency == most),
        };
        Some(self.waiting.remove(at?).1)
    }
}

impl<Reply> std::fmt::Debug for WorkerPool<Reply> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("WorkerPool").field("inner", &self.inner).finish_non_exhaustive()
    }
}

impl<Reply> Drop for WorkerPool<Reply> {
    fn drop(&mut self) {
        self.inner.state().waiting.clear();
    }
}

impl<Reply: Send + 'static> WorkerPool<Reply> {
    /// At most `workers` threads; every reply wakes `context`.
    pub(crate) fn new(context: egui::Context, workers: usize, order: Order) -> Self {
        let inner = Arc::new(Inner { workers, order, state: Mutex::default() });
        Self { inner, replies: Replies::new(context) }
    }

    /// Takes a job in; the more urgent ones come first. `panicked` makes the reply where the
    /// job panics.
    pub(crate) fn push(
        &mut self,
        urgency: u8,
        work: impl FnOnce() -> Reply + Send + 'static,
        panicked: impl FnOnce(String) -> Reply + Send + 'static,
    ) {
        self.replies.expect();
        let replies = self.replies.sender();
        let work = move || {
            let reply = catch_unwind(AssertUnwindSafe(work))
                .unwrap_or_else(|panic| panicked(panic_words(panic.as_ref())));
            replies.done(Some(reply));
        };
        let mut state = self.inner.state();
        state.waiting.push((urgency, Box::new(work)));
        if state.busy == self.inner.workers {
            return;
        }
        state.busy += 1;
        state.most_busy = state.most_busy.max(state.busy);
        drop(state);
        let mut thread = AtWork { pool: Arc::clone(&self.inner), counted: true };
        std::thread::spawn(move || {
            while let Some(work) = thread.next() {
                work();
            }
        });
    }

    /// What came in since the last call.
    pub(crate) fn replies(&mut self) -> Vec<Reply> {
        self.replies.take().0
    }

    /// How many jobs are not done.
    pub(crate) const fn pending(&self) -> usize {
        self.replies.pending()
    }

    /// Drops what waits, and gives those at work so long to end.
    pub(crate) fn close(&self, within: Duration) {
        self.inner.state().waiting.clear();
        let deadline = Instant::now() + within;
        while self.inner.state().busy > 0 && Instant::now() < deadline {
            std::thread::sleep(Duration::from_millis(4));
        }
    }

    /// The most threads that were ever at work at once.
    pub(crate) fn most_busy(&self) -> usize {
        self.inner.state().most_busy
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::sync::mpsc::channel;

    use super::*;

    const LONG: Duration = Duration::from_secs(20);

    fn pool<Reply: Send + 'static>(workers: usize, order: Order) -> WorkerPool<Reply> {
        WorkerPool::new(egui::Context::default(), workers, order)
    }

    /// Frames until nothing is pending.
    fn all<Reply: Send + 'static>(pool: &mut WorkerPool<Reply>) -> Vec<Reply> {
        let (mut replies, until) = (Vec::new(), Instant::now() + LONG);
        while pool.pending() > 0 {
            assert!(Instant::now() < until, "it hangs with {} pending", pool.pending());
            replies.extend(pool.replies());
            std::thread::sleep(Duration::from_millis(1));
        }
        replies
    }

    fn in_turn(order: Order) -> (Vec<u8>, usize) {
        let mut pool = pool(1, order);
        let (gate, held) = channel::<()>();
        // The first job holds the only worker until all others wait.
        let first = move || {
            assert!(held.recv().is_err(), "the gate is only ever dropped");
            0
        };
        pool.push(9, first, |_| 100);
        for (urgency, name) in [(0, 1), (1, 2), (0, 3), (1, 4)] {
            pool.push(urgency, move || name, |_| 100);
        }
        drop(gate);
        (all(&mut pool), pool.most_busy())
    }

    #[test]
    fn the_urgent_first_then_by_age() {
        assert_eq!(in_turn(Order::OldestFirst), (vec![0, 2, 4, 1, 3], 1));
        assert_eq!(in_turn(Order::NewestFirst), (vec![0, 4, 2, 3, 1], 1));
    }

    /// Two jobs must be at work at once before either ends; a third beside them is seen while
    /// they last.
    #[test]
    fn as_many_at_once_as_it_has_workers_and_never_more() {
        let mut pool = pool(2, Order::OldestFirst);
        let at_work = Arc::new(AtomicUsize::new(0));
        let met = Arc::new(AtomicUsize::new(0));
        for _ in 0..20 {
            let (at_work, met) = (Arc::clone(&at_work), Arc::clone(&met));
            let work = move || {
                let mut most = at_work.fetch_add(1, Ordering::SeqCst) + 1;
                met.fetch_max(most, Ordering::SeqCst);
                let until = Instant::now() + LONG;
                // Alone, the first one waits here until the second comes.
                while met.load(Ordering::SeqCst) < 2 && Instant::now() < until {
                    std::thread::yield_now();
                }
                for _ in 0..3 {
                    std::thread::sleep(Duration::from_millis(1));
                    most = most.max(at_work.load(Ordering::SeqCst));
                }
                met.fetch_max(most, Ordering::SeqCst);
                at_work.fetch_sub(1, Ordering::SeqCst);
            };
            pool.push(0, work, |words| panic!("{words}"));
        }
        assert_eq!(all(&mut pool).len(), 20, "all done");
        assert_eq!((met.load(Ordering::SeqCst), pool.most_busy()), (2, 2));
    }

    #[test]
    fn a_job_that_panics_is_answered_and_leaves_the_others() {
        let mut pool = pool(1, Order::OldestFirst);
        pool.push(0, || panic!("as a job should not"), |words| words);
        pool.push(0, || "well".to_owned(), |words| words);
        let replies = all(&mut pool);
        assert!(replies[0].contains("(as a job should not)"), "{replies:?}");
        assert_eq!(replies[1..], ["well"]);
    }

    #[test]
    fn what_waits_is_dropped_with_the_pool() {
        let mut pool = pool(1, Order::OldestFirst);
        let (gate, held) = channel::<()>();
        let (begun, begins) = channel();
        let (note, notes) = channel();
        let first = move || {
            begun.send(()).unwrap();
            held.recv().unwrap_or_default();
        };
        pool.push(0, first, |_| ());
        begins.recv_timeout(LONG).unwrap();
        pool.push(0, move || note.send(()).unwrap(), |_| ());
        drop(pool);
        drop(gate);
        assert!(notes.recv_timeout(LONG).is_err(), "it was never done");
    }
}
