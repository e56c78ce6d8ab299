//! Everything slow or blocking, off the frame: a `Worker` is one thread with a queue, a
//! `WorkerPool` a few threads for many jobs. Their replies come by a channel, and each wakes the
//! window.

mod dialog;
mod jobs;
mod keep;
mod monitors;
mod opening;
mod picture;
mod pool;
mod replies;
mod watch;
mod worker;

pub(crate) use dialog::{Chosen, Dialog, Dialogs, Target};
pub use jobs::{DECODED_AT_ONCE, Done, Jobs, Onto, Purpose, Saved};
pub use keep::{Keep, KeptFile};
pub use opening::Opened;
pub use picture::{
    About, DECODER, Decoder, NoPicture, Part, PictureReply, PictureRequest, Pixels,
};
pub(crate) use pool::{Order, WorkerPool};
pub(crate) use replies::ReplySender;
pub use watch::Watched;
pub(crate) use worker::{Job, Worker};
