//! Reading that goes on beside the merge: of what an excerpt leaves out it has only to be known that it parses.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, mpsc};

use crate::grammar::Language;
use crate::syntax::Parsed;
use crate::threads::spawn;

/// Texts that two threads read, each the next that nobody has begun.
struct Texts {
    texts: Vec<Vec<u8>>,
    language: &'static Language,
    begun: AtomicUsize,
    done: AtomicUsize,
    /// Whether the others need not be read, because one does not parse or nobody asks any more.
    over: AtomicBool,
}

impl Texts {
    fn read(&self) {
        while !self.are_over()
            && let Some(text) = self.texts.get(self.begun.fetch_add(1, Ordering::Relaxed))
        {
            if Parsed::new(text, self.language).is_err() {
                self.give_up();
            }
            self.done.fetch_add(1, Ordering::Release);
        }
    }

    fn give_up(&self) {
        self.over.store(true, Ordering::Release);
    }

    fn are_over(&self) -> bool {
        self.over.load(Ordering::Acquire)
    }

    fn are_done(&self) -> bool {
        self.done.load(Ordering::Acquire) == self.texts.len()
    }
}

/// What is found while texts are being read, if all of them parse. A thread of its own begins to read them; what it
/// has not begun when it is found is read here.
///
/// That thread is started only now: to wake one that waits may take longer than all the reading.
pub(super) fn while_reading<T>(
    texts: Vec<Vec<u8>>,
    language: &'static Language,
    find: impl FnOnce() -> Option<T>,
) -> Option<T> {
    let input = texts.iter().map(Vec::len).sum();
    let (begun, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let texts = Arc::new(Texts { texts, language, begun, done, over: AtomicBool::new(false) });
    let (read, other_read) = mpsc::channel();
    let other = Arc::clone(&texts);
    // Where no thread is to be had, all is read here.
    let _ = spawn("beside", input, move || {
        other.read();
        let _ = read.send(());
    });
    let found = find();
    if found.is_none() {
        texts.give_up();
        return None;
    }
    texts.read();
    if !texts.are_done() && !texts.are_over() {
        other_read.recv().ok()?;
    }
    if texts.are_over() { None } else { found }
}
