//! The way back from a worker to the window: a channel whose every message wakes the window.

use std::any::Any;
use std::sync::mpsc::{Receiver, Sender, channel};

/// What a worker sends.
struct Message<Reply> {
    reply: Option<Reply>,
    /// Whether one of the requests is done with.
    done: bool,
}

/// The worker's end: any number of replies may be sent before a request is done.
pub(crate) struct ReplySender<Reply> {
    sender: Sender<Message<Reply>>,
    context: egui::Context,
}

impl<Reply> Clone for ReplySender<Reply> {
    fn clone(&self) -> Self {
        Self { sender: self.sender.clone(), context: self.context.clone() }
    }
}

impl<Reply> ReplySender<Reply> {
    /// One whose replies nobody reads.
    #[cfg(test)]
    pub(super) fn to_nobody() -> Self {
        Self { sender: channel().0, context: egui::Context::default() }
    }

    /// Sends a reply while the request is still being worked on.
    pub(crate) fn send(&self, reply: Reply) {
        self.message(Message { reply: Some(reply), done: false });
    }

    /// A request is done, with or without a last reply.
    pub(super) fn done(&self, reply: Option<Reply>) {
        self.message(Message { reply, done: true });
    }

    fn message(&self, message: Message<Reply>) {
        // The window may be closed by now.
        if self.sender.send(message).is_ok() {
            self.context.request_repaint();
        }
    }
}

/// The window's end, which also counts the requests that are not done.
pub(super) struct Replies<Reply> {
    sender: ReplySender<Reply>,
    receiver: Receiver<Message<Reply>>,
    pending: usize,
}

impl<Reply> Replies<Reply> {
    pub(super) fn new(context: egui::Context) -> Self {
        let (sender, receiver) = channel();
        Self { sender: ReplySender { sender, context }, receiver, pending: 0 }
    }

    pub(super) fn sender(&self) -> ReplySender<Reply> {
        self.sender.clone()
    }

    /// One more request is under way.
    pub(super) const fn expect(&mut self) {
        self.pending += 1;
    }

    /// How many requests are not done.
    pub(super) const fn pending(&self) -> usize {
        self.pending
    }

    /// What came in since the last call, and how many requests are done by it.
    pub(super) fn take(&mut self) -> (Vec<Reply>, usize) {
        let (mut replies, mut done) = (Vec::new(), 0);
        for message in self.receiver.try_iter() {
            done += usize::from(message.done);
            replies.extend(message.reply);
        }
        self.pending = self.pending.saturating_sub(done);
        (replies, done)
    }
}

/// What a person reads when a job panicked.
pub(super) fn panic_words(panic: &(dyn Any + Send)) -> String {
    let text = panic.downcast_ref::<&str>().copied();
    let text = text.or_else(|| panic.downcast_ref::<String>().map(String::as_str));
    format!(
        "this program made a mistake and could not finish ({}). Try again, and please report it",
        text.unwrap_or("no details")
    )
}
