//! A few workers for many jobs: fifty pictures opened at once start two decoders, not fifty.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

type Work = Box<dyn FnOnce() + Send>;

/// Jobs done by a few workers, each by one of them; no worker exists while there is nothing to do.
#[derive(Clone, Debug)]
pub(super) struct WorkerPool(Arc<Inner>);

#[derive(Debug)]
struct Inner {
    workers: usize,
    order: Order,
    state: Mutex<State>,
}

/// Which of several equally urgent jobs comes first.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Order {
    /// The one that waited longest.
    OldestFirst,
    /// The one asked for last: what is looked at now.
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

/// A worker, counted for as long as it works, even where its work panics.
struct Worker {
    pool: Arc<Inner>,
    counted: bool,
}

impl Drop for Worker {
    fn drop(&mut self) {
        if self.counted {
            self.pool.state().busy -= 1;
        }
    }
}

impl Worker {
    /// The next job. Without one the worker is counted no longer, under the same lock: a job that
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

impl WorkerPool {
    pub(super) fn new(workers: usize, order: Order) -> Self {
        Self(Arc::new(Inner { workers, order, state: Mutex::default() }))
    }

    /// Takes a job in; the more urgent ones come first.
    pub(super) fn push(&self, urgency: u8, work: impl FnOnce() + Send + 'static) {
        let mut state = self.0.state();
        state.waiting.push((urgency, Box::new(work)));
        if state.busy == self.0.workers {
            return;
        }
        state.busy += 1;
        state.most_busy = state.most_busy.max(state.busy);
        drop(state);
        let mut worker = Worker { pool: Arc::clone(&self.0), counted: true };
        std::thread::spawn(move || {
            while let Some(work) = worker.next() {
                work();
            }
        });
    }

    /// Lets go of what waits, and gives those at work so long to end.
    pub(super) fn close(&self, within: Duration) {
        self.0.state().waiting.clear();
        let deadline = Instant::now() + within;
        while self.0.state().busy > 0 && Instant::now() < deadline {
            std::thread::sleep(Duration::from_millis(4));
        }
    }

    /// The most workers that were ever at work at once.
    pub(super) fn most_busy(&self) -> usize {
        self.0.state().most_busy
    }
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::channel;

    use super::*;

    fn done(order: Order, workers: usize) -> (Vec<u8>, usize) {
        let pool = WorkerPool::new(workers, order);
        let (gate, held) = channel::<()>();
        let (sender, receiver) = channel();
        // The first job holds the only worker until all others wait.
        pool.push(9, move || assert!(held.recv().is_err(), "the gate is only ever dropped"));
        for (urgency, name) in [(0, 1), (1, 2), (0, 3), (1, 4)] {
            let sender = sender.clone();
            pool.push(urgency, move || sender.send(name).unwrap());
        }
        drop((gate, sender));
        (receiver.iter().collect(), pool.most_busy())
    }

    #[test]
    fn the_urgent_first_then_by_age() {
        assert_eq!(done(Order::OldestFirst, 1), (vec![2, 4, 1, 3], 1));
        assert_eq!(done(Order::NewestFirst, 1), (vec![4, 2, 3, 1], 1));
    }

    /// Each job lasts until as many are at work as there are workers.
    #[test]
    fn never_more_hands_than_it_has() {
        let pool = WorkerPool::new(2, Order::OldestFirst);
        let (sender, receiver) = channel();
        for name in 0..20_u8 {
            let sender = sender.clone();
            pool.push(0, move || {
                std::thread::sleep(Duration::from_millis(1));
                sender.send(name).unwrap();
            });
        }
        drop(sender);
        assert_eq!(receiver.iter().count(), 20, "all done");
        assert!(pool.most_busy() <= 2, "{} at once", pool.most_busy());
    }

    #[test]
    fn a_job_that_panics_leaves_the_others() {
        let pool = WorkerPool::new(1, Order::OldestFirst);
        pool.push(0, || panic!("as a job should not"));
        let (sender, receiver) = channel();
        while pool.0.state().busy > 0 {
            std::thread::yield_now();
        }
        pool.push(0, move || sender.send(()).unwrap());
        assert_eq!(receiver.recv_timeout(Duration::from_secs(10)), Ok(()));
    }
}
