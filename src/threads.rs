//! Threads for what must not take the program with it, or may as well go on beside it.

use std::io;
use std::thread::JoinHandle;

/// Stack of a thread that parses, in bytes; only what is used is ever touched.
const STACK: usize = 256 << 20;

/// Starts a thread that works on so many bytes of text.
pub(crate) fn spawn<T: Send + 'static>(
    name: &str,
    input: usize,
    work: impl FnOnce() -> T + Send + 'static,
) -> io::Result<JoinHandle<T>> {
    std::thread::Builder::new().name(name.to_owned()).stack_size(STACK).spawn(move || {
        take_memory(input);
        work()
    })
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
