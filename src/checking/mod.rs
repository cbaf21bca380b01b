//! Soundness and the books, on the bytes alone.
