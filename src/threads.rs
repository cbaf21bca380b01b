//! Threads for what must not take the program with it, or may as well go on beside it.

use std::io;
use std::sync::{Mutex, PoisonError};
use std::thread::JoinHandle;

/// Stack of a thread that parses, in bytes; only what is used is ever touched.
const STACK: usize = 256 << 20;

/// The threads that were started and not yet joined.
static STARTED: Mutex<Vec<JoinHandle<()>>> = Mutex::new(Vec::new());

/// Starts a thread that works on so many bytes of text. Nobody need wait for it: it is joined when it is done and
/// another one is started.
///
/// It is never detached: glibc may read of a thread that it has just detached what is unmapped already, with a stack too
/// large to be kept, if that thread ends meanwhile (`pthread_detach` in nptl).
pub(crate) fn spawn(name: &str, input: usize, work: impl FnOnce() + Send + 'static) -> io::Result<()> {
    let mut started = STARTED.lock().unwrap_or_else(PoisonError::into_inner);
    for done in started.extract_if(.., |thread| thread.is_finished()) {
        // A panic has been told of where it was waited for.
        let _ = done.join();
    }
    let thread = std::thread::Builder::new().name(name.to_owned()).stack_size(STACK).spawn(move || {
        take_memory(input);
        work();
    })?;
    started.push(thread);
    Ok(())
}

/// Has the allocator reserve about what a merge of so many bytes will need. On a thread that is not the first,
/// glibc's otherwise takes memory page by page, with a system call for each (`grow_heap` in malloc/arena.c).
fn take_memory(input: usize) {
    let size = (input * 64).clamp(1 << 20, 16 << 20);
    // What is freed the first time was mapped by itself; from then on such sizes come from the heap.
    for size in [size, size - size / 8] {
        drop(std::hint::black_box(Vec::<u8>::with_capacity(size)));
    }
}
