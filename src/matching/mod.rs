//! Which node is which.
