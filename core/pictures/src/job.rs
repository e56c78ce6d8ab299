//! A picture job as a request and a reply that can be written down.
