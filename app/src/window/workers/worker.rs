//! One thread with a queue, for work that must be done in order.

use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use sightedge_pictures::CancelToken;

use super::replies::{Replies, ReplySender, panic_words};

/// What a [`Worker`] does with each request.
pub(crate) trait Job: Send + 'static {
    /// What is asked of it.
    type Request: Send + 'static;
    /// What it answers.
    type Reply: Send + 'static;

    /// How long it waits without a request before [`Self::idle`] is called, again and again.
    const IDLE_AFTER: Option<Duration> = None;
    /// How long the window waits, when it closes, for the rest of the queue and
    /// [`Self::finish`].
    const FINISH_WITHIN: Duration = Duration::ZERO;

    /// Carries out a request; gives the last reply. Whether a cancelled request is skipped,
    /// stopped or carried out is for the job to decide.
    fn run(
        &mut self,
        request: Self::Request,
        token: &CancelToken,
        replies: &ReplySender<Self::Reply>,
    ) -> Option<Self::Reply>;

    /// The reply where `run` or `idle` panicked.
    fn panicked(&mut self, words: String) -> Option<Self::Reply>;

    /// What is done while there are no requests.
    fn idle(&mut self, _replies: &ReplySender<Self::Reply>) {}

    /// What is done last, once nothing more can be requested.
    fn finish(&mut self) {}
}

/// A thread that carries out requests one after another. Dropping it cancels all of them and
/// ends the thread once its queue is empty.
pub(crate) struct Worker<Request, Reply> {
    /// `None` once it is dropped, which is how the thread learns of the end.
    queue: Option<Sender<(Request, CancelToken)>>,
    replies: Replies<Reply>,
    /// Of the requests that are not done, the oldest first.
    tokens: VecDeque<CancelToken>,
    /// Disconnected once the thread has ended.
    ended: Receiver<()>,
    finish_within: Duration,
}

impl<Request, Reply> std::fmt::Debug for Worker<Request, Reply> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Worker")
            .field("pending", &self.replies.pending())
            .finish_non_exhaustive()
    }
}

impl<Request, Reply> Drop for Worker<Request, Reply> {
    fn drop(&mut self) {
        self.tokens.iter().for_each(CancelToken::cancel);
        self.queue = None;
        // A job that hangs must not keep the program open.
        self.ended.recv_timeout(self.finish_within).unwrap_or_default();
    }
}

impl<Request: Send + 'static, Reply: Send + 'static> Worker<Request, Reply> {
    /// Starts the thread; every reply wakes `context`.
    pub(crate) fn new(
        context: egui::Context,
        job: impl Job<Request = Request, Reply = Reply>,
    ) -> Self {
        let (queue, requests) = channel();
        let (end, ended) = channel::<()>();
        let replies = Replies::new(context);
        let (sender, finish_within) = (replies.sender(), finish_within(&job));
        std::thread::spawn(move || {
            work(job, &requests, &sender);
            drop(end);
        });
        Self { queue: Some(queue), replies, tokens: VecDeque::new(), ended, finish_within }
    }

    /// Puts a request at the end of the queue. Its token cancels it.
    pub(crate) fn request(&mut self, request: Request) -> CancelToken {
        let token = CancelToken::default();
        let sent = self.queue.as_ref().map(|queue| queue.send((request, token.clone())));
        if sent.is_some_and(|sent| sent.is_ok()) {
            self.replies.expect();
            self.tokens.push_back(token.clone());
        }
        token
    }

    /// Cancels all requests that are not done.
    pub(crate) fn cancel_all(&self) {
        self.tokens.iter().for_each(CancelToken::cancel);
    }

    /// What came in since the last call.
    pub(crate) fn replies(&mut self) -> Vec<Reply> {
        let (replies, done) = self.replies.take();
        self.tokens.drain(..done.min(self.tokens.len()));
        replies
    }

    /// How many requests are not done.
    pub(crate) const fn pending(&self) -> usize {
        self.replies.pending()
    }
}

const fn finish_within<J: Job>(_: &J) -> Duration {
    J::FINISH_WITHIN
}

fn work<J: Job>(
    mut job: J,
    requests: &Receiver<(J::Request, CancelToken)>,
    replies: &ReplySender<J::Reply>,
) {
    loop {
        let next = match J::IDLE_AFTER {
            Some(after) => requests.recv_timeout(after),
            None => requests.recv().map_err(RecvTimeoutError::from),
        };
        match next {
            Ok((request, token)) => {
                let run = AssertUnwindSafe(|| job.run(request, &token, replies));
                let last = catch_unwind(run)
                    .unwrap_or_else(|panic| job.panicked(panic_words(panic.as_ref())));
                replies.done(last);
            }
            Err(RecvTimeoutError::Timeout) => {
                if let Err(panic) = catch_unwind(AssertUnwindSafe(|| job.idle(replies)))
                    && let Some(reply) = job.panicked(panic_words(panic.as_ref()))
                {
                    replies.send(reply);
                }
            }
            Err(RecvTimeoutError::Disconnected) => return job.finish(),
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::{Receiver, Sender, channel};
    use std::time::Instant;

    use super::*;

    /// Echoes numbers, each once a gate lets it; notes what becomes of it.
    struct Echo {
        gate: Receiver<()>,
        note: Sender<String>,
    }

    impl Job for Echo {
        type Request = u32;
        type Reply = String;
        const IDLE_AFTER: Option<Duration> = Some(Duration::from_millis(20));
        const FINISH_WITHIN: Duration = Duration::from_secs(20);

        fn run(
            &mut self,
            request: u32,
            token: &CancelToken,
            replies: &ReplySender<String>,
        ) -> Option<String> {
            self.gate.recv().unwrap_or_default();
            replies.send(format!("{request} begun"));
            assert_ne!(request, 13, "unlucky");
            let cancelled = if token.is_cancelled() { ", cancelled" } else { "" };
            self.note.send(format!("{request} done{cancelled}")).unwrap();
            Some(format!("{request} done"))
        }

        fn panicked(&mut self, words: String) -> Option<String> {
            Some(words)
        }

        fn idle(&mut self, _: &ReplySender<String>) {
            self.note.send("idle".to_owned()).unwrap_or_default();
        }

        fn finish(&mut self) {
            // So that a worker that does not wait for it is found out.
            std::thread::sleep(Duration::from_millis(60));
            self.note.send("finished".to_owned()).unwrap();
        }
    }

    fn echo() -> (Worker<u32, String>, Sender<()>, Receiver<String>) {
        let (open, gate) = channel();
        let (note, notes) = channel();
        (Worker::new(egui::Context::default(), Echo { gate, note }), open, notes)
    }

    /// All replies up to the moment when nothing is pending.
    fn all(worker: &mut Worker<u32, String>) -> Vec<String> {
        let (mut replies, until) = (Vec::new(), Instant::now() + Duration::from_secs(20));
        while worker.pending() > 0 {
            assert!(Instant::now() < until, "it hangs after {replies:?}");
            replies.extend(worker.replies());
            std::thread::sleep(Duration::from_millis(1));
        }
        replies
    }

    #[test]
    fn requests_are_done_in_order_and_counted() {
        let (mut worker, open, _notes) = echo();
        for number in [1, 2, 3] {
            worker.request(number);
        }
        assert_eq!((worker.replies(), worker.pending()), (Vec::new(), 3));
        drop(open);
        let wanted =
            ["1 begun", "1 done", "2 begun", "2 done", "3 begun", "3 done"].map(str::to_owned);
        assert_eq!(all(&mut worker), wanted);
    }

    #[test]
    fn a_panic_is_a_reply_and_the_next_request_is_done() {
        let (mut worker, open, _notes) = echo();
        drop(open);
        worker.request(13);
        worker.request(14);
        let replies = all(&mut worker);
        assert_eq!((replies.len(), replies[0].as_str()), (4, "13 begun"), "{replies:?}");
        assert!(
            replies[1].starts_with("this program made a mistake and could not finish (")
                && replies[1].contains("unlucky"),
            "{replies:?}"
        );
        assert_eq!(replies[2..], ["14 begun", "14 done"]);
    }

    #[test]
    fn what_is_dropped_is_cancelled_and_waited_for() {
        let (mut worker, open, notes) = echo();
        worker.request(1);
        worker.request(2);
        let token = worker.request(3);
        drop(open);
        drop(worker);
        assert!(token.is_cancelled(), "so that a job that minds it stops");
        let notes: Vec<String> = notes.try_iter().filter(|note| note != "idle").collect();
        assert_eq!((notes.len(), notes[3].as_str()), (4, "finished"), "{notes:?}");
        assert!(notes[2].starts_with("3 done"), "its queue is done with: {notes:?}");
    }

    #[test]
    fn it_is_idle_between_requests() {
        let (mut worker, open, notes) = echo();
        drop(open);
        for _ in 0..3 {
            assert_eq!(notes.recv_timeout(Duration::from_secs(20)).unwrap(), "idle");
        }
        assert_eq!(worker.pending(), 0, "that is nobody's request");
        worker.request(1);
        assert_eq!(all(&mut worker).len(), 2);
    }
}
